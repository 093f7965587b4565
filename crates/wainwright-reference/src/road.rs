//! Rolling, drag, fuel and the road itself: what it costs to tow and how far it takes to stop.
//!
//! Not here: forces, fuel use and stopping distances (engines).

use wainwright_units::{Area, Duration, Power, Ratio};

use crate::id::ids;
use crate::mark::Sourced;
use crate::span::{Span, span};
use crate::store::{Topic, find};

ids! {
    /// Whose tyres roll.
    Rolling {
        /// Tyres of a car.
        Car = "car",
        /// Tyres of a trailer.
        Trailer = "trailer",
    }
}

ids! {
    /// A shape that is pulled through the air.
    DragShape {
        /// Mid-size SUV alone.
        MidSuv = "mid-suv",
        /// Small box behind a tow vehicle, in addition to it.
        SmallBox = "small-box",
        /// Full-height box behind a tow vehicle, in addition to it.
        FullHeightBox = "full-height-box",
    }
}

ids! {
    /// What the engine burns.
    FuelKind {
        /// Gasoline.
        Gasoline = "gasoline",
        /// Diesel.
        Diesel = "diesel",
    }
}

/// Fuel power of an engine as a straight line over traction power.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FuelLine {
    /// Fuel power without traction at `idle_speed`.
    pub idle_power: Power,
    /// Speed that holds for [m/s].
    pub idle_speed: f64,
    /// Traction power over the fuel power added for it.
    pub marginal_efficiency: Ratio,
}

/// Rolling resistance over weight.
pub fn rolling_coefficient(rolling: Rolling) -> Option<Sourced<Span<Ratio>>> {
    span(
        find(Topic::RoadRolling, "kind", rolling.id())?,
        Ratio::from_fraction,
    )
}

/// Drag coefficient times frontal area.
pub fn drag_area(shape: DragShape) -> Option<Sourced<Span<Area>>> {
    span(
        find(Topic::RoadDrag, "shape", shape.id())?,
        Area::from_square_metres,
    )
}

/// Lower heating value [MJ/L].
pub fn heating_value(fuel: FuelKind) -> Option<Sourced<Span<f64>>> {
    span(find(Topic::RoadFuel, "fuel", fuel.id())?, |value| value)
}

/// Fuel line of a mid-size SUV.
pub fn fuel_line() -> Option<Sourced<FuelLine>> {
    let idle = constant("idle-power-kw")?;
    let (speed, slope) = (
        constant("idle-speed-ms")?.value,
        constant("marginal-efficiency")?.value,
    );
    Some(idle.map(|kilowatts| FuelLine {
        idle_power: Power::from_watts(kilowatts * 1000.0),
        idle_speed: speed,
        marginal_efficiency: Ratio::from_fraction(slope),
    }))
}

/// Density of air [kg/m³].
pub fn air_density() -> Option<Sourced<f64>> {
    constant("air-density")
}

/// Friction between tyre and dry road (dimensionless).
pub fn road_friction() -> Option<Sourced<f64>> {
    constant("friction")
}

/// Time before a driver brakes.
pub fn reaction_time() -> Option<Sourced<Duration>> {
    Some(constant("reaction-s")?.map(Duration::from_seconds))
}

/// Grade of the launch test of tow vehicles.
pub fn launch_grade() -> Option<Sourced<Ratio>> {
    Some(constant("launch-grade")?.map(Ratio::from_fraction))
}

/// Drag coefficient of the side of a box (dimensionless).
pub fn side_wind_coefficient() -> Option<Sourced<f64>> {
    constant("side-wind-coefficient")
}

fn constant(id: &str) -> Option<Sourced<f64>> {
    find(Topic::RoadConstants, "id", id)?.quantity("value", |value| value)
}
