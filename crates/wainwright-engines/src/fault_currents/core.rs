//! The looped part of a fault network: its elimination, its state before the fault, and its
//! answer to one ampere between two of its nodes.
//!
//! Not here: dead ends (`trees`).

use super::trees::Trees;
use super::wires::Wire;
use crate::network::NetworkError;
use crate::sparse::{Factor, NotPositive, Structure};

/// The wiring of the core.
#[derive(Debug, Clone)]
pub(super) struct Core {
    pub(super) structure: Structure,
    /// Elimination position of each node of the network; `None` outside the core.
    position_of: Vec<Option<usize>>,
    /// Wires between core nodes, ascending.
    pub(super) wires: Vec<CoreWire>,
}

/// A wire of the core with the positions of its ends.
#[derive(Debug, Clone, Copy)]
pub(super) struct CoreWire {
    pub(super) wire: usize,
    pub(super) from: usize,
    pub(super) to: usize,
    slot: usize,
}

/// The core with certain wires opened, before any fault.
#[derive(Debug, Clone)]
pub(super) struct Rest {
    factor: Factor,
    pub(super) volts: Vec<f64>,
}

/// What one ampere drawn at one core node and returned at another does.
pub(super) struct Answer {
    /// Potential by which each node sinks [V/A].
    pub(super) sink_ohms: Vec<f64>,
    /// Resistance between the two nodes [Ω].
    pub(super) ohms: f64,
}

/// Part of an ampere that cannot find its way back when two nodes are not connected.
///
/// It is one or nothing, but for rounding.
const STRANDED: f64 = 0.5;

impl Core {
    pub(super) fn new(trees: &Trees, wires: &[Wire]) -> Self {
        let mut compact = vec![None; trees.is_core.len()];
        let mut count = 0;
        for (entry, _) in compact
            .iter_mut()
            .zip(&trees.is_core)
            .filter(|(_, core)| **core)
        {
            *entry = Some(count);
            count += 1;
        }
        let ends = |wire: &Wire| Some((compact[wire.from]?, compact[wire.to]?));
        let inside: Vec<(usize, (usize, usize))> = wires
            .iter()
            .enumerate()
            .filter(|(_, wire)| wire.joins())
            .filter_map(|(index, wire)| Some((index, ends(wire)?)))
            .collect();
        let edges: Vec<(usize, usize)> = inside.iter().map(|(_, ends)| *ends).collect();
        let structure = Structure::new(count, &edges, &[]);
        let place = |(wire, (from, to)): (usize, (usize, usize))| {
            let (from, to) = (structure.position(from), structure.position(to));
            let slot = structure.slot(from, to)?;
            Some(CoreWire {
                wire,
                from,
                to,
                slot,
            })
        };
        let wires = inside.into_iter().filter_map(place).collect();
        let position_of = compact
            .iter()
            .map(|entry| entry.map(|index| structure.position(index)))
            .collect();
        Self {
            structure,
            position_of,
            wires,
        }
    }

    /// Elimination position of a node, or `None` outside the core.
    pub(super) fn position(&self, node: usize) -> Option<usize> {
        self.position_of.get(node).copied().flatten()
    }

    /// Whether any of these wires is in the core.
    pub(super) fn has_any(&self, wires: &[usize]) -> bool {
        let is_inside = |wire: &usize| {
            let found = self.wires.binary_search_by_key(wire, |inside| inside.wire);
            found.is_ok()
        };
        wires.iter().any(is_inside)
    }

    /// Solves the core without the opened wires.
    ///
    /// # Errors
    /// [`NetworkError::NotConverged`] when a sum of conductances is not positive, which needs
    /// values beyond the valid range.
    pub(super) fn at_rest(&self, wires: &[Wire], open: &[usize]) -> Result<Rest, NetworkError> {
        let mut siemens = vec![0.0; self.structure.slot_count()];
        let mut volts = vec![0.0; self.structure.len()];
        for inside in self.wires.iter().filter(|w| !open.contains(&w.wire)) {
            let wire = &wires[inside.wire];
            siemens[inside.slot] += wire.siemens;
            volts[inside.from] += wire.siemens * wire.emf_volts;
            volts[inside.to] -= wire.siemens * wire.emf_volts;
        }
        let mut factor = Factor::empty(&self.structure);
        factor.refill(&self.structure, &siemens).map_err(beyond)?;
        factor.gather(&self.structure, &mut volts);
        factor.spread(&self.structure, &mut volts);
        Ok(Rest { factor, volts })
    }

    /// Draws one ampere at one position and returns it at another; `None` when they are not
    /// connected.
    pub(super) fn answer(&self, rest: &Rest, drawn: usize, returned: usize) -> Option<Answer> {
        let mut sink_ohms = vec![0.0; self.structure.len()];
        sink_ohms[drawn] += 1.0;
        sink_ohms[returned] -= 1.0;
        rest.factor.gather(&self.structure, &mut sink_ohms);
        let mut references = rest.factor.references().iter();
        if references.any(|&position| sink_ohms[position].abs() > STRANDED) {
            return None;
        }
        let ohms = rest.factor.heat_watts(&sink_ohms);
        rest.factor.spread(&self.structure, &mut sink_ohms);
        Some(Answer { sink_ohms, ohms })
    }
}

fn beyond(pivot: NotPositive) -> NetworkError {
    NetworkError::NotConverged {
        iterations: 0,
        largest_residual: wainwright_units::Current::from_amperes(f64::NAN),
        why: format!(
            "the conductances at place {} of the elimination do not add up to a positive number",
            pivot.position
        ),
    }
}
