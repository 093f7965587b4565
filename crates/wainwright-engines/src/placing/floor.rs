//! Things that must stand side by side, on one floor or on a few: the least moment of inertia that
//! the floor area allows, whatever they are cut into. Not here: which centres are possible (`bound`).

use super::board::{Block, Board, Ready, TOUCH};
use super::bound::{Cell, gap};

/// Strips into which the floor is cut.
const STRIPS: usize = 80;
/// Rings around the centre.
const RINGS: usize = 200;
/// Halvings to the radius of the outermost ring.
const HALVINGS: usize = 12;

/// Items whose boxes all contain one of a few heights wherever they stand: over any spot of floor
/// there are no more of them than heights.
pub(super) struct Floor {
    pub items: Vec<usize>,
    /// Own inertia of the items in every state [kg·m²].
    own: Vec<f64>,
    /// In every state: mass per area and area, the densest first.
    dense_first: Vec<Vec<(f64, f64)>>,
    strips: Vec<Strip>,
    /// Largest distance between two places on the floor \[m\].
    reach: f64,
    /// Area of all items [m²].
    area: f64,
}

/// A strip along the trailer and its free stretches, those of each height.
struct Strip {
    right: f64,
    left: f64,
    free: Vec<[f64; 2]>,
}

/// Two ways to sort the items into floors, each item in one floor at most: by one height that all
/// boxes of a floor contain, and all items over as few heights as every box contains one of.
pub(super) fn partitions(board: &Board) -> [Vec<Floor>; 2] {
    let mut left: Vec<usize> = (0..board.items.len()).collect();
    let mut by_height = Vec::new();
    while let Some((height, items)) = heaviest_group(board, &left) {
        left.retain(|item| !items.contains(item));
        by_height.push(Floor::new(board, items, &[height]));
    }
    let whole = |items: Vec<usize>| {
        let heights = fewest_heights(board, &items)?;
        (!items.is_empty()).then(|| Floor::new(board, items, &heights))
    };
    by_height.extend(whole(left));
    let all = whole((0..board.items.len()).collect());
    [by_height, all.into_iter().collect()]
}

/// The heaviest items of a list whose boxes all contain one height wherever they stand.
fn heaviest_group(board: &Board, list: &[usize]) -> Option<(f64, Vec<usize>)> {
    let cores: Vec<(usize, f64, f64)> = list
        .iter()
        .map(|item| (*item, core(&board.items[*item])))
        .filter(|(_, (low, high))| low + 4.0 * TOUCH < *high)
        .map(|(item, (low, high))| (item, low, high))
        .collect();
    let at = |height: f64| -> Vec<usize> {
        cores
            .iter()
            .filter(|(_, low, high)| low + TOUCH < height && height < high - TOUCH)
            .map(|(item, _, _)| *item)
            .collect()
    };
    let weight =
        |height: f64| -> f64 { at(height).iter().map(|item| board.items[*item].mean).sum() };
    // Just above the highest bottom is inside every core of a group.
    let height = cores
        .iter()
        .map(|(_, low, _)| low + 2.0 * TOUCH)
        .max_by(|a, b| weight(*a).total_cmp(&weight(*b)))?;
    let items = at(height);
    (!items.is_empty()).then_some((height, items))
}

/// Fewest heights so that every box of the items contains one, wherever it stands: the lowest top
/// that has none yet gets one just below it. `None` when a box has no height.
fn fewest_heights(board: &Board, items: &[usize]) -> Option<Vec<f64>> {
    let spots = items.iter().flat_map(|item| &board.items[*item].spots);
    let mut spans: Vec<(f64, f64)> = spots
        .map(|spot| (spot.block.high[2], spot.block.low[2]))
        .collect();
    spans.sort_by(|a, b| a.0.total_cmp(&b.0).then(b.1.total_cmp(&a.1)));
    let mut heights: Vec<f64> = Vec::new();
    for (high, low) in spans {
        if low + 4.0 * TOUCH >= high {
            return None;
        }
        if heights.last().is_none_or(|last| low + TOUCH >= *last) {
            heights.push(high - 2.0 * TOUCH);
        }
    }
    Some(heights)
}

impl Floor {
    fn new(board: &Board, items: Vec<usize>, heights: &[f64]) -> Floor {
        let (mut own, mut dense_first) = (vec![0.0; board.states], Vec::new());
        let sizes: Vec<(f64, f64)> = items
            .iter()
            .map(|item| {
                let block = board.items[*item].spots[0].block;
                let side = |k: usize| block.high[k] - block.low[k];
                (
                    side(0) * side(1),
                    (side(0).powi(2) + side(1).powi(2)) / 12.0,
                )
            })
            .collect();
        for (state, own) in own.iter_mut().enumerate() {
            let mut row = Vec::with_capacity(items.len());
            for (item, (area, per_mass)) in items.iter().zip(&sizes) {
                let mass = board.items[*item].masses[state];
                *own += mass * per_mass;
                if *area > 0.0 {
                    row.push((mass / area, *area));
                }
            }
            row.sort_by(|a, b| b.0.total_cmp(&a.0));
            dense_first.push(row);
        }
        let (low, high) = bounds(board, &items);
        Floor {
            strips: strips(board, low, high, heights),
            reach: (high[0] - low[0]).hypot(high[1] - low[1]),
            area: sizes.iter().map(|(area, _)| area).sum(),
            items,
            own,
            dense_first,
        }
    }

