//! A trip hour by hour: sun, engine and shore power in, loads out, the battery between, and water.
//! Hours come from the caller, or are made up from `weather`, `sun` and `solar_power`.
//!
//! # Computes
//! Hours of made-up weather with the power of the panels in them. Charge, current, unserved and unused energy and water of every hour; the odds of running out over
//! many trips with their confidence interval; what a change to the camper does to these odds.
//!
//! # Equation
//! - bus: solar + alternator + shore = loads served + into the battery
//! - fridge: P = UA (Ta − Ti) / COP + electronics, COP = share · Te / (Tc − Te)
//! - heater: P = rated · min(1, UA (Tset − Ta) / heat)
//! - interval (Wilson): (p + z²/2n ± z √(p(1 − p)/n + z²/4n²)) / (1 + z²/n)
//!
//! # Assumptions and limits
//! Everything stands still within an hour. Sun is used first, then the alternator, then shore power.
//! A battery that has run empty feeds no load before it holds the reconnecting charge; the sun may
//! feed loads meanwhile. Hours that start dry of water stay dry.
//!
//! # Valid range
//! Up to 100,000 hours a trip and 1,000,000 trips.
//!
//! # Example
//! ```
//! use wainwright_engines::trip;
//! let odds = trip::odds(1000, 1, |random| Ok(random.uniform() < 0.05))?;
//! assert!(odds.low < odds.share && odds.share < odds.high);
//! # Ok::<(), trip::TripError>(())
//! ```
//!
//! # Sources
//! - E. B. Wilson, J. American Statistical Association 22 (1927): interval (memory).
//! - Fridge: Carnot limit times a share, own estimate that agrees with appliance class data
//!   (judgement).

mod camper;
mod error;
mod hour;
mod load;
mod made_up;
mod odds;
mod run;
mod sun_path;
mod water;

pub use camper::{Camper, Charger, Solar, Start};
pub use error::TripError;
pub use hour::{Hour, HourResult};
pub use load::{Fridge, Law, Load};
pub use made_up::{Climate, Panels, made_up_hours};
pub use odds::{Compared, Odds, compare, interval, odds, spread, trips_for};
pub use run::{Totals, Trip, simulate, simulate_hours};
pub use sun_path::{SunHour, SunPath};
pub use water::Water;
