//! Sheets on ribs or battens: joints on supports, pieces cut round openings. Which pieces share a
//! sheet is another engine's.

use wainwright_units::Length;

use super::foam::split;
use super::piece::{Material, Piece, area_of, areal_mass};
use super::plane::{NOTHING, Patch, covered, parts, slabs};
use super::planks::Shortfall;
use super::surface::{Areas, Backing, Direction, Line, Surface};
use crate::refusal::{Refusal, above_zero, not_below_zero, require};

/// Smallest side of a sheet [m].
const SMALLEST: f64 = 0.1;

/// How to lay sheets.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SheetOptions {
    /// Length and width of a sheet \[m\].
    pub sheet: (Length, Length),
    /// Which way its length lies; `None`: whichever needs fewer pieces.
    pub grain: Option<Direction>,
    /// What it is made of.
    pub material: Material,
    /// Gap along the edges of the surface \[m\].
    pub edge_gap: Length,
    /// Gap between two sheets \[m\].
    pub joint_gap: Length,
    /// Gap round openings \[m\].
    pub opening_gap: Length,
    /// Narrower or shorter rests are left out \[m\].
    pub least_piece: Length,
    /// Distance of fasteners along the edges of a sheet \[m\], above zero.
    pub fastener_edge: Length,
    /// Distance of fasteners on supports between \[m\], above zero.
    pub fastener_field: Length,
}

/// Sheets of one surface.
#[derive(Debug, Clone, PartialEq)]
pub struct Sheets {
    /// Pieces in order of number; the outline is the size to cut.
    pub pieces: Vec<Piece>,
    /// Which way the length of the sheets lies.
    pub grain: Direction,
    /// Where the area goes.
    pub areas: Areas,
    /// Lines of joints along the supports, on their centres \[m\].
    pub joints: Vec<Length>,
    /// Fasteners together.
    pub fasteners: usize,
    /// A bead of adhesive on every support under a sheet \[m\].
    pub adhesive: Length,
    /// What could not be had.
    pub shortfalls: Vec<Shortfall>,
}

/// Lays sheets on a surface.
///
/// # Errors
/// Values out of range, or a surface smaller than its gaps.
pub fn sheets_on(
    surface: &Surface,
    backing: &Backing,
    options: &SheetOptions,
) -> Result<Sheets, Refusal> {
    surface.check()?;
    backing.check()?;
    options.check(surface)?;
    let ways = match options.grain {
        Some(grain) => vec![grain],
        None => vec![Direction::Width, Direction::Height],
    };
    let mut best: Option<Sheets> = None;
    for grain in ways {
        let sheets = Boarding::new(surface, backing, options, grain)?.lay()?;
        let rank = |one: &Sheets| (one.shortfalls.len(), one.pieces.len());
        if best
            .as_ref()
            .is_none_or(|known| rank(&sheets) < rank(known))
        {
            best = Some(sheets);
        }
    }
    best.ok_or(Refusal::new("ways to lay sheets", 0.0, "at least one"))
}

impl SheetOptions {
    fn check(&self, surface: &Surface) -> Result<(), Refusal> {
        areal_mass(&self.material)?;
        for side in [self.sheet.0.metres(), self.sheet.1.metres()] {
            require(
                "side of a sheet [m]",
                side,
                side >= SMALLEST,
                "at least 0.1 m",
            )?;
        }
        for (field, value) in [
            ("gap at edges [m]", self.edge_gap),
            ("gap between sheets [m]", self.joint_gap),
            ("gap round openings [m]", self.opening_gap),
            ("smallest piece [m]", self.least_piece),
        ] {
            not_below_zero(field, value.metres())?;
        }
        above_zero("distance of fasteners [m]", self.fastener_edge.metres())?;
        above_zero("distance of fasteners [m]", self.fastener_field.metres())?;
        for size in [surface.width, surface.height] {
            let free = size.metres() - 2.0 * self.edge_gap.metres();
            above_zero("size of the surface less its gaps [m]", free)?;
        }
        Ok(())
    }
}

/// One way to lay the sheets: `u` across the support lines.
struct Boarding<'s> {
    surface: &'s Surface,
    options: &'s SheetOptions,
    whole_backing: bool,
    lines: Vec<Line>,
    across: Direction,
    grain: Direction,
    /// Size of a sheet across and along the lines [m].
    size: (f64, f64),
    kg_m2: f64,
}

