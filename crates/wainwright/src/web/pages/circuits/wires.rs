//! The table of wires. Not here: one wire alone (see `wiring`).

use super::table::{Cell, Column, Row, Table, actions};
use crate::views::basis::BasisView;
use crate::web::html::bar::{bar, share_bar};
use crate::web::html::encoded;
use crate::web::html::finding::label;
use crate::web::pages::wiring::limits_itself;
use crate::web::schematic::run_words;
use crate::web::view::{View, marked};
use maud::{Markup, html};
use wainwright_analysis::result::{Guard, WireResult};
use wainwright_model::Wire;

/// Every wire of the file, in the study or not.
pub fn table(view: &View, state: Option<usize>) -> Table {
    let study = view.study();
    let wires = study.project.wires.iter();
    let row = |(id, wire): (&wainwright_model::Id, &Wire)| match study.assessment.wire(id.as_str())
    {
        Some(result) => studied(view, result, state),
        None => unstudied(view, id.as_str(), wire),
    };
    Table {
        caption: "Wires with size, length, way, current, temperature, drop and protection",
        columns: vec![
            Column::text("wire", "Wire"),
            Column::text("ends", "From and to"),
            Column::number("size", "Size"),
            Column::number("length", "Length"),
            Column::text("insulation", "Insulation"),
            Column::text("runs", "Runs"),
            Column::number("amps", "Current"),
            Column::number("temperature", "Metal"),
            Column::number("drop", "Lost"),
            Column::text("protection", "Protected by"),
            Column::text("", ""),
        ],
        rows: wires.map(row).collect(),
        find: "fridge, 14 AWG, foam …",
        none: "No wire is typed yet",
        begin: "Wires join terminals: from the battery through a fuse to something that uses power, and back.",
        add: "/add/wire",
        add_words: "Add the first wire",
    }
}

fn studied(view: &View, wire: &WireResult, state: Option<usize>) -> Row {
    let there = state.and_then(|state| wire.states.get(state));
    let ends = format!(
        "{} {} → {} {}",
        label(view, "item", wire.from.0.as_str()),
        wire.from.1,
        label(view, "item", wire.to.0.as_str()),
        wire.to.1
    );
    let size = wire.size.value.to_string();
    let protection = Protection::of(view, wire);
    Row {
        key: format!("wire.{}", wire.id),
        text: [wire.id.as_str(), &wire.label, &ends, &size, &wire.insulation.value, run_words(wire.run.value), &protection.strong.join(" ")].join(" "),
        cells: vec![
            Cell::shown(wire.label.clone(), name(wire.id.as_str(), &wire.label)),
            Cell::text(ends),
            Cell::number(Some(wire.metal.square_millimetres()), marked(&size, &BasisView::of(&wire.size.basis))),
            Cell::number(Some(wire.length.value.metres()), marked(&view.show(wire.length.value), &BasisView::of(&wire.length.basis))),
            Cell::shown(wire.insulation.value.clone(), marked(&wire.insulation.value, &BasisView::of(&wire.insulation.basis))),
            Cell::text(run_words(wire.run.value)),
            Cell::number(there.map(|t| t.amps.amperes().abs()), there.map_or_else(dash, |there| {
                let share = there.amps.amperes().abs() / wire.ampacity.in_force.amperes();
                html! {
                    (view.show(there.amps.abs()))
                    (share_bar(share, &format!("{:.0} % of what it bears for ever, {}", share * 100.0, view.show(wire.ampacity.in_force))))
                }
            })),
            Cell::number(there.map(|t| t.temperature.celsius()), there.map_or_else(dash, |there| {
                let words = format!("{} of {}", view.show(there.temperature), view.show(wire.limit));
                html! {
                    (view.show(there.temperature))
                    (bar(there.temperature.celsius(), wire.air.value.celsius(), wire.limit.celsius(), &words))
                }
            })),
            Cell::number(there.map(|t| t.drop.volts().abs()), there.map_or_else(dash, |t| html! { (view.show(t.drop.abs())) })),
            protection.cell(wire.id.as_str()),
            actions("wire", wire.id.as_str(), &wire.label),
        ],
    }
}

/// In the file, but left out of the study because something is missing.
fn unstudied(view: &View, id: &str, wire: &Wire) -> Row {
    let end = |end: &wainwright_model::Field<wainwright_model::TerminalRef>| {
        end.as_ref()
            .map_or_else(|| "?".into(), |end| end.value.to_string())
    };
    let ends = format!("{} → {}", end(&wire.from), end(&wire.to));
    let size = wire
        .size
        .as_ref()
        .map_or("", |size| size.text.as_str())
        .to_owned();
    let length = wire
        .length
        .as_ref()
        .map_or("", |length| length.text.as_str())
        .to_owned();
    Row {
        key: format!("wire.{id}"),
        text: format!("{id} {} {ends} {size} left out", label(view, "wire", id)),
        cells: vec![
            Cell::shown(id, name(id, id)),
            Cell::text(ends),
            Cell::number(None, html! { (size) }),
            Cell::number(None, html! { (length) }),
            Cell::text(wire.insulation.as_ref().map_or("", |i| i.text.as_str())),
            Cell::text(wire.runs.as_ref().map_or("", |r| r.text.as_str())),
            Cell::number(None, html! { span.standin { "left out" } }),
            Cell::number(None, dash()),
            Cell::number(None, dash()),
            Cell::text(""),
            actions("wire", id, id),
        ],
    }
}

fn name(id: &str, label: &str) -> Markup {
    html! {
        a href={ "/wiring?select=wire." (encoded(id)) "#panel" } { b { (label) } }
        @if label != id { " " span.basis { (id) } }
    }
}

/// What protects a wire, for the table.
struct Protection {
    /// Against sources that give whatever a short circuit draws.
    strong: Vec<String>,
    /// Against sources that limit their own current.
    limited: Vec<String>,
}

impl Protection {
    fn of(view: &View, wire: &WireResult) -> Self {
        let (limited, strong): (Vec<_>, Vec<_>) = wire
            .guards
            .iter()
            .partition(|guard| limits_itself(view, guard));
        let words = |guards: Vec<&Guard>| {
            let mut all: Vec<String> = Vec::new();
            for guard in guards {
                let words = guard_words(view, guard);
                if !all.contains(&words) {
                    all.push(words);
                }
            }
            all
        };
        Self {
            strong: words(strong),
            limited: words(limited),
        }
    }

    fn cell(&self, id: &str) -> Cell {
        let first = self.strong.join(", ");
        let shown = html! {
            (first)
            @if !self.limited.is_empty() {
                details id={ "limited-" (id) } {
                    summary { @if first.is_empty() { "limited sources only" } @else { "limited sources" } }
                    (self.limited.join(", "))
                }
            }
        };
        Cell::shown(first.clone(), html! { span { (shown) } })
    }
}

fn guard_words(view: &View, guard: &Guard) -> String {
    let device = guard
        .device
        .and_then(|index| view.study().assessment.devices.get(index));
    match (device, guard.self_limited) {
        (Some(device), _) => format!("{} {}", device.label, view.show(device.rating.value)),
        (None, Some(amps)) if !limits_itself(view, guard) => {
            format!("fuses behind it, {}", view.show(amps))
        }
        (None, Some(amps)) => format!(
            "{} itself, {}",
            label(view, "item", guard.source.as_str()),
            view.show(amps)
        ),
        (None, None) => format!(
            "nothing against {}",
            label(view, "item", guard.source.as_str())
        ),
    }
}

fn dash() -> Markup {
    html! { "–" }
}
