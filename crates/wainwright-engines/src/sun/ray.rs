//! The sun as a direction, for loops that need cosines and not angles. Not here: light.

use super::position::Sun;
use wainwright_units::Angle;

/// Where the sun stands, as the cosines that light depends on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ray {
    /// Cosine of the zenith without air, −1 to 1.
    pub zenith_cosine: f64,
    /// Zenith as seen through the air [°].
    pub apparent: Angle,
    /// Part of the direction to the sun, as seen through the air, that points east, −1 to 1.
    pub east: f64,
    /// The part that points north.
    pub north: f64,
    /// The part that points up: the cosine of the apparent zenith.
    pub up: f64,
}

impl Ray {
    /// The same as angles.
    #[must_use]
    pub fn sun(&self) -> Sun {
        let azimuth = self.east.atan2(self.north).to_degrees();
        Sun {
            zenith: Angle::from_radians(self.zenith_cosine.clamp(-1.0, 1.0).acos()),
            apparent: self.apparent,
            azimuth: Angle::from_degrees(azimuth.rem_euclid(360.0)),
        }
    }
}

impl From<Sun> for Ray {
    fn from(sun: Sun) -> Ray {
        let (aside, up) = sun.apparent.radians().sin_cos();
        let (east, north) = sun.azimuth.radians().sin_cos();
        Ray {
            zenith_cosine: sun.zenith.radians().cos(),
            apparent: sun.apparent,
            east: aside * east,
            north: aside * north,
            up,
        }
    }
}
