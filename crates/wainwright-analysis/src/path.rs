//! The way of the current from the battery to a piece of gear and back, with
//! the voltage lost in each part: what a voltage profile is drawn from.

use crate::circuit::{self, Bank, Branch, Circuit, Part};
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

/// The way to a piece of gear in a state, or from it where it gives; empty
/// when no battery is joined to it.
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
    let mut pairs = circuit.consumers.iter().zip(&assessment.consumers);
    let (gear, fed_by) =
        pairs.find_map(|(c, result)| (c.item == *item).then_some((c, result.fed_by.as_ref()?)))?;
    let named = |bank: &&Bank| circuit.consumers[bank.top()].item == *fed_by;
    let bank = circuit.banks.iter().find(named)?;
    let ends = ((bank.plus, bank.minus), gear.nodes);
    let (from, to) = match gear.demand.is_source() {
        true => (ends.1, ends.0),
        false => ends,
    };
    let volts = &assessment.states.get(state)?.node_volts;
    let at = |node: usize| volts.get(node).copied().flatten();
    let zero = at(bank.minus)?;
    let graph = Graph::new(circuit);
    let step = |(branch, before, after): (usize, usize, usize), returning: bool| {
        let part: &Branch = &circuit.branches[branch];
        Some(PathStep {
            name: name(circuit, part.part)?,
            lost: at(before)? - at(after)?,
            after: at(after)? - zero,
            returning,
        })
    };
    let there = graph.way(from.0, to.0)?;
    let back = graph.way(to.1, from.1)?;
    let there = there.into_iter().filter_map(|part| step(part, false));
    let back = back.into_iter().filter_map(|part| step(part, true));
    Some(there.chain(back).collect())
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
        Part::Fixed(fixed) => Some(circuit.fixed[fixed].item.to_string()),
        Part::Consumer(_) => None,
    }
}
