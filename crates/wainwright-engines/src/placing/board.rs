//! The problem as bare numbers: masses by state, places by item, limits by state. Distances along
//! are from the axle here, backwards above zero, so that sums stay small.
//! Not here: the layout itself (`layout`), the search.

use wainwright_units::frame::{Point, Vector};
use wainwright_units::{Length, Mass};

use super::input::{Item, MOST_ALL_PLACES, MOST_PLACES, Over, Problem, Region};
use super::result::Place;
use crate::refusal::{Refusal, above_zero, require};

/// Overlap that counts as touching \[m\].
pub(super) const TOUCH: f64 = 1e-9;
/// Load beyond a limit that counts as rounding, as a share of all mass.
pub(super) const ROUNDING: f64 = 1e-9;

/// A box from its smallest to its largest coordinates \[m\].
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Block {
    pub low: [f64; 3],
    pub high: [f64; 3],
}

/// One place of one item.
#[derive(Debug, Clone, Copy)]
pub(super) struct Spot {
    pub block: Block,
    /// Centre behind the axle \[m\].
    pub x: f64,
    /// Centre to the left \[m\].
    pub y: f64,
    /// Height of the centre \[m\].
    pub z: f64,
    pub place: Place,
    /// Solid boxes it overlaps; above zero only for the present place.
    pub blocked: usize,
}

/// One item that may move.
pub(super) struct Ready {
    /// Mass in every state \[kg\].
    pub masses: Vec<f64>,
    /// Mean of them \[kg\].
    pub mean: f64,
    /// Places, in order along the grid.
    pub spots: Vec<Spot>,
    /// Which of them it has now.
    pub present: Option<usize>,
}

/// Moments of everything in every state: Σ m x, Σ m y \[kg·m\], Σ m (x² + y²) + own [kg·m²], Σ m z.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Sums {
    pub x: Vec<f64>,
    pub y: Vec<f64>,
    pub square: Vec<f64>,
    pub z: Vec<f64>,
}

/// Everything that stays the same during a search.
pub(super) struct Board {
    pub states: usize,
    pub length: f64,
    pub track: f64,
    /// All mass in every state \[kg\], and one over it.
    pub mass: Vec<f64>,
    pub per_mass: Vec<f64>,
    /// Mass of what stays in every state \[kg\].
    pub fixed_mass: Vec<f64>,
    /// Moments of what stays, and the own inertia of everything.
    pub base: Sums,
    /// Least and most tongue load in every state \[kg\].
    pub low: Vec<f64>,
    pub high: Vec<f64>,
    /// Most difference of the sides and most load of one \[kg\].
    pub difference: f64,
    pub one_side: f64,
    pub over: Over,
    pub for_difference: f64,
    pub for_height: f64,
    pub for_move: f64,
    pub items: Vec<Ready>,
    pub solids: Vec<Block>,
}

impl Block {
    pub fn overlaps(&self, other: &Block) -> bool {
        (0..3).all(|k| self.low[k] < other.high[k] - TOUCH && self.high[k] > other.low[k] + TOUCH)
    }

    fn from_points(low: Point, high: Point) -> Block {
        Block {
            low: metres(low),
            high: metres(high),
        }
    }
}

impl Sums {
    pub fn zero(states: usize) -> Sums {
        Sums {
            x: vec![0.0; states],
            y: vec![0.0; states],
            square: vec![0.0; states],
            z: vec![0.0; states],
        }
    }

    /// Adds a mass of every state at a centre with an own inertia for each kilogram.
    pub fn add(&mut self, masses: &[f64], centre: [f64; 3], own: f64) {
        let [x, y, z] = centre;
        let square = x * x + y * y + own;
        for (s, mass) in masses.iter().enumerate() {
            self.x[s] += mass * x;
            self.y[s] += mass * y;
            self.square[s] += mass * square;
            self.z[s] += mass * z;
        }
    }
}

impl Board {
    /// The board with every place of every item.
    pub fn new(problem: &Problem) -> Result<Board, Refusal> {
        let mut board = Board::bare(problem)?;
        for (index, item) in problem.items.iter().enumerate() {
            let ready =
                ready(&board, item, problem).map_err(|refusal| refusal.at("item", index))?;
            board.items.push(ready);
            let all: usize = board.items.iter().map(|item| item.spots.len()).sum();
            require(
                "number of places of all items",
                all as f64,
                all <= MOST_ALL_PLACES,
                "at most 500 000; take a larger step",
            )?;
        }
        Ok(board)
    }

