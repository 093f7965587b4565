//! `fuse-run-hard`: a long-lasting load too near a fuse's rating. Not here:
//! loads above the rating (`fuse-too-small`).

use crate::finding::{Amount, Finding, Subject};
use crate::remedy::{fuses, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, subjects, words};
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, DeviceResult};
use wainwright_model::Project;
use wainwright_units::Ratio;

/// The rule.
pub(crate) struct FuseRunHard;

static DOC: RuleDoc = RuleDoc {
    id: "fuse-run-hard",
    title: "A fuse carries a long-lasting load too near its rating",
    worst: Severity::Caution,
    what: "A fuse or breaker carries a load that lasts three hours or more at more than 80 % of \
           its rating (or the share set in the project).",
    why: "A fuse near its rating runs hot, heats its holder and the ends of its wires, ages, and \
          opens one hot afternoon without any fault.",
    example: "A fridge and a heater draw 13.5 A through a 15 A fuse for hours: 90 %.",
    what_to_do: "Fit the next larger fuse where the wire bears it; otherwise thicker wire as \
                 well, or split the load.",
    sources: &["limit/ratios", "protection/hot_place"],
};

impl Rule for FuseRunHard {
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
        let both = fuses::both(&larger, &thicker);
        Remedy::some(vec![larger, both])
    }
}

fn find_one(assessment: &Assessment, project: &Project, device: &DeviceResult) -> Option<Finding> {
    let (amps, state) = device.continuous_amps?;
    // In a hot cabinet less of its rating is left.
    let rating = device.rating.value.amperes() * device.warm_share.fraction();
    if rating <= 0.0 || limits::above(amps.amperes(), rating) {
        return None;
    }
    let share = Ratio::from_fraction(amps.amperes() / rating);
    let limit = &assessment.limits.continuous_share;
    if !limits::above(share.fraction(), limit.value.fraction()) {
        return None;
    }
    let (part, most) = words::percents(share, limit.value);
    let warm = device
        .air
        .as_ref()
        .filter(|_| device.warm_share < Ratio::ONE);
    let of = warm.map_or(
        "its rating",
        |_| "what is left of its rating in its cabinet",
    );
    let headline = format!(
        "{} carries {} for hours, {part} of {of}; for so long {most} is the most it should.",
        words::capital(&names::device(project, device)),
        words::amps(amps),
    );
    let subject = Subject::device(&device.item, device.way);
    let mut finding = Finding::new(DOC.id, Severity::Caution, subject, headline);
    if let Some(air) = warm {
        finding = finding.note(format!(
            "The air there gets to {}: {} of its rating is left.",
            words::air(air.value, limits::system(project)),
            words::percent(device.warm_share)
        ));
    }
    Some(
        finding
            .over(
                Amount::computed("I/I_n", share.fraction(), words::percent(share)),
                limits::share("I/I_n", limit),
            )
            .note(format!("This is {}.", names::state(assessment, state)))
            .asking(Ask::DeviceShare {
                item: device.item.to_string(),
                way: device.way,
                state,
            }),
    )
}
