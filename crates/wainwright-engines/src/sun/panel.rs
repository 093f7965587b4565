//! Light on a tilted panel. Not here: what the glass keeps out (`glass`).

use super::air::extraterrestrial;
use super::position::Sun;
use super::ray::Ray;
use super::sky::Sky;
use wainwright_units::{Angle, Ratio};

/// Smallest cosine of the zenith in the ratio of beams, one degree of sun height (read).
const SMALLEST_COSINE: f64 = 0.017_45;

/// How a panel lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Orientation {
    /// From level [°].
    pub tilt: Angle,
    /// Compass direction of its face, north 0, east 90 [°].
    pub azimuth: Angle,
}

/// Share of the light on the ground that the ground throws back.
pub type Ground = Ratio;

/// Light on a panel in its three parts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct OnPanel {
    /// From the sun's disc [W/m²].
    pub beam: f64,
    /// From the sky [W/m²].
    pub sky: f64,
    /// From the ground [W/m²].
    pub ground: f64,
}

impl OnPanel {
    /// All light on the panel [W/m²].
    #[must_use]
    pub fn total(self) -> f64 {
        self.beam + self.sky + self.ground
    }
}

/// Angle between the sun and straight out of the panel [°], 0 to 180.
pub fn incidence(sun: Sun, panel: Orientation) -> Angle {
    let cosine = Plane::new(panel, Ground::ZERO).incidence_cosine(&Ray::from(sun));
    Angle::from_radians(cosine.clamp(-1.0, 1.0).acos())
}

/// Light on a panel under a sky that is brighter round the sun (Hay–Davies).
pub fn on_panel(
    sky: Sky,
    sun: Sun,
    day_of_year: u32,
    panel: Orientation,
    ground: Ground,
) -> OnPanel {
    let (plane, ray) = (Plane::new(panel, ground), Ray::from(sun));
    let cosine = plane.incidence_cosine(&ray);
    plane.bright(sky, &ray, cosine, extraterrestrial(day_of_year))
}

/// Light on a panel under a sky that is equally bright everywhere.
pub fn on_panel_even_sky(sky: Sky, sun: Sun, panel: Orientation, ground: Ground) -> OnPanel {
    let plane = Plane::new(panel, ground);
    plane.even(sky, plane.incidence_cosine(&Ray::from(sun)))
}

/// A panel as the direction it faces and the shares of sky and ground it sees.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Plane {
    east: f64,
    north: f64,
    up: f64,
    sky_seen: f64,
    ground_seen: f64,
}

impl Plane {
    pub(super) fn new(panel: Orientation, ground: Ground) -> Plane {
        let (aside, up) = panel.tilt.radians().sin_cos();
        let (east, north) = panel.azimuth.radians().sin_cos();
        Plane {
            east: aside * east,
            north: aside * north,
            up,
            sky_seen: (1.0 + up) / 2.0,
            ground_seen: ground.fraction() * (1.0 - up) / 2.0,
        }
    }

    /// Cosine of the angle of incidence of the apparent sun; negative from behind.
    pub(super) fn incidence_cosine(&self, ray: &Ray) -> f64 {
        self.up * ray.up + self.east * ray.east + self.north * ray.north
    }

    /// Light under an even sky.
    fn even(&self, sky: Sky, incidence_cosine: f64) -> OnPanel {
        OnPanel {
            beam: sky.beam * incidence_cosine.max(0.0),
            sky: sky.diffuse * self.sky_seen,
            ground: sky.global * self.ground_seen,
        }
    }

    /// Light under a sky that is brighter round the sun, from the light above the air [W/m²].
    pub(super) fn bright(
        &self,
        sky: Sky,
        ray: &Ray,
        incidence_cosine: f64,
        extraterrestrial: f64,
    ) -> OnPanel {
        let even = self.even(sky, incidence_cosine);
        let towards_sun = sky.beam / extraterrestrial;
        let of_beams = incidence_cosine.max(0.0) / ray.up.max(SMALLEST_COSINE);
        OnPanel {
            sky: even.sky * (1.0 - towards_sun) + sky.diffuse * towards_sun * of_beams,
            ..even
        }
    }
}
