//! One sheet: the most valuable pieces that can be cut from it.
//! Not here: several sheets (`plan`).

use super::blocks::{Question, best_blocks};
use super::fill::{Filler, MANNERS, shaken};
use super::frame::{Frame, Position, held};
use super::input::{OneSheet, Valued};
use super::result::{Cap, Node, OneBest};
use super::shape::Shape;
use super::sides::{Sides, scaled};
use super::table::Table;
use crate::refusal::Refusal;
use crate::weather::Randomness;

/// Steps that filling the table of unlimited pieces may take before a coarser one bounds it.
const MOST_TABLE_WORK: u64 = 20_000_000_000;
/// The same when pieces are limited.
const MOST_LIMITED_WORK: u64 = 500_000_000;
/// Quick fillings before the search.
const FIRST_FILLS: usize = 400;

/// The most valuable way to cut one sheet with cuts that go all the way through.
///
/// # Errors
/// When a size is zero or too long, a value too high, or there are too many kinds.
pub fn best_of_one(sheet: &OneSheet) -> Result<OneBest, Refusal> {
    sheet.check()?;
    let frame = Frame::free(sheet.width, sheet.height, sheet.kerf);
    let kinds = sheet.kinds.iter().enumerate();
    let pieces: Vec<(Position, u64)> = kinds
        .flat_map(|(kind, valued)| valued_positions(kind, valued, &frame))
        .collect();
    let most: Vec<u32> = sheet.kinds.iter().map(|kind| limit(kind, &frame)).collect();
    let limited = pieces.iter().any(|(at, _)| {
        let room = frame.area() / at.area();
        u64::from(most[at.kind]) < room.min(u64::from(u16::MAX))
    });
    let thin = Sides::of(&pieces, &most, &frame).thinned();
    let best = if limited || thin.work() > MOST_TABLE_WORK {
        limited_best(sheet, &frame, &pieces, &most)
    } else {
        unlimited_best(&pieces, thin)
    };
    Ok(best.answer(sheet, &frame))
}

struct Best {
    shape: Option<Shape>,
    value: u64,
    at_most: u64,
    blocks: usize,
    caps: Vec<Cap>,
}

impl Best {
    fn answer(self, sheet: &OneSheet, frame: &Frame) -> OneBest {
        let mut counts = vec![0; sheet.kinds.len()];
        let tree = self.shape.and_then(|shape| {
            shape.count(&mut counts);
            shape.cuts(frame)
        });
        OneBest {
            value: self.value,
            at_most: self.at_most,
            tree: tree.unwrap_or(Node::Offcut),
            counts,
            blocks: self.blocks,
            caps: self.caps,
        }
    }
}

fn valued_positions(kind: usize, valued: &Valued, frame: &Frame) -> Vec<(Position, u64)> {
    let upright = Position {
        kind,
        turned: false,
        width: valued.width + frame.kerf,
        height: valued.height + frame.kerf,
    };
    let turns: &[bool] = if valued.turns {
        &[false, true]
    } else {
        &[false]
    };
    let all = turns.iter().map(|turned| upright.turn(*turned));
    let all = if valued.value > 0 && valued.most != Some(0) {
        held(all, frame)
    } else {
        vec![]
    };
    all.into_iter().map(|at| (at, valued.value)).collect()
}

/// How many may be cut, no more than there is area for.
fn limit(kind: &Valued, frame: &Frame) -> u32 {
    let area = u64::from(kind.width + frame.kerf) * u64::from(kind.height + frame.kerf);
    let room = u32::try_from(frame.area() / area).unwrap_or(u32::MAX);
    kind.most
        .map_or(room, |most| most.min(room))
        .min(u32::from(u16::MAX))
}

fn unlimited_best(pieces: &[(Position, u64)], thin: Sides) -> Best {
    let table = Table::fill(thin.across, thin.up, pieces);
    let value = table.whole();
    Best {
        shape: table.shape(pieces),
        value,
        at_most: value,
        blocks: 0,
        caps: vec![],
    }
}

fn limited_best(sheet: &OneSheet, frame: &Frame, pieces: &[(Position, u64)], most: &[u32]) -> Best {
    let first = first_fill(sheet, frame, pieces, most);
    let reached = first.as_ref().map_or(0, |(_, value)| *value);
    let sides = Sides::within(pieces, most, frame, MOST_LIMITED_WORK);
    let coarse = scaled(pieces, sides.across.scale);
    let table = Table::fill(sides.across, sides.up, &coarse);
    let around = table.around();
    let found = best_blocks(&Question {
        frame: *frame,
        pieces,
        most,
        table: &table,
        around: &around,
        budget: sheet.blocks,
        reached,
    });
    let mut caps = vec![];
    if table.across.scale > 1 {
        caps.push(Cap::CoarseBound);
    }
    if found.ended_early {
        caps.push(Cap::Blocks);
    }
    let (shape, value) = found.better.or(first).unzip();
    Best {
        shape,
        value: value.unwrap_or(0),
        at_most: found.at_most,
        blocks: found.blocks,
        caps,
    }
}

fn first_fill(
    sheet: &OneSheet,
    frame: &Frame,
    pieces: &[(Position, u64)],
    most: &[u32],
) -> Option<(Shape, u64)> {
    let mut positions: Vec<Vec<Position>> = vec![vec![]; most.len()];
    for (at, _) in pieces {
        positions[at.kind].push(*at);
    }
    let values: Vec<u64> = sheet.kinds.iter().map(|kind| kind.value).collect();
    let mut random = Randomness::new(1, 0);
    let mut best: Option<(Shape, u64)> = None;
    for fill in 0..FIRST_FILLS {
        let ranks = if fill < MANNERS.len() {
            values.clone()
        } else {
            shaken(&values, &mut random)
        };
        let filler = Filler {
            frame,
            positions: &positions,
            ranks: &ranks,
        };
        let mut left = most.to_vec();
        let Some(shape) = filler.fill(MANNERS[fill % MANNERS.len()], &mut left) else {
            continue;
        };
        let used = most
            .iter()
            .zip(&left)
            .map(|(most, left)| u64::from(most - left));
        let value = used.zip(&values).map(|(count, value)| count * value).sum();
        if best.as_ref().is_none_or(|(_, known)| value > *known) {
            best = Some((shape, value));
        }
    }
    best
}
