//! Plans that waste next to nothing: every block whose waste is no more than all sheets together
//! can spare, then sheets that share no piece. When the list of blocks is complete and no such
//! sheets exist, no plan with these sheets exists. Not here: which sheets are tried (`plan`).

use std::cmp::Reverse;
use std::collections::{BTreeMap, BinaryHeap};

use super::frame::Stock;
use super::shape::Shape;

/// Choices that may be made while sheets are put together.
const MOST_STEPS: usize = 300_000;
/// Pairs of blocks that may be looked at for every block that may be kept.
pub(super) const PAIRS_PER_BLOCK: usize = 2_000;

/// Counts of all kinds in one number: sums add, and a sum that is too high shows in a bit.
#[derive(Debug, Clone)]
pub(super) struct Packing {
    shift: Vec<u32>,
    bias: u128,
    guard: u128,
    all: u128,
}

impl Packing {
    /// `None` when there are too many pieces for one number.
    pub fn new(wanted: &[u32]) -> Option<Packing> {
        let mut packing = Packing {
            shift: vec![],
            bias: 0,
            guard: 0,
            all: 0,
        };
        let mut from = 0u32;
        for &most in wanted {
            let bits = u32::BITS - most.leading_zeros() + 1;
            if from + bits > u128::BITS {
                return None;
            }
            packing.shift.push(from);
            packing.guard |= 1 << (from + bits - 1);
            packing.bias |= ((1u128 << (bits - 1)) - 1 - u128::from(most)) << from;
            packing.all |= u128::from(most) << from;
            from += bits;
        }
        Some(packing)
    }

    const fn fits(&self, counts: u128) -> bool {
        (counts + self.bias) & self.guard == 0
    }

    fn one(&self, kind: usize) -> u128 {
        1 << self.shift[kind]
    }

    /// The lowest bits of the field of a kind up to its guard.
    fn count(&self, counts: u128, kind: usize) -> u128 {
        let next = self.shift.get(kind + 1).copied().unwrap_or(u128::BITS);
        let field = counts >> self.shift[kind];
        let bits = next - self.shift[kind];
        if bits >= u128::BITS {
            field
        } else {
            field & ((1 << bits) - 1)
        }
    }
}

/// One block of pieces.
#[derive(Clone, Copy)]
struct Block {
    width: u32,
    height: u32,
    counts: u128,
    waste: u64,
    made: Made,
}

#[derive(Clone, Copy)]
enum Made {
    Piece(usize, usize),
    Beside(u32, u32),
    Stacked(u32, u32),
}

/// All blocks with little waste on one kind of sheet.
struct Blocks<'b> {
    stock: &'b Stock,
    packing: &'b Packing,
    spare: u64,
    budget: usize,
    blocks: Vec<Block>,
    same: BTreeMap<u128, Vec<(u32, u32)>>,
    open: BinaryHeap<Reverse<(u64, u32)>>,
}

/// One way to use a sheet.
struct Use {
    stock: usize,
    block: u32,
    counts: u128,
    waste: u64,
}

/// What came of it.
pub(super) enum Covering {
    /// Kind of sheet (place in the list of stocks) and block, for every sheet that is used.
    Found(Vec<(usize, Shape)>),
    /// Not with these sheets.
    Impossible,
    /// A budget ended the search.
    Unknown,
}

/// Looks for sheets that hold all pieces, for choices of sheets with the same price. `budget` is
/// the number of blocks for one kind of sheet, `pairs` what is left to look at in all.
pub(super) fn cover(
    stocks: &[Stock],
    wanted: &[u32],
    piece_areas: &[u64],
    choices: &[Vec<u32>],
    budget: usize,
    pairs: &mut usize,
) -> Covering {
    let Some(packing) = Packing::new(wanted) else {
        return Covering::Unknown;
    };
    let areas = piece_areas.iter().zip(wanted);
    let area: u64 = areas.map(|(area, count)| area * u64::from(*count)).sum();
    let spares: Vec<u64> = choices
        .iter()
        .map(|taken| spare(stocks, taken, area))
        .collect();
    let most_spare = spares.iter().copied().max().unwrap_or(0);
    let used = |index: usize| choices.iter().any(|taken| taken[index] > 0);
    let mut lists = Vec::with_capacity(stocks.len());
    let mut complete = true;
    for (index, stock) in stocks.iter().enumerate() {
        let mut list = Blocks::new(stock, &packing, most_spare, budget);
        if used(index) {
            complete &= list.build(wanted, pairs);
        }
        lists.push(list);
    }
    let uses = uses(&lists);
    let mut order: Vec<usize> = (0..wanted.len()).filter(|kind| wanted[*kind] > 0).collect();
    order.sort_by_key(|kind| Reverse(piece_areas[*kind]));
    for (taken, spare) in choices.iter().zip(&spares) {
        let mut search = Search {
            packing: &packing,
            uses: &uses,
            order: &order,
            wanted,
            left: taken.clone(),
            chosen: vec![],
            steps: 0,
        };
        if search.choose(0, *spare) {
            let shape = |at: &usize| {
                let chosen = &uses[*at];
                (chosen.stock, lists[chosen.stock].shape(chosen.block))
            };
            return Covering::Found(search.chosen.iter().map(shape).collect());
        }
        complete &= search.steps <= MOST_STEPS;
    }
    if complete {
        Covering::Impossible
    } else {
        Covering::Unknown
    }
}

fn spare(stocks: &[Stock], taken: &[u32], area: u64) -> u64 {
    let pairs = stocks.iter().zip(taken);
    let bought: u64 = pairs
        .map(|(stock, count)| stock.frame.area() * u64::from(*count))
        .sum();
    bought.saturating_sub(area)
}

