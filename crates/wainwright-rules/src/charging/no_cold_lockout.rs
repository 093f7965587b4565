//! `no-cold-lockout`: a charger does not stop for frozen lithium cells. Not here: what the protection does in the cold.

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_analysis::result::settings::SettingKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct NoColdLockout;

static DOC: RuleDoc = RuleDoc {
    id: "no-cold-lockout",
    title: "A charger does not stop for frozen lithium cells",
    worst: Severity::Warning,
    what: "The place gets colder than lithium cells may be charged at, and the charger has no low-temperature lockout, or one below where the battery's own protection stops.",
    why: "Charged below freezing, lithium is plated inside the cells for good: they lose charge and may short later. A protection that has to open under the sun leaves the charger's voltage on the loads.",
    example: "Nights of 18 °F, and a solar controller that does not know how cold the battery is.",
    what_to_do: "Set a lockout and fit the charger's temperature sensor at the battery, or keep the battery warm.",
    sources: &[
        "battery/charge_rates",
        "battery/charge_profile",
        "battery/boards",
    ],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[ConflictKind::NoColdLockout];

impl Rule for NoColdLockout {
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
    let own = found
        .settings
        .board
        .as_ref()
        .map(|board| board.cold.clone());
    let typed = own.as_ref().is_some_and(|cold| !cold.is_assumed());
    let system = limits::system(found.project);
    let coldest = found.settings.bank.as_ref().map(|bank| bank.coldest.value);
    let coldest = coldest.map_or_else(String::new, |at| words::air(at, system));
    let headline = match found
        .card
        .row(SettingKind::ColdLockout)
        .and_then(|row| row.now.as_ref())
    {
        None => format!(
            "{} has no low-temperature lockout, and it gets down to {coldest}.",
            found.name()
        ),
        Some(_) => format!(
            "{} stops charging at {} only; it gets down to {coldest}.",
            found.name(),
            found.set()
        ),
    };
    let severity = if typed {
        Severity::Caution
    } else {
        Severity::Warning
    };
    let finding = found.finding(&DOC, severity, headline, Worse::Neither);
    match (own, typed) {
        (Some(cold), true) => finding.note(format!(
            "Only the battery's own protection, at {}, keeps frozen cells from being charged.",
            words::air(cold.value, system)
        )),
        _ => finding
            .note("Nobody has said whether the battery's protection stops charging in the cold."),
    }
}
