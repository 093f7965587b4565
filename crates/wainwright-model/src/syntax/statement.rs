//! Reading one statement with the TOML library, and wording what the library refuses.
//!
//! Not here: borders between statements ([`super::scan`]), tables ([`super::tree`]).

use super::{Body, Fault, KeyPart, Node, NodeValue, plain};
use std::ops::Range;
use toml_edit::{Array, Document, InlineTable, Item, Key, Table, TomlError, Value};

/// Reads the statement that stands at `span` of `text`.
pub(super) fn read(text: &str, span: Range<usize>) -> Result<Body, Fault> {
    plain::read(text, span.clone()).map_or_else(|| by_library(text, span), Ok)
}

/// Reads it with the TOML library.
pub(super) fn by_library(text: &str, span: Range<usize>) -> Result<Body, Fault> {
    let base = span.start;
    let slice = text.get(span).unwrap_or("");
    if slice.starts_with('\u{feff}') {
        // The library takes this mark as the start of a text; inside one it is no mark at all.
        return Err(unreadable(slice, base));
    }
    let document = Document::parse(slice).map_err(|error| fault(slice, base, &error))?;
    let mut path = Vec::new();
    let mut table: &Table = document.as_table();
    loop {
        let Some((name, item)) = table.iter().next() else {
            return Err(unreadable(slice, base));
        };
        path.push(part(table.key(name), name, base));
        match item {
            Item::Table(inner) if !inner.is_implicit() => {
                return Ok(Body::Header { path, array: false });
            }
            Item::Table(inner) => table = inner,
            Item::ArrayOfTables(_) => return Ok(Body::Header { path, array: true }),
            Item::Value(value) => {
                return Ok(Body::Entry {
                    path,
                    value: node(value, base),
                });
            }
            Item::None => return Err(unreadable(slice, base)),
        }
    }
}

fn part(key: Option<&Key>, name: &str, base: usize) -> KeyPart {
    let span = key.and_then(Key::span).unwrap_or(0..0);
    KeyPart {
        name: name.to_owned(),
        span: span.start + base..span.end + base,
    }
}

fn node(value: &Value, base: usize) -> Node {
    let span = value.span().unwrap_or(0..0);
    let span = span.start + base..span.end + base;
    let value = match value {
        Value::String(text) => NodeValue::Text(text.value().clone()),
        Value::Integer(integer) => NodeValue::Integer(*integer.value()),
        Value::Float(number) => NodeValue::Number(*number.value()),
        Value::Boolean(flag) => NodeValue::Bool(*flag.value()),
        Value::Datetime(_) => NodeValue::Date,
        Value::Array(array) => NodeValue::List(list(array, base)),
        Value::InlineTable(table) => {
            let mut entries = Vec::new();
            inline(table, base, &[], &mut entries);
            NodeValue::Table(entries)
        }
    };
    Node { span, value }
}

fn list(array: &Array, base: usize) -> Vec<Node> {
    array.iter().map(|value| node(value, base)).collect()
}

fn inline(
    table: &InlineTable,
    base: usize,
    prefix: &[KeyPart],
    entries: &mut Vec<(Vec<KeyPart>, Node)>,
) {
    for (name, value) in table.iter() {
        let mut path = prefix.to_vec();
        path.push(part(table.key(name), name, base));
        match value {
            Value::InlineTable(inner) if inner.is_dotted() => inline(inner, base, &path, entries),
            other => entries.push((path, node(other, base))),
        }
    }
}

fn unreadable(slice: &str, base: usize) -> Fault {
    Fault {
        at: base + leading(slice),
        found: snippet(slice.trim()),
        expected: "`key = value` or `[table.name]`".into(),
        hint: None,
        first: None,
    }
}

fn fault(slice: &str, base: usize, error: &TomlError) -> Fault {
    let span = error.span().unwrap_or(0..0);
    let start = floor(slice, span.start.max(leading(slice)));
    let bad = slice.get(start..).unwrap_or("");
    let shown = bad.lines().next().unwrap_or("").trim();
    let found = if shown.is_empty() {
        "the end of the line".to_owned()
    } else {
        snippet(shown)
    };
    Fault {
        at: base + start,
        found,
        expected: expectation(error.message()),
        hint: hint(slice),
        first: None,
    }
}

/// The library's wording with its first clause made into what was expected.
fn expectation(message: &str) -> String {
    match message {
        "" => "legal TOML".to_owned(),
        text => format!("legal TOML ({text})"),
    }
}

/// The two slips people make most: no quotes round a quantity, no `=`.
fn hint(slice: &str) -> Option<String> {
    let line = slice.lines().next().unwrap_or("").trim();
    if line.starts_with('[') {
        return Some("a table header is one line such as [item.fridge]".into());
    }
    let Some((key, rest)) = line.split_once('=') else {
        return Some("write `key = value`".into());
    };
    let bare = rest.split('#').next().unwrap_or("").trim();
    let key = key.trim();
    match bare.chars().next() {
        None => Some(format!("write a value after `{key} =`, or delete the line")),
        Some('"' | '\'') => {
            Some("close the quote, and write \\\" for a quote inside the text".into())
        }
        Some('[') => Some("close the list with ]; put a comma between its values".into()),
        Some('{') => Some("close the table with }".into()),
        Some(_) => Some(format!(
            "write {key} = \"{}\"",
            snippet(&bare.replace(['"', '\\'], ""))
        )),
    }
}

fn leading(slice: &str) -> usize {
    slice.len() - slice.trim_start().len()
}

fn floor(slice: &str, mut at: usize) -> usize {
    at = at.min(slice.len());
    while !slice.is_char_boundary(at) {
        at -= 1;
    }
    at
}

/// At most 40 characters of `text`.
fn snippet(text: &str) -> String {
    let mut shown: String = text.chars().take(40).collect();
    if shown.len() < text.len() {
        shown.push('…');
    }
    shown
}
