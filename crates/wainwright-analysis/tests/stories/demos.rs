//! The two example trailers.

use super::{assess, read, state};
use wainwright_analysis::result::{Outcome, Side, StateKind};
use wainwright_analysis::{Ask, voltage_path, working};

const DEMO: &str = include_str!("../../../../examples/dark-sky.toml");
const METRIC: &str = include_str!("../../../../examples/dark-sky-metric.toml");

#[test]
fn both_demos_read_cleanly_and_every_state_is_solved() {
    for text in [DEMO, METRIC] {
        let found = assess(text);
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
fn a_jumper_carries_the_sum_of_what_is_behind_it() {
    let found = assess(DEMO);
    let index = state(&found, &StateKind::EverythingFull);
    let amps = |id: &str| found.wire(id).unwrap().states[index].amps.amperes();
    let behind = [
        "red-plus",
        "galley-plus",
        "porch-plus",
        "pump-plus",
        "dew-main-plus",
    ];
    let sum: f64 = behind.iter().map(|id| amps(id)).sum();
    assert!((amps("jumper-1") - sum).abs() < 1e-9);
    let first = found.wire("jumper-1").unwrap();
    assert!(
        first.states[index].temperature > first.limit,
        "the supplied jumper overheats"
    );
}

#[test]
fn the_voltage_path_adds_up_to_the_drop_at_the_gear() {
    let project = read(DEMO);
    let found = wainwright_analysis::assess(&project);
    let index = state(&found, &StateKind::EverythingLow);
    for gear in ["fridge", "dew-guide", "inverter", "porch-light"] {
        let lost: f64 = voltage_path(&project, &found, gear, index)
            .iter()
            .map(|s| s.lost.volts())
            .sum();
        let drop = found.consumer(gear).unwrap().states[index].drop.unwrap();
        assert!(
            (lost - drop.volts()).abs() < 1e-9,
            "{gear}: {lost} against {}",
            drop.volts()
        );
    }
}

#[test]
fn modules_in_series_double_the_voltage_not_the_current() {
    let found = assess(METRIC);
    let index = state(&found, &StateKind::Charging);
    let module = found.consumer("roof-1").unwrap().states[index];
    let input = found
        .consumers
        .iter()
        .find(|c| c.item == *"solar" && c.plus == "pv+")
        .unwrap()
        .states[index];
    let ratio = input.volts.unwrap().volts() / module.volts.unwrap().volts();
    assert!((ratio - 2.0).abs() < 0.05, "{ratio}");
    assert!((input.amps.amperes().abs() - module.amps.amperes()).abs() < 1e-6);
}

#[test]
fn parallel_batteries_share_and_each_fuse_guards_its_own_side() {
    let found = assess(METRIC);
    let index = state(&found, &StateKind::EverythingLow);
    let amps = |id: &str| found.consumer(id).unwrap().states[index].amps.amperes();
    assert!((amps("pack-a") - amps("pack-b")).abs() < 1e-6 * amps("pack-a"));
    let sources: Vec<_> = found
        .wire("switch-bar")
        .unwrap()
        .guards
        .iter()
        .map(|g| g.source.as_str())
        .collect();
    assert!(sources.contains(&"pack-a") && sources.contains(&"pack-b"));
    assert_eq!(
        found.wire("roof-link").unwrap().side,
        Side::Both,
        "a series link is on both sides"
    );
}

#[test]
fn every_number_shows_its_working() {
    let project = read(DEMO);
    let found = wainwright_analysis::assess(&project);
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
        let last = shown.steps.last().unwrap();
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
    .unwrap();
    assert_eq!(
        drop.steps.iter().map(|s| s.symbol).collect::<Vec<_>>(),
        ["R20", "R", "U"]
    );
}
