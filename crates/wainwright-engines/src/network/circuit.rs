//! The values of one network on a plan, its state, and what flows in that state.
//!
//! Potentials are kept as an unevaluated sum of two numbers. The difference between the ends of a
//! 1 µΩ joint at 13 V is far below the rounding of either potential, yet its current must still
//! close Kirchhoff's law to nine digits; the second number carries what the first rounds away.
//! Not here: steps (`newton`) and changes of mode (`settle`).

use super::plan::{Plan, Stamp};
use super::{Element, Network};

/// Values of the elements, in the order of the plan's stamps.
pub(super) struct Circuit<'p> {
    pub(super) plan: &'p Plan,
    pub(super) resistor_siemens: Vec<f64>,
    pub(super) source_siemens: Vec<f64>,
    pub(super) source_emf_volts: Vec<f64>,
    pub(super) load_amps: Vec<f64>,
    pub(super) load_watts: Vec<f64>,
    pub(super) lowest_volts: Vec<f64>,
    pub(super) limit_volts: Vec<f64>,
    pub(super) most_amps: Vec<f64>,
    /// Conductance that ties a voltage-limited charger to its limit within one step.
    pub(super) hold_siemens: Vec<f64>,
    /// Largest current that any source gives into a short [A], the scale of its rounding.
    pub(super) largest_short_amps: f64,
    /// Conductances of resistors and sources per slot.
    fixed_siemens: Vec<f64>,
}

/// A guess at the operating point, or the operating point.
#[derive(Clone)]
pub(super) struct State {
    pub(super) volts: Vec<f64>,
    pub(super) volts_rest: Vec<f64>,
    pub(super) current_connected: Vec<bool>,
    pub(super) power_mode: Vec<PowerMode>,
    pub(super) charger_mode: Vec<ChargerMode>,
    pub(super) charger_amps: Vec<f64>,
}

#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum PowerMode {
    Normal,
    DroppedOut,
    NoSupply,
}

#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum ChargerMode {
    Idle,
    CurrentLimited,
    VoltageLimited,
}

/// Currents that do not add up, per elimination position.
#[derive(Default)]
pub(super) struct Leftover {
    /// Net current into the node [A].
    pub(super) amps: Vec<f64>,
    /// Sum of the magnitudes that meet at the node [A].
    pub(super) met_amps: Vec<f64>,
}

/// How much stiffer than its surroundings a held voltage is; each step shrinks its error by this.
const HOLD_RATIO: f64 = 1e6;

impl<'p> Circuit<'p> {
    /// Reads the values. The network must have the wiring of the plan.
    pub(super) fn new(plan: &'p Plan, network: &Network) -> Self {
        let mut circuit = Self {
            plan,
            resistor_siemens: Vec::with_capacity(plan.resistors.len()),
            source_siemens: Vec::with_capacity(plan.sources.len()),
            source_emf_volts: Vec::with_capacity(plan.sources.len()),
            load_amps: Vec::with_capacity(plan.currents.len()),
            load_watts: Vec::with_capacity(plan.powers.len()),
            lowest_volts: Vec::with_capacity(plan.powers.len()),
            limit_volts: Vec::new(),
            most_amps: Vec::new(),
            hold_siemens: Vec::new(),
            largest_short_amps: 0.0,
            fixed_siemens: vec![0.0; plan.structure.slot_count()],
        };
        let groups = [
            &plan.resistors,
            &plan.sources,
            &plan.currents,
            &plan.powers,
            &plan.chargers,
        ];
        for stamp in groups.into_iter().flatten() {
            circuit.read(network.branches[stamp.branch].element);
        }
        circuit.add_fixed();
        circuit.add_holds();
        circuit
    }

    /// Voltage from the first to the second terminal [V].
    pub(super) fn across_volts(state: &State, stamp: &Stamp) -> f64 {
        (state.volts[stamp.from] - state.volts[stamp.to])
            + (state.volts_rest[stamp.from] - state.volts_rest[stamp.to])
    }

    /// How far the voltage from the first to the second terminal is below a given one [V].
    ///
    /// Behind 1 µΩ the last digit of 13 V is a nanoampere, so the difference of the potentials is
    /// taken without rounding before the given voltage cancels it.
    pub(super) fn below_volts(state: &State, stamp: &Stamp, volts: f64) -> f64 {
        let (from, to) = (state.volts[stamp.from], state.volts[stamp.to]);
        let across = from - to;
        let kept = across - from;
        let lost = (from - (across - kept)) - (to + kept);
        let rest = state.volts_rest[stamp.from] - state.volts_rest[stamp.to];
        (volts - across) - (lost + rest)
    }

    /// Current that a constant-power load draws [A] with `share` of its power wanted.
    pub(super) fn power_load_amps(
        &self,
        index: usize,
        mode: PowerMode,
        volts: f64,
        share: f64,
    ) -> f64 {
        let watts = share * self.load_watts[index];
        match mode {
            PowerMode::NoSupply => 0.0,
            _ if watts == 0.0 => 0.0,
            PowerMode::Normal => watts / volts,
            PowerMode::DroppedOut => watts * volts / self.lowest_volts[index].powi(2),
        }
    }

