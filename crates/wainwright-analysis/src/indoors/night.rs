//! The coldest night: what leaves, and the heater for it. Not here: the layers.

use super::desk::{Desk, value};
use super::sides::{SideFound, faces, stored};
use super::vents::Vents;
use crate::known::{Assumption, Known};
use crate::result::indoors::{
    ColdNight, HeaterFound, Leaving, LeavingBy, PaneHeat, RoomFound, WarmUp,
};
use crate::trips::ClimateFound;
use wainwright_engines::heat_loss::{
    AirExchange, Balance, Face, Gain, Room, Warming, Window, air_changes, balance, heater, warm_up,
};
use wainwright_model::{Job, Project, Spec};
use wainwright_reference::climate_room::{
    self, Design, DesignHumidity, DesignTemperature, PeopleFigure,
};
use wainwright_units::{Airflow, Power, Ratio, Temperature, TemperatureDifference};

/// Changes of air in an hour when nobody said (judgement): shut, with its gaps.
pub(super) const AIR_CHANGES: f64 = 1.0;
/// Heating grade whose outside temperature stands in for the coldest night.
const GRADE: u32 = 2;

/// Airs of the coldest night.
#[derive(Debug, Clone)]
pub(super) struct Airs {
    pub(super) outside: Known<Temperature>,
    pub(super) inside: Known<Temperature>,
    pub(super) humidity: Known<Ratio>,
    pub(super) changes: Known<f64>,
    pub(super) leaking: Airflow,
}

/// Airs of the coldest night, each typed or standing in.
pub(super) fn airs(desk: &mut Desk<'_>, room: &RoomFound, climate: Option<&ClimateFound>) -> Airs {
    let living = &desk.project.living;
    let coldest = climate.map(|climate| {
        let lowest = climate.monthly.months.iter().map(|month| month.lowest);
        lowest.fold(Temperature::from_celsius(50.0), Temperature::min)
    });
    let grade = climate_room::heating_grade(GRADE).map(|row| row.value.1);
    let stand_in = coldest.or(grade).unwrap_or(Temperature::from_celsius(0.0));
    let usual = Assumption::UsualForKind;
    let path = ["living", "winter_air"];
    let outside = desk
        .notes
        .given_or(&living.winter_air, &path, stand_in, usual);
    let inside = desk.or_table(
        &living.inside_air,
        &["living", "inside_air"],
        climate_room::design_temperature(DesignTemperature::Heating),
        Temperature::from_celsius(20.0),
    );
    let humidity = desk.or_table(
        &living.humidity,
        &["living", "humidity"],
        climate_room::design_humidity(DesignHumidity::Inside),
        Ratio::from_percent(55.0),
    );
    let changes = desk.number_or(&living.air_changes, &["living", "air_changes"], AIR_CHANGES);
    let leaking = desk.found(air_changes(room.volume, changes.value));
    Airs {
        outside,
        inside,
        humidity,
        changes,
        leaking: leaking.unwrap_or(Airflow::ZERO),
    }
}

/// What the engine is told of the box, without sun, people and devices.
pub(super) fn bare_room(
    sides: &[SideFound],
    panes: &[PaneHeat],
    leaking: Airflow,
    ventilating: Airflow,
) -> Room {
    let face = |side: &SideFound| Face {
        area: side.shown.area,
        watts_per_m2_kelvin: side.shown.u.value,
        sun_watts_per_m2: 0.0,
        absorbing_m2_kelvin_per_watt: 0.0,
        sky: TemperatureDifference::ZERO,
    };
    let window = |pane: &PaneHeat| Window {
        area: pane.area,
        watts_per_m2_kelvin: pane.u.value,
        solar_gain: pane.solar_gain,
        sun_watts_per_m2: 0.0,
    };
    Room {
        faces: sides.iter().map(face).collect(),
        windows: panes.iter().map(window).collect(),
        air: AirExchange {
            leaking,
            ventilating,
            joules_per_m3_kelvin: value(climate_room::design(Design::AirHeat)),
        },
        people: Gain {
            sensible: Power::ZERO,
            latent: Power::ZERO,
        },
        devices: Power::ZERO,
    }
}