impl<'s> Boarding<'s> {
    fn new(
        surface: &'s Surface,
        backing: &Backing,
        options: &'s SheetOptions,
        grain: Direction,
    ) -> Result<Self, Refusal> {
        let (level, upright) = (
            backing.across(Direction::Height),
            backing.across(Direction::Width),
        );
        // Sheets end on the lines of which there are more; the others are frames of openings.
        let (across, lines) = if upright.len() >= level.len() {
            (Direction::Width, upright)
        } else {
            (Direction::Height, level)
        };
        let (long, wide) = (options.sheet.0.metres(), options.sheet.1.metres());
        Ok(Self {
            surface,
            options,
            whole_backing: *backing == Backing::Whole,
            lines,
            across,
            grain,
            size: if grain == across {
                (long, wide)
            } else {
                (wide, long)
            },
            kg_m2: areal_mass(&options.material)?,
        })
    }

    fn lay(&self) -> Result<Sheets, Refusal> {
        let (gap, joint) = (
            self.options.edge_gap.metres(),
            self.options.joint_gap.metres(),
        );
        let inside = self.surface.patch(self.across).grown(-gap);
        let blocks = self
            .surface
            .blocks(self.across, self.options.opening_gap.metres());
        // With half a joint more at both ends every piece is its cell less a joint.
        let wider = inside.grown(0.5 * joint);
        let mut shortfalls = Vec::new();
        let columns = self.columns(wider.u0, wider.u1, &mut shortfalls);
        let least = self.options.least_piece.metres() + joint;
        let rows = split(wider.v0, wider.v1, self.size.1 + joint, least);
        let (mut pieces, mut cells, mut left_out) = (Vec::new(), Vec::new(), 0.0);
        let (mut fasteners, mut adhesive) = (0, 0.0);
        for &(u0, u1) in &columns {
            for &(v0, v1) in &rows {
                let cell = Patch { u0, u1, v0, v1 }.grown(-0.5 * joint);
                cells.push(cell);
                for bit in bits(&cell, &blocks) {
                    let smallest = bit.long().min(bit.wide());
                    if smallest < self.options.least_piece.metres().max(NOTHING) {
                        left_out += bit.area() - covered(&bit, &blocks);
                        shortfalls.push(Shortfall::LeftOut(bit.rect(self.across)));
                        continue;
                    }
                    pieces.push(Piece::cut(&bit, &blocks, self.across, self.kg_m2, 0.0));
                    let (count, bead) = self.held(&bit, &blocks);
                    fasteners += count;
                    adhesive += bead;
                }
            }
        }
        for (index, piece) in pieces.iter_mut().enumerate() {
            piece.number = index + 1;
        }
        let net = inside.area() - covered(&inside, &blocks);
        let both: Vec<Patch> = cells.iter().chain(&blocks).copied().collect();
        let joints = inside.area() - covered(&inside, &both);
        let ends = columns.iter().skip(1).map(|column| column.0);
        Ok(Sheets {
            areas: Areas::close(self.surface, net, area_of(&pieces), joints, left_out)?,
            pieces,
            grain: self.grain,
            joints: ends.map(Length::from_metres).collect(),
            fasteners,
            adhesive: Length::from_metres(adhesive),
            shortfalls,
        })
    }

    /// Columns that end on supports: as few as can be, then the narrowest as wide as can be.
    fn columns(&self, from: f64, to: f64, shortfalls: &mut Vec<Shortfall>) -> Vec<(f64, f64)> {
        let joint = self.options.joint_gap.metres();
        let (size, least) = (
            self.size.0 + joint,
            self.options.least_piece.metres() + joint,
        );
        if self.whole_backing {
            return split(from, to, size, least);
        }
        for least in [least, joint + NOTHING] {
            if let Some(columns) = self.on_lines(from, to, size, least) {
                return columns;
            }
        }
        let columns = split(from, to, size, least);
        let joints = columns.iter().skip(1).map(|column| column.0);
        let loose = joints.filter(|&at| !self.lines.iter().any(|line| (line.at - at).abs() < 1e-6));
        shortfalls.extend(loose.map(|at| Shortfall::Unsupported {
            at: Length::from_metres(at),
        }));
        columns
    }

