//! The sun over the days of a trip, found once and shared by all trips of that month.

use crate::sun::{Air, Method, Moment, Place, Sun, SunError, extraterrestrial, position};

/// Parts of an hour in which the light above the air is summed.
const PARTS: u32 = 6;

/// The sun in one hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SunHour {
    /// Where it stands in the middle of the hour, or of the part of it in which it is up.
    pub sun: Sun,
    /// Day of the year in universal time.
    pub day_of_year: u32,
    /// Mean light above the air on flat ground over the hour [W/m²].
    pub above: f64,
    /// Sine of its height, 0 when it is down for the whole hour.
    pub sine: f64,
}

/// The sun over some days, hour by hour from local midnight.
#[derive(Debug, Clone, PartialEq)]
pub struct SunPath {
    days: Vec<[SunHour; 24]>,
}

impl SunPath {
    /// The path over so many days from a local midnight.
    ///
    /// # Errors
    /// As [`position`].
    pub fn new(place: Place, midnight: Moment, days: u32) -> Result<SunPath, SunError> {
        let mut all = Vec::new();
        for day in 0..days {
            let start = midnight.after_hours(24.0 * f64::from(day));
            let mut hours = [sun_hour(place, start)?; 24];
            for (at, hour) in hours.iter_mut().enumerate().skip(1) {
                *hour = sun_hour(place, start.after_hours(at as f64))?;
            }
            all.push(hours);
        }
        Ok(SunPath { days: all })
    }

    /// The hours of each day.
    #[must_use]
    pub fn days(&self) -> &[[SunHour; 24]] {
        &self.days
    }

    /// Light above the air on flat ground on each day [Wh/m²].
    #[must_use]
    pub fn above(&self) -> Vec<f64> {
        let sum = |day: &[SunHour; 24]| day.iter().map(|hour| hour.above).sum();
        self.days.iter().map(sum).collect()
    }
}

fn sun_hour(place: Place, start: Moment) -> Result<SunHour, SunError> {
    let air = Air::standard(place.altitude);
    let (mut light, mut lit, mut lit_time) = (0.0, 0.0, 0.0);
    for part in 0..PARTS {
        let time = (f64::from(part) + 0.5) / f64::from(PARTS);
        let sun = position(start.after_hours(time), place, air, Method::Fast)?;
        let cosine = sun.zenith.radians().cos();
        if cosine > 0.0 {
            light += cosine / f64::from(PARTS);
            lit += 1.0;
            lit_time += time;
        }
    }
    let middle = start.after_hours(if lit > 0.0 { lit_time / lit } else { 0.5 });
    let sun = position(middle, place, air, Method::Fast)?;
    let day_of_year = middle.day_of_year();
    let sine = if lit > 0.0 {
        sun.zenith.radians().cos()
    } else {
        0.0
    };
    Ok(SunHour {
        sun,
        day_of_year,
        above: extraterrestrial(day_of_year) * light,
        sine: sine.max(0.0),
    })
}
