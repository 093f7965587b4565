//! Carbon dioxide that a person breathes out. Not here: who sleeps where.

use wainwright_units::{Area, Ratio, Temperature};

use crate::refusal::{Refusal, above_zero, require};

/// Carbon dioxide of a person [L/s] from the basal metabolic rate [MJ/d], the activity in multiples
/// of it (about 0.95 asleep, 1.2 sitting), and the air it is measured in.
///
/// # Errors
/// A value that is not above zero; a respiratory quotient outside 0.7 to 1.
pub fn person_co2(
    basal_megajoules_per_day: f64,
    activity: f64,
    respiratory_quotient: Ratio,
    air: Temperature,
    pressure_pascals: f64,
) -> Result<f64, Refusal> {
    above_zero("basal metabolic rate [MJ/d]", basal_megajoules_per_day)?;
    above_zero("activity", activity)?;
    above_zero("absolute temperature [K]", air.kelvins_absolute())?;
    above_zero("pressure of the air [Pa]", pressure_pascals)?;
    let quotient = checked(respiratory_quotient)?;
    let per_kilopascal = air.kelvins_absolute() / (pressure_pascals / 1000.0);
    Ok(quotient * basal_megajoules_per_day * activity * per_kilopascal * 0.000_211)
}

/// The same from the area of the body's skin.
///
/// # Errors
/// As [`person_co2`].
pub fn person_co2_by_area(
    skin: Area,
    activity: f64,
    respiratory_quotient: Ratio,
) -> Result<f64, Refusal> {
    above_zero("area of the skin [m²]", skin.square_metres())?;
    above_zero("activity", activity)?;
    let quotient = checked(respiratory_quotient)?;
    Ok(0.002_76 * skin.square_metres() * activity * quotient / (0.23 * quotient + 0.77))
}

fn checked(quotient: Ratio) -> Result<f64, Refusal> {
    let share = quotient.fraction();
    require(
        "respiratory quotient",
        share,
        (0.7..=1.0).contains(&share),
        "0.7 to 1",
    )?;
    Ok(share)
}
