//! `loads-fail-first`: loads stop working before they are cut off. Not here: the battery's protection (`disconnect-below-protection`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::names;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct LoadsFailFirst;

static DOC: RuleDoc = RuleDoc {
    id: "loads-fail-first",
    title: "Loads stop working before they are cut off",
    worst: Severity::Notice,
    what: "A low-voltage disconnect is set below the voltage at which a load stops working.",
    why: "The load drops out by itself, perhaps in the middle of the night, while the disconnect still says all is well.",
    example: "A mount that needs 11.5 V behind a disconnect at 11 V.",
    what_to_do: "Set the disconnect higher, or put a regulator before the load.",
    sources: &["Data sheets of the loads, as typed in the project."],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[ConflictKind::DisconnectBelowLoads];

impl Rule for LoadsFailFirst {
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
    let load = found
        .settings
        .loads
        .as_ref()
        .and_then(|loads| loads.lowest_of.as_ref());
    let load = load.map_or_else(|| "a load".to_owned(), |id| names::item(found.project, id));
    let headline = format!("{} goes off at {set}; {load} needs {limit}.", found.name());
    found.finding(&DOC, Severity::Notice, headline, Worse::Less)
}
