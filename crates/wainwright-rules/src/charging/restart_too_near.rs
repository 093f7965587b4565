//! `restart-too-near`: a disconnect switches on again as soon as it has switched off. Not here: disconnects set too low (`disconnect-below-protection`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct RestartTooNear;

static DOC: RuleDoc = RuleDoc {
    id: "restart-too-near",
    title: "A disconnect switches on again as soon as it has switched off",
    worst: Severity::Caution,
    what: "Reconnect is nearer to disconnect than the battery recovers by itself when the load goes: the drop in the wire, the sag of the battery and its rebound.",
    why: "The load goes off, the voltage comes back, the load comes on: a relay clicks for hours, an inverter restarts again and again, and both wear out.",
    example: "An inverter that stops at 10.5 V and starts at 10.8 V; without its 130 A the battery comes back by 1.3 V.",
    what_to_do: "Set reconnect further up, as the card says.",
    sources: &["battery/charge_profile", "battery/lfp_resistance"],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[ConflictKind::Clicking];

impl Rule for RestartTooNear {
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
    let headline = format!(
        "{} comes on again at {set}; when its load goes the battery comes back to {limit} by itself.",
        found.name()
    );
    found.finding(&DOC, Severity::Caution, headline, Worse::Less)
}
