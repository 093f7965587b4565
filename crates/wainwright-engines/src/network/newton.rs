//! Newton's method for one fixed set of modes.
//!
//! Repeating a step with the same slopes is iterative refinement, so a linear network needs one
//! elimination and two solves, and there is no separate refinement.
//! A pivot that is not positive means that the guess has left the stable branch; it is handed up.
//! Not here: what to do about trouble (`settle`, `collapse`).

use super::circuit::{ChargerMode, Circuit, Leftover, PowerMode, State};
use crate::sparse::Factor;

/// Work space of the iteration.
pub(super) struct Newton {
    factor: Factor,
    siemens: Vec<f64>,
    step: Vec<f64>,
    leftover: Leftover,
    /// Load voltages at which the slopes were last taken [V].
    slope_volts: Vec<f64>,
    pub(super) steps_taken: usize,
    pub(super) largest_leftover_amps: f64,
}

/// Why the iteration stopped without a solution.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Trouble {
    /// Island in which it happened.
    pub(super) island: usize,
    /// True when the cap on steps was reached, false when the voltage collapsed.
    pub(super) capped: bool,
}

/// Current error at a node at which the iteration stops.
#[derive(Clone, Copy)]
struct Aim {
    /// As a part of the currents that meet there.
    of_met: f64,
    /// As a part of the largest current of the network, for nodes where next to nothing flows.
    of_largest: f64,
}

/// What one refinement nearly always reaches; the accepted limit is in `Options`.
const EAGER: Aim = Aim {
    of_met: 1e-12,
    of_largest: 1e-18,
};
/// What rounding allows when currents of many thousand amperes pass beside small ones.
const PATIENT: Aim = Aim {
    of_met: 1e-10,
    of_largest: 1e-15,
};
/// Steps after which the aim is lowered. Close to the nose of the power–voltage curve Newton's
/// method only halves the error, which takes some twenty steps.
const PATIENT_STEPS: usize = 30;
/// Steps after which chargers whose limits contradict each other are handed up; chargers that can
/// all hold their limits need three.
const HOLD_STEPS: usize = 8;
/// Part of a voltage that counts as rounding.
const SETTLED: f64 = 1e-12;
/// Change of a load's voltage after which its slope is taken anew.
const SLOPE_DRIFT: f64 = 1e-5;
/// Current error that is nothing whatever the network, so that a network at rest settles [A].
pub(super) const NOTHING_AMPS: f64 = 1e-24;
/// Current that may be left over for an island as a whole, beside the largest current.
const UNBALANCED: f64 = 1e-9;
/// The same for islands at rest [A].
const UNBALANCED_AMPS: f64 = 1e-12;

impl Newton {
    pub(super) fn new(circuit: &Circuit) -> Self {
        Self {
            factor: Factor::empty(&circuit.plan.structure),
            siemens: Vec::new(),
            step: Vec::new(),
            leftover: Leftover::default(),
            slope_volts: Vec::new(),
            steps_taken: 0,
            largest_leftover_amps: 0.0,
        }
    }

    /// Takes a single step from the state, which solves a linear network but for rounding.
    pub(super) fn single(&mut self, circuit: &Circuit, state: &mut State) -> Result<(), Trouble> {
        let largest_amps = circuit.leftover(state, 1.0, &mut self.leftover);
        self.take_slopes(circuit, state, 1.0)?;
        self.advance(circuit, state, largest_amps)
    }

    /// Iterates from the state with `share` of every constant power until Kirchhoff's current law
    /// holds. Loads that sink below their lowest voltage on the way drop out. Chargers may end off
    /// their limits when these contradict each other.
    pub(super) fn run(
        &mut self,
        circuit: &Circuit,
        state: &mut State,
        share: f64,
    ) -> Result<(), Trouble> {
        let mut fresh = true;
        for step in 0..circuit.plan.options.most_steps {
            let largest_amps = circuit.leftover(state, share, &mut self.leftover);
            let aim = if step < PATIENT_STEPS { EAGER } else { PATIENT };
            let is_settled = step > 0 && self.worst(largest_amps, aim).is_none();
            if is_settled && (holds(circuit, state) || step >= HOLD_STEPS) {
                return Ok(());
            }
            if fresh || self.has_drifted(circuit, state) {
                self.take_slopes(circuit, state, share)?;
            }
            self.advance(circuit, state, largest_amps)?;
            fresh = drop_out(circuit, state, share)?;
        }
        let largest_amps = circuit.leftover(state, share, &mut self.leftover);
        let position = self.worst(largest_amps, PATIENT).unwrap_or(0);
        Err(Trouble {
            island: circuit.plan.island_at.get(position).copied().unwrap_or(0),
            capped: true,
        })
    }

