//! `derated-by-bundle`: a load that fits a single conductor, not one among
//! other loaded ones. Not here: heat of the place (`derated-by-hot-place`).

use super::derated::{Case, about, alone, by_circuit, case};
use crate::finding::Finding;
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, subjects, words};
use wainwright_analysis::result::Assessment;
use wainwright_model::Project;
use wainwright_units::Current;

/// The rule.
pub(crate) struct DeratedByBundle;

static DOC: RuleDoc = RuleDoc {
    id: "derated-by-bundle",
    title: "A conductor is overloaded because it runs in a bundle",
    worst: Severity::Caution,
    what: "A conductor carries more than the published table allows among this many loaded \
           conductors, although it would bear the same current alone.",
    why: "Loaded wires tied together heat each other: three bear 70 % of what one bears alone, \
          seven only half. The one in the middle is hottest and is the one nobody can see.",
    example: "A 14 AWG wire rated 20 A alone carries 12 A in a bundle of seven, where it bears \
              10 A.",
    what_to_do: "Spread the wires out, each with air around it, or use the next size.",
    sources: &[
        "ampacity/bundle",
        "33 CFR 183.435(b) demands the factors from 50 V up only; using them below 50 V too is a \
         judgement of this project that its heat balance supports.",
    ],
};

impl Rule for DeratedByBundle {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let found = by_circuit(assessment, project, blamed);
        let told = found.iter().filter_map(|(name, cases)| {
            let finding = about(assessment, DOC.id, *name, cases, headline)?;
            let place = names::place(project, cases.first()?.wire);
            Some(finding.note(format!("It runs {place}.")))
        });
        told.collect()
    }

    fn remedies(&self, finding: &Finding, assessment: &Assessment, _: &Project) -> Vec<Remedy> {
        let mut wires = subjects::wires(finding, assessment);
        wires.retain(|wire| case(assessment, *wire).is_some_and(|case| blamed(&case)));
        Remedy::some(vec![
            sizes::apart(assessment, &wires),
            sizes::thicker(assessment, &wires),
        ])
    }
}

/// Alone, the conductor would bear its load.
fn blamed(case: &Case<'_>) -> bool {
    !limits::above(case.amps.amperes(), alone(case.table))
}

fn headline(case: &Case<'_>) -> String {
    let alone = Current::from_amperes(alone(case.table));
    format!(
        "{} carries {} in a bundle of {} loaded wires, where it bears {}; alone it would bear {}.",
        words::capital(&names::wire(case.wire)),
        words::amps(case.amps),
        words::count(case.wire.bundle.value as usize),
        words::amps(case.table.current),
        words::amps(alone),
    )
}
