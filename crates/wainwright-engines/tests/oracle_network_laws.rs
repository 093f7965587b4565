//! Laws that every network obeys, on random networks: superposition, reciprocity, monotony,
//! scaling, conservation, a sharp collapse limit, and chargers that always settle.
//!
//! Not here: comparison with other solvers (`oracle_network`, `oracle_ngspice`).
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed assumption of a test is a failed test"
)]

mod network_support;

use network_support::{Build, Loads, Numbers, random_network, solve, volts};
use proptest::prelude::*;
use wainwright_engines::network::{
    Branch, BranchState, Element, Network, NetworkError, OperatingPoint, Options, Plan,
    operating_point,
};
use wainwright_units::{Current, Power, Resistance, Voltage};

/// Resistance above which a resistor of a random network is a load and not a wire [Ω].
const LOAD_OHMS: f64 = 0.031;

/// A random linear network: the loads are constant currents only.
fn linear(seed: u64, nodes: usize) -> Network {
    let mut network = random_network(&mut Numbers(seed), nodes, 3, Loads::Mixed);
    for branch in &mut network.branches {
        if let Element::ConstantPower { power, .. } = branch.element {
            branch.element = Element::ConstantCurrent(Current::from_amperes(power.watts() / 12.0));
        }
    }
    network
}

/// A random network whose loads are all constant powers, `times` as large.
fn heavy(seed: u64, nodes: usize, times: f64, lowest_volts: f64) -> Network {
    let mut network = random_network(&mut Numbers(seed), nodes, 2, Loads::Mixed);
    for branch in &mut network.branches {
        let watts = match branch.element {
            Element::ConstantPower { power, .. } => power.watts(),
            Element::ConstantCurrent(amps) => 12.0 * amps.amperes(),
            _ => continue,
        };
        branch.element = Element::ConstantPower {
            power: Power::from_watts(watts * times),
            lowest: Voltage::from_volts(lowest_volts),
        };
    }
    network
}

/// The network with source voltages and load currents multiplied.
fn driven(network: &Network, emf_times: f64, load_times: f64) -> Network {
    let mut driven = network.clone();
    for branch in &mut driven.branches {
        branch.element = match branch.element {
            Element::Source { emf, resistance } => Element::Source {
                emf: Voltage::from_volts(emf.volts() * emf_times),
                resistance,
            },
            Element::ConstantCurrent(i) => {
                Element::ConstantCurrent(Current::from_amperes(i.amperes() * load_times))
            }
            same => same,
        };
    }
    driven
}

