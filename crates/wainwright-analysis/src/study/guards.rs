//! What protects each conductor from each source.

use super::graph::{Graph, Reach};
use crate::circuit::{Bank, Circuit, Consumer, Part};
use crate::result::{Guard, Side};
use wainwright_units::{Current, Length};

/// Guards of every wire, in the circuit's order of wires.
pub(crate) fn all(circuit: &Circuit, graph: &Graph) -> Vec<Vec<Guard>> {
    let mut guards = vec![Vec::new(); circuit.wires.len()];
    for source in circuit.consumers.iter().filter(|c| c.demand.is_source()) {
        guard_plus(circuit, graph, source, &mut guards);
    }
    for string in circuit.strings() {
        guard_minus(circuit, graph, &string, &mut guards);
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
fn guard_minus(circuit: &Circuit, graph: &Graph, bank: &Bank, guards: &mut [Vec<Guard>]) {
    let plus = graph.reach(bank.plus, &circuit.branches);
    let minus = graph.reach(bank.minus, &circuit.branches);
    let consumers = circuit.consumers.iter().enumerate();
    let gear: Vec<&Consumer> = consumers
        .filter(|(index, c)| !bank.members.contains(index) && minus.reaches(c.nodes.1))
        .filter(|(_, c)| plus.reaches(c.nodes.0))
        .map(|(_, consumer)| consumer)
        .collect();
    let top = &circuit.consumers[bank.top()];
    for (index, branch) in circuit.branches.iter().enumerate() {
        let Part::Wire(wire) = branch.part else {
            continue;
        };
        if circuit.sides[branch.from] != Side::Minus || !minus.reaches(branch.from) {
            continue;
        }
        let behind = |c: &&&Consumer| !minus.is_bridge(index) || minus.is_behind(index, c.nodes.1);
        let fed: Vec<&Consumer> = gear.iter().filter(behind).copied().collect();
        if fed.is_empty() {
            continue;
        }
        let (device, sum) = common_and_sum(circuit, &plus, &fed);
        let own = top.demand.self_limit();
        let limit = match (own, sum) {
            (Some(own), Some(sum)) => Some(own.min(sum)),
            (own, sum) => own.or(sum),
        };
        guards[wire].push(Guard {
            source: top.item.clone(),
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
