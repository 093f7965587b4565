//! The rules of living in the box and of cabinets, one file each. Not here: the order they are shown in (see
//! [`crate::catalogue`]).

pub(crate) mod air_too_stale;
pub(crate) mod cabinet_too_hot;
pub(crate) mod devices_overlap;
pub(crate) mod does_not_fit_cabinet;
pub(crate) mod fuses_out_of_reach;
pub(crate) mod heater_too_small;
pub(crate) mod mould_on_surface;
pub(crate) mod no_alarm_listed;
pub(crate) mod water_in_wall;
mod words;
