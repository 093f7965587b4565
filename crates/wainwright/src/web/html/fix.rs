//! Proven fixes of a finding: what each changes, what it brings, and the
//! button. Not here: proving (see `mender`), and the words of fixes.

use super::finding::place_words;
use super::sign::sign;
use super::{back, revision, slug};
use crate::web::mender::Mending;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_model::{Edit, Value};
use wainwright_rules::{Finding, Fix, Severity};

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
    ordered.sort_by_key(|(_, fix)| {
        harm(fix).map_or(0, |worst| match worst {
            Severity::Danger => 3,
            Severity::Warning => 2,
            Severity::Caution | Severity::Notice => 1,
        })
    });
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
                (changes(view, key, index, &fix.edits))
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

/// Most changes shown before the rest is folded away.
const CHANGES_SHOWN: usize = 4;

/// What a fix changes in the file.
fn changes(view: &View, key: &str, index: usize, edits: &[Edit]) -> Markup {
    let (first, rest) = edits.split_at(edits.len().min(CHANGES_SHOWN));
    html! {
        ul.changes { @for edit in first { (change(view, edit)) } }
        @if !rest.is_empty() {
            details.brings id={ "changes-" (slug(key)) "-" (index) } {
                summary { (super::count(rest.len(), "more change", "more changes")) }
                ul.changes { @for edit in rest { (change(view, edit)) } }
            }
        }
    }
}

fn change(view: &View, edit: &Edit) -> Markup {
    html! {
        li {
            @match edit {
                Edit::Set { path, value } => (set(view, path, value)),
                Edit::Unset { path } => {
                    (place_words(view, path)) " "
                    del { (before(view, path).map(|value| value_words(&value)).unwrap_or_default()) }
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

/// A value and what it becomes; of a list, only the places that differ.
fn set(view: &View, path: &[String], value: &Value) -> Markup {
    let before = before(view, path);
    let pairs = match (&before, value) {
        (Some(Value::List(old)), Value::List(new)) if old.len() == new.len() => {
            let differing = old
                .iter()
                .zip(new)
                .enumerate()
                .filter(|(_, (old, new))| old != new);
            differing
                .map(|(at, (old, new))| (Some(at + 1), Some(old), new))
                .collect()
        }
        _ => vec![(None, before.as_ref(), value)],
    };
    html! {
        (place_words(view, path))
        @for (number, old, new) in pairs {
            " " @if let Some(number) = number { (number) ": " }
            @if let Some(old) = old { del { (value_words(old)) } " → " }
            ins { (value_words(new)) }
        }
    }
}

/// What the text says at a path now.
fn before(view: &View, path: &[String]) -> Option<Value> {
    let (key, table) = path.split_last()?;
    let said = wainwright_model::typed(&view.study().text, table);
    said.into_iter()
        .find(|(name, _)| name == key)
        .map(|(_, value)| value)
}

/// A value as people would say it.
pub fn value_words(value: &Value) -> String {
    match value {
        Value::Text(text) if text.is_empty() => "empty".into(),
        Value::Text(text) => text.clone(),
        Value::Integer(number) => number.to_string(),
        Value::Number(number) => number.to_string(),
        Value::Bool(flag) => if *flag { "yes" } else { "no" }.into(),
        Value::List(values) => values
            .iter()
            .map(value_words)
            .collect::<Vec<_>>()
            .join(", "),
    }
}
