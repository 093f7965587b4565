//! Words of warning, and what the figures rest on. Not here: the figures.

use super::HERE;
use super::words;
use crate::views::basis::BasisView;
use crate::web::html::count;
use crate::web::html::finding::{place_address, place_words};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::AssumedValue;
use wainwright_analysis::result::indoors::{Caution, CautionKind, IndoorsResult};

/// Where a value can be typed, and back to a page afterwards.
pub fn type_it(path: &[String], back: &str) -> String {
    let address = place_address(path);
    match address.split_once('#') {
        Some((page, field)) => format!("{page}?back={back}#{field}"),
        None => format!("{address}?back={back}"),
    }
}

/// One line each.
pub fn cautions(view: &View, found: &IndoorsResult) -> Markup {
    html! {
        @if !found.cautions.is_empty() {
            section #cautions aria-labelledby="cautions-heading" {
                h2 #cautions-heading { "Fire, fumes and the way out" }
                ul.plain.damp-helps { @for caution in &found.cautions { li { (sentence(caution)) @if !caution.items.is_empty() { " " span.hint { (names(view, caution)) } } } } }
                p.hint { "Codes differ from place to place: ask what holds where it is registered and where you park." }
            }
        }
    }
}

fn names(view: &View, caution: &Caution) -> String {
    let all: Vec<String> = caution
        .items
        .iter()
        .map(|id| words::item(view, id))
        .collect();
    format!("{}.", all.join(", "))
}

fn sentence(caution: &Caution) -> &'static str {
    match caution.kind {
        CautionKind::NoAlarm => {
            "Something aboard burns fuel or gas, and no alarm for carbon monoxide is listed. Fit one before you sleep in it."
        }
        CautionKind::Burning => {
            "What burns fuel or gas needs its own air and a way out for its fumes, by its maker's plate."
        }
        CautionKind::FanAndFire => {
            "A fan that draws air out can draw fumes back in while something burns: open a window with it."
        }
        CautionKind::OneWayOut => {
            "People sleep aboard, and no second way out is listed. A window or hatch to climb out of is one."
        }
        CautionKind::FewOpenings => {
            "Openings that are always open are smaller than published guidance says."
        }
    }
}

/// What is missing, stands in, was refused.
pub fn rests(view: &View, found: &IndoorsResult) -> Markup {
    html! {
        section #rests aria-label="What this rests on" {
            @if !found.missing.is_empty() {
                details.how #left-out open {
                    summary { (count(found.missing.len(), "value", "values")) " would tell more" }
                    ul.plain { @for missing in &found.missing { li {
                        a href=(type_it(&missing.path, HERE)) { (place_words(view, &missing.path)) } " "
                        span.basis { "wants " (missing.wanted) }
                    } } }
                }
            }
            (stand_ins(view, &found.assumptions, HERE))
            @for refused in &found.refused { p.callout { (refused) } }
        }
    }
}

/// Stand-ins, each with the place where the value can be typed.
pub fn stand_ins(view: &View, all: &[AssumedValue], back: &str) -> Markup {
    html! {
        @if !all.is_empty() {
            details.how #stand-ins {
                summary { (count(all.len(), "stand-in", "stand-ins")) " in these figures" }
                ul.plain { @for assumed in all { li {
                    a href=(type_it(&assumed.path, back)) { (place_words(view, &assumed.path)) } " "
                    b { (assumed.value) } " " span.basis { (BasisView::of(&assumed.basis).words()) }
                } } }
            }
        }
    }
}
