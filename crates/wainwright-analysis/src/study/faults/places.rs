//! Where plus may meet minus, and the ways back from there: the nearest for
//! the largest current, the farthest for the smallest.

use super::network::{End, wire_resistance};
use crate::circuit::{self, Bank, Circuit, Demand, Part};
use crate::result::Side;
use crate::study::graph::{Graph, Reach};
use wainwright_engines::faults::FaultCase;
use wainwright_units::Resistance;

/// A node where plus may meet minus.
pub(super) struct Place {
    pub(super) node: usize,
    /// The minus end of the source or string: the shortest way back.
    pub(super) near: usize,
    /// The minus terminal of the gear farthest behind: the longest way back.
    pub(super) far: usize,
}

impl Place {
    pub(super) fn case(&self, place: usize, back: usize) -> FaultCase {
        FaultCase {
            place,
            from: self.node,
            to: back,
            bridge: Resistance::from_ohms(0.0),
        }
    }
}

/// Every node on the plus side, with its nearest and farthest way back.
/// Batteries come first, because they give the most.
pub(super) fn places(circuit: &Circuit, graph: &Graph) -> Vec<Place> {
    let count = circuit.nodes.len();
    let mut found: Vec<Option<Place>> = (0..count).map(|_| None).collect();
    let gear_ends = gear_ends(circuit);
    let chargers = circuit.single(|demand| matches!(demand, Demand::Charger { .. }));
    for source in circuit.strings().chain(chargers) {
        let ways = Ways::new(circuit, graph, &source);
        for (node, place) in found.iter_mut().enumerate() {
            let live = ways.plus.reaches(node) && circuit.sides[node] == Side::Plus;
            if live && place.is_none() && node != source.minus {
                let far = ways.far(node, gear_ends[node]);
                let far = far.filter(|far| *far != node);
                *place = Some(Place {
                    node,
                    near: source.minus,
                    far: far.unwrap_or(source.minus),
                });
            }
        }
    }
    found.into_iter().flatten().collect()
}

/// Per node: whether it is the plus terminal of gear other than a battery.
fn gear_ends(circuit: &Circuit) -> Vec<bool> {
    let mut ends = vec![false; circuit.nodes.len()];
    let gear = circuit.consumers.iter();
    gear.filter(|c| !matches!(c.demand, Demand::Battery { .. }))
        .for_each(|c| ends[c.nodes.0] = true);
    ends
}

/// Ways from one source to every node, and back.
struct Ways {
    plus: Reach,
    /// Per node: the minus terminal, of the gear behind it, with the longest way back.
    farthest: Vec<Option<usize>>,
    /// Per node: pieces of gear behind it on the plus side.
    gear: Vec<usize>,
    back: WaysBack,
}

impl Ways {
    fn new(circuit: &Circuit, graph: &Graph, source: &Bank) -> Self {
        let plus = graph.reach(source.plus, &circuit.branches);
        let minus = graph.reach(source.minus, &circuit.branches);
        Self {
            farthest: farthest_gear(circuit, &plus, &way_back(circuit, &minus)),
            gear: gear_behind(circuit, &plus, |consumer| consumer.nodes.0),
            back: WaysBack::new(circuit, &minus),
            plus,
        }
    }

    /// The far end of the longest way back from a node. A short circuit at the
    /// gear itself goes back from the gear's own minus terminal; one on the way
    /// to it goes back from where the returns of all gear behind it meet.
    fn far(&self, node: usize, at_gear: bool) -> Option<usize> {
        let minus = self.farthest[node]?;
        Some(match at_gear {
            true => minus,
            false => self.back.meeting(minus, self.gear[node]),
        })
    }
}

/// Resistance of the path tree from a source's minus to each node.
fn way_back(circuit: &Circuit, minus: &Reach) -> Vec<Option<f64>> {
    let mut ohms = vec![None; circuit.nodes.len()];
    for (node, before) in minus.tree() {
        ohms[node] = match before {
            None => Some(0.0),
            Some((branch, before)) => {
                ohms[before].map(|here: f64| here + branch_ohms(circuit, branch))
            }
        };
    }
    ohms
}

fn branch_ohms(circuit: &Circuit, branch: usize) -> f64 {
    match circuit.branches[branch].part {
        Part::Wire(wire) => wire_resistance(&circuit.wires[wire], End::Smallest).ohms(),
        Part::Fixed(index) => circuit.fixed[index].branch.ohms(),
        Part::Device(device) => circuit.devices[device].resistance.value.ohms(),
        Part::Contact(contact) => circuit.contacts[contact].resistance.value.ohms(),
        Part::Consumer(_) => 0.0,
    }
}

/// Ways back to a source's minus terminal, as a tree.
struct WaysBack {
    before: Vec<Option<usize>>,
    /// Per node: pieces of gear whose way back leads through it.
    gear: Vec<usize>,
}

impl WaysBack {
    fn new(circuit: &Circuit, minus: &Reach) -> Self {
        let mut before = vec![None; circuit.nodes.len()];
        minus
            .tree()
            .for_each(|(node, by)| before[node] = by.map(|(_, node)| node));
        let gear = gear_behind(circuit, minus, |consumer| consumer.nodes.1);
        Self { before, gear }
    }

    /// The first place, going from a piece of gear towards the source, that
    /// more than `own` pieces of gear share. A short circuit on the way to
    /// gear lies beside that gear's own return, which begins there.
    fn meeting(&self, gear_minus: usize, own: usize) -> usize {
        let mut here = gear_minus;
        while let (true, Some(before)) = (self.gear[here] <= own, self.before[here]) {
            here = before;
        }
        here
    }
}

/// Per node: pieces of gear behind it, as seen from the start of a reach.
fn gear_behind(
    circuit: &Circuit,
    reach: &Reach,
    end: fn(&circuit::Consumer) -> usize,
) -> Vec<usize> {
    let mut behind = vec![0_usize; circuit.nodes.len()];
    circuit
        .consumers
        .iter()
        .for_each(|consumer| behind[end(consumer)] += 1);
    let tree: Vec<_> = reach.tree().collect();
    for (node, before) in tree.into_iter().rev() {
        if let Some((_, before)) = before {
            behind[before] += behind[node];
        }
    }
    behind
}

/// For each node: the minus terminal, of the gear behind it, with the longest way back.
fn farthest_gear(circuit: &Circuit, plus: &Reach, back: &[Option<f64>]) -> Vec<Option<usize>> {
    let mut best: Vec<Option<(f64, usize)>> = vec![None; circuit.nodes.len()];
    for consumer in &circuit.consumers {
        let Some(ohms) = back.get(consumer.nodes.1).copied().flatten() else {
            continue;
        };
        if plus.reaches(consumer.nodes.0) {
            let here = &mut best[consumer.nodes.0];
            if here.is_none_or(|(most, _)| ohms > most) {
                *here = Some((ohms, consumer.nodes.1));
            }
        }
    }
    for (node, before) in plus.tree().collect::<Vec<_>>().into_iter().rev() {
        let (Some((_, before)), Some(found)) = (before, best[node]) else {
            continue;
        };
        if best[before].is_none_or(|(most, _)| found.0 > most) {
            best[before] = Some(found);
        }
    }
    best.into_iter()
        .map(|found| found.map(|(_, node)| node))
        .collect()
}
