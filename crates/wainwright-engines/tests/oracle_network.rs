//! The network and fault engines against dense elimination.
//!
//! The oracle is written differently on purpose: modified nodal analysis with the source currents
//! as unknowns, dense Gaussian elimination with partial pivoting, islands found by flooding.
//! Not here: laws that every network obeys (`oracle_network_laws`) and the simulator
//! (`oracle_ngspice`).
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed assumption of a test is a failed test"
)]

mod network_support;

use network_support::{Loads, Numbers, random_network, solve, volts};
use wainwright_engines::fault_currents::FaultCurrents;
use wainwright_engines::network::{Branch, Element, Network};
use wainwright_units::Resistance;

/// Solves a dense system by elimination with row exchange.
fn dense(mut matrix: Vec<Vec<f64>>, mut right: Vec<f64>) -> Vec<f64> {
    let count = right.len();
    for column in 0..count {
        let best = (column..count)
            .max_by(|&i, &j| matrix[i][column].abs().total_cmp(&matrix[j][column].abs()))
            .unwrap();
        matrix.swap(column, best);
        right.swap(column, best);
        let pivot = matrix[column].clone();
        for row in column + 1..count {
            let times = matrix[row][column] / pivot[column];
            for k in column..count {
                matrix[row][k] -= times * pivot[k];
            }
            right[row] -= times * right[column];
        }
    }
    for row in (0..count).rev() {
        let known: f64 = (row + 1..count).map(|k| matrix[row][k] * right[k]).sum();
        right[row] = (right[row] - known) / matrix[row][row];
    }
    right
}

/// Node voltages of a network that hangs together, node `reference` at 0 V. Constant powers are
/// found by Newton's method on the same dense matrix, from 13 V.
fn dense_volts(network: &Network, reference: usize) -> Vec<f64> {
    let sources: Vec<usize> = (0..network.branches.len())
        .filter(|&i| matches!(network.branches[i].element, Element::Source { .. }))
        .collect();
    let size = network.node_count + sources.len();
    let mut load_volts = vec![13.0; network.branches.len()];
    let mut solution = Vec::new();
    for _ in 0..40 {
        let mut matrix = vec![vec![0.0; size]; size];
        let mut right = vec![0.0; size];
        let mut conductance = |branch: &Branch, siemens: f64| {
            let (a, b) = (branch.from, branch.to);
            matrix[a][a] += siemens;
            matrix[b][b] += siemens;
            matrix[a][b] -= siemens;
            matrix[b][a] -= siemens;
        };
        for (index, branch) in network.branches.iter().enumerate() {
            let mut draw = |amps: f64| {
                right[branch.from] -= amps;
                right[branch.to] += amps;
            };
            match branch.element {
                Element::Resistor(r) => conductance(branch, 1.0 / r.ohms()),
                Element::ConstantCurrent(i) => draw(i.amperes()),
                Element::ConstantPower { power, lowest } => {
                    let (v, p) = (load_volts[index], power.watts());
                    if v >= lowest.volts() {
                        conductance(branch, -p / (v * v));
                        draw(2.0 * p / v);
                    } else {
                        conductance(branch, p / lowest.volts().powi(2));
                    }
                }
                _ => {}
            }
        }
        for (k, &index) in sources.iter().enumerate() {
            let branch = network.branches[index];
            let row = network.node_count + k;
            let Element::Source { emf, resistance } = branch.element else {
                unreachable!()
            };
            matrix[branch.from][row] -= 1.0;
            matrix[branch.to][row] += 1.0;
            matrix[row][branch.from] += 1.0;
            matrix[row][branch.to] -= 1.0;
            matrix[row][row] += resistance.ohms();
            right[row] = emf.volts();
        }
        matrix[reference] = vec![0.0; size];
        matrix[reference][reference] = 1.0;
        right[reference] = 0.0;
        solution = dense(matrix, right);
        for (volts, branch) in load_volts.iter_mut().zip(&network.branches) {
            *volts = solution[branch.from] - solution[branch.to];
        }
    }
    solution.truncate(network.node_count);
    solution
}

#[test]
fn operating_points_agree_with_dense_elimination() {
    let mut numbers = Numbers(11);
    let mut power_loads = 0;
    for round in 0..150 {
        let network = random_network(&mut numbers, 4 + round % 40, round % 4, Loads::Mixed);
        let point = solve(&network);
        let expected = dense_volts(&network, 0);
        for (node, expected) in expected.iter().enumerate() {
            let found = volts(&point, node);
            // Both solve to rounding; the dense one loses up to 1e3 of 1e-15·13 V.
            assert!(
                (found - expected).abs() < 1e-9,
                "round {round}: {found} {expected}"
            );
        }
        let is_power = |branch: &&Branch| matches!(branch.element, Element::ConstantPower { .. });
        power_loads += network.branches.iter().filter(is_power).count();
    }
    assert!(power_loads > 200);
}

