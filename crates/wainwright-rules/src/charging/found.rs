//! What the rules of charging settings share: the conflicts of a rule with their device, figures in words, the edits
//! that mend them. Not here: judgement, that is one file per rule.

use crate::finding::{Amount, Finding, Subject};
use crate::rule::{Remedy, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, subjects, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::result::settings::{
    ConflictKind, DeviceCard, Figure, SettingConflict, SettingsResult,
};
use wainwright_model::{Edit, Project, Value};
use wainwright_units::{System, Voltage};

/// One conflict of a rule.
pub(super) struct Found<'a> {
    pub(super) project: &'a Project,
    pub(super) settings: &'a SettingsResult,
    pub(super) clash: &'a SettingConflict,
    pub(super) card: &'a DeviceCard,
}

/// The conflicts of these kinds about settings that the person gave, one for each device; none before the job is begun.
pub(super) fn all<'a>(
    assessment: &'a Assessment,
    project: &'a Project,
    kinds: &[ConflictKind],
) -> Vec<Found<'a>> {
    let settings = &assessment.settings;
    let mut found: Vec<Found<'a>> = Vec::new();
    if !settings.begun {
        return found;
    }
    let told = settings.conflicts.iter().filter(|clash| clash.told);
    for clash in told.filter(|clash| kinds.contains(&clash.conflict.kind)) {
        let Some(card) = clash.devices.first().and_then(|i| settings.devices.get(*i)) else {
            continue;
        };
        let same = |other: &Found<'a>| other.card.item == card.item && other.card.kind == card.kind;
        if !found.iter().any(same) {
            found.push(Found {
                project,
                settings,
                clash,
                card,
            });
        }
    }
    found
}

/// What is compared, with more of it or less of it being worse.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Worse {
    More,
    Less,
    Neither,
}

impl Found<'_> {
    pub(super) fn kind(&self) -> ConflictKind {
        self.clash.conflict.kind
    }

    /// What people call the device, at the start of a sentence.
    pub(super) fn name(&self) -> String {
        words::capital(&self.again())
    }

    /// The same inside a sentence.
    pub(super) fn again(&self) -> String {
        names::item(self.project, &self.card.item)
    }

    fn system(&self) -> System {
        limits::system(self.project)
    }

    /// What is set.
    pub(super) fn set(&self) -> String {
        figure(self.clash.conflict.found, self.system())
    }

    /// What it runs into.
    pub(super) fn limit(&self) -> String {
        figure(self.clash.conflict.limit, self.system())
    }

    /// What it may be.
    pub(super) fn allowed(&self) -> String {
        figure(self.clash.conflict.allowed, self.system())
    }

    /// What is set and what it runs into, with enough decimals to tell them apart.
    pub(super) fn both(&self) -> (String, String) {
        let conflict = &self.clash.conflict;
        match (conflict.found, conflict.limit) {
            (Figure::Voltage(a), Figure::Voltage(b)) => words::voltages(a, b),
            (Figure::Current(a), Figure::Current(b)) => words::currents(a, b),
            _ => (self.set(), self.limit()),
        }
    }

    /// Voltage in words.
    pub(super) fn volts(volts: Voltage) -> String {
        words::volts(volts)
    }

    /// Whether what the setting is held against stands in for what nobody said.
    pub(super) fn stands_in(&self) -> bool {
        !self.clash.rests_on.is_empty()
    }

    /// The finding with what was compared and what it rests on.
    pub(super) fn finding(
        &self,
        doc: &'static RuleDoc,
        severity: Severity,
        headline: String,
        worse: Worse,
    ) -> Finding {
        let subject = Subject::Item(self.card.item.clone());
        let mut finding = Finding::new(doc.id, severity, subject, headline);
        let conflict = &self.clash.conflict;
        let amount = |symbol, figure, text| {
            number(figure).map(|value| Amount::computed(symbol, value, text))
        };
        let (value, limit) = self.both();
        let pair = amount("U", conflict.found, value).zip(amount("U_max", conflict.limit, limit));
        finding = match (pair, worse) {
            (Some((value, limit)), Worse::More) => finding.over(value, limit),
            (Some((value, limit)), Worse::Less) => finding.under(value, limit),
            _ => finding,
        };
        finding
            .assumptions
            .extend(self.clash.rests_on.iter().cloned());
        if self.card.wire.is_assumed() && matches!(worse, Worse::Less) {
            finding = finding
                .note("No wires between it and the battery are drawn yet; a usual loss stands in.");
        }
        finding.memory(self.stands_in())
    }
}

/// The edits that mend a finding of these kinds, as one change.
pub(super) fn remedies(
    finding: &Finding,
    kinds: &[ConflictKind],
    assessment: &Assessment,
    project: &Project,
) -> Vec<Remedy> {
    let Some(item) = subjects::item(finding) else {
        return Vec::new();
    };
    let of_it = all(assessment, project, kinds);
    let of_it: Vec<&Found<'_>> = of_it
        .iter()
        .filter(|found| found.card.item == *item)
        .collect();
    let mut edits: Vec<Edit> = Vec::new();
    for edit in of_it.iter().flat_map(|found| &found.clash.edits) {
        if !edits.contains(edit) {
            edits.push(edit.clone());
        }
    }
    let besides = of_it.iter().any(|found| !found.clash.besides.is_empty());
    let title = title(project, &edits, besides);
    let cost = edits.len() as f64 * COST_EACH + if besides { COST_OF_A_PART } else { 0.0 };
    Remedy::some(vec![Remedy::one(title, edits, cost)])
}

/// What a setting costs beside swapping a plug-in fuse, and what a small part does, such as a sensor.
const COST_EACH: f64 = 0.2;
const COST_OF_A_PART: f64 = 3.0;

/// `Set charge voltage of Shore charger to 14 V`.
fn title(project: &Project, edits: &[Edit], besides: bool) -> String {
    let one = |edit: &Edit| {
        let Edit::Set { path, value } = edit else {
            return None;
        };
        let id = wainwright_model::Id::new(path.get(1)?)?;
        let key = path.last()?.replace('_', " ");
        let item = names::item(project, &id);
        Some(match value {
            Value::Bool(false) => format!("switch {key} of {item} off"),
            Value::Bool(true) => format!("switch {key} of {item} on"),
            Value::Text(text) => format!("set {key} of {item} to {text}"),
            _ => format!("set {key} of {item}"),
        })
    };
    let parts: Vec<String> = edits.iter().filter_map(one).collect();
    let sentence = words::capital(&words::list(&parts, 4));
    match besides {
        true => format!("{sentence}; it needs a temperature sensor at the battery"),
        false => sentence,
    }
}

fn figure(figure: Figure, system: System) -> String {
    match figure {
        Figure::Voltage(volts) => words::volts(volts),
        Figure::Current(current) => words::amps(current),
        Figure::Temperature(at) => words::air(at, system),
        Figure::Duration(time) => words::time(time),
        Figure::Compensation(slope) => {
            format!("{:.0} mV for each degree Celsius", (slope * 1000.0).abs())
        }
        Figure::Off => "off".into(),
        Figure::On => "on".into(),
    }
}

fn number(figure: Figure) -> Option<f64> {
    match figure {
        Figure::Voltage(volts) => Some(volts.volts()),
        Figure::Current(current) => Some(current.amperes()),
        _ => None,
    }
}
