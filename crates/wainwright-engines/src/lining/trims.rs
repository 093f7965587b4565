//! Lengths of trims along the edges of a surface and round its openings. Their profile is not here.

use std::f64::consts::PI;

use wainwright_units::Length;

use super::plane::{NOTHING, Patch, merged};
use super::surface::{Direction, Surface};
use crate::refusal::{Refusal, not_below_zero};

/// A side of the surface or of an opening.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// At the smallest y.
    Bottom,
    /// At the largest x.
    Right,
    /// At the largest y.
    Top,
    /// At the smallest x.
    Left,
}

/// Where a trim goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TrimPlace {
    /// Along an edge of the surface.
    Edge(Side),
    /// Along a side of the opening of this index.
    Opening(usize, Side),
    /// Round the round opening of this index: the length of the inner circle.
    Ring(usize),
}

/// One trim.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trim {
    /// Where it goes.
    pub place: TrimPlace,
    /// From where to where along its side \[m\]; zero to its length for a ring.
    pub span: (Length, Length),
    /// Length to cut, to the long points of mitres \[m\].
    pub length: Length,
}

impl Side {
    /// All sides, in turn.
    pub const ALL: [Side; 4] = [Side::Bottom, Side::Right, Side::Top, Side::Left];
}

/// Trims along the chosen edges and round all openings.
///
/// Along edges they stop at openings that reach within their width of the edge. Round openings they
/// are mitred outside the opening; on a side along the edge of the surface there is none.
///
/// # Errors
/// A width below zero, or a surface that is none.
pub fn trims(
    surface: &Surface,
    width: Length,
    edges: &[Side],
    openings: bool,
) -> Result<Vec<Trim>, Refusal> {
    surface.check()?;
    not_below_zero("width of the trim [m]", width.metres())?;
    let width = width.metres();
    let mut found = Vec::new();
    for &side in Side::ALL.iter().filter(|side| edges.contains(side)) {
        along_edge(surface, side, width, &mut found);
    }
    if openings {
        for index in 0..surface.openings.len() {
            round_opening(surface, index, width, &mut found);
        }
    }
    Ok(found)
}

fn along_edge(surface: &Surface, side: Side, width: f64, found: &mut Vec<Trim>) {
    let along = side.along();
    let whole = surface.patch(along);
    let strip = match side {
        Side::Bottom | Side::Left => Patch {
            v1: width.max(NOTHING),
            ..whole
        },
        Side::Right | Side::Top => Patch {
            v0: whole.v1 - width.max(NOTHING),
            ..whole
        },
    };
    let openings = surface.blocks(along, 0.0);
    let blocked = openings.iter().filter_map(|opening| opening.clip(&strip));
    let mut from = 0.0;
    let blocked = merged(blocked.map(|block| (block.u0, block.u1)).collect());
    for (low, high) in blocked.into_iter().chain([(whole.u1, whole.u1)]) {
        if low - from > NOTHING {
            found.push(Trim::new(TrimPlace::Edge(side), from, low));
        }
        from = high;
    }
}

fn round_opening(surface: &Surface, index: usize, width: f64, found: &mut Vec<Trim>) {
    let Some(opening) = surface.openings.get(index) else {
        return;
    };
    let whole = surface.patch(Direction::Width);
    let outline = Patch::of(&opening.rect, Direction::Width);
    let Some(seen) = outline.clip(&whole) else {
        return;
    };
    if opening.round && seen == outline {
        let diameter = 0.5 * (outline.long() + outline.wide());
        found.push(Trim::new(TrimPlace::Ring(index), 0.0, PI * diameter));
        return;
    }
    let has = |side: Side| match side {
        Side::Bottom => seen.v0 > whole.v0 + NOTHING,
        Side::Right => seen.u1 < whole.u1 - NOTHING,
        Side::Top => seen.v1 < whole.v1 - NOTHING,
        Side::Left => seen.u0 > whole.u0 + NOTHING,
    };
    let mitre = |side: Side| if has(side) { width } else { 0.0 };
    for side in Side::ALL.into_iter().filter(|&side| has(side)) {
        let (from, to) = match side.along() {
            Direction::Width => (seen.u0 - mitre(Side::Left), seen.u1 + mitre(Side::Right)),
            Direction::Height => (seen.v0 - mitre(Side::Bottom), seen.v1 + mitre(Side::Top)),
        };
        found.push(Trim::new(TrimPlace::Opening(index, side), from, to));
    }
}

impl Side {
    const fn along(self) -> Direction {
        match self {
            Side::Bottom | Side::Top => Direction::Width,
            Side::Right | Side::Left => Direction::Height,
        }
    }
}

impl Trim {
    fn new(place: TrimPlace, from: f64, to: f64) -> Trim {
        Trim {
            place,
            span: (Length::from_metres(from), Length::from_metres(to)),
            length: Length::from_metres(to - from),
        }
    }
}
