//! What makes a conflict go away without making another. Not here: finding conflicts (`find`).

use super::bound::ToChange;
use super::card::Cards;
use super::conflict::{Change, Conflict, ConflictKind, Place};
use super::find;
use super::input::System;
use super::set::together;
use wainwright_units::Voltage;

/// Rounds of looking at what a change brings with it; there are fewer settings than that to a device.
const ROUNDS: usize = 12;

/// The conflicts with their remedies.
pub(super) fn with_remedies(system: &System<'_>, cards: &Cards) -> Vec<Conflict> {
    let before = find::all(system, cards);
    let mut found = before.clone();
    for conflict in &mut found {
        conflict.cost = find::cost(system, cards, conflict);
        match remedy(system, cards, &before, conflict) {
            Some(changes) => conflict.remedy = changes,
            None => conflict.change = Some(obstacle(cards, conflict)),
        }
    }
    found
}

/// Carries one change out; a change of a device that is not there does nothing.
pub fn apply(system: &mut System<'_>, change: Change) {
    match change {
        Change::WakeSwitch => {
            if let Some(board) = &mut system.board {
                board.goes_dead = false;
            }
        }
        Change::Off(index, volts) => {
            let device = system.disconnects.get_mut(index);
            if let Some(set) = device.and_then(|device| device.settings.as_mut()) {
                set.off = volts;
            }
        }
        Change::On(index, volts) => {
            let device = system.disconnects.get_mut(index);
            if let Some(set) = device.and_then(|device| device.settings.as_mut()) {
                set.on = volts;
            }
        }
        Change::AdjustableCharger(index)
        | Change::Sensor(index)
        | Change::Clamp(index, _)
        | Change::LithiumProfile(index) => device(system, index, change),
        Change::Absorption(index, _)
        | Change::Float(index, _)
        | Change::AbsorptionTime(index, _)
        | Change::Tail(index, _)
        | Change::Compensation(index, _)
        | Change::Equalise(index, _)
        | Change::Lockout(index, _)
        | Change::Limit(index, _) => setting(system, index, change),
    }
}

/// Sets everything that has an advised value to it, where settings are known.
pub fn adopt(system: &mut System<'_>, cards: &Cards) {
    for (charger, card) in system.chargers.iter_mut().zip(&cards.chargers) {
        let Some(set) = &mut charger.settings else {
            continue;
        };
        set.absorption = card.absorption.advised.unwrap_or(set.absorption);
        set.float = card.float.advised.or(set.float);
        set.absorption_time = card.absorption_time.advised.unwrap_or(set.absorption_time);
        set.tail = card.tail.advised.or(set.tail);
        set.compensation = card.compensation;
        set.equalise = card.equalise;
        set.lockout = card.lockout.as_ref().and_then(|point| point.advised);
        set.limit = card.limit.advised.unwrap_or(set.limit);
    }
    for (device, card) in system.disconnects.iter_mut().zip(&cards.disconnects) {
        if let Some(set) = &mut device.settings {
            set.off = card.off.advised.unwrap_or(set.off);
            set.on = card.on.advised.unwrap_or(set.on);
        }
    }
}

fn device(system: &mut System<'_>, index: usize, change: Change) {
    let Some(charger) = system.chargers.get_mut(index) else {
        return;
    };
    match change {
        Change::AdjustableCharger(_) => charger.adjustable = true,
        Change::Sensor(_) => charger.sensor = true,
        Change::LithiumProfile(_) => charger.lead_acid_profile = false,
        Change::Clamp(_, volts) => {
            charger.unloaded = charger.unloaded.map(|open| open.min(volts));
        }
        _ => {}
    }
}

fn setting(system: &mut System<'_>, index: usize, change: Change) {
    let charger = system.chargers.get_mut(index);
    let Some(set) = charger.and_then(|charger| charger.settings.as_mut()) else {
        return;
    };
    match change {
        Change::Absorption(_, volts) => set.absorption = volts,
        Change::Float(_, volts) => set.float = volts,
        Change::AbsorptionTime(_, time) => set.absorption_time = time,
        Change::Tail(_, amperes) => set.tail = Some(amperes),
        Change::Compensation(_, slope) => set.compensation = slope,
        Change::Equalise(_, volts) => set.equalise = volts,
        Change::Lockout(_, at) => set.lockout = Some(at),
        Change::Limit(_, amperes) => set.limit = amperes,
        _ => {}
    }
}

/// The change that answers a conflict, and those that answer what it brings with it.
fn remedy(
    system: &System<'_>,
    cards: &Cards,
    before: &[Conflict],
    conflict: &Conflict,
) -> Option<Vec<Change>> {
    let mut after = system.clone();
    let mut changes = Vec::new();
    let mut open = vec![(conflict.kind, conflict.place)];
    for _ in 0..ROUNDS {
        let wanted: Option<Vec<_>> = open
            .iter()
            .map(|(kind, place)| answer(&after, cards, *kind, *place))
            .collect();
        let fresh = wanted?.into_iter().flatten();
        let fresh: Vec<Change> = fresh.filter(|change| !changes.contains(change)).collect();
        if fresh.is_empty() {
            return None;
        }
        for change in fresh {
            apply(&mut after, change);
            changes.push(change);
        }
        open = troubles(&after, cards, before, conflict);
        if open.is_empty() {
            return Some(changes);
        }
    }
    None
}

