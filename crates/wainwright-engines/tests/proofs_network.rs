//! Published and closed-form cases of the network engine.
//!
//! The chained switch bank and the constant-power deck were worked in a general-purpose circuit
//! simulator (ngspice-39, `.op`); the expected digits below are its printed ones. Tolerances are
//! half a unit of the last printed digit, rounded up to 1e-6 V.
//! Not here: faults (`proofs_fault_currents`), random comparisons (`oracle_network`) and the live
//! simulator (`oracle_ngspice`).
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed assumption of a test is a failed test"
)]

mod network_support;

use network_support::{Build, LoadKind, amps, near, solve, switch_bank, volts};
use wainwright_engines::fault_currents::FaultCurrents;
use wainwright_engines::network::{
    BranchState, Collapse, Network, NetworkError, OperatingPoint, Options, Plan, operating_point,
};
use wainwright_units::Resistance;

fn check_bank(kind: LoadKind, named: [f64; 10], loads: [f64; 6]) -> OperatingPoint {
    let bank = switch_bank(kind);
    let point = solve(&bank.network);
    for (&node, expected) in bank.named.iter().zip(named) {
        near(volts(&point, node), expected, 1e-6);
    }
    for (&(plus, minus), expected) in bank.loads.iter().zip(loads) {
        near(volts(&point, plus) - volts(&point, minus), expected, 1e-6);
    }
    point
}

#[test]
fn switch_bank_with_constant_currents() {
    let point = check_bank(
        LoadKind::Current,
        [
            13.130550, 13.109200, 12.993300, 12.915525, 12.860700, 12.821175, 12.794400, 12.777825,
            12.770175, 0.115900,
        ],
        [
            12.431705, 12.448700, 12.399235, 12.379460, 12.370620, 12.353765,
        ],
    );
    // Printed to 0.1 mW.
    near(point.balance.sources.watts(), 405.0400, 5e-5);
    near(point.balance.loads.watts(), 378.4500, 5e-5);
    near(point.balance.losses.watts(), 26.5900, 5e-5);
}

#[test]
fn switch_bank_with_resistances() {
    check_bank(
        LoadKind::Resistance,
        [
            13.125810, 13.103782, 12.984206, 12.903964, 12.847445, 12.806763, 12.779226, 12.762188,
            12.754330, 0.119576,
        ],
        [
            12.404079, 12.421371, 12.371668, 12.351842, 12.342981, 12.326078,
        ],
    );
}

#[test]
fn switch_bank_with_constant_powers() {
    let point = check_bank(
        LoadKind::Power,
        [
            13.135822, 13.115225, 13.003414, 12.928382, 12.875449, 12.837229, 12.811318, 12.795270,
            12.787858, 0.111812,
        ],
        [
            12.462299, 12.478901, 12.429964, 12.410355, 12.401587, 12.384875,
        ],
    );
    let expected = [8.666138, 5.769739, 4.827045, 3.867738, 3.386663, 2.906771];
    let bank = switch_bank(LoadKind::Power);
    for (&branch, expected) in bank.load_branches.iter().zip(expected) {
        near(amps(&point, branch), expected, 1e-6);
    }
    let total: f64 = bank.load_branches.iter().map(|&b| amps(&point, b)).sum();
    near(total, 29.424095, 1e-6);
}

/// 13.2 V behind 30 mΩ feeding one constant power.
fn constant_power(watts: f64, lowest_volts: f64) -> Network {
    let mut build = Build::new();
    let (plus, load) = (build.node(), build.node());
    build.source(plus, 0, 13.2, 0.010);
    build.wire(plus, load, 0.020);
    build.watts(load, 0, watts, lowest_volts);
    build.done()
}

fn collapse_of(network: &Network) -> Collapse {
    match operating_point(network, &Options::default()) {
        Err(NetworkError::Collapse(collapse)) => collapse,
        other => panic!("expected a collapse, found {other:?}"),
    }
}

#[test]
fn constant_power_takes_the_upper_root() {
    let cases = [
        (100.0, 12.968673),
        (200.0, 12.728621),
        (500.0, 11.944156),
        (1000.0, 10.282391),
        (1300.0, 8.735416),
        (1400.0, 7.849000),
        (1450.0, 6.844949),
    ];
    for (watts, expected) in cases {
        let point = solve(&constant_power(watts, 0.0));
        near(volts(&point, 2), expected, 1e-6);
        assert_eq!(point.branch_state[2], BranchState::Normal);
    }
}

