//! Stories of the verbs that plan and place: `plan`, `lists`, `road`, `place`, on the bundled examples.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a story that cannot go on must fail"
)]

#[path = "support/json_schema.rs"]
mod json_schema;
#[path = "support/program.rs"]
mod program;
#[path = "support/projects.rs"]
mod projects;
mod support;

use program::{json, run, stderr, stdout, text};
use projects::{HALF_READABLE, UNFUSED};
use serde_json::Value;
use std::fs;
use support::Folder;

const DARK_SKY: &str = include_str!("../../../examples/dark-sky.toml");
const DARK_SKY_METRIC: &str = include_str!("../../../examples/dark-sky-metric.toml");
const GEAR_LIST: &str = include_str!("../../../examples/gear-list.toml");

const EXAMPLES: [(&str, &str); 3] = [
    ("dark-sky", DARK_SKY),
    ("dark-sky-metric", DARK_SKY_METRIC),
    ("gear-list", GEAR_LIST),
];

fn schema(name: &str) -> Value {
    let output = run(&["schema", name]);
    assert!(output.status.success());
    serde_json::from_slice(&output.stdout).unwrap()
}

fn follows(name: &str, value: &Value) {
    let faults = json_schema::faults(&schema(name), value);
    assert!(faults.is_empty(), "{name}: {}", faults.join("\n"));
}

#[test]
fn every_example_is_read_without_a_problem_by_every_verb() {
    let folder = Folder::new();
    for (name, project) in EXAMPLES {
        let file = folder.write(&format!("{name}.toml"), project);
        let report = json(&["check", text(&file), "--json", "--no-fixes"]);
        assert_eq!(report["problems"].as_array().unwrap().len(), 0, "{name}");
        for verb in ["lists", "road"] {
            let output = run(&[verb, text(&file)]);
            assert_eq!(stderr(&output), "", "{name} {verb}");
            assert!(!stdout(&output).is_empty(), "{name} {verb}");
        }
        follows("lists", &json(&["lists", text(&file), "--json"]));
        assert_eq!(
            fs::read_to_string(&file).unwrap(),
            project,
            "{name} is as it was"
        );
    }
}

#[test]
fn a_gear_list_becomes_a_wiring_that_passes_the_check() {
    let folder = Folder::new();
    let file = folder.write("t.toml", GEAR_LIST);
    let plan = json(&["plan", text(&file), "--json"]);
    follows("plan", &plan);
    assert_eq!(plan["applied"], false);
    assert_eq!(fs::read_to_string(&file).unwrap(), GEAR_LIST);
    assert!(plan["wires"].as_array().unwrap().len() >= 20);
    let kinds: Vec<&Value> = plan["items"]
        .as_array()
        .unwrap()
        .iter()
        .map(|i| &i["kind"])
        .collect();
    assert!(
        kinds.iter().any(|k| *k == "fuse") && kinds.iter().any(|k| *k == "fuse-block"),
        "{kinds:?}"
    );
    let units = |name: &str| plan[name].as_f64().unwrap();
    // The same prices summed in another order may differ in the last digit.
    assert!(units("bound_cost_units") <= units("cost_units") * (1.0 + 1e-12));
    assert_eq!(plan["summary"]["danger"], 0);
    assert_eq!(plan["summary"]["warning"], 0, "{}", plan["findings"]);

    let output = run(&["plan", text(&file), "--write"]);
    assert_eq!(stderr(&output), "");
    assert!(stdout(&output).contains("Written to"));
    let after = fs::read_to_string(&file).unwrap();
    for line in GEAR_LIST.lines() {
        assert!(after.contains(line), "lost: {line}");
    }
    let report = json(&["check", text(&file), "--json", "--no-fixes"]);
    assert_eq!(
        report["summary"], plan["summary"],
        "the check says what the plan said"
    );
    let again = json(&["plan", text(&file), "--json"]);
    assert_eq!(again["empty"], true, "{}", again["decisions"]);
}

#[test]
fn lists_of_a_planned_wiring_name_every_wire_and_both_its_labels() {
    let folder = Folder::new();
    let file = folder.write("t.toml", GEAR_LIST);
    let plan = json(&["plan", text(&file), "--write", "--json"]);
    assert_eq!(plan["applied"], true);
    let wires = plan["wires"].as_array().unwrap();
    let csv = |list| stdout(&run(&["lists", text(&file), list, "--csv"]));
    let (listed, labels) = (csv("wires"), csv("labels"));
    for wire in wires {
        let id = wire["id"].as_str().unwrap();
        let rows = |csv: &str| {
            csv.lines()
                .filter(|l| l.split(',').any(|c| c == id))
                .count()
        };
        assert_eq!((rows(&listed), rows(&labels)), (1, 2), "{id}");
    }
    assert!(csv("buy").lines().count() > 5);
    let lists = json(&["lists", text(&file), "--json"]);
    follows("lists", &lists);
    // Thin wires on the thick studs of a switch: no terminal is sold, everything else is counted.
    for missing in lists["missing"].as_array().unwrap() {
        let wanted = missing["wanted"].as_str().unwrap();
        assert!(wanted.contains("no ring terminal is sold"), "{missing}");
    }
    let said = stdout(&run(&["lists", text(&file)]));
    for title in ["Wires", "Terminals", "Fuses", "Labels", "To buy"] {
        assert!(said.lines().any(|line| line == title), "{title}");
    }
}

