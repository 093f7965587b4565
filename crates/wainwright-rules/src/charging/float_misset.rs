//! `float-misset`: a float voltage does not suit the battery. Not here: absorption (`charge-above-protection`, `battery-never-full`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct FloatMisset;

static DOC: RuleDoc = RuleDoc {
    id: "float-misset",
    title: "A float voltage does not suit the battery",
    worst: Severity::Caution,
    what: "A float voltage is above the charger's own absorption voltage, above what the chemistry is held at for long, or so low that the battery runs down under a working charger.",
    why: "Held full all the time, cells age faster; held too low, the loads empty the battery while the sun shines.",
    example: "Four lithium cells held at 14.2 V for weeks on shore power.",
    what_to_do: "Set float to the advised value.",
    sources: &["battery/charge_profile"],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[
    ConflictKind::FloatAboveAbsorption,
    ConflictKind::FloatTooHigh,
    ConflictKind::FloatTooLow,
];

impl Rule for FloatMisset {
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
    let (severity, headline, worse) = match found.kind() {
        ConflictKind::FloatAboveAbsorption => (
            Severity::Caution,
            format!("{name} floats at {set}, above its own absorption voltage of {limit}."),
            Worse::More,
        ),
        ConflictKind::FloatTooHigh => (
            Severity::Notice,
            format!(
                "{name} floats at {set}; for long no more than {limit} is good for the battery."
            ),
            Worse::More,
        ),
        _ => (
            Severity::Notice,
            format!("{name} floats at {set}; below {limit} the battery runs down before it helps."),
            Worse::Less,
        ),
    };
    found.finding(&DOC, severity, headline, worse)
}
