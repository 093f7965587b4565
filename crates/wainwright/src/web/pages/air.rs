//! Air and damp: warm enough, cool enough, dry, air to sleep in. Not here: reckoning it (the study of the box as a
//! room), the face of a cabinet (`cabinet`).

mod begin;
mod breath;
mod damp;
mod heat;
mod rests;
mod verdicts;
mod wall;
pub mod words;

pub use rests::stand_ins;

use crate::web::act::blocking;
use crate::web::html::shell::{Page, Tab};
use crate::web::html::within::{LINING, sheets};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::indoors::study;
use wainwright_analysis::result::indoors::{IndoorsResult, SideHeat};
use wainwright_model::Side;

/// The page.
const HERE: &str = "/lining/air";

/// A page of this place with its row of sheets.
pub fn framed(here: &'static str, title: &str, lede: &'static str, main: &Markup) -> Page {
    Page {
        tab: Some(Tab::Lining),
        title: title.into(),
        lede,
        main: html! {
            (sheets(&LINING, here))
            (main)
            script src="/assets/routes.js" defer {}
        },
    }
}

/// The side an address asks for, or the one that is wettest or loses most.
fn chosen<'a>(view: &View, found: &'a IndoorsResult) -> Option<&'a SideHeat> {
    let asked = view.query.get("side").and_then(Side::parse);
    asked
        .and_then(|side| found.side(side))
        .or_else(|| verdicts::worst_side(found).and_then(|side| found.side(side)))
        .or_else(|| found.sides.iter().find(|side| side.described))
        .or_else(|| found.sides.first())
}

/// The page.
pub async fn page(view: View) -> Response {
    let found = blocking(|| study(&view.study().project));
    let main = if found.begun {
        whole(&view, &found)
    } else {
        begin::beginning(&view)
    };
    view.page(framed(
        HERE,
        "Air and damp",
        "Warm, cool, dry and with air enough: what the lined box is like to live in.",
        &html! { div #air-page data-region { (main) } },
    ))
}

fn whole(view: &View, found: &IndoorsResult) -> Markup {
    html! {
        (verdicts::verdicts(view, found))
        @if let Some(side) = chosen(view, found) {
            (picker(found, side.side))
            (wall::wall(view, found, side))
            (damp::damp(view, found, side))
        }
        (heat::leaving(view, found))
        (breath::breath(view, found))
        (heat::sunny(view, found))
        (rests::cautions(view, found))
        (rests::rests(view, found))
    }
}

/// Sides to choose from.
fn picker(found: &IndoorsResult, here: Side) -> Markup {
    html! {
        div.sides.looks role="group" aria-label="Side" {
            @for side in &found.sides {
                a.button href=(format!("{HERE}?side={}", side.side.as_str())) data-live
                    aria-current=[(side.side == here).then_some("true")] { (words::side(side.side)) }
            }
        }
    }
}