#[test]
fn a_list_without_a_wire_or_half_read_is_no_success() {
    let folder = Folder::new();
    let empty = folder.write("e.toml", "wainwright = 1\n");
    assert_eq!(run(&["lists", text(&empty)]).status.code(), Some(2));
    let half = folder.write("h.toml", HALF_READABLE);
    assert_eq!(run(&["lists", text(&half), "wires"]).status.code(), Some(2));
    let whole = folder.write("w.toml", UNFUSED);
    assert_eq!(
        run(&["lists", text(&whole), "wires"]).status.code(),
        Some(0)
    );
    assert_eq!(
        run(&["lists", text(&whole), "--csv"]).status.code(),
        Some(64)
    );
    assert_eq!(
        run(&["lists", text(&whole), "shoes"]).status.code(),
        Some(64)
    );
    assert_eq!(run(&["lists", "no-such-file.toml"]).status.code(), Some(4));
}

#[test]
fn the_road_study_says_what_its_damping_is_not() {
    let folder = Folder::new();
    let file = folder.write("t.toml", GEAR_LIST);
    let output = run(&["road", text(&file)]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let said = stdout(&output);
    for words in [
        "Share of the tongue:",
        "Trailer, laden",
        "It is no safe speed.",
        "What holds each thing",
    ] {
        assert!(said.contains(words), "no '{words}' in\n{said}");
    }
    let road = json(&["road", text(&file), "--json"]);
    let full = json(&["check", text(&file), "--json", "--no-fixes"]);
    assert_eq!(road["road"], full["road"], "one study");
    let mut schema = schema("report");
    schema["required"] = serde_json::json!(["report", "program", "file", "name", "road"]);
    assert_eq!(json_schema::faults(&schema, &road), Vec::<String>::new());
}

#[test]
fn a_project_without_weights_has_nothing_to_say_about_the_road() {
    let folder = Folder::new();
    let file = folder.write("t.toml", UNFUSED);
    let output = run(&["road", text(&file)]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        stdout(&output).contains("Nobody has begun"),
        "{}",
        stdout(&output)
    );
    let output = run(&["place", text(&file), "--write"]);
    assert_eq!(output.status.code(), Some(2));
    assert_eq!(fs::read_to_string(&file).unwrap(), UNFUSED);
    let none = json(&["place", text(&file), "--json"]);
    follows("place", &none);
    assert!(none["why_none"].is_string() && none["found"].is_null());
}

/// The bicycles at the rear wall instead of the front one: a layout that moving things makes better.
#[test]
fn a_better_layout_is_found_shown_and_written() {
    let folder = Folder::new();
    let tail_heavy = GEAR_LIST.replace(
        "spot = \"40 mm, 1100 mm, 0 mm\"",
        "spot = \"1900 mm, 1100 mm, 0 mm\"",
    );
    assert_ne!(tail_heavy, GEAR_LIST);
    let file = folder.write("t.toml", &tail_heavy);
    let place = json(&["place", text(&file), "--json"]);
    follows("place", &place);
    let found = &place["found"];
    let moves = found["moves"].as_array().unwrap();
    assert!(!moves.is_empty());
    assert_eq!(fs::read_to_string(&file).unwrap(), tail_heavy);

    let output = run(&["place", text(&file), "--write"]);
    assert_eq!(stderr(&output), "");
    let said = stdout(&output);
    assert!(
        said.contains("Written to") && said.contains("It is no safe speed."),
        "{said}"
    );
    let road = json(&["road", text(&file), "--json"]);
    let states = road["road"]["states"].as_array().unwrap();
    let fills = states.iter().filter(|state| state["kind"] == "fills");
    let least = fills
        .map(|state| state["tongue_share"].as_f64().unwrap())
        .fold(f64::INFINITY, f64::min);
    let promised = found["after"]["least_tongue_share"].as_f64().unwrap();
    // Places are written in whole millimetres.
    assert!(
        (least - promised).abs() < 1e-3,
        "{least} against {promised}"
    );
    for moved in moves {
        let item = moved["item"].as_str().unwrap();
        let table = format!("[item.{item}]");
        assert!(fs::read_to_string(&file).unwrap().contains(&table));
    }
}
