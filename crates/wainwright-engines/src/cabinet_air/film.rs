//! Films of an upright wall, and what mesh does to an opening. Not here: walls between the films.

use wainwright_units::{Length, Ratio, STANDARD_GRAVITY, Temperature, TemperatureDifference};

use crate::conductor_heat::air;
use crate::refusal::{Refusal, above_zero, not_below_zero, require};

/// Air in a film.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FilmAir {
    /// Its temperature.
    pub temperature: Temperature,
    /// Conductivity [W/(m·K)], above zero.
    pub watts_per_metre_kelvin: f64,
    /// Kinematic viscosity [m²/s], above zero.
    pub m2_per_second: f64,
    /// Prandtl number, above zero.
    pub prandtl: f64,
}

impl FilmAir {
    /// Dry air at sea level.
    ///
    /// # Errors
    /// Absolute zero.
    pub fn dry(temperature: Temperature) -> Result<Self, Refusal> {
        let kelvin = temperature.kelvins_absolute();
        above_zero("absolute temperature [K]", kelvin)?;
        Ok(Self {
            temperature,
            watts_per_metre_kelvin: air::conductivity(kelvin),
            m2_per_second: air::kinematic_viscosity(kelvin),
            prandtl: air::PRANDTL,
        })
    }
}

/// Heat that still air takes from an upright wall [W/(m²K)].
///
/// # Errors
/// A height or property that is not above zero, or a difference below zero.
pub fn upright_film(
    height: Length,
    difference: TemperatureDifference,
    film: &FilmAir,
) -> Result<f64, Refusal> {
    let metres = height.metres();
    above_zero("height of the wall [m]", metres)?;
    not_below_zero("difference of wall and air [K]", difference.kelvins())?;
    above_zero(
        "absolute temperature of the film [K]",
        film.temperature.kelvins_absolute(),
    )?;
    above_zero(
        "conductivity of the air [W/(m·K)]",
        film.watts_per_metre_kelvin,
    )?;
    above_zero("viscosity of the air [m²/s]", film.m2_per_second)?;
    above_zero("Prandtl number", film.prandtl)?;
    let buoyancy = STANDARD_GRAVITY * difference.kelvins() / film.temperature.kelvins_absolute();
    let rayleigh = buoyancy * metres.powi(3) / film.m2_per_second.powi(2) * film.prandtl;
    let shape = (1.0 + (0.492 / film.prandtl).powf(9.0 / 16.0)).powf(8.0 / 27.0);
    let nusselt = (0.825 + 0.387 * rayleigh.powf(1.0 / 6.0) / shape).powi(2);
    Ok(nusselt * film.watts_per_metre_kelvin / metres)
}

/// Heat radiated between a wall and what it sees [W/(m²K)].
///
/// # Errors
/// Absolute zero, or an emissivity outside 0 to 1.
pub fn radiant_film(
    wall: Temperature,
    seen: Temperature,
    emissivity: Ratio,
) -> Result<f64, Refusal> {
    let (one, other) = (wall.kelvins_absolute(), seen.kelvins_absolute());
    above_zero("absolute temperature of the wall [K]", one)?;
    above_zero("absolute temperature of what it sees [K]", other)?;
    let share = emissivity.fraction();
    require("emissivity", share, (0.0..=1.0).contains(&share), "0 to 1")?;
    Ok(share * air::STEFAN_BOLTZMANN * (one * one + other * other) * (one + other))
}

/// Discharge coefficient of an opening from its losses, each counted on the speed in the opening:
/// the opening itself, mesh, louvres.
///
/// # Errors
/// A loss below zero, or losses of less than one together: a jet loses its own speed.
pub fn discharge_coefficient(losses: &[f64]) -> Result<Ratio, Refusal> {
    for (index, &loss) in losses.iter().enumerate() {
        not_below_zero("loss of the opening", loss).map_err(|refusal| refusal.at("loss", index))?;
    }
    let sum: f64 = losses.iter().sum();
    require(
        "losses of the opening together",
        sum,
        sum >= 1.0,
        "1 or more",
    )?;
    Ok(Ratio::from_fraction(1.0 / sum.sqrt()))
}
