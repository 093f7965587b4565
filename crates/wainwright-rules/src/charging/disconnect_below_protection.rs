//! `disconnect-below-protection`: loads go off only after the battery's protection has cut everything off. Not here: disconnects too near their reconnect (`restart-too-near`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct DisconnectBelowProtection;

static DOC: RuleDoc = RuleDoc {
    id: "disconnect-below-protection",
    title: "Loads go off only after the battery's protection has cut everything off",
    worst: Severity::Caution,
    what: "A low-voltage disconnect, or an inverter's own shut-down, is below the pack voltage at which the emptiest cell makes the protection cut off, or nearer than the margin.",
    why: "The protection cuts everything at once, the heater's fan and the alarm too, and some batteries must then be woken by hand.",
    example: "Cells 0.5 % apart cut off at 10.7 V; an inverter that stops at 10.5 V is too late.",
    what_to_do: "Set the disconnect above the protection, with the margin.",
    sources: &["battery/boards", "battery/charge_margins"],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[
    ConflictKind::DisconnectBelowBoard,
    ConflictKind::InverterBelowBoard,
];

impl Rule for DisconnectBelowProtection {
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
    let headline = match found.clash.conflict.within_margin {
        false => format!(
            "{} goes off at {set}; the battery's protection cuts everything off at {limit}.",
            found.name()
        ),
        true => format!(
            "{} goes off at {set}, close to the {limit} at which the battery's protection cuts everything off.",
            found.name()
        ),
    };
    found
        .finding(&DOC, Severity::Caution, headline, Worse::Less)
        .note(format!(
            "With a margin it should be {} or more.",
            found.allowed()
        ))
}
