//! Keeps wires as they are that are `like` a wire which an edit changes: a
//! change for one wire must not change its copies unseen. Not here: the
//! edits themselves.

use super::edits;
use std::collections::BTreeSet;
use wainwright_model::{Edit, Field, Id, Origin, Project, Value, Wire};

/// The edits, and with them one for each copied value that would otherwise
/// follow a changed wire.
pub(crate) fn keep_others(project: &Project, changes: &[Edit]) -> Vec<Edit> {
    let own: BTreeSet<(String, String)> = changes.iter().filter_map(wire_key).collect();
    let mut all = Vec::new();
    for change in changes {
        if let Some((wire, key)) = wire_key(change) {
            for (id, fields) in copies(project, &wire) {
                let set_itself = own.contains(&(id.to_string(), key.clone()));
                if let Some(value) = copied(fields, &key).filter(|_| !set_itself) {
                    all.push(edits::set(&["wire", id.as_str(), &key], value));
                }
            }
        }
        if let Some(wire) = removed(change) {
            for (id, fields) in copies(project, &wire) {
                all.extend(KEYS.iter().filter_map(|key| {
                    copied(fields, key).map(|value| edits::set(&["wire", id.as_str(), key], value))
                }));
                all.push(edits::unset(&["wire", id.as_str(), "like"]));
            }
        }
    }
    all.extend(changes.iter().cloned());
    all
}

/// Fields a wire takes from the one it is like.
const KEYS: [&str; 10] = [
    "size",
    "insulation",
    "tinned",
    "length",
    "runs",
    "bundle",
    "foam_cover",
    "sheathed",
    "air",
    "supplied",
];

/// Wire and field of an edit that gives a wire a copied field.
fn wire_key(edit: &Edit) -> Option<(String, String)> {
    let path = match edit {
        Edit::Set { path, .. } | Edit::Unset { path } => path,
        _ => return None,
    };
    match path.as_slice() {
        [table, wire, key] if table == "wire" && KEYS.contains(&key.as_str()) => {
            Some((wire.clone(), key.clone()))
        }
        _ => None,
    }
}

fn removed(edit: &Edit) -> Option<String> {
    match edit {
        Edit::Remove { table } => match table.as_slice() {
            [kind, wire] if kind == "wire" => Some(wire.clone()),
            _ => None,
        },
        _ => None,
    }
}

/// Wires that are directly like this one.
fn copies<'a>(project: &'a Project, wire: &'a str) -> impl Iterator<Item = (&'a Id, &'a Wire)> {
    project
        .wires
        .iter()
        .filter(move |(_, fields)| fields.like.as_ref().is_some_and(|like| like.value == wire))
}

/// The value a wire takes from the one it is like, as it would be typed.
fn copied(wire: &Wire, key: &str) -> Option<Value> {
    match key {
        "size" => text(&wire.size),
        "insulation" => text(&wire.insulation),
        "length" => text(&wire.length),
        "runs" => text(&wire.runs),
        "foam_cover" => text(&wire.foam_cover),
        "air" => text(&wire.air),
        "tinned" => borrowed(&wire.tinned).map(|given| Value::Bool(*given)),
        "sheathed" => borrowed(&wire.sheathed).map(|given| Value::Bool(*given)),
        "supplied" => borrowed(&wire.supplied).map(|given| Value::Bool(*given)),
        "bundle" => borrowed(&wire.bundle).map(|given| Value::Integer(i64::from(*given))),
        _ => None,
    }
}

fn borrowed<T>(field: &Field<T>) -> Option<&T> {
    let given = field.as_ref()?;
    matches!(given.at.origin, Origin::Like(_)).then_some(&given.value)
}

fn text<T>(field: &Field<T>) -> Option<Value> {
    borrowed(field)?;
    field.as_ref().map(|given| Value::Text(given.text.clone()))
}
