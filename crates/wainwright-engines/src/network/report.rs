//! Turns the settled state into an operating point and checks it against the conservation laws.
//!
//! Not here: solving.

use wainwright_units::{Current, Power, Voltage};

use super::circuit::{ChargerMode, Circuit, Leftover, PowerMode, State};
use super::newton::NOTHING_AMPS;
use super::plan::Stamp;
use super::settle::Settler;
use super::{Balance, BranchState, Element, Network, NetworkError, OperatingPoint};

/// Current error accepted at nodes where next to nothing flows, beside the largest current.
const IDLE_NODE: f64 = 1e-15;
/// Power error that is nothing whatever the network [W].
const NOTHING_WATTS: f64 = 1e-12;

/// Reports the settled state.
///
/// # Errors
/// [`NetworkError::NotConverged`] when Kirchhoff's current law or the power balance fails.
pub(super) fn report(
    circuit: &Circuit,
    network: &Network,
    settler: &Settler,
) -> Result<OperatingPoint, NetworkError> {
    let (state, steps) = (&settler.state, settler.newton.steps_taken);
    let failed = |largest_amps: f64, why: &str| NetworkError::NotConverged {
        iterations: steps,
        largest_residual: Current::from_amperes(largest_amps),
        why: why.to_owned(),
    };
    let relative = circuit.plan.options.relative_residual;
    let mut leftover = Leftover::default();
    let largest_amps = circuit.leftover(state, 1.0, &mut leftover);
    let mut worst_amps = 0.0_f64;
    for (amps, met_amps) in leftover.amps.iter().zip(&leftover.met_amps) {
        worst_amps = worst_amps.max(amps.abs());
        let nothing_amps = IDLE_NODE * largest_amps + NOTHING_AMPS;
        let is_zero = amps.abs() <= relative * met_amps + nothing_amps;
        if !is_zero {
            return Err(failed(amps.abs(), "Kirchhoff's current law does not hold"));
        }
    }
    let mut books = Books::new(network);
    books.enter(circuit, network, state);
    let residual_watts = books.source_watts - books.load_watts - books.loss_watts;
    let is_balanced = residual_watts.abs() <= relative * books.gross_watts + NOTHING_WATTS;
    if !is_balanced {
        return Err(failed(worst_amps, "the power balance does not close"));
    }
    let to_volts =
        |position: usize| Voltage::from_volts(state.volts[position] + state.volts_rest[position]);
    Ok(OperatingPoint {
        node_volts: circuit
            .plan
            .position_of
            .iter()
            .map(|position| position.map(to_volts))
            .collect(),
        branch_amps: books.amps.into_iter().map(Current::from_amperes).collect(),
        branch_state: books.states,
        balance: Balance {
            sources: Power::from_watts(books.source_watts),
            loads: Power::from_watts(books.load_watts),
            losses: Power::from_watts(books.loss_watts),
            residual: Power::from_watts(residual_watts),
        },
        largest_residual: Current::from_amperes(worst_amps),
        iterations: steps,
    })
}

/// Current, state and power of every branch, entered one by one.
struct Books {
    amps: Vec<f64>,
    states: Vec<BranchState>,
    source_watts: f64,
    load_watts: f64,
    loss_watts: f64,
    /// Sum of the magnitudes of all entries, the scale of the rounding.
    gross_watts: f64,
}

impl Books {
    /// Books for branches without supply, and for those that start and end on one node.
    fn new(network: &Network) -> Self {
        let mut books = Self {
            amps: vec![0.0; network.branches.len()],
            states: vec![BranchState::NoSupply; network.branches.len()],
            source_watts: 0.0,
            load_watts: 0.0,
            loss_watts: 0.0,
            gross_watts: 0.0,
        };
        for (index, branch) in network.branches.iter().enumerate() {
            let is_loop = branch.from == branch.to;
            match branch.element {
                Element::Open => books.states[index] = BranchState::Normal,
                Element::Source { emf, resistance } if is_loop => {
                    let (emf_volts, siemens) = (emf.volts(), 1.0 / resistance.ohms());
                    books.enter_source(index, emf_volts, siemens, emf_volts);
                }
                Element::Regulated { most, .. } if is_loop => {
                    books.amps[index] = most.amperes();
                    books.states[index] = BranchState::CurrentLimited;
                }
                _ => {}
            }
        }
        books
    }

