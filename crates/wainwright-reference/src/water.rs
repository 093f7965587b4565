//! Water as a load: its density, and when a tank rocks with the trailer.
//!
//! Not here: how much water a trip needs (engines).

use wainwright_units::Length;

use crate::mark::Sourced;
use crate::store::{Topic, find};

/// Density of water [kg/L].
pub fn water_density() -> Option<Sourced<f64>> {
    find(Topic::WaterConstants, "id", "density-kg-per-litre")?.quantity("value", |value| value)
}

/// Widest free width of a tank across the trailer without baffles.
pub fn slosh_width() -> Option<Sourced<Length>> {
    find(Topic::WaterConstants, "id", "slosh-width-m")?.quantity("value", Length::from_metres)
}

/// Why that width matters and what to do, in sentences.
pub fn slosh_note() -> Option<Sourced<&'static str>> {
    let row = find(Topic::WaterConstants, "id", "slosh-width-m")?;
    Some(row.sourced(row.text("text")?))
}
