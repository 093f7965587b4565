//! Tipping sideways about the outer tyre.

use wainwright_units::{Angle, Area, Length, Mass, Ratio, STANDARD_GRAVITY};

use crate::refusal::{Refusal, above_zero, finite, require};

/// What decides whether something tips.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stance {
    /// Middle of the left tyres to the middle of the right ones [m], above zero.
    pub track: Length,
    /// Ground to centre of gravity [m], above zero.
    pub height: Length,
    /// Centre of gravity away from the middle \[m\], either way, within half the track.
    pub sideways: Length,
    /// Share of the rigid threshold that tyres and suspension leave, above 0 to 1.
    pub softness: Ratio,
}

/// Wind square to the side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CrossWind {
    /// Area of the side \[m²\], above zero.
    pub side: Area,
    /// Force coefficient of that area, above zero.
    pub coefficient: f64,
    /// Height at which the force acts [m], above zero.
    pub height: Length,
    /// Density of the air [kg/m³], above zero.
    pub air_kg_per_m3: f64,
}

/// Half the track (less what the load is off the middle) over the height.
///
/// # Errors
/// A length or share that cannot be.
pub fn stability_factor(stance: &Stance) -> Result<Ratio, Refusal> {
    Ok(Ratio::from_fraction(arm(stance)? / stance.height.metres()))
}

/// Sideways acceleration at which the inner wheels lift, in units of free fall.
///
/// # Errors
/// As [`stability_factor`].
pub fn threshold(stance: &Stance) -> Result<Ratio, Refusal> {
    Ok(stability_factor(stance)? * stance.softness)
}

/// Side slope on which a standing vehicle tips \[°\].
///
/// # Errors
/// As [`stability_factor`].
pub fn side_slope(stance: &Stance) -> Result<Angle, Refusal> {
    Ok(Angle::from_radians(threshold(stance)?.fraction().atan()))
}

/// Steady speed at which a flat bend of a radius tips the vehicle [m/s].
///
/// # Errors
/// As [`stability_factor`]; a radius that is not above zero.
pub fn bend_speed(stance: &Stance, radius: Length) -> Result<f64, Refusal> {
    above_zero("radius of the bend [m]", radius.metres())?;
    Ok((STANDARD_GRAVITY * radius.metres() * threshold(stance)?.fraction()).sqrt())
}

/// Sideways speed at which a rigid vehicle that slides into a kerb just tips over [m/s].
/// `roll_inertia` is that about the lengthwise axis through the centre of gravity [kg·m²].
///
/// # Errors
/// As [`stability_factor`]; a mass or inertia that is not above zero.
pub fn sliding_speed(stance: &Stance, mass: Mass, roll_inertia: f64) -> Result<f64, Refusal> {
    let arm = arm(stance)?;
    above_zero("mass [kg]", mass.kilograms())?;
    above_zero("roll inertia [kg·m²]", roll_inertia)?;
    let height = stance.height.metres();
    let to_edge = arm.hypot(height);
    let about_edge = roll_inertia + mass.kilograms() * to_edge * to_edge;
    let rise = to_edge - height;
    Ok((2.0 * STANDARD_GRAVITY * about_edge * rise / mass.kilograms()).sqrt() / height)
}

/// Steady wind square to the side that tips a standing vehicle [m/s].
///
/// # Errors
/// As [`stability_factor`]; a mass, area, coefficient, height or density that is not above zero.
pub fn crosswind_speed(stance: &Stance, mass: Mass, wind: &CrossWind) -> Result<f64, Refusal> {
    let arm = arm(stance)?;
    above_zero("mass [kg]", mass.kilograms())?;
    above_zero("area of the side [m²]", wind.side.square_metres())?;
    above_zero("force coefficient", wind.coefficient)?;
    above_zero("height of the wind force [m]", wind.height.metres())?;
    above_zero("density of the air [kg/m³]", wind.air_kg_per_m3)?;
    let per_speed_squared = 0.5
        * wind.air_kg_per_m3
        * wind.coefficient
        * wind.side.square_metres()
        * wind.height.metres();
    Ok((mass.weight().newtons() * arm / per_speed_squared).sqrt())
}

/// Sideways distance from the centre of gravity to the tyre about which it tips first \[m\].
fn arm(stance: &Stance) -> Result<f64, Refusal> {
    above_zero("track [m]", stance.track.metres())?;
    above_zero(
        "height of the centre of gravity [m]",
        stance.height.metres(),
    )?;
    finite("centre of gravity sideways [m]", stance.sideways.metres())?;
    let softness = stance.softness.fraction();
    require(
        "share that suspension leaves",
        softness,
        softness > 0.0 && softness <= 1.0,
        "above 0 to 1",
    )?;
    let arm = 0.5 * stance.track.metres() - stance.sideways.metres().abs();
    require(
        "centre of gravity sideways [m]",
        stance.sideways.metres(),
        arm > 0.0,
        "within half the track",
    )?;
    Ok(arm)
}
