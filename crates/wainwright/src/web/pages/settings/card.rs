//! The card of one device: what to set, between which ends and why, and what is set now. Not here: the words of
//! reasons (`words`), what does not agree (`conflicts`).

use super::bar::{Bar, bar};
use super::range::{self, End, Range};
use super::words;
use super::{HERE, edit_address};
use crate::views::basis::BasisView;
use crate::web::html::{back, count, encoded, revision};
use crate::web::view::{View, marked};
use maud::{Markup, html};
use wainwright_analysis::result::settings::{
    DeviceCard, DeviceKind, EngineCard, Figure, SettingRow,
};

/// One card, with its button.
pub fn card(view: &View, card: &DeviceCard) -> Markup {
    let id = words::card_id(card);
    html! {
        article.set-card id={ "card-" (id) } aria-labelledby={ "name-" (id) } {
            div.set-head {
                h3 id={ "name-" (id) } { (card.label) }
                p.hint { (words::device(card.kind)) "; all values at its own terminals" }
            }
            @if card.rows.is_empty() {
                p { "It has nothing to set." }
            }
            dl.set-rows { @for row in &card.rows { (setting(view, card, row)) } }
            (button(view, card))
            details.how id={ "how-" (id) } {
                summary { "Working" span.unseen { " of the settings of " (card.label) } }
                (working(view, card))
            }
        }
    }
}

/// One setting: advised, its range, what is set now.
fn setting(view: &View, card: &DeviceCard, row: &SettingRow) -> Markup {
    let range = range::range(card, row.what);
    html! {
        div.set-row id={ "set-" (words::card_id(card)) "-" (row.path.last().map_or("", String::as_str).replace('_', "-")) } {
            dt { (words::name(row.what)) span.hint { (words::meaning(row.what)) } }
            dd.advised-value {
                @match row.advised {
                    Some(advised) => b { (words::figure(view, advised)) },
                    None => b.over { "no value fits" },
                }
                (now(view, row))
            }
            @if let Some(range) = &range { dd.set-range { (drawn(view, card, row, range)) } }
        }
    }
}

/// What is set now, in words, with the way to type it.
fn now(view: &View, row: &SettingRow) -> Markup {
    let address = edit_address(&row.path, HERE);
    html! {
        span.set-now {
            @match &row.now {
                None => {
                    span.set-word { "Set now: " a href=(address) { "not said" span.unseen { ", " (words::name(row.what)) } } }
                },
                Some(now) => {
                    span.set-word {
                        "Set now: " a href=(address) { (marked(&words::figure(view, now.value), &BasisView::of(&now.basis))) span.unseen { ", " (words::name(row.what)) } }
                        " "
                        @match (row.agrees, row.advised) {
                            (Some(false), Some(advised)) => b.over { (words::differs(view, now.value, advised)) },
                            (Some(false), None) => b.over { "does not agree" },
                            (Some(true), _) if row.edit.is_none() => span.good { "agrees" },
                            (Some(true), _) => span.good { "agrees, in the range" },
                            (None, _) => {},
                        }
                    }
                },
            }
        }
    }
}

/// The bar, with what binds each end.
fn drawn(view: &View, card: &DeviceCard, row: &SettingRow, range: &Range) -> Markup {
    let ends = range::number(range.low.value).zip(range::number(range.high.value));
    let low = words::figure(view, range.low.value);
    let high = words::figure(view, range.high.value);
    let empty = range.change.is_some() || row.advised.is_none();
    html! {
        @if let Some((from, to)) = ends {
            (bar(&Bar {
                low: from,
                high: to,
                advised: row.advised.and_then(range::number),
                now: row.now.as_ref().and_then(|now| range::number(now.value)),
                agrees: row.agrees != Some(false),
            }, &format!("allowed from {low} to {high}")))
        }
        ul.plain.ends-why {
            li { b { (if empty { "Not below " } else { "From " }) (low) } ": " (why(view, card, row, range.low)) }
            li { b { (if empty { "not above " } else { "to " }) (high) } ": " (why(view, card, row, range.high)) }
            @if let Some((wish, reached)) = range.wish {
                li.hint {
                    @if reached { "Reaches " } @else { "Does not reach " }
                    (words::figure(view, wish.value)) ": " (why(view, card, row, wish))
                }
            }
        }
        @if let Some(change) = range.change { p.over { (words::to_change(change)) } }
    }
}

