//! What a scene shows, as plain data in the tape-measure frame of the box. Not
//! here: where it comes on the sheet.

use super::measure::{Axis, Extent, Space, Spot, Wall};
use crate::diagram::{Pole, Tone};

/// Everything that can be shown of one trailer. Whatever is not finite is left out.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Scene {
    /// Inside size of the box.
    pub inside: Extent,
    /// Thickness of the walls [m].
    pub wall_m: f64,
    /// Ribs of the walls.
    pub ribs: Vec<Rib>,
    /// Doors, windows, vents.
    pub openings: Vec<Opening>,
    /// Drawbar and coupler.
    pub hitch: Option<Hitch>,
    /// Axles and wheels.
    pub running_gear: Option<RunningGear>,
    /// What stands, lies or hangs in the box.
    pub things: Vec<Thing>,
    /// Where something may stand.
    pub zones: Vec<Zone>,
    /// Centres of gravity and other single places.
    pub points: Vec<Mark>,
    /// Ways in which wires may run.
    pub trunks: Vec<Trunk>,
    /// Wires.
    pub routes: Vec<Route>,
    /// Dimensions.
    pub dimensions: Vec<Dimension>,
}

/// One rib in a wall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rib {
    /// The wall it is in.
    pub wall: Wall,
    /// Its middle: from the front in left, right, roof and floor, from the left in front and rear [m].
    pub at_m: f64,
    /// Its width [m].
    pub width_m: f64,
}

/// A hole in a wall.
#[derive(Debug, Clone, PartialEq)]
pub struct Opening {
    /// Id in the project text.
    pub id: String,
    /// Printed at it; may be empty.
    pub label: String,
    /// Read aloud.
    pub words: String,
    /// The wall it is in.
    pub wall: Wall,
    /// Where it is; its size through the wall does not matter.
    pub space: Space,
    /// What moves.
    pub leaf: Leaf,
    /// A window: drawn dashed.
    pub glazed: bool,
    /// Chosen by the person.
    pub selected: bool,
}

/// How an opening is closed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Leaf {
    /// Nothing moves.
    Fixed,
    /// Slides along the wall.
    Slides,
    /// One leaf on this edge.
    Hinged {
        /// The edge with the hinges.
        edge: Wall,
        /// Swings out of the box, not into it.
        outwards: bool,
    },
    /// Two leaves that meet in the middle.
    Double {
        /// Swings out of the box, not into it.
        outwards: bool,
    },
}

/// Drawbar and coupler.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hitch {
    /// From the inside of the front wall to the centre of the ball, forwards [m].
    pub ball_ahead_m: f64,
    /// Ball above the floor of the box [m]; usually negative.
    pub ball_up_m: f64,
}

/// Axles and wheels.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct RunningGear {
    /// Each axle from the inside of the front wall [m].
    pub axles_from_front_m: Vec<f64>,
    /// Radius of a wheel [m].
    pub wheel_radius_m: f64,
    /// Width of a tyre [m].
    pub wheel_width_m: f64,
    /// Between the middles of left and right wheels [m].
    pub track_m: f64,
    /// Floor of the box above the ground [m].
    pub floor_above_ground_m: f64,
}

/// Something with a place and a size.
#[derive(Debug, Clone, PartialEq)]
pub struct Thing {
    /// Id in the project text.
    pub id: String,
    /// Its name, printed at it or in the list of numbers.
    pub label: String,
    /// Short second line, e.g. `62 lb`; left out where it does not fit.
    pub note: String,
    /// Read aloud.
    pub words: String,
    /// Where it is.
    pub space: Space,
    /// How it fares.
    pub tone: Tone,
    /// Chosen by the person.
    pub selected: bool,
    /// Can be dragged.
    pub movable: bool,
    /// How it is outlined.
    pub outline: Outline,
}

/// How a thing is outlined.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Outline {
    /// Filled, seen as it stands.
    #[default]
    Solid,
    /// Dashed and not filled: overhead, or behind what is seen.
    Dashed,
}

/// A space in which the chosen thing may stand, hatched.
#[derive(Debug, Clone, PartialEq)]
pub struct Zone {
    /// Id.
    pub id: String,
    /// Printed in it.
    pub label: String,
    /// Read aloud.
    pub words: String,
    /// The parts it consists of.
    pub spaces: Vec<Space>,
    /// How it fares to stand there.
    pub tone: Tone,
}

/// A single place.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Id.
    pub id: String,
    /// Printed beside it.
    pub label: String,
    /// Read aloud.
    pub words: String,
    /// Where it is.
    pub at: Spot,
    /// Where it is in other states, in their order; drawn as a small path.
    pub travel: Vec<Spot>,
    /// Half sizes of the ellipse it lies in.
    pub spread: Option<Extent>,
    /// What it is.
    pub kind: MarkKind,
    /// How it fares.
    pub tone: Tone,
}

/// What a single place is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum MarkKind {
    /// Centre of gravity: a quartered circle.
    Centre,
    /// Anchor or tie-down: a ring.
    Anchor,
    /// Terminal or joint: a dot.
    Dot,
}

/// A way in which wires may run.
#[derive(Debug, Clone, PartialEq)]
pub struct Trunk {
    /// Id in the project text.
    pub id: String,
    /// Printed at it; may be empty.
    pub label: String,
    /// Read aloud.
    pub words: String,
    /// Its corners.
    pub path: Vec<Spot>,
    /// Behind panelling: drawn dashed.
    pub hidden: bool,
    /// Chosen by the person.
    pub selected: bool,
}

/// A wire in its place.
#[derive(Debug, Clone, PartialEq)]
pub struct Route {
    /// Id in the project text.
    pub id: String,
    /// Printed at it; leave it empty for most wires.
    pub label: String,
    /// Read aloud.
    pub words: String,
    /// Its corners, from end to end.
    pub path: Vec<Spot>,
    /// Side of the supply.
    pub pole: Pole,
    /// How it fares.
    pub tone: Tone,
    /// Drawn thickness class, 0 to 5.
    pub thickness: u8,
    /// Chosen by the person.
    pub selected: bool,
}

/// A dimension between two places, measured along one direction.
#[derive(Debug, Clone, PartialEq)]
pub struct Dimension {
    /// One end.
    pub from: Spot,
    /// Other end.
    pub to: Spot,
    /// What is measured. A direction that the view does not show is left out.
    pub axis: Axis,
    /// The measure as people read it.
    pub text: String,
}
