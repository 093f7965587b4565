//! Settings in words for the pages: what each does, where an end of a range comes from with the numbers behind it. Not
//! here: words that the command line shares, the figures themselves (the settings study).

use crate::views::energy::words::capital;
use crate::views::settings::words::setting;
pub use crate::views::settings::words::{besides, device, headline, to_change};
use crate::web::view::View;
use wainwright_analysis::result::settings::{
    DeviceCard, DeviceKind, Figure, Reason, SettingKind, SettingsResult,
};
use wainwright_units::{Current, Duration, Quantity, Voltage};

/// What a setting is called, where a line begins with it.
pub fn name(what: SettingKind) -> String {
    capital(setting(what))
}

/// What a setting does, in a few words.
pub fn meaning(what: SettingKind) -> &'static str {
    match what {
        SettingKind::ChargeVoltage => "held until the battery is full",
        SettingKind::Float => "held when it is full",
        SettingKind::AbsorptionTime => "longest time absorption is held",
        SettingKind::Tail => "below it the battery counts as full",
        SettingKind::Compensation => "less voltage for a warmer battery",
        SettingKind::Equalise => "overcharging on purpose",
        SettingKind::ColdLockout => "no charging below it",
        SettingKind::Limit => "most it may charge with",
        SettingKind::Off => "loads go off here",
        SettingKind::On => "and come back here",
    }
}

/// A word for addresses and ids.
pub fn slug(kind: DeviceKind) -> &'static str {
    match kind {
        DeviceKind::Solar => "solar",
        DeviceKind::Shore => "shore",
        DeviceKind::Dcdc => "dcdc",
        DeviceKind::Vehicle => "vehicle",
        DeviceKind::LoadOutput => "load-output",
        DeviceKind::Relay => "relay",
        DeviceKind::Inverter => "inverter",
    }
}

/// A card's place on the page, and its name in a form.
pub fn card_id(card: &DeviceCard) -> String {
    format!("{}-{}", card.item, slug(card.kind))
}

/// A figure as people read it.
pub fn figure(view: &View, figure: Figure) -> String {
    match figure {
        Figure::Voltage(value) => volts(view, value),
        Figure::Current(value) => view.show(Current::from_amperes(rounded(value.amperes(), 10.0))),
        Figure::Temperature(value) => view.show(value),
        Figure::Duration(value) => view.show(whole_minutes(value)),
        Figure::Compensation(0.0) | Figure::Off => "off".into(),
        Figure::Compensation(volts) => {
            format!("{} per °C", view.show(Voltage::from_volts(volts.abs())))
        }
        Figure::On => "on".into(),
    }
}

/// Two figures, so precise that a difference is seen.
pub fn apart(view: &View, one: Figure, other: Figure) -> (String, String) {
    let texts = (figure(view, one), figure(view, other));
    match (one, other) {
        (Figure::Voltage(a), Figure::Voltage(b)) if texts.0 == texts.1 && a != b => {
            let fine = |value: Voltage| format!("{:.3} V", value.volts());
            (fine(a), fine(b))
        }
        _ => texts,
    }
}

/// A voltage as precise as it can be dialled in.
pub fn volts(view: &View, value: Voltage) -> String {
    view.show(Voltage::from_volts(rounded(value.volts(), 100.0)))
}

fn rounded(value: f64, parts: f64) -> f64 {
    (value * parts).round() / parts
}

/// From a minute on seconds are noise.
fn whole_minutes(value: Duration) -> Duration {
    let seconds = value.seconds();
    let step = if seconds >= 60.0 { 60.0 } else { 1.0 };
    Duration::from_seconds((seconds / step).round() * step)
}

