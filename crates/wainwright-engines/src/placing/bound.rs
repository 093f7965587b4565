//! What no layout can beat: the least violation of each state, and the least cost over all centres
//! of gravity that the limits allow. Not here: going through the places of items (`proof`).

use super::board::{Board, ROUNDING, Ready};
use super::floor::{Floor, partitions};
use super::input::Over;
use super::layout::no_rounding;

/// Most cells of centres that are looked at.
const MOST_CELLS: usize = 1200;
/// Most cells times states times items, which takes about a second.
const MOST_TERMS: usize = 40_000_000;
/// Cells of the first grid, along and across.
const FIRST: (usize, usize) = (8, 4);
/// Side below which a cell is not cut further \[m\].
const SMALLEST: f64 = 0.002;

/// Gain of a round of cutting that is worth another one, relative, and rounds without it.
const WORTH: f64 = 2e-5;
const MOST_STALLED: usize = 10;

/// A rectangle of centres of gravity, behind the axle and to the left \[m\].
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Cell {
    pub x: [f64; 2],
    pub y: [f64; 2],
}

/// Places of an item on one line across the trailer.
struct Column {
    x: f64,
    y: [f64; 2],
}

/// What the bounds need, made once.
pub(super) struct Relaxed<'a> {
    board: &'a Board,
    columns: Vec<Vec<Column>>,
    /// Ways to sort items into floors, each with the items that are in none.
    partitions: Vec<(Vec<Floor>, Vec<usize>)>,
    /// Tongue loads that the places allow in every state \[kg\].
    tongue: Vec<[f64; 2]>,
    /// Σ m y that the places allow in every state \[kg·m\].
    aside: Vec<[f64; 2]>,
    /// Cost of the least height in every state.
    height: Vec<f64>,
}

impl Cell {
    /// Squared distance of a point from the cell \[m²\].
    pub fn away(&self, point: [f64; 2]) -> f64 {
        let dx = gap(self.x, [point[0], point[0]]);
        let dy = gap(self.y, [point[1], point[1]]);
        dx * dx + dy * dy
    }

    pub fn meets(&self, other: &Cell) -> bool {
        gap(self.x, other.x) <= 0.0 && gap(self.y, other.y) <= 0.0
    }

    /// Smallest distance of its centres from the middle \[m\].
    pub fn off_middle(&self) -> f64 {
        gap(self.y, [0.0, 0.0])
    }

    /// Even parts of the cell.
    pub fn parts(&self, along: usize, across: usize) -> Vec<Cell> {
        let part = |ends: [f64; 2], n: usize, of: usize| {
            let wide = (ends[1] - ends[0]) / of as f64;
            let high = if n + 1 == of {
                ends[1]
            } else {
                ends[0] + (n + 1) as f64 * wide
            };
            [ends[0] + n as f64 * wide, high]
        };
        (0..along * across)
            .map(|n| Cell {
                x: part(self.x, n % along, along),
                y: part(self.y, n / along, across),
            })
            .collect()
    }
}

