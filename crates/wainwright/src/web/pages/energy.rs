//! Will it last? The odds of a trip, hour by hour, what helps, the other months. Not here: simulating (the trip
//! study), words and sums (`views::energy`).

mod begin;
pub mod climate;
mod courses;
mod file;
mod helps;
mod missing;
mod odds;
mod picker;
mod rests;
mod shares;
pub mod size;
mod year;

pub use begin::{begun_uses, placed};
pub use file::{LARGEST_WEATHER_FORM, read, taken};
pub use helps::put_in;
pub use year::both as both_years;

use crate::views::energy::Timeline;
use crate::web::act::blocking;
use crate::web::html::encoded;
use crate::web::html::shell::{Page, Tab};
use crate::web::html::within::{ENERGY, sheets};
use crate::web::outlooks::Look;
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::result::trip::{NoOutlook, TripOutlook};
use wainwright_analysis::trips::{TripInputs, inputs};
use wainwright_model::Id;

const HERE: &str = "/energy";
const TITLE: &str = "Trip";
const LEDE: &str =
    "Will energy and water last? The trip, thousands of times, each time in other weather.";

/// A page of this place with its row of sheets.
fn framed(here: &'static str, title: &str, lede: &'static str, main: &Markup) -> Page {
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

/// The trip that an address asks for, or the first one.
fn chosen(view: &View) -> Option<Id> {
    let trips = &view.study().project.trips;
    let asked = view.query.get("trip").filter(|id| trips.contains(id));
    match asked {
        Some(id) => Id::new(id),
        None => trips.ids().next().cloned(),
    }
}

/// The address of a page of this place for a trip.
fn address(page: &str, trip: &Id) -> String {
    format!("{page}?trip={}", encoded(trip.as_str()))
}

/// What the study of this trip rests on.
fn inputs_of(view: &View, trip: &Id) -> Result<TripInputs, NoOutlook> {
    let study = view.study();
    blocking(|| inputs(&study.project, &study.assessment, trip.as_str()))
}

/// The page.
pub async fn page(view: View) -> Response {
    let main = match chosen(&view) {
        None => begin::beginning(&view),
        Some(trip) => {
            let pick = picker::picker(&view, HERE, &trip);
            let rest = match inputs_of(&view, &trip) {
                Err(why) => missing::missing(&view, &trip, &why, HERE),
                Ok(inputs) => {
                    let look = view.app.outlooks.outlook(trip.as_str(), inputs).await;
                    shown(&view, &trip, &look)
                }
            };
            html! { (pick) (rest) }
        }
    };
    view.page(framed(
        HERE,
        TITLE,
        LEDE,
        &html! { div #energy-page data-region { (main) } },
    ))
}

fn shown(view: &View, trip: &Id, look: &Look<TripOutlook>) -> Markup {
    match look.found.as_ref() {
        Err(why) => missing::missing(view, trip, why, HERE),
        Ok(outlook) => whole(view, outlook, look.waits),
    }
}

fn whole(view: &View, outlook: &TripOutlook, waits: bool) -> Markup {
    let timeline = Timeline::of(&view.study().project, outlook);
    html! {
        (odds::odds(view, outlook, waits))
        (rests::unused(view, outlook))
        (courses::charge(outlook, &timeline))
        (helps::helps(view, outlook))
        (courses::water(view, outlook, &timeline))
        (shares::shares(view, outlook))
        (year::year(view, outlook))
        (rests::rests(view, outlook))
    }
}
