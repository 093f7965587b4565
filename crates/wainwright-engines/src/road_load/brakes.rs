//! Stopping, starting on a hill, standing on one.

use wainwright_units::{Duration, Force, Length, Mass, Ratio, STANDARD_GRAVITY};

use super::force::{Vehicle, rolling_and_grade};
use crate::refusal::{Refusal, above_zero, finite, not_below_zero};

/// A stop.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stop {
    /// Distance before the brakes act \[m\].
    pub reaction: Length,
    /// Distance under the brakes \[m\].
    pub braking: Length,
    /// Both \[m\].
    pub whole: Length,
}

/// Distance to stop from a speed [m/s] at a steady deceleration [m/s²].
///
/// # Errors
/// A speed or time below zero, or a deceleration that is not above zero.
pub fn stopping_distance(
    metres_per_second: f64,
    deceleration: f64,
    reaction: Duration,
) -> Result<Stop, Refusal> {
    not_below_zero("speed [m/s]", metres_per_second)?;
    above_zero("deceleration [m/s²]", deceleration)?;
    not_below_zero("reaction time [s]", reaction.seconds())?;
    let reaction = Length::from_metres(metres_per_second * reaction.seconds());
    let braking = Length::from_metres(metres_per_second * metres_per_second / (2.0 * deceleration));
    Ok(Stop {
        reaction,
        braking,
        whole: reaction + braking,
    })
}

/// Deceleration at the friction limit when only the tow vehicle brakes [m/s²]: the tongue load
/// helps it, the rest of the trailer pushes.
///
/// # Errors
/// A friction or mass that is not above zero, or a tongue load that is not finite.
pub fn unbraked_deceleration(
    friction: f64,
    vehicle: Mass,
    trailer: Mass,
    tongue: Mass,
) -> Result<f64, Refusal> {
    above_zero("friction", friction)?;
    above_zero("mass of the tow vehicle [kg]", vehicle.kilograms())?;
    not_below_zero("mass of the trailer [kg]", trailer.kilograms())?;
    finite("tongue load [kg]", tongue.kilograms())?;
    Ok(friction * STANDARD_GRAVITY * ((vehicle + tongue) / (vehicle + trailer)))
}

/// Force to start an outfit on a grade at an acceleration [m/s²].
///
/// # Errors
/// No vehicle, or a value that cannot be.
pub fn start_force(
    vehicles: &[Vehicle],
    grade: Ratio,
    acceleration: f64,
) -> Result<Force, Refusal> {
    not_below_zero("acceleration [m/s²]", acceleration)?;
    let mass: Mass = vehicles.iter().map(|vehicle| vehicle.mass).sum();
    let inertia = Force::from_newtons(mass.kilograms() * acceleration);
    Ok(rolling_and_grade(vehicles, grade)? + inertia)
}

/// Force that brakes or chocks must hold on a grade \[N\], no help from rolling resistance.
///
/// # Errors
/// A mass that is not above zero, or a grade that is not finite.
pub fn hold_force(mass: Mass, grade: Ratio) -> Result<Force, Refusal> {
    above_zero("mass [kg]", mass.kilograms())?;
    finite("grade", grade.fraction())?;
    Ok(mass.weight() * grade.fraction().atan().sin().abs())
}
