//! What the placing engine is told: what stays, what may move and where to, limits and aim.
//! Only checks are here.

use wainwright_units::frame::{Point, Vector};
use wainwright_units::{Length, Mass};

use super::result::Place;
use crate::balance::{Band, Chassis};
use crate::refusal::{Refusal, finite, not_below_zero, require};

/// Most fill states.
pub const MOST_STATES: usize = 4096;
/// Most things that may move.
pub const MOST_ITEMS: usize = 500;
/// Most places that one item may have on its grid.
pub const MOST_PLACES: usize = 20_000;
/// Most places of all items together.
pub const MOST_ALL_PLACES: usize = 500_000;

/// One search for better places.
#[derive(Debug, Clone, PartialEq)]
pub struct Problem {
    /// Lengths that decide where weight goes.
    pub chassis: Chassis,
    /// Number of fill states, at least one.
    pub states: usize,
    /// What stays where it is, the bare trailer included.
    pub fixed: Vec<Fixed>,
    /// What may move.
    pub items: Vec<Item>,
    /// Boxes that nothing may stand in: aisles, swings of doors, wheel boxes.
    pub keep_clear: Vec<KeepClear>,
    /// Step of the grid of places [m], above zero.
    pub step: Length,
    /// What every state has to keep.
    pub limits: Limits,
    /// What is made small.
    pub aim: Aim,
    /// How long to search.
    pub effort: Effort,
}

/// Something that stays.
#[derive(Debug, Clone, PartialEq)]
pub struct Fixed {
    /// Its mass in every state, or one mass for all \[kg\].
    pub masses: Vec<Mass>,
    /// Its centre of gravity in the trailer frame \[m\].
    pub centre: Point,
    /// Size of the box it fills evenly about that centre \[m\].
    pub extent: Vector,
    /// Whether nothing may stand in that box; false for the shell around everything.
    pub solid: bool,
}

/// Something that may move: a box filled evenly.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Its mass in every state, or one mass for all \[kg\].
    pub masses: Vec<Mass>,
    /// Size along, across and up when it is not turned \[m\].
    pub size: Vector,
    /// Where its lowest corner may be.
    pub regions: Vec<Region>,
    /// Where it is now; `None` when it has no place yet. It may stay there even off the grid.
    pub at: Option<Place>,
}

/// Places for the lowest corner of an item (nearest the ball, furthest right, lowest), in one
/// position of the item. Grid lines start at `from`; `to` itself is a place as well. The same number
/// in both makes a plane: a floor, a wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Region {
    /// Smallest x, y and z of the corner \[m\].
    pub from: Point,
    /// Largest x, y and z of the corner \[m\].
    pub to: Point,
    /// Whether the item is turned by a quarter here, length and width exchanged.
    pub turned: bool,
}

/// A box that has to stay empty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KeepClear {
    /// Its smallest x, y and z \[m\].
    pub from: Point,
    /// Its largest x, y and z \[m\].
    pub to: Point,
}

/// What every state has to keep.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Tongue shares that are wanted.
    pub band: Band,
    /// Least load on the ball \[kg\].
    pub least_tongue: Option<Mass>,
    /// Most load on the ball \[kg\].
    pub most_tongue: Option<Mass>,
    /// Most load of the axle group \[kg\].
    pub most_axles: Option<Mass>,
    /// Most load of the wheels of one side together \[kg\]: the tyres' ratings, half the axles'.
    pub most_one_side: Option<Mass>,
    /// Largest difference between the two sides \[kg\].
    pub most_difference: Option<Mass>,
}

/// Over which states the cost is taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Over {
    /// The mean of all states.
    Mean,
    /// The worst state.
    Worst,
}

/// What is made small: yaw inertia about the centre of gravity, and what is added to it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Aim {
    /// Mean or worst state.
    pub over: Over,
    /// Added for each kilogram that one side carries more than the other [kg·m²/kg].
    pub for_difference: f64,
    /// Added for each metre of height of the centre of gravity [kg·m²/m].
    pub for_height: f64,
    /// Added for each item that moves away from a place it has [kg·m²].
    pub for_move: f64,
}

/// How long to search.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// The same seed gives the same places.
    pub seed: u64,
    /// Most fresh starts, at least one.
    pub most_starts: usize,
    /// Most layouts tried in all.
    pub most_evaluations: usize,
    /// Most steps of the proof that nothing is better; zero leaves it out.
    pub most_proof_steps: usize,
}

impl Default for Effort {
    /// A fraction of a second for a trailer of some twenty items.
    fn default() -> Self {
        Self {
            seed: 1,
            most_starts: 4,
            most_evaluations: 400_000,
            most_proof_steps: 100_000,
        }
    }
}

