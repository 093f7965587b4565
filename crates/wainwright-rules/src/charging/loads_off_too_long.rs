//! `loads-off-too-long`: loads go off early or come back late. Not here: disconnects set too low (`disconnect-below-protection`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct LoadsOffTooLong;

static DOC: RuleDoc = RuleDoc {
    id: "loads-off-too-long",
    title: "Loads go off early or come back late",
    worst: Severity::Notice,
    what: "A disconnect is set so high that loads go off while there is charge left, or its reconnect so high that they come back late or never.",
    why: "What is in the battery is not used, and the fridge stays off although the sun has filled half of it.",
    example: "A reconnect at 13.6 V on four lithium cells, which rest at 13.4 V when full.",
    what_to_do: "Set both to the advised values.",
    sources: &["battery/charge_profile", "battery/lfp_open_circuit"],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[
    ConflictKind::DisconnectTooEarly,
    ConflictKind::ReconnectTooHigh,
];

impl Rule for LoadsOffTooLong {
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
    let name = found.name();
    let headline = match found.kind() {
        ConflictKind::DisconnectTooEarly => {
            format!("{name} goes off at {set}; above {limit} there is charge left.")
        }
        _ => format!("{name} comes back at {set}; above {limit} that is late, or never."),
    };
    found.finding(&DOC, Severity::Notice, headline, Worse::More)
}
