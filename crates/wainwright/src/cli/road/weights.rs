//! Weights of every state, the tongue's share, what is left of each rating.
//! Not here: how it follows.

use super::{Shown, heading};
use crate::cli::out::Out;
use crate::cli::table::{Align, print};
use crate::views::basis::BasisView;
use crate::views::road::words;
use wainwright_analysis::known::Known;
use wainwright_units::{Quantity, Ratio};

use Align::{Left, Right};

/// One row for each state, then the share of the tongue over all of them.
pub fn states(shown: Shown<'_>, out: &mut Out) {
    let (road, units) = (shown.road, shown.units);
    heading("Weights", out);
    let heads = [
        ("State", Left),
        ("Mass", Right),
        ("Tongue", Right),
        ("Share", Right),
        ("Axle", Right),
        ("Left", Right),
        ("Right", Right),
    ];
    let rows: Vec<Vec<String>> = road
        .states
        .iter()
        .enumerate()
        .map(|(index, state)| {
            vec![
                words::state(&shown.study.project, road, index),
                state.mass.show(units),
                state.tongue.show(units),
                state.share.show(units),
                state.axle.show(units),
                state.left.show(units),
                state.right.show(units),
            ]
        })
        .collect();
    print(out, &heads, &rows);
    if !road.every_corner {
        out.wrapped(
            "  ",
            "Only the extreme fill states are shown: there are too many to show all.",
        );
    }
    share(shown, out);
}

/// From the least to the highest share, against the band that is good.
fn share(shown: Shown<'_>, out: &mut Out) {
    let (road, units) = (shown.road, shown.units);
    let Some(worst) = road.worst else { return };
    let (Some(low), Some(high)) = (
        road.states.get(worst.lowest_share),
        road.states.get(worst.highest_share),
    ) else {
        return;
    };
    out.gap();
    let place = |at: Option<_>| at.map_or("not judged", words::place);
    let text = format!(
        "Share of the tongue: {} ({}) to {} ({})",
        low.share.show(units),
        place(low.share_place),
        high.share.show(units),
        place(high.share_place)
    );
    out.hanging("", "  ", &text);
    if let Some(limits) = &road.aims.tongue {
        let basis = |known: &Known<Ratio>| BasisView::of(&known.basis).words();
        let text = format!(
            "Good is {} [{}] to {} [{}]",
            limits.low.value.show(units),
            basis(&limits.low),
            limits.high.value.show(units),
            basis(&limits.high)
        );
        out.hanging("", "  ", &text);
        if let Some(stop) = &limits.stop_below {
            let text = format!("Do not leave below {}", stop.value.show(units));
            out.hanging("", "  ", &text);
        }
    }
    if let Some(state) = road.states.get(worst.most_difference) {
        let limit = road
            .aims
            .side_difference
            .as_ref()
            .map_or_else(String::new, |limit| {
                format!(", at most {}", limit.value.show(units))
            });
        let text = format!(
            "Side difference: left and right wheels differ by {}{limit} ({})",
            state.side_difference().abs().show(units),
            words::state(&shown.study.project, road, worst.most_difference)
        );
        out.hanging("", "  ", &text);
    }
}

/// What is left of each rating in its worst state.
pub fn ratings(shown: Shown<'_>, out: &mut Out) {
    let (road, units) = (shown.road, shown.units);
    let axles = &road.trailer.axles;
    let axles = axles.as_ref().map_or(1, |known| known.value as usize);
    let heads = [
        ("Rating", Left),
        ("Load", Right),
        ("Limit", Right),
        ("Left", Right),
        ("Used", Right),
        ("Worst state", Left),
    ];
    let mut rows = Vec::new();
    for rating in &road.ratings {
        let Some((state, margin)) = road.tightest(rating.kind) else {
            continue;
        };
        let left = margin.left.abs().show(units);
        let over = margin.left.kilograms() < 0.0;
        rows.push(vec![
            words::rating(rating.kind, axles),
            margin.actual.show(units),
            margin.limit.show(units),
            if over {
                format!("over by {left}")
            } else {
                left
            },
            margin.used.show(units),
            words::state(&shown.study.project, road, state),
        ]);
    }
    out.gap();
    heading("What is left of each rating", out);
    if rows.is_empty() {
        out.wrapped(
            "  ",
            "No rating is typed; they stand on plates and in handbooks.",
        );
    } else {
        print(out, &heads, &rows);
    }
}
