//! One layout during a search: where everything stands, its moments, and what a change would cost,
//! from the difference alone. Not here: which changes are tried.

use super::board::{Block, Board, ROUNDING, Spot, Sums, TOUCH};
use super::input::Over;

/// Marks an item without a place.
pub(super) const NOWHERE: usize = usize::MAX;
/// Difference of costs or loads that counts as none, relative.
const EQUAL: f64 = 1e-10;

/// How good a layout is: compared in this order.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Key {
    pub collisions: usize,
    /// Load beyond the limits, mean of the states \[kg\].
    pub violation: f64,
    /// Cost [kg·m²].
    pub cost: f64,
}

/// Violation and cost of all states.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub(super) struct Tally {
    pub violation: f64,
    pub worst_violation: f64,
    pub cost: f64,
    pub inertia: f64,
}

/// Places of all items and what follows from them.
#[derive(Clone)]
pub(super) struct Layout {
    /// Spot of every item, or [`NOWHERE`].
    pub at: Vec<usize>,
    pub sums: Sums,
    pub key: Key,
    /// Coordinates of the boxes: low x, y, z, high x, y, z.
    edges: [Vec<f64>; 6],
    moved: usize,
}

impl Key {
    pub fn better_than(&self, other: &Key) -> bool {
        if self.collisions != other.collisions {
            return self.collisions < other.collisions;
        }
        let slack = EQUAL * (1.0 + other.violation.abs());
        if (self.violation - other.violation).abs() > slack {
            return self.violation < other.violation;
        }
        self.cost < other.cost - EQUAL * (1.0 + other.cost.abs())
    }
}

impl Layout {
    /// A layout with every item at a spot, or nowhere.
    pub fn new(board: &Board, at: &[usize]) -> Layout {
        let count = board.items.len();
        let mut layout = Layout {
            at: vec![NOWHERE; count],
            sums: board.base.clone(),
            key: Key {
                collisions: 0,
                violation: 0.0,
                cost: 0.0,
            },
            edges: [f64::INFINITY, f64::NEG_INFINITY]
                .map(|none| [vec![none; count], vec![none; count], vec![none; count]])
                .concat()
                .try_into()
                .unwrap_or_default(),
            moved: 0,
        };
        for (item, spot) in at.iter().enumerate() {
            if *spot != NOWHERE {
                layout.put(board, item, *spot);
            }
        }
        layout.key = layout.exact(board);
        layout
    }

    /// Boxes that an item would overlap at a spot, other than itself.
    pub fn overlaps(&self, item: usize, spot: &Spot) -> usize {
        let Block { low, high } = spot.block;
        let [low_x, low_y, low_z, high_x, high_y, high_z] = &self.edges;
        let along = low_x.iter().zip(high_x);
        let across = low_y.iter().zip(high_y);
        let up = low_z.iter().zip(high_z);
        let hits: usize = along
            .zip(across)
            .zip(up)
            .map(|((x, y), z)| {
                usize::from(
                    (*x.0 < high[0] - TOUCH)
                        & (*x.1 > low[0] + TOUCH)
                        & (*y.0 < high[1] - TOUCH)
                        & (*y.1 > low[1] + TOUCH)
                        & (*z.0 < high[2] - TOUCH)
                        & (*z.1 > low[2] + TOUCH),
                )
            })
            .sum();
        let own = self.block(item).overlaps(&spot.block);
        spot.blocked + hits - usize::from(own)
    }

    /// The key after one item has gone to another spot.
    pub fn trial(&self, board: &Board, item: usize, to: usize) -> Key {
        let ready = &board.items[item];
        let (old, new) = (&ready.spots[self.at[item]], &ready.spots[to]);
        let tally = self.shifted(board, [(&ready.masses, old, new)]);
        let collisions = self.key.collisions + self.overlaps(item, new) - self.overlaps(item, old);
        self.key_of(board, tally, collisions, self.moved_by(board, item, to))
    }

