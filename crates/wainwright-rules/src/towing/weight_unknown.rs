//! `weight-unknown`: things whose mass or place nobody gave. Not
//! here: what the weights amount to.

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::road;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::road::Unsettled;
use wainwright_model::{Id, Project};

/// The rule.
pub(crate) struct WeightUnknown;

static DOC: RuleDoc = RuleDoc {
    id: "weight-unknown",
    title: "The mass or the place of things is not known",
    worst: Severity::Notice,
    what: "Things in the trailer have no mass or no place yet, so they are not in the weights.",
    why: "A forgotten 90 lb thing at the rear door can take 5 % off the share on the ball.",
    example: "The bed and 6 other things have no mass; the bed has no place either.",
    what_to_do: "Weigh them on a bathroom scale and type where they stand, the heaviest first.",
    sources: &["Common practice, no source."],
};

impl Rule for WeightUnknown {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let found = &assessment.road;
        if !found.begun || found.unsettled.is_empty() {
            return Vec::new();
        }
        let mut open: Vec<&Unsettled> = found.unsettled.iter().collect();
        let matter = |u: &Unsettled| u.mass.map_or(0.0, |mass| mass.kilograms());
        open.sort_by(|a, b| matter(b).total_cmp(&matter(a)));
        let ids: Vec<&Id> = open.iter().map(|u| &u.item).collect();
        let headline = format!(
            "The weights leave out {}: the mass or the place is not given.",
            road::items(project, &ids),
        );
        let finding = Finding::new(DOC.id, Severity::Notice, Subject::Trailer, headline);
        vec![
            ids.into_iter()
                .fold(finding, |f, id| f.also(Subject::Item(id.clone()))),
        ]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
