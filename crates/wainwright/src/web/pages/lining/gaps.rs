//! What the layout of a layer could not give, in words with what to do. Not here: finding it (the lining study).

use super::{Asked, words};
use crate::web::html::{count, encoded};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::lining::Shortfall;

/// Of one kind so many are named before the rest becomes a number.
const FEW: usize = 4;

/// All shortfalls, those of a kind together.
pub fn gaps(view: &View, asked: &Asked<'_>) -> Markup {
    let all = &asked.layer.shortfalls;
    let groups: Vec<Vec<&Shortfall>> = (0..KINDS)
        .map(|kind| all.iter().filter(|one| kind_of(one) == kind).collect())
        .collect();
    html! {
        @if !all.is_empty() {
            section.shortfalls #shortfalls aria-labelledby="shortfalls-heading" {
                h3 #shortfalls-heading { "What it lacks" }
                ul.plain {
                    @for group in groups.iter().filter(|group| !group.is_empty()) { (entry(view, asked, group)) }
                }
            }
        }
    }
}

const KINDS: usize = 6;

fn kind_of(one: &Shortfall) -> usize {
    match one {
        Shortfall::TooLong { .. } => 0,
        Shortfall::Unsupported { .. } => 1,
        Shortfall::NeedsRips { .. } => 2,
        Shortfall::NeedsNotches { .. } => 3,
        Shortfall::Stagger { .. } => 4,
        Shortfall::LeftOut(_) => 5,
    }
}

fn entry(view: &View, asked: &Asked<'_>, group: &[&Shortfall]) -> Markup {
    let named: Vec<String> = group
        .iter()
        .take(FEW)
        .map(|one| words::shortfall(view, one))
        .collect();
    let more = group.len().saturating_sub(FEW);
    let (help, field) = group.first().map_or(("", ""), |one| help(one));
    let layer = format!("/edit/layer/{}", encoded(asked.layer.layer.as_str()));
    let (place, word) = match field {
        "can_rip" => ("/edit/tools".to_owned(), "Change the tools"),
        _ => (layer, "Change the layer"),
    };
    let back = encoded(&asked.address(None));
    html! {
        li {
            @for one in &named { p { (one) } }
            @if more > 0 { p.hint { "and " (count(more, "more like that", "more like these")) } }
            p.hint { (help) " " a href=(format!("{place}?back={back}#field-{field}")) { (word) } }
        }
    }
}

/// What to do, and the field where it is done.
fn help(one: &Shortfall) -> (&'static str, &'static str) {
    match one {
        Shortfall::TooLong { .. } => (
            "Put a batten there, allow longer pieces, or say where longer boards are on sale.",
            "longest",
        ),
        Shortfall::Stagger { .. } => (
            "Ask for less stagger, or put a batten between the ribs.",
            "stagger",
        ),
        Shortfall::Unsupported { .. } => (
            "Put a batten behind it, or take sheets of another size.",
            "length",
        ),
        Shortfall::NeedsRips { .. } => (
            "Have them ripped in the shop, borrow a saw that rips, or choose boards of another width.",
            "can_rip",
        ),
        Shortfall::NeedsNotches { .. } => (
            "A jigsaw or a hand saw and a chisel will do for these.",
            "can_rip",
        ),
        Shortfall::LeftOut(_) => (
            "Cover it with a strip, or allow narrower pieces.",
            "narrowest",
        ),
    }
}
