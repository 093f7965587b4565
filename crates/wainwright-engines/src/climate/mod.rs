//! Twelve months of climate at a place: from a record, a listed place, or numbers somebody typed.
//! Files are read in `weather_file`; days and hours of such months are made in `weather`.
//!
//! # Computes
//! Monthly clearness, its spread and memory, temperatures and wind of a record; twelve months that
//! are complete, from whatever is known; the nearest of some places.
//!
//! # Equation
//! - clearness of a month: K = Σ H / Σ H0; of a day: H / H0 over the hours that were measured
//! - memory: Σ (x − m)(x' − m) / pairs over the variance, of days that follow each other
//! - from temperatures (Hargreaves–Samani): K = k √(Tmax − Tmin)
//! - swing from clearness (Erbs): A = 25.8 K − 5.21, times daily range over swing of the mean day
//! - distance (haversine): d = 2 R asin √(sin²(Δφ/2) + cos φ cos φ' sin²(Δλ/2))
//!
//! # Assumptions and limits
//! A day counts when nine tenths of its light above the air were measured, and its temperature
//! when twenty hours were. A month needs ten days. Two days in a row belong to the same month.
//! In a month without sun the year's mean clearness stands in, where it does no harm.
//!
//! # Valid range
//! Clearness 0.02 to 0.85. Clearness from temperatures is off by 0.064 (one deviation, 12 % of
//! a usual one).
//!
//! # Example
//! ```
//! use wainwright_engines::{climate, sun::Place};
//! use wainwright_units::{Angle, Length};
//! let at = |latitude, longitude| Place {
//!     latitude: Angle::from_degrees(latitude),
//!     longitude: Angle::from_degrees(longitude),
//!     altitude: Length::from_metres(100.0),
//! };
//! let listed = [at(33.4, -112.0), at(44.5, -73.2)];
//! let near = climate::nearest(at(43.0, -72.0), &listed, Length::from_metres(500.0)).unwrap();
//! assert_eq!(near.index, 1);
//! assert!((near.distance.metres() - 193_000.0).abs() < 2_000.0);
//! ```
//!
//! # Sources
//! - FAO Irrigation and Drainage Paper 56 (1998): light from temperatures (memory); its deviation
//!   over 384 months of typical years (derived).
//! - D. Erbs, S. Klein, W. Beckman, ASHRAE Journal 25 (1983): swing from clearness (memory).
//! - R. Sinnott, Sky and Telescope 68 (1984): distance (memory).

mod days;
mod facts;
mod monthly;
mod near;
mod typed;

pub use facts::{MonthFacts, facts, monthly_above};
pub use monthly::{Basis, Month, Monthly, Usual, YearSpread, from_facts};
pub use near::{Near, distance, nearest};
pub use typed::{Light, TypedYear, from_typed};
