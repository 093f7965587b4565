//! The conductors as a graph: which protective devices every path from a
//! source must pass, and how far one gets from a source without passing any.

use crate::circuit::{Branch, Circuit, Part};
use std::cmp::Ordering;
use std::collections::{BinaryHeap, VecDeque};

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
    /// Per node: its place in `order`.
    met: Vec<usize>,
    /// Per node: place in `order` of the last node met behind it.
    end: Vec<usize>,
    /// Per branch of the path tree: the node behind it.
    last: Vec<Option<usize>>,
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
        let (end, last) = subtrees(&order, &parent, &met, branches.len());
        Reach {
            passed,
            parent,
            bridge,
            order,
            met,
            end,
            last,
        }
    }

    /// A way between two nodes, through as few branches as can be: branch,
    /// node before it, node after it.
    pub(crate) fn way(&self, start: usize, end: usize) -> Option<Vec<(usize, usize, usize)>> {
        let mut found = vec![None; self.joined.len()];
        let mut open = VecDeque::from([end]);
        while let Some(node) = open.pop_front() {
            for &(branch, other) in self.at(node) {
                if other != end && found[other].is_none() {
                    found[other] = Some((branch, node));
                    open.push_back(other);
                }
            }
        }
        let mut way = Vec::new();
        let mut here = start;
        while here != end {
            let (branch, after) = found.get(here).copied().flatten()?;
            way.push((branch, here, after));
            here = after;
        }
        Some(way)
    }

    /// Branches at a node, each with the node at its other end.
    pub(crate) fn at(&self, node: usize) -> &[(usize, usize)] {
        self.joined.get(node).map_or(&[], Vec::as_slice)
    }

    /// Nodes that hang together with one when a branch is taken away.
    pub(crate) fn piece(&self, node: usize, without: usize) -> Vec<bool> {
        let mut piece = vec![false; self.joined.len()];
        let mut open = vec![node];
        piece[node] = true;
        while let Some(node) = open.pop() {
            for &(branch, other) in self.at(node) {
                if branch != without && !piece[other] {
                    piece[other] = true;
                    open.push(other);
                }
            }
        }
        piece
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
    /// Whether a branch of the path tree lies between the start and a node.
    pub(crate) fn is_behind(&self, branch: usize, node: usize) -> bool {
        let Some(last) = self.last.get(branch).copied().flatten() else {
            return false;
        };
        let met = |node: usize| self.met.get(node).copied().unwrap_or(usize::MAX);
        (met(last)..=self.end[last]).contains(&met(node))
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

/// Per node: the place of the last node met behind it. Per branch: the node
/// that the path tree reaches by it.
fn subtrees(
    order: &[usize],
    parent: &[Option<(usize, usize)>],
    met: &[usize],
    branch_count: usize,
) -> (Vec<usize>, Vec<Option<usize>>) {
    let mut end = met.to_vec();
    let mut last = vec![None; branch_count];
    for &node in order.iter().rev() {
        if let Some((branch, before)) = parent[node] {
            end[before] = end[before].max(end[node]);
            last[branch] = Some(node);
        }
    }
    (end, last)
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
