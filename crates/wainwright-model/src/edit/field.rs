//! Setting and unsetting one key.

use super::outline::{Outline, names};
use super::patch::Splice;
use super::{EditProblem, Value, table, value_text};
use crate::schema;
use crate::syntax::{Body, KeyPart, Node, NodeValue, Statement};

/// Replaces the value at `path`, or adds the key.
pub(super) fn set(
    outline: &Outline,
    path: &[String],
    value: &Value,
) -> Result<Vec<Splice>, EditProblem> {
    let (key, parent) = path.split_last().ok_or(EditProblem::EmptyPath)?;
    if outline.is_table(path) {
        return Err(EditProblem::IsTable {
            path: path.join("."),
        });
    }
    if let Some(node) = outline.leaf(path) {
        let former = outline.text.get(node.span.clone()).unwrap_or("");
        return Ok(vec![Splice {
            span: node.span.clone(),
            inserted: value_text::write(value, former)?,
        }]);
    }
    let entry = format!(
        "{} = {}",
        value_text::key(key),
        value_text::write(value, "")?
    );
    if parent.is_empty() {
        return Ok(vec![first_line(outline, &entry)]);
    }
    under_header(outline, parent, &entry)
        .or_else(|| in_inline_table(outline, parent, &entry))
        .or_else(|| beside_dotted(outline, parent, &entry))
        .map_or_else(
            || in_new_table(outline, parent, key, value),
            |splice| Ok(vec![splice]),
        )
}

/// Takes out the key at `path`.
pub(super) fn unset(outline: &Outline, path: &[String]) -> Result<Vec<Splice>, EditProblem> {
    if path.is_empty() {
        return Err(EditProblem::EmptyPath);
    }
    if outline.is_table(path) {
        return Err(EditProblem::IsTable {
            path: path.join("."),
        });
    }
    for placed in outline.near(path) {
        let (statement, at) = (&placed.row.statement, placed.path);
        let Some(value) = placed.value() else {
            continue;
        };
        if at.as_slice() == path {
            return Ok(vec![Splice {
                span: statement.span.start..statement.next,
                inserted: String::new(),
            }]);
        }
        if let Some(rest) = path.strip_prefix(at.as_slice())
            && let Some(splice) = out_of_inline(outline, value, rest)?
        {
            return Ok(vec![splice]);
        }
    }
    Err(EditProblem::NoSuchKey {
        path: path.join("."),
    })
}

/// A splice that takes the key `rest` out of the inline table `node`.
pub(super) fn out_of_inline(
    outline: &Outline,
    node: &Node,
    rest: &[String],
) -> Result<Option<Splice>, EditProblem> {
    let NodeValue::Table(entries) = &node.value else {
        return Ok(None);
    };
    let mut ordered: Vec<&(Vec<KeyPart>, Node)> = entries.iter().collect();
    ordered.sort_by_key(|(_, value)| value.span.start);
    for (place, (key, value)) in ordered.iter().enumerate() {
        let key_names = names(key);
        if key_names.as_slice() != rest {
            let inner = rest
                .strip_prefix(key_names.as_slice())
                .map(|rest| out_of_inline(outline, value, rest));
            match inner.transpose()?.flatten() {
                Some(splice) => return Ok(Some(splice)),
                None => continue,
            }
        }
        let key_start = key.first().map_or(value.span.start, |part| part.span.start);
        let next = ordered
            .get(place + 1)
            .and_then(|(key, _)| key.first())
            .map(|part| part.span.start);
        let before = place
            .checked_sub(1)
            .and_then(|place| ordered.get(place))
            .map(|(_, value)| value.span.end);
        let span = match (before, next) {
            (_, Some(next)) => key_start..next,
            (Some(before), None) => before..value.span.end,
            (None, None) => key_start..value.span.end,
        };
        let around = [
            span.start..key_start.max(span.start),
            value.span.end.min(span.end)..span.end,
        ];
        if around
            .into_iter()
            .any(|gap| outline.text.get(gap).unwrap_or("").contains('#'))
        {
            let why = "a comment stands inside the inline table".into();
            return Err(EditProblem::Unsupported {
                path: rest.join("."),
                why,
            });
        }
        return Ok(Some(Splice {
            span,
            inserted: String::new(),
        }));
    }
    Ok(None)
}

