//! What deserves a word of warning: fire aboard, no alarm listed, one way out, few openings. Told by what items do and
//! are called, so only as sure as the names. Not here: words for people.

use super::air::burning;
use super::desk::Desk;
use super::vents::Vents;
use crate::result::indoors::{Caution, CautionKind, FreshAir};
use wainwright_model::{FieldExt, Holds, Id, Item, Kind, Opening, Side, Spec, Swing};

/// An opening to climb out of is at least this wide and high \[m\] (judgement).
const ESCAPE: f64 = 0.45;
/// Words that an alarm is called by.
const ALARM: [&str; 3] = ["alarm", "detector", "sensor"];
/// Words that gas is called by.
const GAS: [&str; 4] = ["gas", "propane", "butane", "lpg"];

pub(super) fn cautions(desk: &Desk<'_>, air: Option<&FreshAir>, vents: &Vents) -> Vec<Caution> {
    let project = desk.project;
    let mut fire = burning(desk);
    let mut alarms = Vec::new();
    for (id, item) in project.items.iter() {
        let alarm = called(id, item, &ALARM);
        if alarm {
            alarms.push(id.clone());
        } else if (fuel(item) || bottle(id, item)) && !fire.contains(id) {
            fire.push(id.clone());
        }
    }
    let mut found = Vec::new();
    let mut say = |kind, items: Vec<Id>| found.push(Caution { kind, items });
    if !fire.is_empty() {
        if alarms.is_empty() {
            say(CautionKind::NoAlarm, fire.clone());
        }
        say(CautionKind::Burning, fire.clone());
        if project.living.fan_flow.is_some() {
            say(CautionKind::FanAndFire, fire);
        }
    }
    if air.is_some() && project.openings.iter().filter(|(_, o)| way_out(o)).count() < 2 {
        say(CautionKind::OneWayOut, Vec::new());
    }
    let few = air
        .and_then(|air| air.guidance)
        .is_some_and(|(low, high)| vents.low < low || vents.high < high);
    if few {
        say(CautionKind::FewOpenings, Vec::new());
    }
    found
}

fn fuel(item: &Item) -> bool {
    matches!(&item.spec, Spec::Tank(tank) if tank.holds.value() == Some(&Holds::Fuel))
}

fn bottle(id: &Id, item: &Item) -> bool {
    item.spec.kind() == Kind::Cargo && called(id, item, &GAS)
}

/// Whether one of the words is among those an item is called by.
fn called(id: &Id, item: &Item, words: &[&str]) -> bool {
    let label = item.label.value().map(|label| label.to_lowercase());
    let name = format!(
        "{} {}",
        id.as_str().to_lowercase(),
        label.unwrap_or_default()
    );
    let mut own = name.split(|c: char| !c.is_alphanumeric());
    own.any(|own| words.contains(&own))
}

/// Whether somebody gets out through it: a door, or a window that opens and is large enough.
fn way_out(opening: &Opening) -> bool {
    let opens = !matches!(opening.swing.value(), None | Some(Swing::Fixed));
    let (Some(side), Some(size)) = (opening.wall.value(), opening.size.value()) else {
        return false;
    };
    let (wide, high) = match side {
        Side::Front | Side::Rear => (size.across, size.up),
        Side::Left | Side::Right => (size.along, size.up),
        Side::Roof | Side::Floor => (size.along, size.across),
    };
    opens && wide.metres() >= ESCAPE && high.metres() >= ESCAPE
}
