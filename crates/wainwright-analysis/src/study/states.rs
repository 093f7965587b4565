//! Operating states of the trailer and what each piece of gear does in them.

use crate::circuit::{Circuit, Consumer, Demand, Part};
use crate::result::StateKind;
use wainwright_engines::network::{Branch, Element, Network};
use wainwright_model::{BatteryState, FieldExt, Project, State as StateFields};
use wainwright_units::{Power, Resistance, Voltage};

/// Resistance of a controller's input that holds its modules at a voltage [Ω].
const INPUT_OHMS: f64 = 1e-3;

/// One state to solve.
#[derive(Debug, Clone)]
pub(crate) struct State {
    pub(crate) kind: StateKind,
    pub(crate) label: Option<String>,
    pub(crate) lasting: bool,
    pub(crate) level: BatteryState,
    /// What each consumer does, in the circuit's order.
    pub(crate) settings: Vec<Setting>,
}

/// What one consumer does in a state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Setting {
    Off,
    On,
    Surge,
    /// An inverter with this much plugged in.
    Carrying(Power),
}

/// The states every trailer is solved for, and those the person named.
pub(crate) fn all(project: &Project, circuit: &Circuit) -> Vec<State> {
    let any = |wanted: fn(&Consumer) -> bool| circuit.consumers.iter().any(wanted);
    let mut states = vec![
        everything(circuit, StateKind::EverythingLow, BatteryState::Low),
        everything(circuit, StateKind::EverythingFull, BatteryState::Full),
        of_kind(circuit, StateKind::Hours, BatteryState::Low, |c| {
            takes(c) && c.continuous
        }),
    ];
    if any(gives) {
        states.push(of_kind(
            circuit,
            StateKind::Charging,
            BatteryState::Low,
            charges,
        ));
    }
    if any(|c| matches!(c.demand, Demand::Inverter { .. })) {
        states.push(surge(circuit));
    }
    states.extend(project.states.iter().map(|(id, state)| {
        let kind = StateKind::Named(id.clone());
        named(circuit, kind, state)
    }));
    states
}

