//! What protects each conductor from each source.

use super::graph::{Graph, Reach};
use crate::circuit::{Circuit, Consumer, Demand, Part};
use crate::result::{Guard, Side};
use wainwright_units::{Current, Length};

/// Guards of every wire, in the circuit's order of wires.
pub(crate) fn all(circuit: &Circuit) -> Vec<Vec<Guard>> {
    let graph = Graph::new(circuit);
    let mut guards = vec![Vec::new(); circuit.wires.len()];
    for source in circuit.consumers.iter().filter(|c| c.demand.is_source()) {
        guard_plus(circuit, &graph, source, &mut guards);
    }
    let batteries = circuit
        .consumers
        .iter()
        .filter(|c| matches!(c.demand, Demand::Battery { .. }));
    for battery in batteries {
        guard_minus(circuit, &graph, battery, &mut guards);
    }
    guards
}

/// Live conductors: the smallest device that every path from the source passes.
fn guard_plus(circuit: &Circuit, graph: &Graph, source: &Consumer, guards: &mut [Vec<Guard>]) {
    let start = source.nodes.0;
    let reach = graph.reach(start, &circuit.branches);
    let bare = graph.bare_metres(start, circuit);
    for (index, branch) in circuit.branches.iter().enumerate() {
        let Part::Wire(wire) = branch.part else {
            continue;
        };
        if !reach.reaches(branch.from) || circuit.sides[branch.from] == Side::Minus {
            continue;
        }
        let near = reach.near_end(index, branch.from, branch.to);
        let passed = reach.passed[near].as_deref().unwrap_or(&[]);
        let device = smallest(circuit, passed.iter().copied());
        let to_near = bare[branch.from].min(bare[branch.to]);
        let far = to_near + circuit.wires[wire].length.value.metres();
        guards[wire].push(Guard {
            source: source.item.clone(),
            device,
            bare_length: far.is_finite().then(|| Length::from_metres(far)),
            self_limited: source.demand.self_limit(),
            overload: None,
        });
    }
}

/// Return conductors: they carry what their circuits' devices let through, so
/// the smallest device common to all gear behind them guards them, and the sum
/// of that gear's own devices limits them.
fn guard_minus(circuit: &Circuit, graph: &Graph, battery: &Consumer, guards: &mut [Vec<Guard>]) {
    let plus = graph.reach(battery.nodes.0, &circuit.branches);
    let minus = graph.reach(battery.nodes.1, &circuit.branches);
    let gear: Vec<&Consumer> = circuit
        .consumers
        .iter()
        .filter(|c| c.item != battery.item && minus.reaches(c.nodes.1))
        .collect();
    let ends = |node: usize| gear.iter().any(|c| c.nodes.1 == node);
    let behind = minus.behind(ends);
    for (index, branch) in circuit.branches.iter().enumerate() {
        let Part::Wire(wire) = branch.part else {
            continue;
        };
        if circuit.sides[branch.from] != Side::Minus || !minus.reaches(branch.from) {
            continue;
        }
        let fed: Vec<&Consumer> = if minus.is_bridge(index) {
            gear.iter()
                .filter(|c| behind[index].contains(&c.nodes.1))
                .copied()
                .collect()
        } else {
            gear.clone()
        };
        if fed.is_empty() {
            continue;
        }
        let (device, limit) = common_and_sum(circuit, &plus, &fed);
        guards[wire].push(Guard {
            source: battery.item.clone(),
            device,
            bare_length: None,
            self_limited: limit,
            overload: None,
        });
    }
}

fn common_and_sum(
    circuit: &Circuit,
    plus: &Reach,
    fed: &[&Consumer],
) -> (Option<usize>, Option<Current>) {
    let paths: Vec<&[usize]> = fed
        .iter()
        .map(|c| plus.passed[c.nodes.0].as_deref().unwrap_or(&[]))
        .collect();
    let first = paths.first().copied().unwrap_or(&[]);
    let common = first
        .iter()
        .copied()
        .filter(|d| paths.iter().all(|path| path.contains(d)));
    let device = smallest(circuit, common);
    let mut own: Vec<usize> = Vec::new();
    for path in &paths {
        match smallest(circuit, path.iter().copied()) {
            Some(device) => own.push(device),
            None => return (device, None),
        }
    }
    own.sort_unstable();
    own.dedup();
    let sum = own
        .iter()
        .map(|d| circuit.devices[*d].rating.value.amperes())
        .sum();
    (device, Some(Current::from_amperes(sum)))
}

fn smallest(circuit: &Circuit, devices: impl Iterator<Item = usize>) -> Option<usize> {
    let rating = |d: &usize| circuit.devices[*d].rating.value.amperes();
    devices.min_by(|a, b| rating(a).total_cmp(&rating(b)))
}
