//! Groups conductors into circuits: those that serve the same gear, out and
//! back, and the jumpers of one chain. A finding about a circuit is named
//! for its first conductor in file order, whichever of them is at fault, so
//! that it keeps its name while it is partly mended. Not here: judgement.

use super::Graph;
use super::chain::chains;
use std::collections::BTreeMap;
use wainwright_analysis::result::Assessment;

/// Every conductor's circuit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct Circuits {
    /// First conductor of each conductor's circuit.
    first: Vec<usize>,
}

impl Circuits {
    /// The circuits of this trailer.
    pub(crate) fn new(assessment: &Assessment, graph: &Graph) -> Self {
        let mut first: Vec<usize> = (0..assessment.wires.len()).collect();
        let mut by_gear: BTreeMap<Vec<usize>, usize> = BTreeMap::new();
        for (wire, slot) in first.iter_mut().enumerate() {
            let served = graph.behind(assessment, wire);
            if !served.is_empty() {
                *slot = *by_gear.entry(served).or_insert(wire);
            }
        }
        for chain in chains(assessment, graph) {
            let Some(head) = chain.jumpers.first() else {
                continue;
            };
            for jumper in &chain.jumpers {
                if let Some(slot) = first.get_mut(*jumper) {
                    *slot = *head;
                }
            }
        }
        Self { first }
    }

    /// The conductor a circuit is named for.
    pub(crate) fn name_of(&self, wire: usize) -> usize {
        self.first.get(wire).copied().unwrap_or(wire)
    }

    /// The other conductors of the same circuit.
    pub(crate) fn partners(&self, wire: usize) -> Vec<usize> {
        let name = self.name_of(wire);
        let wires = self.first.iter().enumerate();
        wires
            .filter(|(other, first)| **first == name && *other != wire)
            .map(|(w, _)| w)
            .collect()
    }

    /// The other conductors of the circuits of all these conductors.
    pub(crate) fn all_partners(&self, wires: &[usize]) -> Vec<usize> {
        let mut found: Vec<usize> = wires.iter().flat_map(|wire| self.partners(*wire)).collect();
        found.sort_unstable();
        found.dedup();
        found.retain(|wire| !wires.contains(wire));
        found
    }
}