#[test]
fn just_below_the_nose_there_is_a_point() {
    // v = (13.2 + √(13.2² − 4·P·0.030))/2; Pmax = 13.2²/(4·0.030) = 1452 W at 6.6 V.
    for watts in [1451.0, 1451.9, 1451.999, 1451.99999] {
        let expected = (13.2 + f64::sqrt(13.2 * 13.2 - 4.0 * watts * 0.030)) / 2.0;
        near(
            volts(&solve(&constant_power(watts, 0.0)), 2),
            expected,
            1e-6,
        );
    }
}

#[test]
fn just_above_the_nose_the_voltage_collapses() {
    for watts in [1452.00001, 1452.01, 1460.0, 1500.0, 1e5] {
        let collapse = collapse_of(&constant_power(watts, 0.0));
        // The nose is a double root: 1e-12 of the load moves the voltage by 1e-6 of 6.6 V.
        near(collapse.power_carried.watts(), 1452.0, 1e-6);
        near(collapse.volts_there.volts(), 6.6, 1e-3);
        near(collapse.carried.fraction(), 1452.0 / watts, 1e-9);
        near(collapse.power_wanted.watts(), watts, 1e-9);
        assert_eq!(collapse.weakest_branch, 2);
    }
}

#[test]
fn at_the_cutoff_the_supply_gives_945_watts() {
    // 10.5 V · (13.2 − 10.5) V / 0.030 Ω = 945 W.
    let below = solve(&constant_power(944.999, 10.5));
    assert_eq!(below.branch_state[2], BranchState::Normal);
    let expected = (13.2 + f64::sqrt(13.2 * 13.2 - 4.0 * 944.999 * 0.030)) / 2.0;
    near(volts(&below, 2), expected, 1e-9);
    let above = solve(&constant_power(945.001, 10.5));
    assert_eq!(above.branch_state[2], BranchState::DroppedOut);
    // Below the cutoff it is the resistor 10.5²/945.001 Ω.
    let load_ohms = 10.5 * 10.5 / 945.001;
    near(
        volts(&above, 2),
        13.2 * load_ohms / (load_ohms + 0.030),
        1e-9,
    );
    assert!(volts(&above, 2) < 10.5);
}

#[test]
fn far_beyond_the_nose_a_load_that_lets_go_drops_out() {
    for watts in [1460.0, 3000.0, 1e5] {
        let point = solve(&constant_power(watts, 8.0));
        assert_eq!(point.branch_state[2], BranchState::DroppedOut);
        let load_ohms = 64.0 / watts;
        near(
            volts(&point, 2),
            13.2 * load_ohms / (load_ohms + 0.030),
            1e-9,
        );
    }
}

#[test]
fn parallel_batteries_share_and_equalise() {
    // 13.4 V and 13.0 V behind 10 mΩ each: 20 A flow between them without load.
    let mut build = Build::new();
    let plus = build.node();
    build.source(plus, 0, 13.4, 0.010);
    build.source(plus, 0, 13.0, 0.010);
    let load = build.amps(plus, 0, 0.0);
    let point = solve(&build.clone().done());
    near(volts(&point, plus), 13.2, 1e-12);
    near(amps(&point, 0), 20.0, 1e-9);
    near(amps(&point, 1), -20.0, 1e-9);
    near(amps(&point, load), 0.0, 0.0);
    assert_eq!(point.branch_state[load], BranchState::Normal);
    near(point.balance.sources.watts(), 8.0, 1e-9);
    near(point.balance.losses.watts(), 8.0, 1e-9);

    let fault = FaultCurrents::new(&Network {
        branches: build.branches[..2].to_vec(),
        ..build.done()
    })
    .unwrap()
    .at(plus, 0, Resistance::from_ohms(0.0));
    near(fault.total.amperes(), 2640.0, 1e-9);
    near(fault.branches[0].1.amperes(), 1340.0, 1e-9);
    near(fault.branches[1].1.amperes(), 1300.0, 1e-9);
}

