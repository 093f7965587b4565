//! How things are held in their places.

use crate::known::Known;
use wainwright_engines::tie_down::Forces;
use wainwright_model::{Ground, Hold, HoldAgainst, Id};
use wainwright_units::{Force, Length, Mass, Ratio};

/// How one item is held.
#[derive(Debug, Clone, PartialEq)]
pub struct HoldResult {
    /// The item.
    pub item: Id,
    /// The most it weighs.
    pub mass: Mass,
    /// What it is held against.
    pub against: HoldAgainst,
    /// Forces by the profile in force.
    pub forces: HoldForces,
    /// Acceleration along the trailer at which it tips over when it is only stopped from sliding, as a multiple of
    /// free fall; `None` without a size.
    pub tips_lengthwise: Option<f64>,
    /// The same across the trailer.
    pub tips_sideways: Option<f64>,
    /// How it is fastened; `None` when it was not said.
    pub how: Option<Hold>,
    /// What that holds; `None` when too little is said of it.
    pub strength: Option<HoldStrength>,
}

/// Forces that try to move an item.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HoldForces {
    /// Each direction \[N\].
    pub all: Forces,
    /// The largest of them, after the profile's cap \[N\].
    pub asked: Force,
}

/// What fasteners hold.
#[derive(Debug, Clone, PartialEq)]
pub struct HoldStrength {
    /// What one fastener or strap holds; of a strap the weaker of itself and the fastener at each of its ends \[N\].
    pub each: Known<Force>,
    /// How many.
    pub count: Known<u32>,
    /// Diameter of each fastener; of a strap that of the fastener at its ends, when that is the weaker part.
    pub size: Option<Known<Length>>,
    /// What they go into.
    pub ground: Option<Known<Ground>>,
    /// Thread in the wood.
    pub depth: Option<Known<Length>>,
    /// Share of the computed strength that counts, for screws in plywood.
    pub derated: Option<Known<Ratio>>,
    /// All together \[N\].
    pub held: Force,
    /// What they must hold \[N\]: the largest force, or the tension friction asks of straps.
    pub asked: Force,
    /// Held minus asked \[N\].
    pub left: Force,
    /// Asked over held.
    pub used: Ratio,
}
