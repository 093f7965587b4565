//! Fuses and breakers, as plain data.

use super::basis::BasisView;
use super::state::state_id;
use serde::Serialize;
use wainwright_analysis::result::{Assessment, DeviceResult, Reclose};

/// One fuse or breaker.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DeviceView {
    /// Item id, with `.way` where the gear has several.
    pub id: String,
    /// For people.
    pub label: String,
    /// Family.
    pub family: String,
    /// Rated current [A].
    pub rating_amps: f64,
    /// Where the rating came from.
    pub rating_basis: BasisView,
    /// Most voltage it can open [V].
    pub rated_volts: Option<f64>,
    /// Most current it can open [A].
    pub interrupt_amps: Option<f64>,
    /// What it does after opening: `fuse`, `manual`, `automatic` or `held`.
    pub after_opening: &'static str,
    /// The continuous current through it [A].
    pub continuous_amps: Option<f64>,
    /// The state in which that flows.
    pub continuous_state: Option<String>,
    /// The largest fault current through it [A].
    pub largest_fault_amps: Option<f64>,
    /// Conductors it protects.
    pub guards: Vec<String>,
    /// In each state.
    pub states: Vec<DeviceInState>,
}

/// A device in one state.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DeviceInState {
    /// State id.
    pub state: String,
    /// Current through it [A].
    pub amps: f64,
    /// That current as a share of its rating.
    pub share: f64,
}

impl DeviceView {
    /// The same as plain data.
    pub fn of(device: &DeviceResult, assessment: &Assessment) -> Self {
        let state_of = |index: usize| assessment.states.get(index).map(|s| state_id(&s.kind));
        let guarded = |index: &usize| assessment.wires.get(*index).map(|w| w.id.to_string());
        Self {
            id: id_of(device),
            label: device.label.clone(),
            family: device.family.clone(),
            rating_amps: device.rating.value.amperes(),
            rating_basis: BasisView::of(&device.rating.basis),
            rated_volts: device.volts_rating.as_ref().map(|v| v.value.volts()),
            interrupt_amps: device.interrupt.as_ref().map(|a| a.value.amperes()),
            after_opening: after_opening(device.reclose),
            continuous_amps: device.continuous_amps.map(|(amps, _)| amps.amperes()),
            continuous_state: device.continuous_amps.and_then(|(_, s)| state_of(s)),
            largest_fault_amps: device.largest_fault.map(|a| a.amperes()),
            guards: device.guards.iter().filter_map(guarded).collect(),
            states: in_states(device, assessment),
        }
    }
}

/// Id of the device at an index of the assessment.
pub fn device_id(assessment: &Assessment, index: usize) -> Option<String> {
    assessment.devices.get(index).map(id_of)
}

/// Item id, with `.way` where the gear has several.
pub fn id_of(device: &DeviceResult) -> String {
    if device.way == 0 {
        device.item.to_string()
    } else {
        format!("{}.{}", device.item, device.way)
    }
}

fn in_states(device: &DeviceResult, assessment: &Assessment) -> Vec<DeviceInState> {
    let pairs = assessment.states.iter().zip(&device.states);
    pairs
        .map(|(state, there)| DeviceInState {
            state: state_id(&state.kind),
            amps: there.amps.amperes(),
            share: there.share.fraction(),
        })
        .collect()
}

fn after_opening(reclose: Reclose) -> &'static str {
    match reclose {
        Reclose::Fuse => "fuse",
        Reclose::Manual => "manual",
        Reclose::Automatic => "automatic",
        Reclose::Held => "held",
    }
}
