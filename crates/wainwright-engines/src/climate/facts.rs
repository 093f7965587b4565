//! Monthly facts of a record. Not here: what stands in for those that are not known (`monthly`).

use super::days::{Day, days_of, mean};
use crate::refusal::{Refusal, require};
use crate::sun::{Place, SunError};
use crate::weather::{LightAbove, MONTH_DAYS};
use crate::weather_file::Record;
use wainwright_units::{Temperature, TemperatureDifference};

/// Days without which a month is unknown.
const LEAST_DAYS: usize = 10;

/// What is known of a month; everything may be unknown.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub struct MonthFacts {
    /// Days with light.
    pub days: usize,
    /// Light on the ground over light above the air, 0 to 1.
    pub clearness: Option<f64>,
    /// Deviation of daily clearness.
    pub clearness_deviation: Option<f64>,
    /// How much a day's clearness keeps of the day before.
    pub clearness_memory: Option<f64>,
    /// Light on flat ground [kWh/(m² d)].
    pub global: Option<f64>,
    /// Mean of the worst three days in a row over the mean of the month.
    pub worst_three_days: Option<f64>,
    /// Mean temperature.
    pub mean: Option<Temperature>,
    /// Mean of the daily lows.
    pub low: Option<Temperature>,
    /// Mean of the daily highs.
    pub high: Option<Temperature>,
    /// Deviation of daily means [K].
    pub deviation: Option<TemperatureDifference>,
    /// How much a day's mean temperature keeps of the day before.
    pub memory: Option<f64>,
    /// Coldest hour.
    pub lowest: Option<Temperature>,
    /// Mean wind [m/s].
    pub wind: Option<f64>,
}

/// The twelve months of a record at a place, January first.
///
/// `zone` is how many hours its clock is ahead of universal time; the nearest whole hour for the
/// longitude when it is not known.
///
/// # Errors
/// [`Refusal`] for a place that is none.
pub fn facts(
    record: &Record,
    place: Place,
    zone: Option<f64>,
) -> Result<[MonthFacts; 12], Refusal> {
    check_place(place)?;
    let zone = zone.unwrap_or_else(|| nearest_zone(place));
    let days = days_of(record, place, zone).map_err(|_| no_place(place))?;
    let mut months = [MonthFacts::default(); 12];
    for (number, facts) in (1..=12).zip(&mut months) {
        let of_month: Vec<Day> = days
            .iter()
            .copied()
            .filter(|day| day.month == number)
            .collect();
        *facts = of_days(&of_month);
    }
    Ok(months)
}

/// Mean light above the air in each month [kWh/(m² d)].
///
/// # Errors
/// As [`LightAbove::new`].
pub fn monthly_above(place: Place) -> Result<[f64; 12], SunError> {
    let zone = nearest_zone(place);
    let mut all = [0.0; 12];
    for ((month, days), mean) in (1..=12).zip(MONTH_DAYS).zip(&mut all) {
        for day in 1..=days {
            let light = LightAbove::new(place, zone, month, day)?.day();
            *mean += light / 1000.0 / f64::from(days);
        }
    }
    Ok(all)
}

/// Refuses a place that is not on earth.
pub(super) fn check_place(place: Place) -> Result<(), Refusal> {
    let (north, east) = (place.latitude.degrees(), place.longitude.degrees());
    let on_earth = north.is_finite() && north.abs() <= 90.0;
    require("latitude [°]", north, on_earth, "a number from -90 to 90")?;
    let on_earth = east.is_finite() && east.abs() <= 180.0;
    require("longitude [°]", east, on_earth, "a number from -180 to 180")?;
    let metres = place.altitude.metres();
    let on_earth = (-500.0..=9000.0).contains(&metres);
    require(
        "altitude [m]",
        metres,
        on_earth,
        "a number from -500 to 9000",
    )
}

pub(super) fn no_place(place: Place) -> Refusal {
    Refusal::new("latitude [°]", place.latitude.degrees(), "a place on earth")
}

fn nearest_zone(place: Place) -> f64 {
    (place.longitude.degrees() / 15.0).round()
}

fn of_days(days: &[Day]) -> MonthFacts {
    let lit: Vec<(f64, f64)> = days.iter().filter_map(|day| day.light).collect();
    let ground: f64 = lit.iter().map(|light| light.0).sum();
    let above: f64 = lit.iter().map(|light| light.1).sum();
    let enough = lit.len() >= LEAST_DAYS;
    let count = lit.len() as f64;
    let air: Vec<[f64; 3]> = days.iter().filter_map(|day| day.air).collect();
    let warm_enough = air.len() >= LEAST_DAYS;
    let of_air = |at: usize| {
        let column: Vec<f64> = air.iter().filter_map(|day| day.get(at).copied()).collect();
        mean(&column)
            .filter(|_| warm_enough)
            .map(Temperature::from_celsius)
    };
    let lowest = air.iter().map(|day| day[1]).fold(f64::INFINITY, f64::min);
    let wind: Vec<f64> = days.iter().filter_map(|day| day.wind).collect();
    MonthFacts {
        days: lit.len(),
        clearness: (enough && above > 0.0).then(|| ground / above),
        clearness_deviation: deviation(days, Day::clearness),
        clearness_memory: memory(days, Day::clearness),
        global: enough.then(|| ground / count / 1000.0),
        worst_three_days: worst_three(days).filter(|_| enough),
        mean: of_air(0),
        low: of_air(1),
        high: of_air(2),
        deviation: deviation(days, Day::mean).map(TemperatureDifference::from_kelvins),
        memory: memory(days, Day::mean),
        lowest: warm_enough.then(|| Temperature::from_celsius(lowest)),
        wind: mean(&wind).filter(|_| wind.len() >= LEAST_DAYS),
    }
}

/// Deviation of a daily value about its mean, of all the days there are.
fn deviation(days: &[Day], value: fn(&Day) -> Option<f64>) -> Option<f64> {
    let values: Vec<f64> = days.iter().filter_map(value).collect();
    if values.len() < LEAST_DAYS {
        return None;
    }
    let middle = mean(&values)?;
    let squares: Vec<f64> = values.iter().map(|x| (x - middle).powi(2)).collect();
    Some(mean(&squares)?.sqrt())
}

/// Covariance of days that follow each other over the variance of all days, within ±1.
fn memory(days: &[Day], value: fn(&Day) -> Option<f64>) -> Option<f64> {
    let middle = mean(&days.iter().filter_map(value).collect::<Vec<_>>())?;
    let spread = deviation(days, value)?;
    let pairs: Vec<f64> = days
        .windows(2)
        .filter_map(|pair| match pair {
            [one, other] if one.is_before(other) => {
                Some((value(one)? - middle) * (value(other)? - middle))
            }
            _ => None,
        })
        .collect();
    if pairs.len() < LEAST_DAYS || spread <= 0.0 {
        return None;
    }
    Some((mean(&pairs)? / (spread * spread)).clamp(-1.0, 1.0))
}

/// The least mean light of three days in a row over the mean of all days.
fn worst_three(days: &[Day]) -> Option<f64> {
    let ground = |day: &Day| Some(day.light?.0);
    let all = mean(&days.iter().filter_map(ground).collect::<Vec<_>>())?;
    let three = |part: &[Day]| match part {
        [a, b, c] if a.is_before(b) && b.is_before(c) => {
            Some((ground(a)? + ground(b)? + ground(c)?) / 3.0)
        }
        _ => None,
    };
    let worst = days
        .windows(3)
        .filter_map(three)
        .fold(f64::INFINITY, f64::min);
    (all > 0.0 && worst.is_finite()).then(|| worst / all)
}