/// What an end of a range comes from, with the numbers behind it.
pub fn reason(view: &View, card: &DeviceCard, what: SettingKind, reason: Reason) -> String {
    let settings = &view.study().assessment.settings;
    let (bank, board, pack) = (&settings.bank, &settings.board, &settings.pack);
    let lithium = bank.as_ref().is_none_or(|bank| bank.lithium);
    let chemistry = if lithium {
        "lithium cells"
    } else {
        "lead-acid"
    };
    let spread = bank
        .as_ref()
        .map_or_else(String::new, |bank| view.show(bank.spread.value));
    let volts = |value: Option<Voltage>| {
        value.map_or_else(|| "its limit".into(), |value| volts(view, value))
    };
    match reason {
        Reason::ChemistryLeast => match what {
            SettingKind::ColdLockout => format!("{chemistry} are hurt by charging in the cold"),
            SettingKind::Off => format!("{chemistry} are hurt below it"),
            SettingKind::Tail => "below it absorption hardly ever ends".into(),
            SettingKind::AbsorptionTime => "shorter does little".into(),
            _ => format!("{chemistry} need at least this"),
        },
        Reason::ChemistryMost => match what {
            SettingKind::ColdLockout => "higher only costs charge".into(),
            SettingKind::Tail => "above it charging ends before the battery is full".into(),
            SettingKind::AbsorptionTime => format!("longer wears {chemistry}"),
            _ => format!("{chemistry} take no more for long"),
        },
        Reason::Full => "below it the battery does not get full".into(),
        Reason::Balance => format!(
            "from here on the protection evens the cells out, from {} in a cell",
            volts(board.as_ref().map(|board| board.balance_from.value))
        ),
        Reason::CellTrip => format!(
            "cells {spread} apart make the protection open at {}; this keeps clear of it",
            volts(pack.as_ref().and_then(|pack| pack.trip))
        ),
        Reason::PackTrip => format!(
            "the protection opens at {}; this keeps clear of it",
            volts(
                board
                    .as_ref()
                    .and_then(|board| Some(board.pack_over.as_ref()?.value))
            )
        ),
        Reason::LoadsTake => format!(
            "{} more than {}",
            loads_take(view, settings),
            volts(settings.loads.as_ref().map(|loads| loads.highest.value))
        ),
        Reason::LoadsNeed => format!(
            "{} at least {}",
            loads_need(view, settings),
            volts(settings.loads.as_ref().map(|loads| loads.lowest.value))
        ),
        Reason::Absorption => "float stays below absorption".into(),
        Reason::StandingLoads => format!(
            "what runs all the time takes {} of it",
            settings
                .loads
                .as_ref()
                .map_or_else(String::new, |loads| figure(
                    view,
                    Figure::Current(loads.standing.value)
                ))
        ),
        Reason::Taper => "so long the current takes to fall to the tail current".into(),
        Reason::CellCutOff => format!(
            "cells {spread} apart make the protection cut off at {}; this goes first",
            volts(pack.as_ref().and_then(|pack| pack.cut_off))
        ),
        Reason::PackCutOff => format!(
            "the protection cuts off at {}; this goes first",
            volts(
                board
                    .as_ref()
                    .and_then(|board| Some(board.pack_under.as_ref()?.value))
            )
        ),
        Reason::Reserve => format!(
            "above it loads go off with charge left: under load {} are lost on the way",
            volts(
                card.disconnect()
                    .map(|card| card.figures.drop + card.figures.sag)
            )
        ),
        Reason::Recovery => format!(
            "when the loads go off the battery comes back by {}",
            volts(
                card.disconnect()
                    .map(|card| card.figures.drop + card.figures.sag + card.figures.rebound)
            )
        ),
        Reason::BackBy => "above it the loads come back late or never".into(),
        Reason::Device => "the device gives no more".into(),
        Reason::BatteryTakes => format!(
            "battery and protection take {}",
            pack.as_ref()
                .map_or_else(String::new, |pack| view.show(pack.takes))
        ),
        Reason::Share => format!(
            "its share of the {} the battery takes, with the other chargers on",
            pack.as_ref()
                .map_or_else(String::new, |pack| view.show(pack.takes))
        ),
        Reason::BoardCold => format!(
            "the protection stops charging at {}; this goes first",
            board
                .as_ref()
                .map_or_else(String::new, |board| view.show(board.cold.value))
        ),
        Reason::Zero => "less than nothing is not charging".into(),
    }
}

fn loads_take(view: &View, settings: &SettingsResult) -> String {
    let of = settings
        .loads
        .as_ref()
        .and_then(|loads| loads.highest_of.as_ref());
    of.map_or_else(
        || "loads take no".into(),
        |id| format!("{} takes no", item(view, id.as_str())),
    )
}

fn loads_need(view: &View, settings: &SettingsResult) -> String {
    let of = settings
        .loads
        .as_ref()
        .and_then(|loads| loads.lowest_of.as_ref());
    of.map_or_else(
        || "loads need".into(),
        |id| format!("{} needs", item(view, id.as_str())),
    )
}

fn item(view: &View, id: &str) -> String {
    view.study().project.label_or_id("item", id).to_owned()
}

/// By how much what is set differs from what is advised.
pub fn differs(view: &View, now: Figure, advised: Figure) -> String {
    let by =
        |low: bool, gap: String| format!("{} by {gap}", if low { "too low" } else { "too high" });
    match (now, advised) {
        (Figure::Voltage(a), Figure::Voltage(b)) => by(a < b, view.show((a - b).abs())),
        (Figure::Current(a), Figure::Current(b)) => by(a < b, view.show((a - b).abs())),
        (Figure::Duration(a), Figure::Duration(b)) => {
            if a < b {
                "too short".into()
            } else {
                "too long".into()
            }
        }
        (Figure::Temperature(a), Figure::Temperature(b)) => {
            if a.celsius() < b.celsius() {
                "too low".into()
            } else {
                "too high".into()
            }
        }
        (Figure::Off, _) => "should be on".into(),
        (Figure::On | Figure::Compensation(_), _) => "should be off".into(),
        _ => "differs".into(),
    }
}

/// A quantity that may be missing.
pub fn shown(view: &View, value: Option<impl Quantity>) -> String {
    value.map_or_else(|| "not known".into(), |value| view.show(value))
}
