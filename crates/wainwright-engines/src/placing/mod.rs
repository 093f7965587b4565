//! Better places for what is aboard: small yaw inertia, even sides, the tongue share within its
//! band in every fill state, nothing in the way of anything else. Loads of one given layout are in
//! `balance`; which band is wanted is the caller's.
//!
//! # Computes
//! Places on a grid for the things that may move, what has to be carried where, the loads of every
//! fill state before and after; and what is proven: that nothing on the grid is better, or how far
//! off the best one can be at most, or that no layout keeps the limits, or that none of this is
//! known.
//!
//! # Equation
//! With x backwards from the axle, y to the left, all mass M of a state:
//! - Yaw inertia J = Σ m(x² + y² + own) − ((Σ m x)² + (Σ m y)²)/M, own = (a² + b²)/12: sums to which
//!   a move adds its difference alone. Tongue −Σ m x/L, sides apart 2 Σ m y/t.
//! - Cost: J + k₁·|left − right| + k₂·height of the centre, mean or worst over the states,
//!   + k₃·number of moves. Layouts compare by overlaps, then load beyond limits, then cost.
//! - Bound: J = min over c of Σ m(|p − c|² + own), the minimum at the centre of gravity. For every
//!   small cell of centres that the limits allow, each thing by itself stands at its nearest place;
//!   and things of which no more than h can be over one spot of floor, because every box contains
//!   one of h heights, fill h times the free floor around c in order of mass per area, the densest
//!   innermost. The larger of both, least over all cells and mean or worst over the states, is below
//!   the cost of every layout.
//! - Proof: branch and bound over the items with that bound, every leaf evaluated exactly.
//!
//! # Assumptions and limits
//! - Boxes filled evenly, set square to the trailer. The same places in every state.
//! - Places are those of the grid and the present ones; the search finds good ones, and only the
//!   proof says how good.
//!
//! # Valid range
//! Up to 500 items that may move, 20 000 places each and 500 000 in all, 4096 states. The proof that nothing is better
//! is tried for up to 14 items.
//!
//! # Example
//! ```
//! use wainwright_engines::balance::{Band, Chassis, Suspension};
//! use wainwright_engines::placing::*;
//! use wainwright_units::frame::{Point, Vector};
//! use wainwright_units::*;
//! let size = Vector::from_metres(0.4, 0.4, 0.3);
//! let room = (Point::from_metres(1.5, -0.8, 0.5), Point::from_metres(4.0, 0.8, 2.0));
//! let problem = Problem {
//!     chassis: Chassis {
//!         coupling_to_axle: Length::from_metres(2.9),
//!         track: Length::from_metres(1.6),
//!         suspension: Suspension::Single,
//!     },
//!     states: 1,
//!     fixed: vec![Fixed {
//!         masses: vec![Mass::from_kilograms(430.0)],
//!         centre: Point::from_metres(2.61, 0.0, 0.7),
//!         extent: Vector::from_metres(3.0, 1.6, 0.0),
//!         solid: false,
//!     }],
//!     items: vec![Item {
//!         masses: vec![Mass::from_kilograms(35.0)],
//!         size,
//!         regions: Region::on_floor(room.0, room.1, size, false).into_iter().collect(),
//!         at: None,
//!     }],
//!     keep_clear: vec![],
//!     step: Length::from_metres(0.1),
//!     limits: Limits {
//!         band: Band { low: Ratio::from_percent(9.0), high: Ratio::from_percent(12.0) },
//!         least_tongue: None,
//!         most_tongue: None,
//!         most_axles: None,
//!         most_one_side: None,
//!         most_difference: None,
//!     },
//!     aim: Aim { over: Over::Worst, for_difference: 0.1, for_height: 0.0, for_move: 0.0 },
//!     effort: Effort::default(),
//! };
//! let found = better_places(&problem).unwrap();
//! assert!(found.after.score.keeps_limits());
//! assert_eq!(found.proof, Proof::Best);
//! ```
//!
//! # Sources
//! - Moments of inertia, statics (any textbook; memory). The aim, heavy things near the axle and
//!   even on both sides, follows from the sway model of `sway` (derived).
//! - Simulated annealing, branch and bound: textbooks of optimisation (memory). The bounds: derived.

mod board;
mod bound;
mod floor;
mod input;
mod layout;
mod proof;
mod result;
mod search;
mod solve;
mod start;

pub use input::{
    Aim, Effort, Fixed, Item, KeepClear, Limits, MOST_ALL_PLACES, MOST_ITEMS, MOST_PLACES,
    MOST_STATES, Over, Problem, Region,
};
pub use result::{Layout, Move, Place, Placing, Proof, Score};
pub use solve::{better_places, look_at};
