//! `derated-by-bundle`: a load that fits a single conductor, not one among
//! other loaded ones. Not here: heat of the place (`derated-by-hot-place`).

use super::derated::{alone, over_table};
use super::overloaded_chain::overloaded_jumpers;
use crate::finding::{Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, limits, names, subjects, words};
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, WireResult};
use wainwright_model::{Edit, Project, Value};

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
        let chained = overloaded_jumpers(assessment, &Graph::new(assessment, project));
        assessment
            .wires
            .iter()
            .enumerate()
            .filter(|(index, _)| !chained.contains(index))
            .filter_map(|(_, wire)| find_one(assessment, project, wire))
            .collect()
    }

    fn remedies(&self, finding: &Finding, assessment: &Assessment, _: &Project) -> Vec<Remedy> {
        let wires = subjects::wires(finding, assessment);
        Remedy::some(vec![
            apart(assessment, &wires),
            sizes::thicker(assessment, &wires),
        ])
    }
}

fn find_one(assessment: &Assessment, project: &Project, wire: &WireResult) -> Option<Finding> {
    let table = wire.ampacity.table.as_ref()?;
    let (state, amps) = over_table(assessment, wire)?;
    if limits::above(amps.amperes(), alone(table)) {
        return None;
    }
    let headline = format!(
        "{} carries {} in a bundle of {} loaded wires, where it bears {}; alone it would bear {:.1} A.",
        words::capital(&names::wire(wire)),
        words::amps(amps),
        words::count(wire.bundle.value as usize),
        words::amps(table.current),
        alone(table),
    );
    Some(
        Finding::new(
            DOC.id,
            Severity::Caution,
            Subject::Wire(wire.id.clone()),
            headline,
        )
        .over(limits::current("I", amps), limits::ampacity(wire))
        .note(format!("It runs {}.", names::place(project, wire)))
        .note(format!("This is {}.", names::state(assessment, state)))
        .assuming(assessment, &["wire", wire.id.as_str()])
        .asking(Ask::WireAmpacity {
            wire: wire.id.to_string(),
        }),
    )
}

/// Runs these wires alone.
fn apart(assessment: &Assessment, wires: &[usize]) -> Remedy {
    let chosen = wires
        .iter()
        .filter_map(|index| assessment.wires.get(*index));
    let edits: Vec<Edit> = chosen
        .clone()
        .flat_map(|wire| {
            let id = wire.id.as_str();
            let alone = crate::remedy::edits::set(&["wire", id, "bundle"], Value::Integer(1));
            let bundled = wire.run.value == wainwright_analysis::result::Run::Bundle;
            let open =
                bundled.then(|| crate::remedy::edits::set_text(&["wire", id, "runs"], "open"));
            std::iter::once(alone).chain(open)
        })
        .collect();
    let metres: f64 = chosen.map(|wire| wire.length.value.metres()).sum();
    let title = format!(
        "Run wire {} apart from the others, with air around it",
        names::wires(assessment, wires, 6)
    );
    Remedy::one(title, edits, 1.0 + metres)
}
