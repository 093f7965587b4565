//! Light above the air, and how much air is in its way. Not here: clouds or haze.

use std::f64::consts::TAU;
use wainwright_units::{Angle, Length};

/// Solar constant of the series used here [W/m²] (read).
const SOLAR_CONSTANT: f64 = 1366.1;

/// Sea-level pressure [Pa].
const SEA_LEVEL_PASCALS: f64 = 101_325.0;

/// Light on a surface that faces the sun above the air [W/m²], for a day of the year.
pub fn extraterrestrial(day_of_year: u32) -> f64 {
    let angle = TAU * (f64::from(day_of_year) - 1.0) / 365.0;
    let (sine, cosine) = angle.sin_cos();
    // sin 2B and cos 2B by the rule of double angles: this runs in every step of a simulation.
    SOLAR_CONSTANT
        * (1.00011
            + 0.034_221 * cosine
            + 0.001_28 * sine
            + 0.000_719 * (2.0 * cosine * cosine - 1.0)
            + 0.000_077 * (2.0 * sine * cosine))
}

/// Light on flat ground above the air in a whole day [kWh/m²], by the closed equation.
///
/// Zero in the polar night; the whole day counts when the sun does not set. The equation's sun is
/// up to a degree off in spring and autumn: 2 to 3 % of the light at 40° north.
pub fn daily_extraterrestrial(latitude: Angle, day_of_year: u32) -> f64 {
    daily_extraterrestrial_of(1367.0, latitude, day_of_year) / 1000.0
}

/// Standard air pressure at an altitude [Pa]; zero above the air of the formula (44.3 km).
pub fn air_pressure(altitude: Length) -> f64 {
    let base = ((44_331.514 - altitude.metres()) / 11_880.516).max(0.0);
    100.0 * base.powf(1.0 / 0.190_263_2)
}

/// How often the light crosses the air above the place, from the apparent zenith (Kasten–Young).
///
/// `None` when the sun is down.
pub fn relative_air_mass(apparent: Angle) -> Option<f64> {
    relative_air_mass_of(apparent.degrees(), apparent.radians().cos())
}

/// How often the light crosses the air of sea level, from the apparent zenith.
///
/// `None` when the sun is down.
pub fn absolute_air_mass(apparent: Angle, altitude: Length) -> Option<f64> {
    relative_air_mass(apparent).map(|relative| relative * pressure_share(altitude))
}

/// Air pressure at an altitude over that of the sea level.
pub(super) fn pressure_share(altitude: Length) -> f64 {
    air_pressure(altitude) / SEA_LEVEL_PASCALS
}

/// [`relative_air_mass`] from the zenith [°] and its cosine.
pub(super) fn relative_air_mass_of(degrees: f64, cosine: f64) -> Option<f64> {
    if !(0.0..=90.0).contains(&degrees) {
        return None;
    }
    Some(1.0 / (cosine + 0.505_72 * (96.079_95 - degrees).powf(-1.6364)))
}

/// Daily sum [Wh/m²] with the solar constant given, as textbooks print it.
fn daily_extraterrestrial_of(constant: f64, latitude: Angle, day_of_year: u32) -> f64 {
    let day = f64::from(day_of_year);
    let declination = 23.45_f64.to_radians() * (TAU * (284.0 + day) / 365.0).sin();
    let (sin_north, cos_north) = latitude.radians().sin_cos();
    let (sin_sun, cos_sun) = declination.sin_cos();
    let sunset = (-(sin_north / cos_north) * (sin_sun / cos_sun))
        .clamp(-1.0, 1.0)
        .acos();
    let sum = cos_north * cos_sun * sunset.sin() + sunset * sin_north * sin_sun;
    24.0 * constant / std::f64::consts::PI
        * (1.0 + 0.033 * (TAU * day / 365.0).cos())
        * sum.max(0.0)
}
