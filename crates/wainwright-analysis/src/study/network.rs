//! The network of an operating state: each piece of gear as the engine's
//! element for what it does there. Not here: which gear is on (see
//! [`super::states`]), the networks of short circuits.

use super::states::{Setting, State};
use crate::circuit::{Circuit, Consumer, Demand, Part};
use wainwright_engines::network::{Branch, Element, Network};
use wainwright_model::BatteryState;
use wainwright_units::{Power, Resistance, Voltage};

/// Resistance of a controller's input that holds its modules at a voltage.
const INPUT: Resistance = Resistance::from_milliohms(1.0);

/// The network of a state, with the wires' resistances as they are when hot
/// and each controller's input voltage (by consumer; zero where it has none).
pub(super) fn network(
    circuit: &Circuit,
    state: &State,
    wire_resistances: &[Resistance],
    module_inputs: &[Voltage],
) -> Network {
    let branches = circuit.branches.iter().map(|branch| {
        let element = match branch.part {
            Part::Wire(index) => Element::Resistor(wire_resistances[index]),
            Part::Device(index) => Element::Resistor(circuit.devices[index].resistance.value),
            Part::Contact(index) if circuit.contacts[index].closed => {
                Element::Resistor(circuit.contacts[index].resistance.value)
            }
            Part::Contact(_) => Element::Open,
            Part::Fixed(index) => Element::Resistor(circuit.fixed[index].branch),
            Part::Consumer(index) => {
                let consumer = &circuit.consumers[index];
                match (consumer.demand, module_inputs.get(index)) {
                    (Demand::ModuleInput, input) => held(state.settings[index], input),
                    _ => element(consumer, state.settings[index], state.level),
                }
            }
        };
        Branch {
            from: branch.from,
            to: branch.to,
            element,
        }
    });
    Network {
        node_count: circuit.nodes.len(),
        ground: ground(circuit),
        branches: branches.collect(),
    }
}

/// The node that counts as zero: the minus end of the first battery or string.
pub(super) fn ground(circuit: &Circuit) -> usize {
    circuit.banks.first().map_or(0, |bank| bank.minus)
}

/// A controller's input that holds its modules at a voltage.
fn held(setting: Setting, input: Option<&Voltage>) -> Element {
    match input {
        Some(emf) if emf.volts() > 0.0 && setting != Setting::Off => Element::Source {
            emf: *emf,
            resistance: INPUT,
        },
        _ => Element::Open,
    }
}

fn element(consumer: &Consumer, setting: Setting, level: BatteryState) -> Element {
    let lowest = consumer.lowest.unwrap_or(Voltage::from_volts(0.0));
    if let (Setting::Surge, Some(amps)) = (setting, consumer.surge) {
        return Element::ConstantCurrent(amps);
    }
    match (consumer.demand, setting) {
        (demand @ Demand::Battery { .. }, _) => battery(demand, level),
        (_, Setting::Off) | (Demand::ModuleInput, _) => Element::Open,
        (Demand::Charger { limit, most }, _) => Element::Regulated { limit, most },
        (
            Demand::Supply {
                emf, resistance, ..
            },
            _,
        ) => Element::Source { emf, resistance },
        (
            Demand::Module {
                open,
                best_volts,
                best_amps,
                ..
            },
            _,
        ) => Element::Source {
            emf: open,
            resistance: (open - best_volts) / best_amps,
        },
        (Demand::ChargerInput { power } | Demand::Power(power), _) => {
            Element::ConstantPower { power, lowest }
        }
        (Demand::Current(amps), _) => Element::ConstantCurrent(amps),
        (Demand::Resistance(ohms), _) => Element::Resistor(ohms),
        (demand @ Demand::Inverter { .. }, setting) => Element::ConstantPower {
            power: inverter_input(demand, setting),
            lowest,
        },
    }
}

fn battery(demand: Demand, level: BatteryState) -> Element {
    let Demand::Battery {
        full,
        resting,
        low,
        resistance,
        ..
    } = demand
    else {
        return Element::Open;
    };
    let emf = match level {
        BatteryState::Low => low,
        BatteryState::Full => full,
        BatteryState::Resting => resting,
    };
    Element::Source { emf, resistance }
}

/// Power an inverter takes in: what it carries over its efficiency, and never
/// less than it takes without anything plugged in.
fn inverter_input(demand: Demand, setting: Setting) -> Power {
    let Demand::Inverter {
        load,
        surge,
        idle,
        efficiency,
        ..
    } = demand
    else {
        return Power::from_watts(0.0);
    };
    let carried = match setting {
        Setting::Surge => surge,
        Setting::Carrying(power) => power,
        Setting::On | Setting::Off => load,
    };
    (carried * (1.0 / efficiency.fraction())).max(idle)
}
