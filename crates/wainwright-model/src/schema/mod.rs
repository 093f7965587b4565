//! The one table of every element and field: read by the parser, the JSON Schema and the forms.
//!
//! Here: what a field's description is made of, and the list of all elements. The descriptions themselves stand
//! beside the structs they make, in `elements` and `kinds`. Not here: reading values (`value`).

mod json;

pub use json::json_schema;

use crate::elements::{
    Head, Limits, Opening, State, Stock, Towing, Trailer, Trunk, Vehicle, Weighing, Wire,
};
use crate::journey::{Climate, Living, Trip, Use};
use crate::kinds::{Body, ItemHead, KINDS, PartHead};
use crate::lining::{Cabinet, Layer, Tools};

/// What a field takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ValueKind {
    /// Free text.
    Text,
    /// `true` or `false`.
    Boolean,
    /// A whole number in a range, both ends included.
    Integer {
        /// Lowest.
        low: i64,
        /// Highest.
        high: i64,
    },
    /// A number without a unit, both ends of its range included.
    Number {
        /// Lowest.
        low: f64,
        /// Highest.
        high: f64,
    },
    /// A number with a unit, as text.
    Quantity {
        /// Name of the quantity.
        name: &'static str,
        /// Lowest \[base unit of the quantity\].
        low: f64,
        /// Highest \[base unit of the quantity\].
        high: f64,
        /// Whether the lowest value itself is refused.
        above_low: bool,
        /// Texts that are accepted.
        examples: &'static [&'static str],
    },
    /// A nominal wire size, as text.
    WireSize,
    /// One word out of a list.
    Choice(&'static [&'static str]),
    /// The id of another element.
    Reference(Target),
    /// An item and its terminal, `"item.terminal"`.
    Terminal,
    /// A place in the box: from the front wall, from the left wall, above the floor.
    Spot,
    /// A size: along the trailer, across it, up.
    Extent,
    /// A day of the calendar.
    Day,
    /// A list of such values.
    List(&'static ValueKind),
    /// A list of fuse ratings, where `""` is an empty way.
    Ratings,
}

/// What a reference points at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Target {
    /// A part of the file or of the library.
    Part,
    /// An item.
    Item,
    /// A wire.
    Wire,
    /// A trunk.
    Trunk,
    /// A climate.
    Climate,
    /// A trip.
    Trip,
}

impl ValueKind {
    /// The same quantity, where zero is refused.
    pub const fn positive(self) -> Self {
        match self {
            Self::Quantity {
                name,
                high,
                examples,
                ..
            } => Self::Quantity {
                name,
                low: 0.0,
                high,
                above_low: true,
                examples,
            },
            other => other,
        }
    }

    /// The same quantity, where anything below zero is refused.
    pub const fn from_zero(self) -> Self {
        match self {
            Self::Quantity {
                name,
                high,
                examples,
                ..
            } => Self::Quantity {
                name,
                low: 0.0,
                high,
                above_low: false,
                examples,
            },
            other => other,
        }
    }

    /// The same quantity in a narrower range \[base unit\], both ends included.
    pub const fn within(self, low: f64, high: f64, examples: &'static [&'static str]) -> Self {
        match self {
            Self::Quantity { name, .. } => Self::Quantity {
                name,
                low,
                high,
                above_low: false,
                examples,
            },
            other => other,
        }
    }
}

/// One field: its key, what it means, what it takes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FieldSpec {
    /// The key in the file.
    pub name: &'static str,
    /// What it means, in sentences.
    pub doc: &'static str,
    /// What it takes.
    pub value: ValueKind,
    /// Whether the element cannot be used without it.
    pub required: bool,
}

/// One table of the file that is not an item kind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ElementSpec {
    /// First name in the header.
    pub name: &'static str,
    /// What it is.
    pub doc: &'static str,
    /// Its fields; items and parts have those of their kind besides.
    pub fields: &'static [FieldSpec],
    /// Whether the header has an id, `[wire.<id>]`.
    pub keyed: bool,
}

/// What every item has: its head, then its body.
const ITEM_FIELDS: &[FieldSpec] =
    &joined::<{ ItemHead::FIELDS.len() + Body::FIELDS.len() }>(ItemHead::FIELDS, Body::FIELDS);
/// What every part has: its head, then its body.
const PART_FIELDS: &[FieldSpec] =
    &joined::<{ PartHead::FIELDS.len() + Body::FIELDS.len() }>(PartHead::FIELDS, Body::FIELDS);

