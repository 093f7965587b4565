//! `fuse-too-small`: the working current is above the rating. Not here: loads
//! near the rating (`fuse-run-hard`).

use crate::finding::{Finding, Subject};
use crate::remedy::{fuses, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, subjects, words};
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, DeviceResult};
use wainwright_model::Project;
use wainwright_units::Current;

/// The rule.
pub(crate) struct FuseTooSmall;

static DOC: RuleDoc = RuleDoc {
    id: "fuse-too-small",
    title: "A fuse opens in normal use",
    worst: Severity::Warning,
    what: "In a state that can last, more current flows through a fuse or breaker than it is \
           rated for.",
    why: "It opens sooner or later, in the dark and far from a shop, and somebody fits a larger \
          one that the wire does not bear.",
    example: "Everything on draws 34 A through the 30 A main fuse.",
    what_to_do: "Fit a larger fuse where the wires bear it, else thicker wire as well; or split \
                 the load over two circuits.",
    sources: &[
        "A fuse carries its rating for ever, above it opening is a matter of time: \
                protection/gates.",
    ],
};

impl Rule for FuseTooSmall {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let devices = assessment.devices.iter();
        devices
            .filter_map(|device| find_one(assessment, project, device))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let Some(device) = subjects::device(finding, assessment) else {
            return Vec::new();
        };
        let larger = fuses::up(project, device);
        let thicker = sizes::thicker(assessment, &limits::protects(assessment, device));
        let both = fuses::both(
            &fuses::enough(&larger, device, most(assessment, device)),
            &thicker,
        );
        Remedy::some(vec![larger, both])
    }
}

/// The largest current over lasting states, with its state.
fn most(assessment: &Assessment, device: &DeviceResult) -> Option<(usize, Current)> {
    limits::lasting(assessment)
        .filter_map(|index| device.states.get(index).map(|s| (index, s.amps)))
        .max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)))
}

fn find_one(assessment: &Assessment, project: &Project, device: &DeviceResult) -> Option<Finding> {
    let (state, amps) = most(assessment, device)?;
    if !limits::above(amps.amperes(), device.rating.value.amperes()) {
        return None;
    }
    let (carried, rated) = words::currents(amps, device.rating.value);
    let headline = format!(
        "{} opens in normal use: {carried} flows through it {}, it is rated {rated}.",
        words::capital(&names::device(project, device)),
        names::state(assessment, state),
    );
    let rating = crate::finding::Amount::based(
        "I_n",
        device.rating.value.amperes(),
        words::amps(device.rating.value),
        &device.rating.basis,
    );
    let subject = Subject::device(&device.item, device.way);
    Some(
        Finding::new(DOC.id, Severity::Warning, subject, headline)
            .over(limits::current("I", amps), rating)
            .asking(Ask::DeviceShare {
                item: device.item.to_string(),
                way: device.way,
                state,
            }),
    )
}
