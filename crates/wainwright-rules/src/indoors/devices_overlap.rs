//! `devices-overlap`: two devices are mounted on the same part of a face or board. Not here: things in the same place
//! anywhere in the box (`things-collide`).

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{names, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::cabinets;
use wainwright_model::Project;

/// The rule.
pub(crate) struct DevicesOverlap;

static DOC: RuleDoc = RuleDoc {
    id: "devices-overlap",
    title: "Two devices are on the same part of a face",
    worst: Severity::Warning,
    what: "Seen from before the cabinet, two devices that are mounted on its face, or both on the board inside, cover each other.",
    why: "The second hole meets the first one: the board is spoiled.",
    example: "A monitor of 3 x 3 in whose lower edge is 1 in below the top of the switch panel.",
    what_to_do: "Move one of them; the drawing of the face shows which way there is room.",
    sources: &["Geometry of the project itself."],
};

impl Rule for DevicesOverlap {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, _: &Assessment, project: &Project) -> Vec<Finding> {
        let mut found = Vec::new();
        for cabinet in cabinets::study(project, None) {
            for (one, other) in &cabinet.overlaps {
                let headline = format!(
                    "{} and {} cover each other on the face of {}.",
                    words::capital(&names::item(project, one)),
                    names::item(project, other),
                    cabinet.label
                );
                let subject = Subject::Item(one.clone());
                let finding = Finding::new(DOC.id, Severity::Warning, subject, headline);
                found.push(finding.also(Subject::Item(other.clone())));
            }
        }
        found
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
