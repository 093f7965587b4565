//! What it takes to keep an item in its place: the forces on it and what straps, bolts and wood
//! screws hold. Acceleration profiles, strengths, densities of wood and working limits are the
//! caller's.
//!
//! # Computes
//! Forces on an item by a profile of accelerations, the force of a pull test, the strap tension
//! that friction needs, the acceleration at which an item tips, tension and shear of a bolt,
//! withdrawal of lag and wood screws, and how much of a demand a set of fixings holds.
//!
//! # Equation
//! - F = c·m·g in each direction; pull test min(cap, k·m·g).
//! - Strap over the top, per strap: F_T = f_s (c_x − μ c_z) m g/(2 n μ sinα).
//! - Tips when c > (b/2)/h·c_z, b the base along the acceleration, h the height of the centre of
//!   gravity.
//! - Bolt: proof stress · stress area; shear k·tensile strength · stress area.
//! - Lag screw in side grain: 1800 G^(3/2) D^(3/4) lbf per inch of thread (D in inches); wood
//!   screw: 2850 G² D.
//!
//! # Assumptions and limits
//! - Accelerations are steady and act at the centre of gravity; profiles for driving are not crash
//!   loads.
//! - Withdrawal is straight out, at the normal duration of load, without factors for wet or hot
//!   service. In plywood it over-predicts.
//! - The member a bolt goes through (bearing, pull-through) is not checked; it usually governs.
//!
//! # Valid range
//! Friction above zero; strap angle above 0° to 90°; specific gravity 0.3 to 0.8.
//!
//! # Example
//! ```
//! use wainwright_engines::tie_down::lag_withdrawal;
//! use wainwright_units::*;
//! let one_inch = Length::from_inches(1.0);
//! let held = lag_withdrawal(Ratio::from_fraction(0.50), Length::from_inches(0.25), one_inch).unwrap();
//! assert!((held.newtons() / 4.448_222 - 225.0).abs() < 0.5);
//! ```
//!
//! # Sources
//! - National Design Specification for Wood Construction, withdrawal equations and table (read).
//! - 49 CFR 393.102: the form of a profile, forward, rearward, sideways, up (read).
//! - Friction lashing: balance of forces (EN 12195-1 in abstract; derived).
//! - Pull test of batteries: small-craft electrical rule (read).

mod fasteners;
mod forces;
mod straps;

pub use fasteners::{BoltMetal, BoltStrength, bolt, lag_withdrawal, screw_withdrawal};
pub use forces::{Forces, Profile, Spare, forces, pull_test, spare, tipping_acceleration};
pub use straps::{Lashing, strap_tension};
