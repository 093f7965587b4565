//! The networks of the largest and of the smallest fault currents.

use crate::circuit::{self, Circuit, Demand, Part};
use crate::study;
use wainwright_engines::conductor::resistance_at;
use wainwright_engines::network::{Branch, Element, Network};
use wainwright_reference::battery::short_circuit_factors;
use wainwright_units::{Current, Resistance, Temperature, Voltage};

/// Temperature of a cold conductor, which lets the largest current through \[°C\].
const COLD_CELSIUS: f64 = 20.0;

/// Which end of the range of a fault current.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum End {
    Largest,
    Smallest,
}

/// The network of the strongest or the weakest fault currents: loads left
/// out, every contact closed.
pub(super) fn network(circuit: &Circuit, end: End) -> Network {
    let branches = circuit.branches.iter().map(|branch| {
        let element = match branch.part {
            Part::Wire(index) => Element::Resistor(wire_resistance(&circuit.wires[index], end)),
            Part::Device(index) => Element::Resistor(circuit.devices[index].resistance.value),
            Part::Contact(index) => Element::Resistor(circuit.contacts[index].resistance.value),
            Part::Fixed(index) => Element::Resistor(circuit.fixed[index].branch),
            Part::Consumer(index) => source(circuit.consumers[index].demand, end),
        };
        Branch {
            from: branch.from,
            to: branch.to,
            element,
        }
    });
    Network {
        node_count: circuit.nodes.len(),
        ground: study::network::ground(circuit),
        branches: branches.collect(),
    }
}

/// Largest: cold metal, joints as good as they get. Smallest: metal at the
/// insulation's limit, joints as bad as they may be.
pub(super) fn wire_resistance(wire: &circuit::Wire, end: End) -> Resistance {
    let line = |celsius| {
        resistance_at(
            wire.build.resistance_at_20,
            Temperature::from_celsius(celsius),
        )
    };
    match end {
        End::Largest => line(COLD_CELSIUS) * wire.length.value,
        End::Smallest => {
            let joint = circuit::worst_joint(wire.metal);
            let joints = wire.joint_from.value.max(joint) + wire.joint_to.value.max(joint);
            line(wire.limit.celsius()) * wire.length.value + joints
        }
    }
}

/// A source as a voltage behind a resistance. One that limits its own current
/// gives that current into a short circuit.
fn source(demand: Demand, end: End) -> Element {
    let limited = |volts: Voltage, amps: Current| Element::Source {
        emf: volts,
        resistance: circuit::at_least_contact(volts / amps),
    };
    match (demand, end) {
        (
            Demand::Battery {
                nominal,
                full,
                resistance,
                ..
            },
            End::Largest,
        ) => {
            let factors = short_circuit_factors();
            let high = factors.as_ref().map_or(1.0, |f| f.highest_voltage.value);
            let share = factors.as_ref().map_or(1.0, |f| f.lowest_resistance.value);
            Element::Source {
                emf: full.max(nominal * high),
                resistance: resistance * share,
            }
        }
        (Demand::Battery { low, weakest, .. }, End::Smallest) => Element::Source {
            emf: low,
            resistance: weakest,
        },
        (
            Demand::Supply {
                emf, resistance, ..
            },
            _,
        ) => Element::Source { emf, resistance },
        (Demand::Charger { limit, most }, End::Largest) if most.amperes() > 0.0 => {
            limited(limit, most)
        }
        (Demand::Module { open, short, .. }, End::Largest) if short.amperes() > 0.0 => {
            limited(open, short)
        }
        _ => Element::Open,
    }
}
