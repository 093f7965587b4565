//! The levels of one hidden state of battery, charger, board and loads, and what can be seen to happen.
//! Not here: which states a cause stands for (`states`).

use super::Base;
use crate::charging::input::DisconnectKind;
use crate::charging::symptom::{Event, Levels};
use wainwright_units::{Current, Temperature, Voltage};

/// A battery counts as full from here when somebody asks whether charging ended early.
const NEARLY_FULL: f64 = 0.95;

/// Under float a battery counts as full from here.
const FULL_UNDER_FLOAT: f64 = 0.85;

/// A jump on the wires that somebody notices [V].
const NOTICED: f64 = 0.3;

/// Which switches of the board are open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Switches {
    /// None.
    Closed,
    /// The one for charging.
    NoCharge,
    /// Both: the terminals are dead.
    Open,
}

/// One hidden state. Bare numbers: [V], [A], [Ω], [°C], shares.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct State {
    /// State of charge of ordinary cells.
    pub(super) charge: f64,
    /// How far the highest cell is ahead.
    pub(super) ahead: f64,
    /// How far the lowest cell is behind.
    pub(super) behind: f64,
    /// What the charger could give.
    pub(super) offered: f64,
    /// What the charger holds.
    pub(super) set: f64,
    /// Below this current the charger says full.
    pub(super) tail: f64,
    /// Whether it is floating.
    pub(super) floating: bool,
    /// Wire of the charger.
    pub(super) charger_wire: f64,
    /// Wire of the loads.
    pub(super) load_wire: f64,
    /// What loads draw.
    pub(super) load: f64,
    /// Loads off at and below.
    pub(super) off: f64,
    /// Loads on at and above.
    pub(super) on: f64,
    /// Whether the disconnect has just cut off.
    pub(super) cut: bool,
    /// Cells.
    pub(super) celsius: f64,
    /// Board.
    pub(super) switches: Switches,
    /// A setting is another one than is known.
    pub(super) surprise: bool,
}

/// Voltages and currents of a state.
struct Solved {
    highest: f64,
    lowest: f64,
    battery: f64,
    charger: f64,
    loads: f64,
    current: f64,
    open: f64,
}

/// What meters would read and what could be seen.
pub(super) fn levels(base: &Base<'_>, state: &State) -> Levels {
    let solved = solve(base, state);
    Levels {
        at_charger: Voltage::from_volts(solved.charger),
        at_battery: Voltage::from_volts(solved.battery),
        highest_cell: Voltage::from_volts(solved.highest),
        lowest_cell: Voltage::from_volts(solved.lowest),
        at_loads: Voltage::from_volts(solved.loads),
        current: Current::from_amperes(solved.current),
        temperature: Temperature::from_celsius(state.celsius),
        events: events(base, state, &solved),
    }
}

fn solve(base: &Base<'_>, state: &State) -> Solved {
    let battery = &base.system.battery;
    let open = |charge: f64| battery.open.at_or_beyond(charge);
    let (high, low) = (
        open(state.charge + state.ahead),
        open(state.charge - state.behind),
    );
    let ordinary = f64::from(battery.series) - 2.0;
    let pack = if ordinary < 0.0 {
        high
    } else {
        high + low + ordinary * open(state.charge)
    };
    let load = if state.cut { 0.0 } else { state.load };
    let (current, terminal, charger) = match state.switches {
        Switches::Closed => closed(base, state, pack, load),
        Switches::NoCharge => {
            let bus = base.unloaded.max(state.set);
            (0.0, bus - load * state.charger_wire, bus)
        }
        Switches::Open => (
            0.0,
            0.0,
            if base.needs_battery {
                0.0
            } else {
                state.offered.min(1.0) * state.set
            },
        ),
    };
    let cell_ohms = if current < 0.0 {
        battery.discharging
    } else {
        battery.charging
    } / battery.capacity.ampere_hours();
    Solved {
        highest: high + current * cell_ohms,
        lowest: low + current * cell_ohms,
        battery: terminal,
        charger,
        loads: if state.cut {
            0.0
        } else {
            (terminal - load * state.load_wire).max(0.0)
        },
        current,
        open: pack,
    }
}

