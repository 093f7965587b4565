//! Air through a night for those who sleep in the room. Not here: the heat that it carries.

use super::damp::OUTSIDE_HUMIDITY;
use super::desk::{Desk, value};
use super::night::Airs;
use super::vents::{Vents, calm, coefficient};
use crate::known::{Assumption, Known};
use crate::result::indoors::{AirCurve, AirFrom, AirNeeded, FreshAir, RoomFound};
use wainwright_engines::damp::Climate;
use wainwright_engines::fresh_air::{
    Night, Openings, Spell, airflow_for_humidity, airflow_for_night, humidity_with, night,
    opening_for_night, steady_ppm,
};
use wainwright_model::{FieldExt, Job, Spec};
use wainwright_reference::climate_room::{self, Design, PeopleFigure};
use wainwright_units::{
    Airflow, Area, Duration, Length, Ratio, Temperature, TemperatureDifference, Volume,
};

/// How long people lie down (judgement).
const HOURS: u32 = 8;
/// Points of a curve in an hour.
const POINTS: u32 = 4;
/// How much colder than inside it is outside on a mild night \[K\] (judgement): warmth moves little air then.
const MILD: f64 = 10.0;
/// Height between two openings that are still to be made, as a share of the inside height (judgement).
const APART: f64 = 0.7;
/// Largest opening and airflow that are looked at.
const MOST_OPENING: Area = Area::from_square_metres(0.5);
const MOST_AIR: f64 = 500.0;

/// Air through a night; `None` when nobody sleeps aboard.
pub(super) fn fresh(
    desk: &mut Desk<'_>,
    room: &RoomFound,
    airs: &Airs,
    vents: &Vents,
) -> Option<FreshAir> {
    let people = f64::from(room.people.value);
    if room.people.value == 0 || room.volume <= Volume::ZERO {
        return None;
    }
    let of = |figure| climate_room::people(figure).map_or(0.0, |row| row.value.usual);
    let figure = |design| value(climate_room::design(design));
    let each = of(PeopleFigure::Co2Man) * of(PeopleFigure::ActivityAsleep);
    let outside = airs.inside.value - TemperatureDifference::from_kelvins(MILD);
    let sleepers = Sleepers {
        made: people * each,
        water: people * of(PeopleFigure::WaterAsleep),
        volume: room.volume,
        outside_ppm: figure(Design::OutsideCo2),
        inside: airs.inside.value,
        outside,
        winter: airs.outside.value,
        humidity: airs.humidity.value,
    };
    let natural = vents.natural(desk, airs.inside.value, outside);
    let mut flow = airs.leaking;
    let mut curves = vec![sleepers.curve(desk, AirFrom::Leaks, flow)?];
    if natural > Airflow::ZERO {
        flow += natural;
        curves.push(sleepers.curve(desk, AirFrom::Openings, flow)?);
    }
    if let Some(fan) = desk.project.living.fan_flow.value() {
        curves.push(sleepers.curve(desk, AirFrom::Fan, flow + *fan)?);
    }
    let most_ppm = figure(Design::Co2Most);
    let flames = flames(desk);
    let guidance = climate_room::fixed_openings(room.plan, flames);
    Some(FreshAir {
        night: Duration::from_hours(f64::from(HOURS)),
        made_litres_per_second: sleepers.made,
        water_grams_per_hour: sleepers.water,
        outside_ppm: sleepers.outside_ppm,
        good_ppm: figure(Design::Co2Good),
        most_ppm,
        outside,
        needed: sleepers.needed(desk, most_ppm, airs.leaking, vents, room),
        openings: vents.all.clone(),
        low: vents.low,
        high: vents.high,
        height: vents.height,
        curves,
        guidance: guidance.map(|row| (row.value.low, row.value.high)),
    })
}

/// Whether something aboard that is no heater with fuel of its own may burn air of the room: told by nothing in the
/// file, so heaters with fuel count as sealed from the room.
const fn flames(_: &Desk<'_>) -> bool {
    false
}

/// Heaters that burn fuel.
pub(super) fn burning(desk: &Desk<'_>) -> Vec<wainwright_model::Id> {
    let items = desk.project.items.iter();
    let burns = items.filter(|(_, item)| match &item.spec {
        Spec::Load(load) => load.job.value() == Some(&Job::Heater),
        _ => false,
    });
    burns.map(|(id, _)| id.clone()).collect()
}

struct Sleepers {
    made: f64,
    water: f64,
    volume: Volume,
    outside_ppm: f64,
    inside: Temperature,
    outside: Temperature,
    winter: Temperature,
    humidity: Ratio,
}

impl Sleepers {
    fn room(&self) -> Night {
        Night {
            volume: self.volume,
            outside_ppm: self.outside_ppm,
            start_ppm: self.outside_ppm,
        }
    }

    fn spell(&self, airflow: Airflow, hours: f64) -> Spell {
        Spell {
            duration: Duration::from_hours(hours),
            co2_litres_per_second: self.made,
            airflow,
        }
    }

    fn cold(&self) -> Climate {
        Climate {
            inside: self.inside,
            inside_humidity: self.humidity,
            outside: self.winter,
            outside_humidity: OUTSIDE_HUMIDITY,
        }
    }

    fn curve(&self, desk: &mut Desk<'_>, from: AirFrom, airflow: Airflow) -> Option<AirCurve> {
        let step = 1.0 / f64::from(POINTS);
        let spells: Vec<Spell> = (0..HOURS * POINTS)
            .map(|_| self.spell(airflow, step))
            .collect();
        let found = desk.found(night(&self.room(), &spells))?;
        let ends = found.ends_ppm.iter().zip(1_u32..);
        let mut points = vec![(0.0, self.outside_ppm)];
        points.extend(ends.map(|(ppm, at)| (f64::from(at) * step, *ppm)));
        let humidity = (airflow > Airflow::ZERO)
            .then(|| desk.found(humidity_with(self.water, airflow, &self.cold())))
            .flatten();
        Some(AirCurve {
            from,
            airflow,
            points,
            end_ppm: found.ends_ppm.last().copied().unwrap_or(self.outside_ppm),
            steady_ppm: steady_ppm(self.outside_ppm, self.made, airflow),
            humidity,
        })
    }

    fn needed(
        &self,
        desk: &mut Desk<'_>,
        most_ppm: f64,
        leaking: Airflow,
        vents: &Vents,
        room: &RoomFound,
    ) -> AirNeeded {
        let spells = [self.spell(leaking, f64::from(HOURS))];
        let most = Airflow::from_cubic_metres_per_hour(MOST_AIR);
        let airflow = airflow_for_night(&self.room(), &spells, most_ppm, most);
        let airflow = desk.found(airflow).filter(|found| found.reached);
        let height = match vents.height {
            Some(height) => Known::computed(height),
            None => Known::assumed(
                Length::from_metres(APART * room.height.value.metres()),
                Assumption::UsualForKind,
            ),
        };
        let openings = Openings {
            low: MOST_OPENING,
            high: MOST_OPENING,
            coefficient: coefficient(),
            height: height.value,
            wind_pressure: 0.0,
        };
        let weather = calm(self.inside, self.outside);
        let opening = opening_for_night(
            &self.room(),
            &spells,
            (&openings, &weather),
            leaking,
            most_ppm,
            MOST_OPENING,
        );
        let opening = desk.found(opening).filter(|found| found.reached);
        let dry = desk.found(airflow_for_humidity(self.water, &self.cold()));
        AirNeeded {
            airflow: airflow.map(|found| found.value),
            opening: opening.map(|found| found.value),
            height,
            for_humidity: dry.flatten(),
        }
    }
}