    /// Least Σ m|p − c|² of these items about the best centre in a cell, own inertia left out, for
    /// every state [kg·m²].
    pub fn least(&self, cell: &Cell) -> Vec<f64> {
        let ring = self.radius_of_all(cell) / RINGS as f64;
        let mut area = Vec::with_capacity(RINGS + 1);
        for k in 0..=RINGS {
            area.push(self.area_within(cell, k as f64 * ring));
        }
        // Moment of the innermost area: the part between two rings counts at the inner one.
        let mut moment = vec![0.0; area.len()];
        for k in 1..area.len() {
            let inner = (k - 1) as f64 * ring;
            moment[k] = moment[k - 1] + (area[k] - area[k - 1]) * inner * inner;
        }
        let fill = |row: &Vec<(f64, f64)>| {
            let (mut k, mut taken, mut before, mut sum) = (1, 0.0, 0.0, 0.0);
            for (density, part) in row {
                taken += part;
                while k + 1 < area.len() && area[k] < taken {
                    k += 1;
                }
                let inner = (k - 1) as f64 * ring;
                let inside = (taken - area[k - 1]).max(0.0);
                let now = moment[k - 1] + inside * inner * inner;
                sum += density * (now - before);
                before = now;
            }
            sum
        };
        let least = self.dense_first.iter().zip(&self.own);
        least.map(|(row, own)| fill(row) - own).collect()
    }

    /// Free floor within a distance of a cell [m²], never too little: what lies within is convex, so
    /// that the line across the middle of a strip is at least as long as the mean of it.
    fn area_within(&self, cell: &Cell, radius: f64) -> f64 {
        let mut area = 0.0;
        for strip in &self.strips {
            for free in &strip.free {
                let ahead = gap(cell.x, *free);
                if ahead >= radius {
                    continue;
                }
                let furthest = (radius * radius - ahead * ahead).sqrt();
                let right = strip.right.max(cell.y[0] - furthest);
                let left = strip.left.min(cell.y[1] + furthest);
                if left <= right {
                    continue;
                }
                let middle = 0.5 * (left + right);
                let aside = gap(cell.y, [middle, middle]);
                let along = (radius * radius - aside * aside).max(0.0).sqrt();
                let (front, rear) = (cell.x[0] - along, cell.x[1] + along);
                area += (left - right) * (free[1].min(rear) - free[0].max(front)).max(0.0);
            }
        }
        area
    }

    /// Radius about a cell that has room for all items, hardly larger than needed \[m\].
    fn radius_of_all(&self, cell: &Cell) -> f64 {
        let (mut low, mut high) = (0.0, self.reach + cell.away(self.middle()).sqrt());
        for _ in 0..HALVINGS {
            let middle = 0.5 * (low + high);
            if self.area_within(cell, middle) < self.area {
                low = middle;
            } else {
                high = middle;
            }
        }
        high
    }

    fn middle(&self) -> [f64; 2] {
        let ends = self.strips.iter().flat_map(|strip| &strip.free);
        let (front, rear) = ends.fold((f64::INFINITY, f64::NEG_INFINITY), |found, free| {
            (found.0.min(free[0]), found.1.max(free[1]))
        });
        let sides = self.strips.first().zip(self.strips.last());
        let across = sides.map_or(0.0, |(first, last)| 0.5 * (first.right + last.left));
        let along = 0.5 * (front + rear);
        [if along.is_finite() { along } else { 0.0 }, across]
    }
}

/// Heights that the box of an item contains at every place.
fn core(item: &Ready) -> (f64, f64) {
    item.spots
        .iter()
        .fold((f64::NEG_INFINITY, f64::INFINITY), |found, spot| {
            (
                found.0.max(spot.block.low[2]),
                found.1.min(spot.block.high[2]),
            )
        })
}

/// Floor that the items can cover, as a rectangle behind the axle.
fn bounds(board: &Board, items: &[usize]) -> ([f64; 2], [f64; 2]) {
    let (mut low, mut high) = ([f64::INFINITY; 2], [f64::NEG_INFINITY; 2]);
    for spot in items.iter().flat_map(|item| &board.items[*item].spots) {
        for k in 0..2 {
            low[k] = low[k].min(spot.block.low[k]);
            high[k] = high[k].max(spot.block.high[k]);
        }
    }
    low[0] -= board.length;
    high[0] -= board.length;
    (low, high)
}

fn strips(board: &Board, low: [f64; 2], high: [f64; 2], heights: &[f64]) -> Vec<Strip> {
    let wide = (high[1] - low[1]) / STRIPS as f64;
    let free_at = |height: f64, right: f64, left: f64| {
        let solids = board.solids.iter();
        let mut taken: Vec<[f64; 2]> = solids
            .filter(|solid| covers(solid, right, left, height))
            .map(|solid| [solid.low[0] - board.length, solid.high[0] - board.length])
            .collect();
        taken.sort_by(|a, b| a[0].total_cmp(&b[0]));
        free_between(low[0], high[0], &taken)
    };
    (0..STRIPS)
        .map(|n| {
            let right = low[1] + n as f64 * wide;
            let left = right + wide;
            let free = heights
                .iter()
                .flat_map(|height| free_at(*height, right, left));
            Strip {
                right,
                left,
                free: free.collect(),
            }
        })
        .collect()
}

/// Whether a solid box fills the whole width of a strip at a height.
fn covers(solid: &Block, right: f64, left: f64, height: f64) -> bool {
    solid.low[1] <= right
        && left <= solid.high[1]
        && solid.low[2] + TOUCH < height
        && height < solid.high[2] - TOUCH
}

fn free_between(front: f64, rear: f64, taken: &[[f64; 2]]) -> Vec<[f64; 2]> {
    let (mut free, mut at) = (Vec::new(), front);
    for part in taken {
        if part[0] > at {
            free.push([at, part[0].min(rear)]);
        }
        at = at.max(part[1]);
    }
    if at < rear {
        free.push([at, rear]);
    }
    free.retain(|part| part[1] > part[0]);
    free
}