/// The blocks that fill a sheet but for what can be spared, and that the saw can cut.
fn uses(lists: &[Blocks]) -> Vec<Use> {
    let mut uses = Vec::new();
    for (stock, list) in lists.iter().enumerate() {
        let frame = &list.stock.frame;
        for (index, block) in list.blocks.iter().enumerate() {
            let area = u64::from(block.width) * u64::from(block.height);
            let waste = block.waste + frame.area() - area;
            let index = index as u32;
            if waste <= list.spare && (frame.is_free() || list.shape(index).cuts(frame).is_some()) {
                uses.push(Use {
                    stock,
                    block: index,
                    counts: block.counts,
                    waste,
                });
            }
        }
    }
    uses.sort_by_key(|one| (one.waste, one.stock, one.block));
    uses
}

impl<'b> Blocks<'b> {
    fn new(stock: &'b Stock, packing: &'b Packing, spare: u64, budget: usize) -> Self {
        Blocks {
            stock,
            packing,
            spare,
            budget,
            blocks: vec![],
            same: BTreeMap::new(),
            open: BinaryHeap::new(),
        }
    }

    /// Builds all blocks, those with least waste first; whether the list is complete.
    fn build(&mut self, wanted: &[u32], pairs: &mut usize) -> bool {
        let stock = self.stock;
        for (kind, positions) in stock.positions.iter().enumerate() {
            if wanted[kind] == 0 {
                continue;
            }
            for (index, at) in positions.iter().enumerate() {
                self.keep(Block {
                    width: at.width,
                    height: at.height,
                    counts: self.packing.one(kind),
                    waste: 0,
                    made: Made::Piece(kind, index),
                });
            }
        }
        let mut closed: Vec<u32> = Vec::new();
        while let Some(Reverse((_, index))) = self.open.pop() {
            if self.blocks.len() > self.budget || *pairs < closed.len() {
                return false;
            }
            closed.push(index);
            *pairs = pairs.saturating_sub(closed.len());
            for &other in &closed {
                self.join(index, other);
            }
        }
        true
    }

    fn join(&mut self, index: u32, other_index: u32) {
        let one = self.blocks[index as usize];
        let other = self.blocks[other_index as usize];
        let waste = one.waste + other.waste;
        let counts = one.counts + other.counts;
        if waste > self.spare || !self.packing.fits(counts) {
            return;
        }
        let frame = self.stock.frame;
        let (wide, high) = (one.width + other.width, one.height + other.height);
        let (widest, highest) = (one.width.max(other.width), one.height.max(other.height));
        if wide <= frame.width && frame.may_stand_beside(highest) {
            let above = gap(one.height, other.height, one.width, other.width);
            self.keep(Block {
                width: wide,
                height: highest,
                counts,
                waste: waste + above,
                made: Made::Beside(index, other_index),
            });
        }
        if high <= frame.height && frame.may_lie_on(widest) {
            let aside = gap(one.width, other.width, one.height, other.height);
            self.keep(Block {
                width: widest,
                height: high,
                counts,
                waste: waste + aside,
                made: Made::Stacked(index, other_index),
            });
        }
    }

    fn keep(&mut self, block: Block) {
        if block.waste > self.spare {
            return;
        }
        let sizes = self.same.entry(block.counts).or_default();
        if sizes
            .iter()
            .any(|size| size.0 <= block.width && size.1 <= block.height)
        {
            return;
        }
        sizes.push((block.width, block.height));
        let index = self.blocks.len() as u32;
        self.open.push(Reverse((block.waste, index)));
        self.blocks.push(block);
    }

    fn shape(&self, index: u32) -> Shape {
        match self.blocks[index as usize].made {
            Made::Piece(kind, position) => Shape::piece(&self.stock.positions[kind][position]),
            Made::Beside(one, other) => Shape::beside(self.shape(one), self.shape(other)),
            Made::Stacked(one, other) => Shape::stacked(self.shape(one), self.shape(other)),
        }
    }
}

/// Area that is lost beside the smaller of two blocks.
fn gap(one: u32, other: u32, across_one: u32, across_other: u32) -> u64 {
    let across = if one < other {
        across_one
    } else {
        across_other
    };
    u64::from(one.abs_diff(other)) * u64::from(across)
}

struct Search<'s> {
    packing: &'s Packing,
    uses: &'s [Use],
    /// Kinds, the largest first.
    order: &'s [usize],
    wanted: &'s [u32],
    /// Sheets that are left of every kind.
    left: Vec<u32>,
    chosen: Vec<usize>,
    steps: usize,
}

impl Search<'_> {
    /// Covers the largest piece that is not covered; whether all pieces could be.
    fn choose(&mut self, counts: u128, spare: u64) -> bool {
        if counts == self.packing.all {
            return true;
        }
        let open =
            |kind: &&usize| self.packing.count(counts, **kind) < u128::from(self.wanted[**kind]);
        let Some(&kind) = self.order.iter().find(open) else {
            return true;
        };
        for (index, one) in self.uses.iter().enumerate() {
            if one.waste > spare {
                break;
            }
            self.steps += 1;
            if self.steps > MOST_STEPS {
                return false;
            }
            let holds = self.packing.count(one.counts, kind) > 0;
            if !holds || self.left[one.stock] == 0 || !self.packing.fits(counts + one.counts) {
                continue;
            }
            self.left[one.stock] -= 1;
            self.chosen.push(index);
            if self.choose(counts + one.counts, spare - one.waste) {
                return true;
            }
            self.chosen.pop();
            self.left[one.stock] += 1;
        }
        false
    }
}