#[test]
fn islands_have_their_own_reference_and_dead_ones_none() {
    let mut build = Build::new();
    let main = build.node();
    build.source(main, 0, 13.2, 0.010);
    let (own_minus, own_plus) = (build.node(), build.node());
    build.source(own_plus, own_minus, 24.0, 0.010);
    build.amps(own_plus, own_minus, 100.0);
    let (dead, dead_end) = (build.node(), build.node());
    let in_the_dead = build.wire(dead, dead_end, 0.1);
    // A load whose return is interrupted, one across two islands, one on a single node.
    let cut_off = build.watts(main, dead, 100.0, 0.0);
    let across = build.amps(main, own_minus, 5.0);
    let looped = build.watts(main, main, 50.0, 0.0);
    let open = build.add(main, dead, wainwright_engines::network::Element::Open);
    let point = solve(&build.done());
    near(volts(&point, main), 13.2, 1e-12);
    near(volts(&point, own_minus), 0.0, 0.0);
    near(volts(&point, own_plus), 23.0, 1e-12);
    assert_eq!(point.node_volts[dead], None);
    assert_eq!(point.node_volts[dead_end], None);
    for branch in [in_the_dead, cut_off, across, looped] {
        assert_eq!(point.branch_state[branch], BranchState::NoSupply);
        near(amps(&point, branch), 0.0, 0.0);
    }
    assert_eq!(point.branch_state[open], BranchState::Normal);
}

#[test]
fn a_source_across_itself_is_shorted() {
    let mut build = Build::new();
    let shorted = build.source(0, 0, 12.0, 0.5);
    let plus = build.node();
    build.source(plus, 0, 13.2, 0.010);
    let network = build.done();
    let point = solve(&network);
    near(amps(&point, shorted), 24.0, 1e-12);
    near(volts(&point, plus), 13.2, 1e-12);
    let faults = FaultCurrents::new(&network).unwrap();
    let fault = faults.at(0, 0, Resistance::from_ohms(0.0));
    assert_eq!(fault.branches.len(), 1);
    near(fault.branches[0].1.amperes(), 24.0, 1e-12);
}

#[test]
fn loads_behind_a_common_broken_return_draw_nothing() {
    // Both minus terminals are tied together but no longer to the battery.
    let mut build = Build::new();
    let (plus, one, other, joint) = (build.node(), build.node(), build.node(), build.node());
    build.source(plus, 0, 13.2, 0.010);
    build.wire(plus, one, 0.02);
    build.wire(plus, other, 0.02);
    let resistive = build.wire(one, joint, 3.0);
    let constant = build.amps(other, joint, 5.0);
    let power = build.watts(other, joint, 60.0, 0.0);
    let point = solve(&build.done());
    near(amps(&point, resistive), 0.0, 1e-12);
    near(volts(&point, joint), 13.2, 1e-12);
    for branch in [constant, power] {
        assert_eq!(point.branch_state[branch], BranchState::NoSupply);
        near(amps(&point, branch), 0.0, 0.0);
    }
}

/// A battery of 13.2 V behind 10 mΩ, a load and a charger, all at one pair of nodes.
fn charging(limit_volts: f64, most_amps: f64, load_amps: f64) -> OperatingPoint {
    let mut build = Build::new();
    let plus = build.node();
    build.source(plus, 0, 13.2, 0.010);
    build.amps(plus, 0, load_amps);
    build.charger(plus, 0, limit_volts, most_amps);
    solve(&build.done())
}

#[test]
fn a_charger_is_limited_holds_or_idles() {
    let limited = charging(14.4, 30.0, 5.0);
    assert_eq!(limited.branch_state[2], BranchState::CurrentLimited);
    near(amps(&limited, 2), 30.0, 0.0);
    near(volts(&limited, 1), 13.2 + 0.25, 1e-12);

    let holding = charging(13.4, 30.0, 5.0);
    assert_eq!(holding.branch_state[2], BranchState::VoltageLimited);
    near(volts(&holding, 1), 13.4, 1e-11);
    near(amps(&holding, 2), 25.0, 1e-8);
    near(amps(&holding, 0), -20.0, 1e-8);

    let idle = charging(13.0, 30.0, 5.0);
    assert_eq!(idle.branch_state[2], BranchState::Idle);
    near(amps(&idle, 2), 0.0, 0.0);
    near(volts(&idle, 1), 13.15, 1e-12);
}

#[test]
fn a_charger_alone_feeds_loads_up_to_its_current() {
    let alone = |watts: f64, lowest_volts: f64| {
        let mut build = Build::new();
        let (plus, load) = (build.node(), build.node());
        build.charger(plus, 0, 14.4, 30.0);
        build.wire(plus, load, 0.010);
        build.watts(load, 0, watts, lowest_volts);
        build.done()
    };
    let light = solve(&alone(100.0, 0.0));
    assert_eq!(light.branch_state[0], BranchState::VoltageLimited);
    near(volts(&light, 1), 14.4, 1e-10);
    // At 30 A the load sees 14.1 V: 423 W.
    let collapse = collapse_of(&alone(500.0, 0.0));
    near(collapse.power_carried.watts(), 423.0, 1e-4);
    let dropped = solve(&alone(500.0, 10.5));
    assert_eq!(dropped.branch_state[0], BranchState::CurrentLimited);
    assert_eq!(dropped.branch_state[2], BranchState::DroppedOut);
    near(volts(&dropped, 2), 30.0 * 10.5 * 10.5 / 500.0, 1e-9);
}

