//! `inverter-lead-weak`: leads that cost an inverter its voltage when the
//! battery is low. Not here: heat of the leads (`overheated-conductor`).

use super::voltage_drop::{supply_wires, worst_drop};
use crate::finding::{Amount, Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, limits, names, subjects, words};
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, ConsumerResult, Role, StateKind};
use wainwright_model::Project;
use wainwright_units::{Ratio, Voltage};

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
            .filter_map(|inverter| find_one(assessment, project, inverter))
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
        let own = way
            .iter()
            .copied()
            .filter(|index| graph.behind(assessment, *index).len() == 1)
            .collect::<Vec<_>>();
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

fn find_one(
    assessment: &Assessment,
    project: &Project,
    inverter: &ConsumerResult,
) -> Option<Finding> {
    let limit = &assessment.limits.drop_critical;
    let worst = worst_drop(assessment, inverter);
    let weak =
        worst.filter(|(_, _, share)| limits::above(share.fraction(), limit.value.fraction()));
    let out = shut_down(assessment, inverter);
    if weak.is_none() && out.is_none() {
        return None;
    }
    let (state, here, share) = weak.or(worst).or_else(|| {
        let index = out?;
        let here = *inverter.states.get(index)?;
        Some((
            index,
            here,
            here.drop_share.unwrap_or(Ratio::from_fraction(0.0)),
        ))
    })?;
    let zero = Voltage::from_volts(0.0);
    let mut headline = format!(
        "{} draws {} and loses {} in its leads ({}), {} allowed.",
        words::capital(&names::consumer(inverter)),
        words::amps(here.amps),
        words::volts(here.drop.unwrap_or(zero)),
        words::percent(share),
        words::percent(limit.value),
    );
    if let Some(index) = out {
        let volts = inverter
            .states
            .get(index)
            .and_then(|s| s.volts)
            .unwrap_or(zero);
        headline = format!(
            "{} shuts down {}: it gets {}, it needs {}.",
            words::capital(&names::consumer(inverter)),
            names::state(assessment, index),
            words::volts(volts),
            words::volts(inverter.lowest.unwrap_or(zero)),
        );
    }
    let severity = match out.and_then(|index| assessment.states.get(index)) {
        Some(state) if state.kind != StateKind::Surge => Severity::Warning,
        _ => Severity::Caution,
    };
    let value = Amount::computed("ΔU", share.fraction(), words::percent(share));
    let mut finding = Finding::new(
        DOC.id,
        severity,
        Subject::Item(inverter.item.clone()),
        headline,
    )
    .over(value, limits::share("ΔU_max", limit))
    .note(format!(
        "The drop is that {}.",
        names::state(assessment, state)
    ))
    .assuming(assessment, &["item", inverter.item.as_str()])
    .asking(Ask::ConsumerDrop {
        item: inverter.item.to_string(),
        state,
    });
    let graph = Graph::new(assessment, project);
    for index in supply_wires(assessment, &graph, inverter.item.as_str()) {
        if let Some(wire) = assessment.wires.get(index) {
            finding = finding
                .also(Subject::Wire(wire.id.clone()))
                .assuming(assessment, &["wire", wire.id.as_str()]);
        }
    }
    Some(finding)
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
