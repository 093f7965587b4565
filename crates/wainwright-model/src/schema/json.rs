//! The field table as a JSON Schema (draft 2020-12), for editors that complete and check TOML with one.
//!
//! Not here: the fields. The schema can say no more than the table does: whether a reference points at something is
//! checked on reading only.

use super::{ELEMENTS, ElementSpec, FieldSpec, Target, VERSION_KEY, ValueKind};
use crate::kinds::{KINDS, KindSpec};
use crate::place::LONGEST_ID;
use crate::spot::{Extent, Spot};
use crate::version::CURRENT_VERSION;
use serde_json::{Map, Value, json};

/// A text with a figure in it; what units are understood is decided on reading.
const HAS_A_FIGURE: &str = "[0-9]";
/// A figure and a letter: a bare number is no wire size.
const FIGURE_AND_LETTER: &str = "[0-9].*[A-Za-z]|[A-Za-z].*[0-9]";

/// The schema of a project file.
pub fn json_schema() -> Value {
    let mut properties = Map::new();
    let version = json!({ "description": "Version of the file format.", "type": "integer", "minimum": 1, "default": CURRENT_VERSION });
    properties.insert(VERSION_KEY.into(), version);
    for element in ELEMENTS {
        properties.insert(element.name.into(), section(element));
    }
    json!({
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "wainwright project",
        "description": "One camper trailer: decisions and measurements.",
        "type": "object",
        "required": [VERSION_KEY],
        "properties": properties,
        "additionalProperties": false,
        "$defs": definitions(),
    })
}

fn section(element: &ElementSpec) -> Value {
    let one = match element.name {
        "item" | "part" => one_of_a_kind(element),
        _ => plain(element),
    };
    if !element.keyed {
        return one;
    }
    let id = format!("^[a-z0-9_-]{{1,{LONGEST_ID}}}$");
    json!({
        "description": element.doc,
        "type": "object",
        "propertyNames": { "pattern": id },
        "additionalProperties": one,
    })
}

fn plain(element: &ElementSpec) -> Value {
    let mut schema = json!({
        "description": element.doc,
        "type": "object",
        "properties": fields(element.fields),
        "required": required(element.fields),
        "additionalProperties": false,
    });
    if element.name == "state" {
        schema["not"] = json!({ "required": ["on", "off"] });
    }
    schema
}

/// An item or a part: its own fields, and those of the kind it says.
fn one_of_a_kind(element: &ElementSpec) -> Value {
    let mut branches: Vec<Value> = KINDS
        .iter()
        .map(|kind| {
            json!({
                "if": { "properties": { "kind": { "const": kind.name } }, "required": ["kind"] },
                "then": { "$ref": format!("#/$defs/{}", kind.name) },
            })
        })
        .collect();
    branches.push(json!({ "if": { "not": { "required": ["kind"] } }, "then": { "$ref": "#/$defs/any-kind" } }));
    let mut schema = json!({
        "description": element.doc,
        "type": "object",
        "properties": fields(element.fields),
        "required": required(element.fields),
        "allOf": branches,
        "unevaluatedProperties": false,
    });
    if element.name == "item" {
        schema["anyOf"] = json!([{ "required": ["kind"] }, { "required": ["part"] }]);
    }
    schema
}

fn definitions() -> Map<String, Value> {
    let kind = |kind: &KindSpec| {
        (
            kind.name.to_owned(),
            json!({ "description": kind.doc, "properties": fields(kind.fields) }),
        )
    };
    let mut definitions: Map<String, Value> = KINDS.iter().map(kind).collect();
    definitions.insert("any-kind".into(), any_kind());
    definitions
}

