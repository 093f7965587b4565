//! `tips-on-its-tail`: the uncoupled trailer tips on its tail when people step in. Not
//! here: driving.

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, road};
use wainwright_analysis::Assessment;
use wainwright_model::Project;

/// The rule.
pub(crate) struct TipsOnItsTail;

static DOC: RuleDoc = RuleDoc {
    id: "tips-on-its-tail",
    title: "The uncoupled trailer tips on its tail",
    worst: Severity::Warning,
    what: "With people aboard where they are said to be, the load at the coupler of the uncoupled trailer is below zero.",
    why: "The tail drops and the drawbar flies up: whoever stands in or behind it is hurt.",
    example: "185 lb at the coupler; two people at the rear door take 190 lb away.",
    what_to_do: "Put stands under the rear corners before anybody steps in, or keep it coupled. Stands under the frame, on firm ground.",
    sources: &[
        "Moments about the axle: the tongue load less what people behind the axle take away.",
    ],
};

impl Rule for TipsOnItsTail {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let found = &assessment.road;
        if !found.begun {
            return Vec::new();
        }
        let parked = found
            .fill_states()
            .filter_map(|(index, state)| Some((index, state.parked?)));
        let worst = parked.min_by(|a, b| a.1.nose.total_cmp(&b.1.nose));
        let Some((index, parked)) = worst.filter(|(_, p)| p.nose.kilograms() < 0.0) else {
            return Vec::new();
        };
        let system = limits::system(project);
        let headline = format!(
            "The uncoupled trailer tips on its tail with everybody aboard{}: {} is missing at the coupler.",
            road::state(project, found, index),
            road::mass(parked.nose.abs(), system),
        );
        vec![
            Finding::new(DOC.id, Severity::Warning, Subject::Trailer, headline).note(
                "Stands under the rear corners of the frame, on firm ground, before anybody steps in.",
            ),
        ]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
