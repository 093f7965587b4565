//! What stands in the way of what, in words. Not here: finding it (the analysis),
//! judging it (the rules).

use crate::views::road::words;
use std::collections::BTreeSet;
use wainwright_analysis::result::road::{Blocker, Outside, RoadResult};
use wainwright_model::{Id, Project};
use wainwright_units::{Length, Quantity, System};

/// Every item that is in the way or sticks out.
pub fn items(road: &RoadResult) -> BTreeSet<&Id> {
    let overlaps = road
        .overlaps
        .iter()
        .flat_map(|found| [&found.first, &found.second]);
    let outside = road
        .outside
        .iter()
        .filter(|found| !found.wholly)
        .map(|found| &found.item);
    let blocking = road.blocked.iter().map(|found| &found.by);
    overlaps.chain(outside).chain(blocking).collect()
}

/// A sentence for each, with the items it is about.
pub fn sentences<'r>(
    project: &Project,
    road: &'r RoadResult,
    units: System,
) -> Vec<(Vec<&'r Id>, String)> {
    let name = |id: &Id| words::item(project, id.as_str());
    let overlaps = road.overlaps.iter().map(|found| {
        let least = found.along.min(found.across).min(found.up);
        let text = format!(
            "{} and {} are in the same place, by {}.",
            name(&found.first),
            name(&found.second),
            least.show(units)
        );
        (vec![&found.first, &found.second], text)
    });
    let outside = road
        .outside
        .iter()
        .filter(|found| !found.wholly)
        .map(|found| {
            let text = format!("{} sticks out: {}.", name(&found.item), sides(found, units));
            (vec![&found.item], text)
        });
    let blocked = road.blocked.iter().map(|found| {
        let room = match &found.owner {
            Blocker::Opening(_) => "the way of",
            Blocker::Item(_) => "the free room before",
        };
        let owner = words::blocker(project, &found.owner);
        let text = format!("{} stands in {room} {owner}.", name(&found.by));
        (vec![&found.by], text)
    });
    overlaps.chain(outside).chain(blocked).collect()
}

fn sides(found: &Outside, units: System) -> String {
    let all = [
        (found.front, "at the front"),
        (found.rear, "at the rear"),
        (found.left, "on the left"),
        (found.right, "on the right"),
        (found.floor, "through the floor"),
        (found.roof, "through the roof"),
    ];
    let out = all.into_iter().filter(|(by, _)| *by > Length::ZERO);
    let words: Vec<String> = out
        .map(|(by, side)| format!("{} {side}", by.show(units)))
        .collect();
    words.join(", ")
}
