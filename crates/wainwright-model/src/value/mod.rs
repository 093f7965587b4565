//! Reading one value: from a node of the text to the type a field has, or why not.
//!
//! Quantities are read in [`quantity`], lists in [`list`], words, names and wire sizes here.
//!
//! Not here: which fields there are (`elements`, `kinds`), whether a reference points at something (`read`).

mod list;
mod quantity;

use crate::kinds::Kind;
use crate::place::{Id, TerminalRef};
use crate::problem::did_you_mean;
use crate::schema::{Target, ValueKind};
use crate::syntax::{Node, NodeValue};
use wainwright_units::{FromText, QuantityError, WireSize};

/// Why a value is not what the field takes.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Mismatch {
    /// Characters into the text of the value where the trouble starts, when it is inside a text.
    pub(crate) inside: Option<usize>,
    /// Byte offset of the element of a list that is at fault.
    pub(crate) element: Option<std::ops::Range<usize>>,
    pub(crate) found: String,
    pub(crate) expected: String,
    pub(crate) hint: Option<String>,
}

/// A type a field can have.
pub(crate) trait FieldValue: Sized {
    /// What is accepted when the field says nothing narrower.
    const KIND: ValueKind;

    /// Reads `node` as this type, held against `kind`.
    fn read(node: &Node, kind: &ValueKind) -> Result<Self, Mismatch>;
}

impl Mismatch {
    pub(crate) fn new(found: impl Into<String>, expected: impl Into<String>) -> Self {
        Self {
            inside: None,
            element: None,
            found: found.into(),
            expected: expected.into(),
            hint: None,
        }
    }

    fn hint(mut self, hint: Option<String>) -> Self {
        self.hint = hint;
        self
    }
}

impl From<QuantityError> for Mismatch {
    fn from(error: QuantityError) -> Self {
        let found = if error.found == "nothing" {
            error.found
        } else {
            format!("`{}`", error.found)
        };
        Self {
            inside: Some(error.column.saturating_sub(1)),
            element: None,
            found,
            expected: error.expected,
            hint: error.hint,
        }
    }
}

/// A node in words, for "found ...".
pub(crate) fn shown(node: &Node) -> String {
    match &node.value {
        NodeValue::Text(text) => {
            let short: String = text.chars().take(40).collect();
            let more = if short.len() < text.len() { "…" } else { "" };
            format!("{short:?}{more}")
        }
        NodeValue::Integer(integer) => format!("the number {integer}"),
        NodeValue::Number(number) => format!("the number {number}"),
        NodeValue::Bool(flag) => format!("{flag}"),
        NodeValue::Date => "a date".into(),
        NodeValue::List(_) => "a list".into(),
        NodeValue::Table(_) => "a table".into(),
    }
}

impl FieldValue for String {
    const KIND: ValueKind = ValueKind::Text;

    fn read(node: &Node, kind: &ValueKind) -> Result<Self, Mismatch> {
        let NodeValue::Text(text) = &node.value else {
            let mismatch = Mismatch::new(shown(node), "text in quotes");
            return Err(mismatch.hint(quoted(node)));
        };
        match kind {
            ValueKind::Reference(target) if Id::new(text).is_none() => {
                Err(bad_id(node, text, *target))
            }
            _ => Ok(text.clone()),
        }
    }
}

fn bad_id(node: &Node, text: &str, target: Target) -> Mismatch {
    let what = match target {
        Target::Part => "a part",
        Target::Item => "an item",
        Target::Wire => "a wire",
        Target::Trunk => "a trunk",
        Target::Climate => "a climate",
        Target::Trip => "a trip",
    };
    let hint =
        Id::suggest(text.split('.').next().unwrap_or("")).map(|id| format!("did you mean {id}?"));
    Mismatch::new(
        shown(node),
        format!("the id of {what} (small letters, digits, - and _)"),
    )
    .hint(hint)
}

fn quoted(node: &Node) -> Option<String> {
    match &node.value {
        NodeValue::Integer(integer) => Some(format!("write \"{integer}\"")),
        NodeValue::Number(number) => Some(format!("write \"{number}\"")),
        NodeValue::Bool(flag) => Some(format!("write \"{flag}\"")),
        _ => None,
    }
}

impl FieldValue for bool {
    const KIND: ValueKind = ValueKind::Boolean;

