//! Working: the formula behind a number, with the numbers in it and where
//! each came from. Formulas are printed as the engines compute them. Not
//! here: the computation itself.

mod device;
mod gear;
mod note;
mod road;
mod road_more;
mod route;
mod wire;

use crate::circuit::{self, Circuit};
use crate::known::Basis;
use crate::result::road::RatingKind;
use crate::result::{Assessment, JointOwner};
pub(crate) use note::Notebook;
use wainwright_model::{FieldExt, Project};
use wainwright_units::System;

/// Which number's working is asked for. Names are ids in the project; states
/// are indices into the assessment's states.
#[derive(Debug, Clone, PartialEq, Eq)]
#[allow(missing_docs, reason = "the fields say what the variant says")]
pub enum Ask {
    /// Resistance of a conductor as hot as it is in a state.
    WireResistance { wire: String, state: usize },
    /// Voltage lost along a conductor.
    WireDrop { wire: String, state: usize },
    /// Length of a conductor by its route.
    WireLength { wire: String },
    /// Temperature of a conductor.
    WireTemperature { wire: String, state: usize },
    /// What a conductor bears for ever.
    WireAmpacity { wire: String },
    /// Current through a fuse or breaker as a share of its rating.
    DeviceShare {
        item: String,
        way: usize,
        state: usize,
    },
    /// Voltage lost between battery and gear, part by part.
    ConsumerDrop { item: String, state: usize },
    /// Largest current of a short circuit at a node.
    FaultCurrent { node: usize },
    /// Heat in a joint or contact.
    JointHeat { owner: JointOwner },
    /// Share of the trailer's mass on the ball; states of this and of the rest are those of the road study.
    TongueShare { state: usize },
    /// What is left of a rating.
    RoadMargin { rating: RatingKind, state: usize },
    /// Damping at the planned speed, or at the one tests are made at.
    Damping { state: usize, planned: bool },
    /// Where an item may stand along the trailer.
    AllowedZone { item: String },
    /// What tries to move an item against what holds it.
    TieDown { item: String },
}

/// How one number came about.
#[derive(Debug, Clone, PartialEq)]
pub struct Working {
    /// The steps, the asked-for number last.
    pub steps: Vec<Step>,
}

/// One step of a working.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Symbol of the result, for example `U`.
    pub symbol: &'static str,
    /// The formula in symbols.
    pub formula: &'static str,
    /// The same with numbers and units.
    pub numbers: String,
    /// The result with its unit.
    pub result: String,
    /// Every input of the formula.
    pub inputs: Vec<Input>,
}

/// One input of a step.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// Its symbol in the formula, or the name of a part in a sum.
    pub symbol: String,
    /// Its value with unit.
    pub value: String,
    /// Where it came from.
    pub basis: Basis,
}

/// The working of one number; `None` when the number does not exist.
pub fn working(project: &Project, assessment: &Assessment, ask: &Ask) -> Option<Working> {
    let circuit = circuit::lower(project);
    let system = project
        .head
        .units
        .value()
        .map_or(System::Metric, |units| (*units).into());
    let desk = Desk {
        circuit: &circuit,
        assessment,
        system,
    };
    let mut notebook = Notebook::new(system);
    match ask {
        Ask::WireResistance { wire, state } => {
            desk.resistance(&mut notebook, wire, *state).map(|_| ())?
        }
        Ask::WireLength { wire } => desk.length(&mut notebook, wire)?,
        Ask::WireDrop { wire, state } => desk.drop(&mut notebook, wire, *state)?,
        Ask::WireTemperature { wire, state } => desk.temperature(&mut notebook, wire, *state)?,
        Ask::WireAmpacity { wire } => desk.ampacity(&mut notebook, wire)?,
        Ask::DeviceShare { item, way, state } => desk.share(&mut notebook, item, *way, *state)?,
        Ask::ConsumerDrop { item, state } => desk.gear_drop(&mut notebook, item, *state)?,
        Ask::FaultCurrent { node } => desk.fault(&mut notebook, *node)?,
        Ask::JointHeat { owner } => desk.joint(&mut notebook, owner)?,
        _ => desk.road().write(&mut notebook, project, ask)?,
    }
    Some(Working {
        steps: notebook.steps,
    })
}

struct Desk<'a> {
    circuit: &'a Circuit,
    assessment: &'a Assessment,
    system: System,
}

impl Desk<'_> {
    fn road(&self) -> road::RoadDesk<'_> {
        road::RoadDesk {
            road: &self.assessment.road,
            system: self.system,
        }
    }
}
