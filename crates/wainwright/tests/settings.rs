//! Stories of the verb `settings`, on the bundled examples.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a story that cannot go on must fail"
)]

#[path = "support/program.rs"]
mod program;
mod support;

use program::{json, run, stderr, stdout, text};
use std::fs;
use support::Folder;

const DARK_SKY: &str = include_str!("../../../examples/dark-sky.toml");
const DARK_SKY_METRIC: &str = include_str!("../../../examples/dark-sky-metric.toml");

#[test]
fn the_cards_say_what_is_set_what_to_set_and_why() {
    let folder = Folder::new();
    let file = folder.write("t.toml", DARK_SKY);
    let output = run(&["settings", text(&file)]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let said = stdout(&output)
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ");
    for words in [
        "Shore charger: charges from household voltage",
        "absorption: 14.4 V, set 14 V",
        "the fullest cell opens the protection",
        "low-temperature lockout: not typed, set 41 °F",
        "What does not agree",
        "Temperature compensation is on, with lithium",
        "Set item.inverter.low_release = 13.1 V",
        "the controller takes 75 V",
    ] {
        assert!(said.contains(words), "no '{words}' in\n{said}");
    }
    assert_eq!(fs::read_to_string(&file).unwrap(), DARK_SKY, "as it was");
}

#[test]
fn machines_get_the_same() {
    let folder = Folder::new();
    let file = folder.write("t.toml", DARK_SKY_METRIC);
    let found = json(&["settings", text(&file), "--json"]);
    assert_eq!(found["settings_report"], 1);
    let devices = found["settings"]["devices"].as_array().unwrap();
    let items: Vec<_> = devices
        .iter()
        .map(|card| card["item"].as_str().unwrap())
        .collect();
    assert_eq!(items, ["solar", "shore", "inverter"]);
    let row = &devices[0]["rows"][0];
    assert_eq!(row["path"], "item.solar.charge_voltage");
    assert_eq!(row["now"]["value"], 28.4);
    assert!(row["range"]["low"].as_f64() < row["range"]["high"].as_f64());
}

#[test]
fn a_project_without_a_battery_says_so() {
    let folder = Folder::new();
    let file = folder.write("t.toml", "wainwright = 1\n");
    let output = run(&["settings", text(&file)]);
    assert_eq!(output.status.code(), Some(2));
    assert!(stdout(&output).contains("There is no battery yet"));
}
