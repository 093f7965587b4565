//! How the trailer follows, when it tips, what its tail clears. Relative
//! measures; none is a safe speed. Not here: other figures.

use crate::views::road::words;
use crate::web::html::slug;
use crate::web::pages::layout::{ask, road_of};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::Ask;
use wainwright_analysis::result::road::{RoadResult, SwayResult};

/// Full length of the bar stands for this damping.
const FULL: f64 = 0.5;
/// Length of the bar [px].
const WIDTH: f64 = 200.0;

/// Damping, tipping, ramps.
pub fn steady(view: &View) -> Markup {
    let road = road_of(view);
    html! {
        section #stability aria-labelledby="stability-heading" {
            h2 #stability-heading { "How it follows" }
            p {
                "When something nudges it, a trailer swings, and the swing dies away. How fast, against the swing itself, is its damping: "
                "more is better, below zero the swing grows. Use it to compare two layouts. It is no safe speed."
            }
            @if road.sway.is_empty() {
                p.hint { "Not computed yet: it wants the trailer, and helps most with the tow vehicle typed." }
            } @else {
                (damping(view, road))
            }
            (tipping(view, road))
        }
    }
}

fn damping(view: &View, road: &RoadResult) -> Markup {
    html! {
        table.cards {
            thead { tr {
                th scope="col" { "State" } th scope="col" { "Speed" } th scope="col" { "Damping" }
                th.number scope="col" { "Value" } th scope="col" { "Against the bare trailer" }
            } }
            tbody { @for (number, sway) in road.sway.iter().enumerate() { (row(view, road, number, sway)) } }
        }
        @if road.sway.iter().any(|sway| sway.vehicle_assumed) {
            p.hint { "The tow vehicle is not typed, or not all of it; a usual one stands in. "
                a href="/edit/vehicle?back=/layout/road" { "Type yours" } }
        }
    }
}

fn row(view: &View, road: &RoadResult, number: usize, sway: &SwayResult) -> Markup {
    let state = words::state(&view.study().project, road, sway.state);
    let value = sway.damping.map(|damping| damping.fraction());
    let text = value.map_or_else(
        || "does not swing".to_owned(),
        |value| format!("{value:.3}"),
    );
    let low = sway
        .caution_below
        .as_ref()
        .zip(value)
        .is_some_and(|(limit, value)| value < limit.value.fraction());
    let ask = Ask::Damping {
        state: sway.state,
        planned: sway.planned,
    };
    html! {
        tr {
            th scope="row" { (state) }
            td data-label="Speed" { (view.show(sway.speed)) span.hint { @if sway.planned { " planned" } @else { " test" } } }
            td data-label="" { (bar(sway, &format!("{state}: damping {text}"))) }
            td.number.over[low] data-label="Damping" { (text) @if sway.diverges { " turns away" } }
            td.long data-label="Against bare" {
                (against(sway))
                (ask::workings(view, &format!("how-damping-{number}-{}", slug(&state)), "the damping", &ask))
            }
        }
    }
}

fn against(sway: &SwayResult) -> String {
    match sway.against_bare {
        Some(by) if by.abs() < 0.005 => "about the same".into(),
        Some(by) if by < 0.0 => format!("{:.3} less", -by),
        Some(by) => format!("{by:.3} more"),
        None => "not comparable".into(),
    }
}

fn bar(sway: &SwayResult, words: &str) -> Markup {
    let at = |value: f64| format!("{:.1}", (value / FULL).clamp(0.0, 1.0) * WIDTH);
    let value = sway.damping.map_or(0.0, |damping| damping.fraction());
    let stop = sway.stop_below.as_ref().map(|limit| limit.value.fraction());
    let caution = sway
        .caution_below
        .as_ref()
        .map(|limit| limit.value.fraction());
    let low = caution.is_some_and(|limit| value < limit);
    html! {
        svg.share-bar viewBox={ "0 0 " (WIDTH) " 16" } preserveAspectRatio="none" role="img" aria-label=(words) {
            rect.track x="0" y="3" width=(WIDTH) height="10" {}
            rect.range.out[low] x="0" y="5" width=(at(value)) height="6" {}
            @for limit in [stop, caution].into_iter().flatten() {
                rect.limit x=(at(limit)) y="0" width="2" height="16" {}
            }
        }
    }
}

fn tipping(view: &View, road: &RoadResult) -> Markup {
    let highest = road
        .worst
        .and_then(|worst| road.states.get(worst.highest_centre));
    let tipping = highest.and_then(|state| state.tipping);
    let yaw = road
        .worst
        .and_then(|worst| road.states.get(worst.most_yaw_radius));
    html! {
        dl.small-figures.three {
            @if let Some(tipping) = tipping {
                div { dt { "Tips on a side slope of" } dd { (view.show(tipping.side_slope)) span.hint { "standing, on hard ground" } } }
                div { dt { "Lifts a wheel in a bend at" } dd { (view.show(tipping.threshold)) span.hint { "of free fall, sideways" } } }
            }
            @if let Some(departure) = &road.departure {
                div { dt { "Tail clears a ramp of" } dd { (view.show(departure.angle)) span.hint {
                    (view.show(departure.clearance.value)) " high, " (view.show(departure.overhang)) " behind the wheels" } } }
            }
            @if let Some(state) = yaw {
                div { dt { "Weight lies on average" } dd { (view.show(state.yaw_radius)) span.hint { "from its middle; nearer swings less" } } }
            }
        }
    }
}
