//! A battery hour by hour: voltage, current, charge, heat, protection, age.
//! Measured tables come from the caller; what a trip asks of the battery is in `trip`.
//!
//! # Computes
//! Current and terminal voltage for a power, charge afterwards, heat; how much charging current is
//! allowed; what a protection board does; at which pack voltage uneven cells trip it; lead-acid run
//! time; ageing.
//!
//! # Equation
//! - u = N · OCV(s) ± half the hysteresis; R = N r(s, T) / Ah + connections
//! - discharge: I = (u − √(u² − 4 R p)) / 2R; charge: I = (−u + √(u² + 4 R p)) / 2R, then the
//!   least of I, the allowed current, (Vabs − u) / R and (1 − s) Ah / τ
//! - r(T) between measured temperatures: ln r straight over 1/T; outside: r · exp(B (1/T − 1/T0))
//! - uneven cells: V = Vtrip + (N − 1)(OCV(s* − Δ) + c r), where OCV(s*) + c r = Vtrip
//! - Peukert: t = H (C / (I H))^k
//! - ageing by calendar and by cycles: see [`CalendarAgeing`] and [`CycleAgeing`]
//!
//! # Assumptions and limits
//! One resistance without delay, which is within 0.4 % of energy at camper rates. Voltage and
//! resistance stand still within a step: keep steps to an hour. Above full the open voltage goes on
//! as steeply as it ends. The cell follows the air with one
//! time constant.
//!
//! # Valid range
//! Rates up to 0.5 of the capacity per hour; −20 to 55 °C; below the coldest measured temperature
//! the resistance is a lower bound.
//!
//! # Example
//! ```
//! use wainwright_engines::battery::{self, Curve, Limits, Pack, ResistanceTable};
//! use wainwright_units::{Charge, Current, Duration, Power, Ratio, Resistance, Temperature, Voltage};
//! let open = Curve::new(&[(0.0, 3.0), (0.1, 3.2), (0.9, 3.34), (1.0, 3.5)]);
//! let table = ResistanceTable { celsius: &[25.0], rows: &[(0.5, &[0.14])], activation: 1750.0 };
//! let pack = Pack {
//!     series: 4,
//!     capacity: Charge::from_ampere_hours(100.0),
//!     open,
//!     hysteresis: Curve::NONE,
//!     discharging: table,
//!     charging: table,
//!     connections: Resistance::from_milliohms(3.0),
//!     coulombic: Ratio::from_fraction(0.998),
//! };
//! let half = Ratio::from_fraction(0.5);
//! let warm = Temperature::from_celsius(25.0);
//! let ask = Power::from_watts(120.0);
//! let step = battery::discharge(&pack, half, warm, ask, Duration::from_hours(1.0), Limits::NONE);
//! assert!((step.bus.watt_hours() + 120.0).abs() < 1e-9);
//! ```
//!
//! # Sources
//! - M. Naumann, thesis, Technical University of Munich 2018: measured cell, ageing (read).
//! - W. Peukert's law as printed in handbooks (memory).

mod age;
pub(crate) mod cells;
mod curve;
pub(crate) mod flow;
pub(crate) mod grid;
mod imbalance;
mod lead_acid;
mod limits;
mod pack;
mod protection;
mod step;
mod warm;

pub(crate) use limits::difference_kept;

pub use age::{CalendarAgeing, CycleAgeing};
pub use curve::Curve;
pub use imbalance::{Uneven, trip_voltage};
pub use lead_acid::{peukert_capacity, peukert_time};
pub use limits::{TemperatureRate, allowed_charge, cell_temperature_after};
pub use pack::{Direction, Pack, ResistanceTable};
pub use protection::{Protection, Readings, Thresholds};
pub use step::{Limits, Step, WhenFull, charge, discharge};
