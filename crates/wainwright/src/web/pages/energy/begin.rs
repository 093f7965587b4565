//! Where nothing is typed yet: one step after the other, and typical uses at a press. Not here: the figures of typical
//! uses (a table).

use super::HERE;
use crate::views::energy::{typical, weather};
use crate::web::act::{Sent, after, blocking};
use crate::web::html::{back, encoded, revision};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_model::{Id, Kind};

/// Steps to a first answer; the first one that is not done is the one to press.
pub fn beginning(view: &View) -> Markup {
    let project = &view.study().project;
    let battery = project
        .items
        .iter()
        .any(|(_, item)| item.spec.kind() == Kind::Battery);
    let climate = project.climates.ids().next();
    html! {
        section.next.beginning #next-step aria-labelledby="next-heading" {
            h2 #next-heading { "Will energy and water last on your trips?" }
            p { "Say what battery there is, where you go and for how long. The trip is then lived through thousands of times, each time in other weather, and you see how often something runs out and what would help." }
            ol.steps {
                li.done[battery] {
                    @if battery { "The battery is there" }
                    @else { a.button.primary href={ "/add/item?kind=battery&back=" (HERE) } { "Add the battery" } }
                }
                li.done[climate.is_some()] {
                    @if climate.is_some() { "A place with its weather is there" }
                    @else if battery { (place_fields(view)) }
                    @else { "Say where you go" }
                }
                li {
                    @if let (true, Some(climate)) = (battery, climate) {
                        a.button.primary href={ "/add/trip?to=" (encoded(climate.as_str())) "&nights=3&back=" (HERE) } { "Add a trip" }
                    } @else { "Add a trip" }
                }
            }
        }
    }
}

/// The same as a section of its own.
pub fn place_form(view: &View) -> Markup {
    html! {
        h2 { "Where do you go?" }
        p { "The sun of that place decides what the modules give, and its cold what a heater burns." }
        (place_fields(view))
    }
}

/// A listed place to choose, or another way to its weather.
pub fn place_fields(view: &View) -> Markup {
    html! {
        form.place-form method="post" action="/energy/climate/place" {
            (revision(view.now.revision))
            (back(view.here.as_str()))
            div.field {
                label for="listed-place" { "A place with such weather" }
                select #listed-place name="site" {
                    @for site in weather::listed() {
                        option value=(site.id) { (site.name) ", " (site.region) }
                    }
                }
            }
            p.row {
                button.primary { "Use this place" }
                a.button href="/energy/climate#weather-file" { "Read a weather file" }
                a.button href={ "/add/climate?back=" (HERE) } { "Type twelve months" }
            }
        }
    }
}

/// A listed place was chosen.
pub async fn placed(view: View, sent: Sent) -> Response {
    let site = sent.0.get("site").unwrap_or("");
    let Some((edit, id)) = weather::put_in_listed(&view.study().project, site) else {
        return view.missing("There is no listed place of that name.");
    };
    let label = format!("Add the weather of {id}");
    let done = blocking(|| view.app.session.apply(&[edit], sent.revision(), &label));
    after(&view, &sent, done)
}

/// Typical uses are wanted for what nobody said the use of.
pub async fn begun_uses(view: View, sent: Sent) -> Response {
    let project = &view.study().project;
    let there = |id: &&str| project.items.contains(id);
    let loads: Vec<Id> = sent
        .0
        .all("load")
        .filter(there)
        .filter_map(Id::new)
        .collect();
    let edits = typical::edits(project, &loads, view.units());
    if edits.is_empty() {
        return view.missing("There is nothing left that a typical use is known of.");
    }
    let done = blocking(|| {
        let label = "Add typical uses";
        view.app.session.apply(&edits, sent.revision(), label)
    });
    after(&view, &sent, done)
}
