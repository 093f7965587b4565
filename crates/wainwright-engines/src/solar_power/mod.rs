//! What a solar panel makes of the light, and what a charge controller passes on.
//! Light itself is in `sun`; the battery that takes the charge is in `battery`.
//!
//! # Computes
//! Cell temperature, module power with its loss in dim light, lasting losses, power out of a
//! tracking or a plain switching controller, voltage on the coldest morning, and partial shade.
//!
//! # Equation
//! - Faiman: Tc = Ta + E / (U0 + U1 v)
//! - P = Pstc Eeff / 1000 (1 + γ (Tc − 25)), less Pstc k [1 − (1 − E/200)⁴] up to 200 W/m² and
//!   Pstc k (1000 − E) / 800 above
//! - tracking: P = min(η (Ppv − Pown), Imax V); switching: P = min(V Isc E / 1000, Ppv, Imax V);
//!   the part that does not depend on the battery is a [`Reach`]
//! - Voc at Tmin: Voc (1 + β (Tmin − 25))
//! - shade: max((ns − b)/ns − 0.5 V b Imp / P, 1.05 s)
//!
//! # Assumptions and limits
//! Steady cell temperature in each step. The controller finds the highest of several peaks. The
//! switching controller follows the battery voltage only below the panel's best voltage.
//!
//! # Valid range
//! Crystalline silicon, 0 to 1200 W/m², −40 to 85 °C cells.
//!
//! # Example
//! ```
//! use wainwright_engines::solar_power::{self, Module, Mounting};
//! use wainwright_units::{Power, Temperature};
//! let open = Mounting { still: 25.0, by_wind: 6.84 };
//! let cell = solar_power::cell_temperature(Temperature::from_celsius(20.0), 800.0, 1.0, open);
//! let module = Module { rated: Power::from_watts(400.0), per_kelvin: -0.0035, dim_loss: 0.01 };
//! let made = solar_power::module_power(module, 780.0, cell);
//! assert!(made.watts() > 280.0 && made.watts() < 312.0);
//! ```
//!
//! # Sources
//! - D. Faiman, Progress in Photovoltaics 16 (2008): U0 = 25, U1 = 6.84 for an open rack (read).
//! - B. Marion, correction of module power at low irradiance, 2008 (read).
//! - EN 50530: how the efficiency of trackers is measured (memory).
//! - Partial shade: bypass diodes and substrings, own single-diode study (derived).

mod controller;
mod module;
mod shade;

pub use controller::{Controller, Reach, charge_power, cold_voltage, reach};
pub use module::{Losses, Module, Mounting, cell_temperature, module_power};
pub use shade::{Shade, ShadeBlocks, parallel_share, series_share};
