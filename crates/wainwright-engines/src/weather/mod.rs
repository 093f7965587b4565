//! Made-up weather that is as good and as bad as the real one: days, hours, temperatures.
//! Light on a panel is in `sun`; the monthly means come from `climate`.
//!
//! # Computes
//! Daily clearness by a Markov chain, with years that differ; clearness of each hour; temperature
//! of each day and hour; the random numbers behind them. Light above the air by days and hours.
//!
//! # Equation
//! - next state: row of the present state, by a uniform number u; value = lower edge + width ·
//!   (u − F(low)) / (F(high) − F(low))
//! - hours: kt = λ + ε exp(−κ / sin h) + σ y, y = φ y' + √(1 − φ²) N(0, 1)
//! - year: K · (1 + s N(0, 1)) for each month
//! - temperature of a day: a' = r a + √(1 − r²) s N(0, 1)
//! - light above the air: E0 ∫ (sin φ sin δ + cos φ cos δ cos ω) dω, sunrise to sunset
//! - hour t of a day: Tm + A [0.4632 cos(τ − 3.805) + 0.0984 cos(2τ − 0.360)
//!   + 0.0168 cos(3τ − 0.822) + 0.0138 cos(4τ − 3.513)], τ = 2π (t − 1) / 24
//!
//! # Assumptions and limits
//! Days depend on the day before and on nothing earlier. Temperature does not follow the clearness
//! (the measured correlation is −0.2 to 0.4). A month is drawn again, twenty times at the most,
//! until its mean is within 4 % of the wanted one; the nearest draw is kept.
//!
//! # Valid range
//! Monthly clearness 0.2 to 0.8. Typical-year means understate bad years: give a spread.
//!
//! # Example
//! ```
//! use wainwright_engines::weather::{Chain, Randomness};
//! let even = Chain {
//!     up_to: 1.0,
//!     lowest: 0.1,
//!     highest: 0.7,
//!     rows: [[0.1; 10]; 10],
//! };
//! let mut random = Randomness::new(7, 0);
//! let next = even.next(0.4, random.uniform());
//! assert!((0.1..=0.7).contains(&next));
//! ```
//!
//! # Sources
//! - R. Aguiar, M. Collares-Pereira, J. Conde, Solar Energy 40(3) (1988): days (read).
//! - R. Aguiar, M. Collares-Pereira, Solar Energy 49 (1992): hours (read).
//! - D. Erbs, S. Klein, W. Beckman, ASHRAE Journal 25 (1983): temperature of the hours (memory).
//! - G. Steele, D. Lea, C. Flood, OOPSLA 2014: the random numbers (memory).

mod above;
mod daily;
mod hourly;
mod random;
mod temperature;

pub use above::{LightAbove, MONTH_DAYS, is_date};
pub use daily::{Chain, MonthWanted, chain_for, month, month_clearness_in_year};
pub use hourly::{HourLaw, hourly_clearness, smooth_hours};
pub use random::Randomness;
pub use temperature::{DailyAnomaly, estimated_swing, hour_temperature};