    fn enter(&mut self, circuit: &Circuit, network: &Network, state: &State) {
        let plan = circuit.plan;
        for (stamp, siemens) in plan.resistors.iter().zip(&circuit.resistor_siemens) {
            let volts = Circuit::across_volts(state, stamp);
            self.put(stamp.branch, siemens * volts, BranchState::Normal);
            self.lose(siemens * volts * volts);
        }
        for (index, stamp) in plan.sources.iter().enumerate() {
            let emf_volts = circuit.source_emf_volts[index];
            let drop_volts = Circuit::below_volts(state, stamp, emf_volts);
            let siemens = circuit.source_siemens[index];
            self.enter_source(stamp.branch, emf_volts, siemens, drop_volts);
        }
        for (index, stamp) in plan.currents.iter().enumerate() {
            self.enter_current_load(circuit, state, index, stamp);
        }
        for (index, stamp) in plan.powers.iter().enumerate() {
            self.enter_power_load(circuit, state, index, stamp);
        }
        for (index, stamp) in plan.chargers.iter().enumerate() {
            let how = match state.charger_mode[index] {
                ChargerMode::Idle => BranchState::Idle,
                ChargerMode::CurrentLimited => BranchState::CurrentLimited,
                ChargerMode::VoltageLimited => BranchState::VoltageLimited,
            };
            let amps = state.charger_amps[index];
            self.put(stamp.branch, amps, how);
            self.supply(amps * Circuit::across_volts(state, stamp));
        }
        self.mark_resistor_loops(circuit, network);
    }

    fn enter_source(&mut self, branch: usize, emf_volts: f64, siemens: f64, drop_volts: f64) {
        let amps = siemens * drop_volts;
        self.put(branch, amps, BranchState::Normal);
        self.supply(emf_volts * amps);
        self.lose(drop_volts * amps);
    }

    fn enter_current_load(
        &mut self,
        circuit: &Circuit,
        state: &State,
        index: usize,
        stamp: &Stamp,
    ) {
        if !state.current_connected[index] {
            return;
        }
        let (volts, amps) = (
            Circuit::across_volts(state, stamp),
            circuit.load_amps[index],
        );
        let is_reversed = amps > 0.0 && volts <= 0.0;
        let how = if is_reversed {
            BranchState::DroppedOut
        } else {
            BranchState::Normal
        };
        self.put(stamp.branch, amps, how);
        self.load(volts * amps);
    }

    fn enter_power_load(&mut self, circuit: &Circuit, state: &State, index: usize, stamp: &Stamp) {
        let mode = state.power_mode[index];
        let volts = Circuit::across_volts(state, stamp);
        let amps = circuit.power_load_amps(index, mode, volts, 1.0);
        let how = match mode {
            PowerMode::Normal => BranchState::Normal,
            PowerMode::DroppedOut => BranchState::DroppedOut,
            PowerMode::NoSupply => BranchState::NoSupply,
        };
        self.put(stamp.branch, amps, how);
        self.load(volts * amps);
    }

    /// A resistor on a single supplied node carries nothing, but it has a supply.
    fn mark_resistor_loops(&mut self, circuit: &Circuit, network: &Network) {
        for (index, branch) in network.branches.iter().enumerate() {
            let is_loop = branch.from == branch.to;
            let is_supplied = circuit.plan.position_of[branch.from].is_some();
            if is_loop && is_supplied && matches!(branch.element, Element::Resistor(_)) {
                self.states[index] = BranchState::Normal;
            }
        }
    }

    fn put(&mut self, branch: usize, amps: f64, how: BranchState) {
        self.amps[branch] = amps;
        self.states[branch] = how;
    }

    fn supply(&mut self, watts: f64) {
        self.source_watts += watts;
        self.gross_watts += watts.abs();
    }

    fn load(&mut self, watts: f64) {
        self.load_watts += watts;
        self.gross_watts += watts.abs();
    }

    fn lose(&mut self, watts: f64) {
        self.loss_watts += watts;
        self.gross_watts += watts.abs();
    }
}
