//! `inverter-lead-weak`: leads that cost an inverter its voltage when the
//! battery is low. Not here: heat of the leads (`overheated-conductor`).

use super::voltage_drop::{supply_wires, worst_drop};
use crate::finding::{Amount, Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, limits, names, subjects, words};
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, ConsumerResult, Role};
use wainwright_model::Project;
use wainwright_units::Voltage;

/// The rule.
pub(crate) struct InverterLeadWeak;

static DOC: RuleDoc = RuleDoc {
    id: "inverter-lead-weak",
    title: "The leads of an inverter are too weak for it",
    worst: Severity::Warning,
    what: "Between battery and inverter more than 3 % of the voltage is lost at the load that is \
           plugged in, or the leads pull it below its shut-down voltage, with the battery low or \
           while it surges. A battery that sags so far by itself is not counted.",
    why: "An inverter takes constant power: the lower the voltage, the more current it draws, \
          which lowers the voltage again. It shuts down with the battery a third full, often \
          just when a motor starts.",
    example: "1500 W through 8 ft of 2 AWG: 162 A at a low battery, 0.47 V lost, 3.7 %.",
    what_to_do: "Thicker and shorter leads, both of them; mount the inverter next to the battery.",
    sources: &[
        "limit/ratios",
        "Product manuals: at most 0.5 V at 12 V over both leads.",
    ],
};

impl Rule for InverterLeadWeak {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let inverters = assessment
            .consumers
            .iter()
            .filter(|c| c.role == Role::Inverter);
        inverters
            .filter_map(|inverter| {
                let finding = match (drop(assessment, inverter), under(assessment, inverter)) {
                    (Some(drop), Some(under)) => joined(drop, under),
                    (drop, under) => drop.or(under)?,
                };
                Some(with_leads(assessment, project, inverter, finding))
            })
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let Some(item) = subjects::item(finding) else {
            return Vec::new();
        };
        let graph = Graph::new(assessment, project);
        let way = supply_wires(assessment, &graph, item.as_str());
        let own: Vec<usize> = way
            .iter()
            .copied()
            .filter(|index| graph.loads_behind(assessment, *index).len() == 1)
            .collect();
        let inverter = assessment.consumers.iter().find(|c| c.item == *item);
        let state = inverter
            .and_then(|i| worst_drop(assessment, i))
            .map_or(0, |worst| worst.0);
        Remedy::some(vec![
            sizes::graded(assessment, &way, state),
            sizes::thicker(assessment, &own),
            sizes::thicker(assessment, &way),
        ])
    }
}

/// The leads are one cause: what they do in a surge is told with the rest.
fn joined(mut drop: Finding, under: Finding) -> Finding {
    drop.severity = drop.severity.min(under.severity);
    for subject in under.subjects {
        drop = drop.also(subject);
    }
    drop.note(under.headline)
}

/// Too much voltage lost in a state that can last.
fn drop(assessment: &Assessment, inverter: &ConsumerResult) -> Option<Finding> {
    let limit = &assessment.limits.drop_critical;
    let (state, here, share) = worst_drop(assessment, inverter)?;
    if !limits::above(share.fraction(), limit.value.fraction()) {
        return None;
    }
    let (lost, allowed) = words::percents(share, limit.value);
    let headline = format!(
        "{}: {lost} of the voltage ({}) is lost between the battery and it at {}, {allowed} allowed.",
        words::capital(&names::consumer(inverter)),
        words::volts(here.drop.unwrap_or(Voltage::from_volts(0.0))),
        words::amps(here.amps),
    );
    let value = Amount::computed("ΔU", share.fraction(), lost);
    let subject = Subject::Item(inverter.item.clone());
    Some(
        Finding::new(DOC.id, Severity::Caution, subject, headline)
            .over(value, limits::share("ΔU_max", limit))
            .note(format!("This is {}.", names::state(assessment, state)))
            .asking(Ask::ConsumerDrop {
                item: inverter.item.to_string(),
                state,
            }),
    )
}

/// Pulled below its shut-down voltage by the conductors.
fn under(assessment: &Assessment, inverter: &ConsumerResult) -> Option<Finding> {
    let state = shut_down(assessment, inverter)?;
    let lowest = inverter.lowest?;
    let volts = inverter.states.get(state)?.volts?;
    let lasting = assessment
        .states
        .get(state)
        .is_some_and(|state| state.lasting);
    let severity = if lasting {
        Severity::Warning
    } else {
        Severity::Caution
    };
    let (gets, needs) = words::voltages(volts, lowest);
    let headline = format!(
        "{} shuts down {}: it gets {}, it needs {}.",
        words::capital(&names::consumer(inverter)),
        names::state(assessment, state),
        gets,
        needs,
    );
    let amount = |volts: Voltage| Amount::computed("U", volts.volts(), words::volts(volts));
    Some(
        Finding::new(
            DOC.id,
            severity,
            Subject::Item(inverter.item.clone()),
            headline,
        )
        .also(Subject::State(state))
        .under(amount(volts), amount(lowest))
        .note("With better conductors the battery would hold it up.")
        .asking(Ask::ConsumerDrop {
            item: inverter.item.to_string(),
            state,
        }),
    )
}

fn with_leads(
    assessment: &Assessment,
    project: &Project,
    inverter: &ConsumerResult,
    finding: Finding,
) -> Finding {
    let graph = Graph::new(assessment, project);
    let mut finding = finding.assuming(assessment, &["item", inverter.item.as_str()]);
    for index in supply_wires(assessment, &graph, inverter.item.as_str()) {
        if let Some(wire) = assessment.wires.get(index) {
            finding = finding
                .also(Subject::Wire(wire.id.clone()))
                .assuming(assessment, &["wire", wire.id.as_str()]);
        }
    }
    finding
}

/// The first state in which the leads pull the inverter under: it has shut
/// down although the battery's own terminals are above its limit. A battery
/// that sags so far by itself no lead can help.
fn shut_down(assessment: &Assessment, inverter: &ConsumerResult) -> Option<usize> {
    let lowest = inverter.lowest?;
    let states = assessment.states.iter().enumerate();
    states
        .filter_map(|(index, _)| inverter.states.get(index).map(|state| (index, state)))
        .filter(|(_, state)| state.on && state.dropped_out)
        .find(|(_, state)| match (state.volts, state.drop) {
            (Some(volts), Some(drop)) => (volts + drop) >= lowest,
            _ => false,
        })
        .map(|(index, _)| index)
}
