//! Finds the modes: which loads drop out and what each charger does.
//!
//! Chargers switch all at once for the first rounds and then one at a time, lowest index first
//! (Murty's rule, which cannot cycle for a positive definite network). Loads drop out while the
//! voltage sinks from the open-circuit state and are let back in once at most.
//! Not here: Newton's method for fixed modes, and how far a collapsing supply gets (`collapse`).

use super::circuit::{ChargerMode, Circuit, PowerMode, State};
use super::newton::{Newton, Trouble, holds};
use super::plan::Plan;
use super::{BranchState, Network, NetworkError, OperatingPoint, collapse, report};

/// A solve in progress.
pub(super) struct Settler<'c, 'p> {
    pub(super) circuit: &'c Circuit<'p>,
    pub(super) newton: Newton,
    pub(super) state: State,
    /// Potentials with all loads off [V].
    pub(super) open_circuit: State,
    /// Loads that were let back in and dropped out again; they stay out.
    tried: Vec<bool>,
}

/// Rounds in which all chargers may switch at once.
const JOINT_ROUNDS: usize = 10;
/// Further rounds per charger and per load with a lowest voltage.
const ROUNDS_EACH: usize = 8;
/// Part of the largest current or limit by which a charger must be wrong before it switches.
const SWITCH_MARGIN: f64 = 1e-10;
/// Part of the lowest voltage by which a load must be above it to be let back in.
const RETURN_MARGIN: f64 = 1e-9;
/// Part of the largest source voltage that counts as no voltage.
const NO_VOLTS: f64 = 1e-9;

/// Solves a checked network on its plan.
pub(super) fn solve(
    plan: &Plan,
    network: &Network,
    warm: Option<&OperatingPoint>,
) -> Result<OperatingPoint, NetworkError> {
    let circuit = Circuit::new(plan, network);
    if let Some(point) = warm.and_then(|point| from_warm(&circuit, point)) {
        return report::report(&circuit, network, &point);
    }
    let mut settler = Settler::new(&circuit);
    let done = settler.settle(1.0);
    if let Err(trouble) = done {
        collapse::investigate(&mut settler, trouble)?;
    }
    report::report(&circuit, network, &settler)
}

impl<'c, 'p> Settler<'c, 'p> {
    /// Starts from open-circuit voltages, every load on that has any.
    fn new(circuit: &'c Circuit<'p>) -> Self {
        let mut newton = Newton::new(circuit);
        let mut state = circuit.at_rest();
        // With all loads off the slopes are sums of positive numbers, so this cannot fail.
        let _ = newton.single(circuit, &mut state);
        let least_volts = NO_VOLTS * circuit.largest_volts();
        for (index, stamp) in circuit.plan.currents.iter().enumerate() {
            let volts = Circuit::across_volts(&state, stamp);
            state.current_connected[index] = circuit.load_amps[index] <= 0.0 || volts > least_volts;
        }
        for (index, stamp) in circuit.plan.powers.iter().enumerate() {
            let volts = Circuit::across_volts(&state, stamp);
            if circuit.load_watts[index] == 0.0 || volts > least_volts {
                state.power_mode[index] = PowerMode::Normal;
            }
        }
        Self {
            circuit,
            newton,
            open_circuit: state.clone(),
            tried: vec![false; state.power_mode.len()],
            state,
        }
    }

    /// Finds the operating point with `share` of every constant power, from the present state.
    pub(super) fn settle(&mut self, share: f64) -> Result<(), Trouble> {
        self.tried.fill(false);
        let switching = self.circuit.plan.chargers.len() + self.circuit.plan.powers.len();
        let mut island = 0;
        for round in 0..JOINT_ROUNDS + ROUNDS_EACH * switching {
            match self.newton.run(self.circuit, &mut self.state, share) {
                Err(trouble) => {
                    island = trouble.island;
                    if !self.drop_weakest(trouble.island) {
                        return Err(trouble);
                    }
                    self.restart();
                }
                Ok(()) if self.switch_chargers(round < JOINT_ROUNDS) => {}
                Ok(()) if !holds(self.circuit, &self.state) => break,
                Ok(()) if self.let_back_in() => self.restart(),
                Ok(()) => return Ok(()),
            }
        }
        Err(Trouble {
            island,
            capped: true,
        })
    }

    /// Voltage of a constant-power load as a part of its open-circuit voltage.
    pub(super) fn sag(&self, index: usize) -> f64 {
        let stamp = &self.circuit.plan.powers[index];
        let open_volts = Circuit::across_volts(&self.open_circuit, stamp);
        Circuit::across_volts(&self.state, stamp) / open_volts
    }

    /// Goes back to open-circuit voltages, because Newton's method falls onto the stable branch
    /// from above; the modes stay.
    fn restart(&mut self) {
        self.state.volts.clone_from(&self.open_circuit.volts);
        self.state
            .volts_rest
            .clone_from(&self.open_circuit.volts_rest);
    }

