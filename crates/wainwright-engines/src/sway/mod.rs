//! Whether a car and trailer come back to straight running after a push, and how quickly. Not here:
//! which damping is enough, tyre data, the driver.
//!
//! # Computes
//! The roots of the sideways motion at a speed, the damping ratio and frequency of the worst
//! oscillation, the change of damping between two rigs, the speed at which damping is gone, the
//! speed at which the car turns unstable without oscillating; damping from the peaks of a road
//! test.
//!
//! # Equation
//! State v, r (sideways speed and yaw rate of the car), q (heading of the trailer minus the car's).
//! With rows P₁ = [1, 0, 0], P₂ = [1, −(d + e), −e], Ω₁ = [0, 1, 0], Ω₂ = [0, 1, 1] on (v, r, q')
//! and axle rows F = [1, a, 0], R = [1, −b, 0], S = [1, −(d + L), −L]:
//! - M = m₁P₁ᵀP₁ + m₂P₂ᵀP₂ + I₁Ω₁ᵀΩ₁ + I₂Ω₂ᵀΩ₂.
//! - M [v, r, q']' = −U(m₁P₁ + m₂P₂)ᵀ r − k q' (hitch damper) + Σ rowᵀ·force.
//! - Force of an axle −Cα, slip α = row·[v, r, q']/U (− q on the trailer); with relaxation length σ
//!   the slip that counts follows: α' = (U/σ)(slip − α).
//! - Damping ratio ζ = −Re λ/|λ|. Static divergence: det(D, K) = 0, which is linear in U².
//!
//! # Assumptions and limits
//! - Small angles, constant speed, level road, tyres linear in slip, no roll, no air force, no
//!   driver. Most of what is left out makes real rigs worse, so figures serve to compare layouts; a
//!   zero-damping speed is not a safe speed.
//! - A friction stabiliser is not linear; its equivalent falls with amplitude.
//!
//! # Valid range
//! Speeds above 1 m/s; up to six trailer axles.
//!
//! # Example
//! ```
//! use wainwright_engines::sway::{Axle, Car, Rig, Trailer, TrailerAxle, motion};
//! use wainwright_units::*;
//! let axle = |newtons_per_radian| Axle { newtons_per_radian, relaxation: Length::ZERO };
//! let rig = Rig {
//!     car: Car {
//!         mass: Mass::from_kilograms(2018.0),
//!         yaw_inertia_kg_m2: 3682.0,
//!         front_to_centre: Length::from_metres(1.295),
//!         centre_to_rear: Length::from_metres(1.532),
//!         centre_to_ball: Length::from_metres(2.682),
//!         front: axle(66_813.0),
//!         rear: axle(88_582.0),
//!     },
//!     trailer: Trailer {
//!         mass: Mass::from_kilograms(900.0),
//!         yaw_inertia_kg_m2: 1089.0,
//!         ball_to_centre: Length::from_metres(2.61),
//!         axles: vec![TrailerAxle { from_ball: Length::from_metres(2.9), tyres: axle(68_268.0) }],
//!     },
//!     hitch_damping: 0.0,
//! };
//! let sway = motion(&rig, 80.0 / 3.6).unwrap().sway.unwrap();
//! assert!((sway.damping.fraction() - 0.291).abs() < 0.001);
//! ```
//!
//! # Sources
//! - Model: derived; it reproduces the eigenvalues of a benchmark attributed to J. R. Ellis's
//!   textbook on vehicle dynamics, as quoted in the test file of a public multibody-dynamics
//!   repository (read).
//! - First-order tyre relaxation: vehicle-dynamics textbooks (memory).
//! - Shifted QR iteration for eigenvalues: numerical textbooks (memory).
//! - Evaluation of successive peaks, ISO 9815 (memory).

mod complex;
mod eigen;
mod input;
mod model;
mod motion;
mod road_test;
mod speeds;

pub use input::{Axle, Car, Rig, Trailer, TrailerAxle, cornering_stiffness};
pub use motion::{DampingChange, Motion, Root, Sway, damping_change, motion};
pub use road_test::{damping_from_peaks, friction_as_damping};
pub use speeds::{Onset, divergence_speed, zero_damping_speed};
