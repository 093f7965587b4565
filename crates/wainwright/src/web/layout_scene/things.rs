//! Everything with a place, as things of the scene. Not here: the box round them.

use super::{Shown, extent_of, shell, spot_of};
use crate::views::road::words;
use crate::web::trouble;
use std::collections::BTreeSet;
use wainwright_drawing::Tone;
use wainwright_drawing::scene::{Extent, Outline, Space, Thing};
use wainwright_model::{FieldExt, Id, Item, Project, Spot};
use wainwright_units::{Quantity, System};

/// Drawn size of a thing nobody measured [m].
const UNMEASURED: f64 = 0.12;
/// Below these a thing is small [kg, m].
const SMALL_KILOGRAMS: f64 = 2.0;
const SMALL_METRES: f64 = 0.4;
/// From this share of the height on a thing is overhead, and only outlined from above.
const OVERHEAD: f64 = 0.62;

/// Drawn size of an item.
pub fn size(project: &Project, id: &str) -> Extent {
    let size = project
        .items
        .get(id)
        .and_then(|item| item.body.size.value());
    size.map_or_else(
        || Extent::new(UNMEASURED, UNMEASURED, UNMEASURED),
        |size| extent_of(*size),
    )
}

/// Whether a thing is so small and light that it is left out unless asked for.
fn is_small(shown: &Shown<'_>, id: &Id, item: &Item) -> bool {
    let light = shown
        .road
        .load(id.as_str())
        .is_some_and(|load| load.most.kilograms() < SMALL_KILOGRAMS);
    let size = item.body.size.value().map(|size| extent_of(*size));
    light && size.is_none_or(|size| size.along_m.max(size.across_m) < SMALL_METRES)
}

/// Small things with a place.
pub fn small(shown: &Shown<'_>) -> usize {
    let all = shown.project.items.iter();
    all.filter(|(id, item)| item.body.spot.is_some() && is_small(shown, id, item))
        .count()
}

/// All items with a place.
pub fn things(shown: &Shown<'_>) -> Vec<Thing> {
    let troubled = trouble::items(shown.road);
    let mut all = Vec::new();
    for (id, item) in &shown.project.items {
        let wanted = shown.small || shown.chosen == Some(id.as_str()) || troubled.contains(id);
        if !wanted && is_small(shown, id, item) {
            continue;
        }
        let moved = shown
            .moved
            .iter()
            .find(|(other, _)| other == id)
            .map(|(_, spot)| *spot);
        let typed = item.body.spot.value().copied();
        if let Some(was) = typed.filter(|_| moved.is_some()) {
            all.push(ghost(shown, id, was));
        }
        if let Some(spot) = moved.or(typed) {
            all.push(thing(shown, id, item, spot, &troubled));
        }
    }
    all
}

fn thing(shown: &Shown<'_>, id: &Id, item: &Item, spot: Spot, troubled: &BTreeSet<&Id>) -> Thing {
    let name = words::item(shown.project, id.as_str());
    let load = shown.road.load(id.as_str());
    let mass = load.map(|load| load.most.show(shown.units));
    let size = size(shown.project, id.as_str());
    let bad = troubled.contains(id);
    let words = [
        Some(name.clone()),
        Some(mass.clone().unwrap_or_else(|| "no mass given".into())),
        Some(place_words(spot, shown.units)),
        item.body.size.is_none().then(|| "no size given".into()),
        bad.then(|| "in the way of something".into()),
    ];
    Thing {
        id: id.to_string(),
        label: name,
        note: mass.clone().unwrap_or_default(),
        words: words
            .into_iter()
            .flatten()
            .collect::<Vec<String>>()
            .join(", "),
        space: Space {
            at: spot_of(spot),
            size,
        },
        tone: match (bad, mass.is_some()) {
            (true, _) => Tone::Bad,
            (false, false) => Tone::Watch,
            (false, true) => Tone::Calm,
        },
        selected: shown.chosen == Some(id.as_str()),
        movable: shown.moved.is_empty(),
        outline: outline(shown, &spot),
    }
}

/// Where an item was before it was moved.
fn ghost(shown: &Shown<'_>, id: &Id, spot: Spot) -> Thing {
    let name = words::item(shown.project, id.as_str());
    Thing {
        id: format!("was-{id}"),
        label: String::new(),
        note: String::new(),
        words: format!("{name} is now {}", place_words(spot, shown.units)),
        space: Space {
            at: spot_of(spot),
            size: size(shown.project, id.as_str()),
        },
        tone: Tone::Off,
        selected: false,
        movable: false,
        outline: Outline::Dashed,
    }
}

/// The spot as it would be typed: what is less than a hair is nothing.
fn rounded(spot: Spot, units: System) -> Spot {
    Spot::parse(&spot.typed(units)).unwrap_or(spot)
}

/// "24 in from the front wall, 10 in from the left wall, 0 in above the floor".
pub fn place_words(spot: Spot, units: System) -> String {
    let spot = rounded(spot, units);
    format!(
        "{} from the front wall, {} from the left wall, {} above the floor",
        spot.from_front.show(units),
        spot.from_left.show(units),
        spot.above_floor.show(units)
    )
}

fn outline(shown: &Shown<'_>, spot: &Spot) -> Outline {
    let height = shell::inside(shown.road).map_or(f64::INFINITY, |inside| inside.up_m);
    if spot.above_floor.metres() > OVERHEAD * height {
        Outline::Dashed
    } else {
        Outline::Solid
    }
}
