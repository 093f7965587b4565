//! `charge-current-above-battery`: the battery is charged with more current than it takes. Not here: what the wires bear (`sources-add-up`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct ChargeCurrentAboveBattery;

static DOC: RuleDoc = RuleDoc {
    id: "charge-current-above-battery",
    title: "The battery is charged with more current than it takes",
    worst: Severity::Warning,
    what: "A charger, or all that may run at once, can give more current than the battery may be charged with. Shore power and the moving tow vehicle are not counted together.",
    why: "Cells that are charged too fast age and heat up; many protections open, and the charger's voltage jumps up on the loads.",
    example: "Solar 30 A and shore 40 A on a battery that takes 50 A.",
    what_to_do: "Set lower current limits, in proportion to what each gives.",
    sources: &[
        "battery/chemistry",
        "Data sheet of the battery, as typed in the project.",
    ],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[
    ConflictKind::CurrentAboveBattery,
    ConflictKind::SumAboveBattery,
];

impl Rule for ChargeCurrentAboveBattery {
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
    let severity = match found.stands_in() || found.kind() == ConflictKind::SumAboveBattery {
        false => Severity::Warning,
        true => Severity::Caution,
    };
    let headline = match found.kind() {
        ConflictKind::SumAboveBattery => {
            format!("All chargers together give {set}; the battery takes {limit}.")
        }
        _ => format!("{} gives {set}; the battery takes {limit}.", found.name()),
    };
    found.finding(&DOC, severity, headline, Worse::More)
}
