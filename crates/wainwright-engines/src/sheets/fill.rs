//! Quick filling: a piece into the corner of a rectangle, one cut either way, the same again with
//! both rests. Not here: any proof, nor which sheet is filled (`improve`).

use super::frame::{Frame, Position};
use super::shape::Shape;
use crate::weather::Randomness;

/// How the next piece and the next cut are chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Manner {
    pub pick: Pick,
    pub split: Split,
}

/// Which piece comes next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Pick {
    /// The one with the highest rank.
    Rank,
    /// One that spans the rectangle if there is any, else the highest rank.
    Spanning,
    /// The one that leaves the narrowest strip, then the highest rank.
    Narrowest,
}

/// Which cut comes first.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Split {
    /// The one that leaves the largest rectangle.
    Largest,
    /// The other one.
    Smallest,
    /// From bottom to top.
    Upward,
    /// From left to right.
    Sideways,
}

/// Every manner.
pub(super) const MANNERS: [Manner; 12] = {
    let picks = [Pick::Rank, Pick::Spanning, Pick::Narrowest];
    let splits = [
        Split::Largest,
        Split::Smallest,
        Split::Upward,
        Split::Sideways,
    ];
    let mut all = [Manner {
        pick: Pick::Rank,
        split: Split::Largest,
    }; 12];
    let mut index = 0;
    while index < 12 {
        all[index] = Manner {
            pick: picks[index / 4],
            split: splits[index % 4],
        };
        index += 1;
    }
    all
};

/// Pieces to fill with.
pub(super) struct Filler<'f> {
    pub frame: &'f Frame,
    pub positions: &'f [Vec<Position>],
    /// Rank of every kind, above zero.
    pub ranks: &'f [u64],
}

impl Filler<'_> {
    /// Fills the whole sheet and takes the pieces from `left`.
    pub fn fill(&self, manner: Manner, left: &mut [u32]) -> Option<Shape> {
        self.fill_room(self.frame.width, self.frame.height, manner, left)
    }

    fn fill_room(
        &self,
        width: u32,
        height: u32,
        manner: Manner,
        left: &mut [u32],
    ) -> Option<Shape> {
        if width <= self.frame.kerf || height <= self.frame.kerf {
            return None;
        }
        let at = self.choose(width, height, manner.pick, left)?;
        left[at.kind] -= 1;
        let piece = Shape::piece(&at);
        let (right, above) = (width - at.width, height - at.height);
        Some(if self.upward_first(width, height, &at, manner.split) {
            let top = self.fill_room(at.width, above, manner, left);
            let column = on_top(piece, top);
            let beside = self.fill_room(right, height, manner, left);
            to_the_right(column, beside)
        } else {
            let beside = self.fill_room(right, at.height, manner, left);
            let row = to_the_right(piece, beside);
            let top = self.fill_room(width, above, manner, left);
            on_top(row, top)
        })
    }

    fn choose(&self, width: u32, height: u32, pick: Pick, left: &[u32]) -> Option<Position> {
        let mut best: Option<((u64, u64), Position)> = None;
        for (kind, positions) in self.positions.iter().enumerate() {
            if left[kind] == 0 {
                continue;
            }
            for at in positions {
                if at.width > width || at.height > height || !self.can_free(width, height, at) {
                    continue;
                }
                let strip = (width - at.width).min(height - at.height);
                let first = match pick {
                    Pick::Rank => 0,
                    Pick::Spanning => u64::from(strip == 0),
                    Pick::Narrowest => u64::from(u32::MAX - strip),
                };
                let score = (first, self.ranks[kind]);
                if best.is_none_or(|(known, _)| score > known) {
                    best = Some((score, *at));
                }
            }
        }
        best.map(|(_, at)| at)
    }

    fn can_free(&self, width: u32, height: u32, at: &Position) -> bool {
        self.can_upward_first(width, height, at) || self.can_sideways_first(width, height, at)
    }

    fn can_upward_first(&self, width: u32, height: u32, at: &Position) -> bool {
        (at.width == width || self.frame.cuts_upward(height))
            && (at.height == height || self.frame.cuts_sideways(at.width))
    }

    fn can_sideways_first(&self, width: u32, height: u32, at: &Position) -> bool {
        (at.height == height || self.frame.cuts_sideways(width))
            && (at.width == width || self.frame.cuts_upward(at.height))
    }

    fn upward_first(&self, width: u32, height: u32, at: &Position, split: Split) -> bool {
        if !self.can_upward_first(width, height, at) {
            return false;
        }
        if !self.can_sideways_first(width, height, at) {
            return true;
        }
        let right = u64::from(width - at.width) * u64::from(height);
        let above = u64::from(width) * u64::from(height - at.height);
        match split {
            Split::Largest => right >= above,
            Split::Smallest => right < above,
            Split::Upward => true,
            Split::Sideways => false,
        }
    }
}

/// Ranks shaken by up to a half, the same way for the same numbers.
pub(super) fn shaken(ranks: &[u64], random: &mut Randomness) -> Vec<u64> {
    let shake = |rank: &u64| rank.saturating_mul(512 + random.bits() % 512) / 512;
    ranks.iter().map(shake).map(|rank| rank.max(1)).collect()
}

fn on_top(below: Shape, above: Option<Shape>) -> Shape {
    match above {
        Some(above) => Shape::stacked(below, above),
        None => below,
    }
}

fn to_the_right(left: Shape, right: Option<Shape>) -> Shape {
    match right {
        Some(right) => Shape::beside(left, right),
        None => left,
    }
}
