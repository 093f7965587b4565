//! `not-selective`: a fault in one circuit may open a fuse that feeds others
//! too. One finding for each fuse that should open. Not here: whether the fault is
//! ended at all (`short-never-cleared`).

use crate::finding::{Finding, Subject};
use crate::remedy::fuses;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{names, subjects, words};
use std::collections::{BTreeMap, BTreeSet};
use wainwright_analysis::result::{Assessment, DeviceResult, FaultEnd};
use wainwright_model::Project;

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
        pairs(assessment)
            .into_iter()
            .filter_map(|(near, far)| find_one(assessment, project, near, &far))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let device = subjects::device(finding, assessment);
        Remedy::some(device.map(|device| fuses::down(project, device)).into_iter().collect())
    }
}

/// Each device that should open, with those that may open instead.
fn pairs(assessment: &Assessment) -> BTreeMap<usize, BTreeSet<usize>> {
    let mut pairs: BTreeMap<usize, BTreeSet<usize>> = BTreeMap::new();
    let ends = assessment.faults.iter().flat_map(|fault| [&fault.largest, &fault.smallest]);
    for end in ends.filter(|end| end.selective == Some(false)) {
        if let Some(near) = end.should_open {
            pairs.entry(near).or_default().extend(rivals(end, near));
        }
    }
    pairs
}

/// Devices that may be open before `near` certainly is.
fn rivals(end: &FaultEnd, near: usize) -> Vec<usize> {
    let latest = end.openings.iter().find(|o| o.device == near).and_then(|o| o.latest);
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
    near: usize,
    far: &BTreeSet<usize>,
) -> Option<Finding> {
    let near = assessment.devices.get(near)?;
    let far: Vec<&DeviceResult> =
        far.iter().filter_map(|index| assessment.devices.get(*index)).collect();
    let names: Vec<String> =
        far.iter().map(|device| format!("the {}", names::device(project, device))).collect();
    if far.is_empty() {
        return None;
    }
    let headline = format!(
        "A short behind the {} may open {} as well.",
        names::device(project, near),
        words::list(&names, 3),
    );
    let subject = Subject::device(&near.item, near.way);
    let mut finding = Finding::new(DOC.id, Severity::Notice, subject, headline);
    for device in far {
        finding = finding
            .also(Subject::device(&device.item, device.way))
            .note(times(near, device));
    }
    Some(finding)
}

fn times(near: &DeviceResult, far: &DeviceResult) -> String {
    let ratio = far.rating.value.amperes() / near.rating.value.amperes().max(1e-9);
    format!(
        "Ratings of {} and {} are a ratio of {ratio:.1}; fuses of one family need about 2.",
        words::amps(near.rating.value),
        words::amps(far.rating.value),
    )
}