    fn on_lines(&self, from: f64, to: f64, size: f64, least: f64) -> Option<Vec<(f64, f64)>> {
        let inner = self.lines.iter().map(|line| line.at);
        let mut places = vec![from];
        places.extend(inner.filter(|&at| at > from + NOTHING && at < to - NOTHING));
        places.push(to);
        // Columns up to a place, the narrowest of them, and the place before.
        let mut best: Vec<Option<(usize, f64, usize)>> = vec![Some((0, f64::INFINITY, 0))];
        for (index, &at) in places.iter().enumerate().skip(1) {
            let mut here: Option<(usize, f64, usize)> = None;
            for (before, &start) in places.iter().enumerate().take(index) {
                let wide = at - start;
                if wide > size + NOTHING || wide < least {
                    continue;
                }
                let Some(Some((count, narrowest, _))) = best.get(before) else {
                    continue;
                };
                let new = (count + 1, narrowest.min(wide), before);
                let better = |old: (usize, f64, usize)| {
                    new.0 < old.0 || new.0 == old.0 && new.1 > old.1 + NOTHING
                };
                if here.is_none_or(better) {
                    here = Some(new);
                }
            }
            best.push(here);
        }
        let mut at = places.len() - 1;
        let mut columns = Vec::new();
        while at > 0 {
            let before = (*best.get(at)?)?.2;
            columns.push((*places.get(before)?, *places.get(at)?));
            at = before;
        }
        columns.reverse();
        Some(columns)
    }

    /// Fasteners and length of adhesive of one piece.
    fn held(&self, piece: &Patch, blocks: &[Patch]) -> (usize, f64) {
        let (edge, field) = (
            self.options.fastener_edge.metres(),
            self.options.fastener_field.metres(),
        );
        let in_row = |long: f64, every: f64| (long / every - 1e-9).ceil().max(1.0) as usize + 1;
        if self.whole_backing {
            let rows = in_row(piece.long(), field);
            return (
                rows * in_row(piece.wide(), field),
                rows as f64 * piece.wide(),
            );
        }
        let (mut fasteners, mut bead) = (0, 0.0);
        let reach = self.options.joint_gap.metres() + self.options.edge_gap.metres();
        for line in &self.lines {
            let strip = Patch {
                u0: line.at - line.half,
                u1: line.at + line.half,
                ..*piece
            };
            let Some(under) = strip.clip(piece) else {
                continue;
            };
            let at_end = |end: f64| (line.at - end).abs() <= line.half + reach;
            let every = if at_end(piece.u0) || at_end(piece.u1) {
                edge
            } else {
                field
            };
            let middle = 0.5 * (under.u0 + under.u1);
            let slab = slabs(&under, blocks)
                .into_iter()
                .find(|slab| slab.u0 <= middle && middle <= slab.u1);
            let Some(slab) = slab else { continue };
            for (low, high) in slab.free(under.v0, under.v1) {
                let spans = line.spans.iter();
                let there = spans.map(|&(from, to)| high.min(to) - low.max(from));
                let long = there.filter(|long| *long > NOTHING).sum::<f64>();
                if long > NOTHING {
                    fasteners += in_row(long, every);
                    bead += long;
                }
            }
        }
        (fasteners, bead)
    }
}

/// What openings leave of a cell, as outlines of the pieces that hang together.
fn bits(cell: &Patch, blocks: &[Patch]) -> Vec<Patch> {
    let free = parts(cell, blocks, true);
    let mut groups: Vec<Vec<Patch>> = Vec::new();
    for part in free {
        let (touching, mut apart): (Vec<_>, Vec<_>) = groups
            .into_iter()
            .partition(|group: &Vec<Patch>| group.iter().any(|one| touch(one, &part)));
        let mut joined: Vec<Patch> = touching.into_iter().flatten().collect();
        joined.push(part);
        apart.push(joined);
        groups = apart;
    }
    let outline = |group: &Vec<Patch>| {
        group.iter().copied().reduce(|one, other| Patch {
            u0: one.u0.min(other.u0),
            u1: one.u1.max(other.u1),
            v0: one.v0.min(other.v0),
            v1: one.v1.max(other.v1),
        })
    };
    let mut outlines: Vec<Patch> = groups.iter().filter_map(outline).collect();
    let over = |one: &Patch, other: &Patch| one.clip(other).is_some();
    // Outlines that reach over one another (a piece inside the corner of another) are cut apart.
    let crossing = outlines.iter().enumerate().any(|(index, one)| {
        let mut later = outlines.iter().skip(index + 1);
        later.any(|other| over(one, other))
    });
    if crossing {
        outlines = parts(cell, blocks, true);
    }
    outlines.sort_by(|one, other| {
        one.u0
            .total_cmp(&other.u0)
            .then(one.v0.total_cmp(&other.v0))
    });
    outlines
}

/// Whether two patches share a stretch of edge.
fn touch(one: &Patch, other: &Patch) -> bool {
    let u = one.u1.min(other.u1) - one.u0.max(other.u0);
    let v = one.v1.min(other.v1) - one.v0.max(other.v0);
    u > NOTHING && v > -NOTHING || v > NOTHING && u > -NOTHING
}