/// The coldest night; the temperatures of the layers are written into the sides.
pub(super) fn night(
    desk: &mut Desk<'_>,
    room: &RoomFound,
    sides: &mut [SideFound],
    panes: &[PaneHeat],
    airs: &Airs,
    vents: &Vents,
) -> Option<ColdNight> {
    let (inside, outside) = (airs.inside.value, airs.outside.value);
    for side in sides.iter_mut() {
        faces(desk, side, inside, outside);
    }
    let natural = vents.natural(desk, inside, outside);
    let bare = bare_room(sides, panes, airs.leaking, natural);
    let found = desk.found(balance(&bare, inside, outside))?;
    let total = -found.sensible;
    let factor = |design| value(climate_room::design(design)).max(1.0);
    let low = desk.found(heater(&found, factor(Design::WarmUpLow)))?;
    let high = desk.found(heater(&found, factor(Design::WarmUpHigh)))?;
    let heaters = heaters(desk);
    let there: Power = heaters.iter().map(|found| found.heat.value).sum();
    let warm_up = (there > Power::ZERO)
        .then(|| warming(desk, room, sides, &found, airs, there))
        .flatten();
    let each = climate_room::people(PeopleFigure::HeatSensible).map_or(0.0, |row| row.value.usual);
    Some(ColdNight {
        leaving: leaving(sides, panes, &found, total),
        total,
        people: Power::from_watts(each) * f64::from(room.people.value),
        advised: (low, high),
        heaters,
        there,
        warm_up,
        vents: natural,
        outside: airs.outside.clone(),
        inside: airs.inside.clone(),
        air_changes: airs.changes.clone(),
    })
}

/// What leaves by each way, largest first.
fn leaving(sides: &[SideFound], panes: &[PaneHeat], found: &Balance, total: Power) -> Vec<Leaving> {
    let mut all: Vec<(LeavingBy, Power)> = Vec::new();
    for (side, heat) in sides.iter().zip(&found.faces) {
        all.push((LeavingBy::Side(side.shown.side), -heat.into_room));
    }
    for (pane, heat) in panes.iter().zip(&found.windows) {
        let by = LeavingBy::Opening(pane.opening.clone());
        all.push((by, -(heat.conducted + heat.sun)));
    }
    all.push((LeavingBy::Leaks, -found.leaking));
    if found.ventilating != Power::ZERO {
        all.push((LeavingBy::Vents, -found.ventilating));
    }
    all.sort_by(|a, b| b.1.total_cmp(&a.1));
    let share = |heat: Power| {
        let nothing = total.watts().abs() < 1e-9;
        Ratio::from_fraction(if nothing { 0.0 } else { heat / total })
    };
    all.into_iter()
        .map(|(by, heat)| Leaving {
            by,
            heat,
            share: share(heat),
        })
        .collect()
}

/// Heaters aboard whose heat is given.
fn heaters(desk: &mut Desk<'_>) -> Vec<HeaterFound> {
    let project: &Project = desk.project;
    let mut found = Vec::new();
    for (id, item) in project.items.iter() {
        let Spec::Load(load) = &item.spec else {
            continue;
        };
        if load.job.as_ref().map(|job| job.value) != Some(Job::Heater) {
            continue;
        }
        match desk.notes.given(&load.heat) {
            Some(heat) => found.push(HeaterFound {
                item: id.clone(),
                heat,
            }),
            None => desk.lack(&["item", id.as_str(), "heat"], "the heat it gives"),
        }
    }
    found
}

/// From the air outside to the air inside.
fn warming(
    desk: &mut Desk<'_>,
    room: &RoomFound,
    sides: &[SideFound],
    found: &Balance,
    airs: &Airs,
    there: Power,
) -> Option<WarmUp> {
    let (inside, outside) = (airs.inside.value, airs.outside.value);
    let air = room.volume.litres() / 1000.0 * value(climate_room::design(Design::AirHeat));
    let lining: f64 = sides.iter().map(|side| stored(side, inside, outside)).sum();
    let warming = Warming {
        watts_per_kelvin: found.skin_watts_per_kelvin + found.air_watts_per_kelvin,
        joules_per_kelvin: air + lining,
        outside,
        from: outside,
        to: inside,
    };
    if inside <= outside {
        return None;
    }
    let time = desk.found(warm_up(&warming, there))?;
    Some(WarmUp {
        joules_per_kelvin: warming.joules_per_kelvin,
        time,
    })
}
