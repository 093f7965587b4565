//! What the placing engine answers: places, moves, scores and what is proven.
//! No equation is here.

use wainwright_units::frame::Point;
use wainwright_units::{Mass, Ratio};

use crate::balance::Statics;

/// Where an item stands.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// Its corner nearest the ball, furthest right and lowest \[m\].
    pub corner: Point,
    /// Whether it is turned by a quarter in plan.
    pub turned: bool,
}

/// How good a layout is. Layouts compare by collisions, then violation, then cost.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Score {
    /// Pairs of boxes that overlap, boxes to keep clear and solid fixed ones included.
    pub collisions: usize,
    /// Load beyond the limits, summed over limits, mean of the states \[kg\].
    pub violation: Mass,
    /// The same in its worst state \[kg\].
    pub worst_violation: Mass,
    /// What was made small [kg·m²].
    pub cost_kg_m2: f64,
    /// The part of it that is yaw inertia, mean or worst state as wanted [kg·m²].
    pub yaw_inertia_kg_m2: f64,
}

impl Score {
    /// Whether nothing overlaps and every limit is kept in every state.
    #[must_use]
    pub fn keeps_limits(&self) -> bool {
        self.collisions == 0 && self.violation.kilograms() <= 0.0
    }
}

/// One layout, looked at in every state.
#[derive(Debug, Clone, PartialEq)]
pub struct Layout {
    /// How good it is.
    pub score: Score,
    /// The loads of every state.
    pub states: Vec<Statics>,
}

/// One thing to carry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Move {
    /// Index of the item.
    pub item: usize,
    /// Where it was; `None` when it had no place.
    pub from: Option<Place>,
    /// Where it goes.
    pub to: Place,
}

/// What is known about layouts that were not tried. It speaks of layouts on the grid without any
/// overlap.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Proof {
    /// No layout is better than the one found.
    Best,
    /// No layout that keeps the limits costs less than this.
    CostsAtLeast {
        /// The least cost [kg·m²].
        cost_kg_m2: f64,
        /// How far the one found is above it, as a share of its own cost.
        gap: Ratio,
    },
    /// No layout keeps the limits; the violation is at least this, mean of the states \[kg\].
    NoneKeepsLimits {
        /// Violation that cannot be avoided \[kg\].
        least_violation: Mass,
    },
    /// None was found that keeps the limits, nor that none does.
    Unknown,
}

/// The answer.
#[derive(Debug, Clone, PartialEq)]
pub struct Placing {
    /// The place of every item, in the order given.
    pub places: Vec<Place>,
    /// What has to be moved, in the order of the items.
    pub moves: Vec<Move>,
    /// The layout that was there; `None` when an item had no place.
    pub before: Option<Layout>,
    /// The layout found.
    pub after: Layout,
    /// Whether anything better can exist.
    pub proof: Proof,
    /// Layouts that were tried.
    pub evaluations: usize,
    /// Starts that were made.
    pub starts: usize,
    /// Steps of the proof.
    pub proof_steps: usize,
}
