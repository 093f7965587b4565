//! Where everything stands: the floor from above and from the side, to scale,
//! with the weights beside it. Not here: the drawing (`layout_scene`), how
//! things are dragged (`layout.js`).

mod ask;
mod band;
mod begin;
pub mod better;
mod chosen;
mod figures;
pub mod hold;
mod live;
mod margins;
mod place;
mod plan;
pub mod road;
mod settle;
pub mod weigh;

pub use begin::begun;
pub use place::{middle, placed, turned};

use crate::web::act::{Sent, blocking};
use crate::web::html::encoded;
use crate::web::html::shell::{Page, Tab};
use crate::web::html::within::{LAYOUT, sheets};
use crate::web::view::{Query, View};
use axum::http::StatusCode;
use axum::response::{Html, IntoResponse, Response};
use chosen::Typed;
use maud::{Markup, html};
use wainwright_analysis::result::road::RoadResult;
use wainwright_model::{Id, Spot};

/// The page of things and their places.
const HERE: &str = "/layout";

/// What one address of the page asks for.
struct Asked {
    /// The chosen item, when it is there.
    item: Option<String>,
    /// Whether the right side is shown below, and not the left one.
    right_side: bool,
    /// Whether small light things are drawn.
    small: bool,
}

impl Asked {
    fn of(view: &View) -> Self {
        Self::in_query(view, &view.query)
    }

    /// What an address of the page asks for, such as the one a form came from.
    fn at(view: &View, place: &str) -> Self {
        let query = place.parse().map(|address| Query::of(&address));
        Self::in_query(view, &query.unwrap_or_default())
    }

    fn in_query(view: &View, query: &Query) -> Self {
        let there = |id: &&str| view.study().project.items.contains(id);
        Self {
            item: query.get("item").filter(there).map(str::to_owned),
            right_side: query.get("side") == Some("right"),
            small: query.get("small") == Some("shown"),
        }
    }

    /// The address with another choice.
    fn with_item(&self, item: Option<&str>) -> String {
        self.address(item, self.right_side, self.small)
    }

    /// The address with the other side.
    fn with_side(&self, right: bool) -> String {
        self.address(self.item.as_deref(), right, self.small)
    }

    /// The address with or without small things.
    fn with_small(&self, small: bool) -> String {
        self.address(self.item.as_deref(), self.right_side, small)
    }

    fn address(&self, item: Option<&str>, right: bool, small: bool) -> String {
        let item = item.map(|id| format!("item={}", encoded(id)));
        let side = right.then(|| "side=right".to_owned());
        let small = small.then(|| "small=shown".to_owned());
        let parts: Vec<String> = [item, side, small].into_iter().flatten().collect();
        if parts.is_empty() {
            HERE.into()
        } else {
            format!("{HERE}?{}", parts.join("&"))
        }
    }
}

/// The page.
pub async fn page(view: View) -> Response {
    let asked = Asked::of(&view);
    let typed = Typed::of(&view, &asked);
    view.page(whole(&view, &asked, &typed))
}

/// What the figures would be with one item elsewhere: a piece of the page. The
/// project stays as it is.
pub async fn tried(view: View, sent: Sent) -> Response {
    let item = sent.0.get("item").and_then(Id::new);
    let spot = sent.0.get("spot").and_then(|text| Spot::parse(text).ok());
    let there = |id: &Id| view.study().project.items.contains(id.as_str());
    match (item.filter(there), spot) {
        (Some(item), Some(spot)) => {
            let moves = [(item.clone(), spot)];
            let project = &view.study().project;
            let road = blocking(|| wainwright_analysis::road::road_with(project, &moves));
            let piece = live::live(&view, &road, Some((item.as_str(), spot)));
            Html(piece.into_string()).into_response()
        }
        _ => (
            StatusCode::UNPROCESSABLE_ENTITY,
            "an item and a spot are needed",
        )
            .into_response(),
    }
}

/// A page of this place with its row of sheets.
fn framed(here: &'static str, title: &str, lede: &'static str, main: &Markup) -> Page {
    Page {
        tab: Some(Tab::Layout),
        title: title.into(),
        lede,
        main: html! {
            (sheets(&LAYOUT, here))
            (main)
        },
    }
}

/// The page with what was typed about the chosen item.
fn whole(view: &View, asked: &Asked, typed: &Typed) -> Page {
    let road = road_of(view);
    let main = if road.begun {
        html! {
            (place::drop_form(view))
            div.floor-top {
                section.plans aria-label="Drawings" {
                    (plan::above(view, asked))
                    (chosen::chosen(view, asked, typed))
                    (plan::side(view, asked))
                }
                aside.beside aria-label="Figures" { (live::live(view, road, None)) (tools(view)) }
            }
            (settle::unsettled(view, asked))
            (settle::all(view, asked))
            script src="/assets/layout.js" defer {}
        }
    } else {
        begin::beginning(
            view,
            "Where does everything go, so that the trailer tows well?",
        )
    };
    framed(
        HERE,
        "Floor",
        "Drag things to their places; the weights beside the drawing follow at once.",
        &main,
    )
}

fn tools(view: &View) -> Markup {
    html! {
        div #layout-tools data-region {
            p.row {
                a.button href="/add/item?back=/layout" { "Add a thing" }
                a.button href="/edit/trailer?back=/layout" { "Change the box" }
            }
            (figures::left_out(view, road_of(view)))
        }
    }
}

/// The road study of the project as it is.
fn road_of(view: &View) -> &RoadResult {
    &view.study().assessment.road
}
