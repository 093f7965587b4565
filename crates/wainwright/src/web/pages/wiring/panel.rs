//! What is selected, beside the drawing. Not here: numbers of wires and gear
//! (one file each).

use super::{Asked, Selected, gear, wire};
use crate::views::working::WorkingView;
use crate::web::form;
use crate::web::html::finding::{self, label};
use crate::web::html::fix::first_fix;
use crate::web::html::working::working;
use crate::web::html::{care, loose};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::Ask;
use wainwright_rules::{Finding, Severity, Subject};

/// Lists up to this length are open from the start.
const FEW: usize = 12;

/// The panel: beside the drawing while something is selected, else below it.
pub fn panel(view: &View, asked: &Asked) -> Markup {
    html! {
        aside.panel.{ @if asked.selected.is_some() { "chosen" } @else { "idle" } } #panel tabindex="-1" data-region aria-label="What is selected" {
            @if asked.selected.is_some() {
                a.close.button href=(address_of(view, None)) data-live aria-label="Close this panel" { "Close" }
            }
            @match &asked.selected {
                Some(Selected::Wire(id)) => (of_wire(view, asked, id)),
                Some(Selected::Item(id)) => (of_item(view, asked, id)),
                None => (nothing(view)),
            }
        }
    }
}

fn nothing(view: &View) -> Markup {
    let project = &view.study().project;
    html! {
        h2 { "All gear and wires" }
        p.row {
            a.button href="/add/item" { "Add gear" }
            a.button href="/add/wire" { "Add a wire" }
        }
        details #all-gear open[project.items.len() <= FEW] {
            summary { "Gear (" (project.items.len()) ")" }
            ul.plain.pick { @for id in project.items.ids() { li { (link(view, "item", id.as_str())) } } }
        }
        details #all-wires open[project.wires.len() <= FEW] {
            summary { "Wires (" (project.wires.len()) ")" }
            ul.plain.pick { @for id in project.wires.ids() { li { (link(view, "wire", id.as_str())) } } }
        }
    }
}

/// A link that selects something and leaves everything else as it is.
pub fn link(view: &View, element: &str, id: &str) -> Markup {
    link_as(view, element, id, &label(view, element, id))
}

/// The same under other words.
pub fn link_as(view: &View, element: &str, id: &str, words: &str) -> Markup {
    let key = format!("{element}.{id}");
    html! { a href=(address_of(view, Some(&key))) data-select=(key) { (words) } }
}

/// The address that selects something, or nothing, and leaves everything else
/// as it is.
fn address_of(view: &View, key: Option<&str>) -> String {
    let kept = view
        .query
        .0
        .iter()
        .filter(|(name, _)| !matches!(name.as_str(), "select" | "new"));
    let kept = kept.map(|(name, value)| {
        format!(
            "&{}={}",
            crate::web::html::encoded(name),
            crate::web::html::encoded(value)
        )
    });
    let kept: String = kept.collect();
    match key {
        Some(key) => format!("/wiring?select={key}{kept}#panel"),
        None => format!("/wiring?{}", kept.trim_start_matches('&')),
    }
}

/// What comes after something was added.
fn added(view: &View, element: &str, id: &str) -> Markup {
    let item = (element == "item").then_some(id);
    html! {
        @if view.query.has("new") {
            div.added role="status" {
                p { strong { "Added." } " What is next?" }
                @if let Some(id) = item { (loose::of_item(view, id)) }
                (loose::loose_ends(view, item))
                p.row {
                    a.button href="/add/item" { "Add more gear" }
                    a.button href="/add/wire" { "Add a wire" }
                    a.button href="/" { "See how it stands" }
                }
            }
        }
    }
}

fn of_wire(view: &View, asked: &Asked, id: &str) -> Markup {
    let Some(found) = asked.assessment.wire(id) else {
        return gone(view, "wire", id);
    };
    html! {
        h2 #selected data-wire=(id) { "Wire " (found.label) }
        (added(view, "wire", id))
        (wire::numbers(view, asked, found))
        (findings(view, |subject| matches!(subject, Subject::Wire(other) if other == &found.id)))
        (wire::guards(view, asked, found))
        (super::way::of_wire(view, asked, found))
        (super::short::of_wire(view, asked, found))
        (wire::workings(asked, found))
        (edit(view, "wire", id))
    }
}

fn of_item(view: &View, asked: &Asked, id: &str) -> Markup {
    let Some(item) = view.study().project.items.get(id) else {
        return gone(view, "item", id);
    };
    let here = |subject: &Subject| match subject {
        Subject::Item(other) | Subject::Terminal(other, _) | Subject::Way(other, _) => {
            *other == *id
        }
        _ => false,
    };
    html! {
        h2 #selected data-item=(id) { (label(view, "item", id)) }
        (added(view, "item", id))
        (gear::numbers(view, asked, id, item))
        (findings(view, here))
        (gear::wires(view, asked, id))
        (gear::way_to(view, asked, id))
        (super::short::of_item(view, asked, id))
        (gear::workings(asked, id))
        (edit(view, "item", id))
    }
}

/// In the file, but not in the study, or in neither.
fn gone(view: &View, element: &str, id: &str) -> Markup {
    let there = match element {
        "wire" => view.study().project.wires.contains(id),
        _ => view.study().project.items.contains(id),
    };
    html! {
        @if there {
            h2 #selected { (label(view, element, id)) }
            (added(view, element, id))
            p { "It is in the file, but something it needs is missing, so it is left out of the study." }
            (edit(view, element, id))
        } @else {
            h2 #selected { "No longer there" }
            p { "What was selected was renamed or deleted." }
            (nothing(view))
        }
    }
}

fn findings(view: &View, is_here: impl Fn(&Subject) -> bool) -> Markup {
    let about = |finding: &&Finding| finding.subjects.iter().any(&is_here);
    let found: Vec<&Finding> = view.study().findings.iter().filter(about).collect();
    html! {
        section {
            h3 { "Findings" }
            @if found.is_empty() {
                p.good { "Nothing is wrong with it." }
            } @else {
                ul.plain { @for found in &found { (finding::line(found)) } }
                (worst_fix(view, found.first().copied()))
            }
        }
    }
}

/// What mends the worst of them, to be applied here.
fn worst_fix(view: &View, finding: Option<&Finding>) -> Markup {
    html! {
        @if let Some(finding) = finding.filter(|finding| finding.severity <= Severity::Warning) {
            (first_fix(view, &finding.key(), finding))
            (care())
        }
    }
}

fn edit(view: &View, element: &str, id: &str) -> Markup {
    html! {
        details #edit-here {
            summary { "Change it" }
            (form::inline(view, element, id))
        }
    }
}

/// Workings of several numbers, each folded away under its name.
pub fn workings(asked: &Asked, asks: &[(&str, Ask)]) -> Markup {
    let found = asks.iter().filter_map(|(name, ask)| {
        let found = wainwright_analysis::working(&asked.project, &asked.assessment, ask)?;
        Some((*name, WorkingView::of(&found)))
    });
    html! {
        section {
            h3 { "How the numbers came about" }
            @for (name, found) in found {
                details id={ "working-" (crate::web::html::slug(name)) } {
                    summary { (name) }
                    (working(&found))
                }
            }
        }
    }
}
