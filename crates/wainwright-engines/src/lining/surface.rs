//! A surface with its ribs and openings, and what the next layer can be fixed to. What is laid on
//! it is not here.

use wainwright_units::{Area, Length};

use super::plane::{Patch, covered, merged};
use crate::refusal::{Refusal, above_zero, finite, not_below_zero, require};

/// Most ribs of a surface, and most lines of a backing.
pub const MOST_LINES: usize = 500;
/// Least that "the longest piece" may be [m].
pub(super) const SHORTEST_LONGEST: f64 = 0.1;
/// Longest side of a surface [m].
const LARGEST: f64 = 100.0;
/// Most openings of a surface.
pub const MOST_OPENINGS: usize = 200;

/// A direction on the surface.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Direction {
    /// Parallel to the width: level on a wall.
    Width,
    /// Parallel to the height: upright on a wall.
    Height,
}

/// A rectangle on the surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rect {
    /// Left edge \[m\].
    pub x: Length,
    /// Lower edge \[m\].
    pub y: Length,
    /// Size along the width \[m\].
    pub width: Length,
    /// Size along the height \[m\].
    pub height: Length,
}

/// A door, window, vent, lamp, hatch: nothing is laid there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Opening {
    /// Its outline, or the box around it; clipped to the surface.
    pub rect: Rect,
    /// Whether it is round. It is laid out by its box; the drawing shows the circle.
    pub round: bool,
}

/// A rib from one edge of the surface to the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rib {
    /// Its centre line \[m\].
    pub at: Length,
    /// How much of the surface it takes \[m\], above zero.
    pub width: Length,
    /// How far it stands off the skin \[m\].
    pub depth: Length,
}

/// A wall, ceiling or floor as a flat rectangle; a bowed one by its developed size.
#[derive(Debug, Clone, PartialEq)]
pub struct Surface {
    /// Size along x \[m\], above zero.
    pub width: Length,
    /// Size along y \[m\], above zero.
    pub height: Length,
    /// Which way the ribs run.
    pub ribs_run: Direction,
    /// The ribs.
    pub ribs: Vec<Rib>,
    /// The openings; they may overlap one another.
    pub openings: Vec<Opening>,
}

/// What the next layer is fixed to.
#[derive(Debug, Clone, PartialEq)]
pub enum Backing {
    /// Something solid everywhere, such as a plywood floor.
    Whole,
    /// Ribs or battens.
    Lines(Vec<SupportLine>),
}

/// A rib or batten, or several in one line.
#[derive(Debug, Clone, PartialEq)]
pub struct SupportLine {
    /// Which way it runs.
    pub runs: Direction,
    /// Its centre line \[m\].
    pub at: Length,
    /// Its width \[m\], above zero.
    pub width: Length,
    /// From where to where it is there, ascending \[m\].
    pub spans: Vec<(Length, Length)>,
}

/// Where the area of a surface goes; the last four add up to the first.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Areas {
    /// The whole surface \[m²\].
    pub surface: Area,
    /// Under the pieces of the layer \[m²\].
    pub pieces: Area,
    /// Openings, counted once \[m²\].
    pub openings: Area,
    /// Gaps at edges, at joints and round openings \[m²\].
    pub gaps: Area,
    /// Neither: bare between battens, or a rest too small for a piece \[m²\].
    pub left_out: Area,
}

impl Direction {
    /// The other direction.
    pub const fn across(self) -> Direction {
        match self {
            Direction::Width => Direction::Height,
            Direction::Height => Direction::Width,
        }
    }
}

impl Rect {
    /// Its area \[m²\].
    pub fn area(&self) -> Area {
        Area::from_square_metres(self.width.metres() * self.height.metres())
    }

    /// Its middle, along the width and along the height \[m\].
    pub fn middle(&self) -> (Length, Length) {
        (self.x + self.width * 0.5, self.y + self.height * 0.5)
    }
}

impl Surface {
    /// The ribs as what the next layer is fixed to.
    pub fn rib_backing(&self) -> Backing {
        let end = self.size(self.ribs_run).0;
        let line = |rib: &Rib| SupportLine {
            runs: self.ribs_run,
            at: rib.at,
            width: rib.width,
            spans: vec![(Length::ZERO, Length::from_metres(end))],
        };
        Backing::Lines(self.ribs.iter().map(line).collect())
    }

    /// The ribs as rectangles, for foam between them.
    pub fn rib_rects(&self) -> Vec<Rect> {
        let end = self.size(self.ribs_run).0;
        let patch = |rib: &Rib| {
            let (at, half) = (rib.at.metres(), 0.5 * rib.width.metres());
            Patch {
                u0: 0.0,
                u1: end,
                v0: at - half,
                v1: at + half,
            }
        };
        let inside = self.patch(self.ribs_run);
        let ribs = self.ribs.iter().filter_map(|rib| patch(rib).clip(&inside));
        ribs.map(|patch| patch.rect(self.ribs_run)).collect()
    }

    /// Size along and across a direction [m].
    pub(super) fn size(&self, along: Direction) -> (f64, f64) {
        let (width, height) = (self.width.metres(), self.height.metres());
        match along {
            Direction::Width => (width, height),
            Direction::Height => (height, width),
        }
    }

    /// The whole surface.
    pub(super) fn patch(&self, along: Direction) -> Patch {
        let (u1, v1) = self.size(along);
        Patch {
            u0: 0.0,
            u1,
            v0: 0.0,
            v1,
        }
    }

