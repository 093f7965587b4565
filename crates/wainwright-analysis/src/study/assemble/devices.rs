//! Results of fuses, breakers and joints.

use super::{Desk, Protection, amps};
use crate::circuit::{Branch, Device, Part, Wire, is_large};
use crate::known::Known;
use crate::result::{DeviceInState, DeviceResult, JointOwner, JointResult, StateKind};
use std::collections::BTreeMap;
use wainwright_model::Id;
use wainwright_reference::protection::{Family, hot_place};
use wainwright_units::{Current, Ratio, Resistance};

impl Desk<'_> {
    pub(super) fn devices(&self, protection: &Protection) -> Vec<DeviceResult> {
        let count = self.circuit.devices.len();
        let mut largest = vec![0.0_f64; count];
        let faults = protection.faults.results.iter();
        for opening in faults.flat_map(|fault| &fault.largest.openings) {
            largest[opening.device] = largest[opening.device].max(opening.amps.amperes());
        }
        let mut guarded = vec![Vec::new(); count];
        for (wire, guards) in protection.guards.iter().enumerate() {
            for device in guards.iter().filter_map(|guard| guard.device) {
                if guarded[device].last() != Some(&wire) {
                    guarded[device].push(wire);
                }
            }
        }
        // Branches list devices in their own order, so the index is the place.
        let branches = self.circuit.branches.iter().enumerate();
        let branches = branches.filter(|(_, branch)| matches!(branch.part, Part::Device(_)));
        branches
            .zip(largest.into_iter().zip(guarded))
            .enumerate()
            .map(|(index, ((branch, _), (largest, guards)))| {
                self.device(index, branch, Current::from_amperes(largest), guards)
            })
            .collect()
    }

    fn device(
        &self,
        index: usize,
        branch: usize,
        largest: Current,
        guards: Vec<usize>,
    ) -> DeviceResult {
        let device = &self.circuit.devices[index];
        let in_state = |solved| {
            let amps = amps(solved, branch).abs();
            let share = Ratio::from_fraction(amps / device.rating.value);
            DeviceInState { amps, share }
        };
        let states: Vec<DeviceInState> = self.solved.iter().map(in_state).collect();
        DeviceResult {
            item: device.item.clone(),
            way: device.way,
            label: device.label.clone(),
            family: device.family.clone(),
            rating: device.rating.clone(),
            volts_rating: device.volts_rating.clone(),
            interrupt: device.interrupt.clone(),
            reclose: device.reclose,
            resistance: device.resistance.clone(),
            warm_share: warm_share(device),
            air: device.air.clone(),
            nodes: device.nodes,
            continuous_amps: self.continuous(&states),
            states,
            largest_fault: (largest.amperes() > 0.0).then_some(largest),
            guards,
            rating_path: device.rating_path.clone(),
        }
    }

    /// Largest current among the states that go on for hours.
    fn continuous(&self, device: &[DeviceInState]) -> Option<(Current, usize)> {
        let hours = |kind: &StateKind| matches!(kind, StateKind::Hours | StateKind::Charging);
        let lasting = (0..device.len()).filter(|index| hours(&self.states[*index].kind));
        let most = lasting.max_by(|a, b| {
            device[*a]
                .amps
                .amperes()
                .total_cmp(&device[*b].amps.amperes())
        })?;
        Some((device[most].amps, most))
    }

    /// Ends of wires, contacts of switches, and splices. Of a splice the branch
    /// with the largest current counts for the whole.
    pub(super) fn joints(&self) -> Vec<JointResult> {
        let mut joints: Vec<JointResult> = Vec::new();
        let mut whole: BTreeMap<&Id, usize> = BTreeMap::new();
        for (index, branch) in self.circuit.branches.iter().enumerate() {
            let Some(worst) = self.most_lasting(index) else {
                continue;
            };
            let contact = |id: &Id, way| JointOwner::Contact(id.clone(), way);
            match branch.part {
                Part::Wire(wire) => {
                    let wire = &self.circuit.wires[wire];
                    let large = is_large(wire.metal);
                    for (end, joint) in [(false, &wire.joint_from), (true, &wire.joint_to)] {
                        let owner = JointOwner::WireEnd(wire.id.clone(), end);
                        joints.push(joint_result(owner, joint, large, worst));
                    }
                }
                Part::Contact(at) => {
                    let at = &self.circuit.contacts[at];
                    let (owner, large) = (contact(&at.item, at.way), self.is_large(branch));
                    joints.push(joint_result(owner, &at.resistance, large, worst));
                }
                Part::Fixed(at) if self.circuit.fixed[at].joint => {
                    let at = &self.circuit.fixed[at];
                    let (owner, large) = (contact(&at.item, 0), self.is_large(branch));
                    let found = joint_result(owner, &at.whole, large, worst);
                    match whole.get(&at.item) {
                        Some(known) if joints[*known].amps >= found.amps => {}
                        Some(known) => joints[*known] = found,
                        None => {
                            whole.insert(&at.item, joints.len());
                            joints.push(found);
                        }
                    }
                }
                Part::Fixed(_) | Part::Device(_) | Part::Consumer(_) => {}
            }
        }
        joints
    }

    /// Whether large wires end on a branch.
    fn is_large(&self, branch: &Branch) -> bool {
        let ends = |wire: &&Wire| {
            [wire.from_node, wire.to_node]
                .iter()
                .any(|node| *node == branch.from || *node == branch.to)
        };
        let mut wires = self.circuit.wires.iter().filter(ends);
        wires.any(|wire| is_large(wire.metal))
    }
}

fn joint_result(
    owner: JointOwner,
    resistance: &Known<Resistance>,
    large: bool,
    (amps, state): (Current, usize),
) -> JointResult {
    JointResult {
        owner,
        heat: (amps * resistance.value) * amps,
        resistance: resistance.clone(),
        state,
        amps,
        large,
    }
}

/// Share of its rating that a fuse or breaker has left in the air of its cabinet.
fn warm_share(device: &Device) -> Ratio {
    let Some(air) = &device.air else {
        return Ratio::ONE;
    };
    let family = Family::from_id(&device.family);
    let Some(row) = family.and_then(hot_place) else {
        return Ratio::ONE;
    };
    let above = (air.value - row.value.from).kelvins().max(0.0);
    Ratio::from_fraction((1.0 - row.value.per_kelvin * above).max(0.0))
}
