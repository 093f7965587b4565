//! How steep a ramp the tail clears.

use wainwright_units::{Angle, Length};

use crate::refusal::{Refusal, above_zero, not_below_zero};

/// Steepest ramp that the tail clears \[°\], from the height of its lowest point over the ground
/// and the distance of that point behind the contact of the last wheels.
///
/// # Errors
/// A height below zero or a distance that is not above zero.
pub fn departure_angle(height: Length, behind_wheels: Length) -> Result<Angle, Refusal> {
    not_below_zero("height of the tail [m]", height.metres())?;
    above_zero("tail behind the wheels [m]", behind_wheels.metres())?;
    Ok(Angle::from_radians(
        height.metres().atan2(behind_wheels.metres()),
    ))
}
