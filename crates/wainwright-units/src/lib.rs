//! Quantities as people type them, and the trailer frame.
//!
//! Every quantity is a newtype over one number in one base unit, so that amperes cannot be
//! passed for ampere hours. [`Quantity::parse`] reads what a person types, [`Quantity::show`]
//! writes what a person wants to read, [`Typed`] keeps the typed text beside the value.
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
pub use geometry::{Angle, Area, Length, Volume};
pub use mechanical::{Force, Mass, Torque};
pub use quantity::Quantity;
pub use thermal::{
    LineHeat, Temperature, TemperatureDifference, ThermalConductivity, ThermalResistivity,
};
pub use typed::{FromText, Typed};
pub use wire_size::{Awg, WireSize};
