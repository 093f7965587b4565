//! Battens across the ribs: at edges, at a spacing, round openings. What is laid on them is not here.

use wainwright_units::Length;

use super::piece::{Material, Piece, area_of, areal_mass};
use super::plane::{NOTHING, Patch, covered, merged};
use super::surface::{
    Areas, Backing, Direction, Rect, SHORTEST_LONGEST, SupportLine, Surface, most,
};
use crate::refusal::{Refusal, above_zero, not_below_zero, require};

/// Most battens between two edges.
const MOST_BATTENS: usize = 500;

/// How battens are spread between the edges.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Spaced {
    /// The same distance everywhere, not above the spacing.
    Even,
    /// The spacing itself from the first edge, the rest at the far one: sheets end on them.
    FromStart,
}

/// How to lay battens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FurringOptions {
    /// Width of a batten on the surface \[m\], above zero.
    pub width: Length,
    /// What it is made of; its thickness stands off the ribs.
    pub material: Material,
    /// Most distance from centre to centre \[m\], above the width.
    pub spacing: Length,
    /// How they are spread.
    pub spaced: Spaced,
    /// Whether upright ends of the surface get a batten too (across the others).
    pub close_ends: bool,
    /// Whether openings get a frame of battens.
    pub round_openings: bool,
    /// Longest piece \[m\]; longer ones are joined on a rib where there is one.
    pub longest: Length,
    /// Shorter rests are left out \[m\].
    pub least_piece: Length,
}

/// Why a batten is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BattenRole {
    /// Along an edge of the surface.
    Edge,
    /// Between the edges.
    Field,
    /// Round the opening of this index.
    Opening(usize),
}

/// One batten.
#[derive(Debug, Clone, PartialEq)]
pub struct Batten {
    /// Number, place, mass.
    pub piece: Piece,
    /// Which way it runs.
    pub runs: Direction,
    /// Length to cut \[m\].
    pub length: Length,
    /// Why it is there.
    pub role: BattenRole,
    /// Ribs it crosses or lies on: a fastener each; none when its neighbours alone hold it.
    pub ribs_crossed: usize,
}

/// All battens of a surface.
#[derive(Debug, Clone, PartialEq)]
pub struct Furring {
    /// Battens in order of number.
    pub battens: Vec<Batten>,
    /// Where the area goes; what is bare is left out.
    pub areas: Areas,
    /// Fasteners, one at every rib crossed.
    pub fasteners: usize,
}

impl Furring {
    /// The battens as what the next layer is fixed to.
    pub fn backing(&self) -> Backing {
        let line = |batten: &Batten| {
            let patch = Patch::of(&batten.piece.rect, batten.runs);
            SupportLine {
                runs: batten.runs,
                at: Length::from_metres(0.5 * (patch.v0 + patch.v1)),
                width: Length::from_metres(patch.wide()),
                spans: vec![(Length::from_metres(patch.u0), Length::from_metres(patch.u1))],
            }
        };
        Backing::Lines(self.battens.iter().map(line).collect())
    }

    /// The battens as rectangles, for foam between them.
    pub fn rects(&self) -> Vec<Rect> {
        let battens = self.battens.iter();
        battens.map(|batten| batten.piece.rect).collect()
    }
}

/// Lays battens across the ribs.
///
/// # Errors
/// Sizes that are not above zero, a spacing not above the width of a batten, too many of anything.
pub fn furring(surface: &Surface, options: &FurringOptions) -> Result<Furring, Refusal> {
    surface.check()?;
    options.check()?;
    let runs = surface.ribs_run.across();
    let (long, across) = surface.size(runs);
    let width = options.width.metres();
    require(
        "width of a batten [m]",
        width,
        2.0 * width <= across,
        "at most half of the surface",
    )?;
    let mut layer = Layer::new(surface, options)?;
    layer.frames();
    if options.close_ends {
        for u0 in [0.0, long - width] {
            let end = Patch {
                u0,
                u1: u0 + width,
                v0: 0.0,
                v1: across,
            };
            layer.lay(&end.turned(), runs.across(), BattenRole::Edge);
        }
    }
    let starts = options.starts(across)?;
    let last = starts.len().saturating_sub(1);
    for (index, &v0) in starts.iter().enumerate() {
        let role = if index == 0 || index == last {
            BattenRole::Edge
        } else {
            BattenRole::Field
        };
        let strip = Patch {
            u0: 0.0,
            u1: long,
            v0,
            v1: v0 + width,
        };
        layer.lay(&strip, runs, role);
    }
    layer.finish()
}

