//! The lists to work and shop by; this sheet: all wires. Not here: what is in
//! a list (`views::lists`).

pub mod buy;
pub mod fuses;
pub mod labels;
pub mod paper;
pub mod terminals;

use crate::views::lists::{self, Listing, csv};
use crate::web::act::blocking;
use crate::web::html::shell::{Page, Tab};
use crate::web::html::within::{LISTS, sheets};
use crate::web::html::{count, encoded};
use crate::web::view::View;
use axum::extract::Path;
use axum::http::{HeaderValue, header};
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};
use wainwright_analysis::result::{Schedules, WireEntry};
use wainwright_units::Quantity;

/// A sheet of this place.
fn framed(here: &'static str, title: &str, lede: &'static str, main: &Markup) -> Page {
    Page {
        tab: Some(Tab::Lists),
        title: title.into(),
        lede,
        main: html! {
            (sheets(&LISTS, here))
            (main)
            script src="/assets/routes.js" defer {}
        },
    }
}

/// The schedules of the project.
fn schedules(view: &View) -> Schedules {
    let study = view.study();
    blocking(|| wainwright_analysis::schedules(&study.project, &study.assessment))
}

/// The wires.
pub async fn page(view: View) -> Response {
    let schedules = schedules(&view);
    let main = if schedules.wires.is_empty() {
        nothing_yet(&view)
    } else {
        wires(&view, &schedules)
    };
    view.page(framed(
        "/lists",
        "Wires",
        "Every wire to cut, with what its two labels say.",
        &html! {
            div #list data-region { (main) }
        },
    ))
}

/// One list as a file for a spreadsheet.
pub async fn file(view: View, Path(name): Path<String>) -> Response {
    let Some(listing) = name
        .strip_suffix(".csv")
        .and_then(|name| listing(&view, name))
    else {
        return view.missing("There is no list of that name.");
    };
    let project = view
        .now
        .path
        .file_stem()
        .map(|stem| stem.to_string_lossy().into_owned());
    let project: String = project
        .unwrap_or_default()
        .chars()
        .map(|c| {
            if c.is_ascii_alphanumeric() || matches!(c, '-' | '_') {
                c
            } else {
                '_'
            }
        })
        .collect();
    let shown = format!("attachment; filename=\"{project}-{}.csv\"", listing.name);
    let headers = [
        (
            header::CONTENT_TYPE,
            HeaderValue::from_static("text/csv; charset=utf-8"),
        ),
        (
            header::CONTENT_DISPOSITION,
            HeaderValue::from_str(&shown).unwrap_or(HeaderValue::from_static("attachment")),
        ),
    ];
    (headers, csv(&listing)).into_response()
}

fn listing(view: &View, name: &str) -> Option<Listing> {
    let (units, study) = (view.units(), view.study());
    match name {
        "wires" => Some(lists::wires(&schedules(view), units)),
        "terminals" => Some(lists::terminals(&schedules(view))),
        "fuses" => Some(lists::fuses(&schedules(view), &study.assessment, units)),
        "labels" => Some(lists::labels(&schedules(view))),
        "buy" => Some(blocking(|| {
            let takeoff = wainwright_analysis::takeoff(&study.project, &study.assessment);
            lists::buy::buy(&takeoff, units)
        })),
        _ => None,
    }
}

/// Where there is no wire to list.
fn nothing_yet(view: &View) -> Markup {
    html! {
        section.next.beginning #next-step {
            h2 { "There is nothing to list yet" }
            @if view.study().project.items.is_empty() {
                p { "Say what is to be in the trailer; then wires, labels and shopping follow." }
                p.row { a.button.primary href="/add/item?kind=battery" { "Add the battery" } a.button href="/add/item" { "Add something else" } }
            } @else {
                p { "The lists follow from the wires. Have them planned, or add the first one yourself." }
                p.row { a.button.primary href="/wiring/plan" { "Plan the wiring" } a.button href="/add/wire" { "Add a wire" } }
            }
        }
    }
}

/// Download and print.
fn take_along(name: &str) -> Markup {
    html! {
        p.row.take-along {
            a.button href={ "/lists/" (name) ".csv" } download { "Download for a spreadsheet" }
            button type="button" data-print hidden { "Print" }
        }
    }
}

fn wires(view: &View, schedules: &Schedules) -> Markup {
    let proposed = schedules
        .wires
        .iter()
        .filter(|wire| wire.label.proposed)
        .count();
    html! {
        (take_along("wires"))
        @if proposed > 0 {
            p.hint { (count(proposed, "label is", "labels are")) " proposed (in italics): letter and number of the circuit. Type your own in the wire." }
        }
        table.cards.list.wire-list {
            thead { tr {
                @for title in ["Wire", "From", "To", "Size", "Colour", "Length", "Where it runs"] {
                    th scope="col" class=[(title == "Length").then_some("number")] { (title) }
                }
            } }
            tbody { @for wire in &schedules.wires { (wire_row(view, wire)) } }
        }
    }
}

fn wire_row(view: &View, wire: &WireEntry) -> Markup {
    let id = wire.wire.as_str();
    html! {
        tr {
            th scope="row" {
                a href={ "/wiring/routes?select=wire." (encoded(id)) } {
                    @if wire.label.proposed { i { (wire.label.text) } } @else { (wire.label.text) }
                }
            }
            @for (title, end) in [("From", &wire.from), ("To", &wire.to)] {
                td data-label=(title) {
                    (end.item_label) " " b { (end.terminal) }
                    span.tag { "label: " (end.label_lines[0]) " / " (end.label_lines[1]) }
                }
            }
            td data-label="Size" {
                @match &wire.size { Some(size) => (size.value), None => span.over { "no size" } }
                @if let Some(insulation) = &wire.insulation { span.basis { " " (insulation.value) } }
            }
            td data-label="Colour" { @match &wire.colour { Some(colour) => (colour.value), None => "–" } }
            td.number data-label="Length" {
                @match &wire.length {
                    Some(length) => (crate::web::view::marked(&length.value.show(view.units()), &crate::views::basis::BasisView::of(&length.basis))),
                    None => "–",
                }
            }
            td.long data-label="Where it runs" {
                @if wire.supplied { span.basis { "came with the gear " } }
                @if wire.route.is_empty() { "–" } @else { (lists::route_words(&wire.route, view.units())) }
            }
        }
    }
}
