//! Wires, guards and faults of a small circuit.

use super::{assess, state};
use wainwright_analysis::catalogue;
use wainwright_analysis::result::{Outcome, StateKind};
use wainwright_model::parse;

/// One battery, a fuse, one load, good wires.
const SMALL: &str = r#"
wainwright = 1
[item.bat]
kind = "battery"
chemistry = "lfp"
cells = 4
capacity = "100 Ah"
resistance = "10 mohm"
[item.fuse]
kind = "fuse"
family = "blade"
rating = "15 A"
[item.lamp]
kind = "load"
current = "5 A"
[wire.plus-1]
from = "bat.+"
to = "fuse.in"
size = "12 AWG"
insulation = "gxl"
length = "5 in"
[wire.plus-2]
from = "fuse.out"
to = "lamp.+"
like = "plus-1"
length = "3 m"
[wire.minus]
from = "lamp.-"
to = "bat.-"
like = "plus-1"
length = "3 m"
"#;

#[test]
fn an_empty_project_gives_an_empty_assessment() {
    for text in ["", "wainwright = 1\n", "[item.x]\n", "[wire.a]\n"] {
        let found = wainwright_analysis::assess(&parse(text, catalogue()).project);
        assert!(found.wires.is_empty() && found.faults.is_empty());
        assert!(
            found.states.iter().all(|s| s.outcome == Outcome::Empty),
            "{text:?}"
        );
    }
}

#[test]
fn drop_over_a_wire_is_current_times_hot_resistance() {
    let found = assess(SMALL);
    let index = state(&found, &StateKind::EverythingFull);
    let wire = found.wire("plus-2").unwrap();
    let now = wire.states[index];
    // NEC Chapter 9 Table 8: 12 AWG stranded uncoated 1.98 ohm/kft at 75 °C, with R ~ 234.5 + θ.
    let line = 1.98 / 304.8 * (234.5 + now.temperature.celsius()) / (234.5 + 75.0);
    let joints = wire.joints.ohms();
    assert!((now.drop.volts() - 5.0 * (3.0 * line + joints)).abs() < 1e-6);
    assert!(now.temperature.celsius() > 40.0 && now.temperature.celsius() < 45.0);
}

#[test]
fn the_fuse_guards_what_lies_behind_it_and_leaves_the_stretch_before_it_bare() {
    let found = assess(SMALL);
    let guard = |id: &str| found.wire(id).unwrap().guards[0].clone();
    assert_eq!(guard("plus-1").device, None);
    let bare = guard("plus-1").bare_length.unwrap();
    assert!((bare.inches() - 5.0).abs() < 1e-9);
    assert_eq!(guard("plus-2").device, Some(0));
    assert_eq!(guard("plus-2").bare_length, None);
    assert_eq!(
        guard("minus").device,
        Some(0),
        "the return carries no more than the fuse lets through"
    );
}

#[test]
fn a_fuse_at_the_load_leaves_the_whole_run_bare() {
    let text = SMALL.replace("length = \"5 in\"", "length = \"3 m\"");
    let found = assess(&text);
    let bare = found.wire("plus-1").unwrap().guards[0].bare_length.unwrap();
    assert!((bare.metres() - 3.0).abs() < 1e-9);
}

#[test]
fn a_short_at_the_lamp_opens_the_fuse_and_one_at_the_battery_opens_nothing() {
    let found = assess(SMALL);
    let fault = |item: &str, terminal: &str| {
        let node = found.node_of(item, terminal).unwrap();
        found
            .faults
            .iter()
            .find(|f| f.node == node)
            .unwrap()
            .clone()
    };
    let lamp = fault("lamp", "+");
    assert_eq!(lamp.smallest.should_open, Some(0));
    assert!(lamp.smallest.cleared.is_some() && lamp.largest.cleared.is_some());
    // Largest: 1.05 · 12.8 V behind 0.9 · 10 mΩ at the terminals.
    let battery = fault("bat", "+");
    let bolted = 1.05 * 12.8 / 0.009;
    assert!((battery.largest.amps.amperes() / bolted - 1.0).abs() < 0.03);
    assert!(battery.largest.openings.is_empty() && battery.largest.cleared.is_none());
}

#[test]
fn a_load_the_battery_cannot_carry_is_a_collapse_with_the_power_it_could_carry() {
    let text = SMALL.replace("current = \"5 A\"", "power = \"6000 W\"");
    let found = assess(&text);
    let index = state(&found, &StateKind::EverythingFull);
    let Outcome::Collapse {
        carried,
        wanted,
        possible,
        weakest,
        ..
    } = &found.states[index].outcome
    else {
        panic!("{:?}", found.states[index].outcome);
    };
    assert_eq!(weakest.as_ref().map(|id| id.as_str()), Some("lamp"));
    assert!((possible.watts() - carried.fraction() * wanted.watts()).abs() < 1e-6 * wanted.watts());
    assert!(carried.fraction() > 0.0 && carried.fraction() < 1.0);
}

#[test]
fn swapped_terminals_and_loose_ends_are_seen() {
    let text = SMALL.replace("to = \"lamp.+\"", "to = \"lamp.x\"");
    let parsed = parse(&text, catalogue());
    assert!(!parsed.problems.is_empty());
    let found = wainwright_analysis::assess(&parsed.project);
    assert!(found.wire("plus-2").is_none());
    assert!(
        found
            .loose
            .iter()
            .any(|l| l.item == *"lamp" && l.terminal == "+")
    );

    let swapped = SMALL
        .replace("to = \"lamp.+\"", "to = \"lamp.q\"")
        .replace("from = \"lamp.-\"", "from = \"lamp.+\"")
        .replace("to = \"lamp.q\"", "to = \"lamp.-\"");
    let found = assess(&swapped);
    assert_eq!(
        found
            .reversed
            .iter()
            .map(|id| id.as_str())
            .collect::<Vec<_>>(),
        ["lamp"]
    );
}
