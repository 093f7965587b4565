//! Days of a record: clearness, light, temperatures. Not here: months.

use crate::sun::{Place, SunError};
use crate::weather::LightAbove;
use crate::weather_file::{DayReading, HourReading, Readings, Record};

/// Share of a day's light above the air that must have been measured.
const LEAST_LIGHT: f64 = 0.9;

/// Hours of a day whose temperature must have been measured.
const LEAST_HOURS: usize = 20;

/// One day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Day {
    /// Year, where it matters.
    pub year: i32,
    /// 1 to 12.
    pub month: u32,
    /// 1 to 31.
    pub day: u32,
    /// Light on the ground and above the air in the hours that were measured [Wh/m²].
    pub light: Option<(f64, f64)>,
    /// Mean, lowest and highest temperature [°C].
    pub air: Option<[f64; 3]>,
    /// Mean wind [m/s].
    pub wind: Option<f64>,
}

impl Day {
    /// Light over light above the air; `None` in the polar night.
    pub(super) fn clearness(&self) -> Option<f64> {
        let (ground, above) = self.light?;
        (above > 0.0).then(|| ground / above)
    }

    /// Mean temperature.
    pub(super) fn mean(&self) -> Option<f64> {
        Some(self.air?[0])
    }

    /// Whether the other day follows this one in the same month.
    pub(super) fn is_before(&self, other: &Day) -> bool {
        (self.year, self.month, self.day + 1) == (other.year, other.month, other.day)
    }
}

/// The days of a record in the order of the calendar.
pub(super) fn days_of(record: &Record, place: Place, zone: f64) -> Result<Vec<Day>, SunError> {
    match &record.readings {
        Readings::Hours(hours) => hours
            .chunk_by(|one, other| (one.month, one.day) == (other.month, other.day))
            .map(|hours| day_of_hours(hours, place, zone))
            .collect(),
        Readings::Days(days) => days
            .iter()
            .map(|day| day_of_reading(day, place, zone))
            .collect(),
    }
}

fn day_of_hours(hours: &[HourReading], place: Place, zone: f64) -> Result<Day, SunError> {
    let (month, day) = hours
        .first()
        .map_or((1, 1), |first| (first.month, first.day));
    let above = LightAbove::new(place, zone, month, day)?;
    let (mut ground, mut measured) = (0.0, 0.0);
    for hour in hours {
        if let Some(light) = hour.global {
            ground += light;
            measured += above.hour(hour.hour);
        }
    }
    let whole = above.day();
    let enough = measured >= LEAST_LIGHT * whole && hours.iter().any(|hour| hour.global.is_some());
    let air: Vec<f64> = hours
        .iter()
        .filter_map(|hour| Some(hour.air?.celsius()))
        .collect();
    let wind: Vec<f64> = hours.iter().filter_map(|hour| hour.wind).collect();
    Ok(Day {
        year: 0,
        month,
        day,
        light: enough.then_some((ground, measured)),
        air: (air.len() >= LEAST_HOURS).then(|| {
            let low = air.iter().copied().fold(f64::INFINITY, f64::min);
            let high = air.iter().copied().fold(f64::NEG_INFINITY, f64::max);
            [mean(&air).unwrap_or(low), low, high]
        }),
        wind: mean(&wind),
    })
}

fn day_of_reading(day: &DayReading, place: Place, zone: f64) -> Result<Day, SunError> {
    let above = LightAbove::new(place, zone, day.month, day.day)?.day();
    let air = day.coldest.zip(day.warmest).map(|(coldest, warmest)| {
        let (low, high) = (coldest.celsius(), warmest.celsius());
        [(low + high) / 2.0, low, high]
    });
    Ok(Day {
        year: day.year,
        month: day.month,
        day: day.day,
        light: day.global.map(|ground| (ground, above)),
        air,
        wind: None,
    })
}

/// Mean of some numbers; `None` of none.
pub(super) fn mean(numbers: &[f64]) -> Option<f64> {
    (!numbers.is_empty()).then(|| numbers.iter().sum::<f64>() / numbers.len() as f64)
}