impl<'a> Relaxed<'a> {
    pub fn new(board: &'a Board) -> Relaxed<'a> {
        let with_rest = |floors: Vec<Floor>| {
            let inside = |item: &usize| floors.iter().any(|floor| floor.items.contains(item));
            let rest = (0..board.items.len())
                .filter(|item| !inside(item))
                .collect();
            (floors, rest)
        };
        let ends = |item: &Ready, of: fn(&super::board::Spot) -> f64| {
            item.spots
                .iter()
                .map(of)
                .fold([f64::INFINITY, f64::NEG_INFINITY], |found, value| {
                    [found[0].min(value), found[1].max(value)]
                })
        };
        let (mut tongue, mut aside, mut height) = (Vec::new(), Vec::new(), Vec::new());
        for s in 0..board.states {
            let (x, y) = (board.base.x[s], board.base.y[s]);
            let (mut along, mut across, mut up) = ([x, x], [y, y], board.base.z[s]);
            for item in &board.items {
                let (x, y) = (ends(item, |spot| spot.x), ends(item, |spot| spot.y));
                for k in 0..2 {
                    along[k] += item.masses[s] * x[k];
                    across[k] += item.masses[s] * y[k];
                }
                up += item.masses[s] * ends(item, |spot| spot.z)[0];
            }
            tongue.push([-along[1] / board.length, -along[0] / board.length]);
            aside.push(across);
            height.push(board.for_height * up * board.per_mass[s]);
        }
        Relaxed {
            columns: board.items.iter().map(columns).collect(),
            board,
            partitions: partitions(board).into_iter().map(with_rest).collect(),
            tongue,
            aside,
            height,
        }
    }

    /// Violation that no layout avoids, mean of the states \[kg\]: each limit of each state by
    /// itself.
    pub fn least_violation(&self) -> f64 {
        let board = self.board;
        let of_state = |s: usize| {
            let (low, high) = (board.low[s], board.high[s]);
            let [least, most] = self.tongue[s];
            let tongue = low.clamp(least, most);
            let apart = 2.0 * gap(self.aside[s], [0.0, 0.0]) / board.track;
            let violation = (low - tongue).max(0.0)
                + (tongue - high).max(0.0)
                + (apart - board.difference).max(0.0)
                + (0.5 * (board.mass[s] - most + apart) - board.one_side).max(0.0);
            no_rounding(violation, board.mass[s])
        };
        (0..board.states).map(of_state).sum::<f64>() / board.states as f64
    }

    /// Least cost of any layout, of those within the limits alone when wanted [kg·m²]; `None` when
    /// there is none.
    pub fn least_cost(&self, within_limits: bool) -> Option<f64> {
        let reaches = self.reaches(within_limits)?;
        let mut cells: Vec<(Cell, Vec<f64>)> = around(&reaches)
            .parts(FIRST.0, FIRST.1)
            .into_iter()
            .map(|cell| (cell, self.by_state(&cell, &reaches)))
            .collect();
        let terms = self.board.states * self.board.items.len().max(1);
        let most_cells = (MOST_TERMS / terms).clamp(64, MOST_CELLS);
        let (mut before, mut stalled) = (f64::NEG_INFINITY, 0);
        loop {
            let mut lowest: Vec<usize> = (0..self.board.states)
                .map(|s| {
                    let value = |n: &usize| cells[*n].1[s];
                    (0..cells.len())
                        .min_by(|a, b| value(a).total_cmp(&value(b)))
                        .unwrap_or(0)
                })
                .collect();
            let least: Vec<f64> = lowest
                .iter()
                .enumerate()
                .map(|(s, n)| cells[*n].1[s])
                .collect();
            let now = over(self.board, &least);
            stalled = if now - before <= WORTH * now.abs() {
                stalled + 1
            } else {
                0
            };
            before = now;
            lowest.sort_unstable();
            lowest.dedup();
            lowest.retain(|n| {
                let cell = &cells[*n].0;
                (cell.x[1] - cell.x[0]).max(cell.y[1] - cell.y[0]) > SMALLEST
            });
            if lowest.is_empty()
                || stalled >= MOST_STALLED
                || cells.len() + 3 * lowest.len() > most_cells
            {
                return Some(now);
            }
            for n in lowest.into_iter().rev() {
                let (cell, _) = cells.swap_remove(n);
                let (x, y) = (cell.x[1] - cell.x[0], cell.y[1] - cell.y[0]);
                let parts = if x > 2.0 * y {
                    cell.parts(4, 1)
                } else if y > 2.0 * x {
                    cell.parts(1, 4)
                } else {
                    cell.parts(2, 2)
                };
                let parts = parts
                    .into_iter()
                    .map(|part| (part, self.by_state(&part, &reaches)));
                cells.extend(parts);
            }
        }
    }

    /// Centres that every state can have; `None` when a state has none within the limits.
    pub fn reaches(&self, within_limits: bool) -> Option<Vec<Cell>> {
        (0..self.board.states)
            .map(|s| self.reach(s, within_limits))
            .collect()
    }

    /// Least Σ m|p − c|² for each kilogram of an item alone, over a cell \[m²\].
    pub fn nearest(&self, item: usize, cell: &Cell) -> f64 {
        let square = |column: &Column| {
            let dx = gap(cell.x, [column.x, column.x]);
            let dy = gap(cell.y, column.y);
            dx * dx + dy * dy
        };
        self.columns[item]
            .iter()
            .map(square)
            .fold(f64::INFINITY, f64::min)
    }

    fn reach(&self, s: usize, within_limits: bool) -> Option<Cell> {
        let board = self.board;
        let ([mut least, mut most], mut aside) = (self.tongue[s], self.aside[s]);
        if within_limits {
            let slack = 2.0 * ROUNDING * board.mass[s];
            least = least.max(board.low[s] - slack);
            most = most.min(board.high[s] + slack);
            let one_side = 2.0 * board.one_side - board.mass[s] + most;
            let apart = board.difference.min(one_side) + slack;
            let furthest = 0.5 * apart * board.track;
            aside = [aside[0].max(-furthest), aside[1].min(furthest)];
        }
        let possible = least <= most && aside[0] <= aside[1];
        let along = board.length * board.per_mass[s];
        possible.then(|| Cell {
            x: [-most * along, -least * along],
            y: aside.map(|moment| moment * board.per_mass[s]),
        })
    }

    /// Least cost of every state with its centre in a cell; infinite when it cannot be there.
    fn by_state(&self, cell: &Cell, reaches: &[Cell]) -> Vec<f64> {
        let board = self.board;
        let nearest: Vec<f64> = (0..board.items.len())
            .map(|item| self.nearest(item, cell))
            .collect();
        let on_floors: Vec<Vec<Vec<f64>>> = self
            .partitions
            .iter()
            .map(|(floors, _)| floors.iter().map(|floor| floor.least(cell)).collect())
            .collect();
        let alone = |s: usize, items: &[usize]| -> f64 {
            let each = items
                .iter()
                .map(|item| board.items[*item].masses[s] * nearest[*item]);
            each.sum()
        };
        let movable = |s: usize| {
            let ways = self.partitions.iter().zip(&on_floors);
            ways.map(|((floors, rest), least)| {
                let on_floor = floors.iter().zip(least);
                let floored = on_floor.map(|(floor, least)| alone(s, &floor.items).max(least[s]));
                alone(s, rest) + floored.sum::<f64>()
            })
            .fold(f64::NEG_INFINITY, f64::max)
        };
        (0..board.states)
            .map(|s| {
                if !cell.meets(&reaches[s]) {
                    return f64::INFINITY;
                }
                let sums = (board.base.x[s], board.base.y[s], board.base.square[s]);
                about(sums, board.fixed_mass[s], cell)
                    + movable(s)
                    + self.height[s]
                    + apart_cost(board, s, cell)
            })
            .collect()
    }
}

/// Moment of what stands, by its sums, about the best centre in a cell [kg·m²].
pub(super) fn about(sums: (f64, f64, f64), mass: f64, cell: &Cell) -> f64 {
    let (x, y, square) = sums;
    if mass > 0.0 {
        square - (x * x + y * y) / mass + mass * cell.away([x / mass, y / mass])
    } else {
        square
    }
}

/// Least cost of uneven sides with the centre in a cell [kg·m²].
pub(super) fn apart_cost(board: &Board, s: usize, cell: &Cell) -> f64 {
    board.for_difference * 2.0 * cell.off_middle() * board.mass[s] / board.track
}

/// The smallest rectangle around all.
pub(super) fn around(reaches: &[Cell]) -> Cell {
    let none = Cell {
        x: [f64::INFINITY, f64::NEG_INFINITY],
        y: [f64::INFINITY, f64::NEG_INFINITY],
    };
    let wider = |a: [f64; 2], b: [f64; 2]| [a[0].min(b[0]), a[1].max(b[1])];
    reaches.iter().fold(none, |all, one| Cell {
        x: wider(all.x, one.x),
        y: wider(all.y, one.y),
    })
}

/// Mean or worst of the states, as wanted.
pub(super) fn over(board: &Board, costs: &[f64]) -> f64 {
    match board.over {
        Over::Mean => costs.iter().sum::<f64>() / costs.len() as f64,
        Over::Worst => costs.iter().fold(f64::NEG_INFINITY, |a, b| a.max(*b)),
    }
}

/// Distance between two stretches; zero when they meet.
pub(super) fn gap(one: [f64; 2], other: [f64; 2]) -> f64 {
    (other[0] - one[1]).max(one[0] - other[1]).max(0.0)
}

fn columns(item: &Ready) -> Vec<Column> {
    let mut found: Vec<Column> = Vec::new();
    let mut spots: Vec<(f64, f64)> = item.spots.iter().map(|spot| (spot.x, spot.y)).collect();
    spots.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    for (x, y) in spots {
        match found.last_mut() {
            Some(last) if x == last.x => {
                last.y = [last.y[0].min(y), last.y[1].max(y)];
            }
            _ => found.push(Column { x, y: [y, y] }),
        }
    }
    found
}
