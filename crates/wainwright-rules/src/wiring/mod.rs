//! The rules of the wiring job, one file each, and the few helpers two of
//! them share. Not here: the order they are shown in (see
//! [`crate::catalogue`]).

mod derated;
mod highest;
mod joined;

pub(crate) mod battery_overdrawn;
pub(crate) mod derated_by_bundle;
pub(crate) mod derated_by_hot_place;
pub(crate) mod frame_as_return;
pub(crate) mod fuse_behind_switch;
pub(crate) mod fuse_run_hard;
pub(crate) mod fuse_too_small;
pub(crate) mod gear_unplaced;
pub(crate) mod hot_joint;
pub(crate) mod insulation_fails_in_short;
pub(crate) mod interrupt_rating_too_low;
pub(crate) mod inverter_lead_weak;
pub(crate) mod loose_terminal;
pub(crate) mod not_selective;
pub(crate) mod overheated_conductor;
pub(crate) mod overloaded_chain;
pub(crate) mod oversized_fuse;
pub(crate) mod parallel_batteries_unprotected;
pub(crate) mod pvc_against_foam;
pub(crate) mod reversed_polarity;
pub(crate) mod self_resetting_breaker;
pub(crate) mod shared_charger_protection;
pub(crate) mod shared_way;
pub(crate) mod short_never_cleared;
pub(crate) mod sources_add_up;
pub(crate) mod supply_collapses;
pub(crate) mod switch_overloaded;
pub(crate) mod thin_supplied_lead;
pub(crate) mod unfused_source_stretch;
pub(crate) mod unsized_wire;
pub(crate) mod untold_figure;
pub(crate) mod voltage_drop;
pub(crate) mod voltage_rating_too_low;
pub(crate) mod wire_below_minimum_size;
pub(crate) mod wire_through_opening;
pub(crate) mod wire_too_short;
