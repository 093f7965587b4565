//! Proven fixes of a finding: what each changes, what it brings, and the
//! button. Not here: proving (see `mender`), and the words of fixes.

use super::finding::place_words;
use super::sign::sign;
use super::{back, revision, slug};
use crate::web::mender::Mending;
use crate::web::view::View;
use maud::{Markup, html};
use std::sync::Arc;
use wainwright_model::{Edit, Value};
use wainwright_rules::{Finding, Fix, Severity};

/// The fix to try first, with its button.
pub fn first_fix(view: &View, key: &str, finding: &Finding) -> Markup {
    html! {
        div.fixes id={ "fixes-" (slug(key)) } data-region data-fixes=(key) {
            @match view.fixes(key) {
                Mending::UnderWay => p.waiting { "Working out what mends this …" },
                Mending::Done(fixes) => {
                    @match gentlest_first(&fixes).first() {
                        Some((index, fix)) => (form(view, key, *index, fix, &html! {})),
                        None => p.none {
                            "No single change mends this. "
                            a href={ "/rules/" (finding.rule) "#what-to-do" } { "What to do about it" }
                        },
                    }
                },
            }
        }
    }
}

/// What the first fix changes, and the fixes after it.
pub fn other_fixes(view: &View, key: &str) -> Markup {
    let fixes = match view.fixes(key) {
        Mending::Done(fixes) => fixes,
        Mending::UnderWay => Arc::default(),
    };
    let ordered = gentlest_first(&fixes);
    html! {
        div.ways id={ "ways-" (slug(key)) } data-region {
            @if let Some((_, fix)) = ordered.first() {
                p { b { "What this changes: " } (fix.title) }
                (what_it_does(view, fix))
            }
            @if ordered.len() > 1 {
                p { b { (super::count(ordered.len() - 1, "other way", "other ways")) " to mend it" } }
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
    form(view, key, index, fix, &what_it_does(view, fix))
}

fn form(view: &View, key: &str, index: usize, fix: &Fix, below: &Markup) -> Markup {
    html! {
        form.fix method="post" action="/fix" data-live data-fix={ (key) "#" (index + 1) } {
            (revision(view.now.revision))
            (back(&view.here))
            input type="hidden" name="key" value=(key);
            input type="hidden" name="number" value=(index + 1);
            input type="hidden" name="title" value=(fix.title);
            div.what {
                p.title { (fix.title) }
                @if let Some(words) = besides(key, fix) { p.also { (words) } }
                (below)
            }
            button.primary { "Apply" span.unseen { ": " (fix.title) } }
        }
    }
}

/// What else a fix does, in one line.
fn besides(key: &str, fix: &Fix) -> Option<String> {
    let others = fix.mends.iter().filter(|mended| *mended != key).count();
    let mends = (others > 0).then(|| format!("mends {others} more"));
    let brings = (!fix.brings.is_empty()).then(|| {
        format!(
            "brings {}",
            super::count(fix.brings.len(), "lesser finding", "lesser findings")
        )
    });
    let words: Vec<String> = mends.into_iter().chain(brings).collect();
    let line = words.join(", ");
    let mut letters = line.chars();
    let first = letters.next()?.to_uppercase();
    Some(format!("{first}{}.", letters.as_str()))
}

/// What a fix changes in the file, and what it makes worse.
fn what_it_does(view: &View, fix: &Fix) -> Markup {
    html! {
        (changes(view, &fix.edits))
        @if !fix.brings.is_empty() {
            p.also { "Brings:" }
            ul.plain.brings { @for brought in &fix.brings { li { (sign(brought.severity)) " " (brought.headline) } } }
        }
    }
}

/// The same change made to so many wires is told once.
const FOLD_FROM: usize = 3;

/// What a fix changes in the file.
fn changes(view: &View, edits: &[Edit]) -> Markup {
    let mut told: Vec<(String, Vec<&Edit>)> = Vec::new();
    for edit in edits {
        let likeness = likeness(edit);
        match told
            .iter_mut()
            .find(|(like, _)| !like.is_empty() && *like == likeness)
        {
            Some((_, same)) => same.push(edit),
            None => told.push((likeness, vec![edit])),
        }
    }
    html! {
        ul.changes {
            @for (_, same) in &told {
                @if same.len() >= FOLD_FROM {
                    (folded(same))
                } @else {
                    @for edit in same { (change(view, edit)) }
                }
            }
        }
    }
}

/// Equal for changes of the same field of different wires to the same value.
fn likeness(edit: &Edit) -> String {
    match edit {
        Edit::Set { path, value } => match path.as_slice() {
            [element, _, field] if element == "wire" => format!("{field} {}", value_words(value)),
            _ => String::new(),
        },
        _ => String::new(),
    }
}

fn folded(edits: &[&Edit]) -> Markup {
    let sets = || {
        edits.iter().filter_map(|edit| match edit {
            Edit::Set { path, value } => Some((path, value)),
            _ => None,
        })
    };
    let names: Vec<&str> = sets()
        .filter_map(|(path, _)| path.get(1).map(String::as_str))
        .collect();
    html! {
        @if let Some((path, value)) = sets().next() {
            li {
                (names.len()) " wires: " (path.last().map_or("", String::as_str).replace('_', " "))
                " → " ins { (value_words(value)) }
                " " span.basis { (names.join(", ")) }
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

/// A value and what it becomes; of a list of fuses, only the ways that differ.
fn set(view: &View, path: &[String], value: &Value) -> Markup {
    let before = before(view, path);
    if let ([element, id, field], Value::List(new)) = (path, value)
        && field == "fuses"
    {
        let old = match &before {
            Some(Value::List(old)) => old.as_slice(),
            _ => &[],
        };
        return ways(&super::finding::label(view, element, id), old, new);
    }
    html! {
        (place_words(view, path)) " "
        @if let Some(old) = &before { del { (value_words(old)) } " → " }
        ins { (value_words(value)) }
    }
}

/// The ways of a fuse block whose fuse changes.
fn ways(block: &str, old: &[Value], new: &[Value]) -> Markup {
    let words =
        |values: &[Value], at: usize| values.get(at).map_or_else(|| "none".into(), value_words);
    let pairs = (0..old.len().max(new.len())).map(|at| (at + 1, words(old, at), words(new, at)));
    html! {
        (block)
        @for (way, old, new) in pairs.filter(|(_, old, new)| old != new) {
            ", way " (way) ": " del { (old) } " → " ins { (new) }
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
