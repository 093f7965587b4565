//! The rules of the towing job, one file each. Not here: the order they are
//! shown in (see [`crate::catalogue`]).

pub(crate) mod brakes_asked_for;
pub(crate) mod coupler_underrated;
pub(crate) mod door_blocked;
pub(crate) mod front_too_large;
pub(crate) mod lopsided_load;
pub(crate) mod nose_high;
pub(crate) mod not_held;
pub(crate) mod rating_exceeded;
pub(crate) mod sticks_out;
pub(crate) mod sway_little_damped;
pub(crate) mod things_collide;
pub(crate) mod tips_on_its_tail;
pub(crate) mod tongue_too_heavy;
pub(crate) mod tongue_too_light;
pub(crate) mod weakly_held;
pub(crate) mod weighings_disagree;
pub(crate) mod weight_unknown;
