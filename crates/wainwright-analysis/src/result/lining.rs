//! What the lining study finds, as plain data: surfaces with their layers and pieces, cutting jobs with their plans,
//! what is left to buy and to mount. Not here: judgement, words for people.

mod job;

pub use job::{
    BarPlan, CutBar, CutFromSheet, CuttingJob, JobPlan, JobStock, NoPlan, OtherPlan, PlannedSheet,
    SawCut, SheetPlan, ShortageFound,
};
pub use wainwright_engines::lining::{Areas, Direction, Fit, Rect, Rib, Shortfall};

use crate::known::Known;
use crate::result::AssumedValue;
use std::fmt;
use wainwright_model::{Id, LayerKind, Run, Side};
use wainwright_units::frame::Point;
use wainwright_units::{Length, Mass};

/// Everything the lining study finds.
#[derive(Debug, Clone, PartialEq)]
pub struct LiningResult {
    /// The sides of the box that have layers: front, rear, left, right, roof, floor.
    pub surfaces: Vec<LinedSurface>,
    /// One for each material and size that is still to be cut.
    pub jobs: Vec<CuttingJob>,
    /// Mass of the layers that are not in yet; those of unknown mass left out.
    pub mass_to_come: Mass,
    /// What is not cut: screws and the like, of the layers that are not in yet.
    pub supplies: Supplies,
    /// Values that nobody gave, with the stand-ins used.
    pub assumptions: Vec<AssumedValue>,
    /// Values without which something is left out.
    pub missing: Vec<LiningMissing>,
    /// What an engine refused: where it was asked, and its sentence.
    pub refused: Vec<LiningRefused>,
}

/// One side of the box, seen from inside.
#[derive(Debug, Clone, PartialEq)]
pub struct LinedSurface {
    /// Which side; roof is the ceiling.
    pub side: Side,
    /// Size along x: the length of the box for left, right, roof and floor, its width for front and rear.
    pub width: Length,
    /// Size along y: the height of a wall; for the floor the width of the box, for the roof that width along its bow.
    pub height: Length,
    /// Seen from inside, x runs to the left: left, rear, roof. x is always as a tape has it: from the front wall, or
    /// from the left wall; y from the floor, or from the left wall.
    pub mirrored: bool,
    /// A bowed ceiling.
    pub bow: Option<BowFound>,
    /// Which way the ribs run.
    pub ribs_run: Direction,
    /// The ribs.
    pub ribs: Vec<Rib>,
    /// The openings in it.
    pub openings: Vec<SurfaceOpening>,
    /// Its layers, the outermost first.
    pub layers: Vec<LaidLayer>,
}

/// How a ceiling is bowed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BowFound {
    /// Straight from wall to wall.
    pub chord: Length,
    /// How much higher its middle is.
    pub rise: Length,
    /// Along the bow: the height of the surface.
    pub developed: Length,
    /// Radius of the bow.
    pub radius: Length,
}

/// An opening in a surface.
#[derive(Debug, Clone, PartialEq)]
pub struct SurfaceOpening {
    /// The opening in the project.
    pub id: Id,
    /// Its outline, or the box round it.
    pub rect: Rect,
    /// Whether it is round.
    pub round: bool,
}

/// A layer on one side.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidLayer {
    /// The layer in the project.
    pub layer: Id,
    /// What kind it is.
    pub kind: LayerKind,
    /// Its place on this side, 1 is the outermost.
    pub position: usize,
    /// Whether it is in already on this side.
    pub done: bool,
    /// What it is made of, as typed.
    pub material: Option<String>,
    /// Density that its mass is reckoned with \[kg/m³\]; `None` for an unknown material.
    pub density: Option<Known<f64>>,
    /// Its thickness.
    pub thickness: Option<Length>,
    /// The way its planks or battens run.
    pub runs: Option<Run>,
    /// Its pieces by number; none for skin, film, air, and for what could not be laid out.
    pub pieces: Vec<LaidPiece>,
    /// Where the area goes; `None` when it could not be laid out.
    pub areas: Option<Areas>,
    /// Its mass.
    pub mass: Option<Mass>,
    /// Middle of that mass on the surface.
    pub centre: Option<(Length, Length)>,
    /// The same in the trailer frame; `None` while the place of the box is not known.
    pub at: Option<Point>,
    /// Screws or nails.
    pub fasteners: usize,
    /// Tape over seams.
    pub tape: Length,
    /// Beads of adhesive, where it is glued instead of screwed; always for foam.
    pub adhesive: Length,
    /// Cover strips at edges and round openings: for the innermost layer of planks or sheets, else none.
    pub trims: Length,
    /// How runs of planks fill the side.
    pub fit: Option<Fit>,
    /// Runs of planks.
    pub courses: usize,
    /// Pieces ripped to a width.
    pub rips: usize,
    /// Pieces with a notch or a hole.
    pub notches: usize,
    /// Planks: there is another way to lay them, with or without rips.
    pub other: bool,
    /// What the layout could not give.
    pub shortfalls: Vec<Shortfall>,
    /// Index of the job it is cut in; `None` when nothing is to be cut.
    pub job: Option<usize>,
}

