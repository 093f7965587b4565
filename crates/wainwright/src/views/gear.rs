//! Gear that takes or gives power, as plain data.

use super::state::state_id;
use serde::Serialize;
use wainwright_analysis::result::{Assessment, ConsumerInState, ConsumerResult, Role};

/// One piece of gear.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GearView {
    /// Item id.
    pub id: String,
    /// For people.
    pub label: String,
    /// `battery`, `source`, `load` or `inverter`.
    pub role: &'static str,
    /// The terminal pair these numbers are for.
    pub plus: String,
    /// Its other half.
    pub minus: String,
    /// Held to the tighter voltage-drop limit.
    pub critical: bool,
    /// Runs three hours or more at a stretch.
    pub continuous: bool,
    /// Rated current [A].
    pub rated_amps: Option<f64>,
    /// Lowest voltage it works at [V].
    pub lowest_volts: Option<f64>,
    /// What its voltage drop is measured from.
    pub fed_by: Option<String>,
    /// In each state.
    pub states: Vec<GearInState>,
}

/// One piece of gear in one state.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GearInState {
    /// State id.
    pub state: String,
    /// Switched on and supplied.
    pub on: bool,
    /// Between its terminals [V].
    pub volts: Option<f64>,
    /// Positive as it works [A].
    pub amps: f64,
    /// At its terminals [W].
    pub watts: f64,
    /// Lost on the way from what feeds it [V].
    pub drop_volts: Option<f64>,
    /// The same as a share of system voltage.
    pub drop_share: Option<f64>,
    /// Its voltage is too low to work at.
    pub dropped_out: bool,
}

impl GearView {
    /// The same as plain data.
    pub fn of(gear: &ConsumerResult, assessment: &Assessment) -> Self {
        let pairs = assessment.states.iter().zip(&gear.states);
        Self {
            id: gear.item.to_string(),
            label: gear.label.clone(),
            role: role(gear.role),
            plus: gear.plus.clone(),
            minus: gear.minus.clone(),
            critical: gear.critical,
            continuous: gear.continuous,
            rated_amps: gear.rated_amps.map(|a| a.amperes()),
            lowest_volts: gear.lowest.map(|v| v.volts()),
            fed_by: gear.fed_by.as_ref().map(ToString::to_string),
            states: pairs
                .map(|(s, there)| in_state(state_id(&s.kind), there))
                .collect(),
        }
    }
}

fn in_state(state: String, there: &ConsumerInState) -> GearInState {
    GearInState {
        state,
        on: there.on,
        volts: there.volts.map(|v| v.volts()),
        amps: there.amps.amperes(),
        watts: there.power.watts(),
        drop_volts: there.drop.map(|v| v.volts()),
        drop_share: there.drop_share.map(|r| r.fraction()),
        dropped_out: there.dropped_out,
    }
}

/// Word for what gear does.
pub fn role(role: Role) -> &'static str {
    match role {
        Role::Battery => "battery",
        Role::Source => "source",
        Role::Load => "load",
        Role::Inverter => "inverter",
    }
}
