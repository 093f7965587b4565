//! What each fuse is for: the ways of blocks, then fuses on their own.

use super::{Cell, Listing, columns};
use wainwright_analysis::Assessment;
use wainwright_analysis::result::Schedules;
use wainwright_units::{Quantity, System};

/// Every way of every block, and every single fuse and breaker.
pub fn fuses(schedules: &Schedules, assessment: &Assessment, units: System) -> Listing {
    let ways = schedules.legends.iter().flat_map(|block| {
        block.ways.iter().map(|way| {
            vec![
                Cell::of(&block.label),
                Cell::count(way.way),
                Cell::of(
                    way.rating
                        .map_or_else(String::new, |rating| rating.show(units)),
                ),
                Cell::of(way.fuse_colour.unwrap_or("")),
                Cell::of(if way.circuit.is_empty() {
                    "free"
                } else {
                    &way.circuit
                }),
                Cell::of(&way.label),
            ]
        })
    });
    let single = assessment.devices.iter().filter(|device| device.way == 0);
    let single = single.map(|device| {
        vec![
            Cell::of(&device.label),
            Cell::of(""),
            Cell::of(device.rating.value.show(units)),
            Cell::of(""),
            Cell::of(device.family.replace('-', " ")),
            Cell::of(""),
        ]
    });
    Listing {
        name: "fuses",
        columns: columns([
            "Fuse or block",
            "Way",
            "Rating",
            "Fuse colour",
            "Feeds, or family",
            "Wire label",
        ]),
        rows: ways.chain(single).collect(),
    }
}
