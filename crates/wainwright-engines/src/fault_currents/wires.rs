//! The branches of a fault network as plain numbers.
//!
//! Not here: which of them are in the core.

use crate::network::{Branch, Element, NetworkError};

/// A resistor or source; an open branch is a wire without conductance.
#[derive(Debug, Clone, Copy)]
pub(super) struct Wire {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) siemens: f64,
    pub(super) emf_volts: f64,
    pub(super) is_source: bool,
}

impl Wire {
    /// Reads a branch that has been checked for range.
    ///
    /// # Errors
    /// [`NetworkError::Malformed`] for a load or charger, which has no place in a fault network.
    pub(super) fn read(index: usize, branch: &Branch) -> Result<Self, NetworkError> {
        let (siemens, emf_volts, is_source) = match branch.element {
            Element::Resistor(resistance) => (1.0 / resistance.ohms(), 0.0, false),
            Element::Open => (0.0, 0.0, false),
            Element::Source { emf, resistance } => (1.0 / resistance.ohms(), emf.volts(), true),
            _ => {
                return Err(NetworkError::Malformed {
                    branch: Some(index),
                    why: "a load or charger is in a fault network, expected resistors, open \
                          branches and sources; leave it out or write it as one of these"
                        .to_owned(),
                });
            }
        };
        Ok(Self {
            from: branch.from,
            to: branch.to,
            siemens,
            emf_volts,
            is_source,
        })
    }

    /// Whether it conducts between two different nodes.
    pub(super) fn joins(&self) -> bool {
        self.siemens > 0.0 && self.from != self.to
    }

    /// Current for a voltage from the first to the second terminal [A], signed as the network
    /// module says: a source's is positive when it discharges.
    pub(super) fn amps(&self, volts: f64) -> f64 {
        if self.is_source {
            self.siemens * (self.emf_volts - volts)
        } else {
            self.siemens * volts
        }
    }

    /// Current that leaves the network at the first terminal and returns at the second [A].
    pub(super) fn drawn_amps(&self, volts: f64) -> f64 {
        self.siemens * (volts - self.emf_volts)
    }
}
