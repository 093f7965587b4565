//! The conductors as a graph: which protective devices every path from a
//! source must pass, and how far one gets from a source without passing any.

use crate::circuit::{Branch, Circuit, Part};
use std::cmp::Ordering;
use std::collections::BinaryHeap;

/// Conductors, contacts and devices as a graph; gear is not part of it.
pub(crate) struct Graph {
    /// Per node: branch index and the node at its other end.
    joined: Vec<Vec<(usize, usize)>>,
}

/// The graph as seen from one node.
pub(crate) struct Reach {
    /// Per node: devices that every path from the start must pass, in order.
    /// `None` where no path leads.
    pub(crate) passed: Vec<Option<Vec<usize>>>,
    /// Per node: the branch by which a path tree reaches it, and the node before.
    parent: Vec<Option<(usize, usize)>>,
    /// Per branch: removing it cuts the graph.
    bridge: Vec<bool>,
    /// Nodes in the order first met.
    order: Vec<usize>,
}

impl Graph {
    pub(crate) fn new(circuit: &Circuit) -> Self {
        let mut joined = vec![Vec::new(); circuit.nodes.len()];
        for (index, branch) in circuit.branches.iter().enumerate() {
            if !matches!(branch.part, Part::Consumer(_)) && branch.from != branch.to {
                joined[branch.from].push((index, branch.to));
                joined[branch.to].push((index, branch.from));
            }
        }
        Self { joined }
    }

    /// Walks the graph from `start`, depth first without recursion, and finds
    /// the branches without which a node would be cut off (Tarjan, 1974).
    pub(crate) fn reach(&self, start: usize, branches: &[Branch]) -> Reach {
        let count = self.joined.len();
        let mut met = vec![usize::MAX; count];
        let mut lowest = vec![usize::MAX; count];
        let mut parent = vec![None; count];
        let mut bridge = vec![false; branches.len()];
        let mut order = Vec::new();
        let mut stack = vec![(start, 0)];
        met[start] = 0;
        lowest[start] = 0;
        order.push(start);
        while let Some((node, next)) = stack.pop() {
            let Some(&(branch, other)) = self.joined[node].get(next) else {
                close(node, &parent, &mut lowest, &met, &mut bridge);
                continue;
            };
            stack.push((node, next + 1));
            if met[other] == usize::MAX {
                met[other] = order.len();
                lowest[other] = order.len();
                parent[other] = Some((branch, node));
                order.push(other);
                stack.push((other, 0));
            } else if parent[node].is_none_or(|(by, _)| by != branch) {
                lowest[node] = lowest[node].min(met[other]);
            }
        }
        let passed = passed(&order, &parent, &bridge, branches, count);
        Reach {
            passed,
            parent,
            bridge,
            order,
        }
    }

    /// A way between two nodes: branch, node before it, node after it.
    pub(crate) fn way(
        &self,
        start: usize,
        end: usize,
        branches: &[Branch],
    ) -> Option<Vec<(usize, usize, usize)>> {
        let reach = self.reach(start, branches);
        let mut way = Vec::new();
        let mut here = end;
        while here != start {
            let (branch, before) = reach.parent.get(here).copied().flatten()?;
            way.push((branch, before, here));
            here = before;
        }
        way.reverse();
        Some(way)
    }

    /// Shortest way along conductors from `start` to each node without passing
    /// a device, in metres; infinite where there is none.
    pub(crate) fn bare_metres(&self, start: usize, circuit: &Circuit) -> Vec<f64> {
        let mut metres = vec![f64::INFINITY; self.joined.len()];
        let mut open = BinaryHeap::from([Near {
            metres: 0.0,
            node: start,
        }]);
        metres[start] = 0.0;
        while let Some(Near { metres: here, node }) = open.pop() {
            if here > metres[node] {
                continue;
            }
            for &(branch, other) in &self.joined[node] {
                let step = match circuit.branches[branch].part {
                    Part::Device(_) => continue,
                    Part::Wire(wire) => circuit.wires[wire].length.value.metres(),
                    _ => 0.0,
                };
                if here + step < metres[other] {
                    metres[other] = here + step;
                    open.push(Near {
                        metres: here + step,
                        node: other,
                    });
                }
            }
        }
        metres
    }
}

impl Reach {
    /// For each branch that is a bridge of the path tree: the nodes behind it.
    /// `gather` is called with the branch and every node behind it.
    pub(crate) fn behind(&self, mut keep: impl FnMut(usize) -> bool) -> Vec<Vec<usize>> {
        let mut behind = vec![Vec::new(); self.bridge.len()];
        for &node in self.order.iter().filter(|node| keep(**node)) {
            let mut here = node;
            while let Some((branch, before)) = self.parent[here] {
                if self.bridge[branch] {
                    behind[branch].push(node);
                }
                here = before;
            }
        }
        behind
    }

    /// Whether removing this branch cuts the graph.
    pub(crate) fn is_bridge(&self, branch: usize) -> bool {
        self.bridge.get(branch).copied().unwrap_or(false)
    }

    /// Nodes in the order met, each with the branch and node before it.
    pub(crate) fn tree(&self) -> impl Iterator<Item = (usize, Option<(usize, usize)>)> + '_ {
        self.order.iter().map(|node| (*node, self.parent[*node]))
    }

    /// Whether a path leads to this node.
    pub(crate) fn reaches(&self, node: usize) -> bool {
        self.passed.get(node).is_some_and(Option::is_some)
    }

    /// Which end of a branch a path from the start meets first.
    pub(crate) fn near_end(&self, branch: usize, from: usize, to: usize) -> usize {
        match self.parent.get(to).copied().flatten() {
            Some((by, _)) if by == branch => from,
            _ => match self.parent.get(from).copied().flatten() {
                Some((by, _)) if by == branch => to,
                _ => from,
            },
        }
    }
}

fn close(
    node: usize,
    parent: &[Option<(usize, usize)>],
    lowest: &mut [usize],
    met: &[usize],
    bridge: &mut [bool],
) {
    if let Some((branch, before)) = parent[node] {
        lowest[before] = lowest[before].min(lowest[node]);
        bridge[branch] = lowest[node] > met[before];
    }
}

fn passed(
    order: &[usize],
    parent: &[Option<(usize, usize)>],
    bridge: &[bool],
    branches: &[Branch],
    count: usize,
) -> Vec<Option<Vec<usize>>> {
    let mut passed: Vec<Option<Vec<usize>>> = vec![None; count];
    for &node in order {
        let mut here = match parent[node] {
            Some((_, before)) => passed[before].clone().unwrap_or_default(),
            None => Vec::new(),
        };
        if let Some((branch, _)) = parent[node]
            && bridge[branch]
            && let Part::Device(device) = branches[branch].part
        {
            here.push(device);
        }
        passed[node] = Some(here);
    }
    passed
}

/// A node waiting to be visited, nearest first.
struct Near {
    metres: f64,
    node: usize,
}

impl PartialEq for Near {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Near {}

impl PartialOrd for Near {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Near {
    fn cmp(&self, other: &Self) -> Ordering {
        other
            .metres
            .total_cmp(&self.metres)
            .then(other.node.cmp(&self.node))
    }
}
