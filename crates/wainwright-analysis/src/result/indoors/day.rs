//! The hottest hour of a clear summer day. Not here: what a side is made of.

use crate::known::Known;
use wainwright_model::{Id, Side};
use wainwright_units::{Angle, Power, Temperature};

/// The hottest hour of a clear summer day, parked the worst way round.
#[derive(Debug, Clone, PartialEq)]
pub struct SunnyDay {
    /// Month, 1 is January.
    pub month: u32,
    /// Standard time of that hour, 0 to 24 \[h\].
    pub hour: f64,
    /// Where the front looks to: north 0, east 90.
    pub front: Angle,
    /// Air outside.
    pub outside: Known<Temperature>,
    /// Air inside that is wanted.
    pub inside: Known<Temperature>,
    /// Share of the sunlight that the skin takes up over its film [m²K/W].
    pub absorbing: Known<f64>,
    /// Each side.
    pub sides: Vec<SunnySide>,
    /// Each opening.
    pub panes: Vec<SunnyPane>,
    /// With the air.
    pub air: Power,
    /// People, heat that warms the air.
    pub people: Power,
    /// All that warms the air.
    pub sensible: Power,
    /// Heat in the water of people's breath.
    pub latent: Power,
    /// What a cooler must take out.
    pub total: Power,
    /// The same in each hour of that day: hour \[h\] and heat that must be taken out.
    pub hours: Vec<(f64, Power)>,
}

/// A side in the sun.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SunnySide {
    /// Which.
    pub side: Side,
    /// Light on it [W/m²].
    pub light: f64,
    /// Air temperature that would do the same without sun and sky.
    pub sol_air: Temperature,
    /// Heat into the room.
    pub heat: Power,
}

/// An opening in the sun.
#[derive(Debug, Clone, PartialEq)]
pub struct SunnyPane {
    /// Which.
    pub opening: Id,
    /// Light on it [W/m²].
    pub light: f64,
    /// Heat by the difference of the airs.
    pub conducted: Power,
    /// Heat by the sun.
    pub sun: Power,
}
