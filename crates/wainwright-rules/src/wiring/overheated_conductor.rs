//! `overheated-conductor`: metal hotter than its insulation bears, or more
//! current than the published table allows. One finding for each circuit. Not here: jumpers of a chain
//! (`overloaded-chain`), what a fuse lets through in a fault (`oversized-fuse`).

use super::thin_supplied_lead::gear_of;
use crate::finding::{Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Circuits, Graph, limits, names, subjects, words};
use crate::wiring::derated::fits_elsewhere;
use crate::wiring::overloaded_chain::overloaded_jumpers;
use std::collections::BTreeMap;
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, WireResult};
use wainwright_model::Project;
use wainwright_units::{Current, Temperature};

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
        "Better insulation is proposed up to 90 °C only, which terminals bear: judgement.",
    ],
};

/// Above the limit by this much [K] the finding is a danger: with half the
/// life lost per 10 K an eighth of it is left. Judgement.
const DANGER_KELVINS: f64 = 30.0;

/// Terminals and the gear behind them bear this much \[°C\]; a wire that is
/// hotter needs more metal, not better insulation. Judgement.
const TERMINALS_BEAR: f64 = 90.0;

impl Rule for OverheatedConductor {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let graph = Graph::new(assessment, project);
        let circuits = Circuits::new(assessment, &graph);
        let chained = overloaded_jumpers(assessment, &graph);
        let mut by_circuit: BTreeMap<usize, Vec<Hot<'_>>> = BTreeMap::new();
        for index in (0..assessment.wires.len()).filter(|index| !chained.contains(index)) {
            if let Some(hot) = hot(assessment, index) {
                by_circuit
                    .entry(circuits.name_of(index))
                    .or_default()
                    .push(hot);
            }
        }
        by_circuit
            .iter()
            .filter_map(|(name, hot)| about(assessment, project, &graph, *name, hot))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let named = subjects::wires(finding, assessment);
        let bad = |wire: &usize| hot(assessment, *wire).is_some();
        let wires: Vec<usize> = named.into_iter().filter(bad).collect();
        let hottest = wires
            .iter()
            .filter_map(|wire| hot(assessment, *wire)?.temperature)
            .fold(f64::NEG_INFINITY, |most, hot| most.max(hot.celsius()));
        let graph = Graph::new(assessment, project);
        let partners = Circuits::new(assessment, &graph).all_partners(&wires);
        let mut remedies = vec![
            sizes::thicker(assessment, &wires),
            sizes::thicker_with(assessment, &wires, &partners),
        ];
        if hottest <= TERMINALS_BEAR {
            let class = sizes::better_insulation(project);
            remedies.push(sizes::insulation(assessment, &wires, class));
        }
        Remedy::some(remedies)
    }
}

/// A conductor that is over a limit, in its worst state.
struct Hot<'a> {
    index: usize,
    wire: &'a WireResult,
    state: usize,
    amps: Current,
    /// Its temperature where that is over the limit of the insulation; the
    /// current alone is over the table's value otherwise.
    temperature: Option<Temperature>,
}

/// This conductor, when it is too hot or above its table value. Where only
/// the place is to blame for the latter, `derated-by-…` says so instead.
fn hot(assessment: &Assessment, index: usize) -> Option<Hot<'_>> {
    let wire = assessment.wires.get(index)?;
    let (state, here) = limits::worst(wire)?;
    if limits::above(here.temperature.celsius(), wire.limit.celsius()) {
        let temperature = Some(here.temperature);
        return Some(Hot {
            index,
            wire,
            state,
            amps: here.amps.abs(),
            temperature,
        });
    }
    let table = wire.ampacity.table.as_ref()?;
    let (state, amps) = limits::most_amps(assessment, wire)?;
    let over = limits::above(amps.amperes(), table.current.amperes());
    (over && !fits_elsewhere(wire, amps)).then_some(Hot {
        index,
        wire,
        state,
        amps,
        temperature: None,
    })
}

