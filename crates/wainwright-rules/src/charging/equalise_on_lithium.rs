//! `equalise-on-lithium`: equalising is on with a lithium battery. Not here: compensation (`compensation-on-lithium`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct EqualiseOnLithium;

static DOC: RuleDoc = RuleDoc {
    id: "equalise-on-lithium",
    title: "Equalising is on with a lithium battery",
    worst: Severity::Warning,
    what: "A charger that equalises charges a lithium battery.",
    why: "Equalising is an overcharge on purpose, made for flooded lead-acid. Lithium cells are damaged by it, or the protection opens and all loads get that voltage.",
    example: "A controller that goes to 15 V once a month on four lithium cells whose protection opens at 14.6 V.",
    what_to_do: "Switch equalising off.",
    sources: &["battery/charge_profile"],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[ConflictKind::EqualiseOnLithium];

impl Rule for EqualiseOnLithium {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let all = found::all(assessment, project, KINDS);
        all.iter().map(find_one).collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        found::remedies(finding, KINDS, assessment, project)
    }
}

fn find_one(found: &Found<'_>) -> Finding {
    let headline = format!("{} equalises, and the battery is lithium.", found.name());
    found
        .finding(&DOC, Severity::Warning, headline, Worse::Neither)
        .note(format!("Equalising usually goes to {}.", found.set()))
}
