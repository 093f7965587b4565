//! The rules of charging settings, one file each, over the conflicts that the settings study finds. Not here: the order
//! they are shown in (see [`crate::catalogue`]).

mod found;

pub(crate) mod battery_never_full;
pub(crate) mod cells_never_balance;
pub(crate) mod charge_above_loads;
pub(crate) mod charge_above_protection;
pub(crate) mod charge_current_above_battery;
pub(crate) mod compensation_on_lithium;
pub(crate) mod controller_cannot_wake;
pub(crate) mod disconnect_below_protection;
pub(crate) mod equalise_on_lithium;
pub(crate) mod float_misset;
pub(crate) mod lead_acid_profile;
pub(crate) mod load_dump;
pub(crate) mod loads_fail_first;
pub(crate) mod loads_off_too_long;
pub(crate) mod module_voltage_above_controller;
pub(crate) mod no_cold_lockout;
pub(crate) mod restart_too_near;
pub(crate) mod tail_current_misset;
