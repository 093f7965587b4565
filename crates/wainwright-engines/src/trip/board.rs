//! The protection board inside an hour, and a closer look at hours that come near a threshold.

use super::camper::Guard;
use super::electric::Memory;
use super::gear::Gear;
use crate::battery::cells::{Cells, Hold};
use crate::battery::flow::{Instant, lesser};
use crate::battery::{Direction, Protection, Readings, WhenFull};
use wainwright_units::{Current, Duration, Temperature, Voltage};

/// Length of a step.
const HOUR: Duration = Duration::from_hours(1.0);

/// The board's switches, and whether it is as at the start with nothing running.
#[derive(Debug, Clone, Copy)]
pub(super) struct Switches {
    board: Protection,
    calm: bool,
}

impl Switches {
    pub const CLOSED: Switches = Switches {
        board: Protection::CLOSED,
        calm: true,
    };

    fn of(board: Protection) -> Switches {
        Switches {
            board,
            calm: board == Protection::CLOSED,
        }
    }

    #[inline(always)]
    pub(super) const fn can_charge(self) -> bool {
        self.calm || self.board.can_charge()
    }

    #[inline(always)]
    pub(super) const fn can_discharge(self) -> bool {
        self.calm || self.board.can_discharge()
    }

    #[inline(always)]
    pub(super) const fn wrong_temperature(self) -> bool {
        !self.calm && self.board.wrong_temperature()
    }
}

/// Brings the board to its state before anything flows in an hour; `net` is what the sources give
/// beyond the loads [W].
#[inline(always)]
pub(super) fn at_rest<C: Cells>(gear: &Gear<'_, C>, memory: &mut Memory, cell: f64, net: f64) {
    let Some(guard) = &gear.guard else {
        return;
    };
    let quiet = gear.cells.quiet();
    let limits = &guard.thresholds;
    let no_voltage_near = memory.charge >= quiet.from && memory.charge <= quiet.to;
    if !no_voltage_near || memory.board.board.open_for_voltage() {
        memory.board = looked_at(gear, memory, cell, net, guard);
        return;
    }
    let mild = cell > limits.cold.celsius() && cell < limits.hot.celsius();
    if !(memory.board.calm && mild) {
        let cell = Temperature::from_celsius(cell);
        memory.board = Switches::of(memory.board.board.after_calm(cell, limits));
    }
}

#[cold]
#[inline(never)]
fn looked_at<C: Cells>(
    gear: &Gear<'_, C>,
    memory: &Memory,
    cell: f64,
    net: f64,
    guard: &Guard,
) -> Switches {
    let direction = if net >= 0.0 {
        Direction::Charging
    } else {
        Direction::Discharging
    };
    let ends = gear.cells.ends(memory.charge, direction);
    // A charger that the board keeps out pushes nothing.
    let asked = if net > 0.0 && !memory.board.can_charge() {
        0.0
    } else {
        net
    };
    let reading = Readings {
        highest: Voltage::from_volts(ends.highest),
        lowest: Voltage::from_volts(ends.lowest),
        temperature: Temperature::from_celsius(cell),
        current: Current::from_amperes(asked),
        since: HOUR,
    };
    Switches::of(memory.board.board.after(reading, &guard.thresholds))
}

/// An hour looked at closely.
pub(super) struct Closer<'g, 'a, C> {
    pub gear: &'g Gear<'a, C>,
    pub charge: f64,
    pub now: Instant,
    /// Temperature of the cells [°C].
    pub cell: f64,
}

impl<C: Cells> Closer<'_, '_, C> {
    /// Whether a charging current comes near no threshold.
    #[inline(always)]
    pub(super) fn quiet_in(&self, amperes: f64) -> bool {
        let quiet = self.gear.cells.quiet();
        self.charge + self.gain() * amperes <= quiet.to && amperes * self.now.ohms <= quiet.rise
    }

    /// Whether a discharging current comes near no threshold.
    #[inline(always)]
    pub(super) fn quiet_out(&self, amperes: f64) -> bool {
        let quiet = self.gear.cells.quiet();
        let after = self.charge - amperes * self.gear.store.per_ampere_hour;
        self.gear.guard.is_none() || after >= quiet.from && amperes * self.now.ohms <= quiet.rise
    }

    /// Largest current up to `most` that does not lift the terminals above the set point by the end
    /// of the hour.
    pub(super) fn held(&self, set_point: f64, most: f64) -> f64 {
        let top = match self.gear.limits.when_full {
            WhenFull::Refuse => f64::INFINITY,
            WhenFull::Overcharge => 1.0,
        };
        let hold = Hold {
            gain: self.gain(),
            ohms: self.now.ohms,
            top,
        };
        self.gear.cells.held(self.charge, hold, set_point, most)
    }

    /// Opens the charging path at the moment at which the fullest cell is too high; answers with
    /// how long the charge flows until then [h].
    #[cold]
    #[inline(never)]
    pub(super) fn watch_high(&self, amperes: f64, board: &mut Switches) -> Option<f64> {
        let guard = self.gear.guard.as_ref()?;
        let limit = guard.thresholds.over.volts();
        let rise = self.cell_rise(amperes);
        let cells = &self.gear.cells;
        let mut after = self.charge + self.gain() * amperes;
        if self.gear.limits.when_full == WhenFull::Overcharge {
            after = lesser(after, 1.0);
        }
        if cells.ends(after, Direction::Charging).highest + rise < limit || amperes <= 0.0 {
            return None;
        }
        let at = cells.rises(self.charge, after, limit - rise);
        let ends = cells.ends(at, Direction::Discharging);
        let lowest = Voltage::from_volts(ends.lowest);
        self.open(board, guard, (guard.thresholds.over, lowest), amperes);
        Some((at - self.charge) / (self.gain() * amperes))
    }

    /// The charge at which the board cuts the loads off, or the lowest one of the loads' own.
    #[cold]
    #[inline(never)]
    pub(super) fn watch_low(&self, amperes: f64, lowest: f64, board: &mut Switches) -> f64 {
        let Some(guard) = &self.gear.guard else {
            return lowest;
        };
        let limit = guard.thresholds.under.volts();
        let rise = self.cell_rise(amperes);
        let drop = lesser(amperes * self.gear.store.per_ampere_hour, self.charge);
        let after = self.charge - drop;
        let at = self.gear.cells.falls(self.charge, after, limit + rise);
        if at <= after || at <= lowest {
            return lowest;
        }
        let ends = self.gear.cells.ends(at, Direction::Discharging);
        let highest = Voltage::from_volts(ends.highest - rise);
        self.open(board, guard, (highest, guard.thresholds.under), -amperes);
        at
    }

    fn open(
        &self,
        board: &mut Switches,
        guard: &Guard,
        (highest, lowest): (Voltage, Voltage),
        amperes: f64,
    ) {
        let reading = Readings {
            highest,
            lowest,
            temperature: Temperature::from_celsius(self.cell),
            current: Current::from_amperes(amperes),
            since: HOUR,
        };
        *board = Switches::of(board.board.after(reading, &guard.thresholds));
    }

    /// Rise of a cell's voltage over its own resistance [V].
    fn cell_rise(&self, amperes: f64) -> f64 {
        let cells = &self.gear.cells;
        amperes * (self.now.ohms - cells.connections()) / cells.series()
    }

    /// Charge that an ampere brings in the hour.
    #[inline(always)]
    fn gain(&self) -> f64 {
        self.gear.store.gain
    }
}
