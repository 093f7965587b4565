//! What to set on every charging device and every disconnect, what is set now, and what of it does not agree. Here: the
//! page, and its buttons. Not here: one card (`card`), one conflict (`conflicts`), the drawing (`ladder`), paper (`paper`).

mod bar;
mod card;
mod conflicts;
mod ladder;
pub mod paper;
mod range;
pub mod words;

use crate::web::act::{Sent, after, blocking};
use crate::web::html::finding::{place_address, place_words};
use crate::web::html::shell::{Page, Tab};
use crate::web::html::within::{ENERGY, sheets};
use crate::web::html::{back, count, encoded, revision};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::result::settings::{ColdString, SettingsResult};
use wainwright_model::Edit;

const HERE: &str = "/energy/settings";

/// A sheet of the place for energy.
pub fn framed(here: &'static str, title: &str, lede: &'static str, main: &Markup) -> Page {
    Page {
        tab: Some(Tab::Energy),
        title: title.into(),
        lede,
        main: html! {
            (sheets(&ENERGY, here))
            (main)
        },
    }
}

/// What the settings study found.
pub fn settings_of(view: &View) -> &SettingsResult {
    &view.study().assessment.settings
}

/// The page.
pub async fn page(view: View) -> Response {
    let settings = settings_of(&view);
    let main = html! {
        div #settings-page data-region {
            @match nothing_yet(settings) {
                Some(step) => (step),
                None => {
                    (care())
                    (verdict(&view, settings))
                    (conflicts::conflicts(&view, settings))
                    (ladder::section(&view, settings))
                    (cards(&view, settings))
                    (cold(&view, settings))
                    (behind(&view, settings))
                }
            }
        }
        script src="/assets/routes.js" defer {}
    };
    let lede = "What to dial in at each device so that chargers, battery, protection, wires and loads agree.";
    view.page(framed(HERE, "Settings", lede, &main))
}

/// All advised values of one device, or of all, are written.
pub async fn set(view: View, sent: Sent) -> Response {
    let settings = settings_of(&view);
    let wanted = sent.0.get("card").unwrap_or("");
    let chosen: Vec<_> = settings
        .devices
        .iter()
        .filter(|card| wanted == "all" || words::card_id(card) == wanted)
        .collect();
    let rows = chosen.iter().flat_map(|card| &card.rows);
    let edits: Vec<Edit> = rows.filter_map(|row| row.edit.clone()).collect();
    if edits.is_empty() {
        return view
            .missing("There is nothing to set there any more: the file says what is advised.");
    }
    let label = match chosen.as_slice() {
        [one] => format!("Settings of {}", one.label),
        _ => "Settings of all devices".into(),
    };
    let done = blocking(|| view.app.session.apply(&edits, sent.revision(), &label));
    after(&view, &sent, done)
}

/// A conflict is removed.
pub async fn mend(view: View, sent: Sent) -> Response {
    let number = sent
        .0
        .get("clash")
        .and_then(|text| text.parse::<usize>().ok());
    let found = number.and_then(|number| settings_of(&view).conflicts.get(number));
    let Some(found) = found.filter(|found| !found.edits.is_empty()) else {
        return view.missing("That conflict is gone; the project was changed meanwhile.");
    };
    let label = format!("Settings: {}", words::headline(found.conflict.kind));
    let done = blocking(|| {
        view.app
            .session
            .apply(&found.edits, sent.revision(), &label)
    });
    after(&view, &sent, done)
}

/// The form in which a value is typed, and the way back to a page.
pub fn edit_address(path: &[String], here: &str) -> String {
    let place = place_address(path);
    match place.split_once('#') {
        Some((form, field)) => format!("{form}?back={here}#{field}"),
        None => format!("{place}?back={here}"),
    }
}

/// The one next step while there is nothing to say.
fn nothing_yet(settings: &SettingsResult) -> Option<Markup> {
    let (what, words, place) = match (&settings.bank, settings.devices.is_empty()) {
        (None, _) => (
            "Which battery is it?",
            "What a charger should be set to follows from the battery: its cells, their number, its protection.",
            ("/add/item?kind=battery", "Add the battery"),
        ),
        (Some(_), true) => (
            "What charges the battery?",
            "Add the solar controller or a charger; then it says here what to set on it, and why.",
            (
                "/add/item?kind=solar-controller",
                "Add the solar controller",
            ),
        ),
        (Some(_), false) => return None,
    };
    let other = settings.bank.is_some();
    Some(html! {
        section.next.beginning #next-step {
            h2 { (what) }
            p { (words) }
            p.row {
                a.button.primary href={ (place.0) "&back=" (HERE) } { (place.1) }
                @if other {
                    a.button href={ "/add/item?kind=shore-charger&back=" (HERE) } { "Add a shore charger" }
                    a.button href={ "/add/item?kind=dcdc-charger&back=" (HERE) } { "Add a charger on the tow vehicle" }
                }
            }
        }
    })
}

