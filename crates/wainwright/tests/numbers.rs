//! Stories of the verbs that answer with a number or a page: wire, joint,
//! working, parts, explain.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a story that cannot go on must fail"
)]

#[path = "support/program.rs"]
mod program;
#[path = "support/projects.rs"]
mod projects;
mod support;

use program::{json, program, run, stdout, text};
use projects::UNFUSED;
use std::path::Path;
use support::Folder;

/// I²R by hand: 10 A through 50 mΩ lose 0.5 V and make 5 W.
#[test]
fn a_joint_loses_what_ohm_says() {
    let args = [
        "joint",
        "--resistance",
        "50 mohm",
        "--current",
        "10 A",
        "--json",
    ];
    let joint = json(&args);
    assert!((joint["drop_volts"].as_f64().unwrap() - 0.5).abs() < 1e-12);
    assert!((joint["watts"].as_f64().unwrap() - 5.0).abs() < 1e-12);
}

/// Bounds from outside: solid copper of 10 AWG has 0.9989 Ω per 1000 ft at
/// 20 °C (ASTM B258), so 24 ft of it lose at least 0.4795 V at 20 A. Stranding
/// adds at most 5 %, and 85 °C, which the insulation bears, 25.5 %.
#[test]
fn a_wire_loses_what_copper_must() {
    let args = [
        "wire",
        "--size",
        "10 AWG",
        "--length",
        "12 ft",
        "--current",
        "20 A",
        "--json",
    ];
    let there_and_back = json(&args);
    let drop = there_and_back["drop_volts"].as_f64().unwrap();
    assert!((0.4795..0.4795 * 1.05 * 1.255).contains(&drop), "{drop}");
    let one_way = json(&[&args[..], &["--one-way"]].concat());
    assert!((one_way["drop_volts"].as_f64().unwrap() * 2.0 - drop).abs() < 1e-12);
    let in_foam = json(&[&args[..], &["--runs", "foam"]].concat());
    assert!(in_foam["celsius"].as_f64() > there_and_back["celsius"].as_f64());
}

#[test]
fn a_wire_that_gets_too_hot_is_a_danger_and_nonsense_is_refused() {
    let wire = |size: &str, insulation: &str| {
        let current = [
            "--length",
            "3 m",
            "--current",
            "60 A",
            "--insulation",
            insulation,
        ];
        run(&[&["wire", "--size", size], &current[..]].concat())
            .status
            .code()
    };
    assert_eq!(wire("14 AWG", "gxl"), Some(3));
    assert_eq!(wire("2/0 AWG", "gxl"), Some(0));
    assert_eq!(wire("2/0 AWG", "string"), Some(5));
    assert_eq!(wire("2/0 AWL", "gxl"), Some(64));
}

/// The working ends in the very number the report shows.
#[test]
fn a_working_ends_in_the_number_of_the_report() {
    let folder = Folder::new();
    let file = folder.write("t.toml", UNFUSED);
    let report = json(&["check", text(&file), "--json", "--no-fixes"]);
    let wire = &report["conductors"][0];
    let worst = wire["worst_state"].as_str().unwrap();
    let there = wire["states"]
        .as_array()
        .unwrap()
        .iter()
        .find(|s| s["state"] == worst)
        .unwrap();

    let answers = json(&["working", text(&file), "pump-plus", "--json"]);
    let answers = answers.as_array().unwrap();
    let drop = answers
        .iter()
        .find(|a| a["title"].as_str().unwrap().starts_with("Voltage drop"))
        .unwrap();
    let result = drop["steps"].as_array().unwrap().last().unwrap()["result"]
        .as_str()
        .unwrap();
    let shown = match result.split_once(' ').unwrap() {
        (number, "V") => number.parse::<f64>().unwrap(),
        (number, "mV") => number.parse::<f64>().unwrap() / 1000.0,
        other => panic!("{other:?}"),
    };
    let exact = there["drop_volts"].as_f64().unwrap().abs();
    assert!(
        (shown - exact).abs() < 0.001 * exact,
        "shown {shown}, computed {exact}"
    );
    for subject in ["wire.pump-plus", "pump", "item.pump", "battery.+"] {
        assert!(
            run(&["working", text(&file), subject]).status.success(),
            "{subject}"
        );
    }
    assert_eq!(
        run(&["working", text(&file), "sail"]).status.code(),
        Some(5)
    );
}

#[test]
fn the_key_of_a_finding_leads_to_its_working_and_its_page() {
    let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../examples/dark-sky.toml");
    let report = json(&["check", text(&file), "--json", "--no-fixes"]);
    let keys = report["findings"]
        .as_array()
        .unwrap()
        .iter()
        .map(|f| f["key"].as_str().unwrap());
    let explained = keys
        .map(|key| {
            assert!(run(&["explain", key]).status.success(), "{key}");
            run(&["working", text(&file), key]).status.success()
        })
        .filter(|worked| *worked)
        .count();
    assert!(explained > 0);
}

#[test]
fn parts_are_listed_by_kind() {
    let batteries = json(&["parts", "--kind", "battery", "--json"]);
    let batteries = batteries.as_array().unwrap();
    assert!(!batteries.is_empty());
    assert!(batteries.iter().all(|p| p["kind"] == "battery"));
    assert!(json(&["parts", "--json"]).as_array().unwrap().len() > batteries.len());
    assert_eq!(run(&["parts", "--kind", "sail"]).status.code(), Some(5));
}

#[test]
fn every_rule_in_the_list_has_its_page() {
    let rules = json(&["explain", "--json"]);
    let rules = rules.as_array().unwrap();
    assert!(!rules.is_empty());
    for rule in rules {
        let id = rule["id"].as_str().unwrap();
        let output = run(&["explain", id]);
        assert!(output.status.success());
        let said = stdout(&output);
        for heading in ["What", "Why it matters", "Example", "What to do", "Sources"] {
            assert!(said.lines().any(|l| l == heading), "{id} has no {heading}");
        }
    }
    assert_eq!(run(&["explain", "no-such-rule"]).status.code(), Some(5));
}

#[test]
fn a_narrow_page_is_wrapped() {
    let rules = json(&["explain", "--json"]);
    let id = rules[0]["id"].as_str().unwrap();
    let output = program()
        .args(["explain", id])
        .env("COLUMNS", "50")
        .output()
        .unwrap();
    for line in stdout(&output).lines().filter(|l| l.starts_with("  ")) {
        assert!(
            line.chars().count() <= 50 || !line.trim().contains(' '),
            "{line}"
        );
    }
}
