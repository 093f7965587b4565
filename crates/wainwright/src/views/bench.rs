//! One wire or one joint tried without a project, as plain data.

use super::basis::SourceView;
use super::working::WorkingView;
use serde::Serialize;
use wainwright_analysis::quick::{JointVerdict, QuickJoint, QuickWire, WireQuestion};

/// What can be said about one wire.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WireBenchView {
    /// Nominal size.
    pub size: String,
    /// Insulation class.
    pub insulation: String,
    /// Current [A].
    pub amps: f64,
    /// Length one way [m].
    pub metres: f64,
    /// Whether drop and heat are for the way there and back.
    pub both_ways: bool,
    /// Voltage lost [V].
    pub drop_volts: f64,
    /// The same as a share of system voltage.
    pub drop_share: f64,
    /// Resistance as hot as it gets [Ω].
    pub ohms: f64,
    /// Heat made in it [W].
    pub watts: f64,
    /// Settled temperature of the metal [°C].
    pub celsius: f64,
    /// What the insulation bears for ever [°C].
    pub limit_celsius: f64,
    /// Air around it [°C].
    pub air_celsius: f64,
    /// What it bears for ever there [A].
    pub ampacity_amps: f64,
    /// By its heat balance [A].
    pub computed_ampacity_amps: f64,
    /// By the published table with its factors [A].
    pub table_ampacity_amps: Option<f64>,
    /// Which table.
    pub table: Option<SourceView>,
    /// Largest standard blade fuse that protects it [A].
    pub largest_fuse_amps: Option<f64>,
    /// How the numbers came about.
    pub working: WorkingView,
}

/// What can be said about one joint.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct JointBenchView {
    /// [Ω]
    pub ohms: f64,
    /// [A]
    pub amps: f64,
    /// Voltage lost [V].
    pub drop_volts: f64,
    /// Heat made [W].
    pub watts: f64,
    /// `cool`, `warm` (too much for a small terminal) or `hot` (too much for any joint).
    pub verdict: &'static str,
    /// Heat a small terminal may make [W].
    pub small_limit_watts: f64,
    /// Heat a large lug may make [W].
    pub large_limit_watts: f64,
    /// How the numbers came about.
    pub working: WorkingView,
}

impl WireBenchView {
    /// The same as plain data.
    pub fn of(question: &WireQuestion, wire: &QuickWire) -> Self {
        let table = wire.ampacity.table.as_ref();
        Self {
            size: question.size.to_string(),
            insulation: question.insulation.clone(),
            amps: question.current.amperes(),
            metres: question.length.metres(),
            both_ways: question.both_ways,
            drop_volts: wire.drop.volts(),
            drop_share: wire.drop_share.fraction(),
            ohms: wire.resistance.ohms(),
            watts: wire.heat.watts(),
            celsius: wire.temperature.celsius(),
            limit_celsius: wire.limit.celsius(),
            air_celsius: wire.air.celsius(),
            ampacity_amps: wire.ampacity.in_force.amperes(),
            computed_ampacity_amps: wire.ampacity.computed.amperes(),
            table_ampacity_amps: table.map(|t| t.current.amperes()),
            table: table.map(|t| SourceView::of(t.source)),
            largest_fuse_amps: wire.largest_fuse.map(|a| a.amperes()),
            working: WorkingView::of(&wire.steps),
        }
    }
}

impl JointBenchView {
    /// The same as plain data; `ohms` and `amps` are what was asked.
    pub fn of(ohms: f64, amps: f64, joint: &QuickJoint) -> Self {
        Self {
            ohms,
            amps,
            drop_volts: joint.drop.volts(),
            watts: joint.heat.watts(),
            verdict: verdict(joint.verdict),
            small_limit_watts: joint.small_limit.watts(),
            large_limit_watts: joint.large_limit.watts(),
            working: WorkingView::of(&joint.steps),
        }
    }
}

fn verdict(verdict: JointVerdict) -> &'static str {
    match verdict {
        JointVerdict::Cool => "cool",
        JointVerdict::Warm => "warm",
        JointVerdict::Hot => "hot",
    }
}