/// One piece on a surface.
#[derive(Debug, Clone, PartialEq)]
pub struct LaidPiece {
    /// What is written on it: unique in the project.
    pub mark: PieceMark,
    /// Its outline on the surface.
    pub rect: Rect,
    /// Notches and holes in it, on the surface.
    pub cuts: Vec<Rect>,
    /// Length to cut: along the grain for planks and battens, the longer side for foam, along the sheet for sheets.
    pub length: Length,
    /// Its other size: covering width of a plank.
    pub width: Length,
    /// Which way its length lies on the surface.
    pub runs: Direction,
    /// Run of planks it is in, from 1; 0 for all else.
    pub run: usize,
    /// Whether it is ripped to its width.
    pub ripped: bool,
    /// Its mass.
    pub mass: Option<Mass>,
    /// Its screws or nails; 0 where they are counted for the layer.
    pub fasteners: usize,
}

/// The number of a piece: side, place of the layer on that side, number in that layer.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct PieceMark {
    /// The side it is for.
    pub side: Side,
    /// Place of its layer on that side, from 1.
    pub layer: usize,
    /// Its number in that layer, from 1.
    pub number: usize,
}

impl PieceMark {
    /// The letter of a side: L left, R right, F front, B back (rear), C ceiling (roof), D deck (floor).
    pub const fn letter(side: Side) -> char {
        match side {
            Side::Left => 'L',
            Side::Right => 'R',
            Side::Front => 'F',
            Side::Rear => 'B',
            Side::Roof => 'C',
            Side::Floor => 'D',
        }
    }
}

/// As it is written on the piece: `R3-12`.
impl fmt::Display for PieceMark {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        let letter = Self::letter(self.side);
        write!(out, "{letter}{}-{}", self.layer, self.number)
    }
}

/// What is not cut to size by a plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Supplies {
    /// Screws or nails.
    pub fasteners: usize,
    /// Tape over the seams of foam.
    pub tape: Length,
    /// Beads of adhesive for foam.
    pub adhesive: Length,
    /// Cover strips.
    pub trims: Length,
}

/// A layer that is not in yet, as the road study wants it.
#[derive(Debug, Clone, PartialEq)]
pub struct LayerMass {
    /// The layer.
    pub layer: Id,
    /// The side.
    pub side: Side,
    /// Its mass there.
    pub mass: Mass,
    /// Its middle, as a tape measures it: from the front wall, from the left wall, above the floor.
    pub centre: wainwright_model::Spot,
    /// How far it reaches along, across and up.
    pub extent: wainwright_model::Extent,
}

/// A value without which something is left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LiningMissing {
    /// Path in the project file.
    pub path: Vec<String>,
    /// What is wanted.
    pub wanted: LiningWanted,
}

/// What kind of value is missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum LiningWanted {
    /// A size of the box: without it there is no surface.
    BoxSize,
    /// Where the ribs are.
    Ribs,
    /// Where an opening is, and its size.
    OpeningPlace,
    /// The material.
    Material,
    /// A material that is in the tables: mass is left out.
    KnownMaterial,
    /// Thickness.
    Thickness,
    /// Width.
    Width,
    /// The price of what is on sale: cost is left out.
    Price,
    /// Something to cut from: a length on sale.
    OnSale,
    /// The size of what is in the shed.
    StockSize,
}

/// What an engine refused.
#[derive(Debug, Clone, PartialEq)]
pub struct LiningRefused {
    /// The side, when it is about one.
    pub side: Option<Side>,
    /// The layer, when it is about one.
    pub layer: Option<Id>,
    /// The sentence of the engine.
    pub sentence: String,
}

impl Supplies {
    /// Nothing.
    pub const NONE: Self = Self {
        fasteners: 0,
        tape: Length::ZERO,
        adhesive: Length::ZERO,
        trims: Length::ZERO,
    };
}

impl LiningResult {
    /// The surface of a side.
    pub fn surface(&self, side: Side) -> Option<&LinedSurface> {
        self.surfaces.iter().find(|surface| surface.side == side)
    }

    /// Every layer on every side, with its surface.
    pub fn layers(&self) -> impl Iterator<Item = (&LinedSurface, &LaidLayer)> {
        let surfaces = self.surfaces.iter();
        surfaces.flat_map(|surface| surface.layers.iter().map(move |layer| (surface, layer)))
    }

    /// The piece with this mark.
    pub fn piece(&self, mark: PieceMark) -> Option<&LaidPiece> {
        let layers = &self.surface(mark.side)?.layers;
        let layer = layers.iter().find(|layer| layer.position == mark.layer)?;
        layer.pieces.iter().find(|piece| piece.mark == mark)
    }
}