/// The conflict itself if it is still there, and those that were not there before.
fn troubles(
    after: &System<'_>,
    cards: &Cards,
    before: &[Conflict],
    conflict: &Conflict,
) -> Vec<(ConflictKind, Place)> {
    let now = find::all(after, cards).into_iter();
    let now = now.map(|found| (found.kind, found.place));
    let known = |at: &(ConflictKind, Place)| {
        *at != (conflict.kind, conflict.place)
            && before.iter().any(|old| (old.kind, old.place) == *at)
    };
    now.filter(|at| !known(at)).collect()
}

/// What to set against one conflict; `None` when no setting is legal.
fn answer(
    system: &System<'_>,
    cards: &Cards,
    kind: ConflictKind,
    place: Place,
) -> Option<Vec<Change>> {
    match place {
        Place::Chargers => together(system)
            .map(|(index, _)| limit(system, cards, index))
            .collect::<Option<Vec<_>>>()
            .map(|changes| changes.concat()),
        Place::Charger(index) => of_charger(system, cards, kind, index),
        Place::Disconnect(index) => {
            let card = cards.disconnects.get(index)?;
            let change = match kind {
                ConflictKind::Clicking if system.off_is_advised(cards, index) => {
                    vec![Change::On(index, card.on.advised?)]
                }
                ConflictKind::Clicking => vec![
                    Change::Off(index, card.off.advised?),
                    Change::On(index, card.on.advised?),
                ],
                ConflictKind::ReconnectTooHigh => vec![Change::On(index, card.on.advised?)],
                _ => vec![Change::Off(index, card.off.advised?)],
            };
            Some(change)
        }
    }
}

fn of_charger(
    system: &System<'_>,
    cards: &Cards,
    kind: ConflictKind,
    index: usize,
) -> Option<Vec<Change>> {
    use ConflictKind as Kind;
    let card = cards.chargers.get(index)?;
    let charger = system.chargers.get(index)?;
    let change = match kind {
        Kind::LoadDump => return Some(vec![Change::Clamp(index, system.loads.highest)]),
        Kind::CannotWake => return Some(vec![Change::WakeSwitch]),
        Kind::CurrentAboveBattery => return limit(system, cards, index),
        Kind::NoColdLockout => Change::Lockout(index, card.lockout.as_ref()?.advised?),
        Kind::AboveBoard | Kind::AboveLoads | Kind::NeverFull | Kind::NeverBalances => {
            Change::Absorption(index, card.absorption.advised?)
        }
        Kind::FloatTooLow | Kind::FloatTooHigh | Kind::FloatAboveAbsorption => {
            Change::Float(index, Some(card.float.advised?))
        }
        Kind::TailTooSmall | Kind::TailTooLarge => Change::Tail(index, card.tail.advised?),
        Kind::EqualiseOnLithium => Change::Equalise(index, None),
        Kind::CompensationOnLithium => Change::Compensation(index, 0.0),
        Kind::LeadAcidProfile => Change::LithiumProfile(index),
        _ => return None,
    };
    let mut changes = Vec::new();
    if !charger.adjustable {
        changes.push(Change::AdjustableCharger(index));
    }
    if kind == Kind::NoColdLockout && !charger.sensor {
        changes.push(Change::Sensor(index));
    }
    changes.push(change);
    let low = |float: Voltage| charger.settings.is_some_and(|set| set.absorption < float);
    if kind == Kind::FloatAboveAbsorption && card.float.advised.is_some_and(low) {
        changes.push(Change::Absorption(index, card.absorption.advised?));
    }
    Some(changes)
}

fn limit(system: &System<'_>, cards: &Cards, index: usize) -> Option<Vec<Change>> {
    let charger = system.chargers.get(index)?;
    let advised = cards.chargers.get(index)?.limit.advised?;
    let mut changes = Vec::new();
    if !charger.adjustable {
        changes.push(Change::AdjustableCharger(index));
    }
    changes.push(Change::Limit(index, advised));
    Some(changes)
}

/// Why there is no remedy: the empty range of the setting that would have to move.
fn obstacle(cards: &Cards, conflict: &Conflict) -> ToChange {
    let change = match conflict.place {
        Place::Charger(index) => cards.chargers.get(index).and_then(|card| {
            let cold = card.lockout.as_ref().and_then(|point| point.change);
            let all = [
                card.absorption.change,
                card.float.change,
                card.tail.change,
                cold,
            ];
            all.into_iter().flatten().next()
        }),
        Place::Disconnect(index) => cards
            .disconnects
            .get(index)
            .and_then(|card| card.off.change.or(card.on.change)),
        Place::Chargers => None,
    };
    change.unwrap_or(ToChange::Device)
}

impl System<'_> {
    /// Whether a disconnect is already set as advised, or there is nothing advised.
    fn off_is_advised(&self, cards: &Cards, index: usize) -> bool {
        let set = self
            .disconnects
            .get(index)
            .and_then(|device| device.settings);
        let advised = cards
            .disconnects
            .get(index)
            .and_then(|card| card.off.advised);
        match (set, advised) {
            (Some(set), Some(advised)) => {
                // A lower disconnect only makes more room for the advised reconnect.
                set.off.volts() <= advised.volts()
            }
            _ => true,
        }
    }
}
