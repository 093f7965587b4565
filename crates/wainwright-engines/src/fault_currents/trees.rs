//! Splits a network into dead-end trees and the core they hang from.
//!
//! A tree has no source in it, so nothing flows there until it is shorted, and then only on the
//! way from the short to the core. The core is all that remains: loops and the ways between
//! sources.
//! Not here: solving the core (`core`).

use std::collections::BTreeMap;

use super::wires::Wire;

/// Where each node hangs.
#[derive(Debug, Clone)]
pub(super) struct Trees {
    /// Next node towards the core; `None` for core nodes and for nodes without any source.
    parent: Vec<Option<usize>>,
    /// Steps to the core; zero for core nodes.
    depth: Vec<usize>,
    /// Wires from a tree node to its parent.
    upward: Vec<Vec<usize>>,
    /// Nodes that are in the core.
    pub(super) is_core: Vec<bool>,
}

/// A climb from two nodes until they meet or both are in the core.
#[derive(Debug, Default)]
pub(super) struct Climb {
    /// Wires on the way from the first node, with their share of the current towards the core.
    pub(super) from_first: Vec<(usize, f64)>,
    /// The same from the second node.
    pub(super) from_second: Vec<(usize, f64)>,
    /// Resistance of both ways together [Ω].
    pub(super) ohms: f64,
    /// Where the two climbs ended; the same node when they met.
    pub(super) ends: (usize, usize),
}

impl Trees {
    /// Strips dead ends that are no source terminals, one after the other.
    pub(super) fn new(node_count: usize, wires: &[Wire]) -> Self {
        let mut around: Vec<BTreeMap<usize, Vec<usize>>> = vec![BTreeMap::new(); node_count];
        let mut is_terminal = vec![false; node_count];
        for (index, wire) in wires.iter().enumerate().filter(|(_, wire)| wire.joins()) {
            around[wire.from].entry(wire.to).or_default().push(index);
            around[wire.to].entry(wire.from).or_default().push(index);
            if wire.is_source {
                is_terminal[wire.from] = true;
                is_terminal[wire.to] = true;
            }
        }
        let is_end = |around: &[BTreeMap<usize, Vec<usize>>], node: usize| {
            around[node].len() == 1 && !is_terminal[node]
        };
        let mut ends: Vec<usize> = (0..node_count).filter(|&n| is_end(&around, n)).collect();
        let mut parent = vec![None; node_count];
        let mut upward = vec![Vec::new(); node_count];
        let mut stripped = Vec::new();
        while let Some(node) = ends.pop() {
            // The other end of a lone pair may have been stripped in the meantime.
            let Some((towards, by)) = around[node].pop_first() else {
                continue;
            };
            around[towards].remove(&node);
            parent[node] = Some(towards);
            upward[node] = by;
            stripped.push(node);
            if is_end(&around, towards) {
                ends.push(towards);
            }
        }
        let mut depth = vec![0; node_count];
        for &node in stripped.iter().rev() {
            depth[node] = parent[node].map_or(0, |towards: usize| depth[towards] + 1);
        }
        let is_core = (0..node_count)
            .map(|node| parent[node].is_none() && (is_terminal[node] || !around[node].is_empty()))
            .collect();
        Self {
            parent,
            depth,
            upward,
            is_core,
        }
    }

    /// Climbs from both nodes; `None` when an opened wire is in the way.
    pub(super) fn climb(
        &self,
        wires: &[Wire],
        first: usize,
        second: usize,
        open: &[usize],
    ) -> Option<Climb> {
        let mut climb = Climb::default();
        let (mut low, mut high) = (first, second);
        while low != high {
            let (node, way) = if self.depth[low] >= self.depth[high] {
                (&mut low, &mut climb.from_first)
            } else {
                (&mut high, &mut climb.from_second)
            };
            let Some(towards) = self.parent[*node] else {
                break;
            };
            let closed = || {
                self.upward[*node]
                    .iter()
                    .filter(|wire| !open.contains(wire))
            };
            let siemens: f64 = closed().map(|&wire| wires[wire].siemens).sum();
            if siemens == 0.0 {
                return None;
            }
            way.extend(closed().map(|&wire| {
                let share = wires[wire].siemens / siemens;
                let is_forward = wires[wire].from == *node;
                (wire, if is_forward { share } else { -share })
            }));
            climb.ohms += 1.0 / siemens;
            *node = towards;
        }
        climb.ends = (low, high);
        Some(climb)
    }
}
