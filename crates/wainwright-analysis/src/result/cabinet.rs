//! What is found about a cabinet for equipment, as plain data: what is in it, what is where on its face, whether it
//! fits and can be reached, how warm it gets. Not here: judgement ("too hot"), words for people.

use crate::known::Known;
use crate::result::AssumedValue;
use wainwright_model::{Extent, Id, MountedOn, Side, Spot};
use wainwright_units::{Airflow, Area, Length, Power, Temperature, TemperatureDifference};

/// Everything found about one cabinet.
#[derive(Debug, Clone)]
pub struct CabinetResult {
    /// The cabinet.
    pub cabinet: Id,
    /// What it is called.
    pub label: String,
    /// Its place, when both spot and size are given.
    pub place: Option<(Spot, Extent)>,
    /// The side its face looks to.
    pub faces: Known<Side>,
    /// Thickness of its boards.
    pub board: Known<Length>,
    /// Its face, seen from before it; `None` without a size.
    pub face: Option<CabinetFace>,
    /// What it holds, in the order of the file.
    pub devices: Vec<CabinetDevice>,
    /// Names in `holds` that are no items.
    pub unknown: Vec<String>,
    /// Pairs that are mounted on the same face or board in the same place.
    pub overlaps: Vec<(Id, Id)>,
    /// Fuses, breakers and fuse blocks in it.
    pub fuses: Vec<Id>,
    /// Whether they can be reached without a tool; `None` when nobody said.
    pub door: Option<Known<bool>>,
    /// Heat and air.
    pub air: CabinetAirFound,
    /// Values that stand in for those nobody gave.
    pub assumptions: Vec<AssumedValue>,
    /// What an engine refused, in its words.
    pub refused: Vec<String>,
}

/// The face of a cabinet. Coordinates of everything on it: x to the right and y up from its left lower inside
/// corner, as seen by somebody who stands before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CabinetFace {
    /// Inside width.
    pub width: Length,
    /// Inside height.
    pub height: Length,
    /// Inside depth behind it.
    pub depth: Length,
    /// Board that closes it: it covers the edges of the others.
    pub board: FaceRect,
}

/// A rectangle on a face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FaceRect {
    /// Left edge.
    pub x: Length,
    /// Lower edge.
    pub y: Length,
    /// Width.
    pub width: Length,
    /// Height.
    pub height: Length,
}

/// A hole in a face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FaceHole {
    /// Its outline; of a round one the square around it.
    pub rect: FaceRect,
    /// Whether it is round.
    pub round: bool,
}

/// What is drawn on paper for the face, in the coordinates of the face.
#[derive(Debug, Clone, PartialEq)]
pub struct CabinetTemplate {
    /// The board.
    pub board: FaceRect,
    /// The clear inside, where nothing of the other boards is behind it.
    pub inside: FaceRect,
    /// Holes to cut.
    pub cuts: Vec<TemplateCut>,
    /// Holes to drill.
    pub drills: Vec<TemplateDrill>,
    /// Outlines of what stands behind, for orientation.
    pub outlines: Vec<(Id, FaceRect)>,
}

/// A hole to cut.
#[derive(Debug, Clone, PartialEq)]
pub struct TemplateCut {
    /// What it is for.
    pub item: Id,
    /// The hole.
    pub hole: FaceHole,
    /// Its middle, where the centre lines cross.
    pub centre: (Length, Length),
}

/// A hole to drill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TemplateDrill {
    /// Its middle.
    pub x: Length,
    /// Its middle.
    pub y: Length,
    /// Its diameter.
    pub diameter: Length,
}

