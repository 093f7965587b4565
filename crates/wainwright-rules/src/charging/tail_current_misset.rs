//! `tail-current-misset`: a charger takes the battery for full at the wrong current. Not here: current limits (`charge-current-above-battery`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct TailCurrentMisset;

static DOC: RuleDoc = RuleDoc {
    id: "tail-current-misset",
    title: "A charger takes the battery for full at the wrong current",
    worst: Severity::Notice,
    what: "The tail current of a charger is so large that absorption ends before the battery is full, or so small that loads that run all the time keep it from ever ending.",
    why: "Ended early, the last part is missing every day; never ended, the battery is held at its highest voltage for hours.",
    example: "A tail current of 30 A on 100 Ah ends absorption at once; one of 1 A with a fridge of 2 A never ends it.",
    what_to_do: "Set the tail current to the advised share of the capacity, plus what runs all the time.",
    sources: &["battery/charge_profile"],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[ConflictKind::TailTooLarge, ConflictKind::TailTooSmall];

impl Rule for TailCurrentMisset {
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
    let (headline, worse) = match found.kind() {
        ConflictKind::TailTooLarge => (
            format!("{name} says full at {set}; above {limit} the battery is not full yet."),
            Worse::More,
        ),
        _ => (
            format!(
                "{name} waits for {set}; with what runs all the time it never falls below {limit}."
            ),
            Worse::Less,
        ),
    };
    found.finding(&DOC, Severity::Notice, headline, worse)
}
