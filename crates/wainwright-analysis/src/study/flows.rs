//! The largest current that can go on for long through a conductor when
//! every source feeds it at once: the devices and the sources' own limits
//! are the capacities of a graph, and its greatest flow is the answer
//! (Ford and Fulkerson, 1956; shortest ways first, Edmonds and Karp, 1972).

use super::graph::Graph;
use crate::circuit::{Bank, Circuit, Demand, Part};
use crate::result::Side;
use std::collections::VecDeque;
use wainwright_units::Current;

/// Ways that are added up for one conductor before it counts as unlimited.
const MOST_WAYS: usize = 1000;
/// Capacity left over that counts as none \[A\].
const NONE_LEFT: f64 = 1e-9;

/// A source with both its terminals.
struct Source {
    plus: usize,
    minus: usize,
    /// What it gives for long \[A\]; infinite for a battery.
    most: f64,
}

/// For each wire: the largest lasting current, `None` where nothing limits it.
pub(crate) fn together(circuit: &Circuit, graph: &Graph) -> Vec<Option<Current>> {
    let sources = sources(circuit);
    let mut flow = Flow::new(circuit, graph);
    let first = circuit.first_wire();
    let each = circuit.wires.iter().enumerate().map(|(index, wire)| {
        let branch = first + index;
        let amps = match circuit.sides[wire.from_node] {
            Side::Minus => returning(circuit, &mut flow, &sources, branch),
            Side::Plus | Side::Both | Side::Neither => {
                let given: Vec<(usize, f64)> = sources.iter().map(|s| (s.plus, s.most)).collect();
                let into = |node| flow.most(&given, &|other| other == node, Some(branch));
                [wire.from_node, wire.to_node]
                    .map(into)
                    .into_iter()
                    .fold(0.0, f64::max)
            }
        };
        amps.is_finite().then(|| Current::from_amperes(amps))
    });
    each.collect()
}

/// A return conductor carries what sources on one side of it give to gear on
/// the other, all of which goes through the plus side's devices first.
fn returning(circuit: &Circuit, flow: &mut Flow<'_>, sources: &[Source], branch: usize) -> f64 {
    let ends = circuit.branches[branch];
    let (here, there) = (
        flow.graph.piece(ends.from, branch),
        flow.graph.piece(ends.to, branch),
    );
    let both = here[ends.to];
    let between = |giving: &[bool], taking: &[bool], flow: &mut Flow<'_>| {
        let given: Vec<(usize, f64)> = sources
            .iter()
            .filter(|source| giving[source.minus])
            .map(|source| (source.plus, source.most))
            .collect();
        let own = |node: usize| both && given.iter().any(|(plus, _)| *plus == node);
        let mut ends = vec![false; circuit.nodes.len()];
        let gear = circuit.consumers.iter();
        gear.filter(|c| taking[c.nodes.1] && !own(c.nodes.0))
            .for_each(|c| ends[c.nodes.0] = true);
        flow.most(&given, &|node| ends[node], None)
    };
    between(&here, &there, flow).max(between(&there, &here, flow))
}

fn sources(circuit: &Circuit) -> Vec<Source> {
    let limit = |index: &usize| {
        let limit = circuit.consumers[*index].demand.self_limit();
        limit.map_or(f64::INFINITY, Current::amperes)
    };
    let source = |string: Bank| Source {
        plus: string.plus,
        minus: string.minus,
        most: string
            .members
            .iter()
            .map(limit)
            .fold(f64::INFINITY, f64::min),
    };
    let chargers = circuit.single(|demand| matches!(demand, Demand::Charger { .. }));
    circuit.strings().chain(chargers).map(source).collect()
}

/// Flows over one graph, with room that is used again.
struct Flow<'a> {
    graph: &'a Graph,
    /// Per branch: node it starts at, what it lets through \[A\].
    branches: Vec<(usize, f64)>,
    /// Per branch: flow from its start to its end \[A\].
    now: Vec<f64>,
    /// Per node: how it was found, in the round it was found in.
    found: Vec<(usize, Found)>,
    round: usize,
}

/// How a search came to a node.
#[derive(Debug, Clone, Copy)]
enum Found {
    /// It is the terminal of this source.
    Source(usize),
    /// Along this branch from this node.
    Along(usize, usize),
}

impl<'a> Flow<'a> {
    fn new(circuit: &Circuit, graph: &'a Graph) -> Self {
        let lets_through = |part: Part| match part {
            Part::Device(device) => circuit.devices[device].rating.value.amperes(),
            _ => f64::INFINITY,
        };
        let branches = circuit.branches.iter();
        Self {
            graph,
            branches: branches.map(|b| (b.from, lets_through(b.part))).collect(),
            now: vec![0.0; circuit.branches.len()],
            found: vec![(0, Found::Source(0)); circuit.nodes.len()],
            round: 0,
        }
    }

    /// Greatest flow from sources (node, limit) into the nodes that `is_end`
    /// names, with one branch left out; infinite when nothing limits it.
    fn most(
        &mut self,
        sources: &[(usize, f64)],
        is_end: &dyn Fn(usize) -> bool,
        without: Option<usize>,
    ) -> f64 {
        self.now.fill(0.0);
        let mut left: Vec<f64> = sources.iter().map(|source| source.1).collect();
        let mut total = 0.0;
        for _ in 0..MOST_WAYS {
            let Some(end) = self.search(sources, &left, is_end, without) else {
                return total;
            };
            let (source, more) = self.widest(end, &left);
            if more.is_infinite() {
                return f64::INFINITY;
            }
            self.push(end, more);
            left[source] -= more;
            total += more;
        }
        f64::INFINITY
    }

    /// Breadth first from every source that has anything left.
    fn search(
        &mut self,
        sources: &[(usize, f64)],
        left: &[f64],
        is_end: &dyn Fn(usize) -> bool,
        without: Option<usize>,
    ) -> Option<usize> {
        self.round += 1;
        let mut open = VecDeque::new();
        for (index, (node, _)) in sources.iter().enumerate() {
            if left[index] > NONE_LEFT && self.found[*node].0 != self.round {
                self.found[*node] = (self.round, Found::Source(index));
                open.push_back(*node);
            }
        }
        while let Some(node) = open.pop_front() {
            if is_end(node) {
                return Some(node);
            }
            for &(branch, other) in self.graph.at(node) {
                let fresh = self.found[other].0 != self.round && Some(branch) != without;
                if fresh && self.room(branch, node) > NONE_LEFT {
                    self.found[other] = (self.round, Found::Along(branch, node));
                    open.push_back(other);
                }
            }
        }
        None
    }

    /// What a branch can still take, going in at this node.
    fn room(&self, branch: usize, node: usize) -> f64 {
        let (from, lets_through) = self.branches[branch];
        if from == node {
            lets_through - self.now[branch]
        } else {
            lets_through + self.now[branch]
        }
    }

    /// The source that a search came from, and what its way still takes.
    fn widest(&self, end: usize, left: &[f64]) -> (usize, f64) {
        let (mut here, mut most) = (end, f64::INFINITY);
        loop {
            match self.found[here].1 {
                Found::Source(source) => return (source, most.min(left[source])),
                Found::Along(branch, before) => {
                    most = most.min(self.room(branch, before));
                    here = before;
                }
            }
        }
    }

    fn push(&mut self, end: usize, more: f64) {
        let mut here = end;
        while let Found::Along(branch, before) = self.found[here].1 {
            let forward = self.branches[branch].0 == before;
            self.now[branch] += if forward { more } else { -more };
            here = before;
        }
    }
}
