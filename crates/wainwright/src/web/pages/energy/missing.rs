//! Where a trip cannot be worked out yet: what is missing, and one way to type it. Not here: what is missing at all.

use super::address;
use crate::views::energy::why_none;
use crate::web::html::encoded;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::trip::NoOutlook;
use wainwright_analysis::trips::briefs;
use wainwright_model::{Id, Kind};

/// One clear next step.
pub fn missing(view: &View, trip: &Id, why: &NoOutlook, here: &str) -> Markup {
    let lacks_battery = briefs(&view.study().project)
        .iter()
        .any(|brief| brief.trip == *trip && brief.lacks.contains(&Kind::Battery));
    let back = encoded(&address(here, trip));
    html! {
        section.next.beginning #next-step {
            @if lacks_battery {
                h2 { "Which battery is it?" }
                p { "Odds need the battery: how much it holds decides more than anything else." }
                p.row { a.button.primary href={ "/add/item?kind=battery&back=" (back) } { "Add the battery" } }
            } @else if view.study().project.climates.ids().next().is_none() {
                (super::begin::place_form(view))
            } @else {
                h2 { "One thing is missing" }
                p { (why_none(why)) }
                @match why {
                    NoOutlook::Missing { path, .. } => (way(path, &back)),
                    _ => p.row { a.button.primary href={ "/edit/trip/" (encoded(trip.as_str())) "?back=" (back) } { "Change this trip" } },
                }
            }
        }
    }
}

/// To the field that is wanted.
fn way(path: &[String], back: &str) -> Markup {
    let place = match path {
        [element, id, field, ..] => format!(
            "/edit/{}/{}?back={back}#field-{}",
            encoded(element),
            encoded(id),
            encoded(field)
        ),
        [element, id] => format!("/edit/{}/{}?back={back}", encoded(element), encoded(id)),
        [element] => format!("/add/{}?back={back}", encoded(element)),
        [] => "/circuits".into(),
    };
    html! { p.row { a.button.primary href=(place) { "Type it" } } }
}
