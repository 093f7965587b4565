//! A panel prepared for many instants: what depends on its tilt and glass alone is found once.
//! Not here: the equations, which are those of `panel` and `glass`.

use super::air::extraterrestrial;
use super::glass::Glass;
use super::panel::{Ground, OnPanel, Orientation, Plane};
use super::position::Sun;
use super::ray::Ray;
use super::sky::Sky;

/// A panel with its glass and the ground before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PreparedPanel {
    plane: Plane,
    glass: Glass,
    sky_factor: f64,
    ground_factor: f64,
}

/// Light before and behind the glass of a panel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lit {
    /// Before the glass, which heats the panel.
    pub before: OnPanel,
    /// Behind the glass, which makes power.
    pub behind: OnPanel,
}

impl PreparedPanel {
    /// Prepares a panel.
    #[must_use]
    pub fn new(panel: Orientation, ground: Ground, glass: Glass) -> PreparedPanel {
        PreparedPanel {
            plane: Plane::new(panel, ground),
            glass,
            sky_factor: glass.sky_factor(panel.tilt),
            ground_factor: glass.ground_factor(panel.tilt),
        }
    }

    /// Light on the panel and behind its glass under a sky that is brighter round the sun.
    #[must_use]
    pub fn lit(&self, sky: Sky, sun: Sun, day_of_year: u32) -> Lit {
        self.lit_by(sky, &Ray::from(sun), extraterrestrial(day_of_year))
    }

    /// The same from the direction of the sun and the light above the air [W/m²].
    #[must_use]
    pub fn lit_by(&self, sky: Sky, ray: &Ray, extraterrestrial: f64) -> Lit {
        let cosine = self.plane.incidence_cosine(ray);
        let before = self.plane.bright(sky, ray, cosine, extraterrestrial);
        let behind = OnPanel {
            beam: before.beam * self.glass.beam_factor_of(cosine),
            sky: before.sky * self.sky_factor,
            ground: before.ground * self.ground_factor,
        };
        Lit { before, behind }
    }
}