/// The usual cautions.
fn care() -> Markup {
    html! {
        p.care {
            "Wrong charging settings ruin a battery or set it on fire. The battery maker's own sheet goes first; set each value at the device yourself, "
            "then watch the first full charge."
        }
    }
}

/// How it stands, with the button for all.
fn verdict(view: &View, settings: &SettingsResult) -> Markup {
    let rows = || settings.devices.iter().flat_map(|card| &card.rows);
    let open = rows().filter(|row| row.edit.is_some()).count();
    let unknown = rows().filter(|row| row.now.is_none()).count();
    let beyond = settings
        .conflicts
        .iter()
        .filter(|found| !found.conflict.within_margin)
        .count();
    let class = match (beyond, settings.conflicts.is_empty()) {
        (0, true) => "verdict good",
        (0, false) => "verdict caution",
        _ => "verdict warning",
    };
    html! {
        div #settings-verdict class=(class) {
            h2 {
                @match settings.conflicts.len() {
                    0 if unknown > 0 => "Nothing set so far contradicts anything",
                    0 => "All settings agree",
                    number => (count(number, "setting does not agree", "settings do not agree")),
                }
            }
            @if unknown > 0 {
                p { (count(unknown, "value is", "values are")) " not said yet. What is typed is held against everything else." }
            }
            div.row {
                @if open > 0 {
                    form method="post" action="/energy/settings/set" data-live {
                        (revision(view.now.revision))
                        (back(HERE))
                        input type="hidden" name="card" value="all";
                        button.primary { "Set all " (open) " values in the file" }
                    }
                }
                a.button href="/print/settings" { "Cards to take along" }
                a.button href="/energy/symptom" { "Something odd?" }
            }
        }
        @for refused in &settings.refused { p.callout role="alert" { (refused) } }
    }
}

fn cards(view: &View, settings: &SettingsResult) -> Markup {
    html! {
        section aria-labelledby="cards-heading" {
            h2 #cards-heading { "Device by device" }
            p.legend {
                span.key { svg.range-key viewBox="0 0 16 22" aria-hidden="true" { path.advised d="M8 4l7 7l-7 7l-7 -7z" {} } "advised" }
                span.key { svg.range-key viewBox="0 0 16 22" aria-hidden="true" { circle.now cx="8" cy="11" r="5" {} } "set now" }
                span.key { svg.range-key viewBox="0 0 30 22" aria-hidden="true" { rect.span x="1" y="6" width="28" height="10" rx="2" {} } "allowed" }
            }
            div.set-cards { @for one in &settings.devices { (card::card(view, one)) } }
        }
    }
}

/// Modules on a cold morning against what their controller takes.
fn cold(view: &View, settings: &SettingsResult) -> Markup {
    html! {
        @if !settings.cold_strings.is_empty() {
            section #cold-strings aria-labelledby="cold-heading" {
                h2 #cold-heading { "Modules on a cold morning" }
                p.hint { "Cold modules give more voltage than their label says." }
                table.cards {
                    thead { tr {
                        th scope="col" { "Controller" } th.number scope="col" { "Label, in a row" } th.number scope="col" { "Coldest morning" }
                        th.number scope="col" { "Then" } th.number scope="col" { "It takes" } th scope="col" { "So" }
                    } }
                    tbody { @for string in &settings.cold_strings { (string_row(view, string)) } }
                }
            }
        }
    }
}

fn string_row(view: &View, string: &ColdString) -> Markup {
    let id = string.controller.as_str();
    let allowed = string.allowed.as_ref().map(|allowed| allowed.value);
    html! {
        tr {
            th scope="row" { a href={ "/edit/item/" (encoded(id)) "?back=" (HERE) "#field-highest-input" } { (view.study().project.label_or_id("item", id)) } }
            td.number data-label="Label, in a row" { (view.show(string.open.value)) " " span.hint { (count(string.modules.len(), "module", "modules")) } }
            td.number data-label="Coldest morning" { (view.show(string.coldest.value)) }
            td.number data-label="Then" { (view.show(string.cold)) }
            td.number data-label="It takes" { (words::shown(view, allowed)) }
            td data-label="So" {
                @match allowed {
                    Some(allowed) if string.cold > allowed => b.over { "too much: it may fail" },
                    Some(_) => span.good { "fits" },
                    None => "not known",
                }
            }
        }
    }
}

/// What stands in, and what is missing.
fn behind(view: &View, settings: &SettingsResult) -> Markup {
    html! {
        @if !settings.assumptions.is_empty() {
            details #settings-stand-ins {
                summary { (count(settings.assumptions.len(), "stand-in", "stand-ins")) " behind these values" }
                ul {
                    @for assumed in &settings.assumptions {
                        li { a href=(edit_address(&assumed.path, HERE)) { (place_words(view, &assumed.path)) } ": " (assumed.value) }
                    }
                }
            }
        }
    }
}
