//! Plain, serialisable shapes of everything that is shown: the machine form
//! of the command line and of the pages. They carry a version and are kept
//! apart from the assessment, so that it may change without breaking
//! anybody's scripts. Not here: arithmetic, and layout of any kind.
//!
//! Numbers are in the base unit their name ends with. The published schema
//! of [`Report`] is `docs/schema/report.json`.

pub mod basis;
pub mod bench;
pub mod cabinet;
pub mod conductor;
pub mod device;
pub mod energy;
pub mod fault;
pub mod finding;
pub mod gear;
pub mod indoors;
pub mod lining;
pub mod lists;
pub mod lists_report;
pub mod place;
pub mod plan;
pub mod plan_report;
pub mod road;
pub mod route;
pub mod settings;
pub mod state;
pub mod system;
pub mod working;

use crate::study::Study;
use conductor::ConductorView;
use device::DeviceView;
use fault::FaultView;
use finding::{FindingView, ProblemView, severity};
use gear::GearView;
use road::RoadView;
use serde::Serialize;
use state::{NodeView, StateView};
use system::{AssumptionView, JointView, MissingView, SystemView};
use wainwright_rules::Severity;

/// Version of [`Report`]. A field may be added without a new version; one
/// that is renamed, removed or means something else needs one.
pub const REPORT_VERSION: u32 = 1;

/// Everything there is to say about one project.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Report {
    /// [`REPORT_VERSION`].
    pub report: u32,
    /// Version of the program.
    pub program: &'static str,
    /// The file, when there is one.
    pub file: Option<String>,
    /// What the person calls the trailer.
    pub name: Option<String>,
    /// Number of findings of each severity, and the worst.
    pub summary: Summary,
    /// What could not be read as meant.
    pub problems: Vec<ProblemView>,
    /// What is wrong, worst first.
    pub findings: Vec<FindingView>,
    /// The wiring as a whole.
    pub system: SystemView,
    /// Operating states.
    pub states: Vec<StateView>,
    /// Electrical nodes with their voltages.
    pub nodes: Vec<NodeView>,
    /// Conductors.
    pub conductors: Vec<ConductorView>,
    /// Fuses and breakers.
    pub devices: Vec<DeviceView>,
    /// Gear that takes or gives power.
    pub gear: Vec<GearView>,
    /// Short circuits at every live node.
    pub faults: Vec<FaultView>,
    /// Joints and contacts.
    pub joints: Vec<JointView>,
    /// Terminals nothing is joined to.
    pub loose: Vec<String>,
    /// Gear joined the wrong way round.
    pub reversed: Vec<String>,
    /// Values nobody gave, with the stand-ins used.
    pub assumptions: Vec<AssumptionView>,
    /// Values without which part of the study was left out.
    pub missing: Vec<MissingView>,
    /// Weights, towing, placing and tie-down.
    pub road: RoadView,
}

/// Number of findings of each severity.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
pub struct Summary {
    /// The worst; null when there is none.
    pub worst: Option<&'static str>,
    /// Some text could not be read, so findings may be missing.
    pub incomplete: bool,
    /// Danger.
    pub danger: usize,
    /// Warning.
    pub warning: usize,
    /// Caution.
    pub caution: usize,
    /// Notice.
    pub notice: usize,
}

/// Whether the fixes of every finding are worked out for a report; that
/// takes many assessments.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fixes {
    /// Yes.
    Proven,
    /// No.
    LeftOut,
}

/// Everything there is to say about one project.
pub fn report(study: &Study, file: Option<&str>, fixes: Fixes) -> Report {
    let a = &study.assessment;
    let finding = |f| FindingView::of(f, study, fixes);
    Report {
        report: REPORT_VERSION,
        program: env!("CARGO_PKG_VERSION"),
        file: file.map(str::to_owned),
        name: study.project.head.name.as_ref().map(|n| n.value.clone()),
        summary: summary(study),
        problems: study.problems.iter().map(ProblemView::of).collect(),
        findings: study.findings.iter().map(finding).collect(),
        system: SystemView::of(a),
        states: a.states.iter().map(StateView::of).collect(),
        nodes: state::nodes(a),
        conductors: a.wires.iter().map(|w| ConductorView::of(w, a)).collect(),
        devices: a.devices.iter().map(|d| DeviceView::of(d, a)).collect(),
        gear: a.consumers.iter().map(|c| GearView::of(c, a)).collect(),
        faults: a.faults.iter().map(|f| FaultView::of(f, a)).collect(),
        joints: a.joints.iter().map(|j| JointView::of(j, a)).collect(),
        loose: a
            .loose
            .iter()
            .map(|l| format!("{}.{}", l.item, l.terminal))
            .collect(),
        reversed: a.reversed.iter().map(ToString::to_string).collect(),
        assumptions: system::assumptions(a),
        missing: system::missing(a),
        road: RoadView::of(&a.road, &study.project),
    }
}

/// Number of findings of each severity, and the worst.
pub fn summary(study: &Study) -> Summary {
    let count = |s: Severity| study.findings.iter().filter(|f| f.severity == s).count();
    Summary {
        worst: study.worst().map(severity),
        incomplete: study.is_incomplete(),
        danger: count(Severity::Danger),
        warning: count(Severity::Warning),
        caution: count(Severity::Caution),
        notice: count(Severity::Notice),
    }
}
