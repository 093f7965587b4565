//! `does-not-fit-cabinet`: a device is deeper than its cabinet, or stands outside of it. Not here: two in one place.

use crate::finding::{Amount, Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::cabinets;
use wainwright_analysis::result::cabinet::{CabinetDevice, CabinetResult};
use wainwright_model::Project;

/// The rule.
pub(crate) struct DoesNotFitCabinet;

static DOC: RuleDoc = RuleDoc {
    id: "does-not-fit-cabinet",
    title: "A device does not fit its cabinet",
    worst: Severity::Warning,
    what: "A device reaches deeper behind the face, with room for its wires to bend, than the cabinet is deep; or a device that the cabinet holds sticks out of it.",
    why: "It shows when the hole is cut: the device stands off, or its wires are bent sharply at the terminals.",
    example: "A charger of 8 in with 3 in for its wires behind the face of a cabinet 10 in deep.",
    what_to_do: "A deeper cabinet, another place for the device, or the board inside instead of the face.",
    sources: &["Geometry of the project itself."],
};

impl Rule for DoesNotFitCabinet {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, _: &Assessment, project: &Project) -> Vec<Finding> {
        let mut found = Vec::new();
        for cabinet in cabinets::study(project, None) {
            for device in &cabinet.devices {
                found.extend(find_one(project, &cabinet, device));
            }
        }
        found
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}

fn find_one(project: &Project, cabinet: &CabinetResult, device: &CabinetDevice) -> Option<Finding> {
    let system = limits::system(project);
    let name = words::capital(&names::item(project, &device.item));
    let subject = Subject::Item(device.item.clone());
    if let Some(depth) = device.depth.filter(|depth| !depth.fits) {
        let (needed, there) = (
            words::length(depth.needed, system),
            words::length(depth.there, system),
        );
        let headline = format!(
            "{name} needs {needed} behind the face of {}, its wires counted; there are {there}.",
            cabinet.label
        );
        let value = Amount::computed("d", depth.needed.metres(), needed);
        let limit = Amount::computed("d", depth.there.metres(), there);
        return Some(Finding::new(DOC.id, Severity::Warning, subject, headline).over(value, limit));
    }
    (device.inside == Some(false)).then(|| {
        let headline = format!(
            "{name} is said to be in {}, but by its place and size it sticks out of it.",
            cabinet.label
        );
        Finding::new(DOC.id, Severity::Caution, subject, headline)
    })
}
