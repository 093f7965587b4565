//! What the loads bear and need, and what runs all the time. Not here: their energy over a day.

use super::desk::Desk;
use super::devices::Ground;
use crate::known::{Assumption, Known};
use crate::result::settings::LoadFigures;
use wainwright_engines::charging::Loads;
use wainwright_model::{FieldExt, Load, Spec};
use wainwright_units::{Current, Quantity, Voltage};

/// What gear for road vehicles bears, 12 V (ISO 16750-2, upper supply voltage of 12 V systems; memory) [V].
const BEARS: f64 = 16.0;
/// Below it gear for 12 V stops (ISO 16750-2, lower supply voltage of code D; memory) [V].
const NEEDS: f64 = 10.5;

pub(super) fn loads(desk: &mut Desk<'_>, ground: &Ground) -> LoadFigures {
    let project = desk.project;
    let all: Vec<_> = project
        .items
        .iter()
        .filter_map(|(id, item)| match &item.spec {
            Spec::Load(load) => Some((id, load)),
            _ => None,
        })
        .collect();
    let blocks = ground.blocks();
    let highest = all
        .iter()
        .filter_map(|(id, load)| Some((*id, desk.notes.given(&load.highest_voltage)?)))
        .reduce(|a, b| if b.1.value < a.1.value { b } else { a });
    let lowest = all
        .iter()
        .filter_map(|(id, load)| Some((*id, desk.notes.given(&load.lowest_voltage)?)))
        .reduce(|a, b| if b.1.value > a.1.value { b } else { a });
    let standing = all.iter().map(|(_, load)| standing(load, ground)).sum();
    let first = all.first().map(|(id, _)| id.to_string());
    let mut stand_in = |key: &str, volts: f64| {
        let known = Known::assumed(
            Voltage::from_volts(volts * blocks),
            Assumption::UsualForKind,
        );
        if let Some(id) = &first {
            let shown = known.value.show(desk.notes.system());
            desk.notes
                .assume_text(&["item", id, key], shown, &known.basis);
        }
        known
    };
    LoadFigures {
        highest_of: highest.as_ref().map(|(id, _)| (*id).clone()),
        lowest_of: lowest.as_ref().map(|(id, _)| (*id).clone()),
        highest: highest.map_or_else(|| stand_in("highest_voltage", BEARS), |(_, known)| known),
        lowest: lowest.map_or_else(|| stand_in("lowest_voltage", NEEDS), |(_, known)| known),
        standing: Known::computed(standing),
    }
}

/// What a load draws all day: known only of what runs for hours with a known share of the time.
fn standing(load: &Load, ground: &Ground) -> Current {
    let (Some(true), Some(duty)) = (load.continuous.value(), load.duty.value()) else {
        return Current::ZERO;
    };
    let power = load.power.value().map(|power| *power / ground.nominal);
    let ohms = load.resistance.value().map(|ohms| ground.nominal / *ohms);
    let drawn = load.current.value().copied().or(power).or(ohms);
    drawn.unwrap_or(Current::ZERO) * duty.fraction()
}

/// The loads as the engine sees them.
pub(super) fn engine(figures: &LoadFigures) -> Loads {
    Loads {
        highest: figures.highest.value,
        lowest: figures.lowest.value,
        standing: figures.standing.value,
    }
}
