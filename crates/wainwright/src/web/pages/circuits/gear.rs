//! The table of gear. Not here: fuses and breakers alone (`protection`).

use super::table::{Cell, Column, Row, Table, actions};
use crate::web::html::bar::bar;
use crate::web::html::encoded;
use crate::web::html::finding::label;
use crate::web::pages::element::kind_words;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::{ConsumerInState, ConsumerResult};
use wainwright_model::Item;

/// Every item of the file.
pub fn table(view: &View, state: Option<usize>) -> Table {
    let items = view.study().project.items.iter();
    Table {
        caption: "Gear with kind, voltage, current, power and drop",
        columns: vec![
            Column::text("gear", "Gear"),
            Column::text("kind", "Kind"),
            Column::text("part", "Part"),
            Column::number("volts", "Voltage"),
            Column::number("amps", "Current"),
            Column::number("power", "Power"),
            Column::number("drop", "Lost on the way"),
            Column::text("", ""),
        ],
        rows: items
            .map(|(id, item)| row(view, id.as_str(), item, state))
            .collect(),
        find: "fridge, fuse, load …",
        none: "No gear is typed yet",
        begin: "Begin with the battery; the name plate is enough.",
        add: "/add/item?kind=battery",
        add_words: "Add the battery",
    }
}

fn row(view: &View, id: &str, item: &Item, state: Option<usize>) -> Row {
    let name = label(view, "item", id);
    let kind = kind_words(item.spec.kind());
    let part = item.part.as_ref().map_or("", |part| part.value.as_str());
    let gear = view.study().assessment.consumer(id);
    let there = state
        .and_then(|state| gear?.states.get(state))
        .filter(|there| there.on);
    let volts = there.and_then(|there| there.volts);
    Row {
        key: format!("item.{id}"),
        text: format!("{id} {name} {kind} {part}"),
        cells: vec![
            Cell::shown(
                name.clone(),
                html! {
                    a href={ "/wiring?select=item." (encoded(id)) "#panel" } { b { (name) } }
                    @if name != id { " " span.basis { (id) } }
                },
            ),
            Cell::text(kind),
            Cell::text(part),
            Cell::number(
                volts.map(|v| v.volts()),
                html! {
                    (volts.map_or_else(|| "–".into(), |v| view.show(v)))
                    @if there.is_some_and(|t| t.dropped_out) { " " strong.over { "too low" } }
                },
            ),
            Cell::number(
                there.map(|t| t.amps.amperes()),
                html! { (there.map_or_else(|| "–".into(), |t| view.show(t.amps))) },
            ),
            Cell::number(
                there.map(|t| t.power.watts()),
                html! { (there.map_or_else(|| "–".into(), |t| view.show(t.power))) },
            ),
            Cell::number(
                there
                    .and_then(|t| t.drop_share)
                    .map(|share| share.fraction()),
                gear.zip(there)
                    .map_or_else(|| html! { "–" }, |(gear, there)| drop(view, gear, there)),
            ),
            actions("item", id, &name),
        ],
    }
}

fn drop(view: &View, gear: &ConsumerResult, there: &ConsumerInState) -> Markup {
    let limits = &view.study().assessment.limits;
    let limit = if gear.critical {
        limits.drop_critical.value
    } else {
        limits.drop_other.value
    };
    html! {
        @match there.drop_share {
            Some(share) => {
                (view.show(share))
                (bar(share.fraction(), 0.0, limit.fraction(), &format!("{} of {}", view.show(share), view.show(limit))))
            },
            None => "–",
        }
    }
}
