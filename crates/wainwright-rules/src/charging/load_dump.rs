//! `load-dump`: when the protection opens, the modules' voltage reaches the loads. Not here: chargers set too high (`charge-above-loads`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct LoadDump;

static DOC: RuleDoc = RuleDoc {
    id: "load-dump",
    title: "When the protection opens, the modules' voltage reaches the loads",
    worst: Severity::Warning,
    what: "A solar controller that joins the modules straight to the battery's wires leaves the loads with the modules' voltage when the battery's protection opens in the sun.",
    why: "Without the battery nothing holds the voltage down for a moment: electronics on the same wires may be destroyed.",
    example: "A module of 22 V without load, a switching controller, and a radio that bears 16 V.",
    what_to_do: "Use a controller that finds the best point, keep its voltage well below the protection's trip, and let no load hang on the controller alone.",
    sources: &[
        "Judgement: a switching controller joins the modules to the wires while it charges.",
    ],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[ConflictKind::LoadDump];

impl Rule for LoadDump {
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
    let (set, limit) = found.both();
    let severity = match found.stands_in() {
        false => Severity::Warning,
        true => Severity::Caution,
    };
    let headline = format!(
        "When the protection opens, {} may put up to {set} on the loads; they bear {limit}.",
        found.again()
    );
    found.finding(&DOC, severity, headline, Worse::More)
}
