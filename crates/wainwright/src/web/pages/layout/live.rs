//! The figures beside the drawing: tongue, sides, ratings, what is in the way.
//! The same piece answers while a thing is dragged. Not here: dragging.

use super::{ask, band, figures, margins};
use crate::views::road::words;
use crate::web::layout_scene::{self, place_words};
use crate::web::trouble;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::Ask;
use wainwright_analysis::result::road::{RoadResult, SharePlace, WorstStates};
use wainwright_model::Spot;
use wainwright_units::Quantity;

/// Most sentences about what is in the way that are shown unfolded.
const MOST_SENTENCES: usize = 4;

/// The figures of the project, or with one item tried elsewhere.
pub fn live(view: &View, road: &RoadResult, tried: Option<(&str, Spot)>) -> Markup {
    let bad: Vec<&str> = trouble::items(road)
        .into_iter()
        .map(|id| id.as_str())
        .collect();
    html! {
        div.live #live data-region data-bad=(bad.join(" ")) data-centre=[centre_mm(road)]
            data-typed=[tried.map(|(_, spot)| spot.typed(view.units()))] data-say=(said(view, road, tried)) {
            @if let Some((item, spot)) = tried {
                p.trying { b { (words::item(&view.study().project, item)) } ": " (place_words(spot, view.units())) }
            }
            @match road.worst {
                Some(worst) => {
                    (tongue(view, road, worst))
                    (in_the_way(view, road))
                    (figures::sides(view, road, worst))
                    (figures::axle(view, road, worst))
                    (margins::margins(view, road))
                    @if tried.is_none() { (working(view, worst)) }
                },
                None => (figures::missing(view, road)),
            }
        }
    }
}

/// Verdict, strip, and which states are the ends.
fn tongue(view: &View, road: &RoadResult, worst: WorstStates) -> Markup {
    let project = &view.study().project;
    let ends = [worst.lowest_share, worst.highest_share];
    let [lowest, highest] = ends.map(|index| road.states.get(index));
    let (Some(lowest), Some(highest)) = (lowest, highest) else {
        return html! {};
    };
    let places = [lowest.share_place, highest.share_place];
    let bad = places
        .into_iter()
        .flatten()
        .find(|place| *place != SharePlace::Good);
    let verdict = bad.map_or("Tongue load is good in every state", |place| match place {
        SharePlace::FarTooLow => "Tongue load is far too low: do not tow it like this",
        SharePlace::TooLow => "Tongue load is too low",
        _ => "Tongue load is too high",
    });
    let states = ends.map(|index| words::state(project, road, index));
    let figures = [lowest, highest].map(|state| (view.show(state.tongue), view.show(state.share)));
    let [(least, low), (most, high)] = &figures;
    let aloud = format!(
        "{verdict}. From {low} ({}) to {high} ({}).",
        states[0], states[1]
    );
    html! {
        section.tongue.{ @if bad.is_some() { "bad" } @else { "fine" } } #tongue {
            h2 { (verdict) }
            (band::band(road, &aloud))
            dl.ends-of {
                div { dt { "Least" } dd { b { (low) } " · " (least) span.hint { (states[0]) } } }
                @if worst.lowest_share != worst.highest_share {
                    div { dt { "Most" } dd { b { (high) } " · " (most) span.hint { (states[1]) } } }
                }
            }
            p.row { a.button.primary[bad.is_some()] href="/layout/better" { "Find a better layout" } }
        }
    }
}

fn in_the_way(view: &View, road: &RoadResult) -> Markup {
    let sentences = trouble::sentences(&view.study().project, road, view.units());
    html! {
        @if !sentences.is_empty() {
            section.in-the-way #in-the-way {
                h3 { "In the way" }
                ul.plain {
                    @for (items, sentence) in sentences.iter().take(MOST_SENTENCES) {
                        li { @match items.first() {
                            Some(item) => a href={ "/layout?item=" (item) } data-live { (sentence) },
                            None => (sentence),
                        } }
                    }
                }
                @if sentences.len() > MOST_SENTENCES {
                    p.hint { "and " (sentences.len() - MOST_SENTENCES) " more, marked ! in the drawing" }
                }
            }
        }
    }
}

fn working(view: &View, worst: WorstStates) -> Markup {
    let ask = Ask::TongueShare {
        state: worst.lowest_share,
    };
    html! {
        (ask::workings(view, "how-tongue", "the least share of the tongue", &ask))
    }
}

/// The centre of gravity in the heaviest state for the script [mm].
fn centre_mm(road: &RoadResult) -> Option<String> {
    let heaviest = road.states.get(road.worst?.most_mass)?;
    let spot = layout_scene::centre_spot(road, heaviest)?;
    let all = [spot.from_front_m, spot.from_left_m, spot.up_m];
    let texts = all.map(|metres| {
        format!(
            "{:.1}",
            wainwright_units::Length::from_metres(metres).millimetres()
        )
    });
    Some(texts.join(" "))
}

/// What is said aloud while a thing is moved by keys.
fn said(view: &View, road: &RoadResult, tried: Option<(&str, Spot)>) -> String {
    let place = tried.map(|(_, spot)| place_words(spot, view.units()));
    let share = road.worst.and_then(|worst| {
        let ends = [worst.lowest_share, worst.highest_share];
        let [low, high] = ends.map(|index| {
            road.states
                .get(index)
                .map(|state| state.share.show(view.units()))
        });
        Some(format!("tongue {} to {}", low?, high?))
    });
    let number = trouble::items(road).len();
    let trouble = (number > 0).then(|| format!("{number} things in the way"));
    let words: Vec<String> = [place, share, trouble].into_iter().flatten().collect();
    words.join("; ")
}
