//! `charge-above-loads`: a charger goes above what the loads bear. Not here: the battery's protection (`charge-above-protection`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::names;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct ChargeAboveLoads;

static DOC: RuleDoc = RuleDoc {
    id: "charge-above-loads",
    title: "A charger goes above what the loads bear",
    worst: Severity::Warning,
    what: "A charger's absorption voltage is above the highest voltage that a load bears.",
    why: "What is switched on while it charges gets that voltage for hours: electronics fail, lamps age fast.",
    example: "A fridge that bears 14 V on a battery that is charged to 14.4 V.",
    what_to_do: "Set the charger lower, or put a regulator before the load.",
    sources: &[
        "battery/charge_profile",
        "Data sheets of the loads, as typed in the project.",
    ],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[ConflictKind::AboveLoads];

impl Rule for ChargeAboveLoads {
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
    let load = found
        .settings
        .loads
        .as_ref()
        .and_then(|loads| loads.highest_of.as_ref());
    let load = load.map_or_else(
        || "the loads".to_owned(),
        |id| names::item(found.project, id),
    );
    let headline = format!("{} charges to {set}; {load} bears {limit}.", found.name());
    found.finding(&DOC, severity, headline, Worse::More)
}
