//! Conductors, as plain data.

use super::basis::{BasisView, SourceView};
use super::device::device_id;
use super::state::{side, state_id, terminal};
use serde::Serialize;
use wainwright_analysis::result::{
    Ampacity, Assessment, Guard, Overload, Run, WireInState, WireResult,
};

/// One conductor.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ConductorView {
    /// Its id in the project file.
    pub id: String,
    /// For people.
    pub label: String,
    /// `item.terminal` at its start.
    pub from: String,
    /// `item.terminal` at its end.
    pub to: String,
    /// `plus`, `minus`, `both` or `neither`.
    pub side: &'static str,
    /// Whether it came with the gear.
    pub supplied: bool,
    /// Nominal size.
    pub size: String,
    /// Where the size came from.
    pub size_basis: BasisView,
    /// Metal cross-section [mm²].
    pub metal_mm2: f64,
    /// Length one way [m].
    pub metres: f64,
    /// Where the length came from.
    pub length_basis: BasisView,
    /// Insulation class.
    pub insulation: String,
    /// Where the insulation class came from.
    pub insulation_basis: BasisView,
    /// What the insulation bears for ever [°C].
    pub limit_celsius: f64,
    /// `open`, `bundle`, `foam`, `cavity` or `conduit`.
    pub run: &'static str,
    /// Loaded conductors side by side, itself included.
    pub bundle: u32,
    /// Air around it [°C].
    pub air_celsius: f64,
    /// Resistance of the metal at 20 °C [Ω].
    pub ohms_at_20: f64,
    /// Resistance of both end joints [Ω].
    pub joint_ohms: f64,
    /// What it bears for ever where it runs.
    pub ampacity: AmpacityView,
    /// The state in which it is hottest.
    pub worst_state: Option<String>,
    /// In each state.
    pub states: Vec<ConductorInState>,
    /// What protects it against each source.
    pub guards: Vec<GuardView>,
}

/// Current a conductor bears for ever.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AmpacityView {
    /// The value in force [A].
    pub amps: f64,
    /// By its heat balance [A].
    pub computed_amps: f64,
    /// By the published table with its factors [A].
    pub table_amps: Option<f64>,
    /// Which table.
    pub table: Option<SourceView>,
}

/// A conductor in one state.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ConductorInState {
    /// State id.
    pub state: String,
    /// Positive from start to end [A].
    pub amps: f64,
    /// Metal [°C].
    pub celsius: f64,
    /// Lost along it [V].
    pub drop_volts: f64,
    /// Heat in it and its joints [W].
    pub watts: f64,
}

/// What stands between one source and a conductor.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct GuardView {
    /// The source.
    pub source: String,
    /// The device every path from the source must pass.
    pub device: Option<String>,
    /// Length of the way from the source that passes no device [m].
    pub bare_metres: Option<f64>,
    /// Most the source can push by itself for long [A].
    pub self_limited_amps: Option<f64>,
    /// What the device lets the conductor come to.
    pub overload: Option<OverloadView>,
}

/// The slow overload region of a device over a conductor.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OverloadView {
    /// Metal at the current the device carries for ever [°C].
    pub carried_for_ever_celsius: f64,
    /// Hottest metal where opening may take hours [°C].
    pub slow_region_celsius: f64,
    /// Hottest metal up to certain opening, over all larger currents [°C].
    pub fast_region_celsius: f64,
    /// The current that makes it so hot [A].
    pub fast_region_amps: f64,
}

impl ConductorView {
    /// The same as plain data.
    pub fn of(wire: &WireResult, assessment: &Assessment) -> Self {
        Self {
            id: wire.id.to_string(),
            label: wire.label.clone(),
            from: terminal(&wire.from),
            to: terminal(&wire.to),
            side: side(wire.side),
            supplied: wire.supplied,
            size: wire.size.value.to_string(),
            size_basis: BasisView::of(&wire.size.basis),
            metal_mm2: wire.metal.square_millimetres(),
            metres: wire.length.value.metres(),
            length_basis: BasisView::of(&wire.length.basis),
            insulation: wire.insulation.value.clone(),
            insulation_basis: BasisView::of(&wire.insulation.basis),
            limit_celsius: wire.limit.celsius(),
            run: run(wire.run.value),
            bundle: wire.bundle.value,
            air_celsius: wire.air.value.celsius(),
            ohms_at_20: wire.resistance_20.ohms(),
            joint_ohms: wire.joints.ohms(),
            ampacity: AmpacityView::of(&wire.ampacity),
            worst_state: wire
                .worst
                .and_then(|w| Some(state_id(&assessment.states.get(w)?.kind))),
            states: in_states(wire, assessment),
            guards: wire
                .guards
                .iter()
                .map(|g| GuardView::of(g, assessment))
                .collect(),
        }
    }
}

impl AmpacityView {
    fn of(ampacity: &Ampacity) -> Self {
        let table = ampacity.table.as_ref();
        Self {
            amps: ampacity.in_force.amperes(),
            computed_amps: ampacity.computed.amperes(),
            table_amps: table.map(|t| t.current.amperes()),
            table: table.map(|t| SourceView::of(t.source)),
        }
    }
}

impl GuardView {
    fn of(guard: &Guard, assessment: &Assessment) -> Self {
        Self {
            source: guard.source.to_string(),
            device: guard.device.and_then(|d| device_id(assessment, d)),
            bare_metres: guard.bare_length.map(|l| l.metres()),
            self_limited_amps: guard.self_limited.map(|a| a.amperes()),
            overload: guard.overload.as_ref().map(OverloadView::of),
        }
    }
}

impl OverloadView {
    fn of(overload: &Overload) -> Self {
        Self {
            carried_for_ever_celsius: overload.carried_for_ever.celsius(),
            slow_region_celsius: overload.slow_region.celsius(),
            fast_region_celsius: overload.fast_region.celsius(),
            fast_region_amps: overload.fast_region_amps.amperes(),
        }
    }
}

fn in_states(wire: &WireResult, assessment: &Assessment) -> Vec<ConductorInState> {
    let pairs = assessment.states.iter().zip(&wire.states);
    pairs
        .map(|(state, there)| in_state(state_id(&state.kind), there))
        .collect()
}

fn in_state(state: String, there: &WireInState) -> ConductorInState {
    ConductorInState {
        state,
        amps: there.amps.amperes(),
        celsius: there.temperature.celsius(),
        drop_volts: there.drop.volts(),
        watts: there.power.watts(),
    }
}

/// Word for where a conductor runs.
pub fn run(run: Run) -> &'static str {
    match run {
        Run::Open => "open",
        Run::Bundle => "bundle",
        Run::Foam => "foam",
        Run::Cavity => "cavity",
        Run::Conduit => "conduit",
    }
}
