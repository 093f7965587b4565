//! Quick bench check: one wire or one joint, without a project.

use crate::circuit::{bare_wire, joint_limits};
use crate::result::{Ampacity, Run};
use crate::working::{Notebook, Working};
use wainwright_engines::conductor::resistance_at;
use wainwright_engines::conductor_heat::{HeatError, steady};
use wainwright_reference::protection::{Family, rating_at_most};
use wainwright_units::{
    Current, Length, Power, Ratio, Resistance, System, Temperature, Voltage, WireSize,
};

/// What is asked about a wire.
#[derive(Debug, Clone, PartialEq)]
pub struct WireQuestion {
    /// Nominal size.
    pub size: WireSize,
    /// Insulation class id.
    pub insulation: String,
    /// Length one way.
    pub length: Length,
    /// Whether the current goes there and back through the same size.
    pub both_ways: bool,
    /// Current.
    pub current: Current,
    /// Where it runs.
    pub run: Run,
    /// Loaded conductors side by side, this one counted.
    pub bundle: u32,
    /// Air around it; the usual value for the place where none is given.
    pub air: Option<Temperature>,
    /// System voltage that the drop is a share of.
    pub system: Voltage,
    /// Tinned strands.
    pub tinned: bool,
}

/// What can be said about a wire.
#[derive(Debug, Clone, PartialEq)]
pub struct QuickWire {
    /// Voltage lost.
    pub drop: Voltage,
    /// The same as a share of system voltage.
    pub drop_share: Ratio,
    /// Settled temperature of the metal.
    pub temperature: Temperature,
    /// What the insulation bears.
    pub limit: Temperature,
    /// Air temperature that was used.
    pub air: Temperature,
    /// Resistance as hot as it gets.
    pub resistance: Resistance,
    /// Heat made along it.
    pub heat: Power,
    /// What it bears for ever there.
    pub ampacity: Ampacity,
    /// Largest standard blade fuse that its ampacity allows.
    pub largest_fuse: Option<Current>,
    /// How the numbers came about.
    pub steps: Working,
}

/// Why a wire cannot be checked.
#[derive(Debug, Clone, PartialEq)]
pub enum QuickProblem {
    /// The insulation class is not in the tables; these are.
    UnknownInsulation(Vec<&'static str>),
    /// The current melts the wire.
    Melts,
    /// A value makes no physical sense.
    Senseless(String),
}

/// How a joint fares.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum JointVerdict {
    /// Cool enough for a small terminal.
    Cool,
    /// Too much for a small terminal, bearable for a large lug.
    Warm,
    /// Too much for any joint.
    Hot,
}

/// What can be said about a joint.
#[derive(Debug, Clone, PartialEq)]
pub struct QuickJoint {
    /// Voltage lost in it.
    pub drop: Voltage,
    /// Heat made in it.
    pub heat: Power,
    /// How it fares.
    pub verdict: JointVerdict,
    /// Heat a small terminal may make.
    pub small_limit: Power,
    /// Heat a large lug may make.
    pub large_limit: Power,
    /// How the numbers came about.
    pub steps: Working,
}

/// Checks one wire.
///
/// # Errors
/// [`QuickProblem`] when there is nothing to compute.
pub fn wire(question: &WireQuestion, shown: System) -> Result<QuickWire, QuickProblem> {
    if wainwright_reference::insulation::insulation(&question.insulation).is_none() {
        let known = wainwright_reference::insulation::insulation_ids();
        return Err(QuickProblem::UnknownInsulation(known));
    }
    let wire = bare_wire(question);
    let settled = steady(&wire.build, &wire.surroundings, wire.air, question.current);
    let settled = settled.map_err(|error| match error {
        HeatError::Melts { .. } => QuickProblem::Melts,
        other => QuickProblem::Senseless(other.to_string()),
    })?;
    let ways = if question.both_ways { 2.0 } else { 1.0 };
    let line = resistance_at(wire.build.resistance_at_20, settled.conductor);
    let resistance = line * (question.length * ways);
    let drop = question.current * resistance;
    let ampacity = crate::study::ampacity_of(&wire);
    let largest = rating_at_most(Family::Blade, ampacity.in_force);
    let steps = wire_steps(question, &wire, settled.conductor, resistance, drop, shown);
    Ok(QuickWire {
        drop,
        drop_share: Ratio::from_fraction(drop / question.system),
        temperature: settled.conductor,
        limit: wire.limit,
        air: wire.air,
        resistance,
        heat: drop * question.current,
        largest_fuse: largest.map(|found| found.value),
        ampacity,
        steps,
    })
}

/// Checks one joint from its measured resistance and the current through it.
pub fn joint(resistance: Resistance, current: Current, shown: System) -> QuickJoint {
    let drop = current * resistance;
    let heat = drop * current;
    let (small_limit, large_limit) = joint_limits();
    let verdict = if heat <= small_limit {
        JointVerdict::Cool
    } else if heat <= large_limit {
        JointVerdict::Warm
    } else {
        JointVerdict::Hot
    };
    let mut notes = Notebook::new(shown);
    let inputs = vec![
        notes.computed("I", current),
        notes.computed("R", resistance),
    ];
    notes.step("U", "U = I · R", drop, inputs.clone());
    notes.step("P", "P = I² · R", heat, inputs);
    QuickJoint {
        drop,
        heat,
        verdict,
        small_limit,
        large_limit,
        steps: Working { steps: notes.steps },
    }
}

fn wire_steps(
    question: &WireQuestion,
    wire: &crate::circuit::Laid,
    temperature: Temperature,
    resistance: Resistance,
    drop: Voltage,
    shown: System,
) -> Working {
    let ways = if question.both_ways { 2.0 } else { 1.0 };
    let length = question.length * ways;
    let cold = wire.build.resistance_at_20 * length;
    let mut notes = Notebook::new(shown);
    let inputs = vec![
        notes.computed("r20", wire.build.resistance_at_20),
        notes.computed("L", length),
    ];
    notes.step("R20", "R20 = r20 · L", cold, inputs);
    let inputs = vec![
        notes.computed("R20", cold),
        notes.computed("θ", temperature),
    ];
    notes.step("R", "R = R20 · (234.5 + θ) / 254.5", resistance, inputs);
    let inputs = vec![
        notes.computed("I", question.current),
        notes.computed("R", resistance),
    ];
    notes.step("U", "U = I · R", drop, inputs);
    Working { steps: notes.steps }
}
