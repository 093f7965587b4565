//! The tongue's share in every state, as bars against the band and as a table.
//! Not here: the other figures of a state.

use super::band;
use crate::views::road::words;
use crate::web::pages::layout::{ask, road_of};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::Ask;
use wainwright_analysis::result::road::{
    RoadResult, RoadState, SharePlace, TongueLimits, WorstStates,
};

/// Width and height of a bar [px].
const WIDTH: f64 = 200.0;

/// Strip, worst states, and all others folded away.
pub fn states(view: &View) -> Markup {
    let road = road_of(view);
    let Some(worst) = road.worst else {
        return html! {};
    };
    let ends = worst.distinct();
    let others: Vec<usize> = road
        .fill_states()
        .map(|(index, _)| index)
        .filter(|index| !ends.contains(index))
        .collect();
    html! {
        section #tongue-states aria-labelledby="states-heading" {
            h2 #states-heading { "Tongue load in every state" }
            p { (advice(view)) }
            div.band-wide { (band::band(road, "Share of the tongue over all states, against the band it should be in")) }
            (table(view, worst, &ends))
            @if !others.is_empty() {
                details #other-states {
                    summary { (others.len()) " more states between these" }
                    (table(view, worst, &others))
                }
            }
            @if !road.every_corner {
                p.hint { "There are more combinations than are listed; the extreme ones are all here." }
            }
            (ask::workings(view, "how-lowest", "the least share", &Ask::TongueShare { state: worst.lowest_share }))
        }
    }
}

fn advice(view: &View) -> Markup {
    let aims = &road_of(view).aims;
    let whose = aims.advice.as_ref().map(|known| words::advice(known.value));
    html! {
        @if let Some(limits) = &aims.tongue {
            b { (view.show(limits.low.value)) " to " (view.show(limits.high.value)) }
            " of the trailer's mass should rest on the ball"
            @if let Some(whose) = whose { " (" (whose) ")" }
            "."
            @if let Some(more) = limits.advice { " " (more) }
        }
    }
}

fn table(view: &View, worst: WorstStates, indices: &[usize]) -> Markup {
    let road = road_of(view);
    html! {
        table.cards.states-table {
            thead { tr {
                th scope="col" { "State" } th scope="col" { "Share of the tongue" } th.number scope="col" { "Share" }
                th.number scope="col" { "On the ball" } th.number scope="col" { "On the axles" }
                th.number scope="col" { "Left" } th.number scope="col" { "Right" } th.number scope="col" { "All" }
            } }
            tbody { @for index in indices { @if let Some(state) = road.states.get(*index) { (row(view, road, worst, *index, state)) } } }
        }
    }
}

fn row(
    view: &View,
    road: &RoadResult,
    worst: WorstStates,
    index: usize,
    state: &RoadState,
) -> Markup {
    let name = words::state(&view.study().project, road, index);
    let good = state
        .share_place
        .is_none_or(|place| place == SharePlace::Good);
    html! {
        tr data-state=(index) {
            th scope="row" {
                (name)
                @for word in marks(worst, index) { " " span.mark { (word) } }
            }
            td data-label="" {
                @if let Some(limits) = &road.aims.tongue { (bar(road, limits, state, &format!("{name}: {}", view.show(state.share)))) }
            }
            td.number.over[!good] data-label="Share" {
                (view.show(state.share))
                @if let Some(place) = state.share_place.filter(|_| !good) { " " (words::place(place)) }
            }
            td.number data-label="On the ball" { (view.show(state.tongue)) }
            td.number data-label="On the axles" { (view.show(state.axle)) }
            td.number data-label="Left" { (view.show(state.left)) }
            td.number data-label="Right" { (view.show(state.right)) }
            td.number data-label="All" { (view.show(state.mass)) }
        }
    }
}

/// What a state is the end of.
fn marks(worst: WorstStates, index: usize) -> Vec<&'static str> {
    let all = [
        (worst.lowest_share, "lowest share"),
        (worst.highest_share, "highest share"),
        (worst.most_mass, "heaviest"),
        (worst.most_difference, "most lopsided"),
        (worst.highest_centre, "highest centre"),
    ];
    let here = all.into_iter().filter(|(state, _)| *state == index);
    here.map(|(_, word)| word).collect()
}

/// One share against the band.
fn bar(road: &RoadResult, limits: &TongueLimits, state: &RoadState, words: &str) -> Markup {
    let shares = road.fill_states().map(|(_, state)| state.share.fraction());
    let high = limits.high.value.fraction();
    let low = limits.low.value.fraction();
    let end = shares.fold(high * 1.25, f64::max).max(0.18);
    let at = |share: f64| format!("{:.1}", (share / end).clamp(0.0, 1.0) * WIDTH);
    let span = |from: f64, to: f64| format!("{:.1}", ((to - from) / end).clamp(0.0, 1.0) * WIDTH);
    let share = state.share.fraction();
    let out = state
        .share_place
        .is_some_and(|place| place != SharePlace::Good);
    html! {
        svg.share-bar viewBox={ "0 0 " (WIDTH) " 16" } preserveAspectRatio="none" role="img" aria-label=(words) {
            rect.track x="0" y="3" width=(WIDTH) height="10" {}
            rect.aim x=(at(low)) y="0" width=(span(low, high)) height="16" {}
            rect.range.out[out] x="0" y="5" width=(at(share)) height="6" {}
        }
    }
}