/// After the last entry above the first header, or as the first line of the text.
fn first_line(outline: &Outline, entry: &str) -> Splice {
    if let Some(statement) = outline.last_of(0) {
        return line_after(outline, statement, entry);
    }
    let ending = outline.line_ending(None);
    let start = if outline.text.starts_with('\u{feff}') {
        '\u{feff}'.len_utf8()
    } else {
        0
    };
    let gap = if outline.line(start).trim().is_empty() {
        ""
    } else {
        ending
    };
    Splice {
        span: start..start,
        inserted: format!("{entry}{ending}{gap}"),
    }
}

fn under_header(outline: &Outline, parent: &[String], entry: &str) -> Option<Splice> {
    let header = outline
        .near(parent)
        .find(|placed| placed.is_header() && placed.path.as_slice() == parent)?;
    let last = outline.last_of(header.section)?;
    Some(line_after(outline, last, entry))
}

/// A line after a statement, indented like it.
fn line_after(outline: &Outline, statement: &Statement, entry: &str) -> Splice {
    let line = outline
        .text
        .get(statement.span.clone())
        .unwrap_or("")
        .trim_start_matches('\u{feff}');
    let indent: String = line
        .chars()
        .take_while(|c| matches!(c, ' ' | '\t'))
        .collect();
    let ending = outline.line_ending(Some(statement));
    let at = statement.next;
    let ends_open = !outline.text.get(..at).unwrap_or("").ends_with('\n');
    let inserted = if ends_open {
        format!("{ending}{indent}{entry}")
    } else {
        format!("{indent}{entry}{ending}")
    };
    Splice {
        span: at..at,
        inserted,
    }
}

fn in_inline_table(outline: &Outline, parent: &[String], entry: &str) -> Option<Splice> {
    let node = outline.leaf(parent)?;
    let NodeValue::Table(entries) = &node.value else {
        return None;
    };
    match entries.iter().map(|(_, value)| value.span.end).max() {
        Some(end) => Some(Splice {
            span: end..end,
            inserted: format!(", {entry}"),
        }),
        None => Some(Splice {
            span: node.span.clone(),
            inserted: format!("{{ {entry} }}"),
        }),
    }
}

/// A further dotted key after the last one that shares the front.
fn beside_dotted(outline: &Outline, parent: &[String], entry: &str) -> Option<Splice> {
    let after = outline.near(parent).rfind(|placed| {
        let dotted = placed.row.from_header < parent.len() && placed.path.len() > parent.len();
        placed.value().is_some() && dotted && placed.path.starts_with(parent)
    })?;
    let (statement, from_header) = (&after.row.statement, after.row.from_header);
    let Body::Entry { path, .. } = &statement.body else {
        return None;
    };
    let first = path.first()?.span.start;
    let front = path
        .get(parent.len().checked_sub(from_header + 1)?)?
        .span
        .end;
    let front = outline.text.get(first..front)?;
    Some(line_after(outline, statement, &format!("{front}.{entry}")))
}

fn in_new_table(
    outline: &Outline,
    parent: &[String],
    key: &str,
    value: &Value,
) -> Result<Vec<Splice>, EditProblem> {
    let makes_itself =
        matches!(parent, [name] if schema::element(name).is_some_and(|element| !element.keyed));
    if !makes_itself {
        return Err(EditProblem::NoSuchTable {
            path: parent.join("."),
        });
    }
    table::add(outline, parent, &[(key.to_owned(), value.clone())], None)
}
