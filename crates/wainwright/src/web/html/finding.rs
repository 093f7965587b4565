//! One finding with its figures and its proven fixes. Not here: the words of
//! findings and fixes, which come from the rules.

use super::bar::share_bar;
use super::sign::{class, sign};
use super::{back, encoded, revision, slug};
use crate::views::basis::{BasisView, SourceView};
use crate::web::mender::Mending;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_model::{Edit, Value};
use wainwright_rules::{Amount, Finding, Fix, Severity, Subject};

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
                        span.figure { "Found " b { (value.symbol) " " (value.text) } }
                    }
                    @if let Some(limit) = &finding.limit {
                        " " span.figure { "Limit " b { (limit.symbol) " " (limit.text) } " " (origin(limit)) }
                    }
                }
            }
        }
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
        [element @ ("wire" | "item" | "state" | "part"), id, field, ..] => {
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

/// The proven fixes, each with its button.
pub fn fixes(view: &View, key: &str, finding: &Finding) -> Markup {
    html! {
        div.fixes id={ "fixes-" (slug(key)) } data-region data-fixes=(key) {
            @match view.fixes(key) {
                Mending::UnderWay => p.waiting { "Working out what mends this …" },
                Mending::Done(fixes) if fixes.is_empty() => p.none {
                    "No single change mends this. "
                    a href={ "/rules/" (finding.rule) "#what-to-do" } { "What to do about it" }
                },
                Mending::Done(fixes) => (choices(view, key, &fixes)),
            }
        }
    }
}

fn choices(view: &View, key: &str, fixes: &[Fix]) -> Markup {
    let ordered = gentlest_first(fixes);
    html! {
        @for (index, fix) in ordered.iter().take(1) { (choice(view, key, *index, fix)) }
        @if ordered.len() > 1 {
            details id={ "others-" (slug(key)) } {
                summary { (super::count(ordered.len() - 1, "other way", "other ways")) " to mend it" }
                @for (index, fix) in ordered.iter().skip(1) { (choice(view, key, *index, fix)) }
            }
        }
    }
}

/// Fixes with their numbers from 0: those that bring nothing bad first, in
/// each group the cheapest first.
pub fn gentlest_first(fixes: &[Fix]) -> Vec<(usize, &Fix)> {
    let mut ordered: Vec<(usize, &Fix)> = fixes.iter().enumerate().collect();
    let harm = |fix: &Fix| fix.brings.iter().map(|brought| brought.severity).min();
    // Danger is the least of the signal words.
    ordered.sort_by_key(|(_, fix)| harm(fix).map_or(0, |worst| match worst {
        Severity::Danger => 3,
        Severity::Warning => 2,
        Severity::Caution | Severity::Notice => 1,
    }));
    ordered
}

/// One fix: what it does, what it changes, and the button.
pub fn choice(view: &View, key: &str, index: usize, fix: &Fix) -> Markup {
    let others = fix.mends.iter().filter(|mended| *mended != key).count();
    html! {
        form.fix method="post" action="/fix" data-live data-fix={ (key) "#" (index + 1) } {
            (revision(view.now.revision))
            (back(&view.here))
            input type="hidden" name="key" value=(key);
            input type="hidden" name="number" value=(index + 1);
            input type="hidden" name="title" value=(fix.title);
            div.what {
                p.title { (fix.title) }
                ul.changes { @for edit in &fix.edits { (change(view, edit)) } }
                @if others > 0 {
                    p.also { "Mends " (super::count(others, "other finding", "other findings")) " as well." }
                }
                (brings(key, index, fix))
            }
            button.primary { "Apply" span.unseen { ": " (fix.title) } }
        }
    }
}

/// What a fix makes worse, folded away under its number.
fn brings(key: &str, index: usize, fix: &Fix) -> Markup {
    html! {
        @if !fix.brings.is_empty() {
            details.brings id={ "brings-" (slug(key)) "-" (index) } {
                summary { "Brings " (super::count(fix.brings.len(), "lesser finding", "lesser findings")) }
                ul.plain { @for brought in &fix.brings { li { (sign(brought.severity)) " " (brought.headline) } } }
            }
        }
    }
}

fn change(view: &View, edit: &Edit) -> Markup {
    html! {
        li {
            @match edit {
                Edit::Set { path, value } => {
                    (place_words(view, path)) " "
                    @if let Some(before) = before(view, path) { del { (before) } " → " }
                    ins { (value_words(value)) }
                },
                Edit::Unset { path } => {
                    (place_words(view, path)) " "
                    del { (before(view, path).unwrap_or_default()) }
                },
                Edit::Add { table, fields, .. } => {
                    ins {
                        "new " (table.join(" ")) ": "
                        (fields.iter().map(|(name, value)| format!("{name} {}", value_words(value))).collect::<Vec<_>>().join(", "))
                    }
                },
                Edit::Remove { table } => { del { (table.join(" ")) } },
                Edit::Rename { table, to } => { (table.join(" ")) " → " ins { (to) } },
            }
        }
    }
}

/// What the text says at a path now.
fn before(view: &View, path: &[String]) -> Option<String> {
    let (key, table) = path.split_last()?;
    let said = wainwright_model::typed(&view.study().text, table);
    said.iter().find(|(name, _)| name == key).map(|(_, value)| value_words(value))
}

/// A value as people would say it.
pub fn value_words(value: &Value) -> String {
    match value {
        Value::Text(text) if text.is_empty() => "empty".into(),
        Value::Text(text) => text.clone(),
        Value::Integer(number) => number.to_string(),
        Value::Number(number) => number.to_string(),
        Value::Bool(flag) => if *flag { "yes" } else { "no" }.into(),
        Value::List(values) => values.iter().map(value_words).collect::<Vec<_>>().join(", "),
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
