//! Twelve months from numbers that somebody typed. Not here: what is taken for the rest (`monthly`).

use super::facts::{check_place, monthly_above, no_place};
use super::monthly::{
    Air, Basis, CLEARNESS_BOUNDS, Month, MonthLight, Monthly, Usual, complete, twelve, usual_range,
};
use crate::refusal::{Refusal, require};
use crate::sun::Place;
use wainwright_units::{Temperature, TemperatureDifference};

/// Temperatures that can be a month's [°C].
const MEAN_BOUNDS: (f64, f64) = (-60.0, 50.0);

/// Twelve light values, January first, or none.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Light {
    /// Light on the ground over light above the air, 0.02 to 0.85.
    Clearness([f64; 12]),
    /// Light on flat ground [kWh/(m² d)].
    Global([f64; 12]),
    /// Not known: it follows from the range of temperatures.
    FromSwing {
        /// Clearness per square root of a kelvin, 0.1 to 0.3.
        factor: f64,
        /// Deviation of the answer, in units of clearness.
        error: f64,
    },
}

/// Twelve months as typed, January first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TypedYear {
    /// Light.
    pub light: Light,
    /// Mean temperatures.
    pub mean: [Temperature; 12],
    /// Means of the daily lows and highs, when they are known.
    pub extremes: Option<[(Temperature, Temperature); 12]>,
    /// Wind of the year, when it is known [m/s].
    pub wind: Option<f64>,
}

/// Twelve months from typed numbers.
///
/// # Errors
/// [`Refusal`] with the number of the month for a value that cannot be, or when the light is to
/// follow from temperatures and their range is not given.
pub fn from_typed(typed: &TypedYear, place: Place, usual: &Usual) -> Result<Monthly, Refusal> {
    check_place(place)?;
    if let Some(wind) = typed.wind {
        let can_be = (0.0..=50.0).contains(&wind);
        require("wind [m/s]", wind, can_be, "a number from 0 to 50")?;
    }
    let above = monthly_above(place).map_err(|_| no_place(place))?;
    let mut months = Vec::with_capacity(12);
    for (at, above) in above.into_iter().enumerate() {
        let month = one(typed, at, above, place, usual);
        months.push(month.map_err(|refusal| refusal.at("month", at))?);
    }
    twelve(months, place)
}

fn one(
    typed: &TypedYear,
    at: usize,
    above: f64,
    place: Place,
    usual: &Usual,
) -> Result<Month, Refusal> {
    let celsius = typed.mean.get(at).map_or(f64::NAN, |mean| mean.celsius());
    let (coldest, warmest) = MEAN_BOUNDS;
    let can_be = (coldest..=warmest).contains(&celsius);
    require(
        "mean temperature [°C]",
        celsius,
        can_be,
        "a number from -60 to 50",
    )?;
    let extremes = match &typed.extremes {
        Some(extremes) => extremes.get(at).copied(),
        None => None,
    };
    let range = extremes.map(|(low, high)| high - low);
    if let Some((low, high)) = extremes {
        let (low, high) = (low.celsius(), high.celsius());
        let between = low <= celsius && celsius <= high && high - low <= 40.0;
        require(
            "mean temperature [°C]",
            celsius,
            between,
            "a mean between the daily low and high, which differ by at most 40 K",
        )?;
    }
    let light = light_of(&typed.light, at, above, range)?;
    let air = Air {
        mean: Temperature::from_celsius(celsius),
        swing: range.unwrap_or_else(|| usual_range(light.clearness, usual)),
        low: extremes.map(|(low, _)| low),
        deviation: None,
        memory: None,
        lowest: None,
        wind: typed.wind,
    };
    Ok(complete(at, place, light, air, usual))
}

fn light_of(
    light: &Light,
    at: usize,
    above: f64,
    range: Option<TemperatureDifference>,
) -> Result<MonthLight, Refusal> {
    let (low, high) = CLEARNESS_BOUNDS;
    let within = |clearness: f64| (low..=high).contains(&clearness);
    let given = |values: &[f64; 12]| values.get(at).copied().unwrap_or(f64::NAN);
    let (clearness, basis, error) = match light {
        Light::Clearness(values) => {
            let clearness = given(values);
            let expected = "a number from 0.02 to 0.85; light in kWh/m² goes elsewhere";
            require("clearness", clearness, within(clearness), expected)?;
            (clearness, Basis::Typed, 0.0)
        }
        Light::Global(values) => {
            let global = given(values);
            // Rounded to two decimals, a dark month may be nought.
            if above < 0.1 && (0.0..=0.1).contains(&global) {
                (0.5, Basis::Dark, 0.0)
            } else {
                let clearness = global / above;
                let expected = "kWh/m² a day between 2 and 85 % of the light above the air";
                require("light [kWh/m²]", global, within(clearness), expected)?;
                (clearness, Basis::Typed, 0.0)
            }
        }
        Light::FromSwing { factor, error } => {
            let can_be = (0.1..=0.3).contains(factor);
            require("factor", *factor, can_be, "a number from 0.1 to 0.3")?;
            let kelvins = range.map_or(f64::NAN, TemperatureDifference::kelvins);
            let clearness = factor * kelvins.max(0.0).sqrt();
            let expected = "the mean daily low and high, which differ by a kelvin or more";
            let known = kelvins >= 1.0;
            require("daily range [K]", kelvins, known, expected)?;
            (clearness.clamp(low, high), Basis::Temperatures, *error)
        }
    };
    Ok(MonthLight {
        clearness,
        basis,
        error,
        above,
    })
}
