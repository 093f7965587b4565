//! What the pack does by itself: trips, cut-offs, resistances, the way to full. Not here: settings.

use super::bound::SLIP;
use super::card::{PackFigures, Taper};
use super::input::{Battery, Board, Family, System};
use crate::battery::{Curve, Uneven, trip_voltage};
use wainwright_units::{Current, Duration, Ratio, Resistance, Voltage};

/// Strips the way to full is cut into.
const STRIPS: u32 = 500;

/// Halvings of a search; 60 halve a volt to less than rounding.
const HALVINGS: u32 = 60;

/// Pack voltage when the emptiest cell, behind by `behind`, falls to its trip voltage while the pack
/// is discharged at a rate; the mirror of [`crate::battery::trip_voltage`].
///
/// `None` when no cell gets there.
#[must_use]
pub fn cut_off_voltage(pack: Uneven<'_>, behind: Ratio) -> Option<Voltage> {
    let drop = pack.resistance * pack.rate;
    let empty = pack.open.reaches(pack.trip.volts() + drop)?;
    let others = pack.open.at(empty + behind.fraction()) - drop;
    let rest = f64::from(pack.series.saturating_sub(1));
    Some(Voltage::from_volts(pack.trip.volts() + rest * others))
}

/// How charging goes from a full current to the tail at a constant voltage.
///
/// `None` when the voltage is below that of an empty battery or the tail is not below the current.
/// The resistances of wire, connections and cells are in series; cells are even.
#[must_use]
pub fn taper(
    battery: &Battery<'_>,
    set: Voltage,
    wire: Resistance,
    most: Current,
    tail: Current,
) -> Option<Taper> {
    let ohms = charging_ohms(battery) + wire.ohms();
    let capacity = battery.capacity.ampere_hours();
    let cells = f64::from(battery.series);
    let open_at = |amperes: f64| (set.volts() - amperes * ohms) / cells;
    let state = |amperes: f64| battery.open.reaches(open_at(amperes));
    let begins = state(most.amperes())?.max(0.0);
    let ends = state(tail.amperes())?;
    if ends <= begins || ohms <= 0.0 || tail <= Current::ZERO {
        return None;
    }
    let width = (ends - begins) / f64::from(STRIPS);
    let hours: f64 = (0..STRIPS)
        .map(|strip| {
            let middle = begins + (f64::from(strip) + 0.5) * width;
            let open = cells * battery.open.at_or_beyond(middle);
            let amperes = (set.volts() - open) / ohms;
            capacity * width / amperes.clamp(tail.amperes(), most.amperes())
        })
        .sum();
    Some(Taper {
        begins: Ratio::from_fraction(begins.min(1.0)),
        ends: Ratio::from_fraction(ends.min(1.0)),
        lasts: Duration::from_hours(hours),
    })
}

/// What the pack of a system does, at the worst of its currents.
pub(super) fn figures(system: &System<'_>) -> PackFigures {
    let battery = &system.battery;
    let takes = takes(system);
    let board = system.board.as_ref();
    let trip = |ahead| board.and_then(|board| trip_at(system, board, ahead));
    let top = board.and_then(|board| board.balance_from);
    let usual = system.profile.tail.usual.fraction();
    PackFigures {
        trip: trip(battery.ahead),
        trip_even: trip(Ratio::ZERO),
        balances: top.and_then(|cell| trip_voltage(uneven(battery, usual, cell), battery.ahead)),
        cut_off: board.and_then(|board| cut_off_at(system, board, battery.ahead)),
        resting_full: Voltage::from_volts(
            f64::from(battery.series)
                * battery
                    .open
                    .at(system.profile.full.unwrap_or(Ratio::ONE).fraction()),
        ),
        charging: Resistance::from_ohms(charging_ohms(battery)),
        discharging: Resistance::from_ohms(discharging_ohms(battery)),
        takes,
        evens_out_in: board.filter(|board| bleeds(board)).map(|board| {
            Duration::from_hours(
                battery.ahead.fraction() * battery.capacity.ampere_hours() / board.bleed.amperes(),
            )
        }),
    }
}

/// Largest charging current of cells and board [A].
pub(super) fn takes(system: &System<'_>) -> Current {
    let board = system.board.and_then(|board| board.most_in);
    board.map_or(system.battery.most_in, |most| {
        most.min(system.battery.most_in)
    })
}

/// Pack voltage of the cell trip at the weakest current, where it is lowest.
pub(super) fn trip_at(system: &System<'_>, board: &Board, ahead: Ratio) -> Option<Voltage> {
    let rate = system.profile.tail.low.fraction();
    trip_voltage(uneven(&system.battery, rate, board.cells.over), ahead)
}

/// Pack voltage of the cell cut-off, the higher of no current and the largest.
pub(super) fn cut_off_at(system: &System<'_>, board: &Board, behind: Ratio) -> Option<Voltage> {
    let most = system
        .disconnects
        .iter()
        .map(|device| device.most.amperes());
    let most = most.fold(0.0, f64::max) / system.battery.capacity.ampere_hours();
    let at = |rate| {
        let pack = Uneven {
            resistance: system.battery.discharging,
            ..uneven(&system.battery, rate, board.cells.under)
        };
        cut_off_voltage(pack, behind)
    };
    [at(0.0), at(most)]
        .into_iter()
        .flatten()
        .reduce(Voltage::max)
}

/// The largest imbalance at which something still holds, if it holds at none.
pub(super) fn most_uneven(holds: impl Fn(Ratio) -> bool) -> Option<Ratio> {
    if !holds(Ratio::ZERO) {
        return None;
    }
    let (mut good, mut bad) = (0.0, 1.0);
    for _ in 0..HALVINGS {
        let middle = (good + bad) / 2.0;
        if holds(Ratio::from_fraction(middle)) {
            good = middle;
        } else {
            bad = middle;
        }
    }
    Some(Ratio::from_fraction(good))
}

/// Resistance of the pack while charging [Ω].
pub(super) fn charging_ohms(battery: &Battery<'_>) -> f64 {
    ohms(battery, battery.charging)
}

/// Resistance of the pack while discharging [Ω].
pub(super) fn discharging_ohms(battery: &Battery<'_>) -> f64 {
    ohms(battery, battery.discharging)
}

/// Open voltage of the whole pack at a state of charge [V].
pub(super) fn open_volts(battery: &Battery<'_>, charge: f64) -> f64 {
    f64::from(battery.series) * battery.open.at(charge)
}

/// Time a lead-acid battery takes to fall from one current to another [h].
pub(super) fn acceptance_hours(system: &System<'_>, from: Current, tail: Current) -> f64 {
    let constant = system.profile.acceptance.hours();
    if system.battery.family == Family::Lithium || tail <= Current::ZERO || from <= tail {
        return 0.0;
    }
    constant * (from.amperes() / tail.amperes()).ln()
}

fn ohms(battery: &Battery<'_>, cell: f64) -> f64 {
    f64::from(battery.series) * cell / battery.capacity.ampere_hours() + battery.connections.ohms()
}

fn uneven<'a>(battery: &Battery<'a>, rate: f64, trip: Voltage) -> Uneven<'a> {
    Uneven {
        series: battery.series,
        open: battery.open,
        resistance: battery.charging,
        rate,
        trip,
    }
}

fn bleeds(board: &Board) -> bool {
    board.balance_from.is_some() && board.bleed.amperes() > SLIP
}

/// Whether a curve rises at all, so that voltages can be looked up on it.
pub(super) fn rises(open: Curve<'_>) -> bool {
    open.at(1.0) > open.at(0.0)
}
