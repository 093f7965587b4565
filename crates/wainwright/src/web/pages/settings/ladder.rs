//! All voltages of the system on one upright scale: what must not be crossed, what is set now, what is advised. Not
//! here: how a ladder is drawn.

use super::words;
use crate::web::view::View;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::settings::{
    DeviceCard, DeviceKind, Figure, SettingKind, SettingRow, SettingsResult,
};
use wainwright_drawing::chart::{Ladder, Limit, Mark, Setting, ladder};
use wainwright_drawing::{Css, Style};
use wainwright_units::Voltage;

const WIDE: f64 = 860.0;
const NARROW: f64 = 350.0;
/// Room above the highest and below the lowest value, as a share of the span.
const AIR: f64 = 0.06;

/// The drawing, with what its shapes mean.
pub fn section(view: &View, settings: &SettingsResult) -> Markup {
    let input = of(view, settings);
    if input.limits.is_empty() && input.settings.is_empty() {
        return html! {};
    }
    let draw = |width: f64, prefix: &str| {
        ladder(&input, width).svg(&Style {
            title: "All voltages of the system, from top to bottom".into(),
            id_prefix: prefix.into(),
            css: Css::OnPage,
        })
    };
    html! {
        section aria-labelledby="ladder-heading" {
            h2 #ladder-heading { "All voltages on one ladder" }
            p.legend {
                span.key { svg.range-key viewBox="0 0 16 22" aria-hidden="true" { circle.now.out cx="8" cy="11" r="5" {} } "set now, to be moved" }
                span.key { svg.range-key viewBox="0 0 16 22" aria-hidden="true" { circle.now.same cx="8" cy="11" r="5" {} } "set as advised" }
                span.key { svg.range-key viewBox="0 0 16 22" aria-hidden="true" { path.advised d="M8 4l7 7l-7 7l-7 -7z" {} } "advised" }
                span.key { svg.range-key viewBox="0 0 30 22" aria-hidden="true" { rect.no-go x="1" y="4" width="28" height="14" {} } "the protection is open here" }
            }
            div.ladder {
                div.for-wide { (PreEscaped(draw(WIDE, "lw-"))) }
                div.for-narrow { (PreEscaped(draw(NARROW, "ln-"))) }
            }
        }
    }
}

/// The ladder of the whole system.
fn of(view: &View, settings: &SettingsResult) -> Ladder {
    let limits = limits(view, settings);
    let marks: Vec<Setting> = settings
        .devices
        .iter()
        .flat_map(|card| card.rows.iter().filter_map(|row| setting(view, card, row)))
        .collect();
    let values = limits.iter().map(|limit| limit.at);
    let set = marks
        .iter()
        .flat_map(|mark| [mark.now, mark.advised].into_iter().flatten());
    let (low, high) = values
        .chain(set)
        .filter(|value| value.is_finite())
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), value| {
            (low.min(value), high.max(value))
        });
    if low > high {
        return Ladder::default();
    }
    let air = ((high - low) * AIR).max(0.1);
    let span = (low - air, high + air);
    Ladder {
        span,
        marks: round_values(view, span),
        zones: zones(settings, span),
        limits,
        settings: marks,
    }
}

