//! Openings that are always open: which, how high, and the air they let through. Not here: whether it is enough.

use super::desk::{Desk, value};
use crate::result::indoors::{OpenPlace, RoomFound};
use wainwright_engines::fresh_air::{Openings, Weather, natural};
use wainwright_model::FieldExt;
use wainwright_reference::climate_room::{self, Vent};
use wainwright_units::{Airflow, Area, Length, Ratio, Speed, Temperature};

/// Openings whose place nobody said are taken half low, half high, this share of the inside height apart (judgement).
const APART: f64 = 0.5;
/// Openings less far apart than this are at one height \[m\].
const ONE_HEIGHT: f64 = 0.1;

/// Openings that are always open.
pub(super) struct Vents {
    pub(super) all: Vec<OpenPlace>,
    pub(super) low: Area,
    pub(super) high: Area,
    /// From the low ones to the high ones; `None` when they are at one height, and air does not rise through them.
    pub(super) height: Option<Length>,
}

/// Openings that are always open.
pub(super) fn vents(desk: &Desk<'_>, room: &RoomFound) -> Vents {
    let project = desk.project;
    let mut all = Vec::new();
    for (id, opening) in project.openings.iter() {
        let Some(area) = opening.open_area.value().copied() else {
            continue;
        };
        let middle = opening.spot.value().map(|spot| {
            let half = opening
                .size
                .value()
                .map_or(Length::ZERO, |size| size.up * 0.5);
            spot.above_floor + half
        });
        all.push(OpenPlace {
            opening: Some(id.clone()),
            area,
            above_floor: middle,
        });
    }
    if let Some(area) = project.living.vent_area.value() {
        all.push(OpenPlace {
            opening: None,
            area: *area,
            above_floor: None,
        });
    }
    all.retain(|place| place.area > Area::ZERO);
    arrange(all, room.height.value)
}

fn arrange(all: Vec<OpenPlace>, inside_height: Length) -> Vents {
    let middle = inside_height * 0.5;
    // Area, and area times height, low and high.
    let (mut low, mut high) = ((0.0, 0.0), (0.0, 0.0));
    for place in &all {
        let area = place.area.square_metres();
        let mut add = |area: f64, at: f64| {
            let sum = if at < middle.metres() {
                &mut low
            } else {
                &mut high
            };
            sum.0 += area;
            sum.1 += area * at;
        };
        match place.above_floor {
            Some(at) => add(area, at.metres()),
            None => {
                let half = 0.5 * APART * inside_height.metres();
                add(0.5 * area, middle.metres() - half);
                add(0.5 * area, middle.metres() + half);
            }
        }
    }
    let height = (low.0 > 0.0 && high.0 > 0.0).then(|| high.1 / high.0 - low.1 / low.0);
    Vents {
        all,
        low: Area::from_square_metres(low.0),
        high: Area::from_square_metres(high.0),
        height: height
            .filter(|metres| *metres > ONE_HEIGHT)
            .map(Length::from_metres),
    }
}

impl Vents {
    /// What the engine is told of them.
    pub(super) fn openings(&self) -> Option<Openings> {
        Some(Openings {
            low: self.low,
            high: self.high,
            coefficient: coefficient(),
            height: self.height?,
            wind_pressure: 0.0,
        })
    }

    /// Air they let through in calm air by warmth alone.
    pub(super) fn natural(
        &self,
        desk: &mut Desk<'_>,
        inside: Temperature,
        outside: Temperature,
    ) -> Airflow {
        let Some(openings) = self.openings() else {
            return Airflow::ZERO;
        };
        let weather = calm(inside, outside);
        let found = desk.found(natural(&openings, &weather));
        found.map_or(Airflow::ZERO, |found| found.both)
    }
}

/// How freely small openings let air through.
pub(super) fn coefficient() -> Ratio {
    let row = climate_room::vent(Vent::SmallSharp).map(|row| row.map(Ratio::fraction));
    Ratio::from_fraction(value(row).clamp(0.01, 1.0))
}

/// Calm air.
pub(super) const fn calm(inside: Temperature, outside: Temperature) -> Weather {
    Weather {
        inside,
        outside,
        wind: Speed::ZERO,
    }
}
