//! Conductivity of wood from its density and moisture. Not here: tables of materials.

use wainwright_units::{Ratio, ThermalConductivity};

use crate::refusal::{Refusal, require};

/// Conductivity of wood across the grain from its specific gravity and its moisture content, good
/// to a fifth; along the grain it is about 1.8 times as much.
///
/// # Errors
/// A specific gravity outside 0.3 to 0.8, or moisture outside 0 to 25 %.
pub fn wood_conductivity(gravity: Ratio, moisture: Ratio) -> Result<ThermalConductivity, Refusal> {
    let (gravity, percent) = (gravity.fraction(), moisture.percent());
    require(
        "specific gravity of the wood",
        gravity,
        (0.3..=0.8).contains(&gravity),
        "0.3 to 0.8",
    )?;
    require(
        "moisture of the wood [%]",
        percent,
        (0.0..=25.0).contains(&percent),
        "0 to 25",
    )?;
    Ok(ThermalConductivity::from_watts_per_kelvin_metre(
        gravity * (0.1941 + 0.004_064 * percent) + 0.018_64,
    ))
}
