//! Everything in tables: wires, gear, fuses, states and parts, to be found,
//! sorted and changed. Not here: the forms.

mod gear;
mod others;
mod protection;
mod table;
mod wires;

use crate::views::state::{find_state, state_id, state_label};
use crate::web::html::shell::{Page, Tab};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use table::Table;

/// What is listed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Show {
    Wires,
    Gear,
    Protection,
    Others,
}

const SHOWS: [(Show, &str, &str); 4] = [
    (Show::Wires, "wires", "Wires"),
    (Show::Gear, "gear", "Gear"),
    (Show::Protection, "protection", "Fuses and breakers"),
    (Show::Others, "others", "Trailer, situations, parts"),
];

/// The page.
pub async fn page(view: View) -> Response {
    let wanted = view.query.get("show");
    let show = SHOWS
        .iter()
        .find(|(_, id, _)| Some(*id) == wanted)
        .map_or(Show::Wires, |(show, ..)| *show);
    let state = find_state(&view.study().assessment, view.query.get("state"))
        .or_else(|| find_state(&view.study().assessment, None));
    view.page(Page {
        tab: Some(Tab::Circuits),
        title: "Circuits".into(),
        lede: "Everything that is typed, in tables: find it, change it, add to it.",
        main: html! {
            nav.shows aria-label="Tables" {
                ul {
                    @for (other, id, words) in SHOWS {
                        li { a href={ "/circuits?show=" (id) } aria-current=[(other == show).then_some("true")] { (words) } }
                    }
                }
            }
            p.row {
                a.button.primary href="/add/item" { "Add gear" }
                a.button href="/add/wire" { "Add a wire" }
            }
            div #table data-region {
                @match show {
                    Show::Others => (others::lists(&view)),
                    Show::Wires => (listed(&view, state, &wires::table(&view, state))),
                    Show::Gear => (listed(&view, state, &gear::table(&view, state))),
                    Show::Protection => (listed(&view, state, &protection::table(&view, state))),
                }
            }
        },
    })
}

fn listed(view: &View, state: Option<usize>, table: &Table) -> Markup {
    html! {
        @if table.rows.is_empty() {
            section.next.beginning {
                h2 { (table.none) }
                p { (table.begin) }
                p.row { a.button.primary href=(table.add) { (table.add_words) } }
            }
        } @else {
            (filter(view, state, table))
            (table::draw(view, table))
        }
    }
}

/// Search and situation; both work without the script as well.
fn filter(view: &View, state: Option<usize>, table: &Table) -> Markup {
    let states = &view.study().assessment.states;
    html! {
        form.controls method="get" action="/circuits" data-live data-auto role="search" {
            @for name in ["show", "sort", "down"] {
                @if let Some(value) = view.query.get(name) { input type="hidden" name=(name) value=(value); }
            }
            div.field {
                label for="find" { "Find" }
                input #find type="search" name="find" value=(view.query.get("find").unwrap_or("")) placeholder=(table.find) autocomplete="off";
            }
            @if !states.is_empty() {
                div.field {
                    label for="state" { "Situation" }
                    select #state name="state" {
                        @for (index, other) in states.iter().enumerate() {
                            option value=(state_id(&other.kind)) selected[state == Some(index)] { (state_label(other)) }
                        }
                    }
                }
            }
            button.show { "Show" }
        }
    }
}
