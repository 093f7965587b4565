//! What holds each thing, what is in the way, what scales said. Not here: the
//! forces (the road study).

use super::{Shown, heading};
use crate::cli::out::Out;
use crate::cli::table::{Align, print};
use crate::views::road::words;
use wainwright_analysis::result::road::{HoldResult, Measured};
use wainwright_units::{Mass, Quantity};

use Align::{Left, Right};

/// One row for each thing with a mass.
pub fn holds(shown: Shown<'_>, out: &mut Out) {
    let road = shown.road;
    if road.holds.is_empty() {
        return;
    }
    out.gap();
    heading("What holds each thing", out);
    if let Some(against) = &road.aims.hold_against {
        out.hanging("  ", "    ", words::against(against.value));
    }
    let heads = [
        ("Thing", Left),
        ("Mass", Right),
        ("Must hold", Right),
        ("Fastened with", Left),
        ("Holds", Right),
        ("Used", Right),
    ];
    let rows: Vec<Vec<String>> = road.holds.iter().map(|hold| row(shown, hold)).collect();
    print(out, &heads, &rows);
}

fn row(shown: Shown<'_>, hold: &HoldResult) -> Vec<String> {
    let units = shown.units;
    let strength = hold.strength.as_ref();
    let asked = strength.map_or(hold.forces.asked, |strength| strength.asked);
    let text = |text: Option<String>| text.unwrap_or_else(|| "-".into());
    vec![
        words::item(&shown.study.project, hold.item.as_str()),
        hold.mass.show(units),
        asked.show(units),
        hold.how.map_or("not said", words::hold).to_owned(),
        text(strength.map(|strength| strength.held.show(units))),
        text(strength.map(|strength| strength.used.show(units))),
    ]
}

/// Things in each other's way, outside, or before a door.
pub fn crowd(shown: Shown<'_>, out: &mut Out) {
    let (road, project) = (shown.road, &shown.study.project);
    let name = |id: &wainwright_model::Id| words::item(project, id.as_str());
    let overlaps = road.overlaps.iter().filter(|one| !one.stowed);
    let overlaps =
        overlaps.map(|one| format!("{} and {} overlap", name(&one.first), name(&one.second)));
    let outside = road.outside.iter().filter(|one| !one.wholly);
    let outside = outside.map(|one| format!("{} sticks out of the box", name(&one.item)));
    let blocked = road.blocked.iter().map(|one| {
        let owner = words::blocker(project, &one.owner);
        format!("{} stands in the room that {owner} needs", name(&one.by))
    });
    let lines: Vec<String> = overlaps.chain(outside).chain(blocked).collect();
    if lines.is_empty() {
        return;
    }
    out.gap();
    heading("In the way", out);
    for line in lines {
        out.hanging("  ", "    ", &line);
    }
}

/// What scales said, and the bare trailer that follows.
pub fn weighings(shown: Shown<'_>, out: &mut Out) {
    let (road, units) = (shown.road, shown.units);
    if road.weighings.is_empty() {
        return;
    }
    let known =
        |load: &Measured<Mass>| format!("{} ± {}", load.value.show(units), load.sigma.show(units));
    out.gap();
    heading("Weighings", out);
    for found in &road.weighings {
        let loads = found.loads.unwrap_or_default();
        let parts = [
            ("tongue", loads.tongue),
            ("axle", loads.axle),
            ("whole", loads.whole),
            ("left wheels", loads.left),
            ("right wheels", loads.right),
        ];
        let parts: Vec<String> = parts
            .iter()
            .filter_map(|(name, load)| Some(format!("{name} {}", known(load.as_ref()?))))
            .collect();
        let parts = if parts.is_empty() {
            "a reading is missing".to_owned()
        } else {
            parts.join(", ")
        };
        let name = words::weighing(&shown.study.project, found.id.as_str());
        let text = format!("{name} ({}): {parts}", words::weighed_by(found.by));
        out.hanging("  ", "    ", &text);
    }
    if let Some(shell) = &road.shell_found {
        let text = format!(
            "The bare trailer by these: mass {}, tongue {}",
            known(&shell.mass),
            known(&shell.tongue)
        );
        out.hanging("  ", "    ", &text);
        if shell.contradiction.is_some() {
            out.wrapped(
                "  ",
                "The weighings contradict each other: something is missing or misplaced, or a reading is wrong.",
            );
        }
    }
}
