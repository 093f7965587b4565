//! From a form that was sent to edits of the file. Whether a value is right
//! is asked of the reader of the file: the edits are made on a copy, and what
//! the reader says about it is shown beside the fields. Not here: saving.

use super::Form;
use super::several::{self, Shape};
use crate::web::view::{Query, View};
use std::collections::BTreeSet;
use wainwright_model::schema::{FieldSpec, ValueKind};
use wainwright_model::{Edit, Id, Kind, Problem, ProblemSeverity, Value, parse, typed};

/// Most ids tried when one is made up.
const MOST_IDS: usize = 10_000;

/// What a sent form comes to.
#[derive(Debug)]
pub enum Answer {
    /// Edits to make, the id the element has afterwards, and the form as sent.
    Edits(Vec<Edit>, Option<String>, Box<Form>),
    /// The form again, with what is wrong.
    Again(Box<Form>),
}

/// Reads a sent form.
pub fn answer(view: &View, mut form: Form, sent: &Query) -> Answer {
    let before = form.clone();
    take_kind(view, &mut form, sent);
    for spec in form.fields() {
        form.texts.insert(spec.name, sent_texts(sent, spec));
    }
    form.typed_id = sent.get("id").unwrap_or("").trim().to_owned();
    let id = match wanted_id(view, &form) {
        Ok(id) => id,
        Err(why) => {
            form.errors.insert("id".into(), vec![why]);
            return Answer::Again(Box::new(form));
        }
    };
    let edits = edits(view, &before, &form, id.as_deref());
    match check(view, &form, &edits, id.as_deref()) {
        Ok(()) => Answer::Edits(edits, id, Box::new(form)),
        Err(wrong) => {
            form.errors = wrong.0;
            form.trouble = wrong.1;
            Answer::Again(Box::new(form))
        }
    }
}

/// The kind decides which fields there are; a part brings its own.
fn take_kind(view: &View, form: &mut Form, sent: &Query) {
    if !matches!(form.element.name, "item" | "part") {
        return;
    }
    let typed = sent.get("kind").and_then(Kind::parse);
    let part = sent.get("part");
    let own = part.and_then(|id| view.study().project.parts.get(id));
    let library = part.and_then(|id| wainwright_analysis::catalogue().get(id));
    let brought = own.or(library).map(|part| part.spec.kind());
    if let Some(kind) = typed.or(brought) {
        form.kind = kind;
    }
}

/// The texts sent for one field.
pub fn sent_texts(sent: &Query, spec: &FieldSpec) -> Vec<String> {
    let all = || sent.all(spec.name).map(|text| text.trim().to_owned());
    match several::shape(spec) {
        Some(Shape::Twelve) => return several::twelve_texts(sent.all(spec.name)),
        Some(Shape::Hours | Shape::Boxes) => {
            return all().filter(|text| !text.is_empty()).collect();
        }
        None => {}
    }
    match spec.value {
        ValueKind::List(ValueKind::Integer { .. }) => {
            several::number_texts(sent.all(spec.name).next().unwrap_or(""))
        }
        ValueKind::List(ValueKind::Spot) => {
            let text = sent.all(spec.name).next().unwrap_or("");
            let lines = text.split('\n').map(str::trim);
            lines
                .filter(|line| !line.is_empty())
                .map(str::to_owned)
                .collect()
        }
        // Values of such a list have spaces in them: "34 °F", "100 %".
        ValueKind::List(ValueKind::Quantity { .. }) => {
            let text = all().next().unwrap_or_default();
            let parts = text.split([',', ';']).map(str::trim);
            let parts = parts.filter(|part| !part.is_empty());
            parts.map(str::to_owned).collect()
        }
        ValueKind::List(_) => {
            let text = all().next().unwrap_or_default();
            let parts = text
                .split([',', ' '])
                .map(str::trim)
                .filter(|part| !part.is_empty());
            parts.map(str::to_owned).collect()
        }
        ValueKind::Ratings => {
            let text = sent.all(spec.name).next().unwrap_or("");
            let lines = text.split('\n').map(|line| line.trim().to_owned());
            if text.is_empty() {
                Vec::new()
            } else {
                lines.collect()
            }
        }
        _ => all().filter(|text| !text.is_empty()).take(1).collect(),
    }
}

/// The id the element is to have; made from its label when none was typed.
fn wanted_id(view: &View, form: &Form) -> Result<Option<String>, String> {
    if !form.element.keyed {
        return Ok(None);
    }
    if !form.typed_id.is_empty() {
        let legal = Id::new(&form.typed_id).map(|id| Some(id.to_string()));
        let hint = || {
            Id::suggest(&form.typed_id).map_or_else(String::new, |id| format!("; for example {id}"))
        };
        return legal
            .ok_or_else(|| format!("an id is made of small letters, digits, - and _{}", hint()));
    }
    if form.id.is_some() {
        return Err("an id is needed".into());
    }
    let from_ends = || match (form.text("from"), form.text("to")) {
        ("", "") => None,
        (from, to) => Some(
            format!("{from}-{to}")
                .replace('+', "plus")
                .replace('.', "-"),
        ),
    };
    let seed = Some(form.text("label"))
        .filter(|text| !text.is_empty())
        .map(str::to_owned);
    let seed = seed.or_else(from_ends).unwrap_or_else(|| match form.kind {
        Kind::Unknown => form.element.name.to_owned(),
        kind => kind.as_str().to_owned(),
    });
    let base = Id::suggest(&seed).map_or_else(|| form.element.name.to_owned(), |id| id.to_string());
    Ok(unused(view, form.element.name, &base))
}