#[test]
fn two_chargers_at_one_place_share_without_cycling() {
    let mut build = Build::new();
    let plus = build.node();
    build.source(plus, 0, 13.2, 0.010);
    let low = build.charger(plus, 0, 13.8, 100.0);
    let high = build.charger(plus, 0, 14.4, 200.0);
    let same = build.charger(plus, 0, 14.4, 200.0);
    let point = solve(&build.done());
    assert_eq!(point.branch_state[low], BranchState::Idle);
    near(volts(&point, plus), 14.4, 1e-10);
    near(amps(&point, high) + amps(&point, same), 120.0, 1e-6);
}

#[test]
fn a_tiny_load_behind_a_heavy_one_may_sink_below_half() {
    // The heavy load is close to its nose; the light one hangs behind a long wire. Its own voltage
    // is below half of the open-circuit voltage, and yet this is the stable upper point.
    let mut build = Build::new();
    let (plus, heavy, light) = (build.node(), build.node(), build.node());
    build.source(plus, 0, 13.2, 0.010);
    build.wire(plus, heavy, 0.020);
    build.wire(heavy, light, 1.0);
    build.watts(heavy, 0, 1420.0, 0.0);
    build.watts(light, 0, 11.0, 0.0);
    let point = solve(&build.done());
    assert!(volts(&point, light) < 6.0);
    assert!(volts(&point, light) > volts(&point, heavy) / 2.0);
}

#[test]
fn extreme_spreads_close_kirchhoffs_law() {
    // 1 µΩ joints and 1 MΩ leaks in one network, at the end of a chain of joints.
    let mut build = Build::new();
    let mut at = build.node();
    build.source(at, 0, 13.2, 1e-6);
    let mut leaks = Vec::new();
    for _ in 0..50 {
        let next = build.node();
        build.wire(at, next, 1e-6);
        leaks.push(build.wire(next, 0, 1e6));
        at = next;
    }
    let last_joint = build.branches.len() - 2;
    let point = solve(&build.done());
    // The current of the last joint is that of the last leak; to first order 13.2 µA.
    let joint_amps = amps(&point, last_joint);
    let leak_amps = amps(&point, leaks[49]);
    near(joint_amps / leak_amps, 1.0, 1e-9);
    near(leak_amps, 13.2e-6, 1e-12);
    let total: f64 = leaks.iter().map(|&leak| amps(&point, leak)).sum();
    near(amps(&point, 0) / total, 1.0, 1e-9);
}

#[test]
fn a_plan_serves_changed_values_and_refuses_other_wiring() {
    let plan = Plan::new(&constant_power(500.0, 0.0)).unwrap();
    let first = plan.solve(&constant_power(500.0, 0.0), None).unwrap();
    let warm = plan
        .solve(&constant_power(1000.0, 0.0), Some(&first))
        .unwrap();
    near(volts(&warm, 2), 10.282391, 1e-6);
    let back = plan
        .solve(&constant_power(100.0, 0.0), Some(&warm))
        .unwrap();
    near(volts(&back, 2), 12.968673, 1e-6);
    let other = plan.solve(&switch_bank(LoadKind::Power).network, None);
    assert!(matches!(other, Err(NetworkError::Malformed { .. })));
}

#[test]
fn impossible_descriptions_are_refused() {
    let refused = |network: &Network| {
        let error = operating_point(network, &Options::default()).unwrap_err();
        assert!(matches!(error, NetworkError::Malformed { .. }), "{error}");
        error.to_string()
    };
    for ohms in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let mut build = Build::new();
        build.source(0, 0, 12.0, 1.0);
        build.wire(0, 0, ohms);
        let words = refused(&build.done());
        assert!(
            words.contains("branch 1") && words.contains("above 0"),
            "{words}"
        );
    }
    let mut beyond = Build::new();
    beyond.wire(0, 7, 1.0);
    assert!(refused(&beyond.done()).contains("node 7"));
    refused(&Network {
        node_count: 0,
        ground: 0,
        branches: Vec::new(),
    });
    let loaded = FaultCurrents::new(&constant_power(100.0, 0.0));
    assert!(matches!(
        loaded,
        Err(NetworkError::Malformed {
            branch: Some(2),
            ..
        })
    ));
}
