//! Stories: project text in, results out. Expected figures are worked out by
//! hand in each test from Ohm's and Kirchhoff's laws.

use wainwright_analysis::result::{Assessment, Outcome, Side, StateKind};
use wainwright_analysis::{Ask, assess, catalogue, voltage_path, working};
use wainwright_model::{Project, parse};

const DEMO: &str = include_str!("../../../examples/dark-sky.toml");
const METRIC: &str = include_str!("../../../examples/dark-sky-metric.toml");

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

fn read(text: &str) -> Project {
    let parsed = parse(text, catalogue());
    assert_eq!(parsed.problems, vec![], "the text has no problems");
    parsed.project
}

fn state(found: &Assessment, kind: &StateKind) -> usize {
    found
        .states
        .iter()
        .position(|s| s.kind == *kind)
        .expect("state exists")
}

#[test]
fn both_demos_read_cleanly_and_every_state_is_solved() {
    for text in [DEMO, METRIC] {
        let found = assess(&read(text));
        assert_eq!(found.missing, vec![]);
        assert!(found.states.len() >= 6);
        for solved in &found.states {
            let Outcome::Steady {
                sources,
                loads,
                losses,
                ..
            } = &solved.outcome
            else {
                panic!("{:?} is {:?}", solved.kind, solved.outcome);
            };
            let left = sources.watts() - loads.watts() - losses.watts();
            assert!(
                left.abs() < 1e-6 * sources.watts().max(1.0),
                "{:?}: {left} W left over",
                solved.kind
            );
        }
        assert!(found.faults.len() > 40);
    }
}

#[test]
fn an_empty_project_gives_an_empty_assessment() {
    for text in ["", "wainwright = 1\n", "[item.x]\n", "[wire.a]\n"] {
        let found = assess(&parse(text, catalogue()).project);
        assert!(found.wires.is_empty() && found.faults.is_empty());
        assert!(
            found.states.iter().all(|s| s.outcome == Outcome::Empty),
            "{text:?}"
        );
    }
}

#[test]
fn a_jumper_carries_the_sum_of_what_is_behind_it() {
    let found = assess(&read(DEMO));
    let index = state(&found, &StateKind::EverythingFull);
    let amps = |id: &str| found.wire(id).expect("wire").states[index].amps.amperes();
    let behind = [
        "red-plus",
        "galley-plus",
        "porch-plus",
        "pump-plus",
        "dew-main-plus",
    ];
    let sum: f64 = behind.iter().map(|id| amps(id)).sum();
    assert!((amps("jumper-1") - sum).abs() < 1e-9);
    let first = found.wire("jumper-1").expect("wire");
    assert!(
        first.states[index].temperature > first.limit,
        "the supplied jumper overheats"
    );
}

#[test]
fn drop_over_a_wire_is_current_times_hot_resistance() {
    let found = assess(&read(SMALL));
    let index = state(&found, &StateKind::EverythingFull);
    let wire = found.wire("plus-2").expect("wire");
    let now = wire.states[index];
    // NEC Chapter 9 Table 8: 12 AWG stranded uncoated 1.98 ohm/kft at 75 °C, with R ~ 234.5 + θ.
    let line = 1.98 / 304.8 * (234.5 + now.temperature.celsius()) / (234.5 + 75.0);
    let joints = wire.joints.ohms();
    assert!((now.drop.volts() - 5.0 * (3.0 * line + joints)).abs() < 1e-6);
    assert!(now.temperature.celsius() > 40.0 && now.temperature.celsius() < 45.0);
}

#[test]
fn the_voltage_path_adds_up_to_the_drop_at_the_gear() {
    let project = read(DEMO);
    let found = assess(&project);
    let index = state(&found, &StateKind::EverythingLow);
    for gear in ["fridge", "dew-guide", "inverter", "porch-light"] {
        let lost: f64 = voltage_path(&project, &found, gear, index)
            .iter()
            .map(|s| s.lost.volts())
            .sum();
        let drop = found.consumer(gear).expect("gear").states[index]
            .drop
            .expect("drop");
        assert!(
            (lost - drop.volts()).abs() < 1e-9,
            "{gear}: {lost} against {}",
            drop.volts()
        );
    }
}

#[test]
fn the_fuse_guards_what_lies_behind_it_and_leaves_the_stretch_before_it_bare() {
    let found = assess(&read(SMALL));
    let guard = |id: &str| found.wire(id).expect("wire").guards[0].clone();
    assert_eq!(guard("plus-1").device, None);
    let bare = guard("plus-1").bare_length.expect("bare");
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
    let found = assess(&read(&text));
    let bare = found.wire("plus-1").expect("wire").guards[0]
        .bare_length
        .expect("bare");
    assert!((bare.metres() - 3.0).abs() < 1e-9);
}

