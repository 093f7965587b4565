//! Making the cards. Not here: the pack by itself (`pack`), present settings (`find`).

use super::bound::{Bound, Reason, SetPoint, ToChange, bound};
use super::card::{
    Cards, ChargerCard, ChargerFigures, DisconnectCard, DisconnectFigures, PackFigures,
};
use super::input::{Charger, Disconnect, Family, System};
use super::pack;
use crate::refusal::Refusal;
use wainwright_units::{Current, Duration, Ratio, Resistance, Temperature, Voltage};

/// The settings of every device. Assumes a checked system.
pub(super) fn cards(system: &System<'_>) -> Result<Cards, Refusal> {
    let figures = pack::figures(system);
    let one = |charger: &Charger| charger_card(system, &figures, charger);
    let chargers: Option<Vec<_>> = system.chargers.iter().map(one).collect();
    let one = |device: &Disconnect| disconnect_card(system, &figures, device);
    let disconnects: Option<Vec<_>> = system.disconnects.iter().map(one).collect();
    let (Some(chargers), Some(disconnects)) = (chargers, disconnects) else {
        return Err(Refusal::new("bounds of a setting", 0.0, "at least one"));
    };
    Ok(Cards {
        pack: figures,
        chargers,
        disconnects,
    })
}

fn charger_card(
    system: &System<'_>,
    figures: &PackFigures,
    charger: &Charger,
) -> Option<ChargerCard> {
    let profile = &system.profile;
    let cells = f64::from(system.battery.series);
    let limit = limit(system, figures.takes, charger)?;
    let tail = tail(system)?;
    let tail_current = tail.advised.unwrap_or(tail.high.value);
    let wire = regulated_wire(charger);
    let compensation = cells * profile.compensation;
    let cold_rise = cold_rise(system, compensation);
    let ends = Ends {
        system,
        figures,
        wire,
        tail: tail_current,
        cold_rise,
    };
    let absorption = ends.absorption()?;
    let float = ends.float(absorption.advised.unwrap_or(absorption.high.value))?;
    let limit_current = limit.advised.unwrap_or(limit.high.value);
    // Lead-acid near full is not at the voltage of its rested curve: its acceptance says how it tapers.
    let rested = absorption.advised.filter(|_| is_lithium(system));
    let taper = rested.and_then(|set| {
        let own = tail_current - system.loads.standing;
        pack::taper(&system.battery, set, wire, limit_current, own)
    });
    let lead = pack::acceptance_hours(system, limit_current, tail_current);
    let falls = taper.map_or(lead, |taper| taper.lasts.hours().max(lead));
    Some(ChargerCard {
        absorption_time: absorption_time(system, Duration::from_hours(falls))?,
        compensation,
        equalise: profile.equalise.map(|cell| cell * cells),
        lockout: lockout(system),
        figures: ChargerFigures {
            drop_at_limit: limit_current * wire,
            drop_at_tail: tail_current * wire,
            taper,
            cold_rise: Voltage::from_volts(cold_rise),
        },
        absorption,
        float,
        tail,
        limit,
    })
}

/// What the voltages of one charger are bounded by.
struct Ends<'s, 'a> {
    system: &'s System<'a>,
    figures: &'s PackFigures,
    wire: Resistance,
    tail: Current,
    cold_rise: f64,
}

impl Ends<'_, '_> {
    fn absorption(&self) -> Option<SetPoint<Voltage>> {
        let profile = &self.system.profile;
        let at_charger = |volts: f64| Voltage::from_volts(volts) + self.tail * self.wire;
        let mut lows = vec![bound(
            at_charger(self.cells() * profile.absorption.low.volts()),
            Reason::ChemistryLeast,
        )];
        if let Some(full) = self.full_volts() {
            lows.push(bound(at_charger(full), Reason::Full));
        }
        let mut highs = self.highs();
        highs.push(self.per_cell(profile.absorption.high, Reason::ChemistryMost));
        let lost = self.tail.amperes() * self.system.battery.connections.ohms();
        let balance = self.figures.balances;
        let wish = balance.map(|pack| bound(at_charger(pack.volts() + lost), Reason::Balance));
        let usual = profile.absorption.usual * self.cells();
        let found = SetPoint::nearest(usual, lows, highs)?.wishing(wish);
        Some(found.or_change(|empty| self.remove_absorption(empty)))
    }

    fn float(&self, absorption: Voltage) -> Option<SetPoint<Voltage>> {
        let window = &self.system.profile.float;
        let least = window.low * self.cells() + self.system.loads.standing * self.wire;
        let mut highs = self.highs();
        highs.push(self.per_cell(window.high, Reason::ChemistryMost));
        highs.push(bound(absorption, Reason::Absorption));
        let lows = vec![bound(least, Reason::ChemistryLeast)];
        let found = SetPoint::nearest(window.usual * self.cells(), lows, highs)?;
        Some(found.or_change(|empty| self.remove_float(empty)))
    }

