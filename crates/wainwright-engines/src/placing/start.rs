//! First layouts: everything put down one by one as near as possible to the wanted centre of
//! gravity. Not here: improving them (`descent`, `wander`).

use super::board::{Board, Spot};
use super::layout::{Layout, NOWHERE};
use crate::weather::Randomness;

/// Share by which the order of items is shaken from start to start.
const SHAKE: f64 = 0.8;

/// A layout from nothing. The first (round 0) takes the heaviest first, the second the largest, the
/// others shake that order.
pub(super) fn construct(board: &Board, round: usize, random: &mut Randomness) -> Layout {
    let mut order: Vec<(f64, usize)> = board
        .items
        .iter()
        .enumerate()
        .map(|(index, item)| {
            let area = item.spots.first().map_or(0.0, floor_area);
            let weight = if round.is_multiple_of(2) {
                item.mean
            } else {
                area
            };
            let shake = if round < 2 {
                1.0
            } else {
                1.0 + SHAKE * (2.0 * random.uniform() - 1.0)
            };
            (-weight * shake, index)
        })
        .collect();
    order.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let target = wanted_centre(board, random, round);
    let mut layout = Layout::new(board, &vec![NOWHERE; board.items.len()]);
    for (_, item) in order {
        let to = nearest_free(board, &layout, item, target);
        layout.put(board, item, to);
    }
    layout.key = layout.exact(board);
    layout
}

/// Centre of gravity behind the axle that the limits ask for \[m\], mean of the states; somewhere
/// within them from the third start on.
fn wanted_centre(board: &Board, random: &mut Randomness, round: usize) -> f64 {
    let within = if round < 2 { 0.5 } else { random.uniform() };
    let share = |s: usize| {
        let (low, high) = (board.low[s], board.high[s]);
        (low + within * (high - low)) * board.per_mass[s]
    };
    let shares: f64 = (0..board.states).map(share).sum();
    -board.length * shares / board.states as f64
}

/// The spot nearest to the target that leaves the sides even, among those with fewest overlaps.
fn nearest_free(board: &Board, layout: &Layout, item: usize, target: f64) -> usize {
    let ready = &board.items[item];
    let mean_y = layout.sums.y.iter().sum::<f64>() / board.states as f64;
    let mean_mass = board.mass.iter().sum::<f64>() / board.states as f64;
    let far = |spot: &Spot| {
        let tilt = (mean_y + ready.mean * spot.y) / mean_mass;
        (spot.x - target).powi(2) + spot.y * spot.y + 10.0 * tilt * tilt
    };
    let mut best = (usize::MAX, f64::INFINITY, 0);
    for (index, spot) in ready.spots.iter().enumerate() {
        let distance = far(spot);
        // Cannot win without fewer overlaps than the best one has.
        if best.0 == 0 && distance >= best.1 {
            continue;
        }
        let overlaps = layout.overlaps(item, spot);
        if (overlaps, distance) < (best.0, best.1) {
            best = (overlaps, distance, index);
        }
    }
    best.2
}

fn floor_area(spot: &Spot) -> f64 {
    let side = |k: usize| spot.block.high[k] - spot.block.low[k];
    side(0) * side(1)
}
