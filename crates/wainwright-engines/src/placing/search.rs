//! The search: several starts, each wandering first and then going downhill to the end.
//! Not here: what is proven (`bound`, `proof`).

use super::board::{Block, Board, Spot};
use super::input::Effort;
use super::layout::{Key, Layout, NOWHERE};
use super::start::construct;
use crate::weather::Randomness;

/// Share of a start's evaluations that goes into wandering.
const WANDERING: f64 = 0.6;
/// Most rounds over all items on the way downhill.
const MOST_ROUNDS: usize = 200;
/// Most combinations of places for which both items of a pair are tried everywhere.
const MOST_PAIR_PLACES: usize = 4000;
/// Temperature at the beginning and at the end, as a share of the cost.
const HOT: f64 = 0.05;
const COLD: f64 = 1e-5;
/// What a kilogram beyond a limit weighs at the beginning and at the end, as a share of the cost.
const LENIENT: f64 = 0.002;
const STRICT: f64 = 0.1;
/// What an overlap weighs \[kg\].
const OVERLAP: f64 = 20.0;
/// How two items that change places may be lined up: at the middle or at an edge.
const EDGES: [[i8; 2]; 5] = [[0, 0], [-1, -1], [-1, 1], [1, -1], [1, 1]];
/// Grid places by which a near step goes at most, in the order of the list.
const NEAR: f64 = 12.0;

/// Counts what is tried.
pub(super) struct Budget {
    pub tried: usize,
    pub most: usize,
}

/// What the search came to.
pub(super) struct Found {
    pub layout: Layout,
    pub evaluations: usize,
    pub starts: usize,
}

impl Budget {
    fn spent(&self) -> bool {
        self.tried >= self.most
    }
}

/// The best layout of all starts. The first start is the layout that is there.
pub(super) fn search(board: &Board, effort: &Effort) -> Found {
    let mut random = Randomness::new(effort.seed, 0);
    let mut budget = Budget {
        tried: 0,
        most: effort.most_evaluations,
    };
    let mut best = first(board, &mut random);
    budget.tried += 1;
    let mut starts = 0;
    while starts < effort.most_starts && (starts == 0 || !budget.spent()) {
        let mut layout = match starts {
            0 => best.clone(),
            odd if odd % 2 == 1 => construct(board, odd - 1, &mut random),
            _ => best.clone(),
        };
        let left = budget.most.saturating_sub(budget.tried);
        let share = left / (effort.most_starts - starts);
        let until = budget.tried + share;
        if starts == 0 {
            downhill(board, &mut layout, &mut budget);
            keep_better(board, &mut best, &layout);
        }
        let wander_until =
            budget.tried + (until.saturating_sub(budget.tried) as f64 * WANDERING) as usize;
        wander(board, &mut layout, &mut budget, wander_until, &mut random);
        downhill(board, &mut layout, &mut budget);
        keep_better(board, &mut best, &layout);
        starts += 1;
    }
    Found {
        layout: best,
        evaluations: budget.tried,
        starts,
    }
}

/// The present layout when there is one, otherwise one from nothing.
fn first(board: &Board, random: &mut Randomness) -> Layout {
    let present: Vec<usize> = board
        .items
        .iter()
        .map(|item| item.present.unwrap_or(NOWHERE))
        .collect();
    if present.contains(&NOWHERE) {
        construct(board, 0, random)
    } else {
        Layout::new(board, &present)
    }
}

fn keep_better(board: &Board, best: &mut Layout, layout: &Layout) {
    let exact = layout.exact(board);
    if exact.better_than(&best.key) {
        *best = Layout::new(board, &layout.at);
    }
}

/// Best single move of every item in turn, then pairs, until nothing gets better.
fn downhill(board: &Board, layout: &mut Layout, budget: &mut Budget) {
    for _ in 0..MOST_ROUNDS {
        let mut better = false;
        for item in 0..board.items.len() {
            better |= best_single(board, layout, item, budget);
        }
        if !better {
            better = pairs(board, layout, budget);
        }
        layout.key = layout.exact(board);
        if !better || budget.spent() {
            return;
        }
    }
}

fn best_single(board: &Board, layout: &mut Layout, item: usize, budget: &mut Budget) -> bool {
    let (mut best, mut to) = (layout.key, None);
    for index in 0..board.items[item].spots.len() {
        if index == layout.at[item] {
            continue;
        }
        if budget.spent() {
            break;
        }
        budget.tried += 1;
        // Without any overlap here, the cost alone rules most places out.
        if best.collisions == 0 && !layout.trial_cost(board, item, index).better_than(&best) {
            continue;
        }
        let key = layout.trial(board, item, index);
        if key.better_than(&best) {
            (best, to) = (key, Some(index));
        }
    }
    if let Some(to) = to {
        layout.go(board, item, to);
        layout.key = best;
    }
    to.is_some()
}

/// Two items at once: everywhere when they have few places, otherwise each to where the other is.
fn pairs(board: &Board, layout: &mut Layout, budget: &mut Budget) -> bool {
    let count = board.items.len();
    let mut better = false;
    for one in 0..count {
        for two in one + 1..count {
            if budget.spent() {
                return better;
            }
            let places = board.items[one].spots.len() * board.items[two].spots.len();
            let roomy = budget.most.saturating_sub(budget.tried) / 2;
            let all = places <= MOST_PAIR_PLACES && places.saturating_mul(count) <= roomy;
            better |= if all {
                best_pair(board, layout, one, two, budget)
            } else {
                exchange(board, layout, one, two, budget)
            };
        }
    }
    better
}

