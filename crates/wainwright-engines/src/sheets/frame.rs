//! One sheet as the searches see it: kerf hidden in the sizes, and which cuts the saw can make.
//!
//! With kerf k a sheet of W × H behaves as (W + k) × (H + k) and every piece as (w + k) × (h + k)
//! without any kerf. All sizes below are of that kind. Not here: any search.

use super::input::{Along, Job, Piece, Saw, Sheet};

/// A sheet, sizes with kerf.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Frame {
    pub width: u32,
    pub height: u32,
    pub kerf: u32,
    /// Highest part that may be cut from bottom to top.
    pub longest_upward: u32,
    /// Widest part that may be cut from left to right.
    pub longest_sideways: u32,
}

/// One position of a piece, sizes with kerf.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Position {
    pub kind: usize,
    pub turned: bool,
    pub width: u32,
    pub height: u32,
}

impl Frame {
    /// Any cut can be made.
    pub const fn free(width: u32, height: u32, kerf: u32) -> Frame {
        Frame {
            width: width.saturating_add(kerf),
            height: height.saturating_add(kerf),
            kerf,
            longest_upward: u32::MAX,
            longest_sideways: u32::MAX,
        }
    }

    /// The trimmed sheet; `None` when the saw cannot even trim it.
    pub fn of_sheet(sheet: &Sheet, saw: &Saw) -> Option<Frame> {
        let longest = |runs: Along| {
            let barred = !saw.can_rip && runs == sheet.grain;
            let most = if barred { Some(0) } else { saw.longest_cut };
            most.map_or(u32::MAX, |most| most.saturating_add(saw.kerf))
        };
        let frame = Frame {
            longest_upward: longest(Along::Height),
            longest_sideways: longest(Along::Width),
            ..Frame::free(sheet.usable_width(), sheet.usable_height(), saw.kerf)
        };
        let trim = sheet.trim;
        let upward = trim.left + trim.right == 0 || frame.cuts_upward(sheet.height + saw.kerf);
        let sideways = trim.bottom + trim.top == 0 || frame.cuts_sideways(frame.width);
        (upward && sideways).then_some(frame)
    }

    /// Whether no cut is too long.
    pub const fn is_free(&self) -> bool {
        self.height <= self.longest_upward && self.width <= self.longest_sideways
    }

    /// Whether a part of this height may be cut from bottom to top.
    pub const fn cuts_upward(&self, height: u32) -> bool {
        height <= self.longest_upward
    }

    /// Whether a part of this width may be cut from left to right.
    pub const fn cuts_sideways(&self, width: u32) -> bool {
        width <= self.longest_sideways
    }

    /// Whether blocks may stand side by side in a block of this height.
    pub const fn may_stand_beside(&self, height: u32) -> bool {
        (self.cuts_sideways(self.width) || self.cuts_upward(self.height))
            && self.cuts_upward(height)
    }

    /// Whether blocks may lie on top of each other in a block of this width.
    pub const fn may_lie_on(&self, width: u32) -> bool {
        (self.cuts_sideways(self.width) || self.cuts_upward(self.height))
            && self.cuts_sideways(width)
    }

    /// Whether a piece of this size can be freed from the sheet.
    pub const fn may_hold(&self, width: u32, height: u32) -> bool {
        if width > self.width || height > self.height {
            return false;
        }
        let exact = (width == self.width, height == self.height);
        let upward = self.cuts_upward(self.height) || self.cuts_upward(height);
        let sideways = self.cuts_sideways(self.width) || self.cuts_sideways(width);
        let first = self.cuts_sideways(self.width) || self.cuts_upward(self.height);
        match exact {
            (true, true) => true,
            (true, false) => self.cuts_sideways(self.width),
            (false, true) => self.cuts_upward(self.height),
            (false, false) => first && upward && sideways,
        }
    }

    /// Area, kerf included.
    pub const fn area(&self) -> u64 {
        self.width as u64 * self.height as u64
    }
}

/// The positions that a piece may take on a sheet.
pub(super) fn positions(kind: usize, piece: &Piece, sheet: &Sheet, frame: &Frame) -> Vec<Position> {
    let turns = match piece.grain {
        None => vec![false, true],
        Some(side) => vec![side != sheet.grain],
    };
    let (width, height) = (piece.width + frame.kerf, piece.height + frame.kerf);
    let upright = Position {
        kind,
        turned: false,
        width,
        height,
    };
    held(turns.into_iter().map(|turned| upright.turn(turned)), frame)
}

/// The positions of a piece that may turn or not on a sheet without grain.
pub(super) fn held(all: impl Iterator<Item = Position>, frame: &Frame) -> Vec<Position> {
    let mut positions: Vec<Position> = Vec::new();
    for position in all.filter(|at| frame.may_hold(at.width, at.height)) {
        let same = |at: &Position| (at.width, at.height) == (position.width, position.height);
        if !positions.iter().any(same) {
            positions.push(position);
        }
    }
    positions
}

impl Position {
    /// The same piece, turned by a quarter or not.
    pub const fn turn(self, turned: bool) -> Position {
        if turned {
            Position {
                turned,
                width: self.height,
                height: self.width,
                ..self
            }
        } else {
            self
        }
    }

    /// Area, kerf included.
    pub const fn area(&self) -> u64 {
        self.width as u64 * self.height as u64
    }
}

/// Every kind of sheet with its frame and, for every kind of piece, the positions it may take.
#[derive(Debug, Clone)]
pub(super) struct Stock {
    pub sheet: usize,
    pub frame: Frame,
    pub price: u64,
    pub available: Option<u32>,
    pub positions: Vec<Vec<Position>>,
}

/// The sheets that this saw can cut something from.
pub(super) fn stocks(job: &Job) -> Vec<Stock> {
    let frames = job.sheets.iter().enumerate().filter_map(|(index, sheet)| {
        let frame = Frame::of_sheet(sheet, &job.saw)?;
        let pieces = job.pieces.iter().enumerate();
        let positions: Vec<Vec<Position>> = pieces
            .map(|(kind, piece)| positions(kind, piece, sheet, &frame))
            .collect();
        let useful = positions.iter().any(|list| !list.is_empty()) && sheet.available != Some(0);
        useful.then_some(Stock {
            sheet: index,
            frame,
            price: sheet.price,
            available: sheet.available,
            positions,
        })
    });
    frames.collect()
}
