//! Results of one operating state.

use wainwright_model::Id;
use wainwright_units::{Current, Power, Ratio, TemperatureDifference, Voltage};

/// Which state of the trailer was solved.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum StateKind {
    /// Everything on, battery nearly empty.
    EverythingLow,
    /// Everything on, battery full.
    EverythingFull,
    /// Only what runs for hours at a stretch, battery nearly empty.
    Hours,
    /// Every charging source at work, loads off, battery low.
    Charging,
    /// Inverters at their surge power; lasts seconds.
    Surge,
    /// A state the person named.
    Named(Id),
}

/// What the solver found.
#[derive(Debug, Clone, PartialEq)]
pub enum Outcome {
    /// A steady operating point.
    Steady {
        /// Power given by all sources.
        sources: Power,
        /// Power taken by all loads.
        loads: Power,
        /// Power lost in conductors, joints and batteries.
        losses: Power,
        /// Worst current left over at any node.
        residual: Current,
        /// Newton steps over all heat passes.
        iterations: usize,
    },
    /// The supply cannot carry this load.
    Collapse {
        /// Share of the load that could be carried.
        carried: Ratio,
        /// Power that was asked for.
        wanted: Power,
        /// Power that could be carried.
        possible: Power,
        /// Gear whose voltage gives way first.
        weakest: Option<Id>,
        /// Voltage there at the limit.
        volts: Voltage,
    },
    /// There is nothing to solve (no source, or no circuit).
    Empty,
}

/// One solved state.
#[derive(Debug, Clone)]
pub struct StateResult {
    /// Which state.
    pub kind: StateKind,
    /// The name a person gave it, for a named state.
    pub label: Option<String>,
    /// Whether it can last (heats conductors through).
    pub lasting: bool,
    /// What was found.
    pub outcome: Outcome,
    /// Largest change of any wire's temperature in the last pass of the heat
    /// loop: below 0.1 K, or the loop was stopped at its cap.
    pub heat_residual: TemperatureDifference,
    /// Voltage of each node against its island's reference.
    pub node_volts: Vec<Option<Voltage>>,
}