    /// Position of the first node whose currents do not add up, and the largest leftover.
    fn worst(&mut self, largest_amps: f64, aim: Aim) -> Option<usize> {
        let nothing_amps = aim.of_largest * largest_amps + NOTHING_AMPS;
        let mut found = None;
        self.largest_leftover_amps = 0.0;
        let pairs = self.leftover.amps.iter().zip(&self.leftover.met_amps);
        for (position, (amps, met_amps)) in pairs.enumerate() {
            self.largest_leftover_amps = self.largest_leftover_amps.max(amps.abs());
            // Written so that NaN counts as not settled.
            let is_settled = amps.abs() <= aim.of_met * met_amps + nothing_amps;
            if !is_settled && found.is_none() {
                found = Some(position);
            }
        }
        found
    }

    fn has_drifted(&self, circuit: &Circuit, state: &State) -> bool {
        let stamps = circuit.plan.powers.iter().zip(&self.slope_volts);
        stamps.zip(&state.power_mode).any(|((stamp, then), mode)| {
            let now = Circuit::across_volts(state, stamp);
            *mode == PowerMode::Normal && (now - then).abs() > SLOPE_DRIFT * now.abs()
        })
    }

    fn take_slopes(&mut self, circuit: &Circuit, state: &State, share: f64) -> Result<(), Trouble> {
        circuit.slopes(state, share, &mut self.siemens);
        self.slope_volts.clear();
        let volts = circuit
            .plan
            .powers
            .iter()
            .map(|stamp| Circuit::across_volts(state, stamp));
        self.slope_volts.extend(volts);
        let refilled = self.factor.refill(&circuit.plan.structure, &self.siemens);
        refilled.map_err(|pivot| collapsed(circuit, pivot.position))
    }

    /// Solves for the correction of the potentials and applies it.
    fn advance(
        &mut self,
        circuit: &Circuit,
        state: &mut State,
        mut largest_amps: f64,
    ) -> Result<(), Trouble> {
        self.steps_taken += 1;
        largest_amps = largest_amps.max(circuit.largest_short_amps);
        self.step.clone_from(&self.leftover.amps);
        for (index, stamp) in circuit.plan.chargers.iter().enumerate() {
            if state.charger_mode[index] == ChargerMode::VoltageLimited {
                let pull_amps =
                    circuit.hold_siemens[index] * circuit.below_limit_volts(state, index);
                self.step[stamp.from] += pull_amps;
                self.step[stamp.to] -= pull_amps;
                largest_amps = largest_amps.max(pull_amps.abs());
            }
        }
        self.factor.gather(&circuit.plan.structure, &mut self.step);
        for &position in self.factor.references() {
            if self.step[position].abs() > UNBALANCED * largest_amps + UNBALANCED_AMPS {
                return Err(collapsed(circuit, position));
            }
        }
        self.factor.spread(&circuit.plan.structure, &mut self.step);
        state.add(&self.step);
        for index in 0..circuit.plan.chargers.len() {
            if state.charger_mode[index] == ChargerMode::VoltageLimited {
                state.charger_amps[index] +=
                    circuit.hold_siemens[index] * circuit.below_limit_volts(state, index);
            }
        }
        Ok(())
    }
}

/// Whether every voltage-limited charger is at its limit.
pub(super) fn holds(circuit: &Circuit, state: &State) -> bool {
    (0..circuit.plan.chargers.len()).all(|index| {
        state.charger_mode[index] != ChargerMode::VoltageLimited
            || circuit.below_limit_volts(state, index).abs() <= SETTLED * circuit.limit_volts[index]
    })
}

/// Drops out every load below its lowest voltage; returns whether any was.
///
/// A load that never lets go and has lost its voltage altogether is a collapse.
fn drop_out(circuit: &Circuit, state: &mut State, share: f64) -> Result<bool, Trouble> {
    let mut any = false;
    for (index, stamp) in circuit.plan.powers.iter().enumerate() {
        if state.power_mode[index] != PowerMode::Normal {
            continue;
        }
        let (volts, lowest_volts) = (
            Circuit::across_volts(state, stamp),
            circuit.lowest_volts[index],
        );
        if lowest_volts > 0.0 && volts < lowest_volts * (1.0 - SETTLED) {
            state.power_mode[index] = PowerMode::DroppedOut;
            any = true;
        } else if volts <= 0.0 && share * circuit.load_watts[index] > 0.0 {
            return Err(collapsed(circuit, stamp.from));
        }
    }
    Ok(any)
}

fn collapsed(circuit: &Circuit, position: usize) -> Trouble {
    Trouble {
        island: circuit.plan.island_at[position],
        capped: false,
    }
}
