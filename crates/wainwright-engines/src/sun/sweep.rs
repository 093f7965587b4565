//! The sun over evenly spaced instants of one place, many times faster than one by one.
//! Not here: single instants (`position`), the curve through the days (`curve`).

use super::air::extraterrestrial;
use super::curve::Curve;
use super::position::{Air, Method, Moment, Place, Sun, SunError, position};
use super::ray::Ray;
use super::refraction::Lens;
use wainwright_units::Angle;

/// Radius of the earth over the mean distance of the sun: 8.794 seconds of arc (read).
const PARALLAX: f64 = (8.794_f64 / 3600.0).to_radians();

/// Evenly spaced instants.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Instants {
    /// The first of them.
    pub first: Moment,
    /// From one to the next [h].
    pub step_hours: f64,
    /// How many.
    pub count: u32,
}

/// The sun at one of them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SunStep {
    /// Day of the year in universal time.
    pub day_of_year: u32,
    /// Light on a surface that faces the sun above the air [W/m²].
    pub extraterrestrial: f64,
    /// Where the sun stands.
    pub ray: Ray,
}

/// The sun over evenly spaced instants of one place.
///
/// Declination and hour angle come from the same method as [`position`], every other day, and from
/// a curve in between. The result is within 0.0001° of the method itself, both with the
/// parallax of a round earth at its mean distance from the sun.
#[derive(Debug, Clone, PartialEq)]
pub struct Sweep {
    instants: Instants,
    curve: Curve,
    lens: Lens,
    longitude_radians: f64,
    latitude_sine: f64,
    latitude_cosine: f64,
}

impl Sweep {
    /// Prepares the sun over some instants.
    ///
    /// # Errors
    /// As [`position`], for the first and the last instant; [`SunError::Time`] for a step that is no
    /// number.
    pub fn new(
        place: Place,
        air: Air,
        instants: Instants,
        method: Method,
    ) -> Result<Sweep, SunError> {
        // The limits of place, air and time are those of single instants.
        position(instants.first, place, air, method)?;
        let (latitude_sine, latitude_cosine) = place.latitude.radians().sin_cos();
        Ok(Sweep {
            instants,
            curve: Curve::new(instants.first, instants.last(), method)?,
            lens: Lens::new(air)?,
            longitude_radians: place.longitude.radians(),
            latitude_sine,
            latitude_cosine,
        })
    }

    /// The sun at each instant, in order.
    pub fn steps(&self) -> impl Iterator<Item = SunStep> + '_ {
        let mut today = Today::of(self.instants.first);
        (0..self.instants.count).map(move |at| {
            let moment = self.instants.at(at);
            if !today.holds(moment) {
                today = Today::of(moment);
            }
            SunStep {
                day_of_year: today.day_of_year,
                extraterrestrial: today.extraterrestrial,
                ray: self.ray(moment),
            }
        })
    }

    /// The sun at a moment between the first and the last instant.
    fn ray(&self, moment: Moment) -> Ray {
        let (sun_sine, greenwich_radians) = self.curve.overhead(moment);
        let sun_cosine = (1.0 - sun_sine * sun_sine).sqrt();
        let (turn_sine, turn_cosine) = (greenwich_radians + self.longitude_radians).sin_cos();
        let towards = sun_cosine * turn_cosine;
        // Seen from the surface and not from the middle of the earth, the sun stands lower.
        let up = self.latitude_sine * sun_sine + self.latitude_cosine * towards - PARALLAX;
        let east = -sun_cosine * turn_sine;
        let north = self.latitude_cosine * sun_sine - self.latitude_sine * towards;
        let aside = (east * east + north * north).sqrt();
        let elevation = up.atan2(aside);
        let length = (up * up + aside * aside).sqrt();
        let lift = self.lens.lift(elevation);
        let (lift_sine, lift_cosine) = lift.sin_cos();
        let shorter = match aside {
            0.0 => 0.0,
            _ => (lift_cosine - up / aside * lift_sine) / length,
        };
        Ray {
            zenith_cosine: up / length,
            apparent: Angle::from_degrees(90.0 - (elevation + lift).to_degrees()),
            east: east * shorter,
            north: north * shorter,
            up: (up * lift_cosine + aside * lift_sine) / length,
        }
    }
}

impl SunStep {
    /// Light on flat ground above the air [W/m²].
    #[must_use]
    pub fn above_flat_ground(&self) -> f64 {
        self.extraterrestrial * self.ray.zenith_cosine.max(0.0)
    }

    /// Where the sun stands, as angles.
    #[must_use]
    pub fn sun(&self) -> Sun {
        self.ray.sun()
    }
}

impl Instants {
    /// One of them, counted from zero.
    #[must_use]
    pub fn at(&self, index: u32) -> Moment {
        self.first.after_hours(f64::from(index) * self.step_hours)
    }

    fn last(&self) -> Moment {
        self.at(self.count.saturating_sub(1))
    }
}

/// What stays the same for a day.
#[derive(Debug, Clone, Copy)]
struct Today {
    julian_day: f64,
    day_of_year: u32,
    extraterrestrial: f64,
}

impl Today {
    fn of(moment: Moment) -> Today {
        let day_of_year = moment.day_of_year();
        Today {
            julian_day: (moment.julian_days() - 0.5).floor(),
            day_of_year,
            extraterrestrial: extraterrestrial(day_of_year),
        }
    }

    fn holds(self, moment: Moment) -> bool {
        let since = moment.julian_days() - 0.5 - self.julian_day;
        (0.0..1.0).contains(&since)
    }
}
