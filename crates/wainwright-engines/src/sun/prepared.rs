//! A panel prepared for many instants: what depends on its tilt and glass alone is found once.
//! The same equations as `panel` and `glass`, which serve single instants.

use super::air::extraterrestrial;
use super::glass::Glass;
use super::panel::{Ground, OnPanel, Orientation, SMALLEST_COSINE};
use super::position::Sun;
use super::sky::Sky;

/// A panel with its glass and the ground before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PreparedPanel {
    glass: Glass,
    azimuth: f64,
    sin_tilt: f64,
    cos_tilt: f64,
    ground_seen: f64,
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
        let (sin_tilt, cos_tilt) = panel.tilt.radians().sin_cos();
        PreparedPanel {
            glass,
            azimuth: panel.azimuth.radians(),
            sin_tilt,
            cos_tilt,
            ground_seen: ground.fraction() * (1.0 - cos_tilt) / 2.0,
            sky_factor: glass.sky_factor(panel.tilt),
            ground_factor: glass.ground_factor(panel.tilt),
        }
    }

    /// Light on the panel and behind its glass under a sky that is brighter round the sun.
    #[must_use]
    pub fn lit(&self, sky: Sky, sun: Sun, day_of_year: u32) -> Lit {
        let (sin_zenith, cos_zenith) = sun.apparent.radians().sin_cos();
        let turn = (sun.azimuth.radians() - self.azimuth).cos();
        let cos_incidence =
            (self.cos_tilt * cos_zenith + self.sin_tilt * sin_zenith * turn).max(0.0);
        let towards_sun = sky.beam / extraterrestrial(day_of_year);
        let even = sky.diffuse * (1.0 + self.cos_tilt) / 2.0;
        let before = OnPanel {
            beam: sky.beam * cos_incidence,
            sky: even * (1.0 - towards_sun)
                + sky.diffuse * towards_sun * cos_incidence / cos_zenith.max(SMALLEST_COSINE),
            ground: sky.global * self.ground_seen,
        };
        let behind = OnPanel {
            beam: before.beam * self.glass.beam_factor_of(cos_incidence),
            sky: before.sky * self.sky_factor,
            ground: before.ground * self.ground_factor,
        };
        Lit { before, behind }
    }
}