/// The id itself, or with a number behind it when it is in use.
pub fn unused(view: &View, element: &str, base: &str) -> Option<String> {
    let project = &view.study().project;
    let in_library = |id: &str| wainwright_analysis::catalogue().get(id).is_some();
    let in_use = |id: &str| project.contains(element, id) || element == "part" && in_library(id);
    let numbered = (2..MOST_IDS).map(|number| format!("{base}-{number}"));
    std::iter::once(base.to_owned())
        .chain(numbered)
        .find(|id| !in_use(id))
}

/// The least edits that make the file say what the form says.
fn edits(view: &View, before: &Form, form: &Form, id: Option<&str>) -> Vec<Edit> {
    let fields = form.fields();
    let new = form.id.is_none() && form.element.keyed;
    if new {
        let given = fields.iter().filter_map(|spec| {
            Some((
                spec.name.to_owned(),
                value(&spec.value, form.texts(spec.name))?,
            ))
        });
        let mut table = form.table();
        table.extend(id.map(str::to_owned));
        return vec![Edit::Add {
            table,
            fields: given.collect(),
            after: None,
        }];
    }
    let table = form.table();
    let path = |name: &str| table.iter().cloned().chain([name.to_owned()]).collect();
    let mut edits = Vec::new();
    for spec in &fields {
        let (was, is) = (before.texts(spec.name), form.texts(spec.name));
        match value(&spec.value, is) {
            _ if same(spec, was, is) => {}
            Some(value) => edits.push(Edit::Set {
                path: path(spec.name),
                value,
            }),
            None => edits.push(Edit::Unset {
                path: path(spec.name),
            }),
        }
    }
    // Another kind leaves values behind that it has no field for.
    if before.kind != form.kind {
        let said = typed(&view.study().text, &table);
        let stale = said
            .iter()
            .filter(|(name, _)| !fields.iter().any(|spec| spec.name == name));
        edits.extend(stale.map(|(name, _)| Edit::Unset { path: path(name) }));
    }
    let renamed = id.filter(|id| form.id.as_deref().is_some_and(|old| old != *id));
    edits.extend(renamed.map(|id| Edit::Rename {
        table,
        to: id.to_owned(),
    }));
    edits
}

/// Whether nothing was changed; boxes come in the order of the page, trunks in the order typed.
fn same(spec: &FieldSpec, was: &[String], is: &[String]) -> bool {
    match several::shape(spec) {
        Some(Shape::Hours | Shape::Boxes) => {
            was.iter().collect::<BTreeSet<_>>() == is.iter().collect::<BTreeSet<_>>()
        }
        _ => was == is,
    }
}

/// The texts of a field as a value of the file; none when it is empty.
fn value(kind: &ValueKind, texts: &[String]) -> Option<Value> {
    let one = |text: &String| match kind {
        ValueKind::Integer { .. } | ValueKind::List(ValueKind::Integer { .. }) => whole(text),
        ValueKind::Number { .. } | ValueKind::List(ValueKind::Number { .. }) => text
            .parse()
            .map_or_else(|_| Value::Text(text.clone()), Value::Number),
        ValueKind::Boolean => match text.as_str() {
            "true" => Value::Bool(true),
            "false" => Value::Bool(false),
            _ => Value::Text(text.clone()),
        },
        _ => Value::Text(text.clone()),
    };
    match kind {
        _ if texts.is_empty() => None,
        ValueKind::List(_) | ValueKind::Ratings => {
            Some(Value::List(texts.iter().map(one).collect()))
        }
        _ => texts.first().map(one),
    }
}

/// What is no whole number is kept as typed, so that the reader can say so.
fn whole(text: &str) -> Value {
    text.parse()
        .map_or_else(|_| Value::Text(text.to_owned()), Value::Integer)
}

type Wrong = (
    std::collections::BTreeMap<String, Vec<String>>,
    Option<String>,
);

/// Makes the edits on a copy and asks the reader what it thinks of it.
fn check(view: &View, form: &Form, edits: &[Edit], id: Option<&str>) -> Result<(), Wrong> {
    let text = &view.study().text;
    let applied = wainwright_model::apply(text, edits)
        .map_err(|problem| (Default::default(), Some(format!("Not saved: {problem}."))))?;
    let parsed = parse(&applied.text, wainwright_analysis::catalogue());
    let mut table = vec![form.element.name.to_owned()];
    table.extend(id.map(str::to_owned));
    let table = table.join(".");
    let names: BTreeSet<&str> = form.fields().iter().map(|spec| spec.name).collect();
    let mut wrong = Wrong::default();
    for problem in parsed
        .problems
        .iter()
        .filter(|p| p.severity == ProblemSeverity::Error)
    {
        let rest = problem.path.strip_prefix(&table);
        let field = rest.and_then(|rest| rest.strip_prefix('.')).map(first_name);
        match (rest, field) {
            (Some(_), Some(name)) if names.contains(name) => {
                wrong
                    .0
                    .entry(name.to_owned())
                    .or_default()
                    .push(sentence(problem));
            }
            (Some(""), _) => {
                let required = form
                    .fields()
                    .into_iter()
                    .find(|spec| spec.required && form.text(spec.name).is_empty());
                let name = required.map_or("id", |spec| spec.name);
                wrong
                    .0
                    .entry(name.to_owned())
                    .or_default()
                    .push(sentence(problem));
            }
            _ => {}
        }
    }
    if wrong.0.is_empty() {
        Ok(())
    } else {
        Err(wrong)
    }
}

fn first_name(rest: &str) -> &str {
    rest.split(['.', '[']).next().unwrap_or(rest)
}

fn sentence(problem: &Problem) -> String {
    let hint = problem
        .hint
        .as_ref()
        .map_or_else(String::new, |hint| format!("; {hint}"));
    format!(
        "found {}, expected {}{hint}",
        problem.found, problem.expected
    )
}
