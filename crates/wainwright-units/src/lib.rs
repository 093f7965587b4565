//! Quantities as people type them, and the trailer frame.
//!
//! Every quantity is a newtype over one number in one base unit, so that amperes cannot be
//! passed for ampere hours. [`Quantity::parse`] reads what a person types, [`Quantity::show`]
//! writes what a person wants to read, [`Typed`] keeps the typed text beside the value.
//!
//! ```
//! use wainwright_units::{Current, Length, LineResistance, Quantity, System, Typed};
//!
//! let run = Typed::<Length>::parse("7' 3-5/8\"")?;
//! let copper = LineResistance::parse("3.345 mΩ/m")?;
//! let drop = Current::parse("15 amps")? * (copper * run.value);
//!
//! assert_eq!(run.to_string(), "7' 3-5/8\"");
//! assert_eq!(run.value.show(System::Metric), "2.226 m");
//! assert_eq!(drop.show(System::Us), "0.1117 V");
//! # Ok::<(), wainwright_units::QuantityError>(())
//! ```
//!
//! Not here: anything about trailers, wires as bought, or tables of material properties.

pub mod definition;
pub mod frame;

mod arithmetic;
mod catalogue;
mod electrical;
mod error;
mod general;
mod geometry;
mod mechanical;
mod parse;
mod quantity;
mod show;
mod thermal;
mod typed;
mod wire_size;

pub use arithmetic::STANDARD_GRAVITY;
pub use definition::{Legal, System};
pub use electrical::{
    Charge, CrossSection, Current, Energy, LineResistance, Power, Resistance, Voltage,
};
pub use error::QuantityError;
pub use general::{Duration, Ratio};
pub use geometry::{Altitude, Angle, Area, Length, Volume};
pub use mechanical::{Airflow, Force, Mass, Speed, Stiffness, Torque};
pub use quantity::Quantity;
pub use thermal::{
    LineHeat, Temperature, TemperatureDifference, ThermalConductivity, ThermalResistivity,
};
pub use typed::{FromText, Typed};
pub use wire_size::{Awg, WireSize};
