//! `lead-acid-profile`: a charger made for lead-acid charges lithium. Not here: voltages too low to fill the battery (`battery-never-full`).

use super::found::{self, Found, Worse};
use crate::finding::Finding;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::words;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::ConflictKind;
use wainwright_analysis::result::settings::{Figure, SettingKind};
use wainwright_model::Project;

/// The rule.
pub(crate) struct LeadAcidProfile;

static DOC: RuleDoc = RuleDoc {
    id: "lead-acid-profile",
    title: "A charger made for lead-acid charges lithium",
    worst: Severity::Notice,
    what: "A shore charger only holds the voltage that converters made for lead-acid hold, and the battery is lithium.",
    why: "Near that voltage the current falls early: the last part of the charge takes hours, and cells are not evened out.",
    example: "A converter that holds 13.6 V on 280 Ah of lithium.",
    what_to_do: "Choose its lithium profile, or set it to the advised voltage; if it has none, another charger.",
    sources: &["device/classes", "battery/charge_profile"],
};

/// What it judges.
const KINDS: &[ConflictKind] = &[ConflictKind::LeadAcidProfile];

impl Rule for LeadAcidProfile {
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
    let set = found
        .card
        .row(SettingKind::ChargeVoltage)
        .and_then(|row| row.now.as_ref());
    let held = match set.map(|now| now.value) {
        Some(Figure::Voltage(volts)) => Found::volts(volts),
        _ => "one voltage".to_owned(),
    };
    let headline = format!(
        "{} holds {held}, as a converter for lead-acid does; the battery is lithium.",
        found.name()
    );
    let finding = found.finding(&DOC, Severity::Notice, headline, Worse::Neither);
    match found.clash.conflict.cost {
        Some((begins, lasts)) => finding.note(format!(
            "Its current falls from {} of the charge on, and that takes {:.1} hours.",
            words::percent(begins),
            lasts.hours()
        )),
        None => finding,
    }
}
