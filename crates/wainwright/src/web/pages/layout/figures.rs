//! Single figures of the road study for the panel: sides, axle, what is missing.
//! Not here: ratings (`margins`), the tongue (`live`).

use crate::views::basis::BasisView;
use crate::views::road::words;
use crate::web::html::count;
use crate::web::html::finding::{place_address, place_words};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::road::{RoadResult, WorstStates};

/// Left and right wheels in the state where they differ most.
pub fn sides(view: &View, road: &RoadResult, worst: WorstStates) -> Markup {
    let Some(state) = road.states.get(worst.most_difference) else {
        return html! {};
    };
    let (left, right) = (view.show(state.left), view.show(state.right));
    let differ = view.show(state.side_difference().abs());
    let both = state.left + state.right;
    let share = if both.kilograms() > 0.0 {
        state.left / both
    } else {
        0.5
    };
    let limit = road.aims.side_difference.as_ref();
    let over = limit.is_some_and(|limit| state.side_difference().abs() > limit.value);
    html! {
        section.sides-figure #side-loads {
            h3 { "Left and right wheels" }
            svg.split-bar viewBox="0 0 360 14" preserveAspectRatio="none" role="img"
                aria-label={ "Left wheels " (left) ", right wheels " (right) } {
                rect.left-part x="0" y="2" width=(format!("{:.1}", share.clamp(0.0, 1.0) * 360.0)) height="10" {}
                rect.right-part x=(format!("{:.1}", share.clamp(0.0, 1.0) * 360.0)) y="2" width=(format!("{:.1}", (1.0 - share).clamp(0.0, 1.0) * 360.0)) height="10" {}
                rect.middle-line x="179" y="0" width="2" height="14" {}
            }
            p.pair { span { "left " b { (left) } } span { "right " b { (right) } } }
            p.hint {
                span.over[over] { "differ by " (differ) }
                @if let Some(limit) = limit { ", at most " (view.show(limit.value)) }
                " (" (words::state(&view.study().project, road, worst.most_difference)) ")"
            }
        }
    }
}

/// Most mass and most axle load.
pub fn axle(view: &View, road: &RoadResult, worst: WorstStates) -> Markup {
    let heaviest = road.states.get(worst.most_mass);
    let axle = road.states.get(worst.most_axle);
    html! {
        @if let (Some(heaviest), Some(axle)) = (heaviest, axle) {
            dl.small-figures {
                div { dt { "Trailer, heaviest" } dd { (view.show(heaviest.mass)) } }
                div { dt { "On its axles, most" } dd { (view.show(axle.axle)) } }
                @if let Some(share) = road.front_share {
                    div { dt { "Things ahead of the middle" } dd { (view.show(share)) } }
                }
            }
        }
    }
}

/// Where a value can be typed, and back to this place afterwards.
fn type_it(path: &[String]) -> String {
    let address = place_address(path);
    match address.split_once('#') {
        Some((page, field)) => format!("{page}?back=/layout#{field}"),
        None => format!("{address}?back=/layout"),
    }
}

/// What must be typed before there is any figure.
pub fn missing(view: &View, road: &RoadResult) -> Markup {
    html! {
        section.next #next-step {
            h2 { "Next step" }
            @if let Some(first) = road.missing.first() {
                p { "Type " (words::wanted(first.wanted)) " for " (place_words(view, &first.path)) "; without it there is no figure." }
                p { a.button.primary href=(type_it(&first.path)) { "Type it" } }
            } @else {
                p { "Type the sizes and weights of the bare trailer." }
                p { a.button.primary href="/edit/trailer?back=/layout" { "Type them" } }
            }
            @for refused in &road.refused { p.hint { (refused) } }
        }
    }
}

/// What the figures rest on: stand-ins and things left out.
pub fn left_out(view: &View, road: &RoadResult) -> Markup {
    html! {
        @if !road.assumptions.is_empty() {
            details.how #stand-ins {
                summary { (count(road.assumptions.len(), "stand-in", "stand-ins")) " in these figures" }
                ul.plain {
                    @for assumed in &road.assumptions {
                        li {
                            a href=(type_it(&assumed.path)) { (place_words(view, &assumed.path)) } " "
                            b { (assumed.value) } " "
                            span.basis { (BasisView::of(&assumed.basis).words()) }
                        }
                    }
                }
            }
        }
        @if !road.missing.is_empty() {
            details.how #left-out {
                summary { (count(road.missing.len(), "value", "values")) " would tell more" }
                ul.plain {
                    @for missing in &road.missing {
                        li {
                            a href=(type_it(&missing.path)) { (place_words(view, &missing.path)) } " "
                            span.basis { "wants " (words::wanted(missing.wanted)) }
                        }
                    }
                }
            }
        }
    }
}