    /// Upper ends of any charging voltage; no credit for wire, because the current may fall to zero.
    fn highs(&self) -> Vec<Bound<Voltage>> {
        let margin = self.system.margins.below_trip * self.cells();
        let pack_trip = self.system.board.and_then(|board| board.pack_over);
        let trips = [
            (self.figures.trip, Reason::CellTrip),
            (pack_trip, Reason::PackTrip),
        ];
        let of_board = trips
            .into_iter()
            .filter_map(|(trip, reason)| Some(bound(trip? - margin, reason)));
        let loads = self.system.loads.highest - Voltage::from_volts(self.cold_rise);
        of_board.chain([bound(loads, Reason::LoadsTake)]).collect()
    }

    /// Pack voltage at the tail current when full [V].
    fn full_volts(&self) -> Option<f64> {
        let full = self.system.profile.full?.fraction();
        let own = (self.tail - self.system.loads.standing).max(Current::ZERO);
        let lost = own * self.figures.charging;
        Some(pack::open_volts(&self.system.battery, full) + lost.volts())
    }

    fn remove_absorption(&self, empty: &SetPoint<Voltage>) -> ToChange {
        let drop = self.tail * self.wire;
        let without = empty.low.value - drop;
        if without < empty.high.value && drop > Voltage::ZERO {
            let room = empty.high.value - without;
            return ToChange::WireBelow(Resistance::from_ohms(room.volts() / self.tail.amperes()));
        }
        self.remove_high(empty)
    }

    fn remove_float(&self, empty: &SetPoint<Voltage>) -> ToChange {
        self.remove_high(empty)
    }

    fn remove_high(&self, empty: &SetPoint<Voltage>) -> ToChange {
        let need = empty.low.value;
        let margin = self.system.margins.below_trip * self.cells();
        match empty.high.reason {
            Reason::LoadsTake => {
                ToChange::LoadsThatTake(need + Voltage::from_volts(self.cold_rise))
            }
            Reason::CellTrip => {
                let enough = |ahead| {
                    let trip = self.system.board.as_ref();
                    let trip = trip.and_then(|board| pack::trip_at(self.system, board, ahead));
                    trip.is_some_and(|trip| trip - margin >= need)
                };
                let cell = (need + margin) * (1.0 / self.cells());
                pack::most_uneven(enough)
                    .map_or(ToChange::BoardStopsAbove(cell), ToChange::CellsWithin)
            }
            Reason::PackTrip => ToChange::BoardStopsAbove((need + margin) * (1.0 / self.cells())),
            _ => ToChange::Device,
        }
    }

    fn per_cell(&self, cell: Voltage, reason: Reason) -> Bound<Voltage> {
        bound(cell * self.cells(), reason)
    }

    fn cells(&self) -> f64 {
        f64::from(self.system.battery.series)
    }
}

/// The wire a charger does not see through: none when it regulates at the battery.
pub(super) fn regulated_wire(charger: &Charger) -> Resistance {
    if charger.senses {
        Resistance::ZERO
    } else {
        charger.wire
    }
}

/// How far compensation raises the voltage at the coldest [V].
fn cold_rise(system: &System<'_>, compensation: f64) -> f64 {
    let kelvins = system.profile.reference.celsius() - system.battery.coldest.celsius();
    -compensation * kelvins.max(0.0)
}

fn tail(system: &System<'_>) -> Option<SetPoint<Current>> {
    let window = &system.profile.tail;
    let hours = system.battery.capacity.ampere_hours();
    let of = |share: Ratio| Current::from_amperes(share.fraction() * hours);
    let lows = vec![
        bound(of(window.low), Reason::ChemistryLeast),
        bound(
            of(window.low) + system.loads.standing,
            Reason::StandingLoads,
        ),
    ];
    let highs = vec![bound(of(window.high), Reason::ChemistryMost)];
    let found = SetPoint::nearest(of(window.usual), lows, highs)?;
    Some(found.or_change(|_| ToChange::StandingBelow(of(window.high) - of(window.low))))
}

fn limit(system: &System<'_>, takes: Current, charger: &Charger) -> Option<SetPoint<Current>> {
    let mut highs = vec![
        bound(charger.most, Reason::Device),
        bound(takes, Reason::BatteryTakes),
    ];
    let sum: f64 = together(system)
        .map(|(_, other)| other.most.amperes())
        .sum();
    if charger.together && sum > takes.amperes() {
        let share = charger.most * (takes.amperes() / sum);
        highs.push(bound(share, Reason::Share));
    }
    SetPoint::nearest(
        charger.most,
        vec![bound(Current::ZERO, Reason::Zero)],
        highs,
    )
}

/// The chargers that may run together.
pub(super) fn together<'s>(system: &'s System<'_>) -> impl Iterator<Item = (usize, &'s Charger)> {
    let all = system.chargers.iter().enumerate();
    all.filter(|(_, charger)| charger.together)
}

