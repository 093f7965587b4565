//! What the study of the box as a room finds, as plain data: what walls, roof and floor let through, the cold night,
//! the sunny day, water in the walls, air to sleep in. Not here: judgement ("too damp"), words for people.

mod air;
mod damp;
mod day;
mod night;
mod side;

pub use air::{AirCurve, AirFrom, AirNeeded, FreshAir, OpenPlace};
pub use damp::{
    DampChange, DampHelp, DampMonth, DampResult, DampSide, DampWay, Mould, WayKind, Wet, WetPlace,
};
pub use day::{SunnyDay, SunnyPane, SunnySide};
pub use night::{ColdNight, HeaterFound, Leaving, LeavingBy, WarmUp};
pub use side::{PaneHeat, PaneKind, RibsFound, SideHeat, SideLayer};

use crate::known::Known;
use crate::result::AssumedValue;
use wainwright_model::Id;
use wainwright_units::{Area, Length, Volume};

/// Everything found about the box as a room.
#[derive(Debug, Clone)]
pub struct IndoorsResult {
    /// Whether the person has begun this job: a layer or anything of `[living]` is typed. Until then nothing here
    /// should be said unasked.
    pub begun: bool,
    /// The room.
    pub room: RoomFound,
    /// The sides, in the order front, rear, left, right, roof, floor.
    pub sides: Vec<SideHeat>,
    /// Openings in them, in file order.
    pub panes: Vec<PaneHeat>,
    /// Heat that leaves with each kelvin, air that leaks counted \[W/K\].
    pub lost_per_kelvin: Known<f64>,
    /// The coldest night it is slept in.
    pub night: Option<ColdNight>,
    /// The hottest hour of a clear summer day.
    pub day: Option<SunnyDay>,
    /// Water and mould through a year; `None` without a climate.
    pub damp: Option<DampResult>,
    /// Air through a night.
    pub air: Option<FreshAir>,
    /// What deserves a word of warning.
    pub cautions: Vec<Caution>,
    /// Values that stand in for those nobody gave.
    pub assumptions: Vec<AssumedValue>,
    /// Values without which something is left out.
    pub missing: Vec<IndoorsMissing>,
    /// What an engine refused, in its words; only values beyond all measure bring this about.
    pub refused: Vec<String>,
}

/// The room inside.
#[derive(Debug, Clone, PartialEq)]
pub struct RoomFound {
    /// Inside length.
    pub length: Known<Length>,
    /// Inside width.
    pub width: Known<Length>,
    /// Inside height.
    pub height: Known<Length>,
    /// Its volume.
    pub volume: Volume,
    /// Its floor.
    pub plan: Area,
    /// People who sleep in it.
    pub people: Known<u32>,
}

/// A word of warning.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Caution {
    /// Which.
    pub kind: CautionKind,
    /// The items it is about.
    pub items: Vec<Id>,
}

/// Which word of warning.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum CautionKind {
    /// Something aboard burns fuel or gas, and no alarm for carbon monoxide is listed.
    NoAlarm,
    /// Something aboard burns fuel or gas: its air and its fumes by its maker's plate.
    Burning,
    /// A fan that draws air out while something burns may draw its fumes back.
    FanAndFire,
    /// People sleep aboard, and no second way out is listed.
    OneWayOut,
    /// Openings that are always open are smaller than the published guidance.
    FewOpenings,
}

/// A value without which something is left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct IndoorsMissing {
    /// Path in the project file where it can be typed.
    pub path: Vec<String>,
    /// What kind of value is wanted, in plain words: "a thickness".
    pub wanted: &'static str,
}

impl IndoorsResult {
    /// What was found of a side.
    pub fn side(&self, side: wainwright_model::Side) -> Option<&SideHeat> {
        self.sides.iter().find(|found| found.side == side)
    }
}
