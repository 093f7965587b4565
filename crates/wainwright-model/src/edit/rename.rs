//! Giving an element another id, references included.

use super::outline::Outline;
use super::patch::Splice;
use super::{EditProblem, Value, value_text};
use crate::place::Id;
use crate::read::references::{self, Reference};
use crate::schema::{self, Target};
use crate::syntax::{Body, KeyPart, NodeValue, tree::Tree};

/// Splices that rename `table` to `to`.
pub(super) fn rename(
    outline: &Outline<'_>,
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
    for (_, statement, row, path) in outline.placed() {
        match &statement.body {
            Body::Header { path: key, .. } if path.starts_with(table) => {
                splices.extend(name_splice(key.get(1), to))
            }
            Body::Entry { path: key, .. } if path.starts_with(table) && row.from_header < 2 => {
                splices.extend(name_splice(key.get(1 - row.from_header), to));
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
    outline: &Outline<'_>,
    element: &str,
    id: &str,
    to: &str,
) -> Result<Vec<Splice>, EditProblem> {
    let target = match element {
        "part" => Target::Part,
        "item" => Target::Item,
        "wire" => Target::Wire,
        "trunk" => Target::Trunk,
        _ => return Ok(Vec::new()),
    };
    let tree = Tree::new(&outline.script, &mut Vec::new());
    let references = references::all(&tree)
        .into_iter()
        .filter(|reference| reference.target == target);
    references
        .filter_map(|reference| reference_splice(outline, &reference, id, to))
        .collect()
}

/// `id` or `id.terminal`, in the quotes it stands in.
fn reference_splice(
    outline: &Outline<'_>,
    reference: &Reference,
    id: &str,
    to: &str,
) -> Option<Result<Splice, EditProblem>> {
    let rest = reference.text.strip_prefix(id)?;
    if !(rest.is_empty() || reference.terminal && rest.starts_with('.')) {
        return None;
    }
    let former = outline.text.get(reference.node.span.clone()).unwrap_or("");
    let text = value_text::write(&Value::Text(format!("{to}{rest}")), former);
    Some(text.map(|inserted| Splice {
        span: reference.node.span.clone(),
        inserted,
    }))
}
