//! Settings that do not agree: the numbers that were compared, the value that removes it, its button. Not here: how
//! they are found (the settings study).

use super::words;
use super::{HERE, edit_address};
use crate::web::html::finding::place_words;
use crate::web::html::fix::value_words;
use crate::web::html::{back, revision};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::settings::{
    Change, Conflict, ConflictKind, SettingConflict, SettingsResult,
};
use wainwright_model::Edit;

/// All conflicts, those beyond a limit first; nothing when there are none.
pub fn conflicts(view: &View, settings: &SettingsResult) -> Markup {
    let mut all: Vec<(usize, &SettingConflict)> = settings.conflicts.iter().enumerate().collect();
    all.sort_by_key(|(_, found)| found.conflict.within_margin);
    html! {
        @for (index, found) in all {
            article.clash id={ "clash-" (index) } {
                div.clash-what {
                    h3 { (words::headline(found.conflict.kind)) }
                    p.hint { (devices(settings, found)) @if found.conflict.within_margin { " · only nearer than the margin" } }
                    (numbers(view, found))
                    @if let Some((charge, time)) = found.conflict.cost {
                        p { "It costs: stops at " (view.show(charge)) " charge; the rest takes " (view.show(time)) "." }
                    }
                    (rests(view, found))
                }
                div.clash-do { (remedy(view, index, found)) }
            }
        }
    }
}

fn devices(settings: &SettingsResult, found: &SettingConflict) -> String {
    let labels = found
        .devices
        .iter()
        .filter_map(|index| settings.devices.get(*index));
    labels
        .map(|card| card.label.as_str())
        .collect::<Vec<_>>()
        .join(", ")
}

/// The numbers that were compared.
fn numbers(view: &View, found: &SettingConflict) -> Markup {
    let Conflict {
        kind,
        found: set,
        limit,
        allowed,
        ..
    } = &found.conflict;
    let (set, limit) = words::apart(view, *set, *limit);
    let allowed = words::figure(view, *allowed);
    let device = matches!(kind, ConflictKind::CannotWake);
    html! {
        @if !device {
            p.clash-numbers {
                span { (found_words(*kind)) " " b { (set) } }
                span { (limit_words(*kind)) " " b { (limit) } }
                @if allowed != limit { span { "with margin " b { (allowed) } } }
            }
        }
    }
}

fn found_words(kind: ConflictKind) -> &'static str {
    match kind {
        ConflictKind::SumAboveBattery => "together",
        ConflictKind::LoadDump => "may jump to",
        _ => "set to",
    }
}

fn limit_words(kind: ConflictKind) -> &'static str {
    match kind {
        ConflictKind::AboveBoard => "protection opens at",
        ConflictKind::AboveLoads | ConflictKind::LoadDump => "loads bear",
        ConflictKind::CurrentAboveBattery | ConflictKind::SumAboveBattery => "battery takes",
        ConflictKind::DisconnectBelowBoard | ConflictKind::InverterBelowBoard => {
            "protection cuts off at"
        }
        ConflictKind::DisconnectBelowLoads => "loads need",
        ConflictKind::NoColdLockout => "cells freeze at",
        ConflictKind::FloatAboveAbsorption => "absorption is",
        ConflictKind::TailTooSmall => "standing loads leave",
        ConflictKind::NeverFull => "full needs",
        ConflictKind::NeverBalances => "evening out begins at",
        ConflictKind::Clicking => "the battery comes back to",
        ConflictKind::EqualiseOnLithium | ConflictKind::CompensationOnLithium => "should be",
        ConflictKind::FloatTooLow => "at least",
        ConflictKind::FloatTooHigh
        | ConflictKind::TailTooLarge
        | ConflictKind::DisconnectTooEarly
        | ConflictKind::ReconnectTooHigh => "at most",
        ConflictKind::LeadAcidProfile | ConflictKind::CannotWake => "against",
    }
}

fn rests(view: &View, found: &SettingConflict) -> Markup {
    html! {
        @if !found.told || !found.rests_on.is_empty() {
            p.hint {
                @if !found.told { "Nobody said what is set; the usual value stands in. " }
                @if !found.rests_on.is_empty() {
                    "Rests on stand-ins: "
                    @for (number, path) in found.rests_on.iter().enumerate() {
                        @if number > 0 { ", " }
                        a href=(edit_address(path, HERE)) { (place_words(view, path)) }
                    }
                }
            }
        }
    }
}

/// What removes it, with its button.
fn remedy(view: &View, index: usize, found: &SettingConflict) -> Markup {
    let besides = &found.besides;
    html! {
        @if !found.edits.is_empty() {
            form.fix method="post" action="/energy/settings/mend" data-live {
                (revision(view.now.revision))
                (back(HERE))
                input type="hidden" name="clash" value=(index);
                ul.plain.what { @for edit in &found.edits { li.title { (edit_words(view, edit)) } } }
                button.primary { "Set" span.unseen { " it: " (words::headline(found.conflict.kind)) } }
            }
        }
        @for change in besides { p { (besides_words(view, *change)) } }
        @if found.edits.is_empty() && besides.is_empty() {
            p { "No value agrees with everything." }
            @if let Some(change) = found.conflict.change { p { (words::to_change(change)) } }
            @for path in &found.paths { p { a href=(edit_address(path, HERE)) { (place_words(view, path)) } } }
        }
    }
}

/// A change in the words of its card; a change of anything else in those of the file.
fn edit_words(view: &View, edit: &Edit) -> String {
    let devices = super::settings_of(view).devices.iter();
    let mut rows = devices.flat_map(|card| card.rows.iter().map(move |row| (card, row)));
    let found = rows.find(|(_, row)| row.edit.as_ref() == Some(edit));
    if let Some((card, row)) = found
        && let Some(advised) = row.advised
    {
        let value = words::figure(view, advised).replace(' ', "\u{a0}");
        return format!("{}: {} →\u{a0}{value}", card.label, words::name(row.what));
    }
    match edit {
        Edit::Set { path, value } => {
            format!("{} → {}", place_words(view, path), value_words(value))
        }
        Edit::Unset { path } => format!("{}: not said any more", place_words(view, path)),
        _ => "a change of the file".into(),
    }
}

/// What is no setting.
fn besides_words(view: &View, change: Change) -> String {
    match change {
        Change::Clamp(_, volts) => format!(
            "{} At the most {}.",
            words::besides(change),
            view.show(volts)
        ),
        _ => words::besides(change).to_owned(),
    }
}
