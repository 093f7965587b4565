//! `voltage-drop`: gear that gets too little voltage because the conductors
//! use it up. Not here: inverters (`inverter-lead-weak`).

use crate::finding::{Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, limits, names, subjects, words};
use wainwright_analysis::Ask;
use wainwright_analysis::known::Known;
use wainwright_analysis::result::{Assessment, ConsumerInState, ConsumerResult, Role};
use wainwright_model::Project;
use wainwright_units::{Ratio, Voltage};

/// The rule.
pub(crate) struct VoltageDrop;

static DOC: RuleDoc = RuleDoc {
    id: "voltage-drop",
    title: "Gear gets too little voltage",
    worst: Severity::Warning,
    what: "Between the battery's terminals and the gear's, out and back, with hot conductors and \
           all joints, more voltage is lost than the profile allows: 3 % for gear that must not \
           dim or stop, 10 % for all other. Or the gear falls below the voltage it works at.",
    why: "A fridge or pump that gets 11 V instead of 12.5 V draws more current, starts badly and \
          stops while the battery is still half full. Chargers that see the wrong voltage end \
          too early. The lost power heats the wires.",
    example: "A fridge at the end of 16 ft of 14 AWG gets 11.9 V of 12.6 V: 5.6 %, 3 % allowed.",
    what_to_do: "Thicker wire in both conductors of the circuit, a shorter way, or fewer joints.",
    sources: &["limit/ratios", "ABYC E-11 and ISO 10133: 3 % and 10 %."],
};

impl Rule for VoltageDrop {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let graph = Graph::new(assessment, project);
        let loads = assessment.consumers.iter().filter(|c| c.role == Role::Load);
        loads
            .filter_map(|load| find_one(assessment, &graph, load))
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
        let own = own_wires(assessment, &graph, &way);
        let load = assessment
            .consumers
            .iter()
            .find(|c| c.item == *item && c.role == Role::Load);
        let state = load
            .and_then(|load| worst_drop(assessment, load))
            .map_or(0, |worst| worst.0);
        Remedy::some(vec![
            sizes::graded(assessment, &way, state),
            sizes::thicker(assessment, &own),
            sizes::thicker(assessment, &way),
        ])
    }
}

/// Wires on the way from the battery to this gear and back.
pub(crate) fn supply_wires(assessment: &Assessment, graph: &Graph, item: &str) -> Vec<usize> {
    let ends = assessment
        .consumers
        .iter()
        .filter(|c| c.item.as_str() == item && matches!(c.role, Role::Load | Role::Inverter))
        .find_map(|c| Some((c.nodes?, c.fed_by.as_ref()?)));
    let Some(((plus, minus), feeder)) = ends else {
        return Vec::new();
    };
    let feeder = assessment
        .consumers
        .iter()
        .filter(|c| c.item == *feeder)
        .find_map(|c| c.nodes);
    let (from_plus, from_minus) = feeder.unwrap_or((plus, minus));
    let mut wires = graph.wires_between(from_plus, plus);
    wires.extend(graph.wires_between(minus, from_minus));
    wires.sort_unstable();
    wires.dedup();
    wires
}

/// The worst lasting state of a load, by drop.
pub(crate) fn worst_drop(
    assessment: &Assessment,
    load: &ConsumerResult,
) -> Option<(usize, ConsumerInState, Ratio)> {
    limits::lasting(assessment)
        .filter_map(|index| {
            let here = load.states.get(index).filter(|s| s.on)?;
            Some((index, *here, here.drop_share?))
        })
        .max_by(|a, b| a.2.total_cmp(&b.2).then(b.0.cmp(&a.0)))
}

fn find_one(assessment: &Assessment, graph: &Graph, load: &ConsumerResult) -> Option<Finding> {
    let (state, here, share) = worst_drop(assessment, load)?;
    let limit = limit(assessment, load);
    let out = limits::lasting(assessment)
        .filter_map(|index| load.states.get(index).map(|s| (index, *s)))
        .find(|(_, s)| s.on && s.dropped_out);
    if out.is_none() && !limits::above(share.fraction(), limit.value.fraction()) {
        return None;
    }
    let (severity, tail) = match out {
        Some((index, _)) => {
            let lowest = load.lowest.map(|v| format!(" below {}", words::volts(v)));
            let when = names::state(assessment, index);
            (
                Severity::Warning,
                format!(" It stops working{} {when}.", lowest.unwrap_or_default()),
            )
        }
        None => (Severity::Caution, String::new()),
    };
    let (lost, allowed) = words::percents(share, limit.value);
    let headline = format!(
        "{}: {lost} of the voltage is lost on the way ({}), {allowed} allowed{}; it gets {}.{tail}",
        words::capital(&names::consumer(load)),
        words::volts(here.drop.unwrap_or(Voltage::from_volts(0.0))),
        if load.critical {
            " for critical gear"
        } else {
            ""
        },
        words::volts(here.volts.unwrap_or(Voltage::from_volts(0.0))),
    );
    let way = supply_wires(assessment, graph, load.item.as_str());
    let value = crate::finding::Amount::computed("ΔU", share.fraction(), words::percent(share));
    let mut finding = Finding::new(DOC.id, severity, Subject::Item(load.item.clone()), headline)
        .over(value, limits::share("ΔU_max", limit))
        .note(format!("This is {}.", names::state(assessment, state)))
        .asking(Ask::ConsumerDrop {
            item: load.item.to_string(),
            state,
        });
    for index in heaviest(assessment, &way) {
        if let Some(wire) = assessment.wires.get(index) {
            finding = finding.also(Subject::Wire(wire.id.clone())).note(format!(
                "Most is lost in {}: {}.",
                names::wire(wire),
                words::volts(
                    wire.states
                        .get(state)
                        .map_or(Voltage::from_volts(0.0), |s| s.drop.abs())
                ),
            ));
        }
    }
    for index in way {
        if let Some(wire) = assessment.wires.get(index) {
            finding = finding.assuming(assessment, &["wire", wire.id.as_str()]);
        }
    }
    Some(finding)
}

fn limit<'a>(assessment: &'a Assessment, load: &ConsumerResult) -> &'a Known<Ratio> {
    match load.critical {
        true => &assessment.limits.drop_critical,
        false => &assessment.limits.drop_other,
    }
}

/// The wire of the way that loses most, over all states.
fn heaviest(assessment: &Assessment, way: &[usize]) -> Vec<usize> {
    let drop = |index: &usize| {
        let wire = assessment.wires.get(*index);
        wire.and_then(limits::worst)
            .map_or(0.0, |(_, state)| state.drop.volts().abs())
    };
    way.iter()
        .copied()
        .max_by(|a, b| drop(a).total_cmp(&drop(b)).then(b.cmp(a)))
        .into_iter()
        .collect()
}

/// Wires of the way that serve this gear only.
fn own_wires(assessment: &Assessment, graph: &Graph, way: &[usize]) -> Vec<usize> {
    way.iter()
        .copied()
        .filter(|index| graph.loads_behind(assessment, *index).len() == 1)
        .collect()
}