    /// The board without places: enough to look at one layout.
    pub fn bare(problem: &Problem) -> Result<Board, Refusal> {
        problem.check()?;
        let states = problem.states;
        let length = problem.chassis.coupling_to_axle.metres();
        let (mut base, mut fixed_mass) = (Sums::zero(states), vec![0.0; states]);
        let mut solids: Vec<Block> = problem
            .keep_clear
            .iter()
            .map(|one| Block::from_points(one.from, one.to))
            .collect();
        for one in &problem.fixed {
            let masses = by_state(&one.masses, states);
            let [x, y, z] = metres(one.centre);
            base.add(&masses, [x - length, y, z], own_inertia(one.extent));
            add_to(&mut fixed_mass, &masses);
            if one.solid {
                let half = one.extent * 0.5;
                solids.push(Block::from_points(one.centre - half, one.centre + half));
            }
        }
        let mut mass = fixed_mass.clone();
        for item in &problem.items {
            let masses = by_state(&item.masses, states);
            let own = own_inertia(item.size);
            for (square, one) in base.square.iter_mut().zip(&masses) {
                *square += one * own;
            }
            add_to(&mut mass, &masses);
        }
        for (state, all) in mass.iter().enumerate() {
            above_zero("mass of everything [kg]", *all)
                .map_err(|refusal| refusal.at("fill state", state))?;
        }
        let limits = problem.limits;
        let or = |limit: Option<Mass>, without: f64| limit.map_or(without, Mass::kilograms);
        let low = mass.iter().map(|all| {
            (limits.band.low.fraction() * all)
                .max(or(limits.least_tongue, f64::NEG_INFINITY))
                .max(all - or(limits.most_axles, f64::INFINITY))
        });
        let high = mass.iter().map(|all| {
            (limits.band.high.fraction() * all).min(or(limits.most_tongue, f64::INFINITY))
        });
        Ok(Board {
            states,
            length,
            track: problem.chassis.track.metres(),
            low: low.collect(),
            high: high.collect(),
            per_mass: mass.iter().map(|all| 1.0 / all).collect(),
            difference: or(limits.most_difference, f64::INFINITY),
            one_side: or(limits.most_one_side, f64::INFINITY),
            mass,
            fixed_mass,
            base,
            over: problem.aim.over,
            for_difference: problem.aim.for_difference,
            for_height: problem.aim.for_height,
            for_move: problem.aim.for_move,
            items: Vec::new(),
            solids,
        })
    }

    /// The spot of an item at a place.
    pub fn spot(&self, item: &Item, place: Place) -> Spot {
        let size = turned_size(item.size, place.turned);
        let block = Block::from_points(place.corner, place.corner + size);
        let [x, y, z] = metres(place.corner + size * 0.5);
        Spot {
            block,
            x: x - self.length,
            y,
            z,
            place,
            blocked: self
                .solids
                .iter()
                .filter(|one| one.overlaps(&block))
                .count(),
        }
    }
}

/// Masses in every state \[kg\].
pub(super) fn by_state(masses: &[Mass], states: usize) -> Vec<f64> {
    match masses {
        [one] => vec![one.kilograms(); states],
        many => many.iter().map(|mass| mass.kilograms()).collect(),
    }
}

/// Size of an item as it stands.
pub(super) fn turned_size(size: Vector, turned: bool) -> Vector {
    if turned {
        Vector::new(size.y, size.x, size.z)
    } else {
        size
    }
}

fn ready(board: &Board, item: &Item, problem: &Problem) -> Result<Ready, Refusal> {
    let mut spots: Vec<Spot> = Vec::new();
    for region in &item.regions {
        grid(board, item, region, problem.step.metres(), &mut spots)?;
    }
    spots.sort_by(|a, b| {
        order(a)
            .partial_cmp(&order(b))
            .unwrap_or(std::cmp::Ordering::Equal)
    });
    spots.dedup_by(|a, b| same(a, b));
    let present = item.at.map(|place| {
        let here = board.spot(item, place);
        let index = spots
            .iter()
            .position(|one| same(one, &here))
            .unwrap_or(spots.len());
        match spots.get_mut(index) {
            Some(spot) => *spot = here,
            None => spots.push(here),
        }
        index
    });
    require(
        "number of free places",
        spots.len() as f64,
        !spots.is_empty(),
        "at least one that no fixed box fills",
    )?;
    let masses = by_state(&item.masses, board.states);
    Ok(Ready {
        mean: masses.iter().sum::<f64>() / board.states as f64,
        masses,
        spots,
        present,
    })
}

/// All free places of one region.
fn grid(
    board: &Board,
    item: &Item,
    region: &Region,
    step: f64,
    spots: &mut Vec<Spot>,
) -> Result<(), Refusal> {
    let (from, to) = (metres(region.from), metres(region.to));
    let lines = [0, 1, 2].map(|k| grid_lines(from[k], to[k], step));
    let count: f64 = lines.iter().map(|count| *count as f64).product();
    require(
        "number of places on the grid",
        count + spots.len() as f64,
        count + spots.len() as f64 <= MOST_PLACES as f64,
        "at most 20 000; take a larger step",
    )?;
    let line = |k: usize, n: usize| {
        if n + 1 == lines[k] {
            to[k]
        } else {
            from[k] + n as f64 * step
        }
    };
    for a in 0..lines[0] {
        for b in 0..lines[1] {
            for c in 0..lines[2] {
                let corner = Point::from_metres(line(0, a), line(1, b), line(2, c));
                let place = Place {
                    corner,
                    turned: region.turned,
                };
                let spot = board.spot(item, place);
                if spot.blocked == 0 {
                    spots.push(spot);
                }
            }
        }
    }
    Ok(())
}

/// Number of grid lines from one end to the other, the far end always one of them.
fn grid_lines(from: f64, to: f64, step: f64) -> usize {
    let steps = ((to - from) / step - 1e-6).max(0.0).ceil();
    steps.min(1e9) as usize + 1
}

fn order(spot: &Spot) -> (f64, f64, f64, bool) {
    (spot.x, spot.y, spot.z, spot.place.turned)
}

fn same(a: &Spot, b: &Spot) -> bool {
    a.place.turned == b.place.turned
        && a.place.corner.distance(b.place.corner) <= Length::from_metres(TOUCH)
}

fn own_inertia(size: Vector) -> f64 {
    let (long, wide) = (size.x.metres(), size.y.metres());
    (long * long + wide * wide) / 12.0
}

fn metres(point: Point) -> [f64; 3] {
    [point.x.metres(), point.y.metres(), point.z.metres()]
}

fn add_to(sums: &mut [f64], masses: &[f64]) {
    for (sum, mass) in sums.iter_mut().zip(masses) {
        *sum += mass;
    }
}
