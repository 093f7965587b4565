//! The hidden states a cause stands for, from three numbers between 0 and 1. Not here: their levels.

use super::Base;
use super::circuit::{State, Switches};
use crate::charging::symptom::Cause;

/// Imbalance of a battery whose cells count as even.
const EVEN: f64 = 0.001;

/// Smallest imbalance that counts as uneven cells.
const UNEVEN: f64 = 0.01;

/// A state of the cause, or `None` where there is none.
pub(super) fn state(base: &Base<'_>, cause: Cause, at: [f64; 3]) -> Option<State> {
    match cause {
        Cause::Fine => Some(fine(base, at)),
        Cause::UnevenCells => uneven_cells(base, at),
        Cause::AbsorptionTooHigh => absorption_too_high(base, at),
        Cause::AbsorptionTooLow => absorption_too_low(base, at),
        Cause::ChargingWire => Some(State {
            charger_wire: base.charger_wire + spread(at[0], 0.3, 1.5) / base.limit,
            charge: spread(at[1], 0.3, 0.95),
            offered: base.limit * spread(at[2], 0.5, 1.0),
            ..base.charging()
        }),
        Cause::TailTooLarge => tail_too_large(base, at),
        Cause::FloatTooLow => float_too_low(base, at),
        Cause::ColdBoard => cold(base, at),
        Cause::BoardEmpty => under(base, at, EVEN),
        Cause::WeakCell => under(base, at, spread(at[0], 0.03, 0.28)),
        Cause::BoardAsleep => asleep(base, at),
        Cause::NearReconnect => near_reconnect(base, at),
        Cause::DisconnectTooHigh => disconnect_too_high(base, at),
        Cause::LoadWire => load_wire(base, at),
        Cause::OverCurrent => over_current(base, at),
    }
}

fn fine(base: &Base<'_>, at: [f64; 3]) -> State {
    let charge = spread(at[0], 0.15, 1.0);
    if at[2] < 0.4 {
        return State {
            charge,
            load: base.standing + 0.5 * at[1] * base.load_most,
            ..base.resting()
        };
    }
    State {
        charge,
        offered: base.limit * at[1],
        celsius: spread(at[2], 5.0, 35.0),
        ..base.charging()
    }
}

/// The highest cell reaches the board's threshold, or has just done so.
fn uneven_cells(base: &Base<'_>, at: [f64; 3]) -> Option<State> {
    let board = base.system.board?;
    let battery = &base.system.battery;
    let ahead = spread(at[0], UNEVEN, 0.1);
    let (low, high) = (board.cells.over_release.volts(), board.cells.over.volts());
    let state = over(base, at, ahead, (low, high))?;
    // The charger must be able to push the pack as far as it takes to trip, before the pack trips.
    let others = battery
        .open
        .at_or_beyond(battery.open.reaches(high)? - ahead);
    let needed = high + (f64::from(battery.series) - 1.0) * others;
    if base.pack_over.is_some_and(|(over, _)| over <= needed) {
        return None;
    }
    if state.set >= needed {
        return Some(state);
    }
    let set = needed + 0.05 + 0.3 * at[1];
    let state = State { set, ..state };
    Some(surprising(state, base.absorption.is_some()))
}

/// The cells are even, and charging goes up to where the board stops it: by cell or by pack.
fn absorption_too_high(base: &Base<'_>, at: [f64; 3]) -> Option<State> {
    let board = base.system.board?;
    let cells = f64::from(base.system.battery.series);
    let by_cell = (board.cells.over_release.volts(), board.cells.over.volts());
    let by_pack = base
        .pack_over
        .map(|(over, release)| (release / cells, over / cells));
    let (low, high) = by_pack
        .filter(|(_, over)| *over < by_cell.1)
        .unwrap_or(by_cell);
    let trips = cells * high;
    let known = base.absorption.filter(|set| *set >= trips);
    let set = known.unwrap_or(trips + spread(at[0], 0.05, 0.65));
    let state = State {
        set,
        ..over(base, at, EVEN, (low, high))?
    };
    Some(surprising(
        state,
        base.absorption.is_some() && known.is_none(),
    ))
}

