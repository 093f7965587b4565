//! Things that press on the trailer, and those that would if more were known of them.

use crate::known::Known;
use wainwright_model::{Holds, Id, Kind};
use wainwright_units::frame::{Point, Vector};
use wainwright_units::{Mass, Ratio};

/// An item with mass and spot.
#[derive(Debug, Clone, PartialEq)]
pub struct RoadLoad {
    /// The item.
    pub item: Id,
    /// What it is.
    pub kind: Kind,
    /// Its own mass; of a tank, empty.
    pub mass: Known<Mass>,
    /// The least it weighs in any fill state.
    pub least: Mass,
    /// The most it weighs in any fill state.
    pub most: Mass,
    /// Its centre in the trailer frame.
    pub centre: Point,
    /// Its size in the trailer frame; zero when it was not said.
    pub extent: Vector,
    /// What one kilogram of it puts on the ball \[kg\]: +1 at the ball, 0 over the axle, below zero behind it.
    pub tongue_influence: f64,
    /// Which of the fills it takes part in.
    pub fill: Option<usize>,
    /// Aboard when parked only.
    pub parked_only: bool,
}

/// Something that changes on the road.
#[derive(Debug, Clone, PartialEq)]
pub struct Fill {
    /// What changes.
    pub what: Filling,
    /// Mass at the first level: empty tank, cargo at the start \[kg\].
    pub first: Mass,
    /// Mass at the second level: full tank, cargo at the end \[kg\].
    pub second: Mass,
}

/// What changes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Filling {
    /// A tank between empty and full, its own mass counted.
    Tank(Id, Holds),
    /// All cargo whose mass at the end of a trip is given, between start and end.
    Cargo(Vec<Id>),
}

/// An item of which too little is known to count it.
#[derive(Debug, Clone, PartialEq)]
pub struct Unsettled {
    /// The item.
    pub item: Id,
    /// What it is.
    pub kind: Kind,
    /// Its mass is not given.
    pub unweighed: bool,
    /// Its spot is not given.
    pub unplaced: bool,
    /// Its mass at most, when that is known.
    pub mass: Option<Mass>,
    /// What it could change on the ball: at the rear wall and at the front wall for an unplaced one \[kg\].
    pub tongue: Option<(Mass, Mass)>,
    /// What each kilogram of it changes on the ball: at the rear wall and at the front wall, or twice the same at
    /// its spot \[kg/kg\].
    pub tongue_per_kilogram: Option<(f64, f64)>,
    /// Share of the laden trailer's mass that it is \[1\].
    pub share_of_all: Option<Ratio>,
}
