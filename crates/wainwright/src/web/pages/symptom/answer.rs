//! What may be the matter, by how likely it is; which setting explains it; what to measure next. Not here: the form.

use super::asks::Asked;
use super::words;
use crate::web::html::encoded;
use crate::web::pages::settings::{edit_address, settings_of, words as setting_words};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::settings::{
    Channel, Levels, NextMeasurement, Observable, Suspect, SymptomAnswer,
};
use wainwright_analysis::settings;
use wainwright_units::{Current, Temperature, Voltage};

/// From this share on one cause alone is named in the heading.
const CLEAR: f64 = 0.6;
/// Below this fit nothing known here explains what was seen well.
const POOR_FIT: f64 = 0.02;
/// Causes below this share are folded away.
const SMALL: f64 = 0.03;
/// Measurements that tell less are not worth the way [bit].
const WORTH: f64 = 0.05;
/// Most measurements that are offered.
const MOST_NEXT: usize = 3;

/// The answer to a question.
pub fn answer(view: &View, can: &Observable, asked: &Asked) -> Markup {
    if !asked.errors.is_empty() {
        return errors(asked);
    }
    if asked.is_empty() {
        return html! {
            p.hint.example { "Choose what happens, or type one reading; the causes follow here." }
        };
    }
    let study = view.study();
    let found = settings::symptom(
        &study.project,
        &study.assessment,
        asked.charger,
        asked.disconnect,
        &asked.seen,
    );
    match found {
        Ok(found) => draw(view, can, asked, &found),
        Err(why) => html! { p.callout role="alert" { (why) } },
    }
}

fn errors(asked: &Asked) -> Markup {
    html! {
        div.callout role="alert" {
            p { "Put this right; what you typed is kept:" }
            ul { @for (name, why) in &asked.errors { li { a href={ "#odd-" (name) } { (label(name)) } ": " (why) } } }
        }
    }
}

fn label(name: &str) -> &'static str {
    let all = Channel::ALL.iter().map(|channel| words::channel(*channel));
    let found = all.into_iter().find(|(of, _, _)| *of == name);
    found.map_or("Which way it flows", |(_, label, _)| label)
}

fn draw(view: &View, can: &Observable, asked: &Asked, found: &SymptomAnswer) -> Markup {
    let share = |suspect: &Suspect| suspect.ranked.probability.fraction();
    let (seen, small): (Vec<_>, Vec<_>) = found
        .suspects
        .iter()
        .partition(|suspect| share(suspect) >= SMALL);
    html! {
        (heading(found))
        (next(view, can, asked, found))
        ol.plain.suspects {
            @for (number, suspect) in seen.iter().enumerate() { li { (one(view, can, asked, suspect, number)) } }
        }
        @if !small.is_empty() {
            details #unlikely {
                summary { "Hardly any of these" }
                ul { @for suspect in small { li { (words::cause(suspect.ranked.cause)) } } }
            }
        }
    }
}

/// What can be said, and when it cannot be told.
fn heading(found: &SymptomAnswer) -> Markup {
    let best = found.suspects.first();
    let share = best.map_or(0.0, |best| best.ranked.probability.fraction());
    let poor = found.fit.fraction() < POOR_FIT;
    html! {
        @if let Some(best) = best {
            div.verdict.caution[poor || share < CLEAR] #odd-verdict {
                h2 {
                    @if poor { "Nothing known here explains this well" }
                    @else if share >= CLEAR { (words::cause(best.ranked.cause)) }
                    @else { "This cannot be told yet" }
                }
                @if poor {
                    p { "The readings do not fit any one cause. Measure again, with the same meter and at the same moment; else it is something not on this list, or two things at once." }
                } @else if share >= CLEAR {
                    p { "By what you entered this is " (words::likely(share)) "." }
                } @else {
                    p { "Several causes would show the same. Measure what is named next and enter it above." }
                }
            }
        }
    }
}

/// What to measure next, and what each reading would speak for.
fn next(view: &View, can: &Observable, asked: &Asked, found: &SymptomAnswer) -> Markup {
    let worth = |next: &&NextMeasurement| {
        next.bits >= WORTH
            && can.channels.contains(&next.channel)
            && next.channel.reading(&asked.seen).is_none()
    };
    let all: Vec<_> = found.next.iter().filter(worth).take(MOST_NEXT).collect();
    html! {
        @if !all.is_empty() {
            section.measure-next aria-labelledby="next-heading" {
                h3 #next-heading { "Measure next" }
                ol {
                    @for next in all {
                        @let (name, label, how) = words::channel(next.channel);
                        li {
                            a href={ "#odd-" (name) } { b { (label) } } ". " (how)
                            (parts(view, found, next.channel))
                        }
                    }
                }
            }
        }
    }
}

