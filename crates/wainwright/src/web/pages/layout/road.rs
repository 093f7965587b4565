//! The trailer on the road: tongue in every state, ratings, the tow vehicle,
//! how it follows, tips and clears ramps, brake laws, fuel. Not here: figures
//! (the road study), judgement (the rules).

mod laws;
mod states;
mod steady;
mod vehicle;

use super::{band, begin, figures, framed, margins, road_of};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};

const HERE: &str = "/layout/road";
const TITLE: &str = "On the road";
const LEDE: &str =
    "What weighs on hitch, wheels and tow vehicle in every state, and how the trailer follows.";

/// The page.
pub async fn page(view: View) -> Response {
    let road = road_of(&view);
    if !road.begun {
        return begin::page(&view, HERE, TITLE, LEDE, "How will it tow?");
    }
    let main = html! {
        div.road-page #road-page data-region {
            (care())
            @if road.worst.is_some() { (all(&view)) } @else { (figures::missing(&view, road)) }
            (figures::left_out(&view, road))
        }
    };
    view.page(framed(HERE, TITLE, LEDE, &main))
}

fn all(view: &View) -> Markup {
    let road = road_of(view);
    html! {
        (states::states(view))
        section #ratings aria-labelledby="ratings-heading" {
            h2 #ratings-heading { "Ratings" }
            @if road.ratings.is_empty() {
                p { "None is known. Read them off the plates: trailer, coupler, tyres, hitch, tow vehicle." }
                p.row {
                    a.button.primary href="/edit/trailer?back=/layout/road" { "Type the trailer's" }
                    a.button href="/edit/vehicle?back=/layout/road" { "Type the tow vehicle's" }
                }
            } @else { (margins::table(view, road)) }
        }
        (vehicle::vehicle(view))
        (steady::steady(view))
        (laws::brakes(view))
        (vehicle::fuel(view))
    }
}

/// Before anybody drives by these figures.
fn care() -> Markup {
    html! {
        p.care {
            "These figures compare layouts; none of them is a safe speed. Weigh the laden trailer before the first trip, "
            "keep under every rating, and stop and move weight forwards if it ever begins to swing."
        }
    }
}
