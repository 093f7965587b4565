//! `derated-by-hot-place`: a load that fits in open air, not in the foam, in
//! the hot cavity or in the hot air where the conductor runs. Not here: other
//! loaded conductors (`derated-by-bundle`).

use super::derated::{alone, cool, over_table};
use super::overloaded_chain::overloaded_jumpers;
use crate::finding::{Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, limits, names, subjects, words};
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, Run, WireResult};
use wainwright_model::Project;

/// The rule.
pub(crate) struct DeratedByHotPlace;

static DOC: RuleDoc = RuleDoc {
    id: "derated-by-hot-place",
    title: "A conductor is overloaded because of where it runs",
    worst: Severity::Caution,
    what: "A conductor carries more than the published table allows at the temperature, or in \
           the foam, where it runs, although it would bear the same current in open air at 30 °C.",
    why: "A wire rids itself of heat only while its surroundings are cooler. Foam halves what it \
          bears; a roof cavity in the sun reaches 60 to 70 °C, where 75 °C insulation has hardly \
          any room left.",
    example: "A 12 AWG wire bears 25 A in open air and 12 A inside foam; it carries 15 A to the \
              roof fan.",
    what_to_do: "Run it in open air or in conduit on the cool side of the lining, or use a \
                 thicker wire or one with a higher temperature class.",
    sources: &[
        "ampacity/hot_space",
        "ampacity/thermal_insulation",
        "limit/ratios",
    ],
};

impl Rule for DeratedByHotPlace {
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

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let wires = subjects::wires(finding, assessment);
        let enclosed = |index: &usize| {
            assessment
                .wires
                .get(*index)
                .is_some_and(|wire| matches!(wire.run.value, Run::Foam | Run::Cavity))
        };
        let mut remedies = vec![
            sizes::thicker(assessment, &wires),
            sizes::insulation(assessment, &wires, sizes::better_insulation(project)),
        ];
        if wires.iter().all(enclosed) {
            remedies.push(sizes::run(assessment, &wires, "open", "In the open, run"));
        }
        Remedy::some(remedies)
    }
}

fn find_one(assessment: &Assessment, project: &Project, wire: &WireResult) -> Option<Finding> {
    let table = wire.ampacity.table.as_ref()?;
    let (state, amps) = over_table(assessment, wire)?;
    let place_to_blame = !limits::above(amps.amperes(), cool(table));
    let bundle_to_blame = !limits::above(amps.amperes(), alone(table));
    if !place_to_blame || bundle_to_blame {
        return None;
    }
    let headline = format!(
        "{} carries {} {}, where it bears {}; in open air at 30 °C it would bear {:.1} A.",
        words::capital(&names::wire(wire)),
        words::amps(amps),
        names::place(project, wire),
        words::amps(table.current),
        cool(table),
    );
    Some(
        Finding::new(
            DOC.id,
            Severity::Caution,
            Subject::Wire(wire.id.clone()),
            headline,
        )
        .over(limits::current("I", amps), limits::ampacity(wire))
        .note(format!("This is {}.", names::state(assessment, state)))
        .assuming(assessment, &["wire", wire.id.as_str()])
        .assuming(assessment, &["trailer"])
        .asking(Ask::WireAmpacity {
            wire: wire.id.to_string(),
        }),
    )
}
