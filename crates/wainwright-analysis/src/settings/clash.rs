//! Conflicts of the engine with where they stand in the file. Not here: finding them (the engine).

use super::desk::Desk;
use crate::known::Basis;
use crate::result::settings::{
    Change, Conflict, ConflictKind, DeviceCard, Place, SettingConflict, SettingKind, SettingRow,
};
use wainwright_model::Edit;

type Path = Vec<String>;

/// Keeps the conflicts about settings that are known, with items, paths and edits.
///
/// `chargers` and `disconnects` are where the engine's places begin among the cards.
pub(super) fn placed(
    desk: &Desk<'_>,
    cards: &[DeviceCard],
    (chargers, disconnects): (usize, usize),
    found: Vec<Conflict>,
) -> Vec<SettingConflict> {
    let one = |conflict: Conflict| {
        let devices: Vec<usize> = match conflict.place {
            Place::Charger(index) => vec![chargers + index],
            Place::Disconnect(index) => vec![disconnects + index],
            Place::Chargers => limits(&conflict, chargers),
        };
        place(desk, cards, (chargers, disconnects), conflict, devices)
    };
    found.into_iter().filter_map(one).collect()
}

/// The chargers whose limits a sum is made of.
fn limits(conflict: &Conflict, chargers: usize) -> Vec<usize> {
    let changes = conflict.remedy.iter();
    let those = changes.filter_map(|change| match change {
        Change::Limit(index, _) => Some(chargers + index),
        _ => None,
    });
    those.collect()
}

fn place(
    desk: &Desk<'_>,
    cards: &[DeviceCard],
    starts: (usize, usize),
    conflict: Conflict,
    devices: Vec<usize>,
) -> Option<SettingConflict> {
    let held = held(conflict.kind);
    let rows = || devices.iter().filter_map(|index| cards.get(*index));
    let rows = || rows().flat_map(|card| held.iter().filter_map(|what| card.row(*what)));
    let lockout = conflict.kind == ConflictKind::NoColdLockout;
    if !lockout && rows().any(|row| row.now.is_none()) {
        return None;
    }
    let told = match (lockout, held.is_empty()) {
        (true, _) => devices.iter().any(|index| begun(desk, cards.get(*index))),
        (_, true) => true,
        _ => rows().any(|row| is_told(desk, row)),
    };
    let mut paths: Vec<Path> = rows().map(|row| row.path.clone()).collect();
    if conflict.kind == ConflictKind::CannotWake
        && let Some(card) = rows_owner(cards, &devices)
    {
        paths.push(vec![
            "item".into(),
            card.item.to_string(),
            "needs_battery".into(),
        ]);
    }
    if conflict.kind == ConflictKind::LoadDump
        && let Some(card) = rows_owner(cards, &devices)
    {
        paths.push(vec![
            "item".into(),
            card.item.to_string(),
            "tracking".into(),
        ]);
    }
    let (edits, besides) = carried_out(cards, starts, &conflict);
    Some(SettingConflict {
        rests_on: rests_on(desk, conflict.kind),
        conflict,
        devices,
        paths,
        told,
        edits,
        besides,
    })
}

fn rows_owner<'a>(cards: &'a [DeviceCard], devices: &[usize]) -> Option<&'a DeviceCard> {
    cards.get(*devices.first()?)
}

/// The settings that a conflict holds against something.
const fn held(kind: ConflictKind) -> &'static [SettingKind] {
    use ConflictKind as Kind;
    use SettingKind as Of;
    match kind {
        Kind::AboveBoard
        | Kind::AboveLoads
        | Kind::NeverFull
        | Kind::NeverBalances
        | Kind::LeadAcidProfile => &[Of::ChargeVoltage],
        Kind::FloatTooLow | Kind::FloatTooHigh => &[Of::Float],
        Kind::FloatAboveAbsorption => &[Of::Float, Of::ChargeVoltage],
        Kind::TailTooSmall | Kind::TailTooLarge => &[Of::Tail],
        Kind::CurrentAboveBattery | Kind::SumAboveBattery => &[Of::Limit],
        Kind::NoColdLockout => &[Of::ColdLockout],
        Kind::EqualiseOnLithium => &[Of::Equalise],
        Kind::CompensationOnLithium => &[Of::Compensation],
        Kind::LoadDump | Kind::CannotWake => &[],
        Kind::DisconnectBelowBoard
        | Kind::InverterBelowBoard
        | Kind::DisconnectBelowLoads
        | Kind::DisconnectTooEarly => &[Of::Off],
        Kind::Clicking => &[Of::Off, Of::On],
        Kind::ReconnectTooHigh => &[Of::On],
    }
}