#[test]
fn a_short_at_the_lamp_opens_the_fuse_and_one_at_the_battery_opens_nothing() {
    let found = assess(&read(SMALL));
    let fault = |item: &str, terminal: &str| {
        let node = found.node_of(item, terminal).expect("node");
        found
            .faults
            .iter()
            .find(|f| f.node == node)
            .expect("fault")
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
    let found = assess(&read(&text));
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
    let found = assess(&parsed.project);
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
    let found = assess(&read(&swapped));
    assert_eq!(
        found
            .reversed
            .iter()
            .map(|id| id.as_str())
            .collect::<Vec<_>>(),
        ["lamp"]
    );
}

#[test]
fn modules_in_series_double_the_voltage_not_the_current() {
    let found = assess(&read(METRIC));
    let index = state(&found, &StateKind::Charging);
    let module = found.consumer("roof-1").expect("module").states[index];
    let input = found
        .consumers
        .iter()
        .find(|c| c.item == *"solar" && c.plus == "pv+")
        .expect("input")
        .states[index];
    let ratio = input.volts.expect("volts").volts() / module.volts.expect("volts").volts();
    assert!((ratio - 2.0).abs() < 0.05, "{ratio}");
    assert!((input.amps.amperes().abs() - module.amps.amperes()).abs() < 1e-6);
}

#[test]
fn parallel_batteries_share_and_each_fuse_guards_its_own_side() {
    let found = assess(&read(METRIC));
    let index = state(&found, &StateKind::EverythingLow);
    let amps = |id: &str| {
        found.consumer(id).expect("battery").states[index]
            .amps
            .amperes()
    };
    assert!((amps("pack-a") - amps("pack-b")).abs() < 1e-6 * amps("pack-a"));
    let sources: Vec<_> = found
        .wire("switch-bar")
        .expect("wire")
        .guards
        .iter()
        .map(|g| g.source.as_str())
        .collect();
    assert!(sources.contains(&"pack-a") && sources.contains(&"pack-b"));
    assert_eq!(
        found.wire("roof-link").expect("wire").side,
        Side::Both,
        "a series link is on both sides"
    );
}

#[test]
fn every_number_shows_its_working() {
    let project = read(DEMO);
    let found = assess(&project);
    let wire = || "fridge-plus".to_owned();
    let asks = [
        Ask::WireResistance {
            wire: wire(),
            state: 0,
        },
        Ask::WireDrop {
            wire: wire(),
            state: 0,
        },
        Ask::WireTemperature {
            wire: wire(),
            state: 0,
        },
        Ask::WireAmpacity { wire: wire() },
        Ask::DeviceShare {
            item: "block".to_owned(),
            way: 4,
            state: 0,
        },
        Ask::ConsumerDrop {
            item: "fridge".to_owned(),
            state: 0,
        },
        Ask::FaultCurrent {
            node: found.faults[3].node,
        },
        Ask::JointHeat {
            owner: found.joints[0].owner.clone(),
        },
    ];
    for ask in asks {
        let shown = working(&project, &found, &ask).unwrap_or_else(|| panic!("{ask:?}"));
        let last = shown.steps.last().expect("steps");
        assert!(
            !last.result.is_empty() && !last.inputs.is_empty(),
            "{ask:?}"
        );
    }
    let drop = working(
        &project,
        &found,
        &Ask::WireDrop {
            wire: wire(),
            state: 0,
        },
    )
    .expect("working");
    assert_eq!(
        drop.steps.iter().map(|s| s.symbol).collect::<Vec<_>>(),
        ["R20", "R", "U"]
    );
}

#[test]
fn mutilated_projects_are_still_assessed() {
    let mut seed = 0x5eed_u64;
    let mut next = move |most: usize| {
        seed = seed
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        ((seed >> 33) as usize) % most.max(1)
    };
    let lines: Vec<&str> = DEMO.lines().collect();
    for _ in 0..300 {
        let mut text: Vec<&str> = lines.clone();
        for _ in 0..=next(12) {
            let at = next(text.len());
            match next(3) {
                0 => drop(text.remove(at)),
                1 => text.insert(at, lines[next(lines.len())]),
                _ => text[at] = lines[next(lines.len())],
            }
        }
        let parsed = parse(&text.join("\n"), catalogue());
        let found = assess(&parsed.project);
        for solved in &found.states {
            let volts = solved.node_volts.iter().flatten();
            assert!(volts.map(|v| v.volts()).all(f64::is_finite));
        }
    }
}
