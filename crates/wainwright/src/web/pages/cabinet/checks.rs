//! Whether everything fits and can be reached. Not here: heat (`heat`).

use super::words;
use crate::web::pages::air::words::{Fare, pill};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::cabinet::{CabinetDevice, CabinetResult};
use wainwright_model::Id;

/// One check: how it fares, its word, its sentence.
type Check = (Fare, &'static str, String);

/// Whether anything about a device is wrong.
pub fn trouble(cabinet: &CabinetResult, device: &CabinetDevice) -> bool {
    let overlaps = cabinet
        .overlaps
        .iter()
        .any(|(one, other)| *one == device.item || *other == device.item);
    overlaps
        || device.inside == Some(false)
        || device.depth.is_some_and(|depth| !depth.fits)
        || device
            .clear
            .as_ref()
            .is_some_and(|clear| !clear.blocked_by.is_empty())
}

/// The list.
pub fn checks(view: &View, cabinet: &CabinetResult) -> Markup {
    let all = all(view, cabinet);
    html! {
        section #checks aria-labelledby="checks-heading" {
            h3 #checks-heading { "Fits and can be reached" }
            ul.plain.face-checks {
                @for (fare, word, sentence) in &all { li { (pill(*fare, word)) " " span { (sentence) } } }
            }
        }
    }
}

fn all(view: &View, cabinet: &CabinetResult) -> Vec<Check> {
    let name = |id: &Id| {
        view.study()
            .project
            .label_or_id("item", id.as_str())
            .to_owned()
    };
    let mut bad: Vec<Check> = Vec::new();
    let mut well: Vec<Check> = Vec::new();
    for (one, other) in &cabinet.overlaps {
        let sentence = format!("{} and {} are in the same place.", name(one), name(other));
        bad.push((Fare::Bad, "overlap", sentence));
    }
    let mut deep = 0;
    for device in &cabinet.devices {
        if device.inside == Some(false) {
            let sentence = format!(
                "{} sticks out of the cabinet or lies outside of it.",
                device.label
            );
            bad.push((Fare::Bad, "outside", sentence));
        }
        if let Some(depth) = device.depth {
            if depth.fits {
                deep += 1;
            } else {
                let sentence = format!(
                    "{} needs {} behind the face, room for its wires counted; there are {}.",
                    device.label,
                    words::tape(view, depth.needed),
                    words::tape(view, depth.there)
                );
                bad.push((Fare::Bad, "too deep", sentence));
            }
        }
        if let Some(clear) = device
            .clear
            .as_ref()
            .filter(|clear| !clear.blocked_by.is_empty())
        {
            let by: Vec<String> = clear.blocked_by.iter().map(&name).collect();
            let sentence = format!(
                "{} wants {} free before it; {} is in it.",
                device.label,
                words::tape(view, clear.needed),
                by.join(", ")
            );
            bad.push((Fare::Bad, "not free", sentence));
        }
    }
    bad.extend(fuses(cabinet));
    if cabinet.overlaps.is_empty() {
        well.push((
            Fare::Good,
            "clear",
            "Nothing is in the same place as something else.".into(),
        ));
    }
    if deep > 0 {
        let sentence = format!("{deep} of what is mounted fits the depth behind the face.");
        well.push((Fare::Good, "deep enough", sentence));
    }
    let lost: Vec<String> = cabinet
        .unknown
        .iter()
        .map(|name| format!("“{name}”"))
        .collect();
    if !lost.is_empty() {
        let sentence = format!(
            "{} is held by this cabinet, but there is no such item.",
            lost.join(", ")
        );
        bad.push((Fare::Near, "unknown", sentence));
    }
    let unplaced: Vec<&str> = cabinet
        .devices
        .iter()
        .filter(|device| device.rect.is_none())
        .map(|device| device.label.as_str())
        .collect();
    if !unplaced.is_empty() && cabinet.face.is_some() {
        let sentence = format!("Not drawn, without spot or size: {}.", unplaced.join(", "));
        bad.push((Fare::Plain, "not placed", sentence));
    }
    bad.extend(well);
    bad
}

/// Whether fuses can be reached.
fn fuses(cabinet: &CabinetResult) -> Option<Check> {
    if cabinet.fuses.is_empty() {
        return None;
    }
    let many =
        crate::web::html::count(cabinet.fuses.len(), "fuse or breaker", "fuses and breakers");
    Some(match cabinet.door.as_ref().map(|door| door.value) {
        Some(true) => (
            Fare::Good,
            "reachable",
            format!("{many} in it, behind a door that opens without a tool."),
        ),
        Some(false) => (
            Fare::Near,
            "screwed shut",
            format!("{many} in it, and no door: a fuse cannot be changed without a tool."),
        ),
        None => (
            Fare::Plain,
            "door not said",
            format!("{many} in it; say whether it has a door."),
        ),
    })
}