/// What of the battery, the loads and the place a conflict is held against, where it stands in.
fn rests_on(desk: &Desk<'_>, kind: ConflictKind) -> Vec<Path> {
    use ConflictKind as Kind;
    let keys: &[&str] = match kind {
        Kind::AboveBoard | Kind::NeverBalances => &["cell_cutoff", "cell_spread", "balance_from"],
        Kind::CurrentAboveBattery | Kind::SumAboveBattery => &["charge_limit"],
        Kind::NoColdLockout => &["cold_cutoff", "winter_air"],
        Kind::AboveLoads | Kind::LoadDump => &["highest_voltage"],
        Kind::DisconnectBelowBoard | Kind::InverterBelowBoard => &["low_cell_cutoff"],
        Kind::DisconnectBelowLoads => &["lowest_voltage"],
        _ => &[],
    };
    let those = desk.notes.assumed.iter().filter(|assumed| {
        let last = assumed.path.last().map_or("", String::as_str);
        keys.contains(&last)
    });
    those.map(|assumed| assumed.path.clone()).collect()
}

/// Whether anything but voltage and current of a charger is told.
fn begun(desk: &Desk<'_>, card: Option<&DeviceCard>) -> bool {
    let usual = [SettingKind::ChargeVoltage, SettingKind::Limit];
    let rows = card.into_iter().flat_map(|card| &card.rows);
    rows.filter(|row| !usual.contains(&row.what))
        .any(|row| is_told(desk, row))
}

fn is_told(desk: &Desk<'_>, row: &SettingRow) -> bool {
    let basis: Option<&Basis> = row.now.as_ref().map(|now| &now.basis);
    basis.is_some_and(|basis| desk.is_told(basis))
}

/// The remedy as edits of the file, and what is left of it.
fn carried_out(
    cards: &[DeviceCard],
    (chargers, disconnects): (usize, usize),
    conflict: &Conflict,
) -> (Vec<Edit>, Vec<Change>) {
    let mut edits: Vec<Edit> = Vec::new();
    let mut besides = Vec::new();
    for change in &conflict.remedy {
        let (device, kinds): (usize, &[SettingKind]) = match change {
            Change::Absorption(index, _) => (chargers + index, &[SettingKind::ChargeVoltage]),
            Change::Float(index, _) => (chargers + index, &[SettingKind::Float]),
            Change::AbsorptionTime(index, _) => (chargers + index, &[SettingKind::AbsorptionTime]),
            Change::Tail(index, _) => (chargers + index, &[SettingKind::Tail]),
            Change::Compensation(index, _) => (chargers + index, &[SettingKind::Compensation]),
            Change::Equalise(index, _) => (chargers + index, &[SettingKind::Equalise]),
            Change::Lockout(index, _) => (chargers + index, &[SettingKind::ColdLockout]),
            Change::Limit(index, _) => (chargers + index, &[SettingKind::Limit]),
            Change::LithiumProfile(index) => (
                chargers + index,
                &[SettingKind::ChargeVoltage, SettingKind::Float],
            ),
            Change::Off(index, _) => (disconnects + index, &[SettingKind::Off]),
            Change::On(index, _) => (disconnects + index, &[SettingKind::On]),
            Change::AdjustableCharger(_)
            | Change::Sensor(_)
            | Change::Clamp(..)
            | Change::WakeSwitch => {
                besides.push(*change);
                continue;
            }
        };
        let card = cards.get(device);
        let rows = kinds.iter().filter_map(|kind| card?.row(*kind));
        for edit in rows.filter_map(|row| row.edit.clone()) {
            if !edits.contains(&edit) {
                edits.push(edit);
            }
        }
    }
    (edits, besides)
}
