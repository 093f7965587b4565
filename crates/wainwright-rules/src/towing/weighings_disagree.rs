//! `weighings-disagree`: weighings contradict each other or the model. Not
//! here: taking them over.

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_model::Project;

/// The rule.
pub(crate) struct WeighingsDisagree;

static DOC: RuleDoc = RuleDoc {
    id: "weighings-disagree",
    title: "The weighings contradict each other",
    worst: Severity::Caution,
    what: "The readings of all weighings together do not fit one bare trailer within the accuracy of the scales.",
    why: "Something was aboard that the file does not know, stands elsewhere, or a reading is wrong; every figure of the road rests on it.",
    example: "The tongue was 53 lb with the tank full; the other readings make it 97 lb.",
    what_to_do: "Look at the reading that is furthest off: was the tank full, was somebody aboard, was it level? Weigh once more.",
    sources: &[
        "Least squares with the accuracy of each scale; a reading beyond three standard deviations or a chi-squared above three for each degree of freedom is judgement.",
    ],
};

impl Rule for WeighingsDisagree {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, _: &Project) -> Vec<Finding> {
        let shell = assessment.road.shell_found.as_ref();
        let Some(shell) = shell.filter(|shell| shell.contradiction.is_some()) else {
            return Vec::new();
        };
        let worst = shell.worst.as_ref();
        let off = worst.and_then(|id| shell.readings.iter().find(|r| &r.weighing == id));
        let headline = match (worst, off) {
            (Some(id), Some(off)) => format!(
                "The weighings contradict each other; {id} is furthest off, by {:.1} times its accuracy.",
                off.sigmas.abs()
            ),
            _ => "The weighings contradict each other.".to_string(),
        };
        let subject = worst.map_or(Subject::Trailer, |id| Subject::Weighing(id.clone()));
        vec![Finding::new(DOC.id, Severity::Caution, subject, headline)]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
