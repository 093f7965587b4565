//! One finding with its figures: as a card, as a line that opens, or whole.
//! Not here: its fixes (`fix`), and the words of findings, which come from
//! the rules.

use super::bar::share_bar;
use super::fix::{first_fix, other_fixes};
use super::sign::{class, shape, sign};
use super::{encoded, slug};
use crate::views::basis::{BasisView, SourceView};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_rules::{Amount, Finding, Subject};

/// One finding as a card: what is wrong, by how much, and the first thing
/// that mends it; everything else is folded away.
pub fn card(view: &View, finding: &Finding) -> Markup {
    let key = finding.key();
    html! {
        article.finding.card.{(class(finding.severity))} id={ "finding-" (slug(&key)) } data-finding=(key) {
            div.gist {
                h3 { (sign(finding.severity)) " " span.headline { (finding.headline) } }
                (figures(finding))
            }
            (first_fix(view, &key, finding))
            details.behind id={ "more-" (slug(&key)) } {
                summary { "More" span.unseen { " about: " (finding.headline) } }
                (behind(view, finding, &key))
            }
        }
    }
}

/// One finding as a line that opens.
pub fn row(view: &View, finding: &Finding) -> Markup {
    let key = finding.key();
    html! {
        article.finding.row-finding.{(class(finding.severity))} id={ "finding-" (slug(&key)) } data-finding=(key) {
            details id={ "more-" (slug(&key)) } {
                summary {
                    (shape(finding.severity))
                    span { span.unseen { (finding.severity.word()) ": " } (finding.headline) }
                }
                (figures(finding))
                (first_fix(view, &key, finding))
                (behind(view, finding, &key))
            }
        }
    }
}

/// One finding with nothing folded away.
pub fn whole(view: &View, finding: &Finding) -> Markup {
    let key = finding.key();
    html! {
        article.finding.card.{(class(finding.severity))} id={ "finding-" (slug(&key)) } data-finding=(key) {
            div.gist {
                h3 { (sign(finding.severity)) " " span.headline { (finding.headline) } }
                (figures(finding))
            }
            (first_fix(view, &key, finding))
            div.behind { (behind(view, finding, &key)) }
        }
    }
}

/// Everything but headline, figures and first fix.
fn behind(view: &View, finding: &Finding, key: &str) -> Markup {
    html! {
        @for sentence in &finding.detail { p { (sentence) } }
        @if let Some(limit) = &finding.limit {
            p.basis { "Limit " (limit.text) ": " (origin(limit)) "." }
        }
        @if !finding.assumptions.is_empty() {
            p { "Rests on stand-ins; type the real value to be sure:" }
            ul { @for path in &finding.assumptions { li { (place(view, path)) } } }
        }
        (other_fixes(view, key))
        (links(finding, key))
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

/// Value and limit, with a bar of how much of the limit is used.
pub fn figures(finding: &Finding) -> Markup {
    let share = finding.margin.map(|margin| 1.0 - margin.fraction());
    html! {
        @if finding.value.is_some() || finding.limit.is_some() {
            div.figures {
                @if let Some(share) = share {
                    (share_bar(share, &format!("{:.0} % of the limit", share * 100.0)))
                }
                p {
                    @if let Some(value) = &finding.value { span.figure { "Found " b { (value.text) } } }
                    @if let Some(limit) = &finding.limit { " " span.figure { "Limit " b { (limit.text) } } }
                }
            }
        }
    }
}

fn origin(amount: &Amount) -> String {
    match amount.source {
        Some(source) => SourceView::of(source).words(),
        None => BasisView::of(&amount.basis).words(),
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
            element @ ("wire" | "item" | "state" | "part" | "opening" | "trunk" | "weighing"
            | "stock" | "climate" | "trip" | "use" | "layer" | "cabinet"),
            id,
            field,
            ..,
        ] => {
            format!("/edit/{element}/{}#field-{}", encoded(id), slug(field))
        }
        [
            element @ ("wire" | "item" | "state" | "part" | "opening" | "trunk" | "weighing"
            | "stock" | "climate" | "trip" | "use" | "layer" | "cabinet"),
            id,
        ] => {
            format!("/edit/{element}/{}", encoded(id))
        }
        [
            element
            @ ("project" | "trailer" | "vehicle" | "towing" | "limits" | "living" | "tools"),
            field,
        ] => {
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
    let label = view.study().project.label(element, id);
    match (element, label) {
        ("wire", Some(label)) => format!("wire {label} ({id})"),
        ("wire", None) => format!("wire {id}"),
        (_, Some(label)) => label.to_owned(),
        (_, None) => id.to_owned(),
    }
}

fn links(finding: &Finding, key: &str) -> Markup {
    html! {
        p.links {
            a href={ "/finding?key=" (encoded(key)) } { "Working" span.unseen { " of: " (finding.headline) } }
            a href={ "/rules/" (finding.rule) } { "Rule" span.unseen { " " (finding.rule) } }
            @if let Some(place) = finding.subjects.iter().find_map(subject_address) {
                a href=(place) { (if place.starts_with("/wiring") { "Show in the wiring" } else { "Show on the layout" }) span.unseen { ": " (finding.headline) } }
            }
        }
    }
}

/// Where a subject is shown.
pub fn subject_address(subject: &Subject) -> Option<String> {
    match subject {
        Subject::Wire(id) => Some(format!("/wiring?select=wire.{id}#panel")),
        Subject::Item(id) | Subject::Terminal(id, _) | Subject::Way(id, _) => {
            Some(format!("/wiring?select=item.{id}#panel"))
        }
        Subject::Trailer | Subject::Opening(_) => Some("/layout".into()),
        Subject::Rating(_) => Some("/layout/road".into()),
        Subject::Weighing(_) => Some("/layout/weigh".into()),
        Subject::Layer(_) => Some("/lining".into()),
        Subject::State(_) | Subject::System => None,
    }
}
