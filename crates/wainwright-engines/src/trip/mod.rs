//! A trip hour by hour: sun, engine and shore power in, loads out, the battery with its protection
//! board between, water and fuel. Hours come from the caller, or are made up from `weather`, `sun`
//! and `solar_power`.
//!
//! # Computes
//! Hours of made-up weather with the power of up to four solar fields. Charge, current, unserved and
//! unused energy, water and fuel of every hour; who gave and who took; bands by the hour over many
//! trips; the odds of running out with their confidence interval; what a change to the camper does
//! to these odds. One trip by [`simulate`]; thousands of one camper by [`Prepared`], which gives the
//! same answers.
//!
//! # Equation
//! - bus: solar + alternator + shore = loads served + into the battery
//! - fridge: P = UA (Ta − Ti) / COP + electronics, COP = share · Te / (Tc − Te)
//! - heater: P = rated · min(1, UA (Tset − Ta) / heat), and fuel by the same share
//! - charger on a wire: the most of V (Vs − V) / R, V at or above the lowest voltage it works at
//! - charging: the largest, over the set points Vs, of the least of the current that the sources of
//!   that set point and above push, (Vs − u) / R now and (Vs − u') / R at the end of the hour
//! - board: opens in the hour at the charge where the fullest cell is too high, or the others too
//!   low, under the hour's current
//! - interval (Wilson): (p + z²/2n ± z √(p(1 − p)/n + z²/4n²)) / (1 + z²/n)
//!
//! # Assumptions and limits
//! Everything stands still within an hour, but for a board that opens and a set point that is
//! reached. Sources of the higher set point are used first; of equal ones sun, then alternator, then
//! shore. A battery that has run empty feeds no load before it holds the reconnecting charge; the
//! sources may feed loads meanwhile. Loads are fed whatever the voltage. Of uneven cells one is ahead
//! of the others, and the trip's charge is that of the others. A board is read at the start of an
//! hour and at the moment it opens, so that its delay is no longer than an hour; it does not balance
//! cells. Fuel is not bought on the way. Hours that start dry of water stay dry.
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

mod bands;
mod board;
mod camper;
mod electric;
mod error;
mod gear;
mod hour;
mod load;
mod made_up;
mod odds;
mod ready;
mod run;

mod sun_path;
mod through;
mod totals;
mod water;

pub use bands::{Bands, Shares};
pub use camper::{Camper, Charger, Guard, Line, MOST_FIELDS, Solar, Start};
pub use error::TripError;
pub use hour::{Hour, HourResult};
pub use load::{Burn, Fridge, Law, Load};
pub use made_up::{Climate, Happening, Panels, Schedule, Season, made_up_hours};
pub use odds::{Compared, Odds, compare, interval, odds, spread, trips_for};
pub use run::{Prepared, simulate, simulate_hours};
pub use sun_path::{SunHour, SunPath};
pub use totals::{Totals, Trip};
pub use water::Water;
