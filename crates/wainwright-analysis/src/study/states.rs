//! Operating states of the trailer and what each piece of gear does in them.

use crate::circuit::{Circuit, Consumer, Demand};
use crate::result::StateKind;
use wainwright_model::{BatteryState, FieldExt, Project, State as StateFields};
use wainwright_units::Power;

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

/// Modules work when the controller they feed does, the tow vehicle when the
/// charger it feeds does.
fn bring_along_sources(circuit: &Circuit, fields: &StateFields, state: &mut State) {
    let Some(ids) = fields.charging.value() else {
        return;
    };
    let inputs = circuit.consumers.iter().filter(|c| {
        let input = matches!(c.demand, Demand::ModuleInput | Demand::ChargerInput { .. });
        input && ids.iter().any(|id| c.item == *id.as_str())
    });
    for input in inputs {
        for source in feeding(circuit, input) {
            state.settings[source] = Setting::On;
        }
    }
}

/// Modules and supplies (consumers by index) that conductors join to the plus
/// terminal of a charger's input, strings of modules with all their members.
pub(super) fn feeding(circuit: &Circuit, input: &Consumer) -> Vec<usize> {
    let here = |node: usize| circuit.joined(node, input.nodes.0);
    let strings = circuit.module_strings.iter();
    let strings = strings.filter(|string| here(string.plus));
    let modules = strings.flat_map(|string| string.members.iter().copied());
    let supplies = circuit.consumers.iter().enumerate();
    let supplies = supplies.filter(|(_, c)| matches!(c.demand, Demand::Supply { .. }));
    let supplies = supplies.filter(|(_, c)| here(c.nodes.0));
    modules.chain(supplies.map(|(index, _)| index)).collect()
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
