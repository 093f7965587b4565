//! `settings`: what to set on every charging device and disconnect, why, and what does not agree. Not here: judgement
//! (`check` finds fault), changing the file (`fix`).

use super::args::SettingsArgs;
use super::exit::{Status, Trouble};
use super::out::Out;
use super::show;
use crate::store;
use crate::study::Study;
use crate::views::basis::BasisView;
use crate::views::settings::{self, SETTINGS_VERSION, SettingsReport, SettingsView, words};
use wainwright_analysis::result::settings::{
    ColdString, DeviceCard, Figure, SettingConflict, SettingRow, SettingsResult,
};
use wainwright_units::{Quantity, System};

/// Prints the cards.
pub fn run(args: &SettingsArgs, out: &mut Out) -> Result<Status, Trouble> {
    let study = Study::of(store::read(&args.file)?);
    let found = &study.assessment.settings;
    if args.json {
        out.json(&SettingsReport {
            settings_report: SETTINGS_VERSION,
            program: env!("CARGO_PKG_VERSION"),
            file: args.file.to_str().map(str::to_owned),
            settings: SettingsView::of(found),
        });
    } else {
        print(found, show::units(&study.project), out);
    }
    Ok(if study.is_incomplete() || found.devices.is_empty() {
        Status::Incomplete(None)
    } else {
        Status::Done
    })
}

fn print(found: &SettingsResult, units: System, out: &mut Out) {
    if found.bank.is_none() {
        out.wrapped(
            "",
            "There is no battery yet, so nothing can be said about settings.",
        );
    } else if found.devices.is_empty() {
        out.wrapped(
            "",
            "There is nothing yet that charges the battery or cuts loads off.",
        );
    }
    bank(found, units, out);
    for card in &found.devices {
        out.gap();
        device(card, units, out);
    }
    conflicts(found, units, out);
    for string in &found.cold_strings {
        cold(string, units, out);
    }
    rests_on(found, out);
}

fn bank(found: &SettingsResult, units: System, out: &mut Out) {
    let (Some(bank), Some(pack)) = (&found.bank, &found.pack) else {
        return;
    };
    let mut text = format!(
        "Battery: {} cells in series, {}, takes up to {}",
        bank.series,
        bank.capacity.value.show(units),
        pack.takes.show(units)
    );
    if let Some(trip) = pack.trip {
        text += &format!("; the protection opens at {}", trip.show(units));
    }
    if let Some(cut) = pack.cut_off {
        text += &format!(" and cuts off at {}", cut.show(units));
    }
    if bank.lithium {
        let spread = bank.spread.value.show(units);
        text += &format!(", with cells {spread} apart");
    }
    out.wrapped("", &format!("{text}."));
}

fn device(card: &DeviceCard, units: System, out: &mut Out) {
    let head = format!("{}: {}", card.label, words::device(card.kind));
    let head = out.paint.bold(&head);
    out.line(head);
    let wire = format!(
        "wire to the battery and back {} ({})",
        card.wire.value.show(units),
        BasisView::of(&card.wire.basis).words()
    );
    out.hanging("  ", "    ", &wire);
    for row in &card.rows {
        out.hanging("  ", "    ", &line(card, row, units));
    }
}

/// `absorption: 14.4 V, set 14 V; 13.62 V (…) to 14.1 V (…)`.
fn line(card: &DeviceCard, row: &SettingRow, units: System) -> String {
    let show = |figure| words::figure(figure, units);
    let now = row
        .now
        .as_ref()
        .map_or_else(|| "not typed".to_owned(), |now| show(now.value));
    let advised = match (row.advised, &row.edit, row.agrees) {
        (None, ..) => "no value agrees with everything".to_owned(),
        (Some(_), None, _) => "as advised".to_owned(),
        (Some(value), Some(_), Some(true)) => format!("agrees, advised {}", show(value)),
        (Some(value), Some(_), _) => format!("set {}", show(value)),
    };
    let mut text = format!("{}: {now}, {advised}", words::setting(row.what));
    if let Some(range) = words::range(card, row.what) {
        text += &format!(
            "; {} ({}) to {} ({})",
            show(range.lowest),
            words::reason(range.low.1),
            show(range.highest),
            words::reason(range.high.1)
        );
    }
    text
}

fn conflicts(found: &SettingsResult, units: System, out: &mut Out) {
    let told: Vec<&SettingConflict> = found.conflicts.iter().filter(|one| one.told).collect();
    if told.is_empty() {
        return;
    }
    out.gap();
    let head = out.paint.bold("What does not agree");
    out.line(head);
    for clash in told {
        let devices = clash.devices.iter().filter_map(|at| found.devices.get(*at));
        let names: Vec<&str> = devices.map(|card| card.label.as_str()).collect();
        let inner = &clash.conflict;
        let mut text = format!("{}: {}", names.join(", "), words::headline(inner.kind));
        text += &match compared(inner.found, inner.limit, units) {
            Some((found, limit)) => format!(" ({found} against {limit})."),
            None => ".".to_owned(),
        };
        let set: Vec<String> = clash.edits.iter().filter_map(settings::edit).collect();
        if !set.is_empty() {
            text += &format!(" Set {}.", set.join(", "));
        }
        for change in &clash.besides {
            text += &format!(" {}", words::besides(*change));
        }
        if let (true, Some(change)) = (set.is_empty(), inner.change) {
            text += &format!(" {}", words::to_change(change));
        }
        out.hanging("  ", "    ", &text);
    }
}

/// Two voltages or currents that were compared, told apart; nothing for what is on or off.
fn compared(found: Figure, limit: Figure, units: System) -> Option<(String, String)> {
    let (a, b) = match (found, limit) {
        (Figure::Voltage(a), Figure::Voltage(b)) => (a.volts(), b.volts()),
        (Figure::Current(a), Figure::Current(b)) => (a.amperes(), b.amperes()),
        _ => return None,
    };
    let short = (words::figure(found, units), words::figure(limit, units));
    let unit = short.0.rsplit(' ').next().unwrap_or_default().to_owned();
    Some(match short.0 == short.1 {
        true => (format!("{a:.3} {unit}"), format!("{b:.3} {unit}")),
        false => short,
    })
}

fn cold(string: &ColdString, units: System, out: &mut Out) {
    out.gap();
    let allowed = string.allowed.as_ref().map_or_else(
        || "nobody typed what the controller takes".to_owned(),
        |most| format!("the controller takes {}", most.value.show(units)),
    );
    let text = format!(
        "Modules on {}: {} at {}; {allowed}.",
        string.controller,
        string.cold.show(units),
        string.coldest.value.show(units)
    );
    out.wrapped("", &text);
}

fn rests_on(found: &SettingsResult, out: &mut Out) {
    if !found.assumptions.is_empty() {
        out.gap();
    }
    for assumed in &found.assumptions {
        let basis = BasisView::of(&assumed.basis).words();
        let text = format!("{} = {} ({basis})", assumed.path.join("."), assumed.value);
        out.hanging("", "  ", &text);
    }
    for path in &found.missing {
        out.hanging("", "  ", &format!("Not typed yet: {}", path.join(".")));
    }
    for refused in &found.refused {
        out.hanging("", "  ", &format!("Refused: {refused}"));
    }
}
