//! The points of both sides of a sheet, on a coarser grid when there are too many.
//! Not here: the points of one side (`points`).

use super::frame::{Frame, Position};
use super::points::Points;

/// Positions of pieces with their values.
pub(super) type Worth = Vec<(Position, u64)>;

/// Longest side of the grid of a table; longer ones use a coarser grid from the start.
const MOST_STEPS: u32 = 4096;

/// Pieces on a coarser grid, rounded down: everything that fits still fits, so that no value of a
/// table is smaller.
pub(super) fn scaled(pieces: &[(Position, u64)], scale: u32) -> Worth {
    let small = |&(at, value): &(Position, u64)| {
        let (width, height) = (at.width / scale, at.height / scale);
        let at = Position {
            width,
            height,
            ..at
        };
        (at, value)
    };
    pieces.iter().map(small).collect()
}

/// The points of both sides.
#[derive(Debug, Clone)]
pub(super) struct Sides {
    pub across: Points,
    pub up: Points,
}

impl Sides {
    pub fn of(pieces: &[(Position, u64)], most: &[u32], frame: &Frame) -> Sides {
        let sums = |size: fn(&Position) -> u32, limit: u32| {
            let mut sizes: Vec<(u32, u32)> = pieces
                .iter()
                .map(|(at, _)| (size(at), most[at.kind]))
                .collect();
            sizes.sort_unstable();
            Points::sums(&sizes, limit)
        };
        Sides {
            across: sums(|at| at.width, frame.width),
            up: sums(|at| at.height, frame.height),
        }
    }

    /// The points on the finest grid whose table takes no more steps.
    pub fn within(
        pieces: &[(Position, u64)],
        most: &[u32],
        frame: &Frame,
        most_work: u64,
    ) -> Sides {
        let sizes = pieces.iter().map(|(at, _)| at.width.min(at.height));
        let smallest = sizes.min().unwrap_or(1);
        let longest = frame.width.max(frame.height);
        let mut scale = longest.div_ceil(MOST_STEPS).clamp(1, smallest);
        loop {
            let limits = Frame {
                width: frame.width / scale,
                height: frame.height / scale,
                ..*frame
            };
            let sides = Sides::of(&scaled(pieces, scale), most, &limits);
            let next = scale + scale.div_ceil(4);
            if sides.work() <= most_work || next > smallest {
                return Sides {
                    across: sides.across.scaled(scale),
                    up: sides.up.scaled(scale),
                };
            }
            scale = next;
        }
    }

    /// The fewer points that are enough for the best way to cut the whole sheet.
    pub fn thinned(&self) -> Sides {
        Sides {
            across: self.across.thinned(),
            up: self.up.thinned(),
        }
    }

    /// Steps that filling a table takes at most.
    pub fn work(&self) -> u64 {
        let (columns, rows) = (self.across.len() as u64, self.up.len() as u64);
        columns * rows * (columns + rows) / 2
    }
}