/// What the likeliest causes would show there.
fn parts(view: &View, found: &SymptomAnswer, channel: Channel) -> Markup {
    let mut shown: Vec<(String, &'static str)> = Vec::new();
    for suspect in &found.suspects {
        let level = level(view, channel, &suspect.ranked.expected);
        if shown.len() < 3
            && suspect.ranked.probability.fraction() >= SMALL
            && !shown.iter().any(|(text, _)| *text == level)
        {
            shown.push((level, words::cause(suspect.ranked.cause)));
        }
    }
    html! {
        @if shown.len() > 1 {
            ul.plain.speaks { @for (level, cause) in &shown { li { b { (level) } " speaks for: " (cause) } } }
        } @else {
            p.hint { "How far it lies from what is expected tells the causes apart." }
        }
    }
}

fn level(view: &View, channel: Channel, levels: &Levels) -> String {
    let base = channel.level(levels);
    match channel {
        // Meters of the trade show two decimals.
        Channel::HighestCell | Channel::LowestCell => format!("{base:.3} V"),
        Channel::Current => {
            let size = view.show(Current::from_amperes((base * 10.0).round().abs() / 10.0));
            match base {
                base if base.abs() < 0.05 => "no current".into(),
                base if base > 0.0 => format!("{size} in"),
                _ => format!("{size} out"),
            }
        }
        Channel::Temperature => view.show(Temperature::from_celsius(base)),
        _ => view.show(Voltage::from_volts((base * 100.0).round() / 100.0)),
    }
}

/// A share as people say it: nothing here is certain.
fn percent(share: f64) -> String {
    if share >= 0.995 {
        return "over 99 %".into();
    }
    format!("{:.0} %", share * 100.0)
}

/// One cause.
fn one(view: &View, can: &Observable, asked: &Asked, suspect: &Suspect, number: usize) -> Markup {
    let share = suspect.ranked.probability.fraction();
    let percent = percent(share);
    html! {
        article.suspect {
            div.suspect-head {
                h3 { (words::cause(suspect.ranked.cause)) }
                p.chance { b { (percent) } " " (words::likely(share)) }
            }
            svg.chance-bar viewBox="0 0 100 8" preserveAspectRatio="none" role="img" aria-label={ (percent) ", " (words::likely(share)) } {
                rect.track x="0" y="1" width="100" height="6" {}
                rect.level x="0" y="1" width=(format!("{:.1}", share * 100.0)) height="6" {}
            }
            p { (words::explains(suspect.ranked.cause)) }
            (setting(view, suspect))
            details.how id={ "expected-" (number) } {
                summary { "What you would read" span.unseen { ": " (words::cause(suspect.ranked.cause)) } }
                (expected(view, can, asked, &suspect.ranked.expected))
            }
        }
    }
}

/// The setting that explains it, as it is and as it should be.
fn setting(view: &View, suspect: &Suspect) -> Markup {
    let devices = &settings_of(view).devices;
    let found = suspect.row.and_then(|(device, row)| {
        let card = devices.get(device)?;
        Some((card, card.rows.get(row)?))
    });
    html! {
        @if let Some((card, row)) = found {
            p.suspect-setting {
                b { (setting_words::name(row.what)) } " of " (card.label) ": "
                @match &row.now {
                    Some(now) => { "set to " b { (setting_words::figure(view, now.value)) } },
                    None => "not said",
                }
                @if let Some(advised) = row.advised { ", advised " b { (setting_words::figure(view, advised)) } }
                ". "
                a href=(edit_address(&row.path, super::HERE)) { "Change it" }
                " · "
                a href={ "/energy/settings#card-" (encoded(&setting_words::card_id(card))) } { "Why this value" }
            }
        } @else if let Some((what, place, word)) = words::instead(suspect.ranked.cause) {
            p.suspect-setting { (what) " " a href=(place) { (word) } }
        }
    }
}

/// Levels under a cause, beside what was read.
fn expected(view: &View, can: &Observable, asked: &Asked, levels: &Levels) -> Markup {
    html! {
        dl.small-figures {
            @for channel in &can.channels {
                div {
                    dt { (words::channel(*channel).1) }
                    dd {
                        (level(view, *channel, levels))
                        @if let Some(read) = read(view, *channel, asked) { span.hint { "you read " (read) } }
                    }
                }
            }
        }
        p.hint {
            "Then: "
            @for (number, event) in levels.events.iter().enumerate() {
                @if number > 0 { "; " }
                (words::event(*event).1)
            }
        }
    }
}

fn read(view: &View, channel: Channel, asked: &Asked) -> Option<String> {
    let seen = &asked.seen;
    let volts = |value: Option<Voltage>| value.map(|value| view.show(value));
    match channel {
        Channel::AtCharger => volts(seen.at_charger),
        Channel::AtBattery => volts(seen.at_battery),
        Channel::HighestCell => volts(seen.highest_cell),
        Channel::LowestCell => volts(seen.lowest_cell),
        Channel::AtLoads => volts(seen.at_loads),
        Channel::Current => seen.current.map(|value| view.show(value)),
        Channel::Temperature => seen.temperature.map(|value| view.show(value)),
    }
}
