//! The most valuable way to cut one sheet when pieces are limited: blocks are built from pieces
//! and blocks, the most promising first, until none can be better than the best found.
//! Not here: bounds over all rectangles (`table`).

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use super::frame::{Frame, Position};
use super::shape::Shape;
use super::table::{Around, Table};

/// What the search is about.
pub(super) struct Question<'q> {
    pub frame: Frame,
    /// Every position of every piece, with its value above zero.
    pub pieces: &'q [(Position, u64)],
    /// How many of each kind there are.
    pub most: &'q [u32],
    pub table: &'q Table,
    pub around: &'q Around,
    /// Blocks that may be kept.
    pub budget: usize,
    /// Value that has been reached already; only better blocks are wanted.
    pub reached: u64,
}

/// What it found.
pub(super) struct Found {
    /// A block better than what was reached, with its value.
    pub better: Option<(Shape, u64)>,
    /// No block is worth more.
    pub at_most: u64,
    /// Blocks that were built.
    pub blocks: usize,
    pub ended_early: bool,
}

#[derive(Clone, Copy)]
enum Made {
    Piece(usize),
    Beside(u32, u32),
    Stacked(u32, u32),
}

#[derive(Clone, Copy)]
struct Block {
    width: u32,
    height: u32,
    value: u64,
    /// Kinds in it, and kinds of which it holds all (kind modulo 64).
    some: u64,
    all: u64,
    made: Made,
}

struct Search<'q> {
    question: &'q Question<'q>,
    /// Kinds by value per area, the best first, with area and value of one.
    by_density: Vec<(usize, u64, u64)>,
    /// Kinds that have a bit of their own.
    own_bit: bool,
    blocks: Vec<Block>,
    counts: Vec<u16>,
    /// Sizes of the blocks with the same pieces.
    same: BTreeMap<Vec<u16>, Vec<(u32, u32)>>,
    open: BinaryHeap<(u64, Reverse<u32>)>,
    closed: Vec<u32>,
    best: u64,
    best_block: Option<u32>,
}

/// Searches until the answer is proven or the budget is spent.
pub(super) fn best_blocks(question: &Question) -> Found {
    let mut search = Search::new(question);
    for (index, (at, value)) in question.pieces.iter().enumerate() {
        if question.most[at.kind] > 0 {
            let mut counts = vec![0u16; question.most.len()];
            counts[at.kind] = 1;
            let bit = 1u64 << (at.kind % 64);
            search.keep(
                Block {
                    width: at.width,
                    height: at.height,
                    value: *value,
                    some: bit,
                    all: 0,
                    made: Made::Piece(index),
                },
                &counts,
            );
        }
    }
    let mut at_most = None;
    while let Some((bound, Reverse(index))) = search.open.pop() {
        if bound <= search.best {
            break;
        }
        if search.blocks.len() >= question.budget {
            at_most = Some(bound);
            break;
        }
        search.join_with_all(index);
    }
    let better = search
        .best_block
        .map(|index| (search.shape(index), search.best));
    Found {
        better,
        at_most: at_most.unwrap_or(search.best),
        blocks: search.blocks.len(),
        ended_early: at_most.is_some(),
    }
}

impl<'q> Search<'q> {
    fn new(question: &'q Question<'q>) -> Self {
        let kinds = question.most.len();
        let mut by_density: Vec<(usize, u64, u64)> = Vec::new();
        for (at, value) in question.pieces {
            if !by_density.iter().any(|known| known.0 == at.kind) {
                by_density.push((at.kind, at.area(), *value));
            }
        }
        // value/area falls: compared as products, which whole numbers do exactly.
        by_density.sort_by(|one, other| {
            let left = u128::from(one.2) * u128::from(other.1);
            let right = u128::from(other.2) * u128::from(one.1);
            right.cmp(&left)
        });
        Search {
            question,
            by_density,
            own_bit: kinds <= 64,
            blocks: vec![],
            counts: vec![],
            same: BTreeMap::new(),
            open: BinaryHeap::new(),
            closed: vec![],
            best: question.reached,
            best_block: None,
        }
    }

    fn counts_of(&self, index: u32) -> &[u16] {
        let kinds = self.question.most.len();
        let from = index as usize * kinds;
        &self.counts[from..from + kinds]
    }

