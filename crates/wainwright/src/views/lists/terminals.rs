//! What ends on which terminal. Not here: which terminals there are.

use super::{Cell, Listing, columns};
use wainwright_analysis::result::{Schedules, WireEntry};
use wainwright_model::Id;

/// One row for each wire on each terminal; a free terminal has one row too.
pub fn terminals(schedules: &Schedules) -> Listing {
    let mut rows = Vec::new();
    for item in &schedules.terminals {
        for terminal in &item.terminals {
            let head = [
                Cell::of(&item.label),
                Cell::of(format!("terminal {}", terminal.terminal)),
            ];
            if terminal.wires.is_empty() {
                rows.push([&head[..], &[Cell::of("free"), Cell::of(""), Cell::of("")]].concat());
            }
            for id in &terminal.wires {
                let tail = wire(schedules, id).map_or_else(
                    || [Cell::of(id.as_str()), Cell::of(""), Cell::of("")],
                    |wire| tail(wire, &item.item, &terminal.terminal),
                );
                rows.push([&head[..], &tail[..]].concat());
            }
        }
    }
    Listing {
        name: "terminals",
        columns: columns(["Item", "Terminal", "Wire", "Size", "Goes to"]),
        rows,
    }
}

fn tail(wire: &WireEntry, item: &Id, terminal: &str) -> [Cell; 3] {
    let here = wire.from.item == *item && wire.from.terminal == terminal;
    let other = if here { &wire.to } else { &wire.from };
    let size = wire
        .size
        .as_ref()
        .map_or_else(String::new, |size| size.value.to_string());
    [
        Cell::of(&wire.label.text),
        Cell::of(size),
        Cell::of(super::end_words(other)),
    ]
}

fn wire<'a>(schedules: &'a Schedules, id: &Id) -> Option<&'a WireEntry> {
    schedules.wires.iter().find(|wire| wire.wire == *id)
}
