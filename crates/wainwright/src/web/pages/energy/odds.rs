//! The odds in words: what runs out how often, on which day, against what is accepted. Not here: the odds themselves.

use crate::views::energy::words::{self, Verdict, capital, verdict};
use crate::views::energy::working::{of_chance, sure};
use crate::web::html::encoded;
use crate::web::html::working::working;
use crate::web::view::{View, marked};
use maud::{Markup, html};
use wainwright_analysis::result::trip::{Chance, TripOdds, TripOutlook};
use wainwright_units::Ratio;

/// The verdict, each thing that can run out, and a few figures.
pub fn odds(view: &View, outlook: &TripOutlook, waits: bool) -> Markup {
    let (first, others) = match outlook.odds.split_first() {
        Some((first, others)) => (Some(first), others),
        None => (None, &[][..]),
    };
    let accepted = outlook.accepted.value;
    let edit = format!(
        "/edit/trip/{}?back={}#field-accepted",
        encoded(outlook.trip.as_str()),
        encoded("/energy")
    );
    html! {
        section #verdict class={ "verdict odds " (frame(verdict(outlook.any, accepted))) } aria-labelledby="verdict-heading" {
            h2 #verdict-heading data-runs=(outlook.runs) {
                @match first {
                    Some(first) => (words::odds(first, outlook.runs)),
                    None => "Nothing can run out on this trip.",
                }
            }
            @if let Some(first) = first { (one(first, outlook.runs, accepted)) }
            p {
                "You accept that energy, water or fuel runs out in "
                a href=(edit) { (marked(&words::of_hundred(accepted), &crate::views::basis::BasisView::of(&outlook.accepted.basis))) }
                " trips. On this trip it is " b { (words::of_hundred(outlook.any.share)) } "."
            }
            @if !others.is_empty() {
                ul.plain.other-odds {
                    @for odds in others {
                        li { p { (words::odds(odds, outlook.runs)) } (one(odds, outlook.runs, accepted)) }
                    }
                }
            }
            @if waits {
                p.waiting { "A first look at " (outlook.runs) " trips. Finer odds are being worked out and will stand here in a moment." }
            }
        }
        (figures(view, outlook))
    }
}

fn frame(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Lasts => "good",
        Verdict::Close => "caution",
        Verdict::TooOften => "danger",
    }
}

/// The word with its mark, so that colour is never the only difference.
pub fn fares(verdict: Verdict) -> Markup {
    let mark = match verdict {
        Verdict::Lasts => "M4 10.5 8.5 15 16 5.5",
        Verdict::Close => "M3 8.5c3-4 6 4 9 0s3-2 5-1M3 13.5c3-4 6 4 9 0s3-2 5-1",
        Verdict::TooOften => "M5 5l10 10M15 5 5 15",
    };
    html! {
        span class={ "fares " (verdict.id()) } {
            svg viewBox="0 0 20 20" width="16" height="16" aria-hidden="true" focusable="false" { path d=(mark) {} }
            (verdict.word())
        }
    }
}

fn one(odds: &TripOdds, runs: usize, accepted: Ratio) -> Markup {
    html! {
        p.odds-line {
            (fares(verdict(odds.chance, accepted)))
            span {
                (capital(&words::interval(odds.chance))) "."
                @if let Some(day) = odds.day { " When it does, " (words::day(day)) "." }
            }
        }
        (how(odds.chance, runs, words::id(odds.what), words::name(odds.what)))
    }
}

/// The working of odds, one tap away.
fn how(chance: Chance, runs: usize, id: &str, name: &str) -> Markup {
    html! {
        details.how id={ "how-" (id) } {
            summary { "Working" span.unseen { " of the odds of " (name) } }
            p.hint { (capital(&sure(chance, runs))) "." }
            (working(&of_chance(chance, runs)))
        }
    }
}

/// What a person wants to know besides.
fn figures(view: &View, outlook: &TripOutlook) -> Markup {
    let share = |share: f64| words::percent(Ratio::from_fraction(share));
    let month = words::month(outlook.weather.month);
    let own = outlook
        .months
        .iter()
        .find(|month| month.month == outlook.weather.month);
    html! {
        dl.figures-row.trip-figures {
            div {
                dt { "Lowest charge" }
                dd { b { (share(outlook.lowest.middle)) } span { "in the middle trip; one trip in ten comes below " (share(outlook.lowest.low)) } }
            }
            @if let Some(own) = own {
                div {
                    dt { "Sun the modules could give" }
                    dd { b { (view.show(own.sun)) } span { "on a mean day in " (month) } }
                }
                div {
                    dt { "Used" }
                    dd { b { (view.show(own.used)) } span { "on a mean day" } }
                }
            }
            @if !outlook.fresh.is_empty() {
                div {
                    dt { "Water wanted" }
                    dd { b { (view.show(outlook.water_wanted)) } span { "on the whole trip" } }
                }
            }
            @if !outlook.fuel.is_empty() {
                div {
                    dt { "Heater fuel" }
                    dd { b { (view.show(outlook.fuel_burnt)) } span { "on the whole trip" } }
                }
            }
        }
    }
}
