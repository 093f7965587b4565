//! What the road study finds about one trailer, as plain data: where its weight goes in every fill state, how much
//! of each rating is left, how it follows, stands and is held. Not here: judgement ("too much"), words for people.

mod figures;
mod hold;
mod layout;
mod load;
mod mover;
mod state;
mod steady;
mod weighed;

pub use figures::{
    Aims, RoadMissing, RoadTrailer, RoadVehicle, RoadWanted, SharePlace, TongueLimits,
};
pub use hold::{HoldForces, HoldResult, HoldStrength};
pub use layout::{
    BetterLayout, Blocked, Blocker, Move, Outside, Overlap, ProofOfBest, Zone, ZoneLimit,
};
pub use load::{Fill, Filling, RoadLoad, Unsettled};
pub use mover::{BrakeCheck, FrontalCheck, FuelCompared, FuelFigures, FuelResult, PullCheck};
pub use state::{
    AttitudeResult, HitchResult, Level, Parked, RatingKind, RoadMargin, RoadRating, RoadState,
    RoadStateKind, WorstStates,
};
pub use steady::{Departure, SwayResult, Tipping};
pub use weighed::{ShellFound, ShellWeighed, WeighedLoads, WeighingResult};

pub use wainwright_engines::tie_down::{Forces, Profile};
pub use wainwright_engines::weigh_in::{Contradiction, Measured, Residual, Scale};

use crate::result::AssumedValue;
use wainwright_units::{Mass, Ratio};

/// Everything the road study finds.
#[derive(Debug, Clone, Default)]
pub struct RoadResult {
    /// Whether the person has begun this job: anything about towing is typed, or any item has a mass or a spot.
    /// Until then nothing here should be said unasked.
    pub begun: bool,
    /// The bare trailer's figures, each given or standing in.
    pub trailer: RoadTrailer,
    /// The tow vehicle's figures.
    pub vehicle: RoadVehicle,
    /// What the design is held against.
    pub aims: Aims,
    /// Items that press on the trailer: mass and spot are known. In file order.
    pub loads: Vec<RoadLoad>,
    /// Layers of the lining that were not in when the bare trailer was weighed: they count in every state but that of
    /// the bare trailer and the weighings.
    pub layers: Vec<crate::result::lining::LayerMass>,
    /// Items without mass or spot, with how much they could matter. In file order.
    pub unsettled: Vec<Unsettled>,
    /// What changes on the road: each tank, and the cargo from start to end.
    pub fills: Vec<Fill>,
    /// Every state computed: bare, the fill states, each weighing. Empty when the trailer itself is not known.
    pub states: Vec<RoadState>,
    /// Whether every corner of the fills is among the states; otherwise only the extreme ones.
    pub every_corner: bool,
    /// Which states are the worst; over the fill states only.
    pub worst: Option<WorstStates>,
    /// Ratings that are known; each state has a margin for each, in this order.
    pub ratings: Vec<RoadRating>,
    /// The D value that the outfit asks of the coupler, against the coupler's.
    pub d_value: Option<PullCheck>,
    /// The front of the trailer against the tow vehicle's limit.
    pub frontal: Option<FrontalCheck>,
    /// Damping of the worst states at the planned speed and at the speed tests are made at.
    pub sway: Vec<SwayResult>,
    /// How steep a ramp the tail clears.
    pub departure: Option<Departure>,
    /// Brake laws of the place, and whether the trailer crosses their mass.
    pub brakes: Vec<BrakeCheck>,
    /// How each item with a mass is held. In file order.
    pub holds: Vec<HoldResult>,
    /// What the weighings say.
    pub weighings: Vec<WeighingResult>,
    /// The bare trailer from all weighings together.
    pub shell_found: Option<ShellFound>,
    /// Pairs of items in the same place.
    pub overlaps: Vec<Overlap>,
    /// Items that stick out of the box.
    pub outside: Vec<Outside>,
    /// Doors and free rooms with something in them.
    pub blocked: Vec<Blocked>,
    /// Fuel alone and with the trailer, an estimate.
    pub fuel: Option<FuelResult>,
    /// Share of the mass of all items that is ahead of the middle of the box.
    pub front_share: Option<Ratio>,
    /// Values that stand in for those nobody gave.
    pub assumptions: Vec<AssumedValue>,
    /// Values without which something is left out.
    pub missing: Vec<RoadMissing>,
    /// What an engine refused, in its words; only values beyond all measure bring this about.
    pub refused: Vec<String>,
}

impl RoadResult {
    /// The load of an item.
    pub fn load(&self, item: &str) -> Option<&RoadLoad> {
        self.loads.iter().find(|load| load.item.as_str() == item)
    }

    /// How an item is held.
    pub fn hold(&self, item: &str) -> Option<&HoldResult> {
        self.holds.iter().find(|hold| hold.item.as_str() == item)
    }

    /// What a load weighs in the bare trailer's state or in a fill state; `None` when it is not aboard there, and for
    /// weighings.
    pub fn mass_in(&self, load: &RoadLoad, state: &RoadState) -> Option<Mass> {
        if load.parked_only || state.kind != RoadStateKind::Fills {
            return None;
        }
        let level = load.fill.and_then(|fill| state.levels.get(fill));
        Some(match level {
            Some(Level::Full) => load.most,
            Some(Level::Empty) => load.least,
            // At the start cargo has the mass that is typed; the other of the two is left at the end.
            Some(Level::End) if load.mass.value == load.most => load.least,
            Some(Level::End) => load.most,
            Some(Level::Start) | None => load.mass.value,
        })
    }

    /// The fill states with their indices: not the bare trailer, not the weighings.
    pub fn fill_states(&self) -> impl Iterator<Item = (usize, &RoadState)> {
        let states = self.states.iter().enumerate();
        states.filter(|(_, state)| state.kind == RoadStateKind::Fills)
    }

    /// The fill state in which a rating has least left, with its margin; `None` when the rating is not known.
    pub fn tightest(&self, kind: RatingKind) -> Option<(usize, RoadMargin)> {
        let rating = self.ratings.iter().position(|known| known.kind == kind)?;
        let margins = self
            .fill_states()
            .filter_map(|(index, state)| Some((index, (*state.margins.get(rating)?)?)));
        margins.min_by(|(_, one), (_, other)| one.left.total_cmp(&other.left))
    }
}
