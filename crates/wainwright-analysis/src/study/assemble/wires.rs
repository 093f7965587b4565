//! Results of the conductors.

use super::{Desk, Protection, amps};
use crate::circuit::Circuit;
use crate::result::{Guard, Overload, WireInState, WireResult};
use crate::study::ampacity;
use crate::study::solve::WireHeat;
use wainwright_units::Current;

impl Desk<'_> {
    pub(super) fn wires(
        &self,
        guards: Vec<Vec<Guard>>,
        together: &[Option<Current>],
    ) -> Vec<WireResult> {
        guards
            .into_iter()
            .zip(together)
            .enumerate()
            .map(|(index, (guards, together))| self.wire(index, guards, *together))
            .collect()
    }

    fn wire(&self, index: usize, guards: Vec<Guard>, together: Option<Current>) -> WireResult {
        let wire = &self.circuit.wires[index];
        let branch = self.circuit.first_wire() + index;
        let states: Vec<WireInState> = self
            .solved
            .iter()
            .map(|solved| in_state(amps(solved, branch), &solved.wires[index]))
            .collect();
        WireResult {
            id: wire.id.clone(),
            label: wire.label.clone(),
            from: wire.from.clone(),
            to: wire.to.clone(),
            from_node: wire.from_node,
            to_node: wire.to_node,
            side: self.circuit.sides[wire.from_node],
            supplied: wire.supplied,
            size: wire.size.clone(),
            metal: wire.metal,
            length: wire.length.clone(),
            insulation: wire.insulation.clone(),
            limit: wire.limit,
            short_limit: wire.short_limit,
            volts_rating: wire.volts_rating,
            pvc: wire.pvc,
            run: wire.run.clone(),
            bundle: wire.bundle.clone(),
            sheathed: wire.sheathed,
            air: wire.air.clone(),
            resistance_20: wire.resistance_20,
            joints: wire.joint_from.value + wire.joint_to.value,
            ampacity: ampacity::of(&wire.laid()),
            worst: self.worst(&states),
            states,
            guards,
            together,
        }
    }

    /// The lasting, solved state with the hottest metal.
    fn worst(&self, wire: &[WireInState]) -> Option<usize> {
        let solved =
            |index: &usize| self.states[*index].lasting && self.solved[*index].point.is_ok();
        (0..wire.len()).filter(solved).max_by(|a, b| {
            let heat = wire[*a]
                .temperature
                .celsius()
                .total_cmp(&wire[*b].temperature.celsius());
            heat.then(b.cmp(a))
        })
    }
}

/// Overloads matter only from sources that do not limit their own current.
pub(super) fn add_overloads(circuit: &Circuit, protection: &mut Protection) {
    let faults = &protection.faults;
    for (wire, list) in protection.guards.iter_mut().enumerate() {
        let mut done: Vec<(usize, Option<Overload>)> = Vec::new();
        for guard in list.iter_mut() {
            let Some(device) = guard.device else { continue };
            if !circuit.overloads(&guard.source) {
                continue;
            }
            let known = done.iter().find(|(other, _)| *other == device);
            let known = known.map(|(_, found)| found.clone());
            guard.overload = known.unwrap_or_else(|| {
                let found = faults.overload(device, wire);
                done.push((device, found.clone()));
                found
            });
        }
    }
}

fn in_state(amps: Current, heat: &WireHeat) -> WireInState {
    let drop = amps * heat.resistance;
    WireInState {
        amps,
        temperature: heat.temperature,
        resistance: heat.resistance,
        drop,
        heat: heat.heat,
        power: drop * amps,
    }
}
