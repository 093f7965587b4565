//! Adding and removing a table.

use super::outline::{Outline, Placed};
use super::patch::Splice;
use super::{EditProblem, Value, field, value_text};
use crate::place::Id;
use crate::schema;
use crate::syntax::Body;
use std::collections::BTreeSet;

/// Adds `[table]` with its fields.
pub(super) fn add(
    outline: &Outline,
    table: &[String],
    fields: &[(String, Value)],
    after: Option<&[String]>,
) -> Result<Vec<Splice>, EditProblem> {
    check_name(table)?;
    if outline.is_there(table) {
        return Err(EditProblem::AlreadyThere {
            path: table.join("."),
        });
    }
    let anchor = match after {
        Some(after) => Some(
            last_section_with(outline, after).ok_or(EditProblem::NoSuchTable {
                path: after.join("."),
            })?,
        ),
        None => anchor(outline, table),
    };
    let at = anchor.map_or(outline.text.len(), |section| outline.end_of(section));
    let ending = outline.line_ending(None);
    let block = block(table, fields, ending)?;
    let before = outline.text.get(..at).unwrap_or("");
    let opening = if before.is_empty() || before == "\u{feff}" {
        String::new()
    } else if before.ends_with('\n') {
        if ends_blank(before) {
            String::new()
        } else {
            ending.to_owned()
        }
    } else {
        format!("{ending}{ending}")
    };
    let closing = if outline.line(at).trim().is_empty() {
        ""
    } else {
        ending
    };
    Ok(vec![Splice {
        span: at..at,
        inserted: format!("{opening}{block}{closing}"),
    }])
}

/// Takes out every statement of `table`, the comments that hang on it, and one gap.
pub(super) fn remove(outline: &Outline, table: &[String]) -> Result<Vec<Splice>, EditProblem> {
    if table.is_empty() {
        return Err(EditProblem::EmptyPath);
    }
    if !outline.is_there(table) {
        return Err(EditProblem::NoSuchTable {
            path: table.join("."),
        });
    }
    if !outline.is_table(table) {
        return Err(EditProblem::NoSuchTable {
            path: format!("{} (it is a key)", table.join(".")),
        });
    }
    let mut splices: Vec<Splice> = Vec::new();
    let mut gone = None;
    for placed in outline.near(table) {
        if gone == Some(placed.section) {
            continue;
        }
        let (statement, path) = (&placed.row.statement, placed.path);
        match &statement.body {
            Body::Header { .. } if path.starts_with(table) => {
                gone = Some(placed.section);
                splices.push(section(outline, placed.section, statement.span.start));
            }
            Body::Entry { .. } if path.starts_with(table) => {
                splices.push(Splice {
                    span: statement.span.start..statement.next,
                    inserted: String::new(),
                });
            }
            Body::Entry { value, .. } => {
                if let Some(rest) = table.strip_prefix(path.as_slice()) {
                    splices.extend(field::out_of_inline(outline, value, rest)?);
                }
            }
            _ => {}
        }
    }
    Ok(merged(splices))
}

/// The stretch of one header and its entries.
fn section(outline: &Outline, number: usize, header_start: usize) -> Splice {
    let mut start = outline.comment_above(header_start);
    let mut end = outline.end_of(number);
    let blank_above = ends_blank(outline.text.get(..start).unwrap_or(""));
    if blank_above {
        while end < outline.text.len() && outline.line(end).trim().is_empty() {
            end = outline.next_line(end);
        }
    }
    if end >= outline.text.len() {
        while let Some(above) = outline
            .previous_line(start)
            .filter(|above| outline.line(*above).trim().is_empty())
        {
            start = above;
        }
    }
    Splice {
        span: start..end,
        inserted: String::new(),
    }
}

/// Neighbouring stretches may both claim the gap between them.
fn merged(mut splices: Vec<Splice>) -> Vec<Splice> {
    splices.sort_by_key(|splice| splice.span.start);
    let mut merged: Vec<Splice> = Vec::new();
    for splice in splices {
        match merged.last_mut() {
            Some(last) if splice.span.start <= last.span.end => {
                last.span.end = last.span.end.max(splice.span.end)
            }
            _ => merged.push(splice),
        }
    }
    merged
}

/// Whether the text ends in a blank line, or is empty.
fn ends_blank(text: &str) -> bool {
    let Some(rest) = text.strip_suffix('\n') else {
        return text.trim_start_matches('\u{feff}').is_empty();
    };
    rest.rsplit('\n').next().unwrap_or("").trim().is_empty()
}

fn check_name(table: &[String]) -> Result<(), EditProblem> {
    let unknown = |name: &str, expected: &str| {
        Err(EditProblem::BadName {
            name: name.to_owned(),
            expected: expected.to_owned(),
        })
    };
    match table {
        [] => Err(EditProblem::EmptyPath),
        [name] if schema::element(name).is_some_and(|element| !element.keyed) => Ok(()),
        [name, id] if schema::element(name).is_some_and(|element| element.keyed) => {
            if Id::new(id).is_some() {
                Ok(())
            } else {
                unknown(id, "an id of small letters, digits, - and _")
            }
        }
        _ => unknown(
            &table.join("."),
            "a table of the file, such as wire.fridge-pos",
        ),
    }
}

/// The section in which the last statement of `path` stands.
fn last_section_with(outline: &Outline, path: &[String]) -> Option<usize> {
    let holds = |at: &[String]| at.starts_with(path);
    let inline = |placed: &Placed<'_>| {
        placed.value().is_some() && path.starts_with(placed.path) && outline.leaf(path).is_some()
    };
    outline
        .near(path)
        .rfind(|placed| holds(placed.path) || inline(placed))
        .map(|placed| placed.section)
}

/// After the last table of the same element; else after the tables that usually stand before it.
fn anchor(outline: &Outline, table: &[String]) -> Option<usize> {
    let name = table.first()?;
    let same = last_section_with(outline, std::slice::from_ref(name));
    if same.is_some() || table.len() > 1 {
        return same;
    }
    // `project`, `trailer` and `limits` go to the top, in this order.
    let place = schema::ELEMENTS
        .iter()
        .position(|element| element.name == name)?;
    let earlier = schema::ELEMENTS.get(..place)?.iter().rev();
    let found = earlier
        .filter_map(|element| last_section_with(outline, &[element.name.to_owned()]))
        .next();
    found.or_else(|| outline.last_of(0).map(|_| 0))
}

fn block(
    table: &[String],
    fields: &[(String, Value)],
    ending: &str,
) -> Result<String, EditProblem> {
    let names: Vec<String> = table.iter().map(|name| value_text::key(name)).collect();
    let mut block = format!("[{}]{ending}", names.join("."));
    let mut seen = BTreeSet::new();
    for (key, value) in fields {
        if !seen.insert(key) {
            return Err(EditProblem::BadValue {
                why: format!("the key {key} is given twice"),
            });
        }
        block.push_str(&format!(
            "{} = {}{ending}",
            value_text::key(key),
            value_text::write(value, "")?
        ));
    }
    Ok(block)
}