fn why(view: &View, card: &DeviceCard, row: &SettingRow, end: End) -> String {
    words::reason(view, card, row.what, end.reason)
}

/// Writes all advised values of the device.
fn button(view: &View, card: &DeviceCard) -> Markup {
    let edits = card.rows.iter().filter(|row| row.edit.is_some()).count();
    html! {
        @if edits > 0 {
            form method="post" action="/energy/settings/set" data-live {
                (revision(view.now.revision))
                (back(HERE))
                input type="hidden" name="card" value=(words::card_id(card));
                button { "Set it in the file" span.unseen { ": " (card.label) } }
                span.hint { (count(edits, "value", "values")) ", at the device by you" }
            }
        } @else if !card.rows.is_empty() {
            p.good { "The file says what is advised." }
        }
    }
}

/// Where the values come from.
fn working(view: &View, card: &DeviceCard) -> Markup {
    let figures = figures(view, card);
    html! {
        dl.small-figures {
            @for (name, value) in &figures { div { dt { (name) } dd { (value) } } }
        }
        @for row in &card.rows {
            @if let Some(range) = range::range(card, row.what) {
                h4 { (words::name(row.what)) ": all that bounds it" }
                ul.all-ends {
                    @for end in &range.lows { li { "from " (words::figure(view, end.value)) ": " (why(view, card, row, *end)) } }
                    @for end in &range.highs { li { "to " (words::figure(view, end.value)) ": " (why(view, card, row, *end)) } }
                }
            }
        }
        @if card.kind != DeviceKind::Inverter {
            p { a href={ "/wiring?select=item." (encoded(card.item.as_str())) "#panel" } { "Show it in the wiring" } }
        }
    }
}

/// The figures behind a card, named.
fn figures(view: &View, card: &DeviceCard) -> Vec<(&'static str, String)> {
    let mut all = vec![
        (
            "Wire between it and the battery, out and back",
            view.show(card.wire.value),
        ),
        ("Largest current", view.show(card.most.value)),
    ];
    match &card.card {
        EngineCard::Charger(card) => {
            let figures = &card.figures;
            all.push((
                "Lost in the wire at the current limit",
                view.show(figures.drop_at_limit),
            ));
            all.push((
                "Lost in the wire at the tail current",
                view.show(figures.drop_at_tail),
            ));
            if let Some(taper) = &figures.taper {
                all.push((
                    "Full of charge when the current begins to fall",
                    view.show(taper.begins),
                ));
                all.push(("Full of charge at the tail current", view.show(taper.ends)));
                all.push(("From the one to the other", view.show(taper.lasts)));
            }
        }
        EngineCard::Disconnect(card) => {
            let figures = &card.figures;
            all.push((
                "Lost in the wire at the largest current",
                view.show(figures.drop),
            ));
            all.push((
                "Lost in the battery at the largest current",
                view.show(figures.sag),
            ));
            all.push((
                "Comes back by itself without load",
                view.show(figures.rebound),
            ));
        }
    }
    all.extend(pack(view));
    all
}

/// What the battery does.
fn pack(view: &View) -> Vec<(&'static str, String)> {
    let settings = &view.study().assessment.settings;
    let mut all = Vec::new();
    if let Some(bank) = &settings.bank {
        all.push(("Cells apart by", view.show(bank.spread.value)));
    }
    if let Some(pack) = &settings.pack {
        all.push((
            "Battery at rest when full",
            words::figure(view, Figure::Voltage(pack.resting_full)),
        ));
        all.push((
            "The fullest cell opens the protection at",
            words::shown(view, pack.trip),
        ));
        all.push((
            "The same with even cells",
            words::shown(view, pack.trip_even),
        ));
        all.push((
            "The emptiest cell cuts the loads off at",
            words::shown(view, pack.cut_off),
        ));
    }
    all
}
