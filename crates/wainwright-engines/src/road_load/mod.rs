//! What it takes to pull an outfit along, and to stop it: fuel as an estimate, hills, brakes. Drag
//! areas, rolling coefficients and engine figures are the caller's; brake laws are not here.
//!
//! # Computes
//! Driving force, fuel per distance and the comparison of two outfits; fuel for a climb; the force
//! to start on or hold on a hill; stopping distance with braked and unbraked trailers.
//!
//! # Equation
//! - F = g Σ mᵢcᵢ cosα + ½ρ ΣCdAᵢ (U + w)² + g sinα Σmᵢ, tanα the grade.
//! - Fuel power = P₀U/U₀ + F U/η (an engine's straight line); fuel per distance = fuel power/(H U).
//! - Stopping d = U t + U²/2a; unbraked trailer a = μ g (m₁ + T)/(m₁ + m₂).
//! - Start F = g(Σmᵢcᵢ cosα + Σmᵢ sinα) + a Σmᵢ.
//!
//! # Assumptions and limits
//! - Estimates: the two drag areas are added, though a trailer in the car's wake may have less and
//!   a tall one more; the engine line holds for warm engines in an even gear. Fit P₀ to the car's
//!   own consumption.
//! - Downhill force below zero burns no less than the idle line.
//! - Brakes hold at the friction limit of all braked wheels.
//!
//! # Valid range
//! 10 km/h to 130 km/h; grades within ±30 %.
//!
//! # Example
//! ```
//! use wainwright_engines::road_load::{Road, Vehicle, driving_force};
//! use wainwright_units::*;
//! let car = Vehicle {
//!     mass: Mass::from_kilograms(1950.0),
//!     rolling: Ratio::from_fraction(0.009),
//!     drag_area: Area::from_square_metres(0.95),
//! };
//! let road = Road { air_kg_per_m3: 1.2, headwind: 0.0, grade: Ratio::ZERO };
//! let force = driving_force(&[car], &road, 80.0 / 3.6).unwrap();
//! assert!((force.newtons() - 453.6).abs() < 0.5);
//! ```
//!
//! # Sources
//! - Road load equation (any vehicle-dynamics textbook; memory).
//! - Straight line of fuel power over work (Willans line; memory).
//! - Stopping and starting: derived from the balance of forces.

mod brakes;
mod force;
mod fuel;

pub use brakes::{Stop, hold_force, start_force, stopping_distance, unbraked_deceleration};
pub use force::{Road, Vehicle, driving_force};
pub use fuel::{Comparison, Engine, Fuel, climb_fuel, compare, fuel};
