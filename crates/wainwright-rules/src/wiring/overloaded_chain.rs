//! `overloaded-chain`: a jumper from gear to gear that carries the sum of
//! all that follows and is too thin for it. One finding for each chain. Not
//! here: single circuits (`overheated-conductor`).

use super::fuse_behind_switch::switch_fed_by;
use super::{overheated_conductor, oversized_fuse};
use crate::finding::{Finding, Subject};
use crate::remedy::{feeds, fuses, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::chain::{Chain, chains};
use crate::view::{Graph, limits, names, subjects, words};
use std::collections::BTreeSet;
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, DeviceResult, WireResult};
use wainwright_model::Project;
use wainwright_units::{Current, Temperature};

/// The rule.
pub(crate) struct OverloadedChain;

static DOC: RuleDoc = RuleDoc {
    id: "overloaded-chain",
    title: "A jumper carries several circuits at once and is too thin",
    worst: Severity::Danger,
    what: "Gear is fed from gear: each jumper carries the sum of everything behind it. At least \
           one jumper that serves two circuits or more carries more than it bears where it runs. \
           That the fuse ahead is too big for the jumpers is told here as well.",
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
        let fuse = first_device(assessment, &chain.jumpers);
        let rated = fuse.map_or(0.0, |fuse| fuse.rating.value.amperes());
        let enough = |rating: f64| Current::from_amperes(rating / limits::rating_share());
        let smaller = fuse.map_or(Remedy::ladder(Vec::new()), |fuse| {
            fuses::down(project, fuse)
        });
        let all = sizes::thicker_for(assessment, &chain.jumpers, enough(rated));
        Remedy::some(vec![
            sizes::thicker_for(assessment, &overloaded, enough(rated)),
            fuses::both(&smaller, &sizes::thicker(assessment, &chain.jumpers)),
            all,
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
    let oversized: Vec<oversized_fuse::Case<'_>> = oversized_fuse::cases(assessment)
        .filter(|case| chain.jumpers.contains(&case.wire))
        .collect();
    let headline = headline(assessment, project, worst);
    let severity = cases
        .iter()
        .map(Case::severity)
        .chain(oversized.iter().map(|case| case.severity))
        .min()
        .unwrap_or(Severity::Warning);
    // The chain keeps its name while only some of its jumpers are mended.
    let mut finding = Finding::new(DOC.id, severity, Subject::Wire(first.id.clone()), headline)
        .also(Subject::Wire(worst.wire.id.clone()));
    for case in &cases {
        finding = finding
            .also(Subject::Wire(case.wire.id.clone()))
            .assuming(assessment, &["wire", case.wire.id.as_str()]);
        if case.wire.id != worst.wire.id {
            finding = finding.note(format!(
                "{} carries {} for {}; it bears {}.",
                words::capital(&names::again(case.wire)),
                words::amps(case.amps),
                words::counted(case.circuits, "circuit"),
                words::amps(case.wire.ampacity.in_force),
            ));
        }
    }
    for sentence in fuse_too_big(project, &oversized) {
        finding = finding.note(sentence);
    }
    if let Some(switch) = switch_fed_by(assessment, graph, &chain.jumpers) {
        let panel = names::item(project, &switch);
        finding = finding.note(format!(
            "The fuses of {panel} sit behind its switches and protect none of these jumpers."
        ));
    }
    // Danger by the fuse's opening gates alone, which are written from memory.
    let by_heat = cases.iter().map(Case::severity).min();
    finding = finding.memory(severity == Severity::Danger && by_heat != Some(Severity::Danger));
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

/// What is wrong, where, how bad, against which limit.
fn headline(assessment: &Assessment, project: &Project, worst: &Case<'_>) -> String {
    let system = limits::system(project);
    let (hot, limit) = words::heats(worst.temperature(), worst.wire.limit, system);
    let but = match worst.is_hot() {
        true => format!("; its insulation bears {limit}"),
        false => String::new(),
    };
    format!(
        "{} runs at {hot}{}{but}: it carries {} at once ({}) and bears {} where it runs.",
        words::capital(&jumper(worst.wire)),
        behind(assessment, project, worst.wire),
        words::counted(worst.circuits, "circuit"),
        words::amps(worst.amps),
        words::amps(worst.wire.ampacity.in_force),
    )
}

/// What `oversized-fuse` would say of the jumpers of this chain: one cause,
/// one finding.
fn fuse_too_big(project: &Project, oversized: &[oversized_fuse::Case<'_>]) -> Vec<String> {
    let Some(worst) = oversized.iter().min_by_key(|case| case.severity) else {
        return Vec::new();
    };
    let mut sentences = vec![format!(
        "{} is too big to protect {}.",
        words::capital(&worst.names(project)),
        match oversized.len() {
            1 => "this jumper".to_string(),
            many => format!("{} of this chain", words::counted(many, "jumper")),
        },
    )];
    sentences.extend(worst.consequences(project));
    sentences
}

/// Every jumper of a chain of which at least one is overloaded: what is wrong
/// with them is told in the finding about the chain.
pub(crate) fn chain_wires(assessment: &Assessment, graph: &Graph) -> BTreeSet<usize> {
    chains(assessment, graph)
        .into_iter()
        .filter(|chain| {
            let mut jumpers = chain.jumpers.iter();
            jumpers.any(|jumper| case(assessment, graph, *jumper).is_some())
        })
        .flat_map(|chain| chain.jumpers)
        .collect()
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
        match self.is_hot() {
            true => overheated_conductor::severity(self.wire, self.temperature()),
            false => Severity::Caution,
        }
    }

    /// Whether its metal is hotter than its insulation bears.
    fn is_hot(&self) -> bool {
        limits::above(self.temperature().celsius(), self.wire.limit.celsius())
    }
}

/// The device that guards these jumpers.
fn first_device<'a>(assessment: &'a Assessment, jumpers: &[usize]) -> Option<&'a DeviceResult> {
    let wires = jumpers
        .iter()
        .filter_map(|index| assessment.wires.get(*index));
    wires
        .flat_map(|wire| &wire.guards)
        .find_map(|guard| limits::guard_device(assessment, guard))
}

/// ` behind the 30 A fuse main`, when one device guards it.
fn behind(assessment: &Assessment, project: &Project, wire: &WireResult) -> String {
    wire.guards
        .iter()
        .find_map(|guard| limits::guard_device(assessment, guard))
        .map(|device| format!(" behind {}", names::device(project, device)))
        .unwrap_or_default()
}

fn jumper(wire: &WireResult) -> String {
    if wire.label.is_empty() || wire.label == wire.id.as_str() {
        format!("jumper {}", wire.id)
    } else {
        format!("jumper {}", names::wire(wire))
    }
}
