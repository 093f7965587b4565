//! Usual figures of solar modules, and of what stands around them on a trip.
//!
//! Not here: controllers (`device_class`), light and weather (`climate`, engines).

use wainwright_units::{Duration, Ratio};

use crate::id::ids;
use crate::mark::Sourced;
use crate::store::{Topic, find};

ids! {
    /// How air gets to the back of a module.
    Mounted {
        /// Air all round.
        Free = "free",
        /// On feet over a roof.
        Raised = "raised",
        /// Glued to a roof.
        Glued = "glued",
    }
}

/// Heat a module gives to the air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cooling {
    /// In still air [W/(m² K)].
    pub still: Sourced<f64>,
    /// More for each metre per second of wind [W s/(m³ K)].
    pub by_wind: Sourced<f64>,
}

/// Part of its power a silicon module loses per kelvin [1/K].
pub fn power_per_degree() -> Option<Sourced<f64>> {
    number("power-per-degree")
}

/// Loss in dim light, k of the correction.
pub fn dim_loss() -> Option<Sourced<f64>> {
    number("dim-loss")
}

/// Coefficient of clean glass.
pub fn glass() -> Option<Sourced<f64>> {
    number("glass")
}

/// Share of the light that the ground throws back.
pub fn ground() -> Option<Sourced<Ratio>> {
    share("ground")
}

/// Heat given off by a module so mounted.
pub fn cooling(mounted: Mounted) -> Option<Cooling> {
    Some(Cooling {
        still: number(&format!("{}-still", mounted.id()))?,
        by_wind: number(&format!("{}-by-wind", mounted.id()))?,
    })
}

/// Part of the power lost to dirt, by whether rain rinses the module.
pub fn dirt(tilted: bool) -> Option<Sourced<Ratio>> {
    share(if tilted { "dirt-tilted" } else { "dirt-flat" })
}

/// Part of the power lost because modules differ.
pub fn mismatch() -> Option<Sourced<Ratio>> {
    share("mismatch")
}

/// Heat that a lined trailer loses through its walls before they are described [W/(m² K)].
pub fn envelope() -> Option<Sourced<f64>> {
    number("envelope")
}

/// Charge at which loads come back after the battery ran empty.
pub fn reconnect() -> Option<Sourced<Ratio>> {
    share("camper-reconnect")
}

/// Time in which the cells follow the air around them.
pub fn cell_lag() -> Option<Sourced<Duration>> {
    find(Topic::SolarConstants, "id", "cell-lag")?.quantity("value", Duration::from_hours)
}

fn number(id: &str) -> Option<Sourced<f64>> {
    find(Topic::SolarConstants, "id", id)?.quantity("value", |value| value)
}

fn share(id: &str) -> Option<Sourced<Ratio>> {
    find(Topic::SolarConstants, "id", id)?.quantity("value", Ratio::from_fraction)
}
