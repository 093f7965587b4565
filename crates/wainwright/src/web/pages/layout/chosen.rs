//! The chosen item: its place, mass and size as fields, and where it may stand.
//! Works without the script. Not here: taking over what was typed (`place`).

use super::{Asked, ask, road_of};
use crate::views::road::words;
use crate::web::html::{back, encoded, revision};
use crate::web::view::View;
use maud::{Markup, html};
use std::collections::BTreeMap;
use wainwright_analysis::Ask;
use wainwright_analysis::result::road::{Zone, ZoneLimit};
use wainwright_model::Item;

/// Names of the fields, their labels and what may be typed.
pub const FIELDS: [(&str, &str, &str); 5] = [
    ("from_front", "From front wall", "such as 24 in or 600 mm"),
    ("from_left", "From left wall", "to its left side"),
    ("above_floor", "Above floor", "0 when it stands on it"),
    ("mass", "Mass", "such as 70 lb or 32 kg"),
    ("size", "Size", "along x across x up"),
];

/// Texts in the form of the chosen item, and what is wrong with them.
#[derive(Debug, Default)]
pub struct Typed {
    /// By field.
    pub texts: BTreeMap<&'static str, String>,
    /// By field.
    pub errors: BTreeMap<&'static str, String>,
}

impl Typed {
    /// As the project has it.
    pub fn of(view: &View, asked: &Asked) -> Self {
        let item = asked
            .item
            .as_deref()
            .and_then(|id| view.study().project.items.get(id));
        Self {
            texts: item.map_or_else(BTreeMap::new, |item| texts(view, item)),
            errors: BTreeMap::new(),
        }
    }
}

/// The texts of the form as the project has them.
pub fn texts(view: &View, item: &Item) -> BTreeMap<&'static str, String> {
    let units = view.units();
    let mut texts = BTreeMap::new();
    if let Some(spot) = &item.body.spot {
        let three = spot.value.typed(units);
        let names = ["from_front", "from_left", "above_floor"];
        for (name, text) in names.into_iter().zip(three.split(", ")) {
            texts.insert(name, text.to_owned());
        }
    }
    if let Some(mass) = &item.body.mass {
        texts.insert("mass", mass.text.clone());
    }
    if let Some(size) = &item.body.size {
        texts.insert("size", size.value.typed(units));
    }
    texts
}

/// The form, when something is chosen.
pub fn chosen(view: &View, asked: &Asked, typed: &Typed) -> Markup {
    let id = asked.item.as_deref();
    let item = id.and_then(|id| Some((id, view.study().project.items.get(id)?)));
    html! {
        div.chosen-thing #chosen data-region {
            @if let Some((id, item)) = item { (form(view, asked, id, item, typed)) }
        }
    }
}

fn form(view: &View, asked: &Asked, id: &str, item: &Item, typed: &Typed) -> Markup {
    let name = words::item(&view.study().project, id);
    html! {
        section aria-labelledby="chosen-name" {
            div.chosen-head {
                h2 #chosen-name { (name) }
                a.button.close href=(asked.with_item(None)) data-live aria-label={ "Close " (name) } { "Close" }
            }
            (zone(view, id))
            form.place method="post" action="/layout/place" data-live data-form="place" novalidate {
                (revision(view.now.revision))
                (back(&asked.with_item(Some(id))))
                input type="hidden" name="item" value=(id);
                @for field in FIELDS { (self::field(field, typed)) }
                button.primary { "Save" }
            }
            div.row.chosen-tools {
                @if item.body.size.is_some() {
                    form method="post" action="/layout/turn" data-live {
                        (revision(view.now.revision))
                        (back(&asked.with_item(Some(id))))
                        input type="hidden" name="item" value=(id);
                        button { "Turn by a quarter" }
                    }
                }
                a.button href={ "/edit/item/" (encoded(id)) "?back=" (encoded(&asked.with_item(Some(id)))) } { "All its fields" }
                (ask::workings(view, "how-zone", "where it may stand", &Ask::AllowedZone { item: id.to_owned() }))
            }
        }
    }
}

fn field((name, label, hint): (&'static str, &str, &str), typed: &Typed) -> Markup {
    let text = typed.texts.get(name).map_or("", String::as_str);
    let error = typed.errors.get(name);
    html! {
        div.field {
            label for={ "place-" (name) } { (label) }
            input id={ "place-" (name) } name=(name) value=(text) autocomplete="off" spellcheck="false"
                aria-describedby={ "place-hint-" (name) } aria-invalid[error.is_some()];
            p.hint id={ "place-hint-" (name) } { (hint) }
            @if let Some(error) = error { p.error { (error) } }
        }
    }
}

/// Where it may stand, in a sentence.
fn zone(view: &View, id: &str) -> Markup {
    let road = road_of(view);
    let unsettled = road.unsettled.iter().find(|found| found.item == *id);
    html! {
        @match ask::zone(view, id) {
            Some(zone) => (zone_words(view, &zone)),
            None => @if unsettled.is_some_and(|found| found.unweighed) {
                p.hint { "Type its mass; then you see where it may stand." }
            },
        }
    }
}

fn zone_words(view: &View, zone: &Zone) -> Markup {
    let limit = |limit: ZoneLimit| match limit {
        ZoneLimit::Wall => "the wall".to_owned(),
        ZoneLimit::Share(state) => {
            let state = words::state(&view.study().project, road_of(view), state);
            format!("the tongue load ({state})")
        }
    };
    html! {
        p.zone-words {
            @match zone.along {
                Some((front, rear)) => {
                    "Its front may be " b { (view.show(front)) } " to " b { (view.show(rear)) }
                    " behind the front wall (hatched). It ends forwards at " (limit(zone.front_limit))
                    ", rearwards at " (limit(zone.rear_limit)) "."
                },
                None => {
                    "No place on the floor brings the tongue load right in every state: move something heavier."
                },
            }
        }
    }
}
