//! The single-line overview: sources, main protection, bus, circuits. Not
//! here: drawing it, and the whole schematic (`wiring`).

use crate::web::act::blocking;
use crate::web::html::encoded;
use crate::web::html::shell::{Page, Tab};
use crate::web::html::within::{WIRING, sheets};
use crate::web::single_line;
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, PreEscaped, html};
use wainwright_drawing::single_line::SingleLine;

/// Width of the drawing on a wide screen and on a narrow one [px].
const WIDE: f64 = 760.0;
const NARROW: f64 = 350.0;

/// The page.
pub async fn page(view: View) -> Response {
    let line = blocking(|| single_line::of(view.study(), view.units()));
    view.page(Page {
        tab: Some(Tab::Wiring),
        title: "Single line".into(),
        lede: "From the sources at the top to what they feed; each line stands for plus and minus.",
        main: html! {
            (sheets(&WIRING, "/wiring/line"))
            div #single-line data-region {
                @match line {
                    Some(line) => (whole(&view, &line)),
                    None => (nothing_yet(&view)),
                }
            }
            script src="/assets/routes.js" defer {}
        },
    })
}

fn whole(view: &View, line: &SingleLine) -> Markup {
    let items = single_line::items(view.study(), line);
    html! {
        (both(line, "l"))
        p.row { a.button href="/print/routes" { "Print it, with the routes" } }
        details #line-items {
            summary { "All gear on it (" (items.len()) ")" }
            ul.plain.columns {
                @for (id, name) in &items {
                    li { a href={ "/wiring?select=item." (encoded(id)) "#panel" } data-key={ "item." (id) } { (name) } }
                }
            }
        }
    }
}

/// The drawing for wide screens and for narrow ones.
pub fn both(line: &SingleLine, prefix: &str) -> Markup {
    let title = "Single-line overview of the wiring";
    html! {
        div.line-drawing {
            div.for-wide { (PreEscaped(single_line::drawn(line, WIDE, &format!("{prefix}w-"), title))) }
            div.for-narrow { (PreEscaped(single_line::drawn(line, NARROW, &format!("{prefix}n-"), title))) }
        }
    }
}

/// The first step, where there is nothing to draw.
pub fn nothing_yet(view: &View) -> Markup {
    let gear = !view.study().project.items.is_empty();
    html! {
        section.next.beginning #next-step {
            h2 { "There is no wiring to show yet" }
            @if gear {
                p { "Your gear is there. Have its wiring planned, or draw the first wire yourself." }
                p.row {
                    a.button.primary href="/wiring/plan" { "Plan the wiring" }
                    a.button href="/add/wire" { "Add a wire" }
                }
            } @else {
                p { "Say what is to be in the trailer: the battery first, then what charges it and what it feeds. The wiring can then be planned for you." }
                p.row {
                    a.button.primary href="/add/item?kind=battery" { "Add the battery" }
                    a.button href="/add/item" { "Add something else" }
                }
            }
        }
    }
}
