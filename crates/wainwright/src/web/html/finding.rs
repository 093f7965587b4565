//! One finding with its figures. Not here: its fixes (`fix`), and the words
//! of findings, which come from the rules.

use super::bar::share_bar;
use super::fix::fixes;
use super::sign::{class, sign};
use super::{encoded, slug};
use crate::views::basis::{BasisView, SourceView};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_rules::{Amount, Finding, Subject};

/// One finding, complete, as part of a list.
pub fn card(view: &View, finding: &Finding) -> Markup {
    let key = finding.key();
    html! {
        article.finding.{(class(finding.severity))} id={ "finding-" (slug(&key)) } data-finding=(key) {
            h3 { (sign(finding.severity)) " " span.headline { (finding.headline) } }
            (figures(finding))
            (more(view, finding))
            (fixes(view, &key, finding))
            (links(finding, &key))
        }
    }
}

/// One finding in a line, for a panel.
pub fn line(finding: &Finding) -> Markup {
    let key = finding.key();
    html! {
        li.finding-line data-finding=(key) {
            (sign(finding.severity)) " "
            a href={ "/finding?key=" (encoded(&key)) } { (finding.headline) }
        }
    }
}

/// Value, limit and what is left of it.
pub fn figures(finding: &Finding) -> Markup {
    let share = finding.margin.map(|margin| 1.0 - margin.fraction());
    html! {
        @if finding.value.is_some() || finding.limit.is_some() {
            div.figures {
                @if let Some(share) = share {
                    (share_bar(share, &format!("{:.0} % of the limit", share * 100.0)))
                }
                p {
                    @if let Some(value) = &finding.value {
                        span.figure { "Found " b { (symbol(value.symbol)) " " (value.text) } }
                    }
                    @if let Some(limit) = &finding.limit {
                        " " span.figure { "Limit " b { (symbol(limit.symbol)) " " (limit.text) } " " (origin(limit)) }
                    }
                }
            }
        }
    }
}

/// A symbol with what follows `_` set lower.
pub fn symbol(symbol: &str) -> Markup {
    let (letter, index) = symbol.split_once('_').unwrap_or((symbol, ""));
    html! {
        i.symbol { (letter) @if !index.is_empty() { sub { (index) } } }
    }
}

fn origin(amount: &Amount) -> Markup {
    let words = match amount.source {
        Some(source) => SourceView::of(source).words(),
        None => BasisView::of(&amount.basis).words(),
    };
    html! { span.basis { "(" (words) ")" } }
}

/// Sentences and stand-ins behind a finding, folded away.
fn more(view: &View, finding: &Finding) -> Markup {
    html! {
        @if !finding.detail.is_empty() || !finding.assumptions.is_empty() {
            details id={ "more-" (slug(&finding.key())) } {
                summary { "More about this" }
                @for sentence in &finding.detail { p { (sentence) } }
                @if !finding.assumptions.is_empty() {
                    p { "Rests on stand-ins; type the real value to be sure:" }
                    ul { @for path in &finding.assumptions { li { (place(view, path)) } } }
                }
            }
        }
    }
}

/// A path of the project as a link to the form where it can be typed.
pub fn place(view: &View, path: &[String]) -> Markup {
    html! { a href=(place_address(path)) { (place_words(view, path)) } }
}

/// Where the value at a path can be typed.
pub fn place_address(path: &[String]) -> String {
    let names: Vec<&str> = path.iter().map(String::as_str).collect();
    match names.as_slice() {
        [
            element @ ("wire" | "item" | "state" | "part"),
            id,
            field,
            ..,
        ] => {
            format!("/edit/{element}/{}#field-{}", encoded(id), slug(field))
        }
        [element @ ("wire" | "item" | "state" | "part"), id] => {
            format!("/edit/{element}/{}", encoded(id))
        }
        [element @ ("project" | "trailer" | "limits"), field] => {
            format!("/edit/{element}#field-{}", slug(field))
        }
        _ => "/file".into(),
    }
}

/// "Fridge: resistance".
pub fn place_words(view: &View, path: &[String]) -> String {
    let names: Vec<&str> = path.iter().map(String::as_str).collect();
    let spaced = |name: &str| name.replace('_', " ");
    match names.as_slice() {
        [element @ ("wire" | "item"), id, field, ..] => {
            format!("{}: {}", label(view, element, id), spaced(field))
        }
        [element, field] => format!("{element}: {}", spaced(field)),
        _ => path.join("."),
    }
}

/// What people call an element.
pub fn label(view: &View, element: &str, id: &str) -> String {
    let project = &view.study().project;
    let label = match element {
        "item" => project.items.get(id).and_then(|item| item.label.as_ref()),
        "wire" => project.wires.get(id).and_then(|wire| wire.label.as_ref()),
        _ => None,
    };
    match (element, label) {
        ("wire", Some(label)) => format!("wire {} ({id})", label.value),
        ("wire", None) => format!("wire {id}"),
        (_, Some(label)) => label.value.clone(),
        (_, None) => id.to_owned(),
    }
}

fn links(finding: &Finding, key: &str) -> Markup {
    html! {
        p.links {
            a href={ "/finding?key=" (encoded(key)) } { "Working" span.unseen { " of: " (finding.headline) } }
            a href={ "/rules/" (finding.rule) } { "Rule" span.unseen { " " (finding.rule) } }
            @if let Some(place) = finding.subjects.iter().find_map(subject_address) {
                a href=(place) { "Show in the wiring" span.unseen { ": " (finding.headline) } }
            }
        }
    }
}

/// Where a subject is shown in the wiring.
pub fn subject_address(subject: &Subject) -> Option<String> {
    match subject {
        Subject::Wire(id) => Some(format!("/wiring?select=wire.{id}#panel")),
        Subject::Item(id) | Subject::Terminal(id, _) | Subject::Way(id, _) => {
            Some(format!("/wiring?select=item.{id}#panel"))
        }
        Subject::State(_) | Subject::System => None,
    }
}
