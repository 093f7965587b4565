//! The lines of a card: what is set, what to set as it can be typed, the edit that does it. Not here: the bounds.

use super::devices::Set;
use crate::known::Known;
use crate::result::settings::{
    ChargerCard, DisconnectCard, Figure, SetPoint, SettingKind, SettingRow,
};
use wainwright_engines::charging::Number;
use wainwright_model::{Edit, Value};
use wainwright_units::{Current, Duration, System, Temperature, Voltage};

/// Steps a device can be set in, coarse first; the first that gives a value inside the range is taken.
const VOLTS: [f64; 3] = [0.1, 0.05, 0.01];
const AMPERES: [f64; 3] = [1.0, 0.5, 0.1];
const DEGREES: [f64; 3] = [1.0, 0.5, 0.1];
const MINUTES: [f64; 3] = [10.0, 5.0, 1.0];
/// Rounding that is forgiven.
const SLIP: f64 = 1e-6;
/// Longest time that is written in minutes [min].
const IN_MINUTES: f64 = 120.0;

/// The lines of a charger; of a vehicle's line only what it is.
pub(super) fn of_charger(sets: Vec<Set>, card: &ChargerCard, system: System) -> Vec<SettingRow> {
    let fixed = sets.len() == 1;
    let row = |set: Set| {
        let (advised, agrees) = charger_advice(set.what, &set.now, card, system);
        let advised = advised.filter(|_| !fixed);
        make(set, advised, agrees, system)
    };
    sets.into_iter().map(row).collect()
}

/// The lines of a disconnect.
pub(super) fn of_disconnect(
    sets: Vec<Set>,
    card: &DisconnectCard,
    system: System,
) -> Vec<SettingRow> {
    let off = tidy(&card.off, &VOLTS, 1.0);
    let moved = match (off, card.off.advised) {
        (Some(off), Some(exact)) => (off - exact.volts()).max(0.0),
        _ => 0.0,
    };
    let on = card.on.advised.map(|exact| {
        let low = card.on.low.value.volts() + moved;
        inside(
            exact.volts().max(low),
            low,
            card.on.high.value.volts(),
            &VOLTS,
        )
    });
    let row = |set: Set| {
        let (value, point) = match set.what {
            SettingKind::Off => (off, &card.off),
            _ => (on, &card.on),
        };
        let agrees = agrees(&set.now, point);
        let advised = value.map(|volts| Figure::Voltage(Voltage::from_volts(volts)));
        make(set, advised, agrees, system)
    };
    sets.into_iter().map(row).collect()
}

fn charger_advice(
    what: SettingKind,
    now: &Option<Known<Figure>>,
    card: &ChargerCard,
    system: System,
) -> (Option<Figure>, Option<bool>) {
    let volts = |point| tidy(point, &VOLTS, 1.0).map(|v| Figure::Voltage(Voltage::from_volts(v)));
    let amperes =
        |point| tidy(point, &AMPERES, 1.0).map(|v| Figure::Current(Current::from_amperes(v)));
    match what {
        SettingKind::ChargeVoltage => (volts(&card.absorption), agrees(now, &card.absorption)),
        SettingKind::Float => (volts(&card.float), agrees(now, &card.float)),
        SettingKind::AbsorptionTime => {
            let minutes = tidy(&card.absorption_time, &MINUTES, 60.0);
            let time = minutes.map(|v| Figure::Duration(Duration::from_seconds(v)));
            (time, agrees(now, &card.absorption_time))
        }
        SettingKind::Tail => (amperes(&card.tail), agrees(now, &card.tail)),
        SettingKind::Limit => (amperes(&card.limit), agrees(now, &card.limit)),
        SettingKind::Compensation => {
            let advised = Figure::Compensation(card.compensation);
            let same = now.as_ref().map(|now| match now.value {
                Figure::Compensation(set) => (set - card.compensation).abs() < SLIP,
                _ => false,
            });
            (Some(advised), same)
        }
        SettingKind::Equalise => {
            let advised = card.equalise.map_or(Figure::Off, Figure::Voltage);
            let is_off = |figure: &Figure| matches!(figure, Figure::Off);
            let same = now
                .as_ref()
                .map(|now| is_off(&now.value) || !is_off(&advised));
            (Some(advised), same)
        }
        SettingKind::ColdLockout => {
            let Some(point) = &card.lockout else {
                return (Some(Figure::Off), now.as_ref().map(|_| true));
            };
            let at = degrees(point, system).map(Figure::Temperature);
            let enough = now.as_ref().map(|now| match now.value {
                Figure::Temperature(set) => set.celsius() >= point.low.value.celsius() - SLIP,
                _ => false,
            });
            (at, enough)
        }
        SettingKind::Off | SettingKind::On => (None, None),
    }
}

