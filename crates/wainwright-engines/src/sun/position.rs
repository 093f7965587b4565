//! Time, place and the position of the sun. Not here: light.

use solar_positioning::time::JulianDate;
use solar_positioning::{Location, PreparedPositions, SolarPositions};
use std::fmt;
use wainwright_units::{Angle, Length, Temperature};

use super::air::air_pressure;
use super::refraction::Lens;

/// Seconds by which the even time of the planets is ahead of the clock, in the 2020s [s] (memory).
const DELTA_T_SECONDS: f64 = 69.0;

/// Julian date of 2000-01-01 00:00 [days].
const YEAR_2000: f64 = 2_451_544.5;

/// Days of 400 years of the present calendar.
const CYCLE_DAYS: f64 = 146_097.0;

/// An instant in universal time.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Moment {
    julian_days: f64,
    delta_seconds: f64,
}

/// A place on earth.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// North positive [°].
    pub latitude: Angle,
    /// East positive [°].
    pub longitude: Angle,
    /// Above the sea [m].
    pub altitude: Length,
}

/// Air that bends the sun's light, which lifts the low sun by up to half a degree.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Air {
    /// Pressure at the place [Pa].
    pub pascals: f64,
    /// Temperature at the place [°C].
    pub temperature: Temperature,
}

/// How the position is found.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Method {
    /// Within 0.01°, for loops over hours; years 2010 to 2110.
    Fast,
    /// Within 0.0003°, some thirty times slower.
    Exact,
}

/// Where the sun stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sun {
    /// Angle from straight up to the sun without air [°].
    pub zenith: Angle,
    /// The same as seen through the air [°].
    pub apparent: Angle,
    /// Direction on the compass, north 0, east 90 [°].
    pub azimuth: Angle,
}

/// Why there is no position.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum SunError {
    /// The time is outside what the method covers, or not a date.
    Time(String),
    /// The place or its air is not one on earth.
    Place(String),
}

/// The position of the sun.
///
/// # Errors
/// [`SunError::Time`] outside the years of the method, [`SunError::Place`] for a latitude beyond a
/// pole, a longitude beyond ±180° or air that cannot be.
pub fn position(moment: Moment, place: Place, air: Air, method: Method) -> Result<Sun, SunError> {
    let lens = Lens::new(air)?;
    let height_metres = match method {
        Method::Fast => 0.0,
        Method::Exact => place.altitude.metres(),
    };
    let location = Location {
        latitude: place.latitude.degrees(),
        longitude: place.longitude.degrees(),
    };
    let straight = prepared(moment, method)?
        .at(location, height_metres, None)
        .map_err(bad_place)?;
    let elevation = straight.elevation_angle().to_radians();
    Ok(Sun {
        zenith: Angle::from_degrees(straight.zenith_angle()),
        apparent: Angle::from_degrees(straight.zenith_angle() - lens.lift(elevation).to_degrees()),
        azimuth: Angle::from_degrees(straight.azimuth()),
    })
}

/// Where the sun stands overhead: its declination and its hour angle at Greenwich [°], 0 to 360.
pub(super) fn overhead(moment: Moment, method: Method) -> Result<(f64, f64), SunError> {
    // Seen from a pole the compass direction is the hour angle, and the pole sees no parallax in it.
    let pole = Location {
        latitude: 90.0,
        longitude: 0.0,
    };
    let ready = prepared(moment, method)?;
    let seen = ready.at(pole, 0.0, None).map_err(bad_place)?;
    Ok((ready.declination(), (seen.azimuth() + 180.0) % 360.0))
}

impl Moment {
    /// From a date of the present calendar and hours of universal time [h], which may run over.
    ///
    /// # Errors
    /// [`SunError::Time`] for a month or day that does not exist, or an hour that is no number.
    pub fn from_utc(year: i32, month: u32, day: u32, hour: f64) -> Result<Moment, SunError> {
        let date =
            JulianDate::from_utc(year, month, day, 0, 0, 0.0, DELTA_T_SECONDS).map_err(bad_time)?;
        Ok(Moment {
            julian_days: date.julian_date(),
            delta_seconds: DELTA_T_SECONDS,
        }
        .after_hours(hour))
    }

    /// The same instant with another lead of even time over the clock [s].
    #[must_use]
    pub const fn with_delta_seconds(self, delta_seconds: f64) -> Moment {
        Moment {
            delta_seconds,
            ..self
        }
    }

    /// So many hours later [h].
    #[must_use]
    pub fn after_hours(self, hours: f64) -> Moment {
        Moment {
            julian_days: self.julian_days + hours / 24.0,
            ..self
        }
    }

    /// Days since noon, 1 January 4713 BC, of the Julian calendar.
    #[must_use]
    pub const fn julian_days(self) -> f64 {
        self.julian_days
    }

    /// Day of the year in universal time, 1 January is 1.
    #[must_use]
    pub fn day_of_year(self) -> u32 {
        // Whole days since 2000 in a cycle of 400 years, then the first year that may hold them.
        let mut days = (self.julian_days - YEAR_2000)
            .floor()
            .rem_euclid(CYCLE_DAYS);
        let mut year = (days / 366.0) as u32;
        days -= f64::from(days_before(year));
        while days >= f64::from(length_of_year(year)) {
            days -= f64::from(length_of_year(year));
            year += 1;
        }
        days as u32 + 1
    }
}

impl Air {
    /// Standard pressure at an altitude, and the 12 °C of a mean year.
    #[must_use]
    pub fn standard(altitude: Length) -> Air {
        Air {
            pascals: air_pressure(altitude),
            temperature: Temperature::from_celsius(12.0),
        }
    }
}

impl fmt::Display for SunError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            SunError::Time(why) => write!(
                out,
                "the sun cannot be placed at this time ({why}); use a date from 2010 to 2110"
            ),
            SunError::Place(why) => write!(
                out,
                "the sun cannot be placed from here ({why}); use a latitude within ±90° and a \
                 longitude within ±180°"
            ),
        }
    }
}

impl std::error::Error for SunError {}

/// Days from 2000 to the start of a year of the cycle.
const fn days_before(year: u32) -> u32 {
    match year {
        0 => 0,
        _ => 365 * year + 1 + (year - 1) / 4 - (year - 1) / 100,
    }
}

/// Days of a year of the cycle.
const fn length_of_year(year: u32) -> u32 {
    days_before(year + 1) - days_before(year)
}

fn prepared(moment: Moment, method: Method) -> Result<PreparedPositions, SunError> {
    let finder = match method {
        Method::Fast => SolarPositions::grena3(),
        Method::Exact => SolarPositions::new(),
    };
    let time = JulianDate::new(moment.julian_days, moment.delta_seconds).map_err(bad_time)?;
    finder.for_time_from_julian(time).map_err(bad_time)
}

fn bad_time(error: solar_positioning::Error) -> SunError {
    SunError::Time(error.to_string())
}

pub(super) fn bad_place(error: solar_positioning::Error) -> SunError {
    SunError::Place(error.to_string())
}
