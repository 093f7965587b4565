//! Stories: the field table and the JSON Schema made from it say the same, and fit the fixture.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test may stop on anything unexpected"
)]

use serde_json::Value;
use std::collections::BTreeSet;
use wainwright_model::schema::{ELEMENTS, ValueKind, field};
use wainwright_model::{KINDS, json_schema};
use wainwright_units::{Quantity, Voltage};

#[test]
fn schema_has_every_element_kind_and_field_with_its_description() {
    let schema = json_schema();
    assert_eq!(
        schema["$schema"],
        "https://json-schema.org/draft/2020-12/schema"
    );
    for element in ELEMENTS {
        let section = &schema["properties"][element.name];
        let table = if element.keyed {
            &section["additionalProperties"]
        } else {
            section
        };
        for field in element.fields {
            assert_eq!(
                table["properties"][field.name]["description"], field.doc,
                "{}.{}",
                element.name, field.name
            );
            let required = table["required"]
                .as_array()
                .unwrap()
                .contains(&Value::from(field.name));
            assert_eq!(required, field.required, "{}.{}", element.name, field.name);
        }
    }
    for kind in KINDS {
        let definition = &schema["$defs"][kind.name];
        assert_eq!(
            definition["properties"].as_object().unwrap().len(),
            kind.fields.len(),
            "{}",
            kind.name
        );
        for field in kind.fields {
            assert!(
                !schema["$defs"]["any-kind"]["properties"][field.name].is_null(),
                "{}",
                field.name
            );
        }
    }
}

#[test]
fn every_internal_link_of_the_schema_leads_somewhere() {
    let schema = json_schema();
    let mut links = BTreeSet::new();
    collect(&schema, &mut links);
    assert!(links.len() > KINDS.len());
    for link in links {
        assert!(
            schema.pointer(link.strip_prefix('#').unwrap()).is_some(),
            "{link}"
        );
    }
}

fn collect(value: &Value, links: &mut BTreeSet<String>) {
    match value {
        Value::Object(map) => map.iter().for_each(|(key, inner)| {
            if key == "$ref" {
                links.insert(inner.as_str().unwrap().to_owned());
            }
            collect(inner, links);
        }),
        Value::Array(list) => list.iter().for_each(|inner| collect(inner, links)),
        _ => {}
    }
}

#[test]
fn quantities_carry_the_range_and_examples_of_the_units_crate() {
    let voltage = field(&["item", "x", "charge_voltage"]).unwrap();
    let ValueKind::Quantity {
        name,
        low,
        high,
        above_low,
        examples,
    } = voltage.value
    else {
        panic!("a quantity")
    };
    assert_eq!(
        (name, low, high, above_low),
        (Voltage::NAME, 0.0, Voltage::LEGAL.high, true)
    );
    assert_eq!(examples, Voltage::EXAMPLES);
    assert!(
        examples
            .iter()
            .all(|example| Voltage::parse(example).is_ok())
    );
}

#[test]
fn no_field_is_described_twice_and_no_description_is_empty() {
    for kind in KINDS {
        let mut seen = BTreeSet::new();
        let item = ELEMENTS
            .iter()
            .find(|element| element.name == "item")
            .unwrap();
        for field in item.fields.iter().chain(kind.fields) {
            assert!(seen.insert(field.name), "{}.{}", kind.name, field.name);
            assert!(
                field.doc.ends_with('.') && field.doc.len() > 5,
                "{}.{}: {}",
                kind.name,
                field.name,
                field.doc
            );
        }
        assert!(kind.doc.ends_with('.'), "{}", kind.name);
    }
    assert!(field(&["wire", "w", "strange"]).is_none());
    assert!(field(&["project", "name"]).is_some());
}