impl FurringOptions {
    fn check(&self) -> Result<(), Refusal> {
        above_zero("width of a batten [m]", self.width.metres())?;
        areal_mass(&self.material)?;
        let (spacing, width) = (self.spacing.metres(), self.width.metres());
        require(
            "spacing of battens [m]",
            spacing,
            spacing > width,
            "above the width of a batten",
        )?;
        let longest = self.longest.metres();
        require(
            "longest batten [m]",
            longest,
            longest >= SHORTEST_LONGEST,
            "at least 0.1 m",
        )?;
        not_below_zero("shortest batten [m]", self.least_piece.metres())
    }

    /// Lower edges of the battens [m].
    fn starts(&self, across: f64) -> Result<Vec<f64>, Refusal> {
        let (free, spacing) = (across - self.width.metres(), self.spacing.metres());
        let count = (free / spacing - 1e-9).ceil().max(1.0);
        most("battens between two edges", count as usize, MOST_BATTENS)?;
        let step = match self.spaced {
            Spaced::Even => free / count,
            Spaced::FromStart => spacing,
        };
        // From the start, centres are at multiples of the spacing from the edge itself, but for
        // the first one, which lies inside.
        let place = |index: usize| match (self.spaced, index) {
            (_, 0) => 0.0,
            (Spaced::Even, _) => index as f64 * step,
            (Spaced::FromStart, _) => index as f64 * step - 0.5 * self.width.metres(),
        };
        let mut starts: Vec<f64> = (0..count as usize).map(place).collect();
        let width = self.width.metres();
        starts.retain(|&start| start == 0.0 || start + width <= free + NOTHING);
        // Dropping one that would reach into the last may leave too wide a bay: then double up.
        let before = starts.last().copied().unwrap_or(0.0);
        if free - before > spacing + NOTHING && before + width < free - width {
            starts.push(free - width);
        }
        starts.push(free);
        Ok(starts)
    }
}

/// Battens laid so far.
struct Layer<'s> {
    surface: &'s Surface,
    options: &'s FurringOptions,
    kg_m2: f64,
    battens: Vec<Batten>,
}

impl<'s> Layer<'s> {
    fn new(surface: &'s Surface, options: &'s FurringOptions) -> Result<Self, Refusal> {
        Ok(Self {
            surface,
            options,
            kg_m2: areal_mass(&options.material)?,
            battens: Vec::new(),
        })
    }

    /// Frames round openings: two battens along, as long as the opening and both others wide, and
    /// two across between them.
    fn frames(&mut self) {
        if !self.options.round_openings {
            return;
        }
        let runs = self.surface.ribs_run.across();
        let width = self.options.width.metres();
        for (index, hole) in self.surface.blocks(runs, 0.0).into_iter().enumerate() {
            let ring = hole.grown(width);
            let role = BattenRole::Opening(index);
            for (v0, v1) in [(ring.v0, hole.v0), (hole.v1, ring.v1)] {
                self.lay(&Patch { v0, v1, ..ring }, runs, role);
            }
            for (u0, u1) in [(ring.u0, hole.u0), (hole.u1, ring.u1)] {
                let side = Patch { u0, u1, ..hole };
                self.lay(&side.turned(), runs.across(), role);
            }
        }
    }