/// A thing in a cabinet.
#[derive(Debug, Clone, PartialEq)]
pub struct CabinetDevice {
    /// The item.
    pub item: Id,
    /// What it is called.
    pub label: String,
    /// What it is mounted on, when it is said.
    pub mounted: Option<MountedOn>,
    /// Its body on the face; `None` without spot or size.
    pub rect: Option<FaceRect>,
    /// From the face's inside to its front \[m\], below zero when it sticks out.
    pub behind: Option<Length>,
    /// The hole it needs in the face, in the middle of its body.
    pub hole: Option<FaceHole>,
    /// Whether its body is inside the cabinet; `None` without spot or size.
    pub inside: Option<bool>,
    /// How it fits behind the face; `None` when nothing tells.
    pub depth: Option<DepthFit>,
    /// Free room it needs before its front, and what is in it.
    pub clear: Option<ClearFit>,
    /// Heat it gives off in each situation of [`Situation::ALL`].
    pub heat: [Power; 3],
    /// How that is known.
    pub heat_from: HeatFrom,
}

/// Depth that a device needs and that there is.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DepthFit {
    /// What it reaches behind the face, room for its wires to bend counted.
    pub needed: Length,
    /// What there is.
    pub there: Length,
    /// Whether it fits.
    pub fits: bool,
}

/// Free room before a device.
#[derive(Debug, Clone, PartialEq)]
pub struct ClearFit {
    /// Room it asks for.
    pub needed: Length,
    /// Other devices of the cabinet that stand in it.
    pub blocked_by: Vec<Id>,
}

/// How the heat of a device is known.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum HeatFrom {
    /// Typed.
    Typed,
    /// By its efficiency, typed or usual, at what it gives.
    Efficiency,
    /// By the currents through its joints and contacts in the assessment.
    Joints,
    /// It gives off none worth counting, or nothing is known.
    None,
}

/// When devices work together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Situation {
    /// In the sun at camp: solar charging, and the inverter with its load.
    Camp,
    /// On the road: solar charging, and the charger on the tow vehicle.
    Driving,
    /// On shore power: solar charging, and the shore charger.
    Shore,
}

impl Situation {
    /// All of them, in the order of [`CabinetDevice::heat`].
    pub const ALL: [Self; 3] = [Self::Camp, Self::Driving, Self::Shore];
}

/// Heat and air of a cabinet.
#[derive(Debug, Clone, PartialEq)]
pub struct CabinetAirFound {
    /// The situation with the most heat.
    pub situation: Situation,
    /// Heat of all devices in it.
    pub heat: Power,
    /// Air around the cabinet.
    pub ambient: Known<Temperature>,
    /// What takes the heat out.
    pub cooling: CoolingFound,
    /// Heat through its boards with each kelvin \[W/K\].
    pub skin_watts_per_kelvin: f64,
    /// How much warmer the air inside gets.
    pub rise: Option<TemperatureDifference>,
    /// Air inside.
    pub inside: Option<Temperature>,
    /// Air that the wires and fuses in it are judged in: the same without the heat of joints, which follows from it.
    pub for_wires: Option<Temperature>,
    /// Air that passes.
    pub airflow: Airflow,
    /// Heat that it carries.
    pub by_air: Power,
    /// Heat through the boards.
    pub by_skin: Power,
    /// Highest air that the devices bear, and the one that says so.
    pub limit: (Known<Temperature>, Option<Id>),
    /// Opening, low and high each, for a rise of 10 K; `None` when none is enough.
    pub opening_for_ten: Option<Area>,
    /// Fan for it, by the air it moves in place.
    pub fan_for_ten: Option<Airflow>,
    /// Opening, low and high each, with which the limit holds; zero when it holds closed.
    pub opening_for_limit: Option<Area>,
    /// Fan with which it holds.
    pub fan_for_limit: Option<Airflow>,
}

/// What takes the heat out of a cabinet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum CoolingFound {
    /// Openings low and high.
    Openings {
        /// Low ones.
        low: Area,
        /// High ones.
        high: Area,
        /// Height between them.
        height: Length,
    },
    /// A fan.
    Fan(Airflow),
    /// Only its boards.
    Closed,
}
