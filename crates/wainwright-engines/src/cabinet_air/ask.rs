//! Openings or a fan for a wanted rise. Not here: which rise a device bears.

use wainwright_units::{Airflow, Area, TemperatureDifference};

use super::rise::{Cabinet, Cooling, MOST_RISE, Vents, check, leaving};
use crate::refusal::{Refusal, above_zero, require};
use crate::sought::{Sought, least_enough};

/// Least area of a low and of a high opening, equally large, with which a cabinet gets no warmer
/// than wanted. Coefficient, height and density are those given; the areas do not matter.
///
/// # Errors
/// As [`super::rise`]; a wanted rise that is not above zero; a most that is not above zero.
pub fn opening_for_rise(
    cabinet: &Cabinet,
    vents: &Vents,
    wanted: TemperatureDifference,
    most: Area,
) -> Result<Sought<Area>, Refusal> {
    wanted_rise(wanted)?;
    above_zero("largest opening [m²]", most.square_metres())?;
    let enough = |square_metres: f64| {
        let each = Area::from_square_metres(square_metres);
        let sized = Vents {
            low: each,
            high: each,
            ..*vents
        };
        holds(cabinet, Cooling::Openings(sized), wanted)
    };
    let found = least_enough(0.0, most.square_metres(), enough)?;
    Ok(found.map(Area::from_square_metres))
}

/// Least airflow of a fan with which a cabinet gets no warmer than wanted.
///
/// # Errors
/// As [`opening_for_rise`].
pub fn fan_for_rise(
    cabinet: &Cabinet,
    wanted: TemperatureDifference,
    most: Airflow,
) -> Result<Sought<Airflow>, Refusal> {
    wanted_rise(wanted)?;
    above_zero("largest airflow [m³/h]", most.cubic_metres_per_hour())?;
    let enough = |flow: f64| {
        holds(
            cabinet,
            Cooling::Fan(Airflow::from_cubic_metres_per_hour(flow)),
            wanted,
        )
    };
    let found = least_enough(0.0, most.cubic_metres_per_hour(), enough)?;
    Ok(found.map(Airflow::from_cubic_metres_per_hour))
}

/// Whether as much heat leaves at the wanted rise as the devices make.
fn holds(
    cabinet: &Cabinet,
    cooling: Cooling,
    wanted: TemperatureDifference,
) -> Result<bool, Refusal> {
    let changed = Cabinet {
        cooling,
        ..*cabinet
    };
    check(&changed)?;
    Ok(leaving(&changed, wanted.kelvins())? >= changed.heat.watts())
}

fn wanted_rise(wanted: TemperatureDifference) -> Result<(), Refusal> {
    let kelvins = wanted.kelvins();
    require(
        "wanted rise [K]",
        kelvins,
        kelvins > 0.0 && kelvins < MOST_RISE,
        "above zero, below 400",
    )
}
