//! What the odds rest on: battery, modules, weather, what is used, what nobody said. Not here: the odds.

use super::address;
use crate::views::basis::BasisView;
use crate::views::energy::{typical, words};
use crate::web::html::finding::{place_address, place_words};
use crate::web::html::{back, count, encoded, revision};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::trip::{FieldFound, TripOutlook};
use wainwright_model::Id;
use wainwright_units::Ratio;

/// Loads without a use come first: they make the odds too good.
pub fn unused(view: &View, outlook: &TripOutlook) -> Markup {
    let all = &outlook.unused;
    let project = &view.study().project;
    let known = typical::known(project, all);
    let here = address("/energy", &outlook.trip);
    html! {
        @if !all.is_empty() {
            section.unused-loads #unused aria-labelledby="unused-heading" {
                h2 #unused-heading { (count(all.len(), "thing does", "things do")) " not count yet" }
                p { "Nobody said how long they are used on a day. With them the odds get worse." }
                ul.plain.ends {
                    @for id in all {
                        li { a.button href=(use_form(id, &here)) { (words_of(view, id)) } }
                    }
                }
                @if known > 0 {
                    form method="post" action="/energy/uses" data-live {
                        (revision(view.now.revision))
                        (back(&here))
                        @for id in all { input type="hidden" name="load" value=(id); }
                        p.row {
                            button { "Add typical hours for " (count(known, "of them", "of them")) }
                            span.hint { "From a table of households; put them right afterwards." }
                        }
                    }
                }
            }
        }
    }
}

fn use_form(id: &Id, here: &str) -> String {
    let id = encoded(id.as_str());
    format!("/add/use?of={id}&id={id}&back={}", encoded(here))
}

fn words_of(view: &View, id: &Id) -> String {
    view.study()
        .project
        .label_or_id("item", id.as_str())
        .to_owned()
}

/// Everything the odds rest on.
pub fn rests(view: &View, outlook: &TripOutlook) -> Markup {
    html! {
        section #rests aria-labelledby="rests-heading" {
            h2 #rests-heading { "What this rests on" }
            dl.numbers {
                (battery(view, outlook))
                @for field in &outlook.fields { (field_of(view, outlook, field)) }
                (weather(view, outlook))
                (guard(outlook))
            }
            (uses(view, outlook))
            (stand_ins(view, outlook))
        }
    }
}

fn battery(view: &View, outlook: &TripOutlook) -> Markup {
    let bank = &outlook.bank;
    html! {
        div {
            dt { "Battery" }
            dd {
                (items(view, &bank.items)) ": " (view.show(bank.capacity)) ", " (view.show(bank.energy))
                ", of which " (view.show(bank.usable)) " can be used"
                @if let Some((trip, year)) = bank_wear(outlook) {
                    span.basis { " This trip wears it by " (small(trip)) ", a year of standing and ageing by " (small(year)) "." }
                }
            }
        }
    }
}

fn bank_wear(outlook: &TripOutlook) -> Option<(Ratio, Ratio)> {
    outlook.wear
}

/// A share that is often far below one percent.
fn small(share: Ratio) -> String {
    let percent = share.fraction() * 100.0;
    if percent > 0.0 && percent < 0.005 {
        "less than 0.01 %".into()
    } else {
        format!("{percent:.2} %")
    }
}

fn field_of(view: &View, outlook: &TripOutlook, field: &FieldFound) -> Markup {
    html! {
        div {
            dt { "Modules" }
            dd {
                (items(view, &field.modules)) ": " (view.show(field.rated)) " rated; shade on the roof leaves "
                (view.show(field.shade)) ", dirt, wire and mismatch " (view.show(field.left)) " of it. On a mean day in "
                (words::month(outlook.weather.month)) " they give " (view.show(field.mean_day)) ", without a cloud " (view.show(field.clear_day)) "."
            }
        }
    }
}

fn items(view: &View, ids: &[Id]) -> Markup {
    let back = encoded("/energy");
    html! {
        @for (number, id) in ids.iter().enumerate() {
            @if number > 0 { ", " }
            a href={ "/edit/item/" (encoded(id.as_str())) "?back=" (back) } { (words_of(view, id)) }
        }
    }
}

fn weather(view: &View, outlook: &TripOutlook) -> Markup {
    let weather = &outlook.weather;
    let name = view
        .study()
        .project
        .label_or_id("climate", weather.climate.as_str());
    html! {
        div {
            dt { "Weather" }
            dd {
                a href={ "/energy/climate#climate-" (weather.climate) } { (name) }
                @if let Some(listed) = &weather.listed { " (as in " (listed) ")" }
                " in " (words::month(weather.month)) ": clearness " (format!("{:.2}", weather.clearness))
                ", from year to year ± " (view.show(Ratio::from_fraction(weather.spread)))
                "; mean temperature " (view.show(weather.mean)) "."
            }
        }
    }
}

/// What the protection did; silent when it did nothing.
fn guard(outlook: &TripOutlook) -> Markup {
    let found = &outlook.guard;
    let told = [
        (
            found.full_stops,
            "charging was stopped because a cell was full",
        ),
        (
            found.load_dumps,
            "of these, the sun shone: the loads then hang on the controller alone",
        ),
        (
            found.refused,
            "charge was offered and refused for cold or heat",
        ),
        (found.asleep, "the sun shone and no controller woke up"),
    ];
    html! {
        @for (hours, what) in told.into_iter().filter(|(hours, _)| *hours >= 0.05) {
            div { dt { "Protection" } dd { (format!("{hours:.1}")) " h of a trip: " (what) "." } }
        }
    }
}

/// What is used on this trip, with the way to change each.
fn uses(view: &View, outlook: &TripOutlook) -> Markup {
    let project = &view.study().project;
    let back = encoded(&address("/energy", &outlook.trip));
    let all: Vec<&Id> = project.uses.ids().collect();
    html! {
        details #uses {
            summary { (count(all.len(), "use", "uses")) " that are typed" }
            ul.plain.columns {
                @for id in all {
                    li { a href={ "/edit/use/" (encoded(id.as_str())) "?back=" (back) } { (words::use_name(project, id)) } }
                }
            }
            p.row { a.button href={ "/add/use?back=" (back) } { "Add a use" } }
        }
    }
}

fn stand_ins(view: &View, outlook: &TripOutlook) -> Markup {
    let all = &outlook.assumptions;
    html! {
        @if !all.is_empty() {
            details #stand-ins {
                summary { (count(all.len(), "stand-in", "stand-ins")) " for what nobody typed" }
                ul.plain {
                    @for assumed in all {
                        li {
                            a href=(place_address(&assumed.path)) { (place_words(view, &assumed.path)) } " "
                            b { (assumed.value) } " "
                            span.basis { (BasisView::of(&assumed.basis).words()) }
                        }
                    }
                }
            }
        }
    }
}