/// Current into the battery, its terminal voltage and the charger's, with the board closed.
fn closed(base: &Base<'_>, state: &State, open: f64, load: f64) -> (f64, f64, f64) {
    let wire = state.charger_wire;
    let held = (state.set - open - load * wire) / (base.charging_ohms + wire);
    let into = held.min(state.offered - load);
    if into >= 0.0 {
        let terminal = open + into * base.charging_ohms;
        return (into, terminal, terminal + (into + load) * wire);
    }
    // The charger gives what it can while the battery gives the rest.
    let ohms = base.discharging_ohms;
    let held = (state.set - open - load * wire) / (ohms + wire);
    let into = held.min(state.offered - load).max(-load);
    let terminal = open + into * ohms;
    (into, terminal, terminal + (into + load) * wire)
}

fn events(base: &Base<'_>, state: &State, solved: &Solved) -> Vec<Event> {
    let mut seen = Vec::new();
    if state.switches == Switches::Open {
        let dead = base.needs_battery && state.offered > 0.0;
        return vec![if dead {
            Event::ControllerDead
        } else {
            Event::LoadsDropOut
        }];
    }
    charging_events(base, state, solved, &mut seen);
    load_events(base, state, solved, &mut seen);
    if seen.is_empty() {
        seen.push(Event::Nothing);
    }
    seen
}

fn charging_events(base: &Base<'_>, state: &State, solved: &Solved, seen: &mut Vec<Event>) {
    let Some(board) = base.system.board else {
        return early_events(state, solved, seen);
    };
    let cold = state.celsius <= board.cells.cold_release.celsius();
    if state.switches == Switches::NoCharge {
        seen.push(if cold {
            Event::NoChargeCold
        } else {
            Event::ChargingStops
        });
        if solved.battery - solved.open > NOTICED {
            seen.push(Event::VoltageJumps);
        }
    } else if trips_over(base, state, solved) {
        seen.push(Event::ChargingStops);
    } else {
        early_events(state, solved, seen);
    }
}

/// The highest cell or the pack has come to where the board stops charging.
fn trips_over(base: &Base<'_>, state: &State, solved: &Solved) -> bool {
    let board = base.system.board.as_ref();
    let cell = board.is_some_and(|board| solved.highest >= board.cells.over.volts() - 1e-3);
    // The pack's own connections lie between the cells and the terminals.
    let slack = 2e-3 + state.offered * base.system.battery.connections.ohms();
    let pack = |(over, _): (f64, f64)| solved.battery >= over - slack;
    cell || state.offered > 0.0 && base.pack_over.is_some_and(pack)
}

/// The charger says full, or holds its voltage, although the battery is not full.
fn early_events(state: &State, solved: &Solved, seen: &mut Vec<Event>) {
    let giving = state.offered > 0.0;
    let holds = giving && solved.charger >= state.set - 1e-6;
    let from_charger = solved.current + state.load;
    if state.floating && state.charge < FULL_UNDER_FLOAT {
        seen.extend([Event::RunsEmptySoon, Event::NeverFull]);
    } else if holds && state.charge < NEARLY_FULL && from_charger <= state.tail {
        seen.extend([Event::FullEarly, Event::RunsEmptySoon]);
    } else if holds && state.charge < NEARLY_FULL && from_charger < 0.98 * state.offered {
        seen.extend([Event::FullEarly, Event::NeverFull]);
    }
}

fn load_events(base: &Base<'_>, state: &State, solved: &Solved, seen: &mut Vec<Event>) {
    let board = base.system.board.as_ref();
    let trips = board.is_some_and(|board| {
        let over = board
            .most_out
            .is_some_and(|most| -solved.current > most.amperes());
        over || solved.lowest <= board.cells.under.volts() + 1e-3
    });
    if trips {
        seen.push(Event::LoadsDropOut);
        return;
    }
    let Some(kind) = base.disconnect else {
        return;
    };
    let cuts = state.cut || solved.loads <= state.off + 1e-6 && state.load > 0.0;
    if !cuts {
        return;
    }
    if solved.open >= state.on {
        seen.push(Event::RelayClicks);
    }
    seen.push(match kind {
        DisconnectKind::Inverter => Event::InverterAlarms,
        DisconnectKind::Relay => Event::LoadsDropOut,
    });
}
