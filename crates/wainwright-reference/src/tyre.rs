//! Tyres: load index, the factor for passenger tyres, cornering stiffness, relaxation.
//!
//! Not here: wheel loads and the sway motion (engines).

use wainwright_units::{Length, Mass, Ratio};

use crate::id::ids;
use crate::mark::Sourced;
use crate::span::{Span, span};
use crate::store::{Topic, find, rows};

ids! {
    /// How a tyre is built.
    TyreKind {
        /// Cross-ply, as many small trailer tyres are.
        Bias = "bias",
        /// Radial.
        Radial = "radial",
        /// Radial of a car.
        Automobile = "automobile",
    }
}

/// Load capacity of one tyre with this load index; none outside 65 to 121.
pub fn tyre_load(index: u32) -> Option<Sourced<Mass>> {
    rows(Topic::TyreLoadIndex)
        .find(|row| row.number("index") == Some(f64::from(index)))?
        .quantity("kg", Mass::from_kilograms)
}

/// What the rating of a passenger car tyre is divided by on a trailer (49 CFR 571.120).
pub fn passenger_tyre_factor() -> Option<Sourced<f64>> {
    constant("passenger-factor")
}

/// Cornering stiffness per degree of slip, as a share of the vertical load [1/degree].
pub fn cornering_stiffness(kind: TyreKind) -> Option<Sourced<Span<Ratio>>> {
    span(
        find(Topic::TyreCornering, "kind", kind.id())?,
        Ratio::from_fraction,
    )
}

/// Distance a tyre rolls while its side force builds up.
pub fn relaxation_length() -> Option<Sourced<Span<Length>>> {
    let row = find(Topic::TyreConstants, "id", "relaxation-m")?;
    Some(row.sourced(Span {
        low: Length::from_metres(row.number("low")?),
        usual: Length::from_metres(row.number("value")?),
        high: Length::from_metres(row.number("high")?),
    }))
}

/// Share of the front axle's cornering stiffness left by the compliance of the steering.
pub fn front_axle_factor() -> Option<Sourced<Ratio>> {
    Some(constant("front-axle-factor")?.map(Ratio::from_fraction))
}

/// Exponent of "load capacity goes with pressure to this power" (dimensionless).
pub fn load_pressure_exponent() -> Option<Sourced<f64>> {
    constant("load-pressure-exponent")
}

/// Highest speed of an ST trailer tyre that is not marked otherwise [m/s].
pub fn trailer_tyre_speed() -> Option<Sourced<f64>> {
    Some(constant("trailer-tyre-mph")?.map(|miles| miles * METRES_PER_SECOND_PER_MPH))
}

/// Metres per second in a mile per hour, by definition.
pub(crate) const METRES_PER_SECOND_PER_MPH: f64 = 0.447_04;

fn constant(id: &str) -> Option<Sourced<f64>> {
    find(Topic::TyreConstants, "id", id)?.quantity("value", |value| value)
}
