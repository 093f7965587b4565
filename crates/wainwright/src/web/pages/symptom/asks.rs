//! What is asked: the form, and what was typed in it. Not here: answers.

use super::HERE;
use super::words;
use crate::web::pages::settings::settings_of;
use crate::web::view::{Query, View};
use maud::{Markup, html};
use wainwright_analysis::result::settings::{
    Channel, DeviceCard, Event, Observable, Observation, SettingsResult,
};
use wainwright_units::{Current, Quantity, Temperature, Voltage};

/// Which way the current flows.
const WAYS: [(&str, &str); 4] = [
    ("", "not looked at"),
    ("in", "charging: into the battery"),
    ("out", "discharging: out of it"),
    ("none", "nothing flows"),
];

/// A question, as far as it could be read.
#[derive(Debug, Default)]
pub struct Asked {
    /// Which charger, as an index into the devices.
    pub charger: usize,
    /// Which disconnect.
    pub disconnect: Option<usize>,
    /// What was seen.
    pub seen: Observation,
    /// What could not be read, by the name of the input.
    pub errors: Vec<(&'static str, String)>,
}

impl Asked {
    /// Whether anything at all was entered.
    pub fn is_empty(&self) -> bool {
        self.seen == Observation::default() && self.errors.is_empty()
    }

