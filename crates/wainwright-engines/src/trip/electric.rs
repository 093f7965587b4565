//! One hour on the bus: who gives, who takes, what is left over.

use super::board::{self, Switches};
use super::gear::{Gear, Offers};
use super::hour::HourResult;
use super::load::Demand;
use super::ready::Ready;
use super::through::{Before, charging, discharging};
use crate::battery::Direction;
use crate::battery::cells::Cells;
use crate::battery::flow::{above_zero, lesser};
use wainwright_units::{Current, Energy, Ratio, Resistance, Temperature, Voltage, Volume};

/// What the hours before have left.
#[derive(Debug, Clone, Copy)]
pub(super) struct Memory {
    pub charge: f64,
    /// Where the charge was found in the battery's tables.
    pub near: usize,
    pub cut_off: bool,
    pub board: Switches,
    /// Fuel [L].
    pub fuel: f64,
}

/// Energy of an hour for the sums and their check [Wh].
#[derive(Debug, Clone, Copy)]
pub(super) struct Check<const N: usize> {
    /// Given by each source, from the highest set point down.
    pub used: [f64; N],
    pub left_over: f64,
    /// Through the terminals of the battery, either way.
    pub battery: f64,
}

/// An hour.
#[inline(always)]
pub(super) fn electric<C: Cells, const N: usize>(
    gear: &Gear<'_, C>,
    memory: &mut Memory,
    ready: &Ready<C::Warmth, N>,
) -> (HourResult, Check<N>) {
    let cell = ready.cell;
    let spot = gear.cells.spot(memory.charge, &mut memory.near);
    let before = Before::<C, N> {
        ready,
        spot,
        open_in: gear.cells.open(spot, Direction::Charging),
    };
    let mut offers = if ready.nothing_given {
        Offers::NONE
    } else {
        gear.offers(&ready.reaches, before.open_in)
    };
    let solar = offers.solar;
    let dead = !gear.all_start && !memory.board.can_discharge();
    let asleep = dead && solar > 0.0 && !gear.wakes(&offers);
    if asleep {
        offers = Offers::NONE;
    }
    let demand = &ready.demand;
    let burning = burning(demand, memory.fuel);
    let wanted = demand.steady + demand.burners * burning;
    let net = offers.total - wanted;
    board::at_rest(gear, memory, cell, net);
    let (done, used, short) = if net >= 0.0 {
        let done = charging(gear, memory, &before, &offers, wanted);
        let used = share_out(gear, &offers, wanted + done.flow.bus);
        (done, used, 0.0)
    } else {
        let done = discharging(gear, memory, &before, -net);
        let short = -net * (1.0 - done.flow.flowed);
        (done, offers, short)
    };
    let flow = done.flow;
    let served = if short > 0.0 {
        1.0 - short / wanted
    } else {
        1.0
    };
    let fuel_used = demand.litres * burning * served;
    memory.charge = flow.charge;
    memory.fuel = above_zero(memory.fuel - fuel_used);
    memory.cut_off = (flow.flowed < 1.0 || memory.cut_off) && flow.charge < gear.reconnect;
    let energy = Energy::from_watt_hours;
    let lost = flow.heat + flow.lost;
    let [first, second, third, fourth, alternator, shore] = gear.by_place(&used.each);
    let result = HourResult {
        charge: Ratio::from_fraction(flow.charge),
        cell: Temperature::from_celsius(cell),
        open: Voltage::from_volts(done.now.open),
        resistance: Resistance::from_ohms(done.now.ohms),
        current: Current::from_amperes(flow.amperes),
        solar: energy(solar),
        fields: [first, second, third, fourth].map(energy),
        alternator: energy(alternator),
        shore: energy(shore),
        wanted: energy(wanted),
        unserved: energy(short),
        spilled: energy(solar - used.solar),
        into_battery: energy(flow.bus),
        stored: energy(flow.stored),
        lost: energy(lost),
        cut_off: memory.cut_off,
        can_charge: memory.board.can_charge(),
        can_discharge: memory.board.can_discharge(),
        board_trip: done.trip,
        load_dump: done.trip && solar > 0.0,
        asleep,
        blocked: done.blocked,
        burning: Ratio::from_fraction(burning),
        water_missing: ready.water.missing,
        fresh: ready.tanks.fresh,
        waste: ready.tanks.waste,
        waste_spilled: ready.water.spilled,
        fuel: Volume::from_litres(memory.fuel),
        fuel_used: Volume::from_litres(fuel_used),
        fuel_missing: Volume::from_litres(demand.litres * (1.0 - burning)),
    };
    // Sources = loads served + battery, and battery = stored + lost; nothing is below zero.
    let on_bus = used.total - (wanted - short) - flow.bus;
    let in_battery = flow.bus - flow.stored - lost;
    let below_zero = above_zero(-lost) + above_zero(-short);
    let check = Check {
        left_over: on_bus.abs() + in_battery.abs() + below_zero,
        used: used.each,
        battery: flow.bus.abs(),
    };
    (result, check)
}

/// Energy from each source, in their order, until what is needed is met.
#[inline(always)]
fn share_out<C, const N: usize>(gear: &Gear<'_, C>, offers: &Offers<N>, needed: f64) -> Offers<N> {
    let mut rest = needed;
    Offers::from_each(&gear.sources, |at| {
        let watts = lesser(rest, offers.each.get(at).copied().unwrap_or(0.0));
        rest -= watts;
        watts
    })
}

/// Share of their time for which heaters have fuel.
#[inline(always)]
fn burning(demand: &Demand, fuel: f64) -> f64 {
    if demand.litres > fuel {
        fuel / demand.litres
    } else {
        1.0
    }
}