proptest! {
    #![proptest_config(ProptestConfig {
        cases: 256,
        failure_persistence: None,
        ..ProptestConfig::default()
    })]

    /// The response to sources and loads together is the sum of the responses.
    #[test]
    fn superposition(seed in any::<u64>(), nodes in 4usize..80) {
        let network = linear(seed, nodes);
        let both = solve(&network);
        let sources_only = solve(&driven(&network, 1.0, 0.0));
        let double_load = solve(&driven(&network, 1.0, 2.0));
        for node in 0..network.node_count {
            let change = volts(&both, node) - volts(&sources_only, node);
            let double = volts(&double_load, node) - volts(&sources_only, node);
            prop_assert!((double - 2.0 * change).abs() < 1e-10);
        }
    }

    /// One ampere drawn at a lowers the voltage at b as one ampere drawn at b lowers that at a.
    #[test]
    fn reciprocity(seed in any::<u64>(), nodes in 6usize..80) {
        let network = random_network(&mut Numbers(seed), nodes, 3, Loads::None);
        let (a, b) = (network.node_count / 2, network.node_count - 1);
        let rest = solve(&network);
        let drawn = |at: usize, seen: usize| {
            let mut loaded = network.clone();
            loaded.branches.push(Branch {
                from: at,
                to: 0,
                element: Element::ConstantCurrent(Current::from_amperes(-1.0)),
            });
            volts(&solve(&loaded), seen) - volts(&rest, seen)
        };
        prop_assert!((drawn(a, b) - drawn(b, a)).abs() < 1e-12);
    }

    /// An extra wire along an existing one never lowers the voltage at any load of a radial network
    /// with one source, when no load draws more at a higher voltage. With resistive loads it can:
    /// the load that gains draws more through the wire that others share.
    #[test]
    fn a_parallel_path_never_hurts(seed in any::<u64>(), nodes in 4usize..60, pick in any::<usize>()) {
        let mut network = random_network(&mut Numbers(seed), nodes, 0, Loads::Mixed);
        let mut seen = false;
        network.branches.retain(|branch| {
            let is_source = matches!(branch.element, Element::Source { .. });
            let keep = !(is_source && seen);
            seen |= is_source;
            keep
        });
        for branch in &mut network.branches {
            if let Element::Resistor(r) = branch.element && r.ohms() > LOAD_OHMS {
                let amps = Current::from_amperes(12.0 / r.ohms());
                branch.element = Element::ConstantCurrent(amps);
            }
        }
        let before = operating_point(&network, &Options::default());
        prop_assume!(before.is_ok());
        let before = before.unwrap();
        prop_assume!(before.branch_state.iter().all(|state| *state == BranchState::Normal));
        let wires: Vec<Branch> = network.branches.iter().copied()
            .filter(|branch| matches!(branch.element, Element::Resistor(_)))
            .collect();
        network.branches.push(wires[pick % wires.len()]);
        let after = solve(&network);
        for branch in &network.branches {
            if matches!(branch.element, Element::ConstantPower { .. } | Element::ConstantCurrent(_)) {
                let drop = |point: &OperatingPoint| volts(point, branch.from) - volts(point, branch.to);
                prop_assert!(drop(&after) >= drop(&before) - 1e-9);
            }
        }
    }

    /// A load that never lets go is carried up to the reported share and not beyond.
    #[test]
    fn the_collapse_limit_is_sharp(seed in any::<u64>(), nodes in 4usize..60, times in 1f64..40.0) {
        let network = heavy(seed, nodes, times, 0.0);
        match operating_point(&network, &Options::default()) {
            Ok(point) => prop_assert!(point.branch_state.iter().all(|s| *s == BranchState::Normal)),
            Err(NetworkError::Collapse(collapse)) => {
                let carried = collapse.carried.fraction();
                let at = |share: f64| operating_point(&heavy(seed, nodes, times * share, 0.0), &Options::default());
                prop_assert!(at(carried * (1.0 - 1e-7)).is_ok());
                let beyond = at(carried * (1.0 + 1e-7));
                prop_assert!(matches!(beyond, Err(NetworkError::Collapse(_))), "{beyond:?}");
            }
            Err(other) => prop_assert!(false, "{other}"),
        }
    }

    /// Loads that let go never collapse the supply, and each ends on its own characteristic.
    #[test]
    fn loads_that_let_go_always_settle(seed in any::<u64>(), nodes in 4usize..60, times in 1f64..40.0, lowest in 1f64..12.0) {
        let network = heavy(seed, nodes, times, lowest);
        let point = solve(&network);
        for (index, branch) in network.branches.iter().enumerate() {
            let Element::ConstantPower { power, lowest } = branch.element else { continue };
            let across = volts(&point, branch.from) - volts(&point, branch.to);
            match point.branch_state[index] {
                BranchState::Normal => {
                    prop_assert!(across >= lowest.volts() * (1.0 - 1e-9));
                    let amps = power.watts() / across;
                    prop_assert!((point.branch_amps[index].amperes() - amps).abs() < 1e-9 * (1.0 + amps));
                }
                BranchState::DroppedOut => prop_assert!(across <= lowest.volts() * (1.0 + 1e-9)),
                other => prop_assert!(false, "{other:?}"),
            }
        }
    }

    /// Node numbers do not matter.
    #[test]
    fn renumbering_changes_nothing(seed in any::<u64>(), nodes in 4usize..80) {
        let network = random_network(&mut Numbers(seed), nodes, 2, Loads::Mixed);
        let last = network.node_count - 1;
        let mut renumbered = network.clone();
        renumbered.ground = last - network.ground;
        for branch in &mut renumbered.branches {
            branch.from = last - branch.from;
            branch.to = last - branch.to;
        }
        renumbered.branches.reverse();
        let (one, other) = (solve(&network), solve(&renumbered));
        for node in 0..=last {
            prop_assert!((volts(&one, node) - volts(&other, last - node)).abs() < 1e-9);
        }
    }

    /// All resistances a times larger and all loads a times smaller leave the voltages alone.
    #[test]
    fn scaling(seed in any::<u64>(), nodes in 4usize..80, times in 1e-3f64..1e3) {
        let network = random_network(&mut Numbers(seed), nodes, 2, Loads::Mixed);
        let mut scaled = network.clone();
        for branch in &mut scaled.branches {
            branch.element = match branch.element {
                Element::Resistor(r) => Element::Resistor(Resistance::from_ohms(r.ohms() * times)),
                Element::Source { emf, resistance } => Element::Source {
                    emf,
                    resistance: Resistance::from_ohms(resistance.ohms() * times),
                },
                Element::ConstantCurrent(i) => {
                    Element::ConstantCurrent(Current::from_amperes(i.amperes() / times))
                }
                Element::ConstantPower { power, lowest } => Element::ConstantPower {
                    power: Power::from_watts(power.watts() / times),
                    lowest,
                },
                same => same,
            };
        }
        let (one, other) = (solve(&network), solve(&scaled));
        for node in 0..network.node_count {
            prop_assert!((volts(&one, node) - volts(&other, node)).abs() < 1e-9);
        }
    }

    /// A warm start gives the answer of a cold one.
    #[test]
    fn warm_is_cold(seed in any::<u64>(), nodes in 4usize..80, load in 0.1f64..2.0) {
        let network = linear(seed, nodes);
        let plan = Plan::new(&network).unwrap();
        let first = plan.solve(&network, None).unwrap();
        let changed = driven(&network, 1.0, load);
        let cold = plan.solve(&changed, None).unwrap();
        let warm = plan.solve(&changed, Some(&first)).unwrap();
        for node in 0..network.node_count {
            prop_assert!((volts(&warm, node) - volts(&cold, node)).abs() < 1e-10);
        }
    }

    /// Any resistances from 1 µΩ to 1 MΩ in one network close Kirchhoff's law to 1e-9 of the
    /// currents at each node, summed here from the reported branch currents.
    #[test]
    fn extreme_values_close_kirchhoffs_law(seed in any::<u64>(), nodes in 3usize..60) {
        let mut numbers = Numbers(seed);
        let mut build = Build::new();
        let mut all = vec![0];
        for _ in 1..nodes {
            let at = all[numbers.below(all.len())];
            let node = build.node();
            build.wire(at, node, numbers.scaled(1e-6, 1e6));
            let other = all[numbers.below(all.len())];
            build.wire(other, node, numbers.scaled(1e-6, 1e6));
            all.push(node);
        }
        build.source(nodes - 1, 0, 13.2, numbers.scaled(1e-6, 1.0));
        build.source(nodes / 2, nodes - 1, 3.3, numbers.scaled(1e-3, 1e6));
        let network = build.done();
        let point = solve(&network);
        let (mut left, mut met) = (vec![0.0; nodes], vec![0.0; nodes]);
        for (branch, amps) in network.branches.iter().zip(&point.branch_amps) {
            let is_source = matches!(branch.element, Element::Source { .. });
            let drawn = if is_source { -amps.amperes() } else { amps.amperes() };
            left[branch.from] -= drawn;
            left[branch.to] += drawn;
            met[branch.from] += drawn.abs();
            met[branch.to] += drawn.abs();
        }
        for (left, met) in left.iter().zip(&met) {
            // A dead end carries no current but rounding, some 1e-33 A.
            prop_assert!(left.abs() <= 1e-9 * met + 1e-24, "{left} of {met}");
        }
        let residual = point.balance.residual.watts().abs();
        prop_assert!(residual <= 1e-9 * point.balance.sources.watts().abs());
    }

    /// Many chargers of all sizes always settle, and each in a state that its terminals confirm.
    #[test]
    fn chargers_settle(seed in any::<u64>(), nodes in 4usize..40, chargers in 1usize..6) {
        let mut numbers = Numbers(seed);
        let mut network = random_network(&mut numbers, nodes, 2, Loads::None);
        let first = network.branches.len();
        for _ in 0..chargers {
            let from = 1 + numbers.below(network.node_count - 1);
            network.branches.push(Branch {
                from,
                to: if numbers.unit() < 0.5 { 0 } else { (from + 1) % network.node_count },
                element: Element::Regulated {
                    limit: Voltage::from_volts(numbers.between(12.5, 14.6)),
                    most: Current::from_amperes(numbers.between(1.0, 60.0)),
                },
            });
        }
        let point = solve(&network);
        for (index, branch) in network.branches.iter().enumerate().skip(first) {
            let Element::Regulated { limit, most } = branch.element else { unreachable!() };
            let across = if branch.from == branch.to { 0.0 } else {
                volts(&point, branch.from) - volts(&point, branch.to)
            };
            let amps = point.branch_amps[index].amperes();
            match point.branch_state[index] {
                BranchState::Idle => {
                    prop_assert!(amps == 0.0 && across >= limit.volts() - 1e-6);
                }
                BranchState::CurrentLimited => {
                    prop_assert!(amps == most.amperes() && across <= limit.volts() + 1e-6);
                }
                BranchState::VoltageLimited => {
                    prop_assert!((across - limit.volts()).abs() < 1e-9);
                    prop_assert!(amps >= -1e-6 && amps <= most.amperes() + 1e-6);
                }
                other => prop_assert!(false, "{other:?}"),
            }
        }
    }
}