    /// Violation and cost after one item has gone to another spot, overlaps not looked at.
    pub fn trial_cost(&self, board: &Board, item: usize, to: usize) -> Key {
        let ready = &board.items[item];
        let (old, new) = (&ready.spots[self.at[item]], &ready.spots[to]);
        let tally = self.shifted(board, [(&ready.masses, old, new)]);
        self.key_of(board, tally, 0, self.moved_by(board, item, to))
    }

    /// The key after two items have gone to other spots.
    pub fn trial_two(&self, board: &Board, one: (usize, usize), two: (usize, usize)) -> Key {
        let [a, b] = [one, two].map(|(item, to)| {
            let ready = &board.items[item];
            (&ready.masses, &ready.spots[self.at[item]], &ready.spots[to])
        });
        let between = |p: &Spot, q: &Spot| usize::from(p.block.overlaps(&q.block));
        let before = self.overlaps(one.0, a.1) + self.overlaps(two.0, b.1) - between(a.1, b.1);
        // Where each one goes, the other is still at its old spot: take that out, put the new in.
        let after = self.overlaps(one.0, a.2) + self.overlaps(two.0, b.2)
            - between(a.2, b.1)
            - between(b.2, a.1)
            + between(a.2, b.2);
        let moved = self.moved_by(board, one.0, one.1) + self.moved_by(board, two.0, two.1);
        let tally = self.shifted(board, [a, b]);
        self.key_of(board, tally, self.key.collisions + after - before, moved)
    }

    /// Moves an item and takes over the key of that change.
    pub fn go(&mut self, board: &Board, item: usize, to: usize) {
        self.take(board, item);
        self.put(board, item, to);
    }

    /// All of it again from the sums, without what rounding has left.
    pub fn exact(&self, board: &Board) -> Key {
        let fresh = self.fresh(board);
        let mut twice = 0;
        let mut solid = 0;
        for (item, spot) in self.at.iter().enumerate() {
            if let Some(spot) = board.items[item].spots.get(*spot) {
                twice += self.overlaps(item, spot) - spot.blocked;
                solid += spot.blocked;
            }
        }
        let tally = tally(board, |s| {
            (fresh.x[s], fresh.y[s], fresh.square[s], fresh.z[s])
        });
        self.key_of(board, tally, solid + twice / 2, 0)
    }

    /// The moments, added up again.
    fn fresh(&self, board: &Board) -> Sums {
        let mut sums = board.base.clone();
        for (ready, spot) in board.items.iter().zip(&self.at) {
            if let Some(spot) = ready.spots.get(*spot) {
                sums.add(&ready.masses, [spot.x, spot.y, spot.z], 0.0);
            }
        }
        sums
    }

    /// Gives an item a spot; it has none before.
    pub fn put(&mut self, board: &Board, item: usize, to: usize) {
        let ready = &board.items[item];
        let spot = &ready.spots[to];
        for k in 0..3 {
            self.edges[k][item] = spot.block.low[k];
            self.edges[k + 3][item] = spot.block.high[k];
        }
        self.sums.add(&ready.masses, [spot.x, spot.y, spot.z], 0.0);
        self.at[item] = to;
        self.moved += usize::from(is_moved(board, item, to));
    }

    /// Takes an item away.
    pub fn take(&mut self, board: &Board, item: usize) {
        let (ready, from) = (&board.items[item], self.at[item]);
        let spot = &ready.spots[from];
        for k in 0..3 {
            self.edges[k][item] = f64::INFINITY;
            self.edges[k + 3][item] = f64::NEG_INFINITY;
        }
        let sums = &mut self.sums;
        let square = spot.x * spot.x + spot.y * spot.y;
        for (s, mass) in ready.masses.iter().enumerate() {
            sums.x[s] -= mass * spot.x;
            sums.y[s] -= mass * spot.y;
            sums.square[s] -= mass * square;
            sums.z[s] -= mass * spot.z;
        }
        self.at[item] = NOWHERE;
        self.moved -= usize::from(is_moved(board, item, from));
    }

