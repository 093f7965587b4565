//! What goes through the battery in an hour: the charge the sources push in, or the loads take out.

use super::board::Closer;
use super::electric::Memory;
use super::gear::{Gear, Offers};
use super::ready::Ready;
use crate::battery::Direction;
use crate::battery::cells::Cells;
use crate::battery::flow::{self, Flow, Instant, above_zero, lesser};

/// The battery in an hour before anything flows.
pub(super) struct Before<'r, C: Cells + 'r, const N: usize> {
    pub ready: &'r Ready<C::Warmth, N>,
    pub spot: C::Spot<'r>,
    /// Open voltage on charge [V].
    pub open_in: f64,
}

/// What an hour's battery did.
pub(super) struct Done {
    pub now: Instant,
    pub flow: Flow,
    pub trip: bool,
    pub blocked: bool,
}

/// Charges with what the sources give beyond the loads.
#[inline(always)]
pub(super) fn charging<C: Cells, const N: usize>(
    gear: &Gear<'_, C>,
    memory: &mut Memory,
    before: &Before<'_, C, N>,
    offers: &Offers<N>,
    wanted: f64,
) -> Done {
    let charge = memory.charge;
    let now = Instant {
        open: before.open_in,
        ohms: gear
            .cells
            .ohms(before.spot, before.ready.warmth, Direction::Charging),
    };
    let by_cold = before.ready.by_cold;
    let limits = &gear.limits;
    let mut most = lesser(limits.most_in.amperes(), by_cold);
    most = lesser(most, flow::accepted(gear.store, charge, gear.acceptance));
    if !memory.board.can_charge() {
        most = 0.0;
    }
    let most = above_zero(most);
    let refused = flow::refused(gear.store, charge, 1.0, limits.when_full);
    let net = offers.total - wanted;
    let offered = match gear.only_level {
        Some(set_point) => {
            let own = lesser(flow::current_in(now, net), most);
            lesser(own, flow::held_current(now, set_point))
        }
        None => pushed(gear, now, offers, wanted, most, None),
    };
    let mut amperes = lesser(offered, refused);
    let closer = Closer {
        gear,
        charge,
        now,
        cell: before.ready.cell,
    };
    let refused_for = memory.board.wrong_temperature() || by_cold <= 0.0;
    let mut trip_after = None;
    // A board sees what chargers push into a full battery before they stop.
    let seen = if gear.guard.is_some() {
        offered
    } else {
        amperes
    };
    if seen > 0.0 && !closer.quiet_in(seen) {
        let offered = pushed(gear, now, offers, wanted, most, Some(&closer));
        trip_after = closer.watch_high(offered, &mut memory.board);
        amperes = match trip_after {
            Some(_) => offered,
            None => lesser(offered, refused),
        };
    }
    let hours = trip_after.unwrap_or(1.0);
    Done {
        now,
        flow: flow::put(now, gear.store, charge, amperes, hours),
        trip: trip_after.is_some(),
        blocked: refused_for && charge < 1.0 && net > 0.0,
    }
}

/// Current that the sources push in: those of the highest set point alone, or with the next ones as
/// long as the terminals stay below theirs. With a closer look, at the end of the hour too.
#[cold]
#[inline(never)]
fn pushed<C: Cells, const N: usize>(
    gear: &Gear<'_, C>,
    now: Instant,
    offers: &Offers<N>,
    wanted: f64,
    most: f64,
    closer: Option<&Closer<'_, '_, C>>,
) -> f64 {
    let mut amperes = 0.0;
    let mut surplus = -wanted;
    for (source, watts) in gear.sources.iter().zip(&offers.each) {
        surplus += watts;
        if !source.last_of_level {
            continue;
        }
        let mut own = lesser(flow::current_in(now, surplus), most);
        own = lesser(own, flow::held_current(now, source.set_point));
        if let Some(closer) = closer {
            own = closer.held(source.set_point, own);
        }
        if own > amperes {
            amperes = own;
        }
    }
    amperes
}

/// Takes out what the loads want beyond the sources.
#[inline(always)]
pub(super) fn discharging<C: Cells, const N: usize>(
    gear: &Gear<'_, C>,
    memory: &mut Memory,
    before: &Before<'_, C, N>,
    watts: f64,
) -> Done {
    let direction = Direction::Discharging;
    let now = Instant {
        open: gear.cells.open(before.spot, direction),
        ohms: gear.cells.ohms(before.spot, before.ready.warmth, direction),
    };
    let asked = flow::current_out(now, watts);
    let most = if memory.cut_off || !memory.board.can_discharge() {
        0.0
    } else {
        gear.limits.most_out.amperes()
    };
    let mut lowest = gear.limits.lowest.fraction();
    let closer = Closer {
        gear,
        charge: memory.charge,
        now,
        cell: before.ready.cell,
    };
    if asked <= most && !closer.quiet_out(asked) {
        lowest = closer.watch_low(asked, lowest, &mut memory.board);
    }
    Done {
        now,
        flow: flow::take(now, gear.store, memory.charge, lowest, (asked, most), 1.0),
        trip: false,
        blocked: false,
    }
}
