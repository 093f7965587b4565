//! What an inverter on the same wires costs a load: the drop it would have
//! with the inverter off. Used by `voltage-drop`. Not here: judgement, and the
//! solved state itself, which the assessment holds.

use crate::view::{Graph, Link};
use wainwright_analysis::result::{Assessment, ConsumerResult, Role};
use wainwright_units::{Ratio, Voltage};

/// The drop of a load with every inverter off, to first order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Alone {
    /// Voltage lost on the way.
    pub(crate) drop: Voltage,
    /// The same as a share of system voltage.
    pub(crate) share: Ratio,
}

/// What this load would lose in this state without the inverters that are on:
/// each link they share with it loses as much less as its current is smaller
/// (Ohm's law, resistances left as hot as they are, the other loads left as
/// they are). Some per cent off: the wires would be cooler, and at the better
/// voltage loads of fixed power take less and resistive ones more. Nothing
/// where no inverter shares the way.
pub(crate) fn without_inverters(
    assessment: &Assessment,
    graph: &Graph,
    load: &ConsumerResult,
    state: usize,
) -> Option<Alone> {
    let here = load.states.get(state)?;
    let (drop, share) = (here.drop?.volts(), here.drop_share?.fraction());
    let way = way(assessment, graph, load)?;
    let inverters = assessment
        .consumers
        .iter()
        .filter(|c| c.role == Role::Inverter && c.fed_by == load.fed_by);
    let mut relief = 0.0;
    for inverter in inverters {
        let amps = inverter.states.get(state).filter(|s| s.on)?.amps.amperes();
        let other = self::way(assessment, graph, inverter)?;
        let shared = way
            .iter()
            .filter(|step| other.iter().any(|o| o.link == step.link));
        relief += shared
            .map(|step| step.relief(assessment, state, amps))
            .sum::<f64>();
    }
    let left = (drop - relief).max(0.0);
    let meant = relief > 0.0 && drop > 0.0;
    meant.then(|| Alone {
        drop: Voltage::from_volts(left),
        share: Ratio::from_fraction(share * left / drop),
    })
}

/// One link of a way, with its nodes and the wire whose current it carries.
struct Step {
    link: Link,
    nodes: (usize, usize),
    /// The nearest wire before it on the way; the next one for the first.
    wire: Option<usize>,
}

impl Step {
    /// Voltage saved across this link when so many amperes less flow [V].
    fn relief(&self, assessment: &Assessment, state: usize, amps: f64) -> f64 {
        let Some(solved) = assessment.states.get(state) else {
            return 0.0;
        };
        let at = |node: usize| solved.node_volts.get(node).copied().flatten();
        let (Some(from), Some(to)) = (at(self.nodes.0), at(self.nodes.1)) else {
            return 0.0;
        };
        let through = match &self.link {
            Link::Device(index) => assessment
                .devices
                .get(*index)
                .and_then(|d| d.states.get(state))
                .map(|s| s.amps.amperes()),
            _ => self
                .wire
                .and_then(|wire| assessment.wires.get(wire)?.states.get(state))
                .map(|s| s.amps.abs().amperes()),
        };
        let lost = (from - to).abs().volts();
        match through {
            Some(through) if through > 1e-9 => lost * (amps / through).clamp(0.0, 1.0),
            _ => 0.0,
        }
    }
}

/// The links from the feeder to this gear and back.
fn way(assessment: &Assessment, graph: &Graph, gear: &ConsumerResult) -> Option<Vec<Step>> {
    let (plus, minus) = gear.nodes?;
    let feeder = gear.fed_by.as_ref()?;
    let (from_plus, from_minus) = assessment.consumer(feeder.as_str())?.nodes?;
    let mut steps = steps(graph, from_plus, plus)?;
    steps.extend(self::steps(graph, from_minus, minus)?);
    Some(steps)
}

fn steps(graph: &Graph, start: usize, end: usize) -> Option<Vec<Step>> {
    let links = graph.path(start, end)?;
    let first = links.iter().find_map(wire);
    let (mut node, mut last) = (start, first);
    let mut steps = Vec::new();
    for link in links {
        let (_, next) = graph.links_at(node).find(|(other, _)| **other == link)?;
        last = wire(&link).or(last);
        steps.push(Step {
            link,
            nodes: (node, next),
            wire: last,
        });
        node = next;
    }
    Some(steps)
}

fn wire(link: &Link) -> Option<usize> {
    match link {
        Link::Wire(index) => Some(*index),
        _ => None,
    }
}
