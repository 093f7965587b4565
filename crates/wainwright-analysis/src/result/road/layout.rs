//! Where things are in each other's way, where they may go, and a better layout.

use super::{RoadState, SwayResult};
use wainwright_model::{Id, Spot};
use wainwright_units::{Length, Mass, Ratio};

/// Two items in the same place.
#[derive(Debug, Clone, PartialEq)]
pub struct Overlap {
    /// The first item in file order.
    pub first: Id,
    /// The other.
    pub second: Id,
    /// How far they are into each other along the trailer.
    pub along: Length,
    /// Across it.
    pub across: Length,
    /// Upwards.
    pub up: Length,
    /// One lies wholly inside the other, as a tank under a bed does; not a fault by itself.
    pub stowed: bool,
}

/// An item that sticks out of the box. Each length is how far; zero where it does not.
#[derive(Debug, Clone, PartialEq)]
#[allow(missing_docs, reason = "the fields say it")]
pub struct Outside {
    pub item: Id,
    pub front: Length,
    pub rear: Length,
    pub left: Length,
    pub right: Length,
    pub floor: Length,
    pub roof: Length,
    /// It lies outside altogether, as on the tongue, under the floor or on the roof; not a fault by itself.
    pub wholly: bool,
}

/// A free room with something in it.
#[derive(Debug, Clone, PartialEq)]
pub struct Blocked {
    /// Whose room it is.
    pub owner: Blocker,
    /// The item that stands in it.
    pub by: Id,
    /// How far it reaches into the room along the trailer.
    pub along: Length,
    /// Across it.
    pub across: Length,
    /// Upwards.
    pub up: Length,
}

/// Whose room.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Blocker {
    /// The opening that swings inwards.
    Opening(Id),
    /// The item that needs room before its front.
    Item(Id),
}

/// Where an item may stand, as spots: from the front wall and from the left wall to its front left corner.
#[derive(Debug, Clone, PartialEq)]
pub struct Zone {
    /// The item.
    pub item: Id,
    /// Along the trailer, on the floor: nearest to the front wall and furthest from it; `None` when no place keeps
    /// the share in the band in every state.
    pub along: Option<(Length, Length)>,
    /// The same without regard to walls.
    pub along_anywhere: Option<(Length, Length)>,
    /// Across the trailer: nearest to the left wall and furthest from it; `None` when no place keeps the sides alike.
    pub across: Option<(Length, Length)>,
    /// What ends it towards the front.
    pub front_limit: ZoneLimit,
    /// What ends it towards the rear.
    pub rear_limit: ZoneLimit,
    /// Load on the ball lost for each metre it moves back [kg/m].
    pub tongue_lost_per_metre: f64,
}

/// What ends a zone.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ZoneLimit {
    /// A wall.
    Wall,
    /// The band of the tongue's share, first broken in this state.
    Share(usize),
}

/// One item moved.
#[derive(Debug, Clone, PartialEq)]
pub struct Move {
    /// The item.
    pub item: Id,
    /// Where it was; `None` when it had no spot.
    pub from: Option<Spot>,
    /// Where it goes.
    pub to: Spot,
}

/// What is known of a layout against all others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ProofOfBest {
    /// No layout within the limits and steps is better.
    Best,
    /// None is better by more than this share of its cost.
    WithinShare(Ratio),
    /// No layout keeps the limits; this is the least that they are broken by \[kg\].
    NoneKeepsLimits(Mass),
    /// Nothing is known.
    Unknown,
}

/// A layout that was looked for and found.
#[derive(Debug, Clone)]
pub struct BetterLayout {
    /// What moves where.
    pub moves: Vec<Move>,
    /// The fill states as they are.
    pub before: Vec<RoadState>,
    /// The same states afterwards.
    pub after: Vec<RoadState>,
    /// Damping as it is.
    pub sway_before: Vec<SwayResult>,
    /// Damping afterwards.
    pub sway_after: Vec<SwayResult>,
    /// Whether the layout as it is keeps the limits and has no overlaps.
    pub kept_before: bool,
    /// Whether the found one does.
    pub kept_after: bool,
    /// Doors and free rooms with something in them afterwards.
    pub blocked_after: Vec<Blocked>,
    /// What is known of it against all others.
    pub proof: ProofOfBest,
    /// Layouts that were tried.
    pub tried: usize,
}
