//! Values and keys as TOML text, and whether a node says what a value says.

use super::{EditProblem, Value};
use crate::syntax::{DEEPEST_NESTING, Node, NodeValue};

/// The value as text. `former` is the text it replaces; single quotes are kept where they can be.
pub(super) fn write(value: &Value, former: &str) -> Result<String, EditProblem> {
    match value {
        Value::Text(text) if keeps_single_quotes(text, former) => Ok(format!("'{text}'")),
        _ => encode(value, 0),
    }
}

fn keeps_single_quotes(text: &str, former: &str) -> bool {
    former.starts_with('\'')
        && !former.starts_with("'''")
        && !text.contains(|c: char| c == '\'' || c.is_control())
}

fn encode(value: &Value, depth: usize) -> Result<String, EditProblem> {
    match value {
        Value::Text(text) => Ok(quoted(text)),
        Value::Integer(integer) => Ok(integer.to_string()),
        Value::Number(number) if number.is_finite() => Ok(format!("{number:?}")),
        Value::Number(number) => Err(EditProblem::BadValue {
            why: format!("{number} is not a finite number"),
        }),
        Value::Bool(flag) => Ok(flag.to_string()),
        Value::List(_) if depth + 1 >= DEEPEST_NESTING => Err(EditProblem::BadValue {
            why: format!("lists nest deeper than {DEEPEST_NESTING}"),
        }),
        Value::List(values) => {
            let inner: Result<Vec<String>, _> = values
                .iter()
                .map(|value| encode(value, depth + 1))
                .collect();
            Ok(format!("[{}]", inner?.join(", ")))
        }
    }
}

fn quoted(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 2);
    out.push('"');
    for character in text.chars() {
        match character {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            '\r' => out.push_str("\\r"),
            '\t' => out.push_str("\\t"),
            c if c.is_control() => out.push_str(&format!("\\u{:04X}", u32::from(c))),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

/// A key as text, quoted where it must be.
pub(super) fn key(name: &str) -> String {
    let bare = !name.is_empty()
        && name
            .bytes()
            .all(|b| b.is_ascii_alphanumeric() || matches!(b, b'_' | b'-'));
    if bare { name.to_owned() } else { quoted(name) }
}

/// Whether the node says the value.
pub(super) fn same(value: &Value, node: &Node) -> bool {
    match (value, &node.value) {
        (Value::Text(a), NodeValue::Text(b)) => a == b,
        (Value::Integer(a), NodeValue::Integer(b)) => a == b,
        (Value::Number(a), NodeValue::Number(b)) => a.to_bits() == b.to_bits(),
        (Value::Bool(a), NodeValue::Bool(b)) => a == b,
        (Value::List(a), NodeValue::List(b)) => {
            a.len() == b.len() && a.iter().zip(b).all(|(a, b)| same(a, b))
        }
        _ => false,
    }
}
