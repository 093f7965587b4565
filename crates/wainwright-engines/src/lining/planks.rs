//! Planks of a surface: what is asked for and what comes out. Course lines, stretches and joints
//! are found in the modules next to this one and put together in `lay`.

use wainwright_units::Length;

use super::courses::{Across, Courses, Fit};
use super::estimate::{Estimate, Shop, StockLength};
use super::joints::JointRules;
use super::lay::Boards;
use super::piece::{Material, Piece, areal_mass};
use super::surface::{Areas, Backing, Direction, Rect, SHORTEST_LONGEST, Surface, most};
use crate::refusal::{Refusal, above_zero, not_below_zero, require};

/// Most courses of a surface.
const MOST_COURSES: usize = 2000;

/// How far joints have to be from one another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stagger {
    /// In neighbouring courses, at least \[m\].
    pub apart: Length,
    /// Joints no further than this from one another are in line \[m\].
    pub in_line: Length,
    /// Courses there have to be between joints in line.
    pub courses_between: usize,
}

/// How to lay planks.
#[derive(Debug, Clone, PartialEq)]
pub struct PlankOptions {
    /// Which way the planks run.
    pub runs: Direction,
    /// Width that a plank covers, measured on the board \[m\], above zero.
    pub face: Length,
    /// What they are made of.
    pub material: Material,
    /// Gap along the first and last course \[m\].
    pub edge_gap: Length,
    /// Gap at both ends of the courses \[m\].
    pub end_gap: Length,
    /// Gap round openings \[m\].
    pub opening_gap: Length,
    /// Narrower ripped courses are slivers \[m\].
    pub least_rip: Length,
    /// Shortest piece \[m\].
    pub least_piece: Length,
    /// Longest piece that can be handled \[m\].
    pub longest: Length,
    /// Lengths on sale; empty: as long as can be handled.
    pub stock: Vec<StockLength>,
    /// Width of a saw cut \[m\].
    pub kerf: Length,
    /// Rule for joints.
    pub stagger: Stagger,
    /// Whether boards can be ripped.
    pub can_rip: bool,
    /// Wider gap that the cover trim hides at each of the two edges beyond `edge_gap`; below the
    /// face \[m\].
    pub hidden_edge: Length,
    /// Strip beside an opening that its trim hides beyond `opening_gap` \[m\].
    pub hidden_opening: Length,
    /// Most that a course may be set off from the next \[m\].
    pub loosen: Length,
    /// Whether a board may lie over the one before (no tongue and groove).
    pub may_lap: bool,
    /// Length of board that a joint beyond the necessary ones has to save \[m\].
    pub joint_worth: Length,
    /// Fasteners where a plank crosses a support.
    pub fasteners_per_crossing: usize,
    /// Distance of fasteners on a whole backing \[m\], above zero.
    pub fastener_spacing: Length,
    /// Joint patterns to compare; 0: as many as take a fraction of a second.
    pub effort: usize,
}

/// One plank.
#[derive(Debug, Clone, PartialEq)]
pub struct Plank {
    /// Number, place, notches, mass.
    pub piece: Piece,
    /// Its course, from 1.
    pub run: usize,
    /// Length to cut \[m\].
    pub length: Length,
    /// Covering width it is left with \[m\].
    pub width: Length,
    /// Whether it is ripped to that width.
    pub ripped: bool,
    /// Whether another plank is joined to its start.
    pub starts_at_joint: bool,
    /// Whether another plank is joined to its end.
    pub ends_at_joint: bool,
    /// Its fasteners.
    pub fasteners: usize,
}

/// What the layout could not give.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Shortfall {
    /// A stretch that no support lets be joined, longer than a board or than can be handled.
    TooLong {
        /// Its course, from 1.
        run: usize,
        /// Its length \[m\].
        length: Length,
    },
    /// A joint nearer to another one than the rule allows.
    Stagger {
        /// Its course, from 1.
        run: usize,
        /// Where it is along the course \[m\].
        at: Length,
    },
    /// A joint of sheets on no support.
    Unsupported {
        /// Where it is across the supports \[m\].
        at: Length,
    },
    /// Pieces that have to be ripped although nobody can.
    NeedsRips {
        /// How many.
        pieces: usize,
    },
    /// Pieces that have to be notched although nobody can rip: short cuts along the grain.
    NeedsNotches {
        /// How many.
        pieces: usize,
    },
    /// A rest too small for a piece.
    LeftOut(Rect),
}

/// The other way to do it, with or without rips.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherWay {
    /// How its courses fill the surface.
    pub fit: Fit,
    /// What it takes.
    pub estimate: Estimate,
    /// Pieces ripped.
    pub rips: usize,
    /// Pieces notched.
    pub notches: usize,
}