    /// The openings, each larger by a gap all round.
    pub(super) fn blocks(&self, along: Direction, gap: f64) -> Vec<Patch> {
        let openings = self.openings.iter();
        openings
            .map(|opening| Patch::of(&opening.rect, along).grown(gap))
            .collect()
    }

    pub(super) fn check(&self) -> Result<(), Refusal> {
        for (field, size) in [
            ("width of the surface [m]", self.width.metres()),
            ("height of the surface [m]", self.height.metres()),
        ] {
            require(
                field,
                size,
                size > 0.0 && size <= LARGEST,
                "above zero, up to 100 m",
            )?;
        }
        most("number of ribs", self.ribs.len(), MOST_LINES)?;
        most("number of openings", self.openings.len(), MOST_OPENINGS)?;
        for (index, rib) in self.ribs.iter().enumerate() {
            let checked = finite("centre line [m]", rib.at.metres())
                .and_then(|()| above_zero("width [m]", rib.width.metres()))
                .and_then(|()| not_below_zero("depth [m]", rib.depth.metres()));
            checked.map_err(|refusal| refusal.at("rib", index))?;
        }
        for (index, opening) in self.openings.iter().enumerate() {
            let rect = &opening.rect;
            let checked = finite("left edge [m]", rect.x.metres())
                .and_then(|()| finite("lower edge [m]", rect.y.metres()))
                .and_then(|()| above_zero("width [m]", rect.width.metres()))
                .and_then(|()| above_zero("height [m]", rect.height.metres()));
            checked.map_err(|refusal| refusal.at("opening", index))?;
        }
        Ok(())
    }
}

impl Backing {
    /// Lines across the runs: centre, half width, spans [m], ascending.
    pub(super) fn across(&self, runs: Direction) -> Vec<Line> {
        let Backing::Lines(lines) = self else {
            return Vec::new();
        };
        let mut found: Vec<Line> = Vec::new();
        for line in lines.iter().filter(|line| line.runs != runs) {
            let (at, half) = (line.at.metres(), 0.5 * line.width.metres());
            let spans = line.spans.iter().map(|(a, b)| (a.metres(), b.metres()));
            match found
                .iter_mut()
                .find(|one| (one.at - at).abs() < 1e-6 && (one.half - half).abs() < 1e-6)
            {
                Some(same) => same.spans.extend(spans),
                None => found.push(Line {
                    at,
                    half,
                    spans: spans.collect(),
                }),
            }
        }
        for line in &mut found {
            line.spans = merged(std::mem::take(&mut line.spans));
        }
        found.sort_by(|one, other| one.at.total_cmp(&other.at));
        found
    }

    pub(super) fn check(&self) -> Result<(), Refusal> {
        let Backing::Lines(lines) = self else {
            return Ok(());
        };
        most("number of support lines", lines.len(), 20 * MOST_LINES)?;
        for (index, line) in lines.iter().enumerate() {
            let spans = line
                .spans
                .iter()
                .all(|(a, b)| a.metres().is_finite() && b.metres().is_finite());
            let checked = finite("centre line [m]", line.at.metres())
                .and_then(|()| above_zero("width [m]", line.width.metres()))
                .and_then(|()| require("spans", f64::NAN, spans, "finite ends of every stretch"));
            checked.map_err(|refusal| refusal.at("support line", index))?;
        }
        Ok(())
    }
}

/// A support line across the runs [m].
#[derive(Debug, Clone)]
pub(super) struct Line {
    pub at: f64,
    pub half: f64,
    pub spans: Vec<(f64, f64)>,
}

impl Line {
    /// Whether it is there all the way between two places across the runs.
    pub fn covers(&self, v0: f64, v1: f64) -> bool {
        let slack = 1e-6;
        let mut spans = self.spans.iter();
        spans.any(|&(low, high)| low <= v0 + slack && high >= v1 - slack)
    }

    /// Whether it is there anywhere between two places across the runs.
    pub fn meets(&self, v0: f64, v1: f64) -> bool {
        let mut spans = self.spans.iter();
        spans.any(|&(low, high)| low < v1 - 1e-6 && high > v0 + 1e-6)
    }
}

impl Areas {
    /// Adds up where the area went.
    ///
    /// `net` is what openings, their gaps and the gaps at edges leave, found over the whole surface
    /// at once; pieces, joint gaps and rests were found one by one.
    pub(super) fn close(
        surface: &Surface,
        net: f64,
        pieces: f64,
        joint_gaps: f64,
        left_out: f64,
    ) -> Result<Areas, Refusal> {
        let whole = surface.patch(Direction::Width);
        let openings = covered(&whole, &surface.blocks(Direction::Width, 0.0));
        let apart = pieces + joint_gaps + left_out - net;
        require(
            "area that does not add up [m²]",
            apart,
            apart.abs() <= 1e-9 * whole.area().max(1.0),
            "nothing: pieces, gaps and rests fill what is to be lined",
        )?;
        let area = Area::from_square_metres;
        Ok(Areas {
            surface: area(whole.area()),
            pieces: area(pieces),
            openings: area(openings),
            gaps: area((whole.area() - openings - net + joint_gaps).max(0.0)),
            left_out: area(left_out.max(0.0)),
        })
    }
}

/// Refuses longer lists.
pub(super) fn most(field: &'static str, count: usize, most: usize) -> Result<(), Refusal> {
    require(
        field,
        count as f64,
        count <= most,
        "not more than the cap of this engine",
    )
}
