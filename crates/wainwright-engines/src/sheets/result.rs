//! What the sheet engine answers: cut trees, places, numbered cuts, offcuts, price and what is
//! proven about it. No equation is here.

use super::input::Along;

/// How a rectangle is taken apart: a tree of cuts that go all the way through.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Node {
    /// This rectangle is a finished piece.
    Piece {
        /// Index of its kind.
        kind: usize,
        /// Whether its width runs along the height of the sheet.
        turned: bool,
    },
    /// Nothing more is cut from this rectangle; it may have no area.
    Offcut,
    /// One cut through the whole rectangle.
    Cut {
        /// Which way the cut runs.
        runs: Along,
        /// Distance of the line from the left (cut along the height) or the bottom edge of the
        /// rectangle [grid steps]; the saw takes its kerf from the far side of the line.
        at: u32,
        /// The part between that edge and the line.
        first: Box<Node>,
        /// What is behind the saw cut.
        second: Box<Node>,
    },
}

/// A rectangle on a sheet, measured from its left and bottom edge [grid steps].
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Rectangle {
    /// Distance from the left edge.
    pub x: u32,
    /// Distance from the bottom edge.
    pub y: u32,
    /// Size from left to right.
    pub width: u32,
    /// Size from the bottom to the top.
    pub height: u32,
}

impl Rectangle {
    /// Area [grid steps²].
    #[must_use]
    pub const fn area(&self) -> u64 {
        self.width as u64 * self.height as u64
    }
}

/// Where a piece comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Placement {
    /// Index of its kind.
    pub kind: usize,
    /// Whether its width runs along the height of the sheet.
    pub turned: bool,
    /// Its place on the sheet.
    pub place: Rectangle,
}

/// One numbered cut. Its number is its place in the list, from 1.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Cut {
    /// The part that is cut: 0 is the whole sheet, the parts made by cut n are 2n − 1 and 2n.
    pub part: usize,
    /// Where that part lay on the sheet.
    pub of: Rectangle,
    /// Which way the cut runs.
    pub runs: Along,
    /// What the fence or rule is set to: the distance of the line from the left edge of the part
    /// (cut along the height) or from its bottom edge [grid steps]. The kerf is beyond the line.
    pub setting: u32,
    /// Length of the cut [grid steps].
    pub length: u32,
    /// Material that becomes dust, across the cut: the kerf, or less at an edge [grid steps].
    pub dust: u32,
    /// Whether it runs along the grain.
    pub rip: bool,
}

/// Where the area of a sheet went [grid steps²]; `pieces + dust + offcuts` is the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Areas {
    /// The whole sheet.
    pub sheet: u64,
    /// Finished pieces.
    pub pieces: u64,
    /// Saw cuts.
    pub dust: u64,
    /// What is left over, strips of trimmed edges included.
    pub offcuts: u64,
}

/// One sheet and how it is cut.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct CutSheet {
    /// Index of its kind.
    pub sheet: usize,
    /// How it is taken apart, trimming included.
    pub tree: Node,
    /// The pieces.
    pub placements: Vec<Placement>,
    /// What is left over, the largest first; strips of trimmed edges included.
    pub offcuts: Vec<Rectangle>,
    /// The cuts in the order to make them.
    pub cuts: Vec<Cut>,
    /// Where its area went.
    pub areas: Areas,
}

/// How many cuts there are.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct CutCount {
    /// All cuts.
    pub cuts: usize,
    /// Those along the grain.
    pub rips: usize,
    /// Different settings among the rip cuts.
    pub rip_settings: usize,
    /// Longest cut [grid steps].
    pub longest: u32,
}

/// What is known about the plans that were not tried.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Proof {
    /// No plan is cheaper.
    Cheapest,
    /// No plan costs less than `CuttingPlan::at_least`; whether one is cheaper is not known.
    Gap,
    /// Some pieces cannot be cut from any of the sheets with this saw.
    CannotBeCut,
    /// Not everything found room on the sheets there are; whether it could is not known.
    OutOfSheets,
    /// The sheets there are have not enough area or room, whatever the plan.
    TooFewSheets,
}

/// A budget or cap that ended a search before its end.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cap {
    /// The bound uses a coarser grid than the plan.
    CoarseBound,
    /// The search for the best single sheet kept as many blocks as it may.
    Blocks,
    /// Column generation made as many rounds as it may.
    Rounds,
    /// The linear program stopped before its optimum.
    Pivots,
}

/// A plan for all sheets.
#[derive(Debug, Clone, PartialEq)]
pub struct CuttingPlan {
    /// Every sheet that is used.
    pub sheets: Vec<CutSheet>,
    /// Price of them all.
    pub price: u64,
    /// No plan for all the pieces costs less than this.
    pub at_least: u64,
    /// What that proves.
    pub proof: Proof,
    /// How many of each kind of piece are not cut; all zero in a complete plan.
    pub missing: Vec<u32>,
    /// Its cuts.
    pub count: CutCount,
    /// Searches that ended early.
    pub caps: Vec<Cap>,
}

/// The plan for the saw at hand beside those that it is compared with.
#[derive(Debug, Clone, PartialEq)]
pub struct RipChoice {
    /// The plan with rip cuts of any length.
    pub with_rips: CuttingPlan,
    /// The plan without any rip cut; its `proof` says when there is none.
    pub without_rips: CuttingPlan,
    /// What doing without costs more; `None` when one of the plans is not complete.
    pub costs_more: Option<u64>,
}

/// The most valuable way to cut one sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct OneBest {
    /// Value of its pieces.
    pub value: u64,
    /// No way of cutting is worth more than this; the same as `value` when proven.
    pub at_most: u64,
    /// How the sheet is taken apart.
    pub tree: Node,
    /// How many of each kind it holds.
    pub counts: Vec<u32>,
    /// Blocks that were built.
    pub blocks: usize,
    /// Searches that ended early.
    pub caps: Vec<Cap>,
}
