//! The list of wires. Not here: where they run, which the analysis says.

use super::{Cell, Column, Listing, columns, length_unit};
use wainwright_analysis::result::{RouteStep, Schedules, WireEnd, WireEntry};
use wainwright_units::{Quantity, System};

/// Every wire with both its ends.
pub fn wires(schedules: &Schedules, units: System) -> Listing {
    let mut all = columns([
        "Wire",
        "From",
        "To",
        "Size",
        "Colour",
        "Insulation",
        "Length",
        "Route",
        "Label at start",
        "Label at end",
        "Supplied",
        "Id",
    ]);
    if let Some(length) = all.get_mut(6) {
        *length = Column {
            title: "Length",
            unit: Some(length_unit(units)),
        };
    }
    Listing {
        name: "wires",
        columns: all,
        rows: schedules
            .wires
            .iter()
            .map(|wire| row(wire, units))
            .collect(),
    }
}

fn row(wire: &WireEntry, units: System) -> Vec<Cell> {
    let text = |text: Option<&String>| Cell::of(text.map_or("", String::as_str));
    vec![
        Cell::of(&wire.label.text),
        Cell::of(end_words(&wire.from)),
        Cell::of(end_words(&wire.to)),
        Cell::of(
            wire.size
                .as_ref()
                .map_or_else(String::new, |size| size.value.to_string()),
        ),
        text(wire.colour.as_ref().map(|known| &known.value)),
        text(wire.insulation.as_ref().map(|known| &known.value)),
        wire.length
            .as_ref()
            .map_or_else(|| Cell::of(""), |known| Cell::length(known.value, units)),
        Cell::of(route_words(&wire.route, units)),
        Cell::of(wire.from.label_lines.join(" / ")),
        Cell::of(wire.to.label_lines.join(" / ")),
        Cell::of(if wire.supplied { "yes" } else { "" }),
        Cell::of(wire.wire.as_str()),
    ]
}

/// "Fuse block, terminal 3".
pub fn end_words(end: &WireEnd) -> String {
    format!("{}, terminal {}", end.item_label, end.terminal)
}

/// "2 ft off trunks, 9 ft in Along the ceiling (behind ceiling batten)".
pub fn route_words(route: &[RouteStep], units: System) -> String {
    let steps: Vec<String> = route.iter().map(|step| step_words(step, units)).collect();
    steps.join(", then ")
}

fn step_words(step: &RouteStep, units: System) -> String {
    match step {
        RouteStep::Off { length } => format!("{} off trunks", length.show(units)),
        RouteStep::Trunk {
            label,
            behind,
            length,
            ..
        } => {
            let behind = behind
                .as_ref()
                .map_or_else(String::new, |what| format!(" (behind {what})"));
            format!("{} in “{label}”{behind}", length.show(units))
        }
    }
}
