//! What the labels on the ends of wires say. Not here: how they are laid on a sheet.

use super::{Cell, Listing, columns};
use wainwright_analysis::result::Schedules;

/// Two labels for each wire, in file order.
pub fn labels(schedules: &Schedules) -> Listing {
    let ends = schedules.wires.iter().flat_map(|wire| {
        [&wire.from, &wire.to].map(|end| {
            let [first, second] = &end.label_lines;
            vec![
                Cell::of(first),
                Cell::of(second),
                Cell::of(super::end_words(end)),
                Cell::of(wire.wire.as_str()),
            ]
        })
    });
    Listing {
        name: "labels",
        columns: columns(["First line", "Second line", "Goes on the end at", "Wire"]),
        rows: ends.collect(),
    }
}
