//! Giving an element another id, references included.

use super::outline::{Outline, names};
use super::patch::Splice;
use super::{EditProblem, Path, Value, value_text};
use crate::place::Id;
use crate::read::references;
use crate::schema::{self, Target};
use crate::syntax::{Body, KeyPart, Node, NodeValue};

/// Splices that rename `table` to `to`.
pub(super) fn rename(
    outline: &Outline,
    table: &[String],
    to: &str,
) -> Result<Vec<Splice>, EditProblem> {
    let [element, id] = table else {
        return Err(EditProblem::BadName {
            name: table.join("."),
            expected: "an element such as item.fridge".into(),
        });
    };
    if !schema::element(element).is_some_and(|element| element.keyed) {
        return Err(EditProblem::BadName {
            name: element.clone(),
            expected: "part, item, wire or state".into(),
        });
    }
    if Id::new(to).is_none() {
        let expected = "an id of small letters, digits, - and _".into();
        return Err(EditProblem::BadName {
            name: to.to_owned(),
            expected,
        });
    }
    if !outline.is_table(table) {
        return Err(EditProblem::NoSuchTable {
            path: table.join("."),
        });
    }
    let renamed = [element.clone(), to.to_owned()];
    if outline.is_there(&renamed) {
        return Err(EditProblem::AlreadyThere {
            path: renamed.join("."),
        });
    }
    let mut splices: Vec<Splice> = Vec::new();
    for placed in outline.near(table) {
        let (path, from_header) = (placed.path, placed.row.from_header);
        match &placed.row.statement.body {
            Body::Header { path: key, .. } if path.starts_with(table) => {
                splices.extend(name_splice(key.get(1), to))
            }
            Body::Entry { path: key, .. } if path.starts_with(table) && from_header < 2 => {
                splices.extend(name_splice(key.get(1 - from_header), to));
            }
            Body::Entry { value, .. } if path.as_slice() == [element.clone()] => {
                let NodeValue::Table(entries) = &value.value else {
                    continue;
                };
                let named = entries
                    .iter()
                    .filter_map(|(key, _)| key.first())
                    .filter(|part| part.name == *id);
                splices.extend(named.filter_map(|part| name_splice(Some(part), to)));
            }
            _ => {}
        }
    }
    splices.extend(reference_splices(outline, element, id, to)?);
    splices.sort_by_key(|splice| splice.span.start);
    splices.dedup();
    Ok(splices)
}

fn name_splice(part: Option<&KeyPart>, to: &str) -> Option<Splice> {
    part.map(|part| Splice {
        span: part.span.clone(),
        inserted: to.to_owned(),
    })
}

fn reference_splices(
    outline: &Outline,
    element: &str,
    id: &str,
    to: &str,
) -> Result<Vec<Splice>, EditProblem> {
    let target = match element {
        "part" => Target::Part,
        "item" => Target::Item,
        "wire" => Target::Wire,
        "trunk" => Target::Trunk,
        "climate" => Target::Climate,
        "trip" => Target::Trip,
        _ => return Ok(Vec::new()),
    };
    let mut found = Vec::new();
    for placed in outline.placed() {
        if let Some(value) = placed.value().filter(|value| mentions(value, id)) {
            let path = placed.path.clone();
            gather(outline, value, path, (target, id, to), &mut found)?;
        }
    }
    Ok(found)
}

/// Whether a text in it starts with the id: nearly none does, and looking closer takes time.
fn mentions(node: &Node, id: &str) -> bool {
    match &node.value {
        NodeValue::Text(text) => text.starts_with(id),
        NodeValue::List(nodes) => nodes.iter().any(|node| mentions(node, id)),
        NodeValue::Table(entries) => entries.iter().any(|(_, node)| mentions(node, id)),
        _ => false,
    }
}

/// Splices for the references in one value: `id` or `id.terminal`, each in the quotes it stands in.
fn gather(
    outline: &Outline,
    node: &Node,
    path: Path,
    wanted: (Target, &str, &str),
    found: &mut Vec<Splice>,
) -> Result<(), EditProblem> {
    let (target, id, to) = wanted;
    match &node.value {
        NodeValue::Table(entries) => {
            for (key, inner) in entries {
                let path = path.iter().cloned().chain(names(key)).collect();
                gather(outline, inner, path, wanted, found)?;
            }
        }
        NodeValue::List(nodes) => {
            for inner in nodes {
                gather(outline, inner, path.clone(), wanted, found)?;
            }
        }
        NodeValue::Text(text) => {
            let terminal = match references::referred(&path) {
                Some((points_at, terminal)) if points_at == target => terminal,
                _ => return Ok(()),
            };
            let rest = text.strip_prefix(id);
            let fits = |rest: &&str| rest.is_empty() || terminal && rest.starts_with('.');
            if let Some(rest) = rest.filter(fits) {
                let former = outline.text.get(node.span.clone()).unwrap_or("");
                let value = Value::Text(format!("{to}{rest}"));
                found.push(Splice {
                    span: node.span.clone(),
                    inserted: value_text::write(&value, former)?,
                });
            }
        }
        _ => {}
    }
    Ok(())
}
