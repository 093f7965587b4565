//! Tanks of a trip and what is used of them. Not here: fuel burnt (`uses`).

use crate::circuit::Notes;
use crate::known::Assumption;
use wainwright_engines::trip::Water;
use wainwright_model::{FieldExt, Holds, Project, Spec, Trip};
use wainwright_reference::household;
use wainwright_units::{Ratio, Volume};

/// Share of the used water that goes to waste when nobody said (judgement): the rest is drunk or dries.
const TO_WASTE: Ratio = Ratio::from_fraction(0.8);
/// Fuel that no trip burns.
const PLENTY: Volume = Volume::from_litres(1000.0);
/// Share of a day's water that is used in each hour (judgement): mornings, noon, evenings.
const DAY: [(u32, f64); 8] = [
    (7, 0.15),
    (8, 0.15),
    (12, 0.1),
    (13, 0.1),
    (18, 0.15),
    (19, 0.15),
    (20, 0.1),
    (21, 0.1),
];

/// Tanks, use and fill at the start.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct WaterInputs {
    pub(super) water: Water,
    pub(super) fresh: Volume,
    /// Fuel on board; where no tank is described, enough for any trip, so that what is burnt is still counted.
    pub(super) fuel: Volume,
    /// Whether the fuel is that of a described tank.
    pub(super) fuel_is_known: bool,
    pub(super) a_day: Volume,
}

pub(super) fn water(
    project: &Project,
    id: &str,
    trip: &Trip,
    people: u32,
    notes: &mut Notes,
) -> WaterInputs {
    let tank = |held: Holds| -> Volume {
        let all = project
            .items
            .iter()
            .filter_map(|(_, item)| match &item.spec {
                Spec::Tank(tank) if tank.holds.value() == Some(&held) => {
                    tank.capacity.value().copied()
                }
                _ => None,
            });
        all.sum()
    };
    let (fresh_tank, waste_tank, fuel) = (tank(Holds::Fresh), tank(Holds::Grey), tank(Holds::Fuel));
    let carried = fresh_tank > Volume::ZERO;
    let person = match (carried, trip.water.value()) {
        (_, Some(water)) => *water,
        (true, None) => {
            let usual = household::water_per_person();
            let usual = usual.map_or(Volume::from_litres(15.0), |row| row.value.usual);
            notes
                .given_or(
                    &trip.water,
                    &["trip", id, "water"],
                    usual,
                    Assumption::UsualForKind,
                )
                .value
        }
        (false, None) => Volume::ZERO,
    };
    let share = |field, name, usual: Ratio, notes: &mut Notes| {
        notes
            .given_or(field, &["trip", id, name], usual, Assumption::UsualForKind)
            .value
    };
    let full = if carried {
        share(&trip.fresh, "fresh", Ratio::ONE, notes)
    } else {
        Ratio::ZERO
    };
    let to_waste = if waste_tank > Volume::ZERO {
        share(&trip.to_grey, "to_grey", TO_WASTE, notes)
    } else {
        Ratio::ZERO
    };
    // Without a tank there is nothing to run out of: water comes in bottles.
    let a_day = if carried {
        person * f64::from(people)
    } else {
        Volume::ZERO
    };
    let mut day = [Volume::ZERO; 24];
    for (hour, share) in DAY {
        day[hour as usize] = a_day * share;
    }
    WaterInputs {
        water: Water {
            fresh_tank,
            waste_tank,
            day,
            to_waste: to_waste.fraction(),
        },
        fresh: fresh_tank * full.fraction(),
        fuel: if fuel > Volume::ZERO { fuel } else { PLENTY },
        fuel_is_known: fuel > Volume::ZERO,
        a_day,
    }
}
