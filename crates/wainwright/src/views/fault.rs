//! Short circuits, as plain data.

use super::device::device_id;
use super::state::terminal;
use serde::Serialize;
use wainwright_analysis::result::{Assessment, FaultEnd, FaultResult, Opening, Stress};

/// A short circuit at one live node.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FaultView {
    /// Node number.
    pub node: usize,
    /// A terminal to name it by.
    pub at: String,
    /// Conductors that end there.
    pub conductors: Vec<String>,
    /// With every source at its strongest.
    pub largest: FaultEndView,
    /// With weak sources and hot conductors.
    pub smallest: FaultEndView,
}

/// One end of the range of a fault.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FaultEndView {
    /// At its start [A].
    pub amps: f64,
    /// `cleared`, `not-cleared`, `beyond-interrupt` (a device would have to
    /// open more than it can) or `damage` (insulation does not survive).
    pub verdict: &'static str,
    /// Dead not before and not after [s]; none when it may never be.
    pub cleared_seconds: Option<[f64; 2]>,
    /// Devices that open, in order.
    pub openings: Vec<OpeningView>,
    /// Conductors that suffer most, worst first.
    pub stresses: Vec<StressView>,
    /// The device that should have opened first.
    pub should_open: Option<String>,
    /// Whether it certainly does.
    pub selective: Option<bool>,
}

/// One device opening.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OpeningView {
    /// Device id.
    pub device: String,
    /// Through it at the start [A].
    pub amps: f64,
    /// Not before [s].
    pub earliest_seconds: f64,
    /// Not after [s]; none when that is not guaranteed.
    pub latest_seconds: Option<f64>,
    /// More than it can interrupt.
    pub beyond_interrupt: bool,
}

/// What a fault does to one conductor.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StressView {
    /// Conductor id.
    pub conductor: String,
    /// In it [A].
    pub amps: f64,
    /// Hottest metal [°C].
    pub celsius: f64,
    /// Whether its insulation survives.
    pub survives: bool,
}

impl FaultView {
    /// The same as plain data.
    pub fn of(fault: &FaultResult, assessment: &Assessment) -> Self {
        let ends_there = fault.wires.iter().filter_map(|w| wire_id(assessment, *w));
        Self {
            node: fault.node,
            at: terminal(&fault.at),
            conductors: ends_there.collect(),
            largest: FaultEndView::of(&fault.largest, assessment),
            smallest: FaultEndView::of(&fault.smallest, assessment),
        }
    }
}

impl FaultEndView {
    /// The same as plain data.
    pub fn of(end: &FaultEnd, assessment: &Assessment) -> Self {
        Self {
            amps: end.amps.amperes(),
            verdict: verdict(end),
            cleared_seconds: end.cleared.map(|(a, b)| [a.seconds(), b.seconds()]),
            openings: end
                .openings
                .iter()
                .filter_map(|o| opening(o, assessment))
                .collect(),
            stresses: end
                .stresses
                .iter()
                .filter_map(|s| stress(s, assessment))
                .collect(),
            should_open: end.should_open.and_then(|d| device_id(assessment, d)),
            selective: end.selective,
        }
    }
}

fn opening(opening: &Opening, assessment: &Assessment) -> Option<OpeningView> {
    Some(OpeningView {
        device: device_id(assessment, opening.device)?,
        amps: opening.amps.amperes(),
        earliest_seconds: opening.earliest.seconds(),
        latest_seconds: opening.latest.map(|t| t.seconds()),
        beyond_interrupt: opening.beyond_interrupt,
    })
}

fn stress(stress: &Stress, assessment: &Assessment) -> Option<StressView> {
    Some(StressView {
        conductor: wire_id(assessment, stress.wire)?,
        amps: stress.amps.amperes(),
        celsius: stress.hottest.celsius(),
        survives: stress.survives,
    })
}

/// The first of the things that go wrong, in the order in which they would:
/// nothing opens, a device bursts, insulation is spoilt.
fn verdict(end: &FaultEnd) -> &'static str {
    if end.cleared.is_none() {
        "not-cleared"
    } else if end.openings.iter().any(|o| o.beyond_interrupt) {
        "beyond-interrupt"
    } else if end.stresses.iter().any(|s| !s.survives) {
        "damage"
    } else {
        "cleared"
    }
}

fn wire_id(assessment: &Assessment, index: usize) -> Option<String> {
    assessment.wires.get(index).map(|w| w.id.to_string())
}
