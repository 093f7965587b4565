//! How much air, and how large the openings, for a night below a limit. Not here: the night itself.

use wainwright_units::{Airflow, Area};

use super::night::{Night, Spell, above_limit, night};
use super::openings::{Openings, Weather, natural};
use crate::refusal::{Refusal, above_zero, not_below_zero};
use crate::sought::{Sought, least_enough};

/// Least airflow, in place of that of the spells, with which no moment of a night goes above a
/// limit [ppm]. Less than what holds it for ever, because the room's own air is used up first.
///
/// # Errors
/// As [`night`]; a limit that is not above outside air; a most that is not above zero.
pub fn airflow_for_night(
    room: &Night,
    spells: &[Spell],
    limit_ppm: f64,
    most: Airflow,
) -> Result<Sought<Airflow>, Refusal> {
    above_limit(limit_ppm, room.outside_ppm)?;
    above_zero("largest airflow [m³/h]", most.cubic_metres_per_hour())?;
    let enough = |flow: f64| {
        let with = with_air(spells, Airflow::from_cubic_metres_per_hour(flow));
        Ok(night(room, &with)?.peak_ppm <= limit_ppm)
    };
    let found = least_enough(0.0, most.cubic_metres_per_hour(), enough)?;
    Ok(found.map(Airflow::from_cubic_metres_per_hour))
}

/// Least area of a low and of a high opening, equally large, with which no moment of a night goes
/// above a limit [ppm]; the areas that the openings name do not matter. `leaking` comes in besides.
///
/// # Errors
/// As [`night`] and [`natural`]; a limit that is not above outside air; a most not above zero.
pub fn opening_for_night(
    room: &Night,
    spells: &[Spell],
    (openings, weather): (&Openings, &Weather),
    leaking: Airflow,
    limit_ppm: f64,
    most: Area,
) -> Result<Sought<Area>, Refusal> {
    above_limit(limit_ppm, room.outside_ppm)?;
    above_zero("largest opening [m²]", most.square_metres())?;
    not_below_zero("leaking air [m³/h]", leaking.cubic_metres_per_hour())?;
    let enough = |square_metres: f64| {
        let each = Area::from_square_metres(square_metres);
        let sized = Openings {
            low: each,
            high: each,
            ..*openings
        };
        let flow = natural(&sized, weather)?.both + leaking;
        Ok(night(room, &with_air(spells, flow))?.peak_ppm <= limit_ppm)
    };
    let found = least_enough(0.0, most.square_metres(), enough)?;
    Ok(found.map(Area::from_square_metres))
}

fn with_air(spells: &[Spell], airflow: Airflow) -> Vec<Spell> {
    spells
        .iter()
        .map(|spell| Spell { airflow, ..*spell })
        .collect()
}
