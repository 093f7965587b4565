//! The drawings of the page: the floor from above, lying for wide screens and
//! standing for narrow ones, and one side. Not here: what is in the scene.

use super::{Asked, ask, road_of};
use crate::web::act::blocking;
use crate::web::html::count;
use crate::web::layout_scene::{self, Shown};
use crate::web::view::View;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::road::RoadResult;
use wainwright_drawing::scene::{Face, Fit, Scene, View as Looked};
use wainwright_units::{Length, System};

/// Width and height of the floor on a wide screen [px].
const WIDE: (f64, f64) = (840.0, 430.0);
/// The same on a narrow one.
const NARROW: (f64, f64) = (358.0, 540.0);
/// Of the side, wide and narrow.
const SIDE: (f64, f64) = (840.0, 320.0);
const SIDE_NARROW: (f64, f64) = (358.0, 260.0);

/// The floor.
pub fn above(view: &View, asked: &Asked) -> Markup {
    let Some(scene) = scene(view, asked) else {
        return nothing();
    };
    html! {
        (floor(view, asked, &scene))
        div.under-plan #under-plan data-region {
            p.hint.keys {
                "Drag a thing, or pick it and press arrow keys; Shift goes further, Alt lets go of walls and neighbours. Enter keeps, Escape puts back."
            }
            (small_things(view, asked))
        }
    }
}

/// The way to see small things, or to hide them again.
fn small_things(view: &View, asked: &Asked) -> Markup {
    let number = layout_scene::small(&bare(view));
    html! {
        @if number > 0 {
            p { a href=(asked.with_small(!asked.small)) data-live {
                @if asked.small { "Hide the small things" } @else { "Show " (count(number, "small thing", "small things")) " too" }
            } }
        }
    }
}

fn floor(view: &View, asked: &Asked, scene: &Scene) -> Markup {
    let road = road_of(view);
    let units = view.units();
    let title = "Floor of the trailer seen from above";
    let (lying, standing) = blocking(|| {
        (
            layout_scene::draw(scene, &Looked::plan(), within(WIDE), title, "w-", units),
            layout_scene::draw(
                scene,
                &Looked::plan_upright(),
                within(NARROW),
                title,
                "n-",
                units,
            ),
        )
    });
    html! {
        div.floor-plan #floor-plan data-region data-inside=(inside_mm(road)) data-ribs=(ribs_mm(view))
            data-step=(steps(units).0) data-far=(steps(units).1) data-here=(asked.with_item(None)) {
            div.for-wide { (PreEscaped(lying)) }
            div.for-narrow { (PreEscaped(standing)) }
        }
    }
}

/// One side, with the way to the other.
pub fn side(view: &View, asked: &Asked) -> Markup {
    let Some(scene) = scene(view, asked) else {
        return html! {};
    };
    let (face, word) = if asked.right_side {
        (Face::Right, "right")
    } else {
        (Face::Left, "left")
    };
    let looked_at = Looked::outside(face);
    let title = format!("Trailer seen from its {word} side");
    let units = view.units();
    let (wide, narrow) = blocking(|| {
        (
            layout_scene::draw(&scene, &looked_at, within(SIDE), &title, "sw-", units),
            layout_scene::draw(
                &scene,
                &looked_at,
                within(SIDE_NARROW),
                &title,
                "sn-",
                units,
            ),
        )
    });
    html! {
        div.side-plan #side-plan data-region {
            p.sides {
                span { "Seen from the" }
                a.button href=(asked.with_side(false)) data-live aria-current=[(!asked.right_side).then_some("true")] { "left" }
                a.button href=(asked.with_side(true)) data-live aria-current=[asked.right_side.then_some("true")] { "right" }
            }
            div.for-wide { (PreEscaped(wide)) }
            div.for-narrow { (PreEscaped(narrow)) }
        }
    }
}

fn scene(view: &View, asked: &Asked) -> Option<Scene> {
    let zone = asked.item.as_deref().and_then(|item| ask::zone(view, item));
    let study = view.study();
    layout_scene::scene(&Shown {
        project: &study.project,
        road: &study.assessment.road,
        chosen: asked.item.as_deref(),
        zone: zone.as_ref(),
        moved: &[],
        small: asked.small,
        units: view.units(),
    })
}

fn nothing() -> Markup {
    html! {
        section.next #next-step {
            h2 { "Next step" }
            p { "Type the inside length, width and height of the box; then it is drawn here." }
            p { a.button.primary href="/edit/trailer?back=/layout" { "Type the box" } }
        }
    }
}

fn within((width, height): (f64, f64)) -> Fit {
    Fit::Within { width, height }
}

/// Length, width and height of the box for the script [mm].
fn inside_mm(road: &RoadResult) -> String {
    let trailer = &road.trailer;
    let all = [
        &trailer.inside_length,
        &trailer.inside_width,
        &trailer.inside_height,
    ];
    let texts = all.map(|known| {
        known.as_ref().map_or_else(String::new, |known| {
            format!("{:.1}", known.value.millimetres())
        })
    });
    texts.join(" ")
}

/// Distances of the ribs from the front wall for the script [mm].
fn ribs_mm(view: &View) -> String {
    let places = layout_scene::rib_places(&bare(view));
    let texts: Vec<String> = places
        .into_iter()
        .map(|metres| format!("{:.1}", Length::from_metres(metres).millimetres()))
        .collect();
    texts.join(" ")
}

/// The project with nothing chosen.
fn bare(view: &View) -> Shown<'_> {
    let study = view.study();
    Shown {
        project: &study.project,
        road: &study.assessment.road,
        chosen: None,
        zone: None,
        moved: &[],
        small: true,
        units: view.units(),
    }
}

/// How far an arrow key moves a thing, and how far with Shift [mm].
fn steps(units: System) -> (&'static str, &'static str) {
    match units {
        System::Us => ("12.7", "152.4"),
        System::Metric => ("10", "100"),
    }
}