    fn block(&self, item: usize) -> Block {
        Block {
            low: [0, 1, 2].map(|k| self.edges[k][item]),
            high: [3, 4, 5].map(|k| self.edges[k][item]),
        }
    }

    fn shifted<const N: usize>(
        &self,
        board: &Board,
        changes: [(&Vec<f64>, &Spot, &Spot); N],
    ) -> Tally {
        let by = changes.map(|(masses, old, new)| {
            let square = |spot: &Spot| spot.x * spot.x + spot.y * spot.y;
            let delta = [
                new.x - old.x,
                new.y - old.y,
                square(new) - square(old),
                new.z - old.z,
            ];
            (&masses[..board.states], delta)
        });
        let sums = &self.sums;
        let (x, y) = (&sums.x[..board.states], &sums.y[..board.states]);
        let (square, z) = (&sums.square[..board.states], &sums.z[..board.states]);
        tally(board, |s| {
            let mut at = (x[s], y[s], square[s], z[s]);
            for (masses, delta) in &by {
                at.0 += masses[s] * delta[0];
                at.1 += masses[s] * delta[1];
                at.2 += masses[s] * delta[2];
                at.3 += masses[s] * delta[3];
            }
            at
        })
    }

    /// Change of the number of moved items.
    fn moved_by(&self, board: &Board, item: usize, to: usize) -> isize {
        isize::from(is_moved(board, item, to)) - isize::from(is_moved(board, item, self.at[item]))
    }

    fn key_of(&self, board: &Board, tally: Tally, collisions: usize, moved: isize) -> Key {
        let moves = self.moved as f64 + moved as f64;
        Key {
            collisions,
            violation: tally.violation,
            cost: tally.cost + board.for_move * moves,
        }
    }
}

/// Whether an item has left the place it had.
pub(super) fn is_moved(board: &Board, item: usize, to: usize) -> bool {
    board.items[item].present.is_some_and(|here| here != to)
}

/// A violation that is rounding alone is none.
pub(super) fn no_rounding(violation: f64, mass: f64) -> f64 {
    if violation <= ROUNDING * mass {
        0.0
    } else {
        violation
    }
}

/// Violation and cost from the moments of every state.
pub(super) fn tally(board: &Board, moments: impl Fn(usize) -> (f64, f64, f64, f64)) -> Tally {
    let count = board.states;
    let (mass, per_mass) = (&board.mass[..count], &board.per_mass[..count]);
    let (low, high) = (&board.low[..count], &board.high[..count]);
    let (per_length, per_half) = (-1.0 / board.length, 2.0 / board.track);
    let (mut all, mut worst) = (Tally::default(), Tally::default());
    worst.cost = f64::NEG_INFINITY;
    for s in 0..count {
        let (x, y, square, z) = moments(s);
        let tongue = x * per_length;
        let apart = (y * per_half).abs();
        let violation = (low[s] - tongue).max(0.0)
            + (tongue - high[s]).max(0.0)
            + (apart - board.difference).max(0.0)
            + (0.5 * (mass[s] - tongue + apart) - board.one_side).max(0.0);
        let violation = no_rounding(violation, mass[s]);
        let inertia = square - (x * x + y * y) * per_mass[s];
        let cost = inertia + board.for_difference * apart + board.for_height * z * per_mass[s];
        all.violation += violation;
        all.inertia += inertia;
        all.cost += cost;
        worst.violation = worst.violation.max(violation);
        worst.inertia = worst.inertia.max(inertia);
        worst.cost = worst.cost.max(cost);
    }
    let per_state = 1.0 / count as f64;
    let (cost, inertia) = match board.over {
        Over::Mean => (all.cost * per_state, all.inertia * per_state),
        Over::Worst => (worst.cost, worst.inertia),
    };
    Tally {
        violation: all.violation * per_state,
        worst_violation: worst.violation,
        cost,
        inertia,
    }
}