fn best_pair(
    board: &Board,
    layout: &mut Layout,
    one: usize,
    two: usize,
    budget: &mut Budget,
) -> bool {
    let (mut best, mut to) = (layout.key, None);
    for a in 0..board.items[one].spots.len() {
        for b in 0..board.items[two].spots.len() {
            budget.tried += 1;
            let key = layout.trial_two(board, (one, a), (two, b));
            if key.better_than(&best) {
                (best, to) = (key, Some((a, b)));
            }
        }
    }
    take_pair(board, layout, (one, two), to, best)
}

fn exchange(
    board: &Board,
    layout: &mut Layout,
    one: usize,
    two: usize,
    budget: &mut Budget,
) -> bool {
    let (mut best, mut to) = (layout.key, None);
    for edges in EDGES {
        let trial = exchanged(board, layout, one, two, edges);
        budget.tried += 1;
        let key = layout.trial_two(board, (one, trial.0), (two, trial.1));
        if key.better_than(&best) {
            (best, to) = (key, Some(trial));
        }
    }
    take_pair(board, layout, (one, two), to, best)
}

fn take_pair(
    board: &Board,
    layout: &mut Layout,
    items: (usize, usize),
    to: Option<(usize, usize)>,
    key: Key,
) -> bool {
    if let Some((a, b)) = to {
        layout.go(board, items.0, a);
        layout.go(board, items.1, b);
        layout.key = key;
    }
    to.is_some()
}

/// The spot of each of two items that is nearest to where the other stands, lined up at the middle
/// (0), the low (−1) or the high (1) edge along and across.
fn exchanged(
    board: &Board,
    layout: &Layout,
    one: usize,
    two: usize,
    edges: [i8; 2],
) -> (usize, usize) {
    let edge = |spot: &Spot, k: usize| {
        let Block { low, high } = spot.block;
        match edges[k] {
            0 => 0.5 * (low[k] + high[k]),
            1 => high[k],
            _ => low[k],
        }
    };
    let nearest = |item: usize, other: usize| {
        let target = &board.items[other].spots[layout.at[other]];
        let aim = [edge(target, 0), edge(target, 1), target.block.low[2]];
        let far = |spot: &Spot| {
            let (x, y) = (edge(spot, 0) - aim[0], edge(spot, 1) - aim[1]);
            let z = spot.block.low[2] - aim[2];
            x * x + y * y + z * z
        };
        let mut best = (f64::INFINITY, layout.at[item]);
        for (index, spot) in board.items[item].spots.iter().enumerate() {
            let distance = far(spot);
            if distance < best.0 {
                best = (distance, index);
            }
        }
        best.1
    };
    (nearest(one, two), nearest(two, one))
}

/// Random changes that may make it worse, less and less so; ends at the best layout it saw.
fn wander(
    board: &Board,
    layout: &mut Layout,
    budget: &mut Budget,
    until: usize,
    random: &mut Randomness,
) {
    let count = board.items.len();
    if count == 0 {
        return;
    }
    // What cannot be kept within the limits must not freeze the search either.
    let scale = layout.key.cost.abs().max(1.0) * (1.0 + 0.1 * layout.key.violation);
    let mut best = layout.clone();
    let from = budget.tried;
    let whole = until.saturating_sub(from).max(1) as f64;
    while budget.tried < until {
        let done = (budget.tried - from) as f64 / whole;
        let temperature = scale * HOT * (COLD / HOT).powf(done);
        let weight = scale * LENIENT * (STRICT / LENIENT).powf(done);
        let heat =
            |key: &Key| key.cost + weight * (key.violation + OVERLAP * key.collisions as f64);
        let item = pick(random, count);
        budget.tried += 1;
        let rise = |key: &Key| heat(key) - heat(&layout.key);
        let limit = -temperature * (1.0 - random.uniform()).ln();
        if random.uniform() < 0.35 && count > 1 {
            let other = pick(random, count);
            if other == item {
                continue;
            }
            let to = if random.uniform() < 0.7 {
                let edges = EDGES[pick(random, EDGES.len())];
                exchanged(board, layout, item, other, edges)
            } else {
                (
                    step(board, layout, item, random),
                    step(board, layout, other, random),
                )
            };
            let key = layout.trial_two(board, (item, to.0), (other, to.1));
            if rise(&key) < limit {
                take_pair(board, layout, (item, other), Some(to), key);
            }
        } else {
            let to = step(board, layout, item, random);
            let key = layout.trial(board, item, to);
            if rise(&key) < limit {
                layout.go(board, item, to);
                layout.key = key;
            }
        }
        if layout.key.better_than(&best.key) {
            best = layout.clone();
        }
    }
    *layout = Layout::new(board, &best.at);
}

/// Anywhere, or near in the list of places.
fn step(board: &Board, layout: &Layout, item: usize, random: &mut Randomness) -> usize {
    let count = board.items[item].spots.len();
    if random.uniform() < 0.5 {
        return pick(random, count);
    }
    let by = (2.0 * random.uniform() - 1.0) * NEAR;
    let to = layout.at[item] as f64 + by.signum() * by.abs().ceil();
    to.clamp(0.0, (count - 1) as f64) as usize
}

fn pick(random: &mut Randomness, count: usize) -> usize {
    ((random.uniform() * count as f64) as usize).min(count - 1)
}
