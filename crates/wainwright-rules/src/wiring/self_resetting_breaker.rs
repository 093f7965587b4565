//! `self-resetting-breaker`: a breaker that closes again by itself. Not
//! here: its rating (`oversized-fuse`).

use crate::finding::{Finding, Subject};
use crate::remedy::fuses;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, subjects, words};
use wainwright_analysis::result::{Assessment, DeviceResult, Reclose, WireResult};
use wainwright_model::Project;

/// The rule.
pub(crate) struct SelfResettingBreaker;

static DOC: RuleDoc = RuleDoc {
    id: "self-resetting-breaker",
    title: "A breaker closes again by itself",
    worst: Severity::Warning,
    what: "A breaker with automatic reset protects conductors as the smallest device between \
           them and a source.",
    why: "On a lasting fault it opens, cools and closes again for hours. Each turn heats the wire \
          further and makes sparks at the fault, with nobody near. Its contacts weld shut after \
          some hundred turns.",
    example: "A 20 A automatic breaker feeds the charge line: a chafed wire makes it cycle every \
              ten seconds all night.",
    what_to_do: "Use a fuse or a breaker that stays open until a person resets it.",
    sources: &[
        "SAE J553: type I resets by itself, type III by hand.",
        "33 CFR 183.455: manual reset, trip-free.",
    ],
};

impl Rule for SelfResettingBreaker {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let automatic = |device: &&DeviceResult| device.reclose == Reclose::Automatic;
        let devices = assessment.devices.iter().filter(automatic);
        devices
            .map(|device| about(assessment, project, device))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let device = subjects::device(finding, assessment);
        Remedy::some(
            device
                .map(|d| fuses::manual_reset(project, d))
                .into_iter()
                .collect(),
        )
    }
}

fn about(assessment: &Assessment, project: &Project, device: &DeviceResult) -> Finding {
    let guards = limits::protects(assessment, device);
    let alone = !guards.is_empty();
    let guarded = match guards.len() {
        0 => "a smaller fuse protects the wires".to_string(),
        _ => {
            let wires: Vec<&WireResult> = guards
                .iter()
                .filter_map(|index| assessment.wires.get(*index))
                .collect();
            format!("it is what protects {}", names::together(&wires, 4))
        }
    };
    let headline = format!(
        "{} closes again by itself while the fault is still there; {guarded}.",
        words::capital(&names::device(project, device))
    );
    let severity = if alone {
        Severity::Warning
    } else {
        Severity::Notice
    };
    let mut finding = Finding::new(
        DOC.id,
        severity,
        Subject::device(&device.item, device.way),
        headline,
    );
    for index in &guards {
        if let Some(wire) = assessment.wires.get(*index) {
            finding = finding.also(Subject::Wire(wire.id.clone()));
        }
    }
    finding
}
