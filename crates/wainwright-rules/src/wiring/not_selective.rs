//! `not-selective`: a fault in one circuit may open a fuse that feeds others
//! too. One finding for each fuse that may open needlessly. Not here: whether the fault is
//! ended at all (`short-never-cleared`).

use crate::finding::{Finding, Subject};
use crate::remedy::fuses;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{names, subjects, words};
use std::collections::{BTreeMap, BTreeSet};
use wainwright_analysis::result::{Assessment, DeviceResult, FaultEnd};
use wainwright_model::Project;
use wainwright_units::Current;

/// The rule.
pub(crate) struct NotSelective;

static DOC: RuleDoc = RuleDoc {
    id: "not-selective",
    title: "A fault in one circuit may switch off others too",
    worst: Severity::Notice,
    what: "For a short circuit somewhere, the fuse nearest to it does not certainly open before \
           a fuse nearer the battery.",
    why: "Both may open. The fault is ended, nobody is hurt, but the lights go out with the pump \
          and a large fuse has to be replaced.",
    example: "A 30 A branch fuse behind a 40 A main fuse of the same kind: a short opens either.",
    what_to_do: "Keep the main fuse at least twice the largest branch fuse, or of a slower \
                 family. Where that cannot be, carry a spare of both.",
    sources: &["protection/gates", "limit/ratios"],
};

impl Rule for NotSelective {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        rivals(assessment)
            .into_iter()
            .filter_map(|(far, near)| find_one(assessment, project, far, &near))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let device = subjects::device(finding, assessment);
        let (Some(device), Some(volts)) = (device, assessment.system_volts.as_ref()) else {
            return Vec::new();
        };
        let fault = device.largest_fault.unwrap_or(Current::from_amperes(0.0));
        Remedy::some(vec![
            fuses::up(project, device),
            fuses::other_family(project, device, fault, volts.value),
        ])
    }
}

/// Each device that may open although another should, with those others.
fn rivals(assessment: &Assessment) -> BTreeMap<usize, BTreeSet<usize>> {
    let mut rivals: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
    let ends = assessment
        .faults
        .iter()
        .flat_map(|fault| [&fault.largest, &fault.smallest]);
    for end in ends.filter(|end| end.selective == Some(false)) {
        let Some(near) = end.should_open else {
            continue;
        };
        for far in open_too(end, near) {
            rivals.entry(far).or_default().insert(near);
        }
    }
    rivals
}

/// Devices that may be open before `near` certainly is.
fn open_too(end: &FaultEnd, near: usize) -> Vec<usize> {
    let latest = end
        .openings
        .iter()
        .find(|o| o.device == near)
        .and_then(|o| o.latest);
    end.openings
        .iter()
        .filter(|other| other.device != near)
        .filter(|other| latest.is_none_or(|latest| other.earliest.seconds() <= latest.seconds()))
        .map(|other| other.device)
        .collect()
}

fn find_one(
    assessment: &Assessment,
    project: &Project,
    far: usize,
    near: &BTreeSet<usize>,
) -> Option<Finding> {
    let far = assessment.devices.get(far)?;
    let near: Vec<&DeviceResult> = near
        .iter()
        .filter_map(|index| assessment.devices.get(*index))
        .collect();
    let largest = near
        .iter()
        .max_by(|a, b| a.rating.value.total_cmp(&b.rating.value))?;
    let behind = match near.len() {
        1 => format!("behind {}", names::device(project, largest)),
        many => format!("behind any of {}", words::counted(many, "smaller fuse")),
    };
    let headline = format!(
        "A short circuit {behind} may open {} as well: all it feeds goes dark.",
        names::device(project, far),
    );
    let subject = Subject::device(&far.item, far.way);
    let mut finding = Finding::new(DOC.id, Severity::Notice, subject, headline)
        .note(times(project, largest, far));
    for device in near {
        finding = finding.also(Subject::device(&device.item, device.way));
    }
    Some(finding)
}

fn times(project: &Project, near: &DeviceResult, far: &DeviceResult) -> String {
    let ratio = far.rating.value.amperes() / near.rating.value.amperes().max(1e-9);
    format!(
        "Its rating is {ratio:.1} times that of {}. Fuses of one family need about twice, and more \
         where the battery is strong.",
        names::device(project, near),
    )
}
