//! Air through openings that are always open, moved by warmth and wind. Not here: fans.

use wainwright_units::{Airflow, Area, Length, Ratio, STANDARD_GRAVITY, Speed, Temperature};

use crate::refusal::{Refusal, above_zero, finite, not_below_zero, require};

/// A way through a room: in at one opening, out at another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Openings {
    /// Free area of the low openings together, after mesh and louvres.
    pub low: Area,
    /// Free area of the high openings together.
    pub high: Area,
    /// Discharge coefficient, above 0 to 1.
    pub coefficient: Ratio,
    /// Middle of the low ones to the middle of the high ones.
    pub height: Length,
    /// Difference of the wind's pressure coefficients between them, zero or above.
    pub wind_pressure: f64,
}

/// Air around a room.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Weather {
    /// Inside.
    pub inside: Temperature,
    /// Outside.
    pub outside: Temperature,
    /// Wind.
    pub wind: Speed,
}

/// Air that moves by itself.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Natural {
    /// Both openings in series, as one.
    pub effective: Area,
    /// By warmth alone.
    pub stack: Airflow,
    /// By wind alone.
    pub wind: Airflow,
    /// By both.
    pub both: Airflow,
}

/// Openings one behind the other, as one.
pub fn series(areas: &[Area]) -> Area {
    let closed = areas.iter().any(|area| area.square_metres() <= 0.0);
    let sum: f64 = areas.iter().map(|area| area.square_metres().powi(-2)).sum();
    if closed || areas.is_empty() {
        Area::ZERO
    } else {
        Area::from_square_metres(sum.powf(-0.5))
    }
}

/// Openings side by side, as one.
pub fn parallel(areas: &[Area]) -> Area {
    areas.iter().copied().sum()
}

/// Air that warmth moves through openings, whichever side is warmer.
///
/// # Errors
/// An area or height below zero, a coefficient outside above 0 to 1, absolute zero inside.
pub fn stack(
    effective: Area,
    coefficient: Ratio,
    height: Length,
    inside: Temperature,
    outside: Temperature,
) -> Result<Airflow, Refusal> {
    let through = through(effective, coefficient)?;
    not_below_zero("height between the openings [m]", height.metres())?;
    finite("temperature outside [°C]", outside.celsius())?;
    let kelvin = inside.kelvins_absolute();
    above_zero("absolute temperature inside [K]", kelvin)?;
    let warmer = (inside - outside).kelvins().abs();
    let speed = (2.0 * STANDARD_GRAVITY * height.metres() * warmer / kelvin).sqrt();
    Ok(Airflow::from_litres_per_second(1000.0 * through * speed))
}

/// Air that wind moves through openings.
///
/// # Errors
/// A value below zero, or a coefficient outside above 0 to 1.
pub fn wind(
    effective: Area,
    coefficient: Ratio,
    wind_pressure: f64,
    speed: Speed,
) -> Result<Airflow, Refusal> {
    let through = through(effective, coefficient)?;
    not_below_zero("difference of pressure coefficients", wind_pressure)?;
    not_below_zero("wind [m/s]", speed.metres_per_second())?;
    let metres_per_second = speed.metres_per_second() * wind_pressure.sqrt();
    Ok(Airflow::from_litres_per_second(
        1000.0 * through * metres_per_second,
    ))
}

/// Air that moves by itself through a low and a high opening.
///
/// # Errors
/// As [`stack`] and [`wind`].
pub fn natural(openings: &Openings, weather: &Weather) -> Result<Natural, Refusal> {
    let effective = series(&[openings.low, openings.high]);
    let by_warmth = stack(
        effective,
        openings.coefficient,
        openings.height,
        weather.inside,
        weather.outside,
    )?;
    let by_wind = wind(
        effective,
        openings.coefficient,
        openings.wind_pressure,
        weather.wind,
    )?;
    let both = by_warmth
        .litres_per_second()
        .hypot(by_wind.litres_per_second());
    Ok(Natural {
        effective,
        stack: by_warmth,
        wind: by_wind,
        both: Airflow::from_litres_per_second(both),
    })
}

/// Area times coefficient [m²], checked.
pub(crate) fn through(area: Area, coefficient: Ratio) -> Result<f64, Refusal> {
    let share = coefficient.fraction();
    not_below_zero("free area of the openings [m²]", area.square_metres())?;
    require(
        "discharge coefficient",
        share,
        share > 0.0 && share <= 1.0,
        "above 0 to 1",
    )?;
    Ok(area.square_metres() * share)
}
