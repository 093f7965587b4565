//! What is no wire and no gear: the trailer, the limits, situations, own
//! parts. Not here: computed values.

use crate::views::state::{state_id, state_label};
use crate::web::html::encoded;
use crate::web::html::fix::value_words;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::StateKind;
use wainwright_model::schema::{ELEMENTS, ElementSpec};
use wainwright_model::{path, typed};

/// All of it.
pub fn lists(view: &View) -> Markup {
    html! {
        @for element in ELEMENTS.iter().filter(|element| !element.keyed) { (single(view, element)) }
        (states(view))
        (parts(view))
    }
}

fn single(view: &View, element: &ElementSpec) -> Markup {
    let said = typed(&view.study().text, &path([element.name]));
    html! {
        section id=(element.name) {
            h2 { (title(element.name)) }
            p { (element.doc) }
            @if !said.is_empty() {
                dl.numbers {
                    @for (name, value) in &said {
                        div { dt { (name.replace('_', " ")) } dd { (value_words(value)) } }
                    }
                }
            }
            p.row { a.button href={ "/edit/" (element.name) } { "Change" span.unseen { " " (element.name) } } }
        }
    }
}

fn title(name: &str) -> &'static str {
    match name {
        "project" => "Project",
        "trailer" => "Trailer",
        _ => "Limits",
    }
}

fn states(view: &View) -> Markup {
    let assessment = &view.study().assessment;
    html! {
        section #states {
            h2 { "Situations" }
            p { "The wiring is computed for all of these; those without buttons are always computed." }
            ul.plain.rows {
                @for state in &assessment.states {
                    li data-row={ "state." (state_id(&state.kind)) } {
                        a href={ "/wiring?state=" (encoded(&state_id(&state.kind))) } { b { (state_label(state)) } }
                        @if let StateKind::Named(id) = &state.kind { (actions("state", id.as_str(), &state_label(state))) }
                    }
                }
            }
            p.row { a.button href="/add/state" { "Add a situation" } }
        }
    }
}

fn parts(view: &View) -> Markup {
    let project = &view.study().project;
    html! {
        section #parts {
            h2 { "Parts of this project" }
            p { "A part is typed once and used by several pieces of gear. The library has generic parts besides." }
            @if !project.parts.is_empty() {
                ul.plain.rows {
                    @for (id, part) in &project.parts {
                        @let name = part.label.as_ref().map_or(id.as_str(), |label| label.value.as_str());
                        li data-row={ "part." (id) } { b { (name) } " " span.basis { (part.spec.kind().as_str()) } (actions("part", id.as_str(), name)) }
                    }
                }
            }
            p.row { a.button href="/add/part" { "Add a part" } }
        }
    }
}

fn actions(element: &str, id: &str, label: &str) -> Markup {
    super::table::actions(element, id, label).shown
}
