//! Branch and bound: goes through all layouts without overlap, leaves out what the bound rules out,
//! and so proves the best one, or how much better one could be. Not here: bounds without any item
//! placed (`bound`).

use super::board::Board;
use super::bound::{Cell, Relaxed, about, apart_cost, around, over};
use super::layout::{Key, Layout, NOWHERE, is_moved, no_rounding};

/// Most items for which the proof is tried.
const MOST_ITEMS: usize = 14;
/// Most cells times states: decides how finely centres are divided.
const MOST_CELL_STATES: usize = 2048;

/// What going through came to.
pub(super) struct Tried {
    /// The best layout, perhaps a better one than was given.
    pub layout: Layout,
    /// Whether every layout was looked at or ruled out.
    pub all: bool,
    /// Least cost that a layout which was not looked at can have; infinite when there is none.
    pub open_cost: f64,
    pub steps: usize,
}

struct Search<'a> {
    board: &'a Board,
    order: Vec<usize>,
    cells: Vec<Cell>,
    /// Cost of every state in every cell by the cell alone: infinite where it cannot be, otherwise
    /// that of uneven sides.
    cell_cost: Vec<Vec<f64>>,
    /// By depth, state, cell: least moment of the items not placed yet.
    later: Vec<Vec<Vec<f64>>>,
    /// By depth, state: least and most Σ m x, least Σ m z of those, and their mass.
    ends: Vec<Vec<[f64; 4]>>,
    layout: Layout,
    best: Layout,
    steps: usize,
    most: usize,
    open_cost: f64,
    all: bool,
}

/// Goes through the layouts; `None` when there are too many items for it to be of use.
pub(super) fn prove(
    board: &Board,
    relaxed: &Relaxed<'_>,
    best: &Layout,
    most: usize,
) -> Option<Tried> {
    if board.items.len() > MOST_ITEMS || most == 0 {
        return None;
    }
    let within_limits = best.key.collisions == 0 && best.key.violation <= 0.0;
    let reaches = relaxed.reaches(within_limits)?;
    let cells = divided(around(&reaches), board.states);
    let cell_cost = reaches
        .iter()
        .enumerate()
        .map(|(s, reach)| {
            cells
                .iter()
                .map(|cell| cost_in(board, s, cell, reach))
                .collect()
        })
        .collect();
    let mut order: Vec<usize> = (0..board.items.len()).collect();
    order.sort_by(|a, b| board.items[*b].mean.total_cmp(&board.items[*a].mean));
    let mut search = Search {
        later: later(board, relaxed, &order, &cells),
        ends: ends(board, &order),
        board,
        order,
        cells,
        cell_cost,
        layout: Layout::new(board, &vec![NOWHERE; board.items.len()]),
        best: best.clone(),
        steps: 0,
        most,
        open_cost: f64::INFINITY,
        all: true,
    };
    search.place(0, 0.0);
    Some(Tried {
        layout: search.best,
        all: search.all,
        open_cost: search.open_cost,
        steps: search.steps,
    })
}