/// A line with the edit that sets it as advised.
fn make(set: Set, advised: Option<Figure>, agrees: Option<bool>, system: System) -> SettingRow {
    let same = match (&set.now, &advised) {
        (Some(now), Some(advised)) => {
            text(set.what, &now.value, system) == text(set.what, advised, system)
        }
        // A battery that needs no lockout, and equalising that nobody switched on: nothing to write.
        (None, Some(Figure::Off)) => set.what == SettingKind::ColdLockout,
        _ => false,
    };
    let value = advised
        .as_ref()
        .filter(|_| !same)
        .and_then(|advised| text(set.what, advised, system));
    SettingRow {
        edit: value.map(|value| Edit::Set {
            path: set.path.clone(),
            value,
        }),
        what: set.what,
        path: set.path,
        now: set.now,
        advised,
        agrees,
    }
}

/// A figure as it is typed; `None` for what is not typed.
fn text(what: SettingKind, figure: &Figure, system: System) -> Option<Value> {
    if what == SettingKind::Equalise {
        return Some(Value::Bool(!matches!(figure, Figure::Off)));
    }
    let text = match figure {
        Figure::Voltage(volts) => format!("{} V", plain(volts.volts())),
        Figure::Current(amps) => format!("{} A", plain(amps.amperes())),
        Figure::Duration(time) => {
            let minutes = time.hours() * 60.0;
            match minutes <= IN_MINUTES {
                true => format!("{} min", plain(minutes)),
                false => format!("{} h", plain(time.hours())),
            }
        }
        Figure::Temperature(at) => match system {
            System::Us => format!("{} °F", plain(at.celsius() * 1.8 + 32.0)),
            System::Metric => format!("{} °C", plain(at.celsius())),
        },
        Figure::Compensation(slope) => format!("{} mV", plain(-slope * 1000.0)),
        Figure::Off | Figure::On => return None,
    };
    Some(Value::Text(text))
}

/// A number with at most two decimals, none of them needless.
fn plain(number: f64) -> String {
    let text = format!("{number:.2}");
    let text = text.trim_end_matches('0').trim_end_matches('.');
    match text {
        "-0" => "0".to_owned(),
        _ => text.to_owned(),
    }
}

fn agrees<Q: Number>(now: &Option<Known<Figure>>, point: &SetPoint<Q>) -> Option<bool> {
    let set = match now.as_ref()?.value {
        Figure::Voltage(volts) => volts.volts(),
        Figure::Current(amps) => amps.amperes(),
        Figure::Duration(time) => time.seconds(),
        Figure::Temperature(at) => at.celsius(),
        Figure::Compensation(_) | Figure::Off | Figure::On => return None,
    };
    let (low, high) = (point.low.value.number(), point.high.value.number());
    Some(low - SLIP <= set && set <= high + SLIP)
}

/// The advised value rounded to steps of a device, times `unit`, and still inside its range.
fn tidy<Q: Number>(point: &SetPoint<Q>, steps: &[f64; 3], unit: f64) -> Option<f64> {
    let advised = point.advised?.number();
    let wish = point.wish_kept().map(|wish| wish.value.number());
    let low = point
        .low
        .value
        .number()
        .max(wish.unwrap_or(f64::NEG_INFINITY));
    let high = point.high.value.number();
    let found = inside(advised / unit, low.min(high) / unit, high / unit, steps);
    Some(found * unit)
}

/// A lockout in whole degrees of the units in which it is typed.
fn degrees(point: &SetPoint<Temperature>, system: System) -> Option<Temperature> {
    let to = |celsius: f64| match system {
        System::Us => celsius * 1.8 + 32.0,
        System::Metric => celsius,
    };
    let advised = to(point.advised?.celsius());
    let (low, high) = (
        to(point.low.value.celsius()),
        to(point.high.value.celsius()),
    );
    let shown = inside(advised, low, high, &DEGREES);
    Some(Temperature::from_celsius(match system {
        System::Us => (shown - 32.0) / 1.8,
        System::Metric => shown,
    }))
}

fn inside(value: f64, low: f64, high: f64, steps: &[f64; 3]) -> f64 {
    let fits = |number: &f64| low - SLIP <= *number && *number <= high + SLIP;
    let tries = steps.iter().flat_map(|step| {
        let number = value / step;
        [number.round(), number.floor(), number.ceil()].map(|whole| clean(whole * step))
    });
    tries.into_iter().find(fits).unwrap_or(value)
}

/// Without the rounding error of a multiple.
fn clean(number: f64) -> f64 {
    (number * 1000.0).round() / 1000.0
}
