//! Light that the glass of a panel lets through at a slant.

use super::panel::OnPanel;
use std::f64::consts::PI;
use wainwright_units::Angle;

/// First coefficient of the diffuse forms, 4/(3π) as printed (read).
const FIRST_COEFFICIENT: f64 = 0.4244;

/// How the loss at a slant is described.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Glass {
    /// Martin and Ruiz, with their coefficient (0.16 for plain glass that is clean; read).
    MartinRuiz {
        /// Coefficient of the glass, above 0.
        coefficient: f64,
    },
    /// 1 − b (1/cos θ − 1), for the beam alone (ASHRAE; b is 0.05 as a rule; read).
    Straight {
        /// Slope.
        slope: f64,
    },
    /// Fresnel's and Bouguer's laws, for the beam alone.
    Physical {
        /// Refractive index (1.526 for glass; read).
        index: f64,
        /// Share of light lost per metre of glass [1/m].
        extinction: f64,
        /// Thickness [m].
        thickness: f64,
    },
}

/// Light behind the glass: every part of the light times its own factor [W/m²].
///
/// The descriptions made for the beam alone leave sky and ground light whole.
pub fn through_glass(light: OnPanel, incidence: Angle, tilt: Angle, glass: Glass) -> OnPanel {
    OnPanel {
        beam: light.beam * glass.beam_factor(incidence),
        sky: light.sky * glass.sky_factor(tilt),
        ground: light.ground * glass.ground_factor(tilt),
    }
}

impl Glass {
    /// Share of beam light that gets through, 0 to 1; 0 from behind.
    #[must_use]
    pub fn beam_factor(self, incidence: Angle) -> f64 {
        if incidence.degrees() >= 90.0 {
            return 0.0;
        }
        self.beam_factor_of(incidence.radians().cos())
    }

    /// The same from the cosine of the incidence; 0 from behind.
    #[must_use]
    pub(super) fn beam_factor_of(self, cosine: f64) -> f64 {
        if cosine <= 0.0 {
            return 0.0;
        }
        match self {
            Glass::MartinRuiz { coefficient } => {
                (1.0 - (-cosine / coefficient).exp()) / (1.0 - (-1.0 / coefficient).exp())
            }
            Glass::Straight { slope } => (1.0 - slope * (1.0 / cosine - 1.0)).max(0.0),
            Glass::Physical {
                index,
                extinction,
                thickness,
            } => fresnel(cosine, index, extinction * thickness),
        }
    }

    /// Share of sky light that gets through, 0 to 1.
    #[must_use]
    pub fn sky_factor(self, tilt: Angle) -> f64 {
        let Glass::MartinRuiz { coefficient } = self else {
            return 1.0;
        };
        let (sine, cosine) = tilt.radians().sin_cos();
        diffuse_factor(
            sine + (PI - tilt.radians() - sine) / (1.0 + cosine),
            coefficient,
        )
    }

    /// Share of ground light that gets through, 0 to 1; 0 for a level panel, which sees none.
    #[must_use]
    pub fn ground_factor(self, tilt: Angle) -> f64 {
        let Glass::MartinRuiz { coefficient } = self else {
            return 1.0;
        };
        let (sine, cosine) = tilt.radians().sin_cos();
        if cosine >= 1.0 {
            return 0.0;
        }
        diffuse_factor(sine + (tilt.radians() - sine) / (1.0 - cosine), coefficient)
    }
}

fn diffuse_factor(term: f64, coefficient: f64) -> f64 {
    let second = 0.5 * coefficient - 0.154;
    1.0 - (-(FIRST_COEFFICIENT + second * term) * term / coefficient).exp()
}

/// Light through the glass at a slant over light straight through.
fn fresnel(cosine: f64, index: f64, optical_depth: f64) -> f64 {
    let inner = (1.0 - (1.0 - cosine * cosine) / (index * index)).sqrt();
    let across = ((cosine - index * inner) / (cosine + index * inner)).powi(2);
    let along = ((inner - index * cosine) / (inner + index * cosine)).powi(2);
    let straight_back = ((1.0 - index) / (1.0 + index)).powi(2);
    let slanted = (1.0 - (across + along) / 2.0) * (-optical_depth / inner).exp();
    slanted / ((1.0 - straight_back) * (-optical_depth).exp())
}
