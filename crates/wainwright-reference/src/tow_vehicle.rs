//! Measured figures of a class of tow vehicles, for a vehicle about which little was typed.
//!
//! Not here: the person's own vehicle (the project), its motion (engines).

use wainwright_units::{Length, Mass};

use crate::id::ids;
use crate::mark::Sourced;
use crate::span::{Span, span};
use crate::store::{Topic, find, rows};

ids! {
    /// A class of tow vehicles.
    VehicleClass {
        /// Mid-size SUV.
        MidSuv = "mid-suv",
    }
}

ids! {
    /// How a vehicle was loaded when it was measured.
    Loading {
        /// Nothing but the driver.
        DriverOnly = "driver-only",
        /// At its gross rating.
        Gross = "gross",
    }
}

/// Figures of one vehicle as measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VehicleFigures {
    /// Distance between the axles.
    pub wheelbase: Length,
    /// Distance between the wheels of an axle.
    pub track: Length,
    /// Mass as measured.
    pub mass: Mass,
    /// Centre of mass behind the front axle.
    pub centre_behind_front: Length,
    /// Centre of mass above the ground.
    pub centre_height: Length,
    /// Moment of inertia about the upright axis [kg·m²].
    pub yaw_inertia: f64,
    /// Moment of inertia about the long axis [kg·m²]; none where it was not read.
    pub roll_inertia: Option<f64>,
}

/// Measured figures of a class.
pub fn vehicle_class(class: VehicleClass, loading: Loading) -> Option<Sourced<VehicleFigures>> {
    let row = rows(Topic::VehicleFigures).find(|row| {
        row.text("class") == Some(class.id()) && row.text("loading") == Some(loading.id())
    })?;
    let metres = |column| Some(Length::from_metres(row.number(column)?));
    Some(row.sourced(VehicleFigures {
        wheelbase: metres("wheelbase_m")?,
        track: metres("track_m")?,
        mass: Mass::from_kilograms(row.number("mass_kg")?),
        centre_behind_front: metres("behind_front_m")?,
        centre_height: metres("height_m")?,
        yaw_inertia: row.number("yaw")?,
        roll_inertia: row.number("roll"),
    }))
}

/// Moment of inertia about the upright axis over mass times half the wheelbase squared (dimensionless).
pub fn yaw_inertia_ratio() -> Option<Sourced<Span<f64>>> {
    span(find(Topic::VehicleConstants, "id", "yaw-ratio")?, |ratio| {
        ratio
    })
}

/// Distance from the rear axle to the ball.
pub fn ball_overhang() -> Option<Sourced<Span<Length>>> {
    span(
        find(Topic::VehicleConstants, "id", "overhang-m")?,
        Length::from_metres,
    )
}
