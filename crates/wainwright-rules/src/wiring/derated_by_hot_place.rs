//! `derated-by-hot-place`: a load that fits in open air, not in the foam, in
//! the hot cavity or in the hot air where the conductor runs. Not here: other
//! loaded conductors (`derated-by-bundle`).

use super::derated::{Case, about, alone, by_circuit, case, cool};
use crate::finding::Finding;
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, subjects, words};
use wainwright_analysis::result::{Assessment, Run};
use wainwright_model::Project;
use wainwright_units::{Current, Temperature};

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
        let found = by_circuit(assessment, project, blamed);
        let told = found.iter().filter_map(|(name, cases)| {
            let headline = |case: &Case<'_>| headline(project, case);
            about(assessment, DOC.id, *name, cases, headline)
        });
        told.map(|finding| finding.assuming(assessment, &["trailer"]))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let mut wires = subjects::wires(finding, assessment);
        wires.retain(|wire| case(assessment, *wire).is_some_and(|case| blamed(&case)));
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
            remedies.push(sizes::run(assessment, &wires, "open", "Run", "in the open"));
        }
        Remedy::some(remedies)
    }
}

/// In open air the conductor would bear its load, bundled or not; by itself
/// in this place it would not.
fn blamed(case: &Case<'_>) -> bool {
    let fits = |allowed: f64| !limits::above(case.amps.amperes(), allowed);
    fits(cool(case.table)) && !fits(alone(case.table))
}

/// The table's own surroundings \[°C\].
const TABLE_AIR: f64 = 30.0;

fn headline(project: &Project, case: &Case<'_>) -> String {
    format!(
        "{} carries {} {}, where it bears {}; in open air at {} it would bear {}.",
        words::capital(&names::wire(case.wire)),
        words::amps(case.amps),
        names::place(project, case.wire),
        words::amps(case.table.current),
        words::air(
            Temperature::from_celsius(TABLE_AIR),
            limits::system(project)
        ),
        words::amps(Current::from_amperes(cool(case.table))),
    )
}
