//! Twelve complete months, ready for made-up weather. Not here: numbers that somebody typed.

use super::facts::{MonthFacts, check_place, monthly_above, no_place};
use crate::refusal::{Refusal, require};
use crate::sun::Place;
use crate::trip;
use crate::weather::{Chain, DailyAnomaly};
use wainwright_units::{Temperature, TemperatureDifference};

/// Light above the air below which a month's clearness does not matter [kWh/(m² d)].
const DARK: f64 = 0.1;

/// Clearness that can be.
pub(super) const CLEARNESS_BOUNDS: (f64, f64) = (0.02, 0.85);

/// What is taken where something is not known; the values come from the caller.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Usual {
    /// Deviation of daily means in the months of the northern half of the earth [K].
    pub deviation: [TemperatureDifference; 12],
    /// How much a day's mean temperature keeps of the day before.
    pub memory: f64,
    /// Wind [m/s].
    pub wind: f64,
    /// Coldest hour of a month below its mean daily low, in deviations.
    pub lowest_deviations: f64,
    /// Mean of the daily ranges over the swing of the month's mean day.
    pub range_over_swing: f64,
    /// How much years differ.
    pub spread: YearSpread,
}

/// How much a month's clearness differs from year to year, as a share of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct YearSpread {
    /// In most months.
    pub usual: f64,
    /// In sunny ones.
    pub sunny: f64,
    /// In dull ones.
    pub dull: f64,
    /// Clearness from which a month is sunny.
    pub sunny_from: f64,
    /// Clearness below which it is dull.
    pub dull_below: f64,
}

/// Where the light of a month is known from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Basis {
    /// A listed place or a record.
    Record,
    /// Somebody typed it.
    Typed,
    /// It follows from the range of temperatures.
    Temperatures,
    /// The sun does not rise: it does not matter.
    Dark,
}

/// A complete month.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Month {
    /// Light on the ground over light above the air, 0.02 to 0.85.
    pub clearness: f64,
    /// Where it is known from.
    pub basis: Basis,
    /// Its deviation, in units of clearness; 0 when it is measured or typed.
    pub clearness_error: f64,
    /// How much it differs from year to year, as a share of it.
    pub spread: f64,
    /// Light on flat ground [kWh/(m² d)].
    pub global: f64,
    /// Mean temperature.
    pub mean: Temperature,
    /// Mean of the daily ranges [K].
    pub swing: TemperatureDifference,
    /// How days differ from the mean.
    pub anomaly: DailyAnomaly,
    /// Coldest hour of the month.
    pub lowest: Temperature,
    /// Wind [m/s].
    pub wind: f64,
}

/// A year of months, January first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Monthly {
    /// The months.
    pub months: [Month; 12],
}

/// What is known of a month's temperatures and wind, before the rest is filled in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Air {
    pub mean: Temperature,
    pub swing: TemperatureDifference,
    pub low: Option<Temperature>,
    pub deviation: Option<TemperatureDifference>,
    pub memory: Option<f64>,
    pub lowest: Option<Temperature>,
    pub wind: Option<f64>,
}

/// A month's light, before the rest is filled in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct MonthLight {
    pub clearness: f64,
    pub basis: Basis,
    pub error: f64,
    /// Above the air [kWh/(m² d)].
    pub above: f64,
}

/// Twelve months from a listed place or a record.
///
/// # Errors
/// [`Refusal`] with the number of the month whose clearness or mean temperature is not known or
/// cannot be, or for a place that is none.
pub fn from_facts(
    facts: &[MonthFacts; 12],
    place: Place,
    usual: &Usual,
) -> Result<Monthly, Refusal> {
    check_place(place)?;
    let above = monthly_above(place).map_err(|_| no_place(place))?;
    let memory = year_mean(facts, |month| month.memory);
    let mut months = Vec::with_capacity(12);
    for (at, (month, above)) in facts.iter().zip(above).enumerate() {
        let light = light_of(facts, month, above).map_err(|refusal| refusal.at("month", at))?;
        let air = air_of(month, light.clearness, memory, usual)
            .map_err(|refusal| refusal.at("month", at))?;
        months.push(complete(at, place, light, air, usual));
    }
    twelve(months, place)
}

