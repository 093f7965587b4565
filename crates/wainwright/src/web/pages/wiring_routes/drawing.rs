//! The drawing of one surface, lying for wide screens and standing for narrow
//! ones. Not here: what is in the scene.

use super::Asked;
use super::scene::{self, Look, is_editing};
use crate::web::act::blocking;
use crate::web::layout_scene::{scale_bars, spot_of};
use crate::web::view::View;
use maud::{Markup, PreEscaped, html};
use wainwright_drawing::scene::{Fit, Layer, Options, Scene, View as Looked, draw};
use wainwright_drawing::{Css, Style};
use wainwright_units::{Length, System};

/// Width and height on a wide screen and on a narrow one [px].
const WIDE: (f64, f64) = (880.0, 470.0);
const NARROW: (f64, f64) = (350.0, 560.0);

/// The drawing with what it means.
pub fn drawing(view: &View, asked: &Asked) -> Markup {
    let Some(scene) = scene::scene(view, asked.look, asked.selected.as_ref()) else {
        return html! {};
    };
    let (wide, narrow) = asked.look.views();
    let title = format!("Routes of the wires: {}", asked.look.words());
    let (wide, narrow) = blocking(|| {
        (
            one(view, asked, &scene, &wide, WIDE, &title, "w-"),
            one(view, asked, &scene, &narrow, NARROW, &title, "n-"),
        )
    });
    let (step, far) = steps(view.units());
    html! {
        div.route-plan #route-plan data-region data-step=(step) data-far=(far) data-lines=(lines(view)) {
            div.for-wide { (PreEscaped(wide)) }
            div.for-narrow { (PreEscaped(narrow)) }
        }
        div.under-plan #under-plan data-region {
            (legend(asked))
        }
    }
}

fn one(
    view: &View,
    asked: &Asked,
    scene: &Scene,
    looked: &Looked,
    (width, height): (f64, f64),
    title: &str,
    prefix: &str,
) -> String {
    let editing = is_editing(asked.selected.as_ref());
    let options = Options {
        fit: Fit::Within { width, height },
        // Handles lie over wires.
        top: if editing { Layer::Things } else { Layer::Wires },
        scale_bars: scale_bars(view.units()),
        id_prefix: prefix.to_owned(),
        ..Options::default()
    };
    let style = Style {
        title: title.to_owned(),
        id_prefix: prefix.to_owned(),
        css: Css::OnPage,
    };
    draw(scene, looked, &options).svg(&style)
}

fn legend(asked: &Asked) -> Markup {
    html! {
        div.legend role="group" aria-label="Meaning of the lines" {
            span.key { span.swatch.plus {} "plus" }
            span.key { span.swatch.minus {} "minus" }
            span.key { span.swatch.bad {} "across an opening" }
            span.key { span.swatch.trunk {} "trunk; dashed where it is hidden" }
            span.key { "×4: so many wires in it" }
        }
        p.hint.keys {
            @if is_editing(asked.selected.as_ref()) {
                "Drag a numbered corner, or pick it and press arrow keys; Enter keeps, Escape puts back, Alt lets go of the grid."
            } @else if asked.look == Look::Above {
                "Everything from above; choose a wall to see heights."
            } @else {
                "Seen from inside the trailer; only what runs on this surface."
            }
        }
    }
}

/// Places of the corners of all trunks, for the script to snap to [mm].
fn lines(view: &View) -> String {
    let trunks = view.study().project.trunks.iter();
    let corners: Vec<_> = trunks
        .filter_map(|(_, trunk)| trunk.path.as_ref())
        .flat_map(|path| path.value.iter().map(|spot| spot_of(*spot)))
        .collect();
    let axis = |of: fn(&wainwright_drawing::scene::Spot) -> f64| {
        let mut all: Vec<f64> = corners.iter().map(of).collect();
        all.sort_by(f64::total_cmp);
        all.dedup();
        let all: Vec<String> = all
            .into_iter()
            .map(|metres| format!("{:.1}", Length::from_metres(metres).millimetres()))
            .collect();
        all.join(" ")
    };
    [
        axis(|s| s.from_front_m),
        axis(|s| s.from_left_m),
        axis(|s| s.up_m),
    ]
    .join(";")
}

/// How far an arrow key moves a corner, and how far with Shift [mm].
fn steps(units: System) -> (&'static str, &'static str) {
    match units {
        System::Us => ("12.7", "152.4"),
        System::Metric => ("10", "100"),
    }
}
