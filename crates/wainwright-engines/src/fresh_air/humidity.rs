//! Air that carries water out of a room. Not here: water in walls (`damp`).

use wainwright_units::{Airflow, Ratio};

use crate::damp::Climate;
use crate::moist_air::{Formula, grams_per_m3, saturation_pressure, vapour_pressure};
use crate::refusal::{Refusal, above_zero, not_below_zero};

/// Air that holds the humidity of a climate against water that people, cooking and drying give off
/// [g/h]; `None` when outside air is no drier.
///
/// # Errors
/// Water below zero, or a climate that cannot be.
pub fn airflow_for_humidity(
    grams_per_hour: f64,
    climate: &Climate,
) -> Result<Option<Airflow>, Refusal> {
    not_below_zero("water given off [g/h]", grams_per_hour)?;
    let (inside, outside) = both(climate)?;
    let drier = inside - outside;
    Ok((drier > 0.0).then(|| Airflow::from_cubic_metres_per_hour(grams_per_hour / drier)))
}

/// Relative humidity that the room of a climate goes towards with an airflow; above one where water
/// comes out. The humidity inside that the climate names does not matter.
///
/// # Errors
/// As [`airflow_for_humidity`]; an airflow that is not above zero.
pub fn humidity_with(
    grams_per_hour: f64,
    airflow: Airflow,
    climate: &Climate,
) -> Result<Ratio, Refusal> {
    not_below_zero("water given off [g/h]", grams_per_hour)?;
    above_zero("airflow [m³/h]", airflow.cubic_metres_per_hour())?;
    let (_, outside) = both(climate)?;
    let water = outside + grams_per_hour / airflow.cubic_metres_per_hour();
    let full = saturation_pressure(climate.inside, Formula::Standard)?;
    Ok(Ratio::from_fraction(
        water / grams_per_m3(full, climate.inside)?,
    ))
}

/// Water of inside and outside air [g/m³].
fn both(climate: &Climate) -> Result<(f64, f64), Refusal> {
    let inside = vapour_pressure(climate.inside, climate.inside_humidity, Formula::Standard)?;
    let outside = vapour_pressure(climate.outside, climate.outside_humidity, Formula::Standard)?;
    Ok((
        grams_per_m3(inside, climate.inside)?,
        grams_per_m3(outside, climate.outside)?,
    ))
}
