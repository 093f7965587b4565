//! Foam between ribs or battens, in pieces of a sheet. Cutting plans of the sheets are not here.

use wainwright_units::Length;

use super::piece::{Material, Piece, area_of, areal_mass};
use super::plane::{NOTHING, Patch, covered, parts};
use super::surface::{Areas, Direction, Rect, Surface, most};
use crate::refusal::{Refusal, above_zero, not_below_zero, require};

/// Most rectangles the foam goes between.
const MOST_BETWEEN: usize = 2000;
/// Most pieces along one side of a bay: more than a surface of 100 m holds.
const MOST_ALONG: f64 = 1001.0;
/// Smallest side of a sheet [m].
const SMALLEST_SHEET: f64 = 0.1;

/// How to fill with foam.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FoamOptions {
    /// What it is.
    pub material: Material,
    /// Left free on every side of a piece, for expanding foam or tape \[m\].
    pub clearance: Length,
    /// Size of a sheet \[m\]; pieces may be turned.
    pub sheet: (Length, Length),
    /// Narrower or shorter rests are left out \[m\].
    pub least_piece: Length,
    /// Distance between beads of adhesive \[m\], above zero.
    pub bead_spacing: Length,
}

/// All foam of a surface.
#[derive(Debug, Clone, PartialEq)]
pub struct Foam {
    /// Plain rectangles in the size to cut, in order of number.
    pub pieces: Vec<Piece>,
    /// Where the area goes: what ribs or battens take counts with the gaps.
    pub areas: Areas,
    /// Tape over all seams, those between two pieces counted once \[m\].
    pub tape: Length,
    /// Beads of adhesive along the pieces \[m\].
    pub adhesive: Length,
}

/// Fills what ribs or battens and openings leave.
///
/// # Errors
/// Sizes that are not above zero, a clearance below zero, too many of anything.
pub fn foam(surface: &Surface, between: &[Rect], options: &FoamOptions) -> Result<Foam, Refusal> {
    surface.check()?;
    let kg_m2 = options.check()?;
    most("number of ribs and battens", between.len(), MOST_BETWEEN)?;
    let whole = surface.patch(Direction::Width);
    let mut blocks = surface.blocks(Direction::Width, 0.0);
    blocks.extend(between.iter().map(|rect| Patch::of(rect, Direction::Width)));
    let net = whole.area() - covered(&whole, &blocks);
    let (mut pieces, mut clear, mut left_out, mut seams) = (Vec::new(), 0.0, 0.0, 0.0);
    let (mut beads, bead) = (0.0, options.bead_spacing.metres());
    for bay in bays(&whole, &blocks) {
        let cells = options.cells(&bay);
        seams += 2.0 * (bay.long() + bay.wide()) + inner_seams(&bay, &cells);
        for cell in cells {
            let piece = cell.grown(-options.clearance.metres());
            if piece.long().min(piece.wide()) < options.least_piece.metres().max(NOTHING) {
                left_out += cell.area();
                continue;
            }
            clear += cell.area() - piece.area();
            let (short, long) = minmax(piece.long(), piece.wide());
            beads += (short / bead).ceil().max(1.0) * long;
            pieces.push(Piece::cut(&piece, &[], Direction::Width, kg_m2, 0.0));
        }
    }
    for (index, piece) in pieces.iter_mut().enumerate() {
        piece.number = index + 1;
    }
    Ok(Foam {
        areas: Areas::close(surface, net, area_of(&pieces), clear, left_out)?,
        pieces,
        tape: Length::from_metres(seams),
        adhesive: Length::from_metres(beads),
    })
}

impl FoamOptions {
    fn check(&self) -> Result<f64, Refusal> {
        not_below_zero("clearance [m]", self.clearance.metres())?;
        not_below_zero("smallest piece [m]", self.least_piece.metres())?;
        above_zero("distance of beads [m]", self.bead_spacing.metres())?;
        for side in [self.sheet.0.metres(), self.sheet.1.metres()] {
            require(
                "side of a sheet [m]",
                side,
                side >= SMALLEST_SHEET,
                "at least 0.1 m",
            )?;
        }
        areal_mass(&self.material)
    }

    /// A bay in cells that fit a sheet, turned whichever way makes fewer.
    fn cells(&self, bay: &Patch) -> Vec<Patch> {
        let clear = 2.0 * self.clearance.metres();
        let (one, other) = (self.sheet.0.metres() + clear, self.sheet.1.metres() + clear);
        let count = |u: f64, v: f64| pieces_along(bay.long(), u) * pieces_along(bay.wide(), v);
        let (u, v) = if count(one, other) <= count(other, one) {
            (one, other)
        } else {
            (other, one)
        };
        let least = self.least_piece.metres() + clear;
        let across = split(bay.v0, bay.v1, v, least);
        let mut cells = Vec::new();
        for (u0, u1) in split(bay.u0, bay.u1, u, least) {
            cells.extend(across.iter().map(|&(v0, v1)| Patch { u0, u1, v0, v1 }));
        }
        cells
    }
}

/// Rectangles of what is free, in whichever direction they are fewer (then: less narrow).
fn bays(whole: &Patch, blocks: &[Patch]) -> Vec<Patch> {
    let along = parts(whole, blocks, true);
    let turned: Vec<Patch> = blocks.iter().map(Patch::turned).collect();
    let upright: Vec<Patch> = parts(&whole.turned(), &turned, true)
        .iter()
        .map(Patch::turned)
        .collect();
    let narrow = |patches: &[Patch]| {
        let sides = patches.iter().map(|one| one.long().min(one.wide()));
        sides.fold(f64::INFINITY, f64::min)
    };
    let upright_better = match upright.len().cmp(&along.len()) {
        std::cmp::Ordering::Less => true,
        std::cmp::Ordering::Equal => narrow(&upright) > narrow(&along),
        std::cmp::Ordering::Greater => false,
    };
    if upright_better { upright } else { along }
}

/// Stretches of at most `size`: whole ones first; the last two even where the rest is too small.
pub(super) fn split(from: f64, to: f64, size: f64, least: f64) -> Vec<(f64, f64)> {
    let count = pieces_along(to - from, size);
    let mut ends: Vec<f64> = (1..count as usize)
        .map(|index| from + index as f64 * size)
        .collect();
    let rest = to - ends.last().copied().unwrap_or(from);
    if rest < least
        && let Some(last) = ends.last_mut()
    {
        *last -= 0.5 * (size - rest);
    }
    ends.push(to);
    let starts = std::iter::once(from).chain(ends.clone());
    starts.zip(ends).collect()
}

fn pieces_along(long: f64, size: f64) -> f64 {
    (long / size - 1e-9).ceil().clamp(1.0, MOST_ALONG)
}

/// Seams between the cells of one bay [m].
fn inner_seams(bay: &Patch, cells: &[Patch]) -> f64 {
    let all: f64 = cells
        .iter()
        .map(|cell| 2.0 * (cell.long() + cell.wide()))
        .sum();
    0.5 * (all - 2.0 * (bay.long() + bay.wide()))
}

fn minmax(one: f64, other: f64) -> (f64, f64) {
    (one.min(other), one.max(other))
}
