//! Light above the air on flat ground, by days and clock hours, in closed form. Not here: the air.

use crate::sun::{Air, Method, Moment, Place, SunError, extraterrestrial, position};
use std::f64::consts::{PI, TAU};
use wainwright_units::Angle;

/// A year without and a year with a 29 February, for days whose year does not matter.
const PLAIN_YEAR: i32 = 2026;
const LEAP_YEAR: i32 = 2028;

/// Days of the months of a leap year.
const DAYS: [u32; 12] = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/// Days of the twelve months without a 29 February, January first.
pub const MONTH_DAYS: [u32; 12] = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/// Light above the air on one day at a place.
///
/// The sun's declination stands still within the day, which moves light between morning and
/// evening by less than 0.2 % in spring. Years differ by up to a quarter of a day: 0.3 %.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LightAbove {
    /// Facing the sun [W/m²].
    straight: f64,
    /// sin φ sin δ
    level: f64,
    /// cos φ cos δ
    swing: f64,
    /// Hour angle of sunset [rad], 0 to π.
    sunset: f64,
    /// Hour angle at clock noon [rad].
    noon: f64,
}

/// Whether a month from 1 and a day make a date of some year.
#[must_use]
pub fn is_date(month: u32, day: u32) -> bool {
    let of_month = month.checked_sub(1).and_then(|at| DAYS.get(at as usize));
    of_month.is_some_and(|days| (1..=*days).contains(&day))
}

impl LightAbove {
    /// The light of a date at a place whose clock is `zone` hours ahead of universal time.
    ///
    /// # Errors
    /// As [`position`], for a place or date that is none.
    pub fn new(place: Place, zone: f64, month: u32, day: u32) -> Result<LightAbove, SunError> {
        let year = if (month, day) == (2, 29) {
            LEAP_YEAR
        } else {
            PLAIN_YEAR
        };
        let noon = Moment::from_utc(year, month, day, 12.0 - zone)?;
        // Seen from the equator, north is sin δ, up and east hold the hour angle.
        let equator = Place {
            latitude: Angle::from_degrees(0.0),
            ..place
        };
        let sun = position(noon, equator, Air::standard(place.altitude), Method::Fast)?;
        let (sin_zenith, up) = sun.zenith.radians().sin_cos();
        let (sin_azimuth, cos_azimuth) = sun.azimuth.radians().sin_cos();
        let sin_sun = (sin_zenith * cos_azimuth).clamp(-1.0, 1.0);
        let (sin_north, cos_north) = place.latitude.radians().sin_cos();
        let level = sin_north * sin_sun;
        let swing = cos_north * (1.0 - sin_sun * sin_sun).sqrt();
        let sunset = if swing > 1e-12 {
            (-level / swing).clamp(-1.0, 1.0).acos()
        } else if level > 0.0 {
            PI
        } else {
            0.0
        };
        let day_of_year = Moment::from_utc(year, month, day, 12.0)?.day_of_year();
        Ok(LightAbove {
            straight: extraterrestrial(day_of_year),
            level,
            swing,
            sunset,
            noon: (-sin_zenith * sin_azimuth).atan2(up),
        })
    }

    /// Light of the whole day [Wh/m²].
    #[must_use]
    pub fn day(&self) -> f64 {
        self.between(-self.sunset, self.sunset)
    }

    /// Light of the clock hour that begins at `hour`, 0 to 23 [Wh/m²].
    #[must_use]
    pub fn hour(&self, hour: u32) -> f64 {
        let from = self.noon + (f64::from(hour) - 12.0) * TAU / 24.0;
        // Near the date line of the zone the hour may belong to the next turn of the sun.
        let from = (from + PI).rem_euclid(TAU) - PI;
        let to = from + TAU / 24.0;
        let part = |from: f64, to: f64| {
            let (from, to) = (from.max(-self.sunset), to.min(self.sunset));
            if to > from {
                self.between(from, to)
            } else {
                0.0
            }
        };
        part(from, to) + part(from - TAU, to - TAU)
    }

    fn between(&self, from: f64, to: f64) -> f64 {
        let sum = self.level * (to - from) + self.swing * (to.sin() - from.sin());
        self.straight * sum.max(0.0) * 24.0 / TAU
    }
}