    fn error(&self, name: &str) -> Option<&str> {
        let wrong = self.errors.iter().find(|(of, _)| *of == name);
        wrong.map(|(_, why)| why.as_str())
    }
}

/// Reads the question; none when no charger can be asked about.
pub fn read(settings: &SettingsResult, can: &Observable, query: &Query) -> Option<Asked> {
    let chosen = |name: &str, of: &[usize]| {
        let wanted = query.get(name);
        let is = |index: &&usize| {
            settings
                .devices
                .get(**index)
                .is_some_and(|card| Some(card.item.as_str()) == wanted)
        };
        of.iter().find(is).or(of.first()).copied()
    };
    let mut asked = Asked {
        charger: chosen("charger", &can.chargers)?,
        disconnect: chosen("disconnect", &can.disconnects),
        ..Asked::default()
    };
    asked.seen.event = query
        .get("event")
        .and_then(|word| words::event_of(word, &can.events));
    let seen = &mut asked.seen;
    let errors = &mut asked.errors;
    for channel in &can.channels {
        let name = words::channel(*channel).0;
        let text = query.get(name).map(|text| with_unit(text, *channel));
        match channel {
            Channel::AtCharger => seen.at_charger = quantity(name, text, errors),
            Channel::AtBattery => seen.at_battery = quantity(name, text, errors),
            Channel::HighestCell => seen.highest_cell = quantity(name, text, errors),
            Channel::LowestCell => seen.lowest_cell = quantity(name, text, errors),
            Channel::AtLoads => seen.at_loads = quantity(name, text, errors),
            Channel::Current => seen.current = current(name, text, query.get("flow"), errors),
            Channel::Temperature => seen.temperature = quantity::<Temperature>(name, text, errors),
        }
    }
    Some(asked)
}

/// A bare number of volts or amperes is meant so; a temperature needs its unit.
fn with_unit(text: &str, channel: Channel) -> String {
    let bare = text.trim().parse::<f64>().is_ok();
    match channel {
        Channel::Temperature => text.to_owned(),
        Channel::Current if bare => format!("{} A", text.trim()),
        _ if bare => format!("{} V", text.trim()),
        _ => text.to_owned(),
    }
}

fn quantity<Q: Quantity>(
    name: &'static str,
    text: Option<String>,
    errors: &mut Vec<(&'static str, String)>,
) -> Option<Q> {
    match Q::parse(&text?) {
        Ok(value) => Some(value),
        Err(error) => {
            errors.push((name, error.to_string()));
            None
        }
    }
}

/// The current into the battery; out of it is below zero.
fn current(
    name: &'static str,
    text: Option<String>,
    flow: Option<&str>,
    errors: &mut Vec<(&'static str, String)>,
) -> Option<Current> {
    if flow == Some("none") {
        return Some(Current::ZERO);
    }
    let size = quantity::<Current>(name, text, errors)?;
    match flow {
        Some("in") => Some(size.abs()),
        Some("out") => Some(size.abs() * -1.0),
        _ if size == Current::ZERO => Some(size),
        _ => {
            errors.push((
                "flow",
                "say whether it flows into the battery or out of it".into(),
            ));
            None
        }
    }
}

/// The form.
pub fn form(view: &View, can: &Observable, asked: &Asked) -> Markup {
    let settings = settings_of(view);
    html! {
        form.try.odd method="get" action=(HERE) data-live data-auto {
            @if can.chargers.len() > 1 || can.disconnects.len() > 1 {
                div.fields {
                    (device_field(settings, "charger", "At which charger", &can.chargers, Some(asked.charger)))
                    (device_field(settings, "disconnect", "And which disconnect", &can.disconnects, asked.disconnect))
                }
            }
            fieldset {
                legend { "What happens" }
                div.events { @for event in &can.events { (event_field(*event, asked.seen.event)) } }
            }
            fieldset {
                legend { "What you can read" }
                p.hint { "While it happens, as much as you have; every reading tells causes apart. A bare number is in volts or amperes." }
                div.fields {
                    @for channel in &can.channels { (channel_field(view, *channel, asked)) }
                }
            }
            p.row { button.primary { "What may it be?" } a.button href=(HERE) { "Clear" } }
        }
    }
}

fn device_field(
    settings: &SettingsResult,
    name: &str,
    label: &str,
    of: &[usize],
    chosen: Option<usize>,
) -> Markup {
    let cards: Vec<(usize, &DeviceCard)> = of
        .iter()
        .filter_map(|index| Some((*index, settings.devices.get(*index)?)))
        .collect();
    html! {
        @if cards.len() > 1 {
            div.field {
                label for={ "odd-" (name) } { (label) }
                select id={ "odd-" (name) } name=(name) {
                    @for (index, card) in &cards {
                        option value=(card.item) selected[chosen == Some(*index)] { (card.label) }
                    }
                }
            }
        }
    }
}

fn event_field(event: Event, chosen: Option<Event>) -> Markup {
    let (word, words) = words::event(event);
    html! {
        label.switch {
            input type="radio" name="event" value=(word) checked[chosen == Some(event)];
            span { (words) }
        }
    }
}

fn channel_field(view: &View, channel: Channel, asked: &Asked) -> Markup {
    let (name, label, how) = words::channel(channel);
    html! {
        (reading(view, name, label, how, example(view, channel), asked))
        @if channel == Channel::Current {
            div.field {
                label for="odd-flow" { "Which way it flows" }
                select #odd-flow name="flow" aria-invalid[asked.error("flow").is_some()] {
                    @for (value, words) in WAYS {
                        option value=(value) selected[view.query.get("flow").unwrap_or("") == value] { (words) }
                    }
                }
            }
        }
    }
}

fn reading(
    view: &View,
    name: &str,
    label: &str,
    how: &str,
    example: String,
    asked: &Asked,
) -> Markup {
    html! {
        div.field {
            label for={ "odd-" (name) } { (label) }
            p.hint id={ "how-" (name) } { (how) }
            input id={ "odd-" (name) } name=(name) value=(view.query.get(name).unwrap_or("")) placeholder=(example) autocomplete="off"
                spellcheck="false" inputmode="text" aria-describedby={ "how-" (name) } aria-invalid[asked.error(name).is_some()];
        }
    }
}

/// What a reading may look like, in the project's units.
fn example(view: &View, channel: Channel) -> String {
    match channel {
        Channel::HighestCell | Channel::LowestCell => view.show(Voltage::from_volts(3.35)),
        Channel::Current => view.show(Current::from_amperes(12.0)),
        Channel::Temperature => view.show(Temperature::from_celsius(10.0)),
        _ => view.show(Voltage::from_volts(13.6)),
    }
}
