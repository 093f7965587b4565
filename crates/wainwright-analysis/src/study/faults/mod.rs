//! Short circuits at every live node: the networks, devices and conductors
//! for the fault engine, and its outcome in the assessment's terms.

mod network;
mod outcome;
mod places;

use super::graph::Graph;
use super::solve::WireHeat;
use crate::circuit::{self, Circuit, Part};
use crate::result::{FaultResult, Overload};
use network::{End, network};
use places::Place;
use wainwright_engines::conductor::MELTING;
use wainwright_engines::faults::{
    CaseOutcome, Device, FaultCase, StudyError, Withstand, overload_at_most, study_each_way,
};
use wainwright_engines::network::Network;
use wainwright_model::Id;
use wainwright_units::{Current, Temperature};

/// The fault study of a circuit.
pub(crate) struct Faults {
    pub(crate) results: Vec<FaultResult>,
    /// Terminals whose short circuit has no result.
    pub(crate) unstudied: Vec<(Id, String)>,
    /// Per wire: largest current of any short circuit through it \[A\].
    most: Vec<f64>,
    devices: Vec<Device>,
    conductors: Vec<Withstand>,
}

/// Runs the study. `hottest` is each wire's condition in its worst lasting state.
pub(crate) fn run(circuit: &Circuit, graph: &Graph, hottest: &[WireHeat]) -> Faults {
    let places = places::places(circuit, graph);
    let plant = Plant {
        largest: network(circuit, End::Largest),
        smallest: network(circuit, End::Smallest),
        devices: devices(circuit),
        conductors: conductors(circuit, hottest),
    };
    let mut results = Vec::new();
    let mut unstudied = Vec::new();
    let mut most = vec![0.0_f64; circuit.wires.len()];
    for (place, found) in places.iter().zip(plant.study(&places)) {
        let result = found.and_then(|case| {
            let ends = (&case.largest, &case.smallest);
            for stress in ends.0.stresses.iter().chain(&ends.1.stresses) {
                let most = &mut most[stress.conductor];
                *most = most.max(stress.current.amperes().abs());
            }
            outcome::result(circuit, &plant.conductors, place, ends)
        });
        match result {
            Some(result) => {
                let amps = result.largest.amps.amperes();
                let wires = result.wires.iter();
                wires.for_each(|wire| most[*wire] = most[*wire].max(amps));
                results.push(result);
            }
            None => unstudied.extend(circuit.nodes.members(place.node).first().cloned()),
        }
    }
    Faults {
        results,
        unstudied,
        most,
        devices: plant.devices,
        conductors: plant.conductors,
    }
}

/// What the engine is told, the same for every place.
struct Plant {
    largest: Network,
    smallest: Network,
    devices: Vec<Device>,
    conductors: Vec<Withstand>,
}

impl Plant {
    /// The outcome of each place. Where all of them together have none, each is
    /// tried on its own, so that one place does not hide the others.
    fn study(&self, places: &[Place]) -> Vec<Option<CaseOutcome>> {
        match self.together(places) {
            Ok(cases) => cases.into_iter().map(Some).collect(),
            Err(_) => places
                .chunks(1)
                .map(|place| self.together(place).ok()?.pop())
                .collect(),
        }
    }

    fn together(&self, places: &[Place]) -> Result<Vec<CaseOutcome>, StudyError> {
        let cases = |back: fn(&Place) -> usize| -> Vec<FaultCase> {
            let places = places.iter().enumerate();
            places.map(|(i, p)| p.case(i, back(p))).collect()
        };
        let (short, long) = (cases(|place| place.near), cases(|place| place.far));
        let ends = ((&self.largest, &*short), (&self.smallest, &*long));
        let study = study_each_way(ends.0, ends.1, &self.devices, &self.conductors)?;
        Ok(study.cases)
    }
}

impl Faults {
    /// What a device lets a wire go through, up to the largest short circuit.
    pub(crate) fn overload(&self, device: usize, wire: usize) -> Option<Overload> {
        let largest = Current::from_amperes(self.most.get(wire).copied().unwrap_or(0.0));
        let found = overload_at_most(
            self.devices.get(device)?,
            self.conductors.get(wire)?,
            largest,
        )
        .ok()?;
        let fast = found.completeness;
        let melting = Temperature::from_celsius(MELTING);
        Some(Overload {
            carried_for_ever: found.carried,
            slow_region: found.worst.min(melting),
            fast_region: fast.map_or(found.carried, |fast| fast.hottest).min(melting),
            fast_region_amps: fast.map_or(found.carries, |fast| fast.current),
        })
    }
}

fn devices(circuit: &Circuit) -> Vec<Device> {
    let mut branches = vec![0; circuit.devices.len()];
    for (index, branch) in circuit.branches.iter().enumerate() {
        if let Part::Device(device) = branch.part {
            branches[device] = index;
        }
    }
    let device = |(device, branch): (&circuit::Device, usize)| Device {
        branch,
        rating: device.rating.value,
        curve: device.curve.clone(),
        interrupt: device.interrupt.as_ref().map(|known| known.value),
        recloses: device.reclose == crate::result::Reclose::Automatic,
    };
    circuit.devices.iter().zip(branches).map(device).collect()
}

fn conductors(circuit: &Circuit, hottest: &[WireHeat]) -> Vec<Withstand> {
    let first = circuit.first_wire();
    let conductor = |(index, (wire, heat)): (usize, (&circuit::Wire, &WireHeat))| Withstand {
        branch: first + index,
        build: wire.build,
        surroundings: wire.surroundings,
        ambient: wire.air.value,
        start: heat.temperature.min(wire.limit),
        insulation_limit: wire.limit,
        short_limit: wire.short_limit,
    };
    circuit
        .wires
        .iter()
        .zip(hottest)
        .enumerate()
        .map(conductor)
        .collect()
}
