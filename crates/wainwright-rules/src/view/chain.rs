//! Finds chains: gear fed from gear, so that each jumper carries the sum of
//! what follows. Shared by `overloaded-chain` and its remedy. Not here:
//! judgement.

use super::Graph;
use std::collections::BTreeSet;
use wainwright_analysis::result::Assessment;

/// One chain.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Chain {
    /// Its jumpers, in file order, that carry more than one circuit or the
    /// last one.
    pub(crate) jumpers: Vec<usize>,
}

/// Every chain of the trailer, by its first jumper in file order. A jumper
/// joins two nodes at both of which gear takes current.
pub(crate) fn chains(assessment: &Assessment, graph: &Graph) -> Vec<Chain> {
    let mut left: BTreeSet<usize> = jumpers(assessment, graph).into_iter().collect();
    let mut chains = Vec::new();
    while let Some(first) = left.pop_first() {
        let mut chain = vec![first];
        let mut nodes = ends(assessment, first);
        while let Some(next) = left
            .iter()
            .copied()
            .find(|wire| touches(assessment, *wire, &nodes))
        {
            left.remove(&next);
            nodes.extend(ends(assessment, next));
            chain.push(next);
        }
        chain.sort_unstable();
        chains.push(Chain { jumpers: chain });
    }
    chains
}

fn jumpers(assessment: &Assessment, graph: &Graph) -> Vec<usize> {
    let wires = assessment.wires.iter().enumerate();
    wires
        .filter(|(_, wire)| wire.from_node != wire.to_node)
        .filter(|(_, wire)| graph.tapped(wire.from_node) && graph.tapped(wire.to_node))
        .map(|(index, _)| index)
        .collect()
}

fn ends(assessment: &Assessment, wire: usize) -> Vec<usize> {
    assessment
        .wires
        .get(wire)
        .map(|w| vec![w.from_node, w.to_node])
        .unwrap_or_default()
}

fn touches(assessment: &Assessment, wire: usize, nodes: &[usize]) -> bool {
    ends(assessment, wire)
        .iter()
        .any(|node| nodes.contains(node))
}
