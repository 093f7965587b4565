//! Where the sun stands and how much of its light reaches a panel.
//! What a panel makes of the light is in `solar_power`; clouds are in `weather`.
//!
//! # Computes
//! The sun's zenith and azimuth, light above the air, air mass, light under a clear sky, the split
//! of measured light into beam and diffuse, light on a tilted panel, and the part that gets through
//! the glass.
//!
//! # Equation
//! - in a sweep: sin h = sin φ sin δ + cos φ cos δ cos H, less the parallax, δ and H from cubics
//! - air lifts the sun by (p / 1010) (283 / (273 + T)) 1.02′ / tan(h + 10.3 / (h + 5.11))
//! - E0 = 1366.1 (1.00011 + 0.034221 cos B + 0.00128 sin B + 0.000719 cos 2B + 0.000077 sin 2B)
//! - Kasten–Young: AM = 1 / (cos z + 0.50572 (96.07995 − z)^−1.6364)
//! - Ineichen–Perez: GHI = cg1 E0 cos z exp(−cg2 AM (fh1 + fh2 (TL − 1))), and its beam
//! - Haurwitz: GHI = 1098 cos z exp(−0.059 / cos z)
//! - Erbs: diffuse share of GHI from kt = GHI / (E0 cos z)
//! - Hay–Davies: POA = DNI cos θ + DHI [(1 − A)(1 + cos β)/2 + A Rb] + ρ GHI (1 − cos β)/2
//! - Martin–Ruiz: IAM = (1 − exp(−cos θ / ar)) / (1 − exp(−1 / ar)), and its two diffuse forms
//!
//! # Assumptions and limits
//! Flat horizon, no haze beyond the Linke turbidity, no reflections but those of even ground.
//! Beam light below 3° of sun height is counted as diffuse. Irradiance is a plain number in [W/m²].
//!
//! # Valid range
//! Years 2010 to 2110 with the fast position, −2000 to 6000 with the exact one; altitude below
//! 11 km; Linke turbidity 1 to 10. The fast position is within 0.01° of the exact one; a sweep is
//! within 0.0001° of its method.
//!
//! # Example
//! ```
//! use wainwright_engines::sun::{self, Air, Method, Moment, Place};
//! use wainwright_units::{Angle, Length};
//! let place = Place {
//!     latitude: Angle::from_degrees(39.74),
//!     longitude: Angle::from_degrees(-105.18),
//!     altitude: Length::from_metres(1829.0),
//! };
//! let noon = Moment::from_utc(2026, 10, 5, 18.5)?;
//! let sun = sun::position(noon, place, Air::standard(place.altitude), Method::Fast)?;
//! let sky = sun::clear_sky(sun, noon.day_of_year(), place.altitude, 2.6);
//! assert!((sky.global - 804.2).abs() < 0.5);
//! # Ok::<(), sun::SunError>(())
//! ```
//!
//! # Sources
//! - I. Reda, A. Andreas, NREL/TP-560-34302: exact position, lift by air, parallax (read; test
//!   case; lift and parallax as stated by the position library; read).
//! - R. Grena, Solar Energy 86 (2012): fast position (as stated by the position library; read).
//! - J. Spencer, Search 2 (1971); F. Kasten, A. Young, Applied Optics 28 (1989) (read).
//! - P. Ineichen, R. Perez, Solar Energy 73 (2002); B. Haurwitz, J. Meteorology 2 (1945) (read).
//! - D. Erbs, S. Klein, J. Duffie, Solar Energy 28 (1982) (read).
//! - J. Hay, J. Davies (1980); N. Martin, J. Ruiz, Solar Energy Materials 70 (2001) (read).
//! - J. Duffie, W. Beckman, Solar Engineering of Thermal Processes, example 1.10 (memory).

mod air;
mod curve;
mod glass;
mod panel;
mod position;
mod prepared;
mod ray;
mod refraction;
mod sky;
mod sweep;

pub use air::{
    absolute_air_mass, air_pressure, daily_extraterrestrial, extraterrestrial, relative_air_mass,
};
pub use glass::{Glass, through_glass};
pub use panel::{Ground, OnPanel, Orientation, incidence, on_panel, on_panel_even_sky};
pub use position::{Air, Method, Moment, Place, Sun, SunError, position};
pub use prepared::{Lit, PreparedPanel};
pub use ray::Ray;
pub use sky::{ClearSky, Sky, clear_sky, clearness, haurwitz, split};
pub use sweep::{Instants, SunStep, Sweep};
