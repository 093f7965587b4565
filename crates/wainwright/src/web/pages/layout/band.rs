//! The share of the tongue as a strip: the band it should be in, and how far it
//! goes over all states. Not here: the figures.

use maud::{Markup, html};
use wainwright_analysis::result::road::{RoadResult, TongueLimits, WorstStates};

/// Size of the strip [px].
const WIDTH: f64 = 360.0;
const HEIGHT: f64 = 86.0;
/// Free edge on both sides, for numbers [px].
const EDGE: f64 = 26.0;
/// The strip reaches at least to this share.
const LEAST_END: f64 = 0.18;

/// The strip; nothing without states.
pub fn band(road: &RoadResult, words: &str) -> Markup {
    match (&road.aims.tongue, road.worst) {
        (Some(limits), Some(worst)) => drawn(road, limits, worst, words),
        _ => html! {},
    }
}

/// From shares to places on the strip.
struct Scale {
    low: f64,
    high: f64,
}

impl Scale {
    fn of(limits: &TongueLimits, lowest: f64, highest: f64) -> Self {
        let top = limits.high.value.fraction().max(highest);
        Self {
            low: lowest.min(0.0),
            high: (top * 1.15).max(LEAST_END),
        }
    }

    fn at(&self, share: f64) -> f64 {
        EDGE + (WIDTH - 2.0 * EDGE) * (share - self.low) / (self.high - self.low)
    }
}

fn drawn(road: &RoadResult, limits: &TongueLimits, worst: WorstStates, words: &str) -> Markup {
    let share = |index: usize| {
        road.states
            .get(index)
            .map_or(0.0, |state| state.share.fraction())
    };
    let (lowest, highest) = (share(worst.lowest_share), share(worst.highest_share));
    let scale = Scale::of(limits, lowest, highest);
    let (low, high) = (limits.low.value.fraction(), limits.high.value.fraction());
    let stop = limits.stop_below.as_ref().map(|stop| stop.value.fraction());
    let place = |share: f64| format!("{:.1}", scale.at(share));
    let span = |from: f64, to: f64| format!("{:.1}", (scale.at(to) - scale.at(from)).max(0.0));
    let good = lowest >= low && highest <= high;
    let states = road.fill_states().map(|(_, state)| state.share.fraction());
    html! {
        svg.band-chart viewBox={ "0 0 " (WIDTH) " " (HEIGHT) } role="img" aria-label=(words) {
            rect.track x=(place(scale.low)) y="26" width=(span(scale.low, scale.high)) height="26" rx="4" {}
            @if let Some(stop) = stop {
                rect.stop x=(place(scale.low)) y="26" width=(span(scale.low, stop)) height="26" {}
            }
            rect.aim x=(place(low)) y="22" width=(span(low, high)) height="34" rx="3" {}
            text.mark-text.end x=(place(low)) y="16" { (percent(low)) }
            text.mark-text x=(place(high)) y="16" { (percent(high)) }
            text.mark-text.middle x=(place((low + high) / 2.0)) y="16" { "good" }
            @for share in states { rect.tick x=(format!("{:.1}", scale.at(share) - 0.75)) y="30" width="1.5" height="18" {} }
            rect.range.out[!good] x=(place(lowest)) y="36" width=(span(lowest, highest)) height="6" rx="3" {}
            circle.end-mark.out[lowest < low] cx=(place(lowest)) cy="39" r="7" {}
            circle.end-mark.out[highest > high] cx=(place(highest)) cy="39" r="7" {}
            text.value-text.end x=(format!("{:.1}", scale.at(lowest) + 7.0)) y="76" { (percent(lowest)) }
            @if highest - lowest > 0.0005 {
                text.value-text x=(format!("{:.1}", scale.at(highest).max(scale.at(lowest) + 12.0))) y="76" { (percent(highest)) }
            }
        }
    }
}

fn percent(share: f64) -> String {
    let text = format!("{:.1}", share * 100.0);
    format!("{} %", text.strip_suffix(".0").unwrap_or(&text))
}
