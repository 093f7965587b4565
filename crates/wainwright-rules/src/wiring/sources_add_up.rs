//! `sources-add-up`: each source is held back by its own fuse, but together
//! they can push more through a conductor than it bears. Not here: one fuse
//! that is too big by itself (`oversized-fuse`).

use super::oversized_fuse;
use crate::finding::{Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Circuits, Graph, limits, names, subjects, words};
use std::collections::{BTreeMap, BTreeSet};
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, WireResult};
use wainwright_model::Project;
use wainwright_units::Current;

/// The rule.
pub(crate) struct SourcesAddUp;

static DOC: RuleDoc = RuleDoc {
    id: "sources-add-up",
    title: "Several sources together can overload a conductor",
    worst: Severity::Notice,
    what: "No single fuse is too big for a conductor, but the sources that can feed it, each \
           behind its own fuse or its own limit, can push more than 1.07 times what it bears \
           when all work at once. Devices side by side count as their sum.",
    why: "Between the point where sources meet and the next fuse nothing limits their sum. It \
          needs a sunny day, a charger on shore power and every load on, and then the wire runs \
          above its limit although no fuse sees too much.",
    example: "A 40 A battery fuse and a 30 A solar controller meet ahead of a wire that bears \
              55 A: together 70 A.",
    what_to_do: "Thicker wire behind the meeting point, or one fuse there that fits it.",
    sources: &[
        "limit/ratios",
        "Sum of currents at a node: Kirchhoff's first law.",
    ],
};

impl Rule for SourcesAddUp {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let single: BTreeSet<usize> = oversized_fuse::cases(assessment)
            .map(|case| case.wire)
            .collect();
        let circuits = Circuits::new(assessment, &Graph::new(assessment, project));
        let mut by_circuit: BTreeMap<usize, Vec<(usize, Current)>> = BTreeMap::new();
        for (index, wire) in assessment.wires.iter().enumerate() {
            if let Some(sum) =
                sum(wire).filter(|_| !single.contains(&index) && !limits::is_tap(assessment, wire))
            {
                by_circuit
                    .entry(circuits.name_of(index))
                    .or_default()
                    .push((index, sum));
            }
        }
        by_circuit
            .iter()
            .filter_map(|(name, wires)| about(assessment, project, *name, wires))
            .collect()
    }

    fn remedies(&self, finding: &Finding, assessment: &Assessment, _: &Project) -> Vec<Remedy> {
        let mut wires = subjects::wires(finding, assessment);
        wires.retain(|index| assessment.wires.get(*index).and_then(sum).is_some());
        Remedy::some(vec![sizes::thicker(assessment, &wires)])
    }
}

/// What all sources can push, where that is more than the wire bears.
fn sum(wire: &WireResult) -> Option<Current> {
    let together = wire.together?;
    let most = wire.ampacity.in_force.amperes() * limits::rating_share();
    limits::above(together.amperes(), most).then_some(together)
}

fn about(
    assessment: &Assessment,
    project: &Project,
    name: usize,
    wires: &[(usize, Current)],
) -> Option<Finding> {
    let bears = |index: &usize| {
        assessment
            .wires
            .get(*index)
            .map_or(f64::INFINITY, |w| w.ampacity.in_force.amperes())
    };
    let (index, together) = wires
        .iter()
        .min_by(|a, b| bears(&a.0).total_cmp(&bears(&b.0)).then(a.0.cmp(&b.0)))?;
    let wire = assessment.wires.get(*index)?;
    let more = match wires.len() {
        1 => String::new(),
        many => format!(" and {}", words::counted(many - 1, "more wire")),
    };
    let most = *together;
    let (together, bears) = words::currents(most, wire.ampacity.in_force);
    let headline = format!(
        "All sources together can push {together} through {}{more}: it bears {bears} {}.",
        names::wire(wire),
        names::place(project, wire),
    );
    let subject = Subject::Wire(assessment.wires.get(name)?.id.clone());
    let mut finding = Finding::new(DOC.id, Severity::Notice, subject, headline)
        .over(limits::current("I", most), limits::largest_rating(wire))
        .asking(Ask::WireAmpacity {
            wire: wire.id.to_string(),
        });
    for (index, _) in wires {
        if let Some(wire) = assessment.wires.get(*index) {
            finding = finding
                .also(Subject::Wire(wire.id.clone()))
                .assuming(assessment, &["wire", wire.id.as_str()]);
        }
    }
    Some(finding)
}
