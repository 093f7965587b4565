//! What depends on the wiring alone: islands, elimination order, and where each branch stamps.
//!
//! Not here: values (`circuit`) and iteration (`newton`, `settle`).

use std::mem::Discriminant;

use super::islands::Islands;
use super::{Branch, Element, Network, NetworkError, OperatingPoint, Options, check, settle};
use crate::sparse::Structure;

/// The reusable part of a solve, for many operating points of one wiring.
#[derive(Debug, Clone)]
pub struct Plan {
    node_count: usize,
    ground: usize,
    wiring: Vec<(usize, usize, Discriminant<Element>)>,
    pub(super) options: Options,
    pub(super) structure: Structure,
    /// Elimination position of each node; `None` without supply.
    pub(super) position_of: Vec<Option<usize>>,
    /// Island of each elimination position.
    pub(super) island_at: Vec<usize>,
    pub(super) resistors: Vec<Stamp>,
    pub(super) sources: Vec<Stamp>,
    pub(super) currents: Vec<Stamp>,
    pub(super) powers: Vec<Stamp>,
    pub(super) chargers: Vec<Stamp>,
}

/// Where a branch acts: elimination positions of its ends and the slot of its conductance.
///
/// Constant currents have no conductance; their slot is unused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Stamp {
    pub(super) branch: usize,
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) slot: usize,
}

impl Plan {
    /// Orders the network with the default [`Options`].
    ///
    /// # Errors
    /// [`NetworkError::Malformed`] for an index out of range or a value out of range.
    pub fn new(network: &Network) -> Result<Self, NetworkError> {
        Self::with_options(network, &Options::default())
    }

    /// Orders the network with caps and tolerances of the caller.
    ///
    /// # Errors
    /// [`NetworkError::Malformed`] for an index out of range or a value out of range.
    pub fn with_options(network: &Network, options: &Options) -> Result<Self, NetworkError> {
        check::check(network)?;
        let islands = Islands::of(network);
        let mut compact = vec![None; network.node_count];
        let mut nodes = Vec::new();
        for (node, entry) in compact.iter_mut().enumerate() {
            if islands.supplied(node).is_some() {
                *entry = Some(nodes.len());
                nodes.push(node);
            }
        }
        let live = |branch: &Branch| {
            let shared = islands.shared(branch.from, branch.to);
            shared.and_then(|_| Some((compact[branch.from]?, compact[branch.to]?)))
        };
        let edges: Vec<(usize, usize)> = network
            .branches
            .iter()
            .filter(|branch| couples(branch.element))
            .filter_map(live)
            .collect();
        let last: Vec<usize> = islands
            .references()
            .filter_map(|node| compact[node])
            .collect();
        let structure = Structure::new(nodes.len(), &edges, &last);
        let mut island_at = vec![0; nodes.len()];
        for (index, &node) in nodes.iter().enumerate() {
            island_at[structure.position(index)] = islands.supplied(node).unwrap_or(node);
        }
        let mut plan = Self {
            node_count: network.node_count,
            ground: network.ground,
            wiring: network.branches.iter().map(wiring).collect(),
            options: *options,
            position_of: compact
                .iter()
                .map(|entry| entry.map(|index| structure.position(index)))
                .collect(),
            structure,
            island_at,
            resistors: Vec::new(),
            sources: Vec::new(),
            currents: Vec::new(),
            powers: Vec::new(),
            chargers: Vec::new(),
        };
        for (index, branch) in network.branches.iter().enumerate() {
            if branch.from != branch.to && live(branch).is_some() {
                plan.stamp(index, branch);
            }
        }
        Ok(plan)
    }

    /// Solves the planned wiring with the values of `network`.
    ///
    /// `warm` is a former operating point of the same wiring; it saves steps when the values have
    /// changed little and does not change the answer beyond rounding.
    ///
    /// # Errors
    /// As [`operating_point`](super::operating_point); also [`NetworkError::Malformed`] when the
    /// wiring differs from the planned one.
    pub fn solve(
        &self,
        network: &Network,
        warm: Option<&OperatingPoint>,
    ) -> Result<OperatingPoint, NetworkError> {
        check::check(network)?;
        self.check_wiring(network)?;
        settle::solve(self, network, warm)
    }

    fn check_wiring(&self, network: &Network) -> Result<(), NetworkError> {
        let same_size = network.node_count == self.node_count
            && network.ground == self.ground
            && network.branches.len() == self.wiring.len();
        if !same_size {
            return Err(NetworkError::Malformed {
                branch: None,
                why: "nodes, ground or branches differ from the planned wiring; plan it again"
                    .to_owned(),
            });
        }
        let found = network.branches.iter().map(wiring);
        match found.zip(&self.wiring).position(|(is, was)| is != *was) {
            None => Ok(()),
            Some(index) => Err(NetworkError::Malformed {
                branch: Some(index),
                why: "its ends or its kind differ from the planned wiring; plan it again"
                    .to_owned(),
            }),
        }
    }

    fn stamp(&mut self, index: usize, branch: &Branch) {
        let ends = (self.position_of[branch.from], self.position_of[branch.to]);
        let (Some(from), Some(to)) = ends else {
            return;
        };
        let stamp = Stamp {
            branch: index,
            from,
            to,
            slot: self.structure.slot(from, to).unwrap_or(usize::MAX),
        };
        match branch.element {
            Element::Resistor(_) => self.resistors.push(stamp),
            Element::Source { .. } => self.sources.push(stamp),
            Element::ConstantCurrent(_) => self.currents.push(stamp),
            Element::ConstantPower { .. } => self.powers.push(stamp),
            Element::Regulated { .. } => self.chargers.push(stamp),
            Element::Open => {}
        }
    }
}

/// Whether an element couples the potentials of its ends in the Newton step.
fn couples(element: Element) -> bool {
    !matches!(element, Element::Open | Element::ConstantCurrent(_))
}

fn wiring(branch: &Branch) -> (usize, usize, Discriminant<Element>) {
    (
        branch.from,
        branch.to,
        std::mem::discriminant(&branch.element),
    )
}