    /// Joins a block with every block that was joined before, and with itself.
    fn join_with_all(&mut self, index: u32) {
        self.closed.push(index);
        let one = self.blocks[index as usize];
        let frame = self.question.frame;
        let mut counts = vec![0u16; self.question.most.len()];
        for position in 0..self.closed.len() {
            let other_index = self.closed[position];
            let other = self.blocks[other_index as usize];
            if self.own_bit && (one.all & other.some != 0 || one.some & other.all != 0) {
                continue;
            }
            let value = one.value + other.value;
            let high = one.height.max(other.height);
            let wide = one.width.max(other.width);
            let beside = one.width + other.width <= frame.width
                && frame.may_stand_beside(high)
                && self.bound(one.width + other.width, high, value) > self.best;
            let stacked = one.height + other.height <= frame.height
                && frame.may_lie_on(wide)
                && self.bound(wide, one.height + other.height, value) > self.best;
            if !(beside || stacked) || !self.add_counts(index, other_index, &mut counts) {
                continue;
            }
            let block = Block {
                value,
                some: one.some | other.some,
                ..one
            };
            if beside {
                self.keep(
                    Block {
                        width: one.width + other.width,
                        height: high,
                        made: Made::Beside(index, other_index),
                        ..block
                    },
                    &counts,
                );
            }
            if stacked {
                self.keep(
                    Block {
                        width: wide,
                        height: one.height + other.height,
                        made: Made::Stacked(index, other_index),
                        ..block
                    },
                    &counts,
                );
            }
        }
    }

    fn add_counts(&self, one: u32, other: u32, counts: &mut [u16]) -> bool {
        let pairs = self.counts_of(one).iter().zip(self.counts_of(other));
        let mut fits = true;
        for ((sum, (a, b)), most) in counts.iter_mut().zip(pairs).zip(self.question.most) {
            *sum = a + b;
            fits &= u32::from(*sum) <= *most;
        }
        fits
    }

    fn bound(&self, width: u32, height: u32, value: u64) -> u64 {
        let table = self.question.table;
        let (column, row) = (
            table.across.index_of_size(width),
            table.up.index_of_size(height),
        );
        value + self.question.around.at(column, row)
    }

    /// What the rest of the area can be worth when filled with the densest pieces that are left.
    fn rest_by_area(&self, block: &Block, counts: &[u16]) -> u64 {
        let used = u64::from(block.width) * u64::from(block.height);
        let mut area = self.question.frame.area() - used;
        let mut worth = 0;
        for &(kind, size, value) in &self.by_density {
            let left = u64::from(self.question.most[kind]) - u64::from(counts[kind]);
            let fits = left.min(area / size);
            worth += fits * value;
            area -= fits * size;
            if fits < left {
                // A part of one piece, rounded down as every whole value is.
                return worth + area * value / size;
            }
        }
        worth
    }

    fn keep(&mut self, mut block: Block, counts: &[u16]) {
        let frame = self.question.frame;
        if block.width > frame.width || block.height > frame.height {
            return;
        }
        let around = self.bound(block.width, block.height, 0);
        let rest = around.min(self.rest_by_area(&block, counts));
        let bound = block.value + rest;
        if bound <= self.best && block.value <= self.best {
            return;
        }
        let sizes = self.same.entry(counts.to_vec()).or_default();
        let smaller = |size: &(u32, u32)| size.0 <= block.width && size.1 <= block.height;
        if sizes.iter().any(smaller) {
            return;
        }
        sizes.push((block.width, block.height));
        for (kind, (count, most)) in counts.iter().zip(self.question.most).enumerate() {
            if u32::from(*count) == *most && *count > 0 {
                block.all |= 1 << (kind % 64);
            }
        }
        let index = self.blocks.len() as u32;
        if block.value > self.best {
            self.best = block.value;
            self.best_block = Some(index);
        }
        self.blocks.push(block);
        self.counts.extend_from_slice(counts);
        self.open.push((bound, Reverse(index)));
    }

    fn shape(&self, index: u32) -> Shape {
        match self.blocks[index as usize].made {
            Made::Piece(piece) => Shape::piece(&self.question.pieces[piece].0),
            Made::Beside(one, other) => Shape::beside(self.shape(one), self.shape(other)),
            Made::Stacked(one, other) => Shape::stacked(self.shape(one), self.shape(other)),
        }
    }
}
