//! What is in the way, how things are held, what scales and laws say, as plain data.

use super::words;
use serde::Serialize;
use wainwright_analysis::result::road::{
    Blocked, Blocker, BrakeCheck, FuelResult, HoldResult, Measured, Outside, Overlap, ShellFound,
    WeighingResult,
};
use wainwright_units::{Length, Mass};

/// Two items in the same place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OverlapView {
    /// The two ids.
    pub items: [String; 2],
    /// How far they are into each other along, across and up [m].
    pub by_metres: [f64; 3],
}

/// An item that sticks out of the box.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct OutsideView {
    /// Its id.
    pub item: String,
    /// It lies outside altogether; no fault by itself.
    pub wholly: bool,
}

/// A free room with something in it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BlockedView {
    /// `opening.<id>` or `item.<id>`.
    pub room_of: String,
    /// The item that stands in it.
    pub by: String,
}

/// One law on brakes.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct BrakeView {
    /// Where it holds.
    pub place: String,
    /// The law.
    pub law: String,
    /// When it was looked up.
    pub as_of: String,
    /// Whether the trailer's gross rating asks for brakes.
    pub by_rating: Option<bool>,
    /// Whether its heaviest state does.
    pub by_load: Option<bool>,
}

/// How one item is held.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HoldView {
    /// Its id.
    pub item: String,
    /// The most it weighs [kg].
    pub kilograms: f64,
    /// What it is held against.
    pub against: &'static str,
    /// Largest force that tries to move it [N].
    pub asked_newtons: f64,
    /// How it is fastened.
    pub how: Option<&'static str>,
    /// What that holds [N].
    pub held_newtons: Option<f64>,
    /// What the fasteners must hold [N].
    pub fasteners_asked_newtons: Option<f64>,
}

/// What one weighing gives.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WeighedView {
    /// Its id.
    pub weighing: String,
    /// How it was taken.
    pub by: &'static str,
    /// Load on the ball [kg].
    pub tongue_kilograms: Option<f64>,
    /// Load of all axles [kg].
    pub axle_kilograms: Option<f64>,
    /// All of it [kg].
    pub whole_kilograms: Option<f64>,
}

/// The bare trailer from all weighings.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ShellView {
    /// Its mass and standard uncertainty [kg].
    pub kilograms: [f64; 2],
    /// Its load on the ball and standard uncertainty [kg].
    pub tongue_kilograms: [f64; 2],
    /// Its centre behind the ball and standard uncertainty [m].
    pub centre_metres: [f64; 2],
    /// Whether the weighings contradict each other.
    pub contradicted: bool,
}

/// Fuel, an estimate.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FuelView {
    /// Speed it is for [m/s].
    pub metres_per_second: f64,
    /// The vehicle alone [l/100 km].
    pub alone_litres_per_100_km: f64,
    /// With the trailer [l/100 km].
    pub towing_litres_per_100_km: f64,
}

impl OverlapView {
    /// The same as plain data.
    pub fn of(found: &Overlap) -> Self {
        Self {
            items: [found.first.to_string(), found.second.to_string()],
            by_metres: [found.along, found.across, found.up].map(Length::metres),
        }
    }
}

impl OutsideView {
    /// The same as plain data.
    pub fn of(found: &Outside) -> Self {
        Self {
            item: found.item.to_string(),
            wholly: found.wholly,
        }
    }
}

impl BlockedView {
    /// The same as plain data.
    pub fn of(found: &Blocked) -> Self {
        Self {
            room_of: match &found.owner {
                Blocker::Opening(id) => format!("opening.{id}"),
                Blocker::Item(id) => format!("item.{id}"),
            },
            by: found.by.to_string(),
        }
    }
}

impl BrakeView {
    /// The same as plain data.
    pub fn of(found: &BrakeCheck) -> Self {
        Self {
            place: found.law.place.to_owned(),
            law: found.law.law.to_owned(),
            as_of: found.law.as_of.to_owned(),
            by_rating: found.by_rating,
            by_load: found.by_load,
        }
    }
}

impl HoldView {
    /// The same as plain data.
    pub fn of(found: &HoldResult) -> Self {
        let strength = found.strength.as_ref();
        Self {
            item: found.item.to_string(),
            kilograms: found.mass.kilograms(),
            against: found.against.as_str(),
            asked_newtons: found.forces.asked.newtons(),
            how: found.how.map(|how| how.as_str()),
            held_newtons: strength.map(|strength| strength.held.newtons()),
            fasteners_asked_newtons: strength.map(|strength| strength.asked.newtons()),
        }
    }
}

impl WeighedView {
    /// The same as plain data.
    pub fn of(found: &WeighingResult) -> Self {
        let loads = found.loads.unwrap_or_default();
        let kilograms = |load: Option<Measured<Mass>>| load.map(|load| load.value.kilograms());
        Self {
            weighing: found.id.to_string(),
            by: words::weighed_by(found.by),
            tongue_kilograms: kilograms(loads.tongue),
            axle_kilograms: kilograms(loads.axle),
            whole_kilograms: kilograms(loads.whole),
        }
    }
}

impl ShellView {
    /// The same as plain data.
    pub fn of(found: &ShellFound) -> Self {
        let kilograms = |load: &Measured<Mass>| [load.value, load.sigma].map(Mass::kilograms);
        Self {
            kilograms: kilograms(&found.mass),
            tongue_kilograms: kilograms(&found.tongue),
            centre_metres: [found.centre.value, found.centre.sigma].map(Length::metres),
            contradicted: found.contradiction.is_some(),
        }
    }
}

impl FuelView {
    /// The same as plain data.
    pub fn of(found: &FuelResult) -> Self {
        Self {
            metres_per_second: found.speed.metres_per_second(),
            alone_litres_per_100_km: found.alone.litres_per_100_km,
            towing_litres_per_100_km: found.towing.litres_per_100_km,
        }
    }
}
