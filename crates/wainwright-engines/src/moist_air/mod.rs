//! Moist air: how much water it holds, when that water comes out, what the air weighs and carries.
//! Water in walls is in `damp`; how much air to change is in `fresh_air`.
//!
//! # Computes
//! Saturation pressure over water and ice, dew point, wet bulb, humidity ratio, enthalpy, volume,
//! density and water per volume; the density and heat of dry air.
//!
//! # Equation
//! - Handbook form, ln p: below 0.01 °C C1/T + C2 + C3 T + C4 T² + C5 T³ + C6 T⁴ + C7 ln T, above
//!   C8/T + C9 + C10 T + C11 T² + C12 T³ + C13 ln T.
//! - Standard form: 610.5 exp(17.269 θ/(237.3 + θ)) from 0 °C, 610.5 exp(21.875 θ/(265.5 + θ))
//!   below; its inverse is closed.
//! - W = 0.621945 p_w/(p − p_w); h = 1.006 θ + W (2501 + 1.86 θ) [kJ/kg];
//!   v = 287.042 T (1 + 1.607858 W)/p; ρ = (1 + W)/v; water per volume p_w/(461.5 T).
//! - Wet bulb: the temperature θ* whose saturated W* gives back W by
//!   W = ((2501 − 2.326 θ*) W* − 1.006 (θ − θ*))/(2501 + 1.86 θ − 4.186 θ*), over ice
//!   W = ((2830 − 0.24 θ*) W* − 1.006 (θ − θ*))/(2830 + 1.86 θ − 2.1 θ*).
//!
//! # Assumptions and limits
//! Air and water vapour are ideal gases. Below freezing the saturation is that over ice.
//!
//! # Valid range
//! −100 to 200 °C in the handbook form, −40 to 60 °C in the standard form; relative humidity above 0
//! to 1; vapour pressure below the pressure of the air.
//!
//! # Example
//! ```
//! use wainwright_engines::moist_air::{Formula, dew_point, saturation_pressure};
//! use wainwright_units::Temperature;
//! let room = saturation_pressure(Temperature::from_celsius(20.0), Formula::Standard).unwrap();
//! let dew = dew_point(0.5 * room, Formula::Standard).unwrap();
//! assert!((dew.celsius() - 9.27).abs() < 0.005);
//! ```
//!
//! # Sources
//! - ASHRAE Handbook Fundamentals, chapter 1 (2017), as stated by a psychrometric library (read).
//! - ISO 13788, annex E: standard form and its inverse (read).

mod saturation;
mod state;

pub use crate::sun::air_pressure;
pub use saturation::{Formula, dew_point, saturation_pressure};
pub use state::{
    Carrier, MoistAir, dry_air, grams_per_m3, relative_humidity, state, vapour_pressure,
};
