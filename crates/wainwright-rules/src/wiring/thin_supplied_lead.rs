//! `thin-supplied-lead`: a lead that came with the gear and is too thin for
//! what the gear is rated for. One finding for each piece of gear. Not here:
//! leads that run too hot already (`overheated-conductor`, which says that
//! they came with the gear).

use super::overheated_conductor::runs_too_hot;
use crate::finding::{Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, subjects, words};
use std::collections::BTreeMap;
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, ConsumerResult, WireResult};
use wainwright_model::{Project, Spec};
use wainwright_units::Current;

/// The rule.
pub(crate) struct ThinSuppliedLead;

static DOC: RuleDoc = RuleDoc {
    id: "thin-supplied-lead",
    title: "A lead that came with the gear is too thin for it",
    worst: Severity::Warning,
    what: "A wire marked as supplied joins gear whose rated current is above what the wire bears \
           where it runs, although it does not flow in any state of the project yet: a lead that \
           runs too hot already belongs to overheated-conductor.",
    why: "Leads in the box are often chosen for price and for a bench, not for a hot wall. They \
          carry the rated current as soon as somebody uses all of it.",
    example: "A 1000 W inverter came with 8 AWG leads. At full power and a low battery it draws \
              108 A; the leads bear 70 A.",
    what_to_do: "Replace the lead by wire for the rated current, both conductors.",
    sources: &["ampacity/boat"],
};

impl Rule for ThinSuppliedLead {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let mut by_gear: BTreeMap<usize, Vec<Lead<'_>>> = BTreeMap::new();
        let wires = assessment.wires.iter().enumerate();
        for (index, wire) in wires.filter(|(_, wire)| wire.supplied) {
            if runs_too_hot(assessment, index) {
                continue;
            }
            if let Some(lead) = lead(assessment, project, wire) {
                by_gear.entry(lead.gear).or_default().push(lead);
            }
        }
        by_gear
            .values()
            .filter_map(|leads| about(assessment, project, leads))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let wires = subjects::wires(finding, assessment);
        let at_gear: Vec<usize> = assessment
            .wires
            .iter()
            .enumerate()
            .filter(|(_, wire)| wire.supplied)
            .filter(|(_, wire)| {
                gear_of(assessment, project, wire).is_some_and(|(gear, _)| {
                    let named = assessment.consumers.get(gear).map(|c| &c.item);
                    named == subjects::item(finding)
                })
            })
            .map(|(index, _)| index)
            .collect();
        Remedy::some(vec![
            sizes::thicker(assessment, &wires),
            sizes::thicker_with(assessment, &wires, &at_gear),
        ])
    }
}

/// A supplied lead that is too thin.
struct Lead<'a> {
    wire: &'a WireResult,
    gear: usize,
    rated: Current,
}

fn lead<'a>(assessment: &Assessment, project: &Project, wire: &'a WireResult) -> Option<Lead<'a>> {
    let (gear, rated) = gear_of(assessment, project, wire)?;
    limits::above(rated.amperes(), wire.ampacity.in_force.amperes()).then_some(Lead {
        wire,
        gear,
        rated,
    })
}

fn about(assessment: &Assessment, project: &Project, leads: &[Lead<'_>]) -> Option<Finding> {
    let bears = |lead: &&Lead<'_>| lead.wire.ampacity.in_force;
    let worst = leads.iter().min_by(|a, b| bears(a).total_cmp(&bears(b)))?;
    let gear = assessment.consumers.get(worst.gear)?;
    let (verb, it) = match leads.len() {
        1 => ("is", "it bears"),
        _ => ("are", "they bear"),
    };
    let wires: Vec<&WireResult> = leads.iter().map(|lead| lead.wire).collect();
    let (rated, bears) = words::currents(worst.rated, worst.wire.ampacity.in_force);
    let headline = format!(
        "The supplied {} {verb} too thin for {}: it is rated {rated}, {it} {bears} {}.",
        names::together(&wires, 4),
        names::consumer(gear),
        names::place(project, worst.wire),
    );
    let mut finding = Finding::new(
        DOC.id,
        Severity::Warning,
        Subject::Item(gear.item.clone()),
        headline,
    )
    .over(
        limits::current("I_r", worst.rated),
        limits::ampacity(worst.wire),
    )
    .memory(limits::ampacity_from_memory(worst.wire))
    .assuming(assessment, &["item", gear.item.as_str()])
    .asking(Ask::WireAmpacity {
        wire: worst.wire.id.to_string(),
    });
    for lead in leads {
        finding = finding
            .also(Subject::Wire(lead.wire.id.clone()))
            .assuming(assessment, &["wire", lead.wire.id.as_str()]);
    }
    Some(finding)
}

/// The gear this wire ends at (index), with its rated current.
pub(crate) fn gear_of(
    assessment: &Assessment,
    project: &Project,
    wire: &WireResult,
) -> Option<(usize, Current)> {
    let at = |end: &(wainwright_model::Id, String), c: &ConsumerResult| {
        c.item == end.0 && (c.plus == end.1 || c.minus == end.1)
    };
    assessment
        .consumers
        .iter()
        .enumerate()
        .filter(|(_, c)| at(&wire.from, c) || at(&wire.to, c))
        .filter_map(|(index, c)| Some((index, c.rated_amps? * full_share(project, c))))
        .max_by(|a, b| a.1.total_cmp(&b.1))
}

/// Rated power over the power counted on: an inverter may have less plugged
/// in today than it can give.
fn full_share(project: &Project, gear: &ConsumerResult) -> f64 {
    let Some(Spec::Inverter(inverter)) =
        project.items.get(gear.item.as_str()).map(|item| &item.spec)
    else {
        return 1.0;
    };
    match (&inverter.power, &inverter.load) {
        (Some(power), Some(load)) if load.value.watts() > 0.0 => power.value / load.value,
        _ => 1.0,
    }
}
