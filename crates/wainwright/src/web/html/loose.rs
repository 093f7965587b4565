//! Terminals that nothing is joined to yet, each with the way to a wire for
//! it. Not here: which terminals must be joined (the analysis).

use super::encoded;
use super::finding::label;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::Loose;
use wainwright_model::{Id, Kind};

/// Most free terminals of one piece of gear that are offered.
const MOST_OFFERED: usize = 4;

/// Loose terminals whose gear cannot work without them.
pub fn needed(view: &View) -> Vec<&Loose> {
    let loose = view.study().assessment.loose.iter();
    loose.filter(|loose| loose.needed).collect()
}

/// Every needed terminal that is loose, but not those of `except`.
pub fn loose_ends(view: &View, except: Option<&str>) -> Markup {
    let ends: Vec<&Loose> = needed(view)
        .into_iter()
        .filter(|loose| Some(loose.item.as_str()) != except)
        .collect();
    html! {
        @if !ends.is_empty() {
            div.loose {
                p { b { "Nothing is joined to these yet:" } }
                ul.plain.ends { @for loose in ends { li { (end(view, loose, true)) } } }
            }
        }
    }
}

/// Free terminals of one piece of gear, each with a button to join a wire.
pub fn of_item(view: &View, id: &str) -> Markup {
    let own = |loose: &&Loose| loose.item == *id;
    let mut free: Vec<&Loose> = view.study().assessment.loose.iter().filter(own).collect();
    free.sort_by_key(|loose| !loose.needed);
    html! {
        @if !free.is_empty() {
            div.loose {
                p { b { "Join it with a wire:" } }
                ul.plain.ends { @for loose in free.into_iter().take(MOST_OFFERED) { li { (end(view, loose, false)) } } }
            }
        }
    }
}

fn end(view: &View, loose: &Loose, named: bool) -> Markup {
    let terminal = terminal_words(view, loose.item.as_str(), &loose.terminal);
    html! {
        a.button.primary[loose.needed && !named] href=(join_address(&loose.item, &loose.terminal)) {
            @if named { (label(view, "item", loose.item.as_str())) ", " }
            (terminal)
        }
    }
}

/// The form for a wire that starts there.
pub fn join_address(item: &Id, terminal: &str) -> String {
    format!("/add/wire?from={item}.{}", encoded(terminal))
}

/// A terminal as people say it: "plus (+)", "way 3", "stud 2".
pub fn terminal_words(view: &View, item: &str, terminal: &str) -> String {
    let kind = view
        .study()
        .project
        .items
        .get(item)
        .map(|item| item.spec.kind());
    let numbered = terminal.parse::<u32>().is_ok();
    match (terminal, kind) {
        ("+", _) => "plus (+)".into(),
        ("-", _) => "minus (−)".into(),
        (way, Some(Kind::FuseBlock)) if numbered => format!("way {way}"),
        (stud, Some(Kind::BusBar)) if numbered => format!("stud {stud}"),
        (end, Some(Kind::Splice)) if numbered => format!("wire {end}"),
        ("pv+", _) => "modules plus (pv+)".into(),
        ("pv-", _) => "modules minus (pv−)".into(),
        (other, _) => other.to_owned(),
    }
}