/// The network of a state, with the wires' resistances as they are when hot.
pub(crate) fn network(
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
            Part::Fixed(resistance) => Element::Resistor(resistance),
            Part::Consumer(index) => {
                let input = module_inputs.get(index).copied();
                element(
                    &circuit.consumers[index],
                    state.settings[index],
                    state.level,
                    input,
                )
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

/// The node that counts as zero: the first battery's minus terminal.
fn ground(circuit: &Circuit) -> usize {
    let battery = |c: &&Consumer| matches!(c.demand, Demand::Battery { .. });
    circuit
        .consumers
        .iter()
        .find(battery)
        .map_or(0, |c| c.nodes.1)
}

fn element(
    consumer: &Consumer,
    setting: Setting,
    level: BatteryState,
    input: Option<Voltage>,
) -> Element {
    let lowest = consumer.lowest.unwrap_or(Voltage::from_volts(0.0));
    match (consumer.demand, setting) {
        (
            Demand::Battery {
                full,
                resting,
                low,
                resistance,
                ..
            },
            _,
        ) => {
            let emf = match level {
                BatteryState::Low => low,
                BatteryState::Full => full,
                BatteryState::Resting => resting,
            };
            Element::Source { emf, resistance }
        }
        (_, Setting::Off) => Element::Open,
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
        (Demand::ModuleInput, _) => match input {
            Some(emf) if emf.volts() > 0.0 => Element::Source {
                emf,
                resistance: Resistance::from_ohms(INPUT_OHMS),
            },
            _ => Element::Open,
        },
        (Demand::ChargerInput { power }, _) => Element::ConstantPower { power, lowest },
        (Demand::Power(power), Setting::Surge) => match consumer.surge {
            Some(amps) => Element::ConstantCurrent(amps),
            None => Element::ConstantPower { power, lowest },
        },
        (Demand::Power(power), _) => Element::ConstantPower { power, lowest },
        (Demand::Current(amps), Setting::Surge) => {
            Element::ConstantCurrent(consumer.surge.unwrap_or(amps))
        }
        (Demand::Current(amps), _) => Element::ConstantCurrent(amps),
        (Demand::Resistance(ohms), _) => Element::Resistor(ohms),
        (
            Demand::Inverter {
                load,
                surge,
                efficiency,
                cutoff,
            },
            setting,
        ) => {
            let carried = match setting {
                Setting::Surge => surge,
                Setting::Carrying(power) => power,
                _ => load,
            };
            Element::ConstantPower {
                power: carried * (1.0 / efficiency.fraction()),
                lowest: cutoff,
            }
        }
    }
}

fn everything(circuit: &Circuit, kind: StateKind, level: BatteryState) -> State {
    of_kind(circuit, kind, level, takes)
}

fn of_kind(
    circuit: &Circuit,
    kind: StateKind,
    level: BatteryState,
    on: fn(&Consumer) -> bool,
) -> State {
    let setting = |c: &Consumer| if on(c) { Setting::On } else { Setting::Off };
    State {
        kind,
        label: None,
        lasting: true,
        level,
        settings: circuit.consumers.iter().map(setting).collect(),
    }
}

fn surge(circuit: &Circuit) -> State {
    let mut state = everything(circuit, StateKind::Surge, BatteryState::Low);
    state.lasting = false;
    for (consumer, setting) in circuit.consumers.iter().zip(&mut state.settings) {
        if matches!(consumer.demand, Demand::Inverter { .. }) {
            *setting = Setting::Surge;
        }
    }
    state
}

fn named(circuit: &Circuit, kind: StateKind, fields: &StateFields) -> State {
    let named = |list: &Option<wainwright_model::Given<Vec<String>>>, consumer: &Consumer| {
        list.value()
            .is_some_and(|ids| ids.iter().any(|id| consumer.item == *id.as_str()))
    };
    let setting = |c: &Consumer| {
        if named(&fields.surge, c) {
            return Setting::Surge;
        }
        let on = match c.demand {
            Demand::Battery { .. } => true,
            Demand::Inverter { .. } if fields.inverter_load.is_some() => true,
            _ if charges(c) => named(&fields.charging, c),
            _ if fields.on.is_some() => named(&fields.on, c),
            _ => !named(&fields.off, c),
        };
        match (on, c.demand, fields.inverter_load.value()) {
            (false, ..) => Setting::Off,
            (true, Demand::Inverter { .. }, Some(power)) => Setting::Carrying(*power),
            (true, ..) => Setting::On,
        }
    };
    let mut state = State {
        kind,
        label: fields.label.value().cloned(),
        lasting: fields.surge.is_none(),
        level: fields
            .battery
            .value()
            .copied()
            .unwrap_or(BatteryState::Resting),
        settings: circuit.consumers.iter().map(setting).collect(),
    };
    bring_along_sources(circuit, fields, &mut state);
    state
}

/// Modules work when a controller does; the tow vehicle when a charger it feeds does.
fn bring_along_sources(circuit: &Circuit, fields: &StateFields, state: &mut State) {
    let charging = fields.charging.value().is_some_and(|ids| !ids.is_empty());
    for (consumer, setting) in circuit.consumers.iter().zip(&mut state.settings) {
        if charging
            && matches!(
                consumer.demand,
                Demand::Module { .. } | Demand::Supply { .. }
            )
        {
            *setting = Setting::On;
        }
    }
}

/// Takes power in everyday use.
fn takes(consumer: &Consumer) -> bool {
    matches!(
        consumer.demand,
        Demand::Power(_) | Demand::Current(_) | Demand::Resistance(_) | Demand::Inverter { .. }
    )
}

/// Gives charging power.
fn gives(consumer: &Consumer) -> bool {
    matches!(
        consumer.demand,
        Demand::Charger { .. } | Demand::Supply { .. } | Demand::Module { .. }
    )
}

/// Belongs to the charging side: gives, or is the input of what gives.
fn charges(consumer: &Consumer) -> bool {
    gives(consumer)
        || matches!(
            consumer.demand,
            Demand::ModuleInput | Demand::ChargerInput { .. }
        )
}
