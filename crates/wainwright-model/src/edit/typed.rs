//! What one table says, key by key, as it was typed: for forms, which must also show what could not be read.
//!
//! Not here: what the values mean, and what a part or a like wire adds.

use super::Value;
use super::outline::{Outline, names};
use crate::syntax::{Node, NodeValue};

/// Every plain value of the table at `path`, in the order of the text; nothing when there is no such table.
///
/// ```
/// use wainwright_model::{Value, path, typed};
/// let text = "[wire.a]\nsize = \"14 AWGG\"\nbundle = 3\n";
/// let said = typed(text, &path(["wire", "a"]));
/// assert_eq!(said, [("size".into(), Value::Text("14 AWGG".into())), ("bundle".into(), Value::Integer(3))]);
/// ```
pub fn typed(text: &str, path: &[String]) -> Vec<(String, Value)> {
    let outline = Outline::new(text.to_owned());
    let mut said = Vec::new();
    for placed in outline.near(path) {
        let Some(value) = placed.value() else {
            continue;
        };
        match placed.path.strip_prefix(path) {
            Some([key]) => said.extend(plain(value).map(|value| (key.clone(), value))),
            Some([]) => said.extend(inside(value)),
            _ => {}
        }
    }
    said
}

/// The entries of an inline table that have a single name.
fn inside(node: &Node) -> Vec<(String, Value)> {
    let NodeValue::Table(entries) = &node.value else {
        return Vec::new();
    };
    let named = entries
        .iter()
        .filter_map(|(key, value)| match names(key).as_slice() {
            [name] => Some((name.clone(), plain(value)?)),
            _ => None,
        });
    named.collect()
}

/// The value, unless it is of a sort no field takes.
fn plain(node: &Node) -> Option<Value> {
    match &node.value {
        NodeValue::Text(text) => Some(Value::Text(text.clone())),
        NodeValue::Integer(integer) => Some(Value::Integer(*integer)),
        NodeValue::Number(number) => Some(Value::Number(*number)),
        NodeValue::Bool(flag) => Some(Value::Bool(*flag)),
        NodeValue::List(nodes) => nodes
            .iter()
            .map(plain)
            .collect::<Option<Vec<_>>>()
            .map(Value::List),
        NodeValue::Date | NodeValue::Table(_) => None,
    }
}