/// What an item may have that only says its part: any field of any kind.
fn any_kind() -> Value {
    let mut choices: Map<String, Value> = Map::new();
    for spec in KINDS.iter().flat_map(|kind| kind.fields) {
        let one = value(&spec.value);
        let known = choices
            .entry(spec.name)
            .or_insert_with(|| json!({ "anyOf": [] }));
        if let Some(list) = known["anyOf"].as_array_mut()
            && !list.contains(&one)
        {
            list.push(one);
        }
    }
    json!({ "description": "A field of the part's kind.", "properties": choices })
}

fn fields(specs: &[FieldSpec]) -> Map<String, Value> {
    specs
        .iter()
        .map(|spec| (spec.name.to_owned(), described(spec)))
        .collect()
}

fn required(specs: &[FieldSpec]) -> Vec<&'static str> {
    specs
        .iter()
        .filter(|spec| spec.required)
        .map(|spec| spec.name)
        .collect()
}

fn described(spec: &FieldSpec) -> Value {
    let mut schema = value(&spec.value);
    schema["description"] = Value::from(spec.doc);
    schema
}

fn value(kind: &ValueKind) -> Value {
    match kind {
        ValueKind::Text => json!({ "type": "string" }),
        ValueKind::Boolean => json!({ "type": "boolean" }),
        ValueKind::Integer { low, high } => {
            json!({ "type": "integer", "minimum": low, "maximum": high })
        }
        ValueKind::Number { low, high } => {
            json!({ "type": "number", "minimum": low, "maximum": high })
        }
        ValueKind::Spot => json!({
            "type": "string",
            "pattern": HAS_A_FIGURE,
            "examples": Spot::EXAMPLES,
            "$comment": "from the front wall, from the left wall, above the floor",
        }),
        ValueKind::Extent => json!({
            "type": "string",
            "pattern": HAS_A_FIGURE,
            "examples": Extent::EXAMPLES,
            "$comment": "along the trailer x across it x up",
        }),
        ValueKind::Quantity {
            name,
            low,
            high,
            above_low,
            examples,
        } => {
            let types = if *name == "ratio" {
                json!(["string", "number"])
            } else {
                json!("string")
            };
            json!({
                "type": types,
                "pattern": HAS_A_FIGURE,
                "examples": examples,
                "$comment": range(name, *low, *high, *above_low),
            })
        }
        ValueKind::Day => json!({
            "type": "string",
            "pattern": "^\\s*[0-9]{1,4}-[0-9]{1,2}-[0-9]{1,2}\\s*$",
            "examples": crate::day::Day::EXAMPLES,
        }),
        ValueKind::WireSize => json!({
            "type": "string",
            "pattern": FIGURE_AND_LETTER,
            "examples": wainwright_units::WireSize::EXAMPLES,
        }),
        ValueKind::Choice(names) => json!({ "type": "string", "enum": names }),
        ValueKind::Reference(target) => json!({
            "type": "string",
            "pattern": format!("^[a-z0-9_-]{{1,{LONGEST_ID}}}$"),
            "$comment": match target {
                Target::Part => "id of a part",
                Target::Item => "id of an item",
                Target::Wire => "id of a wire",
                Target::Trunk => "id of a trunk",
                Target::Climate => "id of a climate",
                Target::Trip => "id of a trip",
            },
        }),
        ValueKind::Terminal => json!({
            "type": "string",
            "pattern": format!("^[a-z0-9_-]{{1,{LONGEST_ID}}}\\.[A-Za-z0-9_+-]{{1,{LONGEST_ID}}}$"),
            "examples": ["fridge.+", "block.3"],
        }),
        ValueKind::List(inner) => json!({ "type": "array", "items": value(inner) }),
        ValueKind::Ratings => json!({
            "type": "array",
            "items": { "type": "string", "pattern": format!("^\\s*$|{HAS_A_FIGURE}"), "examples": ["15 A", ""] },
        }),
    }
}

fn range(name: &str, low: f64, high: f64, above_low: bool) -> String {
    let from = if above_low { "above" } else { "from" };
    format!("{name} {from} {low} to {high} in base units")
}
