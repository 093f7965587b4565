//! The published schema against real reports: every field that is printed is
//! described, and every field that is described is printed.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a story that cannot go on must fail"
)]

#[path = "support/json_schema.rs"]
mod json_schema;
#[path = "support/projects.rs"]
mod projects;
mod support;

use projects::{HALF_READABLE, UNFUSED};
use serde_json::{Value, json};
use std::collections::BTreeSet;
use std::process::Command;
use wainwright::study::Study;
use wainwright::views::{Fixes, report};

const DEMOS: [&str; 2] = [
    include_str!("../../../examples/dark-sky.toml"),
    include_str!("../../../examples/dark-sky-metric.toml"),
];

fn schema() -> Value {
    serde_json::from_str(include_str!("../../../docs/schema/report.json")).unwrap()
}

fn reports() -> Vec<Value> {
    let mut texts = vec!["", "wainwright = 1\n", UNFUSED, HALF_READABLE];
    texts.extend(DEMOS);
    let of = |text| serde_json::to_value(report(&Study::of(text), None, Fixes::LeftOut)).unwrap();
    texts.into_iter().map(of).collect()
}

#[test]
fn real_reports_follow_the_published_schema() {
    let schema = schema();
    for report in reports() {
        let faults = json_schema::faults(&schema, &report);
        assert!(faults.is_empty(), "{}", faults.join("\n"));
    }
}

#[test]
fn a_report_with_fixes_follows_it_too() {
    let report =
        serde_json::to_value(report(&Study::of(UNFUSED), Some("t.toml"), Fixes::Proven)).unwrap();
    let faults = json_schema::faults(&schema(), &report);
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    let findings = report["findings"].as_array().unwrap();
    assert!(findings.iter().all(|f| f["fixes"].is_array()));
}

/// Whatever is required is in the Rust shape too: a definition that nothing
/// of the demos ever reaches would prove nothing.
#[test]
fn the_demos_reach_nearly_every_definition() {
    let schema = schema();
    let all: BTreeSet<&String> = schema["$defs"].as_object().unwrap().keys().collect();
    let reports = reports();
    let reached = |name: &&String| {
        let mut without = schema.clone();
        without["$defs"][name.as_str()] = json!({ "enum": [] });
        reports
            .iter()
            .any(|r| !json_schema::faults(&without, r).is_empty())
    };
    let idle: Vec<&&String> = all.iter().filter(|name| !reached(name)).collect();
    assert!(
        idle.iter().all(|n| ["fix"].contains(&n.as_str())),
        "never reached: {idle:?}"
    );
}

#[test]
fn the_checker_finds_what_is_wrong() {
    let schema = json!({
        "type": "object",
        "required": ["a"],
        "properties": { "a": { "type": ["number", "null"] }, "b": { "enum": ["x"] } }
    });
    assert!(json_schema::faults(&schema, &json!({ "a": null, "b": "x" })).is_empty());
    for wrong in [
        json!({}),
        json!({ "a": "1" }),
        json!({ "a": 1, "b": "y" }),
        json!({ "a": 1, "c": 2 }),
        json!(1),
    ] {
        assert_eq!(json_schema::faults(&schema, &wrong).len(), 1, "{wrong}");
    }
}

#[test]
fn the_program_prints_both_schemas() {
    for of in ["project", "report"] {
        let mut program = Command::new(env!("CARGO_BIN_EXE_wainwright"));
        let output = program.args(["schema", of]).output().unwrap();
        assert!(output.status.success());
        let printed: Value = serde_json::from_slice(&output.stdout).unwrap();
        assert!(printed["$schema"].is_string(), "{of}");
    }
}

#[test]
fn a_report_is_the_same_every_time() {
    for text in DEMOS {
        let of = || serde_json::to_string(&report(&Study::of(text), None, Fixes::LeftOut)).unwrap();
        assert_eq!(of(), of());
    }
}