    /// Lays a strip where nothing is yet, in pieces that are short enough.
    fn lay(&mut self, strip: &Patch, runs: Direction, role: BattenRole) {
        let whole = self.surface.patch(runs);
        let Some(inside) = strip.clip(&whole) else {
            return;
        };
        if inside.wide() < self.options.width.metres() - NOTHING {
            return;
        }
        let mut taken = self.surface.blocks(runs, 0.0);
        let laid = self.battens.iter();
        taken.extend(laid.map(|batten| Patch::of(&batten.piece.rect, runs)));
        let touching = taken
            .iter()
            .filter(|block| block.v0 < inside.v1 - NOTHING && block.v1 > inside.v0 + NOTHING);
        let blocked = merged(touching.map(|block| (block.u0, block.u1)).collect());
        let mut from = inside.u0;
        for (low, high) in blocked.into_iter().chain([(inside.u1, inside.u1)]) {
            self.lay_free(from, low.min(inside.u1), &inside, runs, role);
            from = from.max(high);
        }
    }

    fn lay_free(&mut self, from: f64, to: f64, strip: &Patch, runs: Direction, role: BattenRole) {
        let mut from = from;
        while to - from > self.options.least_piece.metres().max(NOTHING) {
            let end = self.joint(from, to, runs);
            let part = Patch {
                u0: from,
                u1: end,
                ..*strip
            };
            let piece = Piece::cut(&part, &[], runs, self.kg_m2, 0.0);
            self.battens.push(Batten {
                piece,
                runs,
                length: Length::from_metres(part.long()),
                role,
                ribs_crossed: self.ribs_crossed(&part, runs),
            });
            from = end;
        }
    }

    /// Where a batten ends that begins here: at the far end, or on the last rib within reach.
    fn joint(&self, from: f64, to: f64, runs: Direction) -> f64 {
        let longest = self.options.longest.metres();
        if to - from <= longest + NOTHING {
            return to;
        }
        let crossing = runs != self.surface.ribs_run;
        let ribs = self.surface.ribs.iter().map(|rib| rib.at.metres());
        let reach = ribs.filter(|&at| {
            crossing && at > from + NOTHING && at <= from + longest && at < to - NOTHING
        });
        reach
            .fold(None, |best: Option<f64>, at| {
                Some(best.map_or(at, |best| best.max(at)))
            })
            .unwrap_or(from + longest)
    }

    fn ribs_crossed(&self, part: &Patch, runs: Direction) -> usize {
        let ribs = self.surface.ribs.iter();
        let meets = |at: f64, half: f64, low: f64, high: f64| {
            at + half > low + NOTHING && at - half < high - NOTHING
        };
        let count = ribs.filter(|rib| {
            let (at, half) = (rib.at.metres(), 0.5 * rib.width.metres());
            if runs == self.surface.ribs_run {
                meets(at, half, part.v0, part.v1)
            } else {
                meets(at, half, part.u0, part.u1)
            }
        });
        count.count()
    }

    fn finish(mut self) -> Result<Furring, Refusal> {
        for (index, batten) in self.battens.iter_mut().enumerate() {
            batten.piece.number = index + 1;
        }
        let whole = self.surface.patch(Direction::Width);
        let openings = self.surface.blocks(Direction::Width, 0.0);
        let laid: Vec<Patch> = self
            .battens
            .iter()
            .map(|batten| Patch::of(&batten.piece.rect, Direction::Width))
            .collect();
        let net = whole.area() - covered(&whole, &openings);
        let both: Vec<Patch> = openings.iter().chain(&laid).copied().collect();
        let bare = whole.area() - covered(&whole, &both);
        let pieces = area_of(self.battens.iter().map(|batten| &batten.piece));
        Ok(Furring {
            areas: Areas::close(self.surface, net, pieces, 0.0, bare)?,
            fasteners: self.battens.iter().map(|batten| batten.ribs_crossed).sum(),
            battens: self.battens,
        })
    }
}
