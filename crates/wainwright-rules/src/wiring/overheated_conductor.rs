//! `overheated-conductor`: metal hotter than its insulation bears, or more
//! current than the published table allows. Not here: jumpers of a chain
//! (`overloaded-chain`), what a fuse lets through in a fault (`oversized-fuse`).

use crate::finding::{Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, limits, names, subjects, words};
use crate::wiring::derated::fits_elsewhere;
use crate::wiring::overloaded_chain::overloaded_jumpers;
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, WireInState, WireResult};
use wainwright_model::{Id, Project};
use wainwright_units::Temperature;

/// The rule.
pub(crate) struct OverheatedConductor;

static DOC: RuleDoc = RuleDoc {
    id: "overheated-conductor",
    title: "A conductor runs hotter than its insulation bears",
    worst: Severity::Danger,
    what: "In a state that can last, the computed metal temperature of a conductor is above the \
           continuous limit of its insulation; or its current is above the published ampacity \
           with all factors, although the computed temperature is still below the limit.",
    why: "Insulation that runs too hot hardens, cracks or softens and lets metal touch metal, \
          behind panelling where nobody sees it. Ten kelvin too much halve its life. The fuse \
          does not help: nothing is short-circuited, the fuse carries what it was made for.",
    example: "A 16 AWG jumper with 85 °C insulation carries 21.5 A inside foam at 45 °C and \
              settles at 96 °C. It bears 14 A there.",
    what_to_do: "Use thicker wire, or carry less through it: give the gear behind it a feed of \
                 its own. Insulation with a higher limit is allowed only where its terminals \
                 bear the heat as well.",
    sources: &[
        "insulation/classes",
        "ampacity/boat",
        "Signal words are a judgement of this project: Danger from 30 K above the limit, which is \
         an eighth of the insulation's life, or where the short-circuit limit of the insulation \
         is reached for good.",
    ],
};

/// Above the limit by this much [K] the finding is a danger: with half the
/// life lost per 10 K an eighth of it is left. Judgement.
const DANGER_KELVINS: f64 = 30.0;

impl Rule for OverheatedConductor {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let graph = Graph::new(assessment, project);
        let chained = overloaded_jumpers(assessment, &graph);
        let found = assessment
            .wires
            .iter()
            .enumerate()
            .filter(|(index, _)| !chained.contains(index))
            .filter_map(|(index, wire)| {
                let (state, here) = limits::worst(wire)?;
                if limits::above(here.temperature.celsius(), wire.limit.celsius()) {
                    let served = graph.behind(assessment, index).len();
                    Some(too_hot(assessment, project, wire, state, here, served))
                } else {
                    above_table(assessment, project, wire)
                }
            });
        found.collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let wires = subjects::wires(finding, assessment);
        let graph = Graph::new(assessment, project);
        let partners = subjects::all_partners(assessment, &graph, &wires);
        Remedy::some(vec![
            sizes::thicker(assessment, &wires),
            sizes::thicker_with(assessment, &wires, &partners),
            sizes::insulation(assessment, &wires, sizes::better_insulation(project)),
        ])
    }
}

/// How bad this lasting temperature is for this wire.
pub(crate) fn severity(wire: &WireResult, hot: Temperature) -> Severity {
    let over = hot.celsius() - wire.limit.celsius();
    if over >= DANGER_KELVINS || hot.celsius() >= wire.short_limit.celsius() {
        Severity::Danger
    } else {
        Severity::Warning
    }
}

fn too_hot(
    assessment: &Assessment,
    project: &Project,
    wire: &WireResult,
    state: usize,
    here: WireInState,
    served: usize,
) -> Finding {
    let ruined = here.temperature.celsius() >= wire.short_limit.celsius();
    let (hot, limit) = words::heats(here.temperature, wire.limit);
    let headline = format!(
        "{} runs at {}, its insulation bears {}: it carries {}{}, it bears {} {}.",
        words::capital(&names::wire(wire)),
        hot,
        limit,
        words::amps(here.amps),
        circuits(served),
        words::amps(wire.ampacity.in_force),
        names::place(project, wire),
    );
    let value = limits::heat("θ", here.temperature);
    let finding = about(
        assessment,
        &wire.id,
        severity(wire, here.temperature),
        headline,
    )
    .over(value, limits::insulation(wire))
    .note(format!("This is {}.", names::state(assessment, state)))
    .asking(Ask::WireTemperature {
        wire: wire.id.to_string(),
        state,
    });
    if ruined {
        finding.note(
            "At this temperature the insulation fails as in a short circuit. Keep it switched \
             off until it is mended.",
        )
    } else {
        finding
    }
}

/// More than the table allows, while the heat balance still finds it cool
/// enough. Where only the place is to blame, `derated-by-…` says so instead.
fn above_table(assessment: &Assessment, project: &Project, wire: &WireResult) -> Option<Finding> {
    let table = wire.ampacity.table.as_ref()?;
    let (state, amps) = limits::most_amps(assessment, wire)?;
    if !limits::above(amps.amperes(), table.current.amperes()) || fits_elsewhere(wire, amps) {
        return None;
    }
    let headline = format!(
        "{} carries {}, the published table allows {} {}.",
        words::capital(&names::wire(wire)),
        words::amps(amps),
        words::amps(table.current),
        names::place(project, wire),
    );
    let limit = limits::ampacity(wire);
    Some(
        about(assessment, &wire.id, Severity::Caution, headline)
            .over(limits::current("I", amps), limit)
            .note("Its computed temperature is still below the limit of the insulation.")
            .note(format!("This is {}.", names::state(assessment, state)))
            .asking(Ask::WireAmpacity {
                wire: wire.id.to_string(),
            }),
    )
}

fn about(assessment: &Assessment, wire: &Id, severity: Severity, headline: String) -> Finding {
    Finding::new(DOC.id, severity, Subject::Wire(wire.clone()), headline)
        .assuming(assessment, &["wire", wire.as_str()])
}

fn circuits(served: usize) -> String {
    match served {
        0 | 1 => String::new(),
        many => format!(" for {} at once", words::counted(many, "circuit")),
    }
}
