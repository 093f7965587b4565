//! What scales say about a trailer: from readings to loads, centre of gravity and the bare shell,
//! each with its uncertainty. Loads computed from a list of items are in `balance`.
//!
//! # Computes
//! Tongue load from a beam and a small scale, and from a reading at the jack; all loads from three
//! passes over a public scale; sideways centre and its height; mass and centre of the bare shell
//! from weighings with known items aboard, whether those contradict each other, and how likely that
//! much contradiction is by chance.
//!
//! # Equation
//! - Beam: load = (R − R₀)(a + b)/a. Jack at j behind the ball: T = F(L − j)/L.
//! - Passes: T = (front + rear)coupled − (front + rear)alone, W = A + T; with the bars tight the
//!   trailer's axles gain M/L.
//! - Sideways: ȳ = t(Wₗ − Wᵣ)/(2W). A ball passes no roll moment, so the whole moment is at the
//!   wheels.
//! - Height, tongue raised by θ: z = r + [u cosθ − (T'/W)(L cosθ − w sinθ)]/sinθ.
//! - Shell: T − (M − P/L) = t₀, A − P/L = a₀, M and P mass and moment of the known items; least
//!   squares with weights 1/σ² gives m₀ = t₀ + a₀ and x₀ = L a₀/m₀ with their covariance.
//! - Chance of a sum of squares χ² with ν spare readings: Q(ν/2, χ²/2), the regularised upper
//!   incomplete gamma function, by its series or its continued fraction.
//! - Uncertainties propagate to first order; readings are independent.
//!
//! # Assumptions and limits
//! - Trailer level at towing height, wheels free to roll a few millimetres, so that no friction
//!   holds.
//! - An error common to all readings of one scale does not show in the uncertainties.
//!
//! # Valid range
//! Tilt from 3° to 30° for the height; uncertainties small beside their values.
//!
//! # Example
//! ```
//! use wainwright_engines::weigh_in::{Measured, tongue_from_jack};
//! use wainwright_units::*;
//! let at_jack = Measured::exact(Mass::from_kilograms(106.5));
//! let tongue = tongue_from_jack(
//!     at_jack,
//!     Measured::exact(Length::from_metres(0.45)),
//!     Measured::exact(Length::from_metres(2.9)),
//! )
//! .unwrap();
//! assert!((tongue.value.kilograms() - 89.97).abs() < 0.01);
//! ```
//!
//! # Sources
//! - Lever and moment balance (any textbook; memory); beam arrangements of how-to texts (read).
//! - Least squares, propagation of uncertainty, chi-squared tail: statistics textbooks (memory).
//! - Height by tilting: derived; the two-axle form of textbooks (read) is the same balance.

mod beam;
mod chance;
mod measured;
mod passes;
mod place;
mod shell;

pub use beam::{Beam, beam, tongue_from_jack};
pub use chance::chi_squared_tail;
pub use measured::Measured;
pub use passes::{AxleReadings, Passes, PublicScale, public_scale};
pub use place::{Raised, centre_height, centre_sideways};
pub use shell::{Contradiction, Residual, Scale, Shell, Weighing, shell};