impl Search<'_> {
    /// Puts the item of a depth everywhere that may still lead to something better, the most
    /// promising place first.
    fn place(&mut self, depth: usize, moves: f64) {
        let Some(item) = self.order.get(depth).copied() else {
            let exact = self.layout.exact(self.board);
            if exact.better_than(&self.best.key) {
                self.best = Layout::new(self.board, &self.layout.at);
            }
            return;
        };
        let board = self.board;
        let mut ways: Vec<(Key, usize, f64)> = Vec::new();
        for to in 0..board.items[item].spots.len() {
            if self.layout.overlaps(item, &board.items[item].spots[to]) > 0 {
                continue;
            }
            self.steps += 1;
            let moves = moves + f64::from(u8::from(is_moved(board, item, to)));
            self.layout.put(board, item, to);
            let least = self.least(depth + 1, moves);
            self.layout.take(board, item);
            ways.push((least, to, moves));
        }
        ways.sort_by(|a, b| {
            let violation = a.0.violation.total_cmp(&b.0.violation);
            violation.then(a.0.cost.total_cmp(&b.0.cost))
        });
        for (least, to, moves) in ways {
            if !least.better_than(&self.best.key) {
                continue;
            }
            if self.steps >= self.most {
                self.all = false;
                self.open_cost = self.open_cost.min(least.cost);
                continue;
            }
            self.layout.put(board, item, to);
            self.place(depth + 1, moves);
            self.layout.take(board, item);
        }
    }

    /// Least violation and cost of every layout that begins like this one.
    fn least(&self, depth: usize, moves: f64) -> Key {
        let board = self.board;
        let sums = &self.layout.sums;
        let (mut costs, mut violation) = (Vec::with_capacity(board.states), 0.0);
        for s in 0..board.states {
            let [low_x, high_x, low_z, mass] = self.ends[depth][s];
            let here = (sums.x[s], sums.y[s], sums.square[s]);
            let placed = board.mass[s] - mass;
            let later = &self.later[depth][s];
            let least = self
                .cells
                .iter()
                .zip(later)
                .zip(&self.cell_cost[s])
                .map(|((cell, later), own)| about(here, placed, cell) + later + own)
                .fold(f64::INFINITY, f64::min);
            let height = board.for_height * (sums.z[s] + low_z) * board.per_mass[s];
            costs.push(least + height);
            let most = -(here.0 + low_x) / board.length;
            let tongue = board.low[s].clamp(-(here.0 + high_x) / board.length, most);
            let beyond = (board.low[s] - tongue).max(0.0) + (tongue - board.high[s]).max(0.0);
            violation += no_rounding(beyond, board.mass[s]);
        }
        Key {
            collisions: 0,
            violation: violation / board.states as f64,
            cost: over(board, &costs) + board.for_move * moves,
        }
    }
}

/// Even cells, as many as the states allow, nearly square.
fn divided(whole: Cell, states: usize) -> Vec<Cell> {
    let count = (MOST_CELL_STATES / states).clamp(4, 128) as f64;
    let (x, y) = (whole.x[1] - whole.x[0], whole.y[1] - whole.y[0]);
    let along = (count * (x + 1e-6) / (y + 1e-6))
        .sqrt()
        .clamp(1.0, count)
        .round();
    let across = (count / along).floor().max(1.0);
    whole.parts(along as usize, across as usize)
}

fn cost_in(board: &Board, s: usize, cell: &Cell, reach: &Cell) -> f64 {
    if cell.meets(reach) {
        apart_cost(board, s, cell)
    } else {
        f64::INFINITY
    }
}

fn later(
    board: &Board,
    relaxed: &Relaxed<'_>,
    order: &[usize],
    cells: &[Cell],
) -> Vec<Vec<Vec<f64>>> {
    let mut sums = vec![vec![0.0; cells.len()]; board.states];
    let mut found = vec![sums.clone()];
    for item in order.iter().rev() {
        let nearest: Vec<f64> = cells
            .iter()
            .map(|cell| relaxed.nearest(*item, cell))
            .collect();
        for (row, mass) in sums.iter_mut().zip(&board.items[*item].masses) {
            for (sum, square) in row.iter_mut().zip(&nearest) {
                *sum += mass * square;
            }
        }
        found.push(sums.clone());
    }
    found.reverse();
    found
}

fn ends(board: &Board, order: &[usize]) -> Vec<Vec<[f64; 4]>> {
    let mut sums = vec![[0.0; 4]; board.states];
    let mut found = vec![sums.clone()];
    for item in order.iter().rev() {
        let item = &board.items[*item];
        let none = [f64::INFINITY, f64::NEG_INFINITY, f64::INFINITY];
        let [low, high, floor] = item.spots.iter().fold(none, |found, spot| {
            [
                found[0].min(spot.x),
                found[1].max(spot.x),
                found[2].min(spot.z),
            ]
        });
        for (sum, mass) in sums.iter_mut().zip(&item.masses) {
            for (term, value) in sum.iter_mut().zip([low, high, floor, 1.0]) {
                *term += mass * value;
            }
        }
        found.push(sums.clone());
    }
    found.reverse();
    found
}
