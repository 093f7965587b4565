//! `compensation-on-lithium`: temperature compensation is on with a lithium battery. Not here: equalising (`equalise-on-lithium`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct CompensationOnLithium;

static DOC: RuleDoc = RuleDoc {
    id: "compensation-on-lithium",
    title: "Temperature compensation is on with a lithium battery",
    worst: Severity::Caution,
    what: "A charger changes its voltage with the battery's temperature though the battery is lithium.",
    why: "Lithium cells want the same voltage warm and cold. In the cold the charger goes above the protection's trip, in the heat it never fills.",
    example: "30 mV for each degree, as a controller comes for lead-acid: at freezing it charges to 0.75 V more than is set.",
    what_to_do: "Set compensation to zero.",
    sources: &["battery/charge_profile"],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[ConflictKind::CompensationOnLithium];

impl Rule for CompensationOnLithium {
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
    let headline = format!(
        "{} changes its voltage by {}; lithium wants none.",
        found.name(),
        found.set()
    );
    found.finding(&DOC, Severity::Caution, headline, Worse::Neither)
}
