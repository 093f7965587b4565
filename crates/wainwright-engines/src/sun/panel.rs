//! Light on a tilted panel. Not here: what the glass keeps out (`glass`).

use super::air::extraterrestrial;
use super::position::Sun;
use super::sky::Sky;
use wainwright_units::{Angle, Ratio};

/// Smallest cosine of the zenith in the ratio of beams, one degree of sun height (read).
pub(super) const SMALLEST_COSINE: f64 = 0.017_45;

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
    Angle::from_radians(incidence_cosine(sun, panel).clamp(-1.0, 1.0).acos())
}

/// Light on a panel under a sky that is brighter round the sun (Hay–Davies).
pub fn on_panel(
    sky: Sky,
    sun: Sun,
    day_of_year: u32,
    panel: Orientation,
    ground: Ground,
) -> OnPanel {
    let cos_incidence = incidence_cosine(sun, panel).max(0.0);
    let cos_zenith = sun.apparent.radians().cos().max(SMALLEST_COSINE);
    let towards_sun = sky.beam / extraterrestrial(day_of_year);
    let even = on_panel_even_sky(sky, sun, panel, ground);
    OnPanel {
        sky: even.sky * (1.0 - towards_sun)
            + sky.diffuse * towards_sun * cos_incidence / cos_zenith,
        ..even
    }
}

/// Light on a panel under a sky that is equally bright everywhere.
pub fn on_panel_even_sky(sky: Sky, sun: Sun, panel: Orientation, ground: Ground) -> OnPanel {
    let cos_tilt = panel.tilt.radians().cos();
    OnPanel {
        beam: sky.beam * incidence_cosine(sun, panel).max(0.0),
        sky: sky.diffuse * (1.0 + cos_tilt) / 2.0,
        ground: sky.global * ground.fraction() * (1.0 - cos_tilt) / 2.0,
    }
}

/// Cosine of the angle of incidence, from the apparent sun.
fn incidence_cosine(sun: Sun, panel: Orientation) -> f64 {
    let (sin_tilt, cos_tilt) = panel.tilt.radians().sin_cos();
    let (sin_zenith, cos_zenith) = sun.apparent.radians().sin_cos();
    let turn = (sun.azimuth - panel.azimuth).radians();
    cos_tilt * cos_zenith + sin_tilt * sin_zenith * turn.cos()
}