/// Node voltages island by island without the opened branches, and which nodes hang together.
fn dense_islands(network: &Network, open: &[usize]) -> (Vec<f64>, Vec<usize>) {
    let mut island: Vec<usize> = (0..network.node_count).collect();
    let mut left = network.clone();
    left.branches = (0..network.branches.len())
        .filter(|index| !open.contains(index))
        .map(|index| network.branches[index])
        .collect();
    for _ in 0..network.node_count {
        for branch in &left.branches {
            let low = island[branch.from].min(island[branch.to]);
            island[branch.from] = low;
            island[branch.to] = low;
        }
    }
    let mut volts = vec![0.0; network.node_count];
    for name in 0..network.node_count {
        let members: Vec<usize> = (0..network.node_count)
            .filter(|&n| island[n] == name)
            .collect();
        if members.len() < 2 {
            continue;
        }
        let local = |node: usize| members.iter().position(|&m| m == node);
        let branches = left.branches.iter().filter_map(|branch| {
            Some(Branch {
                from: local(branch.from)?,
                to: local(branch.to)?,
                element: branch.element,
            })
        });
        let part = Network {
            node_count: members.len(),
            ground: 0,
            branches: branches.collect(),
        };
        for (&node, v) in members.iter().zip(dense_volts(&part, 0)) {
            volts[node] = v;
        }
    }
    (volts, island)
}

fn dense_amps(branch: &Branch, volts: &[f64]) -> f64 {
    let across = volts[branch.from] - volts[branch.to];
    match branch.element {
        Element::Resistor(r) => across / r.ohms(),
        Element::Source { emf, resistance } => (emf.volts() - across) / resistance.ohms(),
        _ => 0.0,
    }
}

/// Compares one fault with the dense solution of the network with the bridge in it.
fn check_fault(
    network: &Network,
    faults: &FaultCurrents,
    a: usize,
    b: usize,
    ohms: f64,
    open: &[usize],
) -> bool {
    let bridge = Resistance::from_ohms(ohms);
    let fault = faults.at_with_open(a, b, bridge, open);
    let (before, island) = dense_islands(network, open);
    let mut bridged = network.clone();
    let is_connected = island[a] == island[b];
    let mut total = 0.0;
    if is_connected {
        bridged.branches.push(Branch {
            from: a,
            to: b,
            element: Element::Resistor(bridge),
        });
    }
    let (after, _) = dense_islands(&bridged, open);
    if is_connected {
        total = (after[a] - after[b]) / ohms;
        let expected = before[a] - before[b];
        assert!((fault.open_circuit.volts() - expected).abs() < 1e-9);
    } else {
        assert!(fault.source_resistance.ohms().is_infinite());
    }
    // The dense solution divides a voltage rounded to 1e-14 V by resistances down to 0.3 mΩ.
    let close =
        |found: f64, expected: f64| (found - expected).abs() < 1e-7 * (1.0 + expected.abs());
    assert!(
        close(fault.total.amperes(), total),
        "{} {total}",
        fault.total.amperes()
    );
    let mut listed = fault.branches.iter().peekable();
    for (index, branch) in network.branches.iter().enumerate() {
        let expected = if open.contains(&index) {
            0.0
        } else {
            dense_amps(branch, &after)
        };
        let found = listed
            .next_if(|(branch, _)| *branch == index)
            .map(|(_, amps)| amps.amperes());
        match found {
            Some(found) => assert!(close(found, expected), "branch {index}: {found} {expected}"),
            None => assert!(
                expected.abs() < 1.1e-3,
                "branch {index} is missing: {expected} A"
            ),
        }
    }
    assert!(listed.next().is_none(), "the list is not ascending");
    assert!(fault.residual.amperes() < 1e-6);
    total.abs() > 1.0
}

#[test]
fn faults_agree_with_dense_elimination() {
    let mut numbers = Numbers(12);
    let (mut with_current, mut without, mut opened_with) = (0, 0, 0);
    for round in 0..120 {
        let network = random_network(&mut numbers, 4 + round % 24, round % 5, Loads::None);
        let faults = FaultCurrents::new(&network).unwrap();
        for turn in 0..6 {
            let a = numbers.below(network.node_count);
            let b = numbers.below(network.node_count);
            if a == b {
                continue;
            }
            let open: Vec<usize> = (0..turn / 2)
                .map(|_| numbers.below(network.branches.len()))
                .collect();
            let ohms = numbers.scaled(0.5e-3, 0.5);
            let carries = check_fault(&network, &faults, a, b, ohms, &open);
            with_current += usize::from(carries);
            without += usize::from(!carries);
            opened_with += usize::from(carries && !open.is_empty());
        }
    }
    assert!(
        with_current > 100 && without > 50 && opened_with > 50,
        "{with_current} {without} {opened_with}"
    );
}

#[test]
fn a_bolted_fault_is_the_limit_of_a_small_bridge() {
    let mut numbers = Numbers(13);
    for _ in 0..30 {
        let network = random_network(&mut numbers, 20, 3, Loads::None);
        let faults = FaultCurrents::new(&network).unwrap();
        for node in 1..network.node_count {
            let bolted = faults
                .at(node, 0, Resistance::from_ohms(0.0))
                .total
                .amperes();
            let nearly = faults
                .at(node, 0, Resistance::from_ohms(1e-12))
                .total
                .amperes();
            // The source resistances are 0.3 mΩ and more, so 1e-12 Ω moves the ninth digit; between
            // two nodes of the return only rounding is left.
            assert!((bolted - nearly).abs() <= 4e-9 * bolted.abs() + 1e-9);
        }
    }
}
