//! `charge-above-protection`: a charger goes above the voltage at which the battery's protection opens. Not here: what loads bear (`charge-above-loads`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::words;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_model::Project;

/// The rule.
pub(crate) struct ChargeAboveProtection;

static DOC: RuleDoc = RuleDoc {
    id: "charge-above-protection",
    title: "A charger goes above the voltage at which the battery's protection opens",
    worst: Severity::Warning,
    what: "A charger's absorption voltage is above the pack voltage at which the fullest cell, or the whole pack, makes the protection stop charging, or nearer to it than the margin.",
    why: "The protection opens before charging ends: the charger says full, the voltage on the wires jumps up on all loads, and the cells are never evened out because one is always first.",
    example: "Four cells 0.5 % apart trip their protection at 14.2 V; a shore charger set to 14.4 V never gets there.",
    what_to_do: "Set the absorption voltage a margin below the trip voltage, or have the cells evened out and set it up again.",
    sources: &[
        "battery/boards",
        "battery/charge_margins",
        "battery/lfp_open_circuit",
    ],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[ConflictKind::AboveBoard];

impl Rule for ChargeAboveProtection {
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
    let within = found.clash.conflict.within_margin;
    let severity = match (within, found.stands_in()) {
        (false, false) => Severity::Warning,
        _ => Severity::Caution,
    };
    let headline = match within {
        false => format!(
            "{} charges to {set}; the battery's protection opens at {limit}.",
            found.name()
        ),
        true => format!(
            "{} charges to {set}, close to the {limit} at which the battery's protection opens.",
            found.name()
        ),
    };
    let finding = found.finding(&DOC, severity, headline, Worse::More);
    let spread = found.settings.bank.as_ref().map(|bank| bank.spread.value);
    let finding = match spread.filter(|spread| spread.fraction() > 0.0) {
        Some(spread) => finding.note(format!(
            "The fullest cell is {} ahead of the others and gets there first.",
            words::percent(spread)
        )),
        None => finding,
    };
    finding.note(format!("With a margin it may be {}.", found.allowed()))
}
