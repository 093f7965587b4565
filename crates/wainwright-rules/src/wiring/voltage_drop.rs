//! `voltage-drop`: gear that gets too little voltage because the conductors
//! use it up. Not here: inverters (`inverter-lead-weak`).

use super::shared_way::{Alone, without_inverters};
use crate::finding::{Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, limits, names, subjects, words};
use wainwright_analysis::Ask;
use wainwright_analysis::known::Known;
use wainwright_analysis::result::{Assessment, ConsumerInState, ConsumerResult, Role, WireResult};
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
           dim or stop, 10 % for all other. Or the gear falls below the voltage it works at. Where \
           only an inverter on the same wires brings it over, that is said.",
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
    let zero = Voltage::from_volts(0.0);
    let alone = without_inverters(assessment, graph, load, state)
        .filter(|alone| alone.share.fraction() < share.fraction() * (1.0 - WORTH_TELLING));
    let enough = |alone: &Alone| {
        out.is_none() && !limits::above(alone.share.fraction(), limit.value.fraction())
    };
    let only = match alone.as_ref().filter(|alone| enough(alone)) {
        Some(alone) => format!(
            "; only while the inverter runs as well, without it about {}",
            words::percents(alone.share, limit.value).0
        ),
        None => String::new(),
    };
    let headline = format!(
        "{}: {lost} of the voltage ({}) is lost on the way, {allowed} allowed{}; it gets {}{only}.{tail}",
        words::capital(&names::consumer(load)),
        words::volts(here.drop.unwrap_or(zero)),
        if load.critical {
            " for critical gear"
        } else {
            ""
        },
        words::volts(here.volts.unwrap_or(zero)),
    );
    let way = supply_wires(assessment, graph, load.item.as_str());
    let value = crate::finding::Amount::computed("ΔU", share.fraction(), lost);
    let mut finding = Finding::new(DOC.id, severity, Subject::Item(load.item.clone()), headline)
        .over(value, limits::share("ΔU_max", limit))
        .asking(Ask::ConsumerDrop {
            item: load.item.to_string(),
            state,
        });
    if out.is_none_or(|(told, _)| told != state) {
        finding = finding.note(format!("This is {}.", names::state(assessment, state)));
    }
    if let Some(alone) = &alone {
        let verdict = match (enough(alone), out.is_some()) {
            (true, _) => {
                "which is allowed: either run the two at different times, or mend the wires they \
                 share"
            }
            (false, true) => "and it would get more voltage",
            (false, false) => "which is still too much",
        };
        finding = finding.note(format!(
            "The inverter draws through the same wires: with the inverter off about {} ({}) would \
             be lost, {verdict}.",
            words::percents(alone.share, limit.value).0,
            words::volts(alone.drop),
        ));
    }
    if let Some((wires, most)) = heaviest(assessment, &way, state) {
        for wire in &wires {
            finding = finding.also(Subject::Wire(wire.id.clone()));
        }
        let each = if wires.len() == 1 { "" } else { " in each" };
        finding = finding.note(format!(
            "Most is lost in {}: {}{each}.",
            names::together(&wires, 4),
            words::volts(most),
        ));
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

/// An inverter that adds less than this share of the drop is not mentioned.
const WORTH_TELLING: f64 = 0.1;

/// Losses this near the largest are as large to a reader.
const NEARLY: f64 = 0.95;

/// The wires of the way that lose most in this state, and how much.
fn heaviest<'a>(
    assessment: &'a Assessment,
    way: &[usize],
    state: usize,
) -> Option<(Vec<&'a WireResult>, Voltage)> {
    let drop = |wire: &WireResult| wire.states.get(state).map_or(0.0, |s| s.drop.volts().abs());
    let wires = || way.iter().filter_map(|index| assessment.wires.get(*index));
    let most = wires().map(drop).fold(0.0, f64::max);
    let heavy: Vec<&WireResult> = wires()
        .filter(|wire| most > 0.0 && drop(wire) >= most * NEARLY)
        .collect();
    (!heavy.is_empty()).then_some((heavy, Voltage::from_volts(most)))
}

/// Wires of the way that serve this gear only.
fn own_wires(assessment: &Assessment, graph: &Graph, way: &[usize]) -> Vec<usize> {
    way.iter()
        .copied()
        .filter(|index| graph.loads_behind(assessment, *index).len() == 1)
        .collect()
}