    /// Sums up the currents at every node; returns the largest current in any branch [A].
    pub(super) fn leftover(&self, state: &State, share: f64, out: &mut Leftover) -> f64 {
        out.clear(self.plan.structure.len());
        let mut largest_amps = 0.0_f64;
        let mut draw = |stamp: &Stamp, amps: f64| {
            out.draw(stamp, amps);
            largest_amps = largest_amps.max(amps.abs());
        };
        for (stamp, siemens) in self.plan.resistors.iter().zip(&self.resistor_siemens) {
            draw(stamp, siemens * Self::across_volts(state, stamp));
        }
        for (index, stamp) in self.plan.sources.iter().enumerate() {
            let drop_volts = Self::below_volts(state, stamp, self.source_emf_volts[index]);
            draw(stamp, -self.source_siemens[index] * drop_volts);
        }
        for (index, stamp) in self.plan.currents.iter().enumerate() {
            if state.current_connected[index] {
                draw(stamp, self.load_amps[index]);
            }
        }
        for (index, stamp) in self.plan.powers.iter().enumerate() {
            let volts = Self::across_volts(state, stamp);
            draw(
                stamp,
                self.power_load_amps(index, state.power_mode[index], volts, share),
            );
        }
        for (stamp, amps) in self.plan.chargers.iter().zip(&state.charger_amps) {
            draw(stamp, -amps);
        }
        largest_amps
    }

    /// Fills in the conductances of the Newton step: dI/dV of every branch, per slot.
    pub(super) fn slopes(&self, state: &State, share: f64, siemens: &mut Vec<f64>) {
        siemens.clone_from(&self.fixed_siemens);
        for (index, stamp) in self.plan.powers.iter().enumerate() {
            let watts = share * self.load_watts[index];
            siemens[stamp.slot] += match state.power_mode[index] {
                PowerMode::NoSupply => 0.0,
                _ if watts == 0.0 => 0.0,
                PowerMode::Normal => -watts / Self::across_volts(state, stamp).powi(2),
                PowerMode::DroppedOut => watts / self.lowest_volts[index].powi(2),
            };
        }
        for (index, stamp) in self.plan.chargers.iter().enumerate() {
            if state.charger_mode[index] == ChargerMode::VoltageLimited {
                siemens[stamp.slot] += self.hold_siemens[index];
            }
        }
    }

    /// How far a charger's terminals are below its limit [V].
    pub(super) fn below_limit_volts(&self, state: &State, index: usize) -> f64 {
        Self::below_volts(state, &self.plan.chargers[index], self.limit_volts[index])
    }

    /// Largest source voltage or charger limit [V].
    pub(super) fn largest_volts(&self) -> f64 {
        let all = self.source_emf_volts.iter().chain(&self.limit_volts);
        all.fold(0.0, |most: f64, volts| most.max(volts.abs()))
    }

    /// All nodes at 0 V, loads off, chargers holding their limits.
    pub(super) fn at_rest(&self) -> State {
        State {
            volts: vec![0.0; self.plan.structure.len()],
            volts_rest: vec![0.0; self.plan.structure.len()],
            current_connected: vec![false; self.load_amps.len()],
            power_mode: vec![PowerMode::NoSupply; self.load_watts.len()],
            charger_mode: vec![ChargerMode::VoltageLimited; self.limit_volts.len()],
            charger_amps: vec![0.0; self.limit_volts.len()],
        }
    }

    fn read(&mut self, element: Element) {
        match element {
            Element::Resistor(resistance) => self.resistor_siemens.push(1.0 / resistance.ohms()),
            Element::Open => {}
            Element::Source { emf, resistance } => {
                self.source_siemens.push(1.0 / resistance.ohms());
                self.source_emf_volts.push(emf.volts());
                let short_amps = emf.volts().abs() / resistance.ohms();
                self.largest_short_amps = self.largest_short_amps.max(short_amps);
            }
            Element::ConstantCurrent(current) => self.load_amps.push(current.amperes()),
            Element::ConstantPower { power, lowest } => {
                self.load_watts.push(power.watts());
                self.lowest_volts.push(lowest.volts());
            }
            Element::Regulated { limit, most } => {
                self.limit_volts.push(limit.volts());
                self.most_amps.push(most.amperes());
            }
        }
    }

    fn add_fixed(&mut self) {
        let resistors = self.plan.resistors.iter().zip(&self.resistor_siemens);
        let sources = self.plan.sources.iter().zip(&self.source_siemens);
        for (stamp, siemens) in resistors.chain(sources) {
            self.fixed_siemens[stamp.slot] += siemens;
        }
    }

    fn add_holds(&mut self) {
        if self.plan.chargers.is_empty() {
            return;
        }
        let mut around_siemens = vec![0.0; self.plan.structure.len()];
        let resistors = self.plan.resistors.iter().zip(&self.resistor_siemens);
        let sources = self.plan.sources.iter().zip(&self.source_siemens);
        for (stamp, siemens) in resistors.chain(sources) {
            around_siemens[stamp.from] += siemens;
            around_siemens[stamp.to] += siemens;
        }
        let hold = |stamp: &Stamp| {
            HOLD_RATIO * (1.0 + around_siemens[stamp.from] + around_siemens[stamp.to])
        };
        self.hold_siemens = self.plan.chargers.iter().map(hold).collect();
    }
}

impl State {
    /// Adds a correction to the potentials without losing what rounds away.
    pub(super) fn add(&mut self, step_volts: &[f64]) {
        let parts = self.volts.iter_mut().zip(&mut self.volts_rest);
        for ((volts, rest), step) in parts.zip(step_volts) {
            let small = *rest + step;
            let sum = *volts + small;
            let kept = sum - *volts;
            *rest = (*volts - (sum - kept)) + (small - kept);
            *volts = sum;
        }
    }
}

impl Leftover {
    fn clear(&mut self, len: usize) {
        self.amps.clear();
        self.amps.resize(len, 0.0);
        self.met_amps.clear();
        self.met_amps.resize(len, 0.0);
    }

    /// Takes a current from the first terminal's node to the second terminal's node.
    fn draw(&mut self, stamp: &Stamp, amps: f64) {
        self.amps[stamp.from] -= amps;
        self.amps[stamp.to] += amps;
        self.met_amps[stamp.from] += amps.abs();
        self.met_amps[stamp.to] += amps.abs();
    }
}