/// Planks of one surface.
#[derive(Debug, Clone, PartialEq)]
pub struct Planks {
    /// Course lines.
    pub courses: Courses,
    /// How they fill the surface.
    pub fit: Fit,
    /// Planks course by course, in order of number.
    pub planks: Vec<Plank>,
    /// Where the area goes.
    pub areas: Areas,
    /// What the planks take, estimated.
    pub estimate: Estimate,
    /// Pieces ripped to a width.
    pub rips: usize,
    /// Pieces with a notch or a hole.
    pub notches: usize,
    /// Cuts along the grain together \[m\].
    pub lengthwise: Length,
    /// Fasteners together.
    pub fasteners: usize,
    /// Ends of planks that no support holds; zero on a whole backing.
    pub loose_ends: usize,
    /// Widest stretch of a plank between two supports or a support and its end \[m\]; zero on a
    /// whole backing.
    pub widest_span: Length,
    /// A bead of adhesive wherever a plank crosses a support; along every plank on a whole
    /// backing \[m\].
    pub adhesive: Length,
    /// What could not be had.
    pub shortfalls: Vec<Shortfall>,
    /// Where rips are possible: the cheapest way without, if there is one and it is another one.
    /// Where they are not: the way with rips that this one replaces.
    pub other: Option<OtherWay>,
}

/// Lays planks on a surface.
///
/// # Errors
/// Values out of range, a surface smaller than its gaps, too many of anything.
pub fn planks(
    surface: &Surface,
    backing: &Backing,
    options: &PlankOptions,
) -> Result<Planks, Refusal> {
    surface.check()?;
    backing.check()?;
    let boards = Boards::new(surface, backing, options)?;
    let with = boards.lay(&boards.across.with_rips())?;
    let Some(lay) = boards.best_without_rips() else {
        return Ok(with.honest(options.can_rip));
    };
    let without = boards.lay(&lay)?;
    if with.rips == 0 && with.notches <= without.notches {
        return Ok(with.honest(options.can_rip));
    }
    let (mut kept, other) = if options.can_rip {
        (with, without)
    } else {
        (without.honest(false), with)
    };
    let differs = other.fit != kept.fit;
    kept.other = differs.then_some(OtherWay {
        fit: other.fit,
        estimate: other.estimate,
        rips: other.rips,
        notches: other.notches,
    });
    Ok(kept)
}

impl Planks {
    /// Says what somebody who cannot rip is still asked to do.
    fn honest(mut self, can_rip: bool) -> Self {
        if !can_rip && self.rips > 0 {
            self.shortfalls
                .push(Shortfall::NeedsRips { pieces: self.rips });
        }
        if !can_rip && self.notches > 0 {
            self.shortfalls.push(Shortfall::NeedsNotches {
                pieces: self.notches,
            });
        }
        self
    }
}

impl PlankOptions {
    pub(super) fn check(&self) -> Result<(), Refusal> {
        areal_mass(&self.material)?;
        for (field, value) in [
            ("covering width [m]", self.face),
            ("distance of fasteners [m]", self.fastener_spacing),
        ] {
            above_zero(field, value.metres())?;
        }
        for (field, value) in [
            ("gap at edges [m]", self.edge_gap),
            ("gap at ends [m]", self.end_gap),
            ("gap round openings [m]", self.opening_gap),
            ("narrowest course [m]", self.least_rip),
            ("shortest piece [m]", self.least_piece),
            ("stagger [m]", self.stagger.apart),
            ("distance in line [m]", self.stagger.in_line),
            ("hidden gap [m]", self.hidden_edge),
            ("hidden strip [m]", self.hidden_opening),
            ("gap between courses [m]", self.loosen),
            ("worth of a joint [m]", self.joint_worth),
        ] {
            not_below_zero(field, value.metres())?;
        }
        let (face, longest) = (self.face.metres(), self.longest.metres());
        require(
            "longest piece [m]",
            longest,
            longest >= SHORTEST_LONGEST,
            "at least 0.1 m",
        )?;
        require(
            "hidden gap [m]",
            self.hidden_edge.metres(),
            self.hidden_edge.metres() < face && self.hidden_opening.metres() < face,
            "below the covering width, as the hidden strip beside openings",
        )?;
        most("courses between joints", self.stagger.courses_between, 50)
    }

    pub(super) fn across(&self, whole: f64) -> Result<Across, Refusal> {
        let (gap, face) = (self.edge_gap.metres(), self.face.metres());
        above_zero(
            "size across the courses less its gaps [m]",
            whole - 2.0 * gap,
        )?;
        most("courses", (whole / face).ceil() as usize, MOST_COURSES)?;
        Ok(Across {
            whole,
            gap,
            face,
            least_rip: self.least_rip.metres(),
            hidden: self.hidden_edge.metres(),
            loosen: self.loosen.metres(),
            may_lap: self.may_lap,
        })
    }

    pub(super) fn joint_rules(&self, shop: &Shop) -> JointRules {
        let board = shop.longest().unwrap_or(f64::INFINITY);
        JointRules {
            apart: self.stagger.apart.metres(),
            in_line: self.stagger.in_line.metres(),
            courses_between: self.stagger.courses_between,
            longest: self.longest.metres().min(board),
            least_piece: self.least_piece.metres(),
            worth: self.joint_worth.metres(),
            effort: self.effort,
        }
    }
}
