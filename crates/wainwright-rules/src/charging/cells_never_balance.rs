//! `cells-never-balance`: cells are never evened out. Not here: a battery that does not get full (`battery-never-full`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct CellsNeverBalance;

static DOC: RuleDoc = RuleDoc {
    id: "cells-never-balance",
    title: "Cells are never evened out",
    worst: Severity::Notice,
    what: "A charger's absorption voltage is below the pack voltage at which the protection begins to bleed full cells, though a higher one would be safe.",
    why: "Cells drift apart over months. What is not evened out ends as a protection that opens early, in both directions.",
    example: "A protection that evens out from 3.6 V in a cell, and a charger that stops at 13.8 V.",
    what_to_do: "Set the absorption voltage up once in a while, or for good, as the card says.",
    sources: &["battery/boards", "battery/charge_profile"],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[ConflictKind::NeverBalances];

impl Rule for CellsNeverBalance {
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
        "{} charges to {set}; the protection evens cells out from {limit}.",
        found.name()
    );
    found.finding(&DOC, Severity::Notice, headline, Worse::Less)
}