    fn read(node: &Node, _: &ValueKind) -> Result<Self, Mismatch> {
        match &node.value {
            NodeValue::Bool(flag) => Ok(*flag),
            NodeValue::Text(text) => {
                let meant = match text.to_ascii_lowercase().as_str() {
                    "true" | "yes" | "on" | "y" => Some("write true without quotes".to_owned()),
                    "false" | "no" | "off" | "n" => Some("write false without quotes".to_owned()),
                    _ => None,
                };
                Err(Mismatch::new(shown(node), "true or false").hint(meant))
            }
            _ => Err(Mismatch::new(shown(node), "true or false")),
        }
    }
}

impl FieldValue for u32 {
    const KIND: ValueKind = ValueKind::Integer {
        low: 1,
        high: 1_000,
    };

    fn read(node: &Node, kind: &ValueKind) -> Result<Self, Mismatch> {
        let (low, high) = match kind {
            ValueKind::Integer { low, high } => (*low, *high),
            _ => (0, i64::from(u32::MAX)),
        };
        let expected = format!("a whole number from {low} to {high}");
        match &node.value {
            NodeValue::Integer(integer) if (low..=high).contains(integer) => {
                u32::try_from(*integer).map_err(|_| Mismatch::new(shown(node), expected))
            }
            NodeValue::Text(text) => {
                let bare = text
                    .trim()
                    .parse::<i64>()
                    .ok()
                    .map(|n| format!("write {n} without quotes"));
                Err(Mismatch::new(shown(node), expected).hint(bare))
            }
            _ => Err(Mismatch::new(shown(node), expected)),
        }
    }
}

impl FieldValue for f64 {
    const KIND: ValueKind = ValueKind::Number {
        low: 0.0,
        high: 1_000_000.0,
    };

    fn read(node: &Node, kind: &ValueKind) -> Result<Self, Mismatch> {
        let (low, high) = match kind {
            ValueKind::Number { low, high } => (*low, *high),
            _ => (f64::MIN, f64::MAX),
        };
        let expected = format!("a number from {low} to {high}, without quotes");
        let number = match &node.value {
            #[allow(clippy::cast_precision_loss, reason = "prices are small")]
            NodeValue::Integer(integer) => *integer as f64,
            NodeValue::Number(number) => *number,
            NodeValue::Text(text) => {
                let bare = text.trim().parse::<f64>().ok();
                let hint = bare.map(|n| format!("write {n} without quotes"));
                return Err(Mismatch::new(shown(node), expected).hint(hint));
            }
            _ => return Err(Mismatch::new(shown(node), expected)),
        };
        if (low..=high).contains(&number) {
            Ok(number)
        } else {
            Err(Mismatch::new(shown(node), expected))
        }
    }
}

impl FieldValue for WireSize {
    const KIND: ValueKind = ValueKind::WireSize;

    fn read(node: &Node, _: &ValueKind) -> Result<Self, Mismatch> {
        match &node.value {
            NodeValue::Text(text) => Ok(Self::from_text(text)?),
            NodeValue::Integer(integer) => {
                Err(
                    Mismatch::new(shown(node), "a wire size such as \"10 AWG\"").hint(Some(
                        format!("write \"{integer} AWG\", \"{integer} SAE\" or \"{integer} mm2\""),
                    )),
                )
            }
            _ => Err(Mismatch::new(shown(node), "a wire size such as \"10 AWG\"")),
        }
    }
}

impl FieldValue for TerminalRef {
    const KIND: ValueKind = ValueKind::Terminal;

    fn read(node: &Node, _: &ValueKind) -> Result<Self, Mismatch> {
        let expected = "an item and its terminal, such as \"fridge.+\"";
        let NodeValue::Text(text) = &node.value else {
            return Err(Mismatch::new(shown(node), expected));
        };
        Self::parse(text).ok_or_else(|| {
            let hint = (!text.contains('.'))
                .then(|| "put a dot between the item and its terminal".to_owned());
            Mismatch::new(shown(node), expected).hint(hint)
        })
    }
}

impl FieldValue for Kind {
    const KIND: ValueKind = ValueKind::Choice(Self::NAMES);

    fn read(node: &Node, _: &ValueKind) -> Result<Self, Mismatch> {
        choice(node, Self::NAMES, Self::parse)
    }
}

/// Reads one word out of `names`.
pub(crate) fn choice<T>(
    node: &Node,
    names: &'static [&'static str],
    parse: impl Fn(&str) -> Option<T>,
) -> Result<T, Mismatch> {
    let expected = || format!("one of {}", names.join(", "));
    let NodeValue::Text(text) = &node.value else {
        return Err(Mismatch::new(shown(node), expected()));
    };
    let hint = || did_you_mean(text, names.iter().copied());
    parse(text).ok_or_else(|| Mismatch::new(shown(node), expected()).hint(hint()))
}