/// The highest cell comes to `high` while charging; from the middle of the third number on, the board
/// has opened and the cell rests between `low` and `high`.
fn over(base: &Base<'_>, at: [f64; 3], ahead: f64, (low, high): (f64, f64)) -> Option<State> {
    let battery = &base.system.battery;
    let offered = base.limit * spread(at[1], 0.2, 1.0);
    let ohms = battery.charging / battery.capacity.ampere_hours();
    let own = (offered - base.standing).max(0.0);
    let tripped = at[2] >= 0.5;
    let open = if tripped {
        spread(2.0 * at[2] - 1.0, low, high)
    } else {
        high - own * ohms
    };
    Some(State {
        charge: battery.open.reaches(open)? - ahead,
        ahead,
        offered,
        switches: if tripped {
            Switches::NoCharge
        } else {
            Switches::Closed
        },
        ..base.charging()
    })
}

fn absorption_too_low(base: &Base<'_>, at: [f64; 3]) -> Option<State> {
    let known = base.absorption.filter(|set| *set < base.full_at);
    let set = known.unwrap_or(base.full_at - spread(at[0], 0.02, 0.7));
    let given = base.tail * spread(at[1], 0.2, 1.5) + base.standing;
    let state = at_current(base, set, given)?;
    let state = State {
        celsius: spread(at[2], 5.0, 35.0),
        ..state
    };
    Some(surprising(
        state,
        base.absorption.is_some() && known.is_none(),
    ))
}

fn tail_too_large(base: &Base<'_>, at: [f64; 3]) -> Option<State> {
    let known = base.known_tail.filter(|tail| *tail > base.tail_most);
    let hours = base.system.battery.capacity.ampere_hours();
    let tail = known.unwrap_or(base.tail_most + at[0] * 0.4 * hours);
    if tail > base.limit {
        return None;
    }
    let set = base.absorption.unwrap_or(base.usual_absorption);
    let state = State {
        tail,
        ..at_current(base, set, tail * spread(at[1], 0.9, 1.0))?
    };
    Some(surprising(
        state,
        base.known_tail.is_some() && known.is_none(),
    ))
}

fn float_too_low(base: &Base<'_>, at: [f64; 3]) -> Option<State> {
    let known = base.float.filter(|float| *float < base.float_least);
    let set = known.unwrap_or(base.float_least - spread(at[0], 0.03, 0.5));
    let cells = f64::from(base.system.battery.series);
    let state = State {
        charge: base
            .system
            .battery
            .open
            .reaches(set / cells)?
            .clamp(0.0, 1.0),
        set,
        floating: true,
        load: base.standing + at[1] * 5.0,
        celsius: spread(at[2], 5.0, 35.0),
        ..base.charging()
    };
    Some(surprising(state, base.float.is_some() && known.is_none()))
}

fn cold(base: &Base<'_>, at: [f64; 3]) -> Option<State> {
    let board = base.system.board.filter(|board| board.stops_cold)?;
    let release = board.cells.cold_release;
    if base.system.battery.coldest > release {
        return None;
    }
    Some(State {
        charge: spread(at[1], 0.1, 0.95),
        offered: base.limit * at[2].max(0.1),
        celsius: release.celsius() - spread(at[0], 0.5, 15.0),
        switches: Switches::NoCharge,
        ..base.charging()
    })
}

/// The lowest cell reaches the board's threshold, or has just done so.
fn under(base: &Base<'_>, at: [f64; 3], behind: f64) -> Option<State> {
    let board = base.system.board?;
    let battery = &base.system.battery;
    let load = base.standing + at[1] * base.load_most;
    let ohms = battery.discharging / battery.capacity.ampere_hours();
    let (low, high) = (board.cells.under.volts(), board.cells.under_release.volts());
    let tripped = at[2] >= 0.4;
    let open = if tripped {
        spread((at[2] - 0.4) / 0.6, low, high + load * ohms)
    } else {
        low + load * ohms
    };
    Some(State {
        charge: battery.open.reaches(open)? + behind,
        behind,
        load,
        switches: if tripped {
            Switches::Open
        } else {
            Switches::Closed
        },
        ..base.resting()
    })
}