impl Region {
    /// The region that keeps an item of a size standing on the floor of a room, turned or not;
    /// `None` when it does not fit.
    #[must_use]
    pub fn on_floor(from: Point, to: Point, size: Vector, turned: bool) -> Option<Region> {
        let (long, wide) = if turned {
            (size.y, size.x)
        } else {
            (size.x, size.y)
        };
        let (x, y, z) = (to.x - long, to.y - wide, to.z - size.z);
        (x >= from.x && y >= from.y && z >= from.z).then_some(Region {
            from,
            to: Point::new(x, y, from.z),
            turned,
        })
    }
}

impl Problem {
    pub(super) fn check(&self) -> Result<(), Refusal> {
        self.chassis.check()?;
        within("number of fill states", self.states, 1, MOST_STATES)?;
        within(
            "number of items that may move",
            self.items.len(),
            0,
            MOST_ITEMS,
        )?;
        within("number of starts", self.effort.most_starts, 1, 10_000)?;
        crate::refusal::above_zero("step of the grid [m]", self.step.metres())?;
        self.check_limits()?;
        for (index, one) in self.fixed.iter().enumerate() {
            one.check(self.states)
                .map_err(|refusal| refusal.at("fixed item", index))?;
        }
        for (index, one) in self.items.iter().enumerate() {
            one.check(self.states)
                .map_err(|refusal| refusal.at("item", index))?;
        }
        for (index, one) in self.keep_clear.iter().enumerate() {
            ordered(one.from, one.to).map_err(|refusal| refusal.at("box to keep clear", index))?;
        }
        Ok(())
    }

    fn check_limits(&self) -> Result<(), Refusal> {
        let band = self.limits.band;
        finite("lowest share", band.low.fraction())?;
        finite("highest share", band.high.fraction())?;
        require(
            "highest share",
            band.high.fraction(),
            band.low <= band.high,
            "not below the lowest",
        )?;
        let limits = &self.limits;
        for (field, limit) in [
            ("least tongue load [kg]", limits.least_tongue),
            ("most tongue load [kg]", limits.most_tongue),
            ("most axle load [kg]", limits.most_axles),
            ("most load of one side [kg]", limits.most_one_side),
            ("most difference of sides [kg]", limits.most_difference),
        ] {
            if let Some(limit) = limit {
                not_below_zero(field, limit.kilograms())?;
            }
        }
        not_below_zero("cost of side difference", self.aim.for_difference)?;
        not_below_zero("cost of height", self.aim.for_height)?;
        not_below_zero("cost of a move", self.aim.for_move)
    }
}

impl Fixed {
    fn check(&self, states: usize) -> Result<(), Refusal> {
        check_masses(&self.masses, states)?;
        check_point(self.centre)?;
        check_size(self.extent)
    }
}

impl Item {
    fn check(&self, states: usize) -> Result<(), Refusal> {
        check_masses(&self.masses, states)?;
        check_size(self.size)?;
        for region in &self.regions {
            ordered(region.from, region.to)?;
        }
        let places = self.regions.len() + usize::from(self.at.is_some());
        within("number of regions or places", places, 1, 1000)?;
        self.at.map_or(Ok(()), |place| check_point(place.corner))
    }
}

fn check_masses(masses: &[Mass], states: usize) -> Result<(), Refusal> {
    require(
        "number of masses",
        masses.len() as f64,
        masses.len() == 1 || masses.len() == states,
        "one, or one for every state",
    )?;
    masses
        .iter()
        .try_for_each(|mass| not_below_zero("mass [kg]", mass.kilograms()))
}

fn check_point(point: Point) -> Result<(), Refusal> {
    finite("place backwards from the ball [m]", point.x.metres())?;
    finite("place to the left [m]", point.y.metres())?;
    finite("height [m]", point.z.metres())
}

fn check_size(size: Vector) -> Result<(), Refusal> {
    not_below_zero("length [m]", size.x.metres())?;
    not_below_zero("width [m]", size.y.metres())?;
    not_below_zero("height [m]", size.z.metres())
}

fn ordered(from: Point, to: Point) -> Result<(), Refusal> {
    check_point(from)?;
    check_point(to)?;
    let turned_round = (to.x < from.x) || (to.y < from.y) || (to.z < from.z);
    require(
        "end of the box [m]",
        to.x.metres(),
        !turned_round,
        "not before its start in any direction",
    )
}

fn within(field: &'static str, count: usize, low: usize, high: usize) -> Result<(), Refusal> {
    require(
        field,
        count as f64,
        (low..=high).contains(&count),
        "within the number this engine takes",
    )
}
