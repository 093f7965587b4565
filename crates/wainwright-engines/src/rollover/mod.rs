//! When a vehicle or trailer tips sideways, and when its tail touches the ground. Not here: how
//! much of the threshold may be used, pitching over, dynamics.
//!
//! # Computes
//! The static stability factor and the sideways acceleration, side slope, speed in a bend, speed of
//! sliding into a kerb, and crosswind at which wheels lift; the departure angle.
//!
//! # Equation
//! - SSF = (t/2 − |y|)/h, y the sideways place of the centre of gravity; with a factor for
//!   suspension and tyres, the threshold is k·SSF (in g).
//! - Slope atan(k·SSF), bend √(g R k·SSF).
//! - Sliding into a kerb: √{2 g I₀/(M h²)·(√(t²/4 + h²) − h)}, I₀ = Iₓ + M(t²/4 + h²).
//! - Crosswind: ½ρV² C A hₚ = M g (t/2 − |y|).
//! - Departure angle atan(height/overhang).
//!
//! # Assumptions and limits
//! Static and rigid but for the factor k. A ball passes no roll moment, so a trailer tips by
//! itself. A slope or bend is met at steady state: bumps, swerves and load that shifts need far
//! less.
//!
//! # Valid range
//! Any lengths above zero; sideways place within the track.
//!
//! # Example
//! ```
//! use wainwright_engines::rollover::{Stance, threshold};
//! use wainwright_units::*;
//! let stance = Stance {
//!     track: Length::from_metres(1.6),
//!     height: Length::from_metres(1.0),
//!     sideways: Length::ZERO,
//!     softness: Ratio::from_fraction(0.85),
//! };
//! assert!((threshold(&stance).unwrap().fraction() - 0.68).abs() < 1e-9);
//! ```
//!
//! # Sources
//! - Static stability factor and critical sliding velocity: light-vehicle inertial parameter
//!   database of the US road-safety agency (read), whose printed row the equation reproduces.
//! - Other forms: derived from moments about the outer tyre.

mod clearance;
mod tipping;

pub use clearance::departure_angle;
pub use tipping::{
    CrossWind, Stance, bend_speed, crosswind_speed, side_slope, sliding_speed, stability_factor,
    threshold,
};
