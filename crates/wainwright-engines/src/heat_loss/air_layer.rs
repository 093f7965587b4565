//! Resistance of a layer of air. Not here: whether air can get into it from outside.

use wainwright_units::{Length, Ratio, Temperature};

use super::layers::Flow;
use crate::conductor_heat::air::STEFAN_BOLTZMANN;
use crate::refusal::{Refusal, above_zero, require};

/// Conductivity of the air in the layer [W/(m·K)] (ISO 6946; memory).
const STILL_AIR: f64 = 0.025;

/// Resistance of an air layer [m²K/W] between two surfaces of an emissivity, at its mean
/// temperature. The standard takes 10 °C; the difference across the layer is up to 5 K.
///
/// # Errors
/// A thickness that is not above zero, an emissivity outside above 0 to 1, absolute zero.
pub fn air_layer(
    thickness: Length,
    flow: Flow,
    mean: Temperature,
    outer_emissivity: Ratio,
    inner_emissivity: Ratio,
) -> Result<f64, Refusal> {
    let metres = thickness.metres();
    above_zero("thickness of the air layer [m]", metres)?;
    above_zero(
        "mean temperature of the air layer [K]",
        mean.kelvins_absolute(),
    )?;
    let radiation = between(outer_emissivity, inner_emissivity)?
        * 4.0
        * STEFAN_BOLTZMANN
        * mean.kelvins_absolute().powi(3);
    let moving = match flow {
        Flow::Horizontal => 1.25,
        Flow::Up => 1.95,
        Flow::Down => 0.12 * metres.powf(-0.44),
    };
    Ok(1.0 / (moving.max(STILL_AIR / metres) + radiation))
}

/// Emissivity of the space between two surfaces.
fn between(outer: Ratio, inner: Ratio) -> Result<f64, Refusal> {
    for emissivity in [outer.fraction(), inner.fraction()] {
        require(
            "emissivity",
            emissivity,
            emissivity > 0.0 && emissivity <= 1.0,
            "above 0 to 1",
        )?;
    }
    Ok(1.0 / (1.0 / outer.fraction() + 1.0 / inner.fraction() - 1.0))
}
