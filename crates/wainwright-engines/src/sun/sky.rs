//! Light of a clear sky, and the split of measured light into beam and diffuse.

use super::air::{extraterrestrial, pressure_share, relative_air_mass_of};
use super::position::Sun;
use super::ray::Ray;
use wainwright_units::{Angle, Length};

/// Beam light is not trusted when the sun is lower than this zenith [°] (Erbs as applied; read).
const LOWEST_BEAM_ZENITH: f64 = 87.0;

/// Smallest cosine of the zenith in the clearness, so that dusk does not divide by zero (read).
const SMALLEST_COSINE: f64 = 0.065;

/// Light under the open sky.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sky {
    /// All light on flat ground [W/m²].
    pub global: f64,
    /// Light from the sun's disc on a surface that faces it [W/m²].
    pub beam: f64,
    /// Light from the rest of the sky on flat ground [W/m²].
    pub diffuse: f64,
}

impl Sky {
    /// Night.
    pub const DARK: Sky = Sky {
        global: 0.0,
        beam: 0.0,
        diffuse: 0.0,
    };
}

/// A clear sky, prepared from the altitude and the Linke turbidity (2 very clear, 4 hazy).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ClearSky {
    pressure_share: f64,
    global_share: f64,
    global_loss: f64,
    beam_share: f64,
    beam_loss: f64,
    beam_of_global: f64,
}

impl ClearSky {
    /// Prepares the sky of a place.
    #[must_use]
    pub fn new(altitude: Length, turbidity: f64) -> ClearSky {
        let metres = altitude.metres();
        let fh1 = (-metres / 8000.0).exp();
        let fh2 = (-metres / 1250.0).exp();
        let haze = turbidity - 1.0;
        ClearSky {
            pressure_share: pressure_share(altitude),
            global_share: 5.09e-5 * metres + 0.868,
            global_loss: (3.92e-5 * metres + 0.0387) * (fh1 + fh2 * haze),
            beam_share: 0.664 + 0.163 / fh1,
            beam_loss: 0.09 * haze,
            beam_of_global: 1.0 - (0.1 - 0.2 * (-turbidity).exp()) / (0.1 + 0.882 / fh1),
        }
    }

    /// Light under it, from the direction of the sun and the light above the air [W/m²].
    #[must_use]
    pub fn light(&self, ray: &Ray, extraterrestrial: f64) -> Sky {
        let cos_zenith = ray.up;
        let Some(relative) = relative_air_mass_of(ray.apparent.degrees(), cos_zenith) else {
            return Sky::DARK;
        };
        if cos_zenith <= 0.0 {
            return Sky::DARK;
        }
        let air_mass = relative * self.pressure_share;
        let global = self.global_share
            * extraterrestrial
            * cos_zenith
            * (-self.global_loss * air_mass).exp();
        let by_air = extraterrestrial * self.beam_share * (-self.beam_loss * air_mass).exp();
        let by_global = global * self.beam_of_global / cos_zenith;
        let beam = by_air.min(by_global).max(0.0);
        Sky {
            global,
            beam,
            diffuse: global - beam * cos_zenith,
        }
    }
}

/// Light under a clear sky, from the Linke turbidity (2 very clear, 4 hazy).
pub fn clear_sky(sun: Sun, day_of_year: u32, altitude: Length, turbidity: f64) -> Sky {
    ClearSky::new(altitude, turbidity).light(&Ray::from(sun), extraterrestrial(day_of_year))
}

/// Global light under a clear sky from the apparent zenith alone [W/m²]; an upper bound in use.
pub fn haurwitz(apparent: Angle) -> f64 {
    let cos_zenith = apparent.radians().cos();
    if cos_zenith <= 0.0 {
        return 0.0;
    }
    1098.0 * cos_zenith * (-0.059 / cos_zenith).exp()
}

/// Clearness: global light over what would arrive without air, 0 to 1, from the true zenith.
pub fn clearness(global: f64, zenith: Angle, day_of_year: u32) -> f64 {
    let above = extraterrestrial(day_of_year) * zenith.radians().cos().max(SMALLEST_COSINE);
    (global / above).clamp(0.0, 1.0)
}

/// Splits global light [W/m²] into beam and diffuse by the clearness (Erbs).
pub fn split(global: f64, zenith: Angle, day_of_year: u32) -> Sky {
    let kt = clearness(global, zenith, day_of_year);
    let diffuse = global * diffuse_share(kt);
    let beam = (global - diffuse) / zenith.radians().cos();
    if zenith.degrees() > LOWEST_BEAM_ZENITH || global < 0.0 || beam < 0.0 {
        return Sky {
            global,
            beam: 0.0,
            diffuse: global,
        };
    }
    Sky {
        global,
        beam,
        diffuse,
    }
}

/// Diffuse share of global light at a clearness.
fn diffuse_share(kt: f64) -> f64 {
    if kt <= 0.22 {
        1.0 - 0.09 * kt
    } else if kt <= 0.8 {
        0.9511 + kt * (-0.1604 + kt * (4.388 + kt * (-16.638 + kt * 12.336)))
    } else {
        0.165
    }
}