impl YearSpread {
    /// The spread of a month of this mean clearness.
    #[must_use]
    pub fn of(&self, clearness: f64) -> f64 {
        if clearness >= self.sunny_from {
            self.sunny
        } else if clearness < self.dull_below {
            self.dull
        } else {
            self.usual
        }
    }
}

impl Month {
    /// The month as trips take it.
    #[must_use]
    pub fn for_trips<'a>(&self, chains: &'a [Chain]) -> trip::Climate<'a> {
        trip::Climate {
            chains,
            clearness: self.clearness,
            spread: self.spread,
            mean: self.mean,
            anomaly: self.anomaly,
            swing: self.swing,
            wind: self.wind,
        }
    }
}

/// Puts together a month; what is not known is taken as usual.
pub(super) fn complete(
    at: usize,
    place: Place,
    light: MonthLight,
    air: Air,
    usual: &Usual,
) -> Month {
    // The seasons of the southern half of the earth are half a year later.
    let north = place.latitude.degrees() >= 0.0;
    let season = if north { at } else { (at + 6) % 12 };
    let none = TemperatureDifference::ZERO;
    let of_season = usual.deviation.get(season).copied().unwrap_or(none);
    let deviation = air.deviation.unwrap_or(of_season);
    let low = air.low.unwrap_or(air.mean - air.swing / 2.0);
    let memory = air.memory.unwrap_or(usual.memory);
    Month {
        clearness: light.clearness,
        basis: light.basis,
        clearness_error: light.error,
        spread: usual.spread.of(light.clearness),
        global: light.clearness * light.above,
        mean: air.mean,
        swing: air.swing,
        anomaly: DailyAnomaly {
            memory: memory.clamp(0.0, 0.99),
            deviation,
        },
        lowest: air
            .lowest
            .unwrap_or(low - deviation * usual.lowest_deviations),
        wind: air.wind.unwrap_or(usual.wind),
    }
}

/// The months as an array; there are always twelve.
pub(super) fn twelve(months: Vec<Month>, place: Place) -> Result<Monthly, Refusal> {
    let months = months.try_into().map_err(|_| no_place(place))?;
    Ok(Monthly { months })
}

fn light_of(
    year: &[MonthFacts; 12],
    month: &MonthFacts,
    above: f64,
) -> Result<MonthLight, Refusal> {
    let (low, high) = CLEARNESS_BOUNDS;
    let (clearness, basis) = match month.clearness {
        // Light of a few minutes at noon says nothing.
        _ if above < DARK => {
            let of_year = year_mean(year, |month| month.clearness).unwrap_or(0.5);
            (of_year.clamp(low, high), Basis::Dark)
        }
        Some(clearness) => (clearness, Basis::Record),
        None => (f64::NAN, Basis::Record),
    };
    require(
        "clearness",
        clearness,
        (low..=high).contains(&clearness),
        "a number from 0.02 to 0.85 from at least ten days",
    )?;
    Ok(MonthLight {
        clearness,
        basis,
        error: 0.0,
        above,
    })
}

fn air_of(
    month: &MonthFacts,
    clearness: f64,
    memory: Option<f64>,
    usual: &Usual,
) -> Result<Air, Refusal> {
    let celsius = month.mean.map_or(f64::NAN, Temperature::celsius);
    let known = celsius.is_finite();
    require(
        "mean temperature [°C]",
        celsius,
        known,
        "a number from at least ten days",
    )?;
    let range = month.high.zip(month.low).map(|(high, low)| high - low);
    let none = TemperatureDifference::ZERO;
    Ok(Air {
        mean: Temperature::from_celsius(celsius),
        swing: range
            .unwrap_or_else(|| usual_range(clearness, usual))
            .max(none),
        low: month.low,
        deviation: month.deviation,
        memory,
        lowest: month.lowest,
        wind: month.wind,
    })
}

/// Daily range of a month of which only the clearness is known.
pub(super) fn usual_range(clearness: f64, usual: &Usual) -> TemperatureDifference {
    crate::weather::estimated_swing(clearness) * usual.range_over_swing
}

fn year_mean(year: &[MonthFacts; 12], value: fn(&MonthFacts) -> Option<f64>) -> Option<f64> {
    super::days::mean(&year.iter().filter_map(value).collect::<Vec<_>>())
}
