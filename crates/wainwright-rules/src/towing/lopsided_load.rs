//! `lopsided-load`: one side of the trailer is heavier than the other by more than was allowed. Not
//! here: tyres and axles over their rating (`rating-exceeded`).

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, road};
use wainwright_analysis::Assessment;
use wainwright_model::Project;
use wainwright_units::Mass;

/// The rule.
pub(crate) struct LopsidedLoad;

static DOC: RuleDoc = RuleDoc {
    id: "lopsided-load",
    title: "One side of the trailer is too heavy",
    worst: Severity::Caution,
    what: "In some state the left and the right wheels differ by more than the limit the builder set.",
    why: "The heavier side wears its tyre and spring, brakes differently, and leans the trailer towards the ditch.",
    example: "Battery and water both on the right: 102 lb more on the right wheel than on the left, 60 lb was the limit.",
    what_to_do: "Move something heavy across, or put two heavy things opposite each other.",
    sources: &["The limit is the builder's own; common practice, no source."],
};

impl Rule for LopsidedLoad {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let found = &assessment.road;
        let (Some(worst), Some(limit), true) =
            (found.worst, &found.aims.side_difference, found.begun)
        else {
            return Vec::new();
        };
        let index = worst.most_difference;
        let difference = found.states.get(index).map(|s| s.side_difference());
        let over = |d: &Mass| limits::above(d.abs().kilograms(), limit.value.kilograms());
        let Some(difference) = difference.filter(over) else {
            return Vec::new();
        };
        let system = limits::system(project);
        let heavy = if difference.kilograms() > 0.0 {
            "left"
        } else {
            "right"
        };
        let headline = format!(
            "The {heavy} wheels carry {} more than the others{}; {} is the limit.",
            road::mass(difference.abs(), system),
            road::state(project, found, index),
            road::mass(limit.value, system),
        );
        vec![
            Finding::new(DOC.id, Severity::Caution, Subject::Trailer, headline).over(
                road::weight("Δm", difference.abs(), system),
                road::allowed("Δm_max", limit, system),
            ),
        ]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
