//! `not-held`: heavy things that nothing is said to hold. Not
//! here: whether what holds is strong enough (`weakly-held`).

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, road};
use wainwright_analysis::Assessment;
use wainwright_analysis::result::road::HoldResult;
use wainwright_model::{Hold, Id, Project};

/// The rule.
pub(crate) struct NotHeld;

static DOC: RuleDoc = RuleDoc {
    id: "not-held",
    title: "Nothing is said to hold a heavy thing",
    worst: Severity::Caution,
    what: "Things of some weight ride in the trailer, and the file says that they lie loose or does not say how they are held.",
    why: "Everything that is not held moves in the first hard stop, and the weights were computed for where it stands.",
    example: "A 95 lb telescope case stands at the rear door; how it is held was not said.",
    what_to_do: "Say how each is held, or strap it.",
    sources: &[
        "securing/profiles",
        "From which mass on this is said is judgement.",
    ],
};

impl Rule for NotHeld {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let found = &assessment.road;
        if !found.begun {
            return Vec::new();
        }
        let free = |hold: &&HoldResult| {
            hold.mass.kilograms() > HEAVY && matches!(hold.how, None | Some(Hold::Loose))
        };
        let mut loose: Vec<&HoldResult> = found.holds.iter().filter(free).collect();
        loose.sort_by(|a, b| b.mass.total_cmp(&a.mass));
        let ids: Vec<&Id> = loose.iter().map(|hold| &hold.item).collect();
        let Some(first) = loose.first() else {
            return Vec::new();
        };
        let headline = format!("Nothing is said to hold {}.", road::items(project, &ids),);
        let heaviest = road::mass(first.mass, limits::system(project));
        let finding = Finding::new(DOC.id, Severity::Caution, Subject::Trailer, headline)
            .note(format!("The heaviest of them weighs {heaviest}."));
        vec![
            ids.into_iter()
                .fold(finding, |f, id| f.also(Subject::Item(id.clone()))),
        ]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}

/// Lighter things are not spoken of \[kg\]. Judgement.
const HEAVY: f64 = 5.0;