impl Hot<'_> {
    fn severity(&self) -> Severity {
        self.temperature
            .map_or(Severity::Caution, |hot| severity(self.wire, hot))
    }

    fn over(&self) -> f64 {
        let here = self.temperature.unwrap_or(self.wire.air.value);
        here.celsius() - self.wire.limit.celsius()
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

fn about(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
    name: usize,
    hot: &[Hot<'_>],
) -> Option<Finding> {
    let worst = hot
        .iter()
        .max_by(|a, b| a.over().total_cmp(&b.over()).then(b.index.cmp(&a.index)))?;
    let served = graph.loads_behind(assessment, worst.index).len();
    let headline = headline(project, worst, hot.len(), served);
    let subject = Subject::Wire(assessment.wires.get(name)?.id.clone());
    let wire = worst.wire;
    let (state, id) = (worst.state, wire.id.to_string());
    let system = limits::system(project);
    let mut finding = Finding::new(DOC.id, worst.severity(), subject, headline)
        .also(Subject::Wire(wire.id.clone()))
        .note(format!("This is {}.", names::state(assessment, state)));
    finding = match worst.temperature {
        Some(hot) => finding
            .over(
                limits::heat("θ", hot, system),
                limits::insulation(wire, system),
            )
            .asking(Ask::WireTemperature { wire: id, state }),
        None => finding
            .over(limits::current("I", worst.amps), limits::ampacity(wire))
            .note("Its computed temperature is still below the limit of the insulation.")
            .asking(Ask::WireAmpacity { wire: id }),
    };
    let ruined = |hot: Temperature| hot.celsius() >= wire.short_limit.celsius();
    if worst.temperature.is_some_and(ruined) {
        finding = finding.note(
            "At this temperature the insulation fails as in a short circuit. Keep it switched \
             off until it is mended.",
        );
    }
    if let Some(sentence) = hot
        .iter()
        .find_map(|hot| came_with(assessment, project, hot))
    {
        finding = finding.note(sentence);
    }
    for hot in hot {
        finding = finding
            .also(Subject::Wire(hot.wire.id.clone()))
            .assuming(assessment, &["wire", hot.wire.id.as_str()]);
    }
    Some(finding)
}

/// What `thin-supplied-lead` would say of this conductor.
fn came_with(assessment: &Assessment, project: &Project, hot: &Hot<'_>) -> Option<String> {
    let (gear, rated) = gear_of(assessment, project, hot.wire).filter(|_| hot.wire.supplied)?;
    let gear = assessment.consumers.get(gear)?;
    Some(format!(
        "{} came with {}, which is rated {}.",
        words::capital(&names::again(hot.wire)),
        names::consumer(gear),
        words::amps(rated),
    ))
}

/// Whether the metal of this conductor gets hotter than its insulation bears.
pub(crate) fn runs_too_hot(assessment: &Assessment, wire: usize) -> bool {
    hot(assessment, wire).is_some_and(|hot| hot.temperature.is_some())
}

fn headline(project: &Project, worst: &Hot<'_>, count: usize, served: usize) -> String {
    let name = words::capital(&names::wire(worst.wire));
    let more = match count {
        1 => String::new(),
        many => format!(
            "; so {}",
            match many {
                2 => "does one more wire of its circuit".to_string(),
                _ => format!(
                    "do {} of its circuit",
                    words::counted(many - 1, "more wire")
                ),
            }
        ),
    };
    let place = names::place(project, worst.wire);
    let amps = words::amps(worst.amps);
    match worst.temperature {
        Some(hot) => {
            let system = limits::system(project);
            let (hot, limit) = words::heats(hot, worst.wire.limit, system);
            format!(
                "{name} runs at {hot}, its insulation bears {limit}: it carries {amps}{}, but \
                 bears only {} {place}{more}.",
                circuits(served),
                words::amps(worst.wire.ampacity.in_force),
            )
        }
        None => format!(
            "{name} carries {amps}, the published table allows {} {place}{more}.",
            words::amps(worst.wire.ampacity.in_force),
        ),
    }
}

fn circuits(served: usize) -> String {
    match served {
        0 | 1 => String::new(),
        many => format!(" for {} at once", words::counted(many, "circuit")),
    }
}