const fn joined<const N: usize>(
    first: &'static [FieldSpec],
    second: &'static [FieldSpec],
) -> [FieldSpec; N] {
    let mut all = [first[0]; N];
    let mut at = 0;
    while at < N {
        all[at] = if at < first.len() {
            first[at]
        } else {
            second[at - first.len()]
        };
        at += 1;
    }
    all
}

/// Every table of the file, in the usual order.
pub const ELEMENTS: &[ElementSpec] = &[
    ElementSpec {
        name: "project",
        doc: Head::DOC,
        fields: Head::FIELDS,
        keyed: false,
    },
    ElementSpec {
        name: "trailer",
        doc: Trailer::DOC,
        fields: Trailer::FIELDS,
        keyed: false,
    },
    ElementSpec {
        name: "vehicle",
        doc: Vehicle::DOC,
        fields: Vehicle::FIELDS,
        keyed: false,
    },
    ElementSpec {
        name: "towing",
        doc: Towing::DOC,
        fields: Towing::FIELDS,
        keyed: false,
    },
    ElementSpec {
        name: "living",
        doc: Living::DOC,
        fields: Living::FIELDS,
        keyed: false,
    },
    ElementSpec {
        name: "tools",
        doc: Tools::DOC,
        fields: Tools::FIELDS,
        keyed: false,
    },
    ElementSpec {
        name: "limits",
        doc: Limits::DOC,
        fields: Limits::FIELDS,
        keyed: false,
    },
    ElementSpec {
        name: "part",
        doc: PartHead::DOC,
        fields: PART_FIELDS,
        keyed: true,
    },
    ElementSpec {
        name: "item",
        doc: ItemHead::DOC,
        fields: ITEM_FIELDS,
        keyed: true,
    },
    ElementSpec {
        name: "opening",
        doc: Opening::DOC,
        fields: Opening::FIELDS,
        keyed: true,
    },
    ElementSpec {
        name: "trunk",
        doc: Trunk::DOC,
        fields: Trunk::FIELDS,
        keyed: true,
    },
    ElementSpec {
        name: "wire",
        doc: Wire::DOC,
        fields: Wire::FIELDS,
        keyed: true,
    },
    ElementSpec {
        name: "state",
        doc: State::DOC,
        fields: State::FIELDS,
        keyed: true,
    },
    ElementSpec {
        name: "stock",
        doc: Stock::DOC,
        fields: Stock::FIELDS,
        keyed: true,
    },
    ElementSpec {
        name: "weighing",
        doc: Weighing::DOC,
        fields: Weighing::FIELDS,
        keyed: true,
    },
    ElementSpec {
        name: "climate",
        doc: Climate::DOC,
        fields: Climate::FIELDS,
        keyed: true,
    },
    ElementSpec {
        name: "trip",
        doc: Trip::DOC,
        fields: Trip::FIELDS,
        keyed: true,
    },
    ElementSpec {
        name: "use",
        doc: Use::DOC,
        fields: Use::FIELDS,
        keyed: true,
    },
    ElementSpec {
        name: "layer",
        doc: Layer::DOC,
        fields: Layer::FIELDS,
        keyed: true,
    },
    ElementSpec {
        name: "cabinet",
        doc: Cabinet::DOC,
        fields: Cabinet::FIELDS,
        keyed: true,
    },
];

/// Key of the file version, alone at the top of the file.
pub const VERSION_KEY: &str = "wainwright";

/// The table with this name.
pub fn element(name: &str) -> Option<&'static ElementSpec> {
    ELEMENTS.iter().find(|element| element.name == name)
}

/// The field an edit path such as `["item", "fridge", "power"]` may mean: the first field with that key in the
/// element or, for items and parts, in any kind. Use [`crate::kinds::KindSpec`] when the kind is known.
pub fn field(path: &[&str]) -> Option<&'static FieldSpec> {
    let (element_name, key) = match path {
        [element, key] => (element, key),
        [element, _, key] => (element, key),
        _ => return None,
    };
    let element = element(element_name)?;
    let kinds = KINDS
        .iter()
        .filter(|_| matches!(element.name, "item" | "part"))
        .flat_map(|kind| kind.fields);
    element
        .fields
        .iter()
        .chain(kinds)
        .find(|field| field.name == *key)
}
