//! Results for gear that takes or gives power.

use wainwright_model::Id;
use wainwright_units::{Current, Power, Ratio, Voltage};

/// What a piece of gear does in the network.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// Stores and gives.
    Battery,
    /// Gives: charger, controller output, vehicle supply, module.
    Source,
    /// Takes.
    Load,
    /// Takes, and makes mains voltage.
    Inverter,
}

/// Results for one piece of gear.
#[derive(Debug, Clone)]
pub struct ConsumerResult {
    /// Item id.
    pub item: Id,
    /// What people call it.
    pub label: String,
    /// What it does.
    pub role: Role,
    /// Terminal pair these numbers are for (a DC-DC charger has two).
    pub plus: String,
    /// Its minus terminal.
    pub minus: String,
    /// Nodes of that pair, when both are joined to something.
    pub nodes: Option<(usize, usize)>,
    /// Held to the tighter voltage-drop limit.
    pub critical: bool,
    /// Runs three hours or more at a stretch.
    pub continuous: bool,
    /// Rated current or its equivalent at system voltage \[A\].
    pub rated_amps: Option<Current>,
    /// Lowest voltage it works at.
    pub lowest: Option<Voltage>,
    /// Battery or bus it is measured against for drop (item id).
    pub fed_by: Option<Id>,
    /// Per state.
    pub states: Vec<ConsumerInState>,
}

/// One piece of gear in one state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ConsumerInState {
    /// Whether it is switched on in this state and has supply.
    pub on: bool,
    /// Voltage between its terminals.
    pub volts: Option<Voltage>,
    /// Current through it, positive as it works (load: taken, source: given).
    pub amps: Current,
    /// Power at its terminals.
    pub power: Power,
    /// Voltage lost between the battery's terminals and its own.
    pub drop: Option<Voltage>,
    /// The same as a share of system voltage.
    pub drop_share: Option<Ratio>,
    /// Below its lowest voltage: it has dropped out.
    pub dropped_out: bool,
}
