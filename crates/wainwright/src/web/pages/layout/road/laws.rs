//! Brake laws: which of them the trailer crosses. Not here: the laws (a table
//! with dates).

use crate::web::pages::layout::road_of;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::road::BrakeCheck;
use wainwright_reference::brake_law::CHECK_LOCAL_LAW;

/// The laws of the place, those that ask for brakes first.
pub fn brakes(view: &View) -> Markup {
    let road = road_of(view);
    let (asked, others): (Vec<&BrakeCheck>, Vec<_>) = road.brakes.iter().partition(|law| asks(law));
    let has = road.trailer.brakes.as_ref().map(|known| known.value);
    html! {
        @if !road.brakes.is_empty() {
            section #brakes aria-labelledby="brakes-heading" {
                h2 #brakes-heading { "Brakes, by law" }
                p {
                    @match has {
                        Some(true) => "This trailer has brakes of its own. ",
                        Some(false) => "This trailer has no brakes of its own. ",
                        None => "Whether it has brakes of its own is not typed. ",
                    }
                    b { (CHECK_LOCAL_LAW) }
                }
                @if asked.is_empty() {
                    p { "None of the " (others.len()) " laws in the table asks for brakes at this mass." }
                } @else {
                    h3 { "These ask for brakes" }
                    ul.plain.laws { @for law in &asked { li { (one(law)) } } }
                }
                @if !others.is_empty() {
                    details #other-laws {
                        summary { "Not asked by " (others.len()) " others" }
                        ul.plain.laws { @for law in &others { li { (one(law)) } } }
                    }
                }
            }
        }
    }
}

fn asks(law: &BrakeCheck) -> bool {
    law.by_rating == Some(true) || law.by_load == Some(true)
}

fn one(check: &BrakeCheck) -> Markup {
    let law = &check.law;
    html! {
        b { (law.place) } ": " (law.applies_to) " "
        @if law.from { "from " } @else { "above " } (law.gross_text) ". "
        @if !law.more.is_empty() { (law.more) " " }
        span.basis { (law.law) ", as of " (law.as_of) " (" (check.source.mark.id()) ")" }
    }
}