/// Whole volts, fewer on a long scale.
fn round_values(view: &View, (low, high): (f64, f64)) -> Vec<Mark> {
    let step = [0.5, 1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .find(|step| (high - low) / step <= 12.0)
        .unwrap_or(20.0);
    let first = (low / step).ceil() as i64;
    let last = (high / step).floor() as i64;
    let mark = |number: i64| {
        let volts = number as f64 * step;
        Mark::new(volts, view.show(Voltage::from_volts(volts)))
    };
    (first..=last).map(mark).collect()
}

/// Where the protection is open: above the first of its upper limits, below the first of its lower ones.
fn zones(settings: &SettingsResult, (low, high): (f64, f64)) -> Vec<(f64, f64)> {
    let board = settings.board.as_ref();
    let pack = settings.pack.as_ref();
    let above = [
        board.and_then(|board| Some(board.pack_over.as_ref()?.value)),
        pack.and_then(|pack| pack.trip),
    ];
    let below = [
        board.and_then(|board| Some(board.pack_under.as_ref()?.value)),
        pack.and_then(|pack| pack.cut_off),
    ];
    let least = above
        .into_iter()
        .flatten()
        .map(Voltage::volts)
        .reduce(f64::min);
    let most = below
        .into_iter()
        .flatten()
        .map(Voltage::volts)
        .reduce(f64::max);
    let top = least.map(|from| (from, high));
    let foot = most.map(|to| (low, to));
    top.into_iter().chain(foot).collect()
}

/// What must not be crossed, and what the battery does.
fn limits(view: &View, settings: &SettingsResult) -> Vec<Limit> {
    let mut all = Vec::new();
    let mut add = |value: Option<Voltage>, what: &str, hard: bool| {
        if let Some(value) = value {
            all.push(Limit {
                at: value.volts(),
                text: format!("{} {what}", words::volts(view, value)),
                hard,
            });
        }
    };
    if let Some(board) = &settings.board {
        let of = |known: &Option<wainwright_analysis::known::Known<Voltage>>| {
            known.as_ref().map(|known| known.value)
        };
        add(of(&board.pack_over), "protection stops charging", true);
        add(
            of(&board.pack_over_release),
            "charging goes on below",
            false,
        );
        add(of(&board.pack_under), "protection cuts the loads off", true);
        add(of(&board.pack_under_release), "loads go on above", false);
    }
    if let Some(pack) = &settings.pack {
        let spread = settings
            .bank
            .as_ref()
            .map_or_else(String::new, |bank| view.show(bank.spread.value));
        add(
            pack.trip,
            &format!("fullest cell stops charging, {spread} ahead"),
            true,
        );
        add(
            pack.cut_off,
            &format!("emptiest cell cuts off, {spread} behind"),
            true,
        );
        add(pack.balances, "cells are evened out from here", false);
        add(Some(pack.resting_full), "full, at rest", false);
    }
    if let Some(loads) = &settings.loads {
        let name = |id: &Option<wainwright_model::Id>| {
            id.as_ref()
                .map_or("loads", |id| {
                    view.study().project.label_or_id("item", id.as_str())
                })
                .to_owned()
        };
        add(
            Some(loads.highest.value),
            &format!("most for: {}", name(&loads.highest_of)),
            true,
        );
        add(
            Some(loads.lowest.value),
            &format!("least for: {}", name(&loads.lowest_of)),
            true,
        );
    }
    all
}

/// A voltage that is set on a device.
fn setting(view: &View, card: &DeviceCard, row: &SettingRow) -> Option<Setting> {
    let word = match (row.what, card.kind) {
        (SettingKind::ChargeVoltage, _) => "absorption",
        (SettingKind::Float, _) => "float",
        (SettingKind::Off, DeviceKind::Inverter) => "stops",
        (SettingKind::On, DeviceKind::Inverter) => "starts again",
        (SettingKind::Off, _) => "loads off",
        (SettingKind::On, _) => "loads on again",
        _ => return None,
    };
    let volts = |figure: Figure| match figure {
        Figure::Voltage(value) => Some(value.volts()),
        _ => None,
    };
    let now = row.now.as_ref().map(|now| now.value);
    let same = now.is_some() && row.edit.is_none() && row.agrees != Some(false);
    let show = |figure: Figure| words::figure(view, figure);
    let values = match (now, row.advised) {
        (Some(now), _) if same => format!("{}, as advised", show(now)),
        (Some(now), Some(advised)) => format!("{}, advised {}", show(now), show(advised)),
        (Some(now), None) => format!("{}, no value fits", show(now)),
        (None, Some(advised)) => format!("advised {}", show(advised)),
        (None, None) => return None,
    };
    Some(Setting {
        now: now.and_then(volts),
        advised: row.advised.and_then(volts),
        text: format!("{} {word}: {values}", card.label),
        agrees: same,
    })
}
