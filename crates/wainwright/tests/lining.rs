//! Stories of the verb `lining` on the bundled example, and of the buying list that follows.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a story that cannot go on must fail"
)]

#[path = "support/program.rs"]
mod program;
mod support;

use program::{json, run, stdout, text};
use serde_json::Value;
use std::collections::BTreeSet;
use support::Folder;

const DARK_SKY: &str = include_str!("../../../examples/dark-sky.toml");

fn marks(list: &Value, field: &str) -> BTreeSet<String> {
    let all = list[field].as_array().unwrap().iter();
    all.map(|one| one["mark"].as_str().unwrap().to_owned())
        .collect()
}

#[test]
fn every_open_piece_is_on_the_plan_for_machines() {
    let folder = Folder::new();
    let path = folder.write("trailer.toml", DARK_SKY);
    let found = json(&["lining", text(&path), "--json"]);
    let mut laid = BTreeSet::new();
    for surface in found["surfaces"].as_array().unwrap() {
        for layer in surface["layers"].as_array().unwrap() {
            if layer["done"] == false {
                laid.extend(marks(layer, "pieces"));
            }
        }
    }
    let mut planned = BTreeSet::new();
    for board in found["jobs"][0]["cut"].as_array().unwrap() {
        planned.extend(marks(board, "pieces"));
    }
    assert!(!laid.is_empty());
    assert_eq!(laid, planned);
}

#[test]
fn people_read_sides_boards_odds_and_what_is_still_to_come() {
    let folder = Folder::new();
    let path = folder.write("trailer.toml", DARK_SKY);
    let output = run(&["lining", text(&path)]);
    let said = stdout(&output);
    for word in ["Ceiling", "from the shed", "Odds that", "Still to come"] {
        assert!(said.contains(word), "{word}\n{said}");
    }
    let list = stdout(&run(&["lists", text(&path), "buy"]));
    assert!(list.contains("Planks, spruce"), "{list}");
}

#[test]
fn without_a_layer_it_says_how_to_begin() {
    let folder = Folder::new();
    let path = folder.write("trailer.toml", "wainwright = 1\n");
    let output = run(&["lining", text(&path)]);
    assert!(stdout(&output).contains("No layer yet"));
    assert!(!output.status.success());
}
