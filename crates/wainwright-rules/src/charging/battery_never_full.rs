//! `battery-never-full`: a charger is set too low to fill the battery. Not here: cells that are not evened out (`cells-never-balance`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct BatteryNeverFull;

static DOC: RuleDoc = RuleDoc {
    id: "battery-never-full",
    title: "A charger is set too low to fill the battery",
    worst: Severity::Caution,
    what: "A charger's absorption voltage, less what the wire takes, is below the voltage at which the battery is full.",
    why: "Part of the battery is carried and paid for but never used; lead-acid that is never full wears out in a season or two.",
    example: "A charger set to 13.3 V leaves four lithium cells at about two thirds.",
    what_to_do: "Set the absorption voltage up to the advised value, or take a thicker wire.",
    sources: &["battery/charge_profile", "battery/lfp_open_circuit"],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[ConflictKind::NeverFull];

impl Rule for BatteryNeverFull {
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
        "{} charges to {set}; the battery needs {limit} there to get full.",
        found.name()
    );
    found.finding(&DOC, Severity::Caution, headline, Worse::Less)
}
