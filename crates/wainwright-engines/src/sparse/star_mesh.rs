//! LDLᵀ of a conductance matrix by star-to-mesh transformation, and its solves.
//!
//! Eliminating a node whose conductances to its neighbours are c₁, c₂, … with sum d leaves a
//! mesh: every pair gains cᵢ·cⱼ/d. That is exactly the Schur complement of a matrix whose rows
//! sum to zero, but it is written without subtraction, so for positive conductances every number
//! keeps full relative accuracy whatever the spread of the values (the argument of Grassmann,
//! Taksar and Heyman for Markov chains, Operations Research 33 (1985) 1107). The diagonal is
//! never stored, because it is the sum of the couplings.
//! Negative couplings are allowed. A pivot that is not positive then shows that the matrix is not
//! positive definite, which is reported and never worked around.
//! Not here: the order (`ordering`), and any meaning of the values.

use super::Structure;

/// The eliminated matrix of one set of conductances.
#[derive(Debug, Clone, PartialEq)]
pub struct Factor {
    /// Share of a node's potential that each later neighbour contributes: c/d per slot.
    shares: Vec<f64>,
    /// 1/d per position [Ω]; zero where a node has no coupling left and is a reference.
    spread_ohms: Vec<f64>,
    references: Vec<usize>,
}

/// A pivot that is zero or negative although the node is still coupled to others.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct NotPositive {
    /// Position in the elimination order.
    pub position: usize,
}

impl Factor {
    /// Room for the factor of a structure, holding no couplings yet.
    #[must_use]
    pub fn empty(structure: &Structure) -> Self {
        Self {
            shares: vec![0.0; structure.slot_count()],
            spread_ohms: vec![0.0; structure.len()],
            references: (0..structure.len()).collect(),
        }
    }

    /// Eliminates the conductances [S], one per slot of the structure.
    ///
    /// # Errors
    /// [`NotPositive`] names the first pivot that shows the matrix is not positive definite.
    pub fn refill(&mut self, structure: &Structure, siemens: &[f64]) -> Result<(), NotPositive> {
        self.shares.copy_from_slice(siemens);
        self.references.clear();
        let (couplings, rows) = (&mut self.shares, structure.rows());
        for position in 0..structure.len() {
            let column = structure.column(position);
            let pivot_siemens: f64 = couplings[column.clone()].iter().sum();
            if couplings[column.clone()].iter().all(|&c| c == 0.0) {
                self.spread_ohms[position] = 0.0;
                self.references.push(position);
                continue;
            }
            if pivot_siemens.is_nan() || pivot_siemens <= 0.0 {
                return Err(NotPositive { position });
            }
            for slot in column.clone() {
                let share = couplings[slot] / pivot_siemens;
                let mut target = structure.column(rows[slot]).start;
                for later in slot + 1..column.end {
                    // The later rows of this column are a subset of the target column's rows.
                    while rows[target] != rows[later] {
                        target += 1;
                    }
                    couplings[target] += share * couplings[later];
                }
                couplings[slot] = share;
            }
            self.spread_ohms[position] = 1.0 / pivot_siemens;
        }
        Ok(())
    }

    /// The positions that nothing ties to a later node, one per island, ascending.
    #[must_use]
    pub fn references(&self) -> &[usize] {
        &self.references
    }

    /// Gathers injected currents [A] towards the references, in place.
    ///
    /// Afterwards each entry is the current that its node and all earlier ones behind it pass on;
    /// at a reference it is the total of the island, which must vanish for a solution to exist.
    pub fn gather(&self, structure: &Structure, amps: &mut [f64]) {
        let rows = structure.rows();
        for position in 0..structure.len() {
            let passed_on = amps[position];
            if passed_on != 0.0 {
                for slot in structure.column(position) {
                    amps[rows[slot]] += self.shares[slot] * passed_on;
                }
            }
        }
    }

    /// Turns gathered currents [A] into potentials [V], in place; references get zero.
    pub fn spread(&self, structure: &Structure, values: &mut [f64]) {
        let rows = structure.rows();
        for position in (0..structure.len()).rev() {
            let mut volts = values[position] * self.spread_ohms[position];
            for slot in structure.column(position) {
                volts += self.shares[slot] * values[rows[slot]];
            }
            values[position] = volts;
        }
    }

    /// Heat that gathered currents [A] make in the network [W]: Σ y²/d.
    ///
    /// For one ampere in at one node and out at another this is the resistance between them [Ω].
    #[must_use]
    pub fn heat_watts(&self, gathered_amps: &[f64]) -> f64 {
        let pairs = gathered_amps.iter().zip(&self.spread_ohms);
        pairs.map(|(amps, ohms)| amps * amps * ohms).sum()
    }
}
