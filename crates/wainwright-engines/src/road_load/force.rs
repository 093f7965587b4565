//! The force that keeps an outfit at a steady speed.

use wainwright_units::{Area, Force, Mass, Ratio, STANDARD_GRAVITY};

use crate::refusal::{Refusal, above_zero, finite, not_below_zero, require};

/// A car or a trailer on the road.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vehicle {
    /// Mass [kg], above zero.
    pub mass: Mass,
    /// Rolling resistance as a share of weight, zero or above.
    pub rolling: Ratio,
    /// Drag coefficient times frontal area \[m²\], zero or above.
    pub drag_area: Area,
}

/// Air and road.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Road {
    /// Density of the air [kg/m³], above zero.
    pub air_kg_per_m3: f64,
    /// Wind from ahead [m/s]; below zero from behind.
    pub headwind: f64,
    /// Rise over level distance; below zero downhill.
    pub grade: Ratio,
}

/// Force at the wheels at a speed [m/s].
///
/// # Errors
/// No vehicle, or a value that cannot be.
pub fn driving_force(
    vehicles: &[Vehicle],
    road: &Road,
    metres_per_second: f64,
) -> Result<Force, Refusal> {
    check(vehicles)?;
    above_zero("speed [m/s]", metres_per_second)?;
    above_zero("density of the air [kg/m³]", road.air_kg_per_m3)?;
    finite("headwind [m/s]", road.headwind)?;
    let drag_area: f64 = vehicles
        .iter()
        .map(|vehicle| vehicle.drag_area.square_metres())
        .sum();
    let wind = metres_per_second + road.headwind;
    let drag = 0.5 * road.air_kg_per_m3 * drag_area * wind * wind.abs();
    Ok(rolling_and_grade(vehicles, road.grade)? + Force::from_newtons(drag))
}

/// Rolling resistance and the pull of the grade \[N\].
pub(super) fn rolling_and_grade(vehicles: &[Vehicle], grade: Ratio) -> Result<Force, Refusal> {
    check(vehicles)?;
    require(
        "grade",
        grade.fraction(),
        grade.fraction().abs() <= 0.3,
        "within 30 %",
    )?;
    let (sin, cos) = grade.fraction().atan().sin_cos();
    let newtons = vehicles
        .iter()
        .map(|vehicle| vehicle.mass.kilograms() * (vehicle.rolling.fraction() * cos + sin))
        .sum::<f64>();
    Ok(Force::from_newtons(newtons * STANDARD_GRAVITY))
}

fn check(vehicles: &[Vehicle]) -> Result<(), Refusal> {
    require(
        "number of vehicles",
        vehicles.len() as f64,
        !vehicles.is_empty(),
        "at least one",
    )?;
    for (index, vehicle) in vehicles.iter().enumerate() {
        above_zero("mass [kg]", vehicle.mass.kilograms())
            .and_then(|()| not_below_zero("rolling resistance", vehicle.rolling.fraction()))
            .and_then(|()| not_below_zero("drag area [m²]", vehicle.drag_area.square_metres()))
            .map_err(|refusal| refusal.at("vehicle", index))?;
    }
    Ok(())
}
