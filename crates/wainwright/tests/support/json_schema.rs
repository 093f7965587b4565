//! Holds a JSON value against a JSON Schema: just the words of the standard
//! (draft 2020-12) that our own schemas use; any other word is an error, so
//! that nothing is passed over. Stricter than the standard in one thing: a
//! field the schema does not describe is an error too.

use serde_json::Value;

/// Every way in which `value` does not follow `schema`.
pub fn faults(schema: &Value, value: &Value) -> Vec<String> {
    let mut found = Vec::new();
    check(schema, schema, value, "", &mut found);
    found
}

/// Words that say nothing about the value.
const WORDS_FOR_PEOPLE: &[&str] = &[
    "$schema",
    "$defs",
    "$id",
    "title",
    "description",
    "examples",
];

fn check(root: &Value, schema: &Value, value: &Value, at: &str, found: &mut Vec<String>) {
    let Some(words) = schema.as_object() else {
        found.push(format!("{at}: the schema is no object"));
        return;
    };
    for (word, rule) in words {
        match word.as_str() {
            "$ref" => match resolve(root, rule) {
                Some(target) => check(root, target, value, at, found),
                None => found.push(format!("{at}: no such definition {rule}")),
            },
            "type" => {
                if !has_type(rule, value) {
                    found.push(format!("{at}: expected {rule}, found {value}"));
                }
            }
            "const" => {
                if rule != value {
                    found.push(format!("{at}: expected {rule}, found {value}"));
                }
            }
            "enum" => {
                if !rule.as_array().unwrap().contains(value) {
                    found.push(format!("{at}: {value} is not among {rule}"));
                }
            }
            "required" => required(rule, value, at, found),
            "properties" => properties(root, rule, value, at, found),
            "items" => {
                for (index, item) in value.as_array().into_iter().flatten().enumerate() {
                    check(root, rule, item, &format!("{at}/{index}"), found);
                }
            }
            "minItems" | "maxItems" => length(word, rule, value, at, found),
            "minimum" => {
                if value.as_f64().is_some_and(|n| n < rule.as_f64().unwrap()) {
                    found.push(format!("{at}: {value} is below {rule}"));
                }
            }
            "anyOf" | "oneOf" => one_of(root, rule, value, at, word == "oneOf", found),
            word if WORDS_FOR_PEOPLE.contains(&word) => {}
            word => found.push(format!(
                "{at}: the schema uses {word}, which is not checked here"
            )),
        }
    }
}

fn resolve<'s>(root: &'s Value, reference: &Value) -> Option<&'s Value> {
    root.pointer(reference.as_str()?.strip_prefix('#')?)
}

fn has_type(rule: &Value, value: &Value) -> bool {
    let is = |name: &str| match name {
        "null" => value.is_null(),
        "boolean" => value.is_boolean(),
        "number" => value.is_number(),
        "integer" => value.is_i64() || value.is_u64(),
        "string" => value.is_string(),
        "array" => value.is_array(),
        "object" => value.is_object(),
        other => panic!("unknown type {other}"),
    };
    match rule {
        Value::Array(names) => names.iter().any(|name| is(name.as_str().unwrap())),
        name => is(name.as_str().unwrap()),
    }
}

fn required(rule: &Value, value: &Value, at: &str, found: &mut Vec<String>) {
    for name in rule.as_array().unwrap() {
        let name = name.as_str().unwrap();
        if value.is_object() && value.get(name).is_none() {
            found.push(format!("{at}: {name} is missing"));
        }
    }
}

fn properties(root: &Value, rule: &Value, value: &Value, at: &str, found: &mut Vec<String>) {
    for (name, field) in value.as_object().into_iter().flatten() {
        match rule.get(name) {
            Some(schema) => check(root, schema, field, &format!("{at}/{name}"), found),
            None => found.push(format!("{at}: {name} is not described")),
        }
    }
}

fn length(word: &str, rule: &Value, value: &Value, at: &str, found: &mut Vec<String>) {
    let (Some(items), limit) = (value.as_array(), rule.as_u64().unwrap()) else {
        return;
    };
    let count = items.len() as u64;
    if (word == "minItems" && count < limit) || (word == "maxItems" && count > limit) {
        found.push(format!("{at}: {count} items, {word} is {limit}"));
    }
}

fn one_of(root: &Value, rule: &Value, value: &Value, at: &str, one: bool, found: &mut Vec<String>) {
    let tries = rule.as_array().unwrap().iter().map(|schema| {
        let mut faults = Vec::new();
        check(root, schema, value, at, &mut faults);
        faults
    });
    let tries: Vec<Vec<String>> = tries.collect();
    let fits = tries.iter().filter(|faults| faults.is_empty()).count();
    if fits == 0 || (one && fits > 1) {
        let nearest = tries.iter().min_by_key(|faults| faults.len());
        found.push(format!(
            "{at}: {fits} of the choices fit; nearest: {nearest:?}"
        ));
    }
}
