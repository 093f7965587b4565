//! The way of the current from the battery to a piece of gear and back, with
//! the voltage lost in each part: what a voltage profile is drawn from.

use crate::circuit::{self, Circuit, Consumer, Demand, Part};
use crate::result::Assessment;
use crate::study::Graph;
use wainwright_model::Project;
use wainwright_units::Voltage;

/// One part of the way.
#[derive(Debug, Clone, PartialEq)]
pub struct PathStep {
    /// Wire id, or item id with its way, of the part.
    pub name: String,
    /// Voltage lost in it, joints included.
    pub lost: Voltage,
    /// Voltage between this point and the battery's minus, after the part.
    pub after: Voltage,
    /// On the way back to the battery.
    pub returning: bool,
}

/// The way to a piece of gear in a state; empty when no battery feeds it.
pub fn voltage_path(
    project: &Project,
    assessment: &Assessment,
    item: &str,
    state: usize,
) -> Vec<PathStep> {
    path(&circuit::lower(project), assessment, item, state)
}

pub(crate) fn path(
    circuit: &Circuit,
    assessment: &Assessment,
    item: &str,
    state: usize,
) -> Vec<PathStep> {
    find(circuit, assessment, item, state).unwrap_or_default()
}

fn find(
    circuit: &Circuit,
    assessment: &Assessment,
    item: &str,
    state: usize,
) -> Option<Vec<PathStep>> {
    let battery = |c: &&Consumer| matches!(c.demand, Demand::Battery { .. });
    let battery = circuit.consumers.iter().find(battery)?;
    let gear = circuit
        .consumers
        .iter()
        .find(|c| c.item == *item && circuit.joined(c.nodes.0, battery.nodes.0))?;
    let volts = &assessment.states.get(state)?.node_volts;
    let at = |node: usize| volts.get(node).copied().flatten();
    let zero = at(battery.nodes.1)?;
    let graph = Graph::new(circuit);
    let there = graph.way(battery.nodes.0, gear.nodes.0, &circuit.branches)?;
    let back = graph.way(battery.nodes.1, gear.nodes.1, &circuit.branches)?;
    let step = |branch: usize, before: usize, after: usize, returning: bool| {
        Some(PathStep {
            name: name(circuit, circuit.branches[branch].part)?,
            lost: at(before)? - at(after)?,
            after: at(after)? - zero,
            returning,
        })
    };
    let out = there
        .iter()
        .filter_map(|&(branch, before, after)| step(branch, before, after, false));
    let home = back
        .iter()
        .rev()
        .filter_map(|&(branch, before, after)| step(branch, after, before, true));
    Some(out.chain(home).collect())
}

fn name(circuit: &Circuit, part: Part) -> Option<String> {
    let with_way = |item: &wainwright_model::Id, way: usize| match way {
        0 => item.to_string(),
        way => format!("{item} way {way}"),
    };
    match part {
        Part::Wire(wire) => Some(circuit.wires[wire].id.to_string()),
        Part::Device(device) => Some(with_way(
            &circuit.devices[device].item,
            circuit.devices[device].way,
        )),
        Part::Contact(contact) => Some(with_way(
            &circuit.contacts[contact].item,
            circuit.contacts[contact].way,
        )),
        Part::Fixed(_) => Some("fixed".to_owned()),
        Part::Consumer(_) => None,
    }
}
