//! What ends on which terminal, item by item: to work along with the spanner.

use super::{framed, nothing_yet, schedules, take_along};
use crate::web::html::encoded;
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::result::{Schedules, TerminalSchedule, WireEntry};
use wainwright_model::{Id, Kind};

/// The page.
pub async fn page(view: View) -> Response {
    let schedules = schedules(&view);
    let (many, others): (Vec<_>, Vec<_>) = schedules
        .terminals
        .iter()
        .partition(|item| is_board(item.kind));
    let main = html! {
        @if schedules.terminals.is_empty() { (nothing_yet(&view)) } @else {
            (take_along("terminals"))
            @if !many.is_empty() { h2 { "Bars, blocks and panels" } (cards(&schedules, &many)) }
            @if !others.is_empty() { h2 { "Other gear" } (cards(&schedules, &others)) }
        }
    };
    view.page(framed(
        "/lists/terminals",
        "Terminals",
        "Which wire goes on which stud or screw.",
        &html! {
            div #list data-region { (main) }
        },
    ))
}

fn is_board(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::BusBar | Kind::FuseBlock | Kind::SwitchBank | Kind::Splice
    )
}

fn cards(schedules: &Schedules, items: &[&TerminalSchedule]) -> Markup {
    html! { div.boards { @for item in items { (card(schedules, item)) } } }
}

fn card(schedules: &Schedules, item: &TerminalSchedule) -> Markup {
    let id = item.item.as_str();
    html! {
        section.board aria-labelledby={ "board-" (id) } {
            h3 id={ "board-" (id) } { a href={ "/wiring?select=item." (encoded(id)) "#panel" } { (item.label) } }
            table.terminals {
                thead.unseen { tr { th scope="col" { "Terminal" } th scope="col" { "Wires" } } }
                tbody {
                    @for terminal in &item.terminals {
                        tr {
                            th scope="row" { (terminal.terminal) }
                            td {
                                @if terminal.wires.is_empty() { span.basis { "free" } }
                                @for wire in &terminal.wires { (line(schedules, item, &terminal.terminal, wire)) }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn line(schedules: &Schedules, item: &TerminalSchedule, terminal: &str, id: &Id) -> Markup {
    let found = schedules.wires.iter().find(|wire| wire.wire == *id);
    html! {
        div {
            @match found {
                Some(wire) => {
                    b { (wire.label.text) } " "
                    @if let Some(size) = &wire.size { (size.value) " " }
                    span.basis { "to " (other(wire, item, terminal)) }
                },
                None => (id),
            }
        }
    }
}

fn other(wire: &WireEntry, item: &TerminalSchedule, terminal: &str) -> String {
    let here = wire.from.item == item.item && wire.from.terminal == terminal;
    let end = if here { &wire.to } else { &wire.from };
    format!("{} {}", end.item_label, end.terminal)
}
