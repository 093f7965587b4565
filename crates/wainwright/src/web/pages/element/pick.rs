//! Choosing what to add: a kind of gear, or a part of the library. Not here:
//! the form that follows.

use crate::web::html::encoded;
use crate::web::html::shell::{Page, Tab};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_model::schema::ElementSpec;
use wainwright_model::{KINDS, Kind, KindSpec, Part, Table};

/// The page.
pub fn page(view: &View, element: &'static ElementSpec) -> Response {
    let title = if element.name == "part" {
        "New part"
    } else {
        "New gear"
    };
    view.page(Page {
        tab: Some(Tab::Circuits),
        title: title.into(),
        lede: "What is it? A part of the library brings usual figures along; otherwise type those of the name plate.",
        main: html! {
            div.kinds {
                @for kind in in_order() { (one(view, element, kind)) }
            }
        },
    })
}

/// What every trailer begins with.
const FIRST: [Kind; 5] = [
    Kind::Battery,
    Kind::Fuse,
    Kind::FuseBlock,
    Kind::BusBar,
    Kind::Load,
];

fn in_order() -> Vec<&'static KindSpec> {
    let mut all: Vec<&KindSpec> = KINDS.iter().collect();
    let place = |kind| FIRST.iter().position(|first| *first == kind);
    all.sort_by_key(|spec| place(spec.kind).unwrap_or(FIRST.len()));
    all
}

fn one(view: &View, element: &ElementSpec, kind: &KindSpec) -> Markup {
    let library = listed(wainwright_analysis::catalogue().parts(), kind.kind);
    let own = listed(&view.study().project.parts, kind.kind);
    // Where the person came from is kept on the way.
    let back = view.query.get("back");
    let back = back.map_or_else(String::new, |place| format!("&back={}", encoded(place)));
    html! {
        section.kind data-kind=(kind.name) {
            h2 { a href={ "/add/" (element.name) "?kind=" (kind.name) (back) } { (words(kind.kind)) } }
            p { (kind.doc) }
            @if element.name == "item" && !(library.is_empty() && own.is_empty()) {
                details id={ "parts-" (kind.name) } {
                    summary { "From the library (" (library.len() + own.len()) ")" span.unseen { ": " (words(kind.kind)) } }
                    ul.plain {
                        @for (id, label) in own.iter().chain(&library) {
                            li { a href={ "/add/item?part=" (encoded(id)) (back) } { (label) } }
                        }
                    }
                }
            }
        }
    }
}

/// A kind as people say it.
pub fn words(kind: Kind) -> String {
    let name = kind.as_str().replace('-', " ").replace("dcdc", "DC-DC");
    let mut letters = name.chars();
    let first = letters
        .next()
        .map(|c| c.to_uppercase().to_string())
        .unwrap_or_default();
    format!("{first}{}", letters.as_str())
}

fn listed(parts: &Table<Part>, kind: Kind) -> Vec<(String, String)> {
    let fitting = parts.iter().filter(|(_, part)| part.spec.kind() == kind);
    fitting
        .map(|(id, part)| {
            let label = part
                .label
                .as_ref()
                .map_or_else(|| id.to_string(), |l| l.value.clone());
            (id.to_string(), label)
        })
        .collect()
}
