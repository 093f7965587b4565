//! `brakes-asked-for`: a law may ask for trailer brakes that are not there. Not
//! here: whether brakes work.

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, road, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::result::road::BrakeCheck;
use wainwright_model::Project;
use wainwright_reference::Mark;

/// The rule.
pub(crate) struct BrakesAskedFor;

static DOC: RuleDoc = RuleDoc {
    id: "brakes-asked-for",
    title: "A law may ask for brakes on the trailer",
    worst: Severity::Warning,
    what: "The gross rating or the heaviest state of the trailer is over the mass from which a law of its region asks for brakes, and the file says that it has none or does not say.",
    why: "Without brakes the tow vehicle stops the trailer alone: from 90 km/h a rig of 3.1 t needs a third more way. Laws differ from state to state.",
    example: "Rated 2990 lb and without brakes; California asks them of camp trailers from 1500 lb.",
    what_to_do: "Look up the law where it is registered and where it travels; fit brakes and a breakaway switch.",
    sources: &["law/brakes"],
};

impl Rule for BrakesAskedFor {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let found = &assessment.road;
        let braked = found.trailer.brakes.as_ref();
        let has = braked.is_some_and(|brakes| brakes.value && !brakes.is_assumed());
        if !found.begun || has {
            return Vec::new();
        }
        let asks =
            |check: &&BrakeCheck| check.by_rating == Some(true) || check.by_load == Some(true);
        let laws: Vec<&BrakeCheck> = found.brakes.iter().filter(asks).collect();
        let Some(first) = laws.first() else {
            return Vec::new();
        };
        let none = braked.is_some_and(|brakes| !brakes.value && !brakes.is_assumed());
        let (severity, have) = match none {
            true => (Severity::Warning, "it has none"),
            false => (Severity::Notice, "whether it has them is not said"),
        };
        let places: Vec<String> = laws
            .iter()
            .map(|check| check.law.place.to_string())
            .collect();
        let headline = format!(
            "The trailer is over the mass from which brakes are asked for in {}; {have}.",
            words::list(&places, 3),
        );
        let mut finding = Finding::new(DOC.id, severity, Subject::Trailer, headline);
        for check in &laws {
            let law = &check.law;
            finding = finding.note(format!(
                "{}: {}, {} ({}; as read {}).",
                law.place, law.applies_to, law.gross_text, law.law, law.as_of
            ));
        }
        let memory = first.source.mark == Mark::Memory;
        let system = limits::system(project);
        if let Some(heaviest) = found.worst.and_then(|w| found.states.get(w.most_mass)) {
            finding = finding.note(format!(
                "Its heaviest state is {}. Check your local law.",
                road::mass(heaviest.mass, system)
            ));
        }
        vec![finding.memory(memory)]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
