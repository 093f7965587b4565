//! Which nodes hang together through conducting elements, and which islands have a source.
//!
//! Resistors, sources and chargers conduct. Constant-current and constant-power loads do not
//! count: a load whose return is interrupted cannot draw anything, so a load between two islands
//! is without supply.
//! Not here: the elimination order.

use super::{Element, Network};

/// The islands of a network.
pub(crate) struct Islands {
    /// Island of each node, named by one of its nodes.
    name: Vec<usize>,
    /// Reference node of each supplied island, at the index of the island's name.
    reference: Vec<Option<usize>>,
}

impl Islands {
    pub(crate) fn of(network: &Network) -> Self {
        let mut parent: Vec<usize> = (0..network.node_count).collect();
        for branch in &network.branches {
            if conducts(branch.element) {
                let (one, other) = (root(&mut parent, branch.from), root(&mut parent, branch.to));
                parent[one.max(other)] = one.min(other);
            }
        }
        let name: Vec<usize> = (0..network.node_count)
            .map(|node| root(&mut parent, node))
            .collect();
        let mut reference = vec![None; network.node_count];
        for branch in &network.branches {
            if branch.from != branch.to && supplies(branch.element) {
                reference[name[branch.to]].get_or_insert(branch.to);
            }
        }
        if let Some(own) = reference[name[network.ground]].as_mut() {
            *own = network.ground;
        }
        Self { name, reference }
    }

    /// Island of a node that some source feeds, or `None`.
    pub(crate) fn supplied(&self, node: usize) -> Option<usize> {
        let name = self.name[node];
        self.reference[name].map(|_| name)
    }

    /// Island that both nodes share and that some source feeds, or `None`.
    pub(crate) fn shared(&self, from: usize, to: usize) -> Option<usize> {
        self.supplied(from).filter(|&name| self.name[to] == name)
    }

    /// Reference nodes, one per supplied island.
    pub(crate) fn references(&self) -> impl Iterator<Item = usize> {
        self.reference.iter().filter_map(|&node| node)
    }
}

fn conducts(element: Element) -> bool {
    matches!(element, Element::Resistor(_)) || supplies(element)
}

fn supplies(element: Element) -> bool {
    matches!(element, Element::Source { .. } | Element::Regulated { .. })
}

fn root(parent: &mut [usize], mut node: usize) -> usize {
    while parent[node] != node {
        parent[node] = parent[parent[node]];
        node = parent[node];
    }
    node
}
