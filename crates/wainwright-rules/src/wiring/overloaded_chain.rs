//! `overloaded-chain`: a jumper from gear to gear that carries the sum of
//! all that follows and is too thin for it. One finding for each chain. Not
//! here: single circuits (`overheated-conductor`).

use super::overheated_conductor;
use crate::finding::{Finding, Subject};
use crate::remedy::{feeds, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::chain::{Chain, chains};
use crate::view::{Graph, limits, names, subjects, words};
use std::collections::BTreeSet;
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, WireResult};
use wainwright_model::Project;
use wainwright_units::{Current, Temperature};

/// The rule.
pub(crate) struct OverloadedChain;

static DOC: RuleDoc = RuleDoc {
    id: "overloaded-chain",
    title: "A jumper carries several circuits at once and is too thin",
    worst: Severity::Danger,
    what: "Gear is fed from gear: each jumper carries the sum of everything behind it. At least \
           one jumper that serves two circuits or more carries more than it bears where it runs.",
    why: "Jumpers that come with switch panels are sized for one circuit. The first of them \
          carries all, and so does the first terminal; a fuse upstream that is sized for the \
          sum never opens.",
    example: "Jumper j1 of a six-way panel carries 21.5 A for five circuits; as a 16 AWG wire \
              inside foam it bears 14 A.",
    what_to_do: "Replace the first jumpers by wire for the whole sum, or give each switch a feed \
                 of its own from a bus bar.",
    sources: &[
        "ampacity/boat",
        "Sum of currents at a node: Kirchhoff's first law.",
    ],
};

/// One overloaded jumper.
struct Case<'a> {
    wire: &'a WireResult,
    state: usize,
    amps: Current,
    circuits: usize,
}

impl Rule for OverloadedChain {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let graph = Graph::new(assessment, project);
        chains(assessment, &graph)
            .iter()
            .filter_map(|chain| find_one(assessment, project, &graph, chain))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let graph = Graph::new(assessment, project);
        let named = subjects::wires(finding, assessment);
        let found = chains(assessment, &graph);
        let chain = found
            .iter()
            .find(|chain| named.iter().any(|w| chain.jumpers.contains(w)));
        let Some(chain) = chain else {
            return Vec::new();
        };
        let overloaded: Vec<usize> = chain
            .jumpers
            .iter()
            .copied()
            .filter(|jumper| case(assessment, &graph, *jumper).is_some())
            .collect();
        Remedy::some(vec![
            sizes::thicker(assessment, &overloaded),
            sizes::thicker(assessment, &chain.jumpers),
            feeds::own(assessment, project, &graph, &chain.jumpers),
        ])
    }
}

fn find_one(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
    chain: &Chain,
) -> Option<Finding> {
    let cases: Vec<Case<'_>> = chain
        .jumpers
        .iter()
        .filter_map(|jumper| case(assessment, graph, *jumper))
        .collect();
    let excess = |case: &Case<'_>| case.amps.amperes() / case.wire.ampacity.in_force.amperes();
    let worst = cases
        .iter()
        .max_by(|a, b| excess(a).total_cmp(&excess(b)))?;
    let first = assessment.wires.get(*chain.jumpers.first()?)?;
    let headline = format!(
        "{} runs at {}{}: it carries {} at once ({}), it bears {} where it runs.",
        words::capital(&jumper(worst.wire)),
        words::heat(worst.temperature()),
        behind(assessment, project, worst.wire),
        words::counted(worst.circuits, "circuit"),
        words::amps(worst.amps),
        words::amps(worst.wire.ampacity.in_force),
    );
    let severity = cases
        .iter()
        .map(Case::severity)
        .min()
        .unwrap_or(Severity::Warning);
    // The chain keeps its name while only some of its jumpers are mended.
    let mut finding = Finding::new(DOC.id, severity, Subject::Wire(first.id.clone()), headline)
        .also(Subject::Wire(worst.wire.id.clone()));
    for case in &cases {
        finding = finding
            .also(Subject::Wire(case.wire.id.clone()))
            .assuming(assessment, &["wire", case.wire.id.as_str()]);
        finding = finding.note(format!(
            "Jumper {} carries {} for {}, it bears {}.",
            case.wire.id,
            words::amps(case.amps),
            words::counted(case.circuits, "circuit"),
            words::amps(case.wire.ampacity.in_force),
        ));
    }
    Some(
        finding
            .over(
                limits::current("I", worst.amps),
                limits::ampacity(worst.wire),
            )
            .note(format!(
                "This is {}.",
                names::state(assessment, worst.state)
            ))
            .asking(Ask::WireTemperature {
                wire: worst.wire.id.to_string(),
                state: worst.state,
            }),
    )
}

/// Every jumper that some chain's finding names as overloaded.
pub(crate) fn overloaded_jumpers(assessment: &Assessment, graph: &Graph) -> BTreeSet<usize> {
    chains(assessment, graph)
        .iter()
        .flat_map(|chain| &chain.jumpers)
        .copied()
        .filter(|jumper| case(assessment, graph, *jumper).is_some())
        .collect()
}

fn case<'a>(assessment: &'a Assessment, graph: &Graph, jumper: usize) -> Option<Case<'a>> {
    let wire = assessment.wires.get(jumper)?;
    let (state, amps) = limits::most_amps(assessment, wire)?;
    let circuits = graph.loads_behind(assessment, jumper).len();
    let overloaded = limits::above(amps.amperes(), wire.ampacity.in_force.amperes());
    (circuits >= 2 && overloaded).then_some(Case {
        wire,
        state,
        amps,
        circuits,
    })
}

impl Case<'_> {
    fn temperature(&self) -> Temperature {
        let state = self.wire.states.get(self.state);
        state.map_or(self.wire.air.value, |state| state.temperature)
    }

    /// As bad as the heat is; a jumper over its published value that is still
    /// cool enough is a caution.
    fn severity(&self) -> Severity {
        let hot = self.temperature();
        match limits::above(hot.celsius(), self.wire.limit.celsius()) {
            true => overheated_conductor::severity(self.wire, hot),
            false => Severity::Caution,
        }
    }
}

/// ` behind the 30 A fuse main`, when one device guards it.
fn behind(assessment: &Assessment, project: &Project, wire: &WireResult) -> String {
    wire.guards
        .iter()
        .find_map(|guard| limits::guard_device(assessment, guard))
        .map(|device| format!(" behind the {}", names::device(project, device)))
        .unwrap_or_default()
}

fn jumper(wire: &WireResult) -> String {
    if wire.label.is_empty() || wire.label == wire.id.as_str() {
        format!("jumper {}", wire.id)
    } else {
        format!("{} (jumper {})", wire.label, wire.id)
    }
}
