//! Operating states and electrical nodes, as plain data.

use serde::Serialize;
use wainwright_analysis::result::{Assessment, Outcome, Side, StateKind, StateResult};
use wainwright_model::Id;

/// One solved state.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StateView {
    /// Stable id: `everything-low`, `everything-full`, `hours`, `charging`, `surge`,
    /// or `state.` and the id from the project file.
    pub id: String,
    /// For people.
    pub label: String,
    /// Whether it can last.
    pub lasting: bool,
    /// What was found.
    #[serde(flatten)]
    pub outcome: OutcomeView,
}

/// What the solver found.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "outcome", rename_all = "kebab-case")]
pub enum OutcomeView {
    /// A steady operating point.
    Steady {
        /// Power given by all sources [W].
        sources_watts: f64,
        /// Power taken by all loads [W].
        loads_watts: f64,
        /// Power lost on the way [W].
        losses_watts: f64,
        /// Worst current left over at any node [A].
        residual_amps: f64,
    },
    /// The supply cannot carry the load.
    Collapse {
        /// Share of the load it can carry.
        carried: f64,
        /// Power asked for [W].
        wanted_watts: f64,
        /// Power it can carry [W].
        possible_watts: f64,
        /// Gear whose voltage gives way first.
        weakest: Option<String>,
        /// Voltage there [V].
        volts: f64,
    },
    /// Nothing to solve.
    Empty,
}

/// One electrical node.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct NodeView {
    /// Its number.
    pub node: usize,
    /// `item.terminal` of everything that sits on it.
    pub terminals: Vec<String>,
    /// `plus`, `minus`, `both` or `neither`.
    pub side: &'static str,
    /// Voltage in each state [V]; null where no source reaches it.
    pub volts: Vec<NodeVolts>,
}

/// Voltage of a node in one state.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct NodeVolts {
    /// State id.
    pub state: String,
    /// [V]
    pub volts: Option<f64>,
}

impl StateView {
    /// The same as plain data.
    pub fn of(state: &StateResult) -> Self {
        Self {
            id: state_id(&state.kind),
            label: state_label(state),
            lasting: state.lasting,
            outcome: OutcomeView::of(&state.outcome),
        }
    }
}

impl OutcomeView {
    fn of(outcome: &Outcome) -> Self {
        match outcome {
            Outcome::Steady {
                sources,
                loads,
                losses,
                residual,
                ..
            } => Self::Steady {
                sources_watts: sources.watts(),
                loads_watts: loads.watts(),
                losses_watts: losses.watts(),
                residual_amps: residual.amperes(),
            },
            Outcome::Collapse {
                carried,
                wanted,
                possible,
                weakest,
                volts,
            } => Self::Collapse {
                carried: carried.fraction(),
                wanted_watts: wanted.watts(),
                possible_watts: possible.watts(),
                weakest: weakest.as_ref().map(ToString::to_string),
                volts: volts.volts(),
            },
            Outcome::Empty => Self::Empty,
        }
    }
}

/// All nodes of an assessment.
pub fn nodes(assessment: &Assessment) -> Vec<NodeView> {
    let volts = |node: usize| {
        assessment.states.iter().map(move |state| NodeVolts {
            state: state_id(&state.kind),
            volts: state
                .node_volts
                .get(node)
                .copied()
                .flatten()
                .map(|v| v.volts()),
        })
    };
    let all = assessment.nodes.iter().enumerate();
    all.map(|(number, node)| NodeView {
        node: number,
        terminals: node.terminals.iter().map(terminal).collect(),
        side: side(node.side),
        volts: volts(number).collect(),
    })
    .collect()
}

/// `item.terminal`.
pub fn terminal((item, name): &(Id, String)) -> String {
    format!("{item}.{name}")
}

/// Stable id of a state.
pub fn state_id(kind: &StateKind) -> String {
    match kind {
        StateKind::EverythingLow => "everything-low".into(),
        StateKind::EverythingFull => "everything-full".into(),
        StateKind::Hours => "hours".into(),
        StateKind::Charging => "charging".into(),
        StateKind::Surge => "surge".into(),
        StateKind::Named(id) => format!("state.{id}"),
    }
}

/// A state's name for people.
pub fn state_label(state: &StateResult) -> String {
    let usual = match &state.kind {
        StateKind::EverythingLow => "everything on, battery low",
        StateKind::EverythingFull => "everything on, battery full",
        StateKind::Hours => "what runs for hours on end",
        StateKind::Charging => "charging, loads off",
        StateKind::Surge => "inverter surge",
        StateKind::Named(id) => id.as_str(),
    };
    state.label.clone().unwrap_or_else(|| usual.to_owned())
}

/// The state meant by an id, by a named state's own id, or by nothing: the
/// first one.
pub fn find_state(assessment: &Assessment, wanted: Option<&str>) -> Option<usize> {
    let Some(wanted) = wanted else {
        return (!assessment.states.is_empty()).then_some(0);
    };
    let named = format!("state.{wanted}");
    let ids: Vec<String> = assessment
        .states
        .iter()
        .map(|s| state_id(&s.kind))
        .collect();
    let exact = ids.iter().position(|id| id == wanted);
    exact.or_else(|| ids.iter().position(|id| *id == named))
}

/// Word for a side of the system.
pub fn side(side: Side) -> &'static str {
    match side {
        Side::Plus => "plus",
        Side::Minus => "minus",
        Side::Both => "both",
        Side::Neither => "neither",
    }
}
