//! The network engine against ngspice, run live.
//!
//! Agreement is asked to 1e-6 V at every node. Both solvers reach about 1e-9 V; the simulator is
//! set to a relative tolerance of 1e-9.
//! Not here: the printed digits of published decks (`proofs_network`).
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed assumption of a test is a failed test"
)]

mod network_support;
#[path = "network_support/simulator.rs"]
mod simulator;

use network_support::{
    Build, LoadKind, Loads, Numbers, multiply_powers, random_network, switch_bank,
};
use simulator::{Bench, deck, printed_volts};
use wainwright_engines::network::{
    Branch, BranchState, Element, Network, NetworkError, Options, operating_point,
};

/// Solves networks in one process, each from its guess; returns the printed part of each.
fn simulate(bench: &Bench, name: &str, decks: &[(&Network, Vec<f64>)]) -> Vec<String> {
    let mut commands = String::new();
    for (index, (network, guess)) in decks.iter().enumerate() {
        let path = bench.write(&format!("{name}-{index}.cir"), &deck(network, guess));
        let path = path.display();
        commands.push_str(&format!("source {path}\necho === {index}\nop\nprint all\n"));
        commands.push_str("destroy all\nremcirc\n");
    }
    let printed = bench.run(&format!("{name}.cir"), &commands);
    let parts: Vec<String> = printed.split("=== ").skip(1).map(str::to_owned).collect();
    assert_eq!(parts.len(), decks.len(), "the simulator printed: {printed}");
    parts
}

/// A start for the simulator: every plus node at 13 V, every minus node at 0 V.
///
/// In a random network node 1 and the even nodes above 0 are plus nodes.
fn guess(network: &Network) -> Vec<f64> {
    let is_plus = |node: usize| node == 1 || (node > 0 && node.is_multiple_of(2));
    (0..network.node_count)
        .map(|node| if is_plus(node) { 13.0 } else { 0.0 })
        .collect()
}

/// Compares all nodes; returns the largest difference [V].
fn compare(network: &Network, printed: &str) -> f64 {
    let point = operating_point(network, &Options::default()).expect("it has an operating point");
    let expected = printed_volts(network, printed);
    let mut worst = 0.0_f64;
    for (node, expected) in expected.iter().enumerate() {
        let expected = expected.unwrap_or_else(|| panic!("node {node} is missing in: {printed}"));
        let found = point.node_volts[node].unwrap().volts();
        worst = worst.max((found - expected).abs());
    }
    worst
}

#[test]
fn random_networks_agree() {
    let mut numbers = Numbers(2024);
    let networks: Vec<Network> = (0..200)
        .map(|round| {
            let nodes = numbers.scaled(5.0, 500.0) as usize;
            let loops = if round % 2 == 0 { 0 } else { 1 + nodes / 20 };
            let mut network = random_network(&mut numbers, nodes, loops, Loads::Mixed);
            if round % 5 >= 3 {
                // Overloaded, so that loads drop out.
                multiply_powers(&mut network, numbers.between(5.0, 30.0));
            }
            network
        })
        .collect();
    let bench = Bench::new("wainwright-random");
    let check = |half: &[Network], name: &str| {
        let decks: Vec<_> = half
            .iter()
            .map(|network| (network, guess(network)))
            .collect();
        let printed = simulate(&bench, name, &decks);
        for (index, (network, printed)) in half.iter().zip(&printed).enumerate() {
            let worst = compare(network, printed);
            assert!(worst < 1e-6, "{name} {index}: {worst} V apart");
        }
    };
    std::thread::scope(|scope| {
        scope.spawn(|| check(&networks[..100], "first"));
        scope.spawn(|| check(&networks[100..], "second"));
    });
    // The comparison is worth something only if the hard cases occur.
    let points: Vec<_> = networks
        .iter()
        .map(|network| operating_point(network, &Options::default()).unwrap())
        .collect();
    let dropped = |state: &BranchState| *state == BranchState::DroppedOut;
    let with_dropped = points
        .iter()
        .filter(|p| p.branch_state.iter().any(dropped))
        .count();
    let is_power = |branch: &&Branch| matches!(branch.element, Element::ConstantPower { .. });
    let powers: usize = networks
        .iter()
        .map(|n| n.branches.iter().filter(is_power).count())
        .sum();
    assert!(powers > 500, "{powers} constant powers");
    assert!(
        (5..150).contains(&with_dropped),
        "{with_dropped} networks with loads dropped out"
    );
}

#[test]
fn switch_bank_agrees_with_the_live_deck() {
    let bench = Bench::new("wainwright-bank");
    for kind in [LoadKind::Current, LoadKind::Resistance, LoadKind::Power] {
        let bank = switch_bank(kind);
        let mut guess = vec![12.5; bank.network.node_count];
        for &(_, minus) in &bank.loads {
            guess[minus] = 0.0;
        }
        let printed = simulate(&bench, "bank", &[(&bank.network, guess)]);
        let worst = compare(&bank.network, &printed[0]);
        assert!(worst < 1e-6, "{kind:?}: {worst} V apart");
    }
}

/// 13.2 V behind 30 mΩ feeding one constant power at node 1.
fn constant_power(watts: f64, lowest_volts: f64) -> Network {
    let mut build = Build::new();
    let plus = build.node();
    build.source(plus, 0, 13.2, 0.030);
    build.watts(plus, 0, watts, lowest_volts);
    build.done()
}

#[test]
fn constant_power_agrees_with_the_live_deck() {
    let bench = Bench::new("wainwright-power");
    for (watts, lowest) in [
        (500.0, 0.0),
        (1000.0, 0.0),
        (1400.0, 0.0),
        (1450.0, 0.0),
        (1500.0, 8.0),
    ] {
        let network = constant_power(watts, lowest);
        let printed = simulate(&bench, "power", &[(&network, vec![0.0, 13.0])]);
        let worst = compare(&network, &printed[0]);
        assert!(worst < 1e-6, "{watts} W: {worst} V apart");
    }
}

#[test]
fn the_simulator_fails_where_the_supply_collapses() {
    let bench = Bench::new("wainwright-collapse");
    let network = constant_power(1500.0, 0.0);
    let printed = simulate(&bench, "collapse", &[(&network, vec![0.0, 13.0])]);
    assert_eq!(
        printed_volts(&network, &printed[0])[1],
        None,
        "{}",
        printed[0]
    );
    let found = operating_point(&network, &Options::default());
    assert!(matches!(found, Err(NetworkError::Collapse(_))));
}

#[test]
fn the_simulator_can_be_led_to_the_lower_root_and_the_engine_cannot() {
    let bench = Bench::new("wainwright-root");
    let network = constant_power(1000.0, 0.0);
    let printed = simulate(&bench, "root", &[(&network, vec![0.0, 2.0])]);
    let lower = printed_volts(&network, &printed[0])[1].unwrap();
    assert!((lower - 2.917609).abs() < 1e-6);
    let point = operating_point(&network, &Options::default()).unwrap();
    assert!((point.node_volts[1].unwrap().volts() - 10.282391).abs() < 1e-6);
}