fn asleep(base: &Base<'_>, at: [f64; 3]) -> Option<State> {
    let board = base.system.board.filter(|board| board.goes_dead)?;
    if !base.needs_battery {
        return None;
    }
    let high = board.cells.under_release.volts();
    let open = spread(at[0], board.cells.under.volts(), high + 0.1);
    let behind = if at[1] < 0.5 { EVEN } else { 0.2 * at[1] };
    Some(State {
        charge: base.system.battery.open.reaches(open)? + behind,
        behind,
        offered: base.limit * at[2].max(0.1),
        switches: Switches::Open,
        ..base.charging()
    })
}

fn near_reconnect(base: &Base<'_>, at: [f64; 3]) -> Option<State> {
    let load = base.load_most * spread(at[1], 0.3, 1.0);
    let lost = load * (base.load_wire + base.discharging_ohms);
    let known = base.off_on.filter(|(off, on)| on - off < lost);
    let off = spread(at[0], base.usual_off - 0.5, base.usual_off + 0.8);
    let (off, on) = known.unwrap_or((off, off + 0.8 * lost));
    let state = cutting(base, load, off, on, at[2])?;
    Some(surprising(state, base.off_on.is_some() && known.is_none()))
}

fn disconnect_too_high(base: &Base<'_>, at: [f64; 3]) -> Option<State> {
    let known = base.off_on.filter(|(off, _)| *off > base.off_most);
    let off = base.off_most + spread(at[0], 0.1, 1.1);
    let (off, on) = known.unwrap_or((off, off + 2.0));
    let load = base.standing + base.load_most * at[1];
    let state = cutting(base, load, off, on, at[2])?;
    Some(surprising(state, base.off_on.is_some() && known.is_none()))
}

/// The disconnect sees its voltage under a load; from the middle on it has just cut off.
fn cutting(base: &Base<'_>, load: f64, off: f64, on: f64, moment: f64) -> Option<State> {
    let battery = &base.system.battery;
    let open = off + load * (base.load_wire + base.discharging_ohms);
    let charge = battery.open.reaches(open / f64::from(battery.series))?;
    (charge < 1.0).then_some(State {
        charge,
        load,
        off,
        on,
        cut: moment >= 0.5,
        ..base.resting()
    })
}

fn load_wire(base: &Base<'_>, at: [f64; 3]) -> Option<State> {
    base.disconnect?;
    let load = base.load_most * spread(at[1], 0.4, 1.0);
    Some(State {
        load_wire: base.load_wire + spread(at[0], 0.3, 2.5) / base.load_most,
        load,
        charge: spread(at[2], 0.2, 0.95),
        ..base.resting()
    })
}

fn over_current(base: &Base<'_>, at: [f64; 3]) -> Option<State> {
    let most = base.system.board?.most_out?.amperes();
    Some(State {
        load: most * spread(at[0], 1.05, 2.0),
        charge: spread(at[1], 0.15, 0.95),
        switches: if at[2] < 0.5 {
            Switches::Closed
        } else {
            Switches::Open
        },
        off: 0.0,
        ..base.resting()
    })
}

/// Charging at a held voltage with the current the charger gives then.
fn at_current(base: &Base<'_>, set: f64, given: f64) -> Option<State> {
    let own = given - base.standing;
    let open = set - given * base.charger_wire - own * base.charging_ohms;
    let battery = &base.system.battery;
    let charge = battery.open.reaches(open / f64::from(battery.series))?;
    (charge > 0.0).then_some(State {
        charge,
        set,
        ..base.charging()
    })
}

fn surprising(state: State, surprise: bool) -> State {
    State {
        surprise: state.surprise || surprise,
        ..state
    }
}

fn spread(share: f64, low: f64, high: f64) -> f64 {
    low + share * (high - low)
}