    /// Drops out the load of the island that has sagged most and can let go.
    fn drop_weakest(&mut self, island: usize) -> bool {
        let plan = self.circuit.plan;
        let can_drop = |index: &usize| {
            self.state.power_mode[*index] == PowerMode::Normal
                && self.circuit.lowest_volts[*index] > 0.0
                && self.circuit.load_watts[*index] > 0.0
                && plan.island_at[plan.powers[*index].from] == island
        };
        let weakest = (0..plan.powers.len())
            .filter(can_drop)
            .min_by(|one, other| self.sag(*one).total_cmp(&self.sag(*other)));
        if let Some(index) = weakest {
            self.state.power_mode[index] = PowerMode::DroppedOut;
        }
        weakest.is_some()
    }

    /// Lets loads back in that dropped out but have their voltage after all.
    fn let_back_in(&mut self) -> bool {
        let mut any = false;
        for (index, stamp) in self.circuit.plan.powers.iter().enumerate() {
            let lowest_volts = self.circuit.lowest_volts[index];
            let is_out = self.state.power_mode[index] == PowerMode::DroppedOut;
            let volts = Circuit::across_volts(&self.state, stamp);
            if is_out && !self.tried[index] && volts > lowest_volts * (1.0 + RETURN_MARGIN) {
                self.state.power_mode[index] = PowerMode::Normal;
                self.tried[index] = true;
                any = true;
            }
        }
        any
    }

    /// Corrects charger modes that contradict the voltages and currents; all, or only the first.
    fn switch_chargers(&mut self, all: bool) -> bool {
        let mut any = false;
        for index in 0..self.circuit.plan.chargers.len() {
            let wanted = self.wanted_mode(index);
            if wanted == self.state.charger_mode[index] {
                continue;
            }
            self.state.charger_mode[index] = wanted;
            self.state.charger_amps[index] = match wanted {
                ChargerMode::Idle => 0.0,
                ChargerMode::CurrentLimited => self.circuit.most_amps[index],
                ChargerMode::VoltageLimited => self.state.charger_amps[index],
            };
            any = true;
            if !all {
                break;
            }
        }
        any
    }

    fn wanted_mode(&self, index: usize) -> ChargerMode {
        let most_amps = self.circuit.most_amps[index];
        let amps = self.state.charger_amps[index];
        let margin_amps = SWITCH_MARGIN * (most_amps + amps.abs());
        let below_volts = self.circuit.below_limit_volts(&self.state, index);
        let margin_volts = SWITCH_MARGIN * self.circuit.limit_volts[index];
        match self.state.charger_mode[index] {
            ChargerMode::VoltageLimited if amps > most_amps + margin_amps => {
                ChargerMode::CurrentLimited
            }
            ChargerMode::VoltageLimited if amps < -margin_amps => ChargerMode::Idle,
            ChargerMode::CurrentLimited if below_volts < -margin_volts => {
                ChargerMode::VoltageLimited
            }
            ChargerMode::Idle if below_volts > margin_volts => ChargerMode::VoltageLimited,
            same => same,
        }
    }
}

/// Settles from a former operating point, or `None` when a cold start is called for.
///
/// A former point with loads off or dropped out is no good start: with its modes the iteration
/// could stay on a lower branch than the one reached from open-circuit voltages.
fn from_warm<'c, 'p>(circuit: &'c Circuit<'p>, point: &OperatingPoint) -> Option<Settler<'c, 'p>> {
    let plan = circuit.plan;
    let mut state = circuit.at_rest();
    if point.node_volts.len() != plan.position_of.len() {
        return None;
    }
    for (position, volts) in plan.position_of.iter().zip(&point.node_volts) {
        if let Some(position) = *position {
            state.volts[position] = (*volts)?.volts();
        }
    }
    for (index, stamp) in plan.currents.iter().enumerate() {
        let is_on = *point.branch_state.get(stamp.branch)? == BranchState::Normal;
        state.current_connected[index] = is_on.then_some(true)?;
    }
    for (index, stamp) in plan.powers.iter().enumerate() {
        let is_on = *point.branch_state.get(stamp.branch)? == BranchState::Normal;
        state.power_mode[index] = is_on.then_some(PowerMode::Normal)?;
    }
    for (index, stamp) in plan.chargers.iter().enumerate() {
        state.charger_mode[index] = match point.branch_state.get(stamp.branch)? {
            BranchState::Idle => ChargerMode::Idle,
            BranchState::CurrentLimited => ChargerMode::CurrentLimited,
            _ => ChargerMode::VoltageLimited,
        };
        state.charger_amps[index] = match state.charger_mode[index] {
            ChargerMode::Idle => 0.0,
            ChargerMode::CurrentLimited => circuit.most_amps[index],
            ChargerMode::VoltageLimited => point.branch_amps.get(stamp.branch)?.amperes(),
        };
    }
    let mut settler = Settler {
        circuit,
        newton: Newton::new(circuit),
        open_circuit: state.clone(),
        tried: vec![false; state.power_mode.len()],
        state,
    };
    settler.settle(1.0).ok()?;
    let all_on = settler
        .state
        .power_mode
        .iter()
        .all(|mode| *mode == PowerMode::Normal);
    all_on.then_some(settler)
}