fn absorption_time(system: &System<'_>, falls: Duration) -> Option<SetPoint<Duration>> {
    let window = &system.profile.absorption_time;
    let found = SetPoint::nearest(
        window.usual,
        vec![bound(window.low, Reason::ChemistryLeast)],
        vec![bound(window.high, Reason::ChemistryMost)],
    )?;
    Some(found.wishing(Some(bound(falls, Reason::Taper))))
}

fn lockout(system: &System<'_>) -> Option<SetPoint<Temperature>> {
    let window = system.profile.lockout?;
    let mut lows = vec![bound(window.low, Reason::ChemistryLeast)];
    if let Some(board) = system.board.filter(|board| board.stops_cold) {
        let above = board.cells.cold.celsius() + system.margins.above_cold;
        lows.push(bound(Temperature::from_celsius(above), Reason::BoardCold));
    }
    let highs = vec![bound(window.high, Reason::ChemistryMost)];
    let found = SetPoint::nearest(window.usual, lows, highs)?;
    Some(found.or_change(|_| ToChange::Device))
}

fn disconnect_card(
    system: &System<'_>,
    figures: &PackFigures,
    device: &Disconnect,
) -> Option<DisconnectCard> {
    let cells = f64::from(system.battery.series);
    let working = DisconnectFigures {
        drop: device.most * device.wire,
        sag: device.most * figures.discharging,
        rebound: system.profile.rebound * cells,
    };
    let off = off(system, figures, device, &working)?;
    let apart = working.drop + working.sag + working.rebound;
    let from = off.advised.unwrap_or(off.high.value);
    let lows = vec![bound(from + apart, Reason::Recovery)];
    let back = pack::open_volts(&system.battery, system.profile.back_by.fraction());
    let highs = vec![bound(Voltage::from_volts(back), Reason::BackBy)];
    let on = SetPoint::nearest(system.profile.reconnect * cells, lows, highs)?;
    let room = Voltage::from_volts(back) - from - working.rebound;
    Some(DisconnectCard {
        off,
        on: on.or_change(|_| less_sag(room, figures.discharging, device)),
        figures: working,
    })
}

fn off(
    system: &System<'_>,
    figures: &PackFigures,
    device: &Disconnect,
    working: &DisconnectFigures,
) -> Option<SetPoint<Voltage>> {
    let cells = f64::from(system.battery.series);
    let margin = system.margins.above_cut_off * cells;
    let mut lows = vec![
        bound(system.profile.lowest * cells, Reason::ChemistryLeast),
        bound(system.loads.lowest, Reason::LoadsNeed),
    ];
    let pack_cut = system.board.and_then(|board| board.pack_under);
    for (cut, reason) in [
        (figures.cut_off, Reason::CellCutOff),
        (pack_cut, Reason::PackCutOff),
    ] {
        lows.extend(cut.map(|cut| bound(cut + margin, reason)));
    }
    let rest = pack::open_volts(&system.battery, system.profile.reserve.fraction());
    let rest = Voltage::from_volts(rest);
    let highs = vec![bound(rest - working.sag - working.drop, Reason::Reserve)];
    let found = SetPoint::nearest(system.profile.disconnect * cells, lows, highs)?;
    Some(found.or_change(|empty| match empty.low.reason {
        Reason::LoadsNeed if rest < empty.low.value => ToChange::LoadsThatWorkAt(empty.high.value),
        _ if rest > empty.low.value => {
            less_sag(rest - empty.low.value, figures.discharging, device)
        }
        _ => {
            let enough = |behind| {
                let board = system.board.as_ref();
                let cut = board.and_then(|board| pack::cut_off_at(system, board, behind));
                cut.is_some_and(|cut| cut + margin <= empty.high.value)
            };
            let cell = (empty.high.value - margin) * (1.0 / cells);
            pack::most_uneven(enough).map_or(ToChange::BoardCutsBelow(cell), ToChange::CellsWithin)
        }
    }))
}

/// Thicker wire if that is enough, else less current, to lose no more than `room`.
fn less_sag(room: Voltage, pack: Resistance, device: &Disconnect) -> ToChange {
    let left = (room - device.most * pack).volts() / device.most.amperes();
    if left > 0.0 && left < device.wire.ohms() {
        return ToChange::WireBelow(Resistance::from_ohms(left));
    }
    let ohms = (pack + device.wire).ohms();
    match room.volts() / ohms {
        amperes if amperes > 0.0 && amperes.is_finite() => {
            ToChange::CurrentBelow(Current::from_amperes(amperes))
        }
        _ => ToChange::Device,
    }
}

/// Whether the battery is lithium.
pub(super) fn is_lithium(system: &System<'_>) -> bool {
    system.battery.family == Family::Lithium
}
