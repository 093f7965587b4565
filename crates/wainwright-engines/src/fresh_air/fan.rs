//! A fan and the opening that its air comes in by. Not here: what the air is for.

use wainwright_units::{Airflow, Area, Ratio};

use super::openings::through;
use crate::refusal::{Refusal, above_zero, not_below_zero, require};

/// Most halvings on the way to the point where curve and opening meet.
const MOST_HALVINGS: usize = 100;

/// Where a fan works.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FanPoint {
    /// What it moves.
    pub airflow: Airflow,
    /// What it works against [Pa].
    pub pascals: f64,
    /// How far curve and opening still differ there [Pa].
    pub residual_pascals: f64,
}

/// Where the curve of a fan meets an opening. The curve begins at no flow with the highest pressure
/// [Pa] and ends at no pressure with the free flow; it is straight between its points.
///
/// # Errors
/// A curve that does not fall from point to point, or ends above no pressure; an opening or density
/// that cannot be.
pub fn fan_with_opening(
    curve: &[(Airflow, f64)],
    opening: Area,
    coefficient: Ratio,
    air_kg_per_m3: f64,
) -> Result<FanPoint, Refusal> {
    let through = through(opening, coefficient)?;
    above_zero("density of the air [kg/m³]", air_kg_per_m3)?;
    let free = check(curve)?;
    let opening_pascals = |litres: f64| {
        if litres == 0.0 {
            0.0
        } else {
            0.5 * air_kg_per_m3 * (litres / 1000.0 / through).powi(2)
        }
    };
    let (mut low, mut high) = (0.0, free);
    for _ in 0..MOST_HALVINGS {
        let middle = 0.5 * (low + high);
        if pressure(curve, middle) > opening_pascals(middle) {
            low = middle;
        } else {
            high = middle;
        }
    }
    Ok(FanPoint {
        airflow: Airflow::from_litres_per_second(low),
        pascals: pressure(curve, low),
        residual_pascals: (pressure(curve, low) - opening_pascals(low)).abs(),
    })
}

/// Opening that lets air in at a pressure difference [Pa].
///
/// # Errors
/// A flow below zero; a pressure or density that is not above zero; a coefficient outside above 0
/// to 1.
pub fn opening_for_fan(
    airflow: Airflow,
    pascals: f64,
    coefficient: Ratio,
    air_kg_per_m3: f64,
) -> Result<Area, Refusal> {
    not_below_zero("airflow [m³/h]", airflow.cubic_metres_per_hour())?;
    above_zero("pressure difference [Pa]", pascals)?;
    above_zero("density of the air [kg/m³]", air_kg_per_m3)?;
    let per_area = through(Area::from_square_metres(1.0), coefficient)?;
    let speed = per_area * (2.0 * pascals / air_kg_per_m3).sqrt();
    Ok(Area::from_square_metres(
        airflow.litres_per_second() / 1000.0 / speed,
    ))
}

/// Pressure of a fan at a flow [L/s], straight between the points.
fn pressure(curve: &[(Airflow, f64)], litres: f64) -> f64 {
    for two in curve.windows(2) {
        let [(from, high), (to, low)] = two else {
            continue;
        };
        let (from, to) = (from.litres_per_second(), to.litres_per_second());
        if litres <= to {
            return high + (low - high) * (litres - from) / (to - from);
        }
    }
    0.0
}

/// The free flow [L/s] of a curve that falls all the way.
fn check(curve: &[(Airflow, f64)]) -> Result<f64, Refusal> {
    require(
        "points of the fan's curve",
        curve.len() as f64,
        curve.len() >= 2,
        "two or more",
    )?;
    for (index, two) in curve.windows(2).enumerate() {
        let [(from, high), (to, low)] = two else {
            continue;
        };
        let falls = from < to && high > low && *low >= 0.0 && high.is_finite();
        require(
            "pressure of the fan [Pa]",
            *low,
            falls,
            "less than before, at more flow",
        )
        .map_err(|refusal| refusal.at("point", index + 1))?;
    }
    let (first, last) = (curve.first(), curve.last());
    let starts = first.map_or(0.0, |point| point.0.litres_per_second());
    require(
        "flow at the start of the fan's curve [L/s]",
        starts,
        starts == 0.0,
        "0",
    )?;
    let ends = last.map_or(0.0, |point| point.1);
    require(
        "pressure at the end of the fan's curve [Pa]",
        ends,
        ends == 0.0,
        "0",
    )?;
    Ok(last.map_or(0.0, |point| point.0.litres_per_second()))
}
