//! `controller-cannot-wake`: a controller cannot wake a battery that has gone dead. Not here: disconnects set too low (`disconnect-below-protection`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct ControllerCannotWake;

static DOC: RuleDoc = RuleDoc {
    id: "controller-cannot-wake",
    title: "A controller cannot wake a battery that has gone dead",
    worst: Severity::Caution,
    what: "The battery's terminals are dead once it has run empty, and a charger must see battery voltage before it starts.",
    why: "After the first night that runs the battery empty the sun does not help any more: nothing charges until somebody wakes the protection.",
    example: "A battery that sleeps at 10.4 V, and a solar controller that waits for its voltage.",
    what_to_do: "Set the loads' disconnect well above the protection's, and keep another charger, or the protection's own switch, at hand to wake it.",
    sources: &["Manuals of solar controllers and protection boards (class behaviour, memory)."],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[ConflictKind::CannotWake];

impl Rule for ControllerCannotWake {
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
    let headline = format!(
        "{} starts only with battery voltage, and the battery is dead once it has run empty.",
        found.name()
    );
    found.finding(&DOC, Severity::Caution, headline, Worse::Neither)
}
