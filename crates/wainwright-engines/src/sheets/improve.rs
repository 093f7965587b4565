//! Good plans without proof: sheets filled one after the other, then some of them emptied and
//! filled again, over and over. Not here: bounds (`columns`, `combos`), nor exact covers (`cover`).

use super::fill::{Filler, MANNERS, shaken};
use super::frame::Stock;
use super::shape::Shape;
use crate::weather::Randomness;

/// Fillings of one sheet that are compared while a first plan is built, and of all kinds of sheets
/// together.
const FILLS: usize = 24;
const ALL_FILLS: usize = 72;
/// The same while a plan is improved.
const FEW_FILLS: usize = 6;

/// Sheets that are emptied in one try, at most.
const EMPTIED: u64 = 4;
/// Positions of pieces that may be looked at while a plan is improved.
const LOOKS: usize = 120_000_000;

/// One filled sheet.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Pattern {
    /// Place in the list of stocks.
    pub stock: usize,
    pub shape: Shape,
    pub counts: Vec<u32>,
    /// Area of its pieces, kerf included.
    pub area: u64,
}

/// Filled sheets, and what found no room.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Filled {
    pub patterns: Vec<Pattern>,
    pub missing: Vec<u32>,
}

/// How good a plan is, the smaller the better: area that is missing, price, and how little the
/// free area is gathered in few sheets.
type Rank = (u64, u64, u64);

/// What plans are made of.
#[derive(Clone, Copy)]
pub(super) struct Workshop<'w> {
    pub stocks: &'w [Stock],
    /// Area of every kind of piece, kerf included.
    pub areas: &'w [u64],
}

impl Pattern {
    pub fn new(stock: usize, shape: Shape, areas: &[u64]) -> Pattern {
        let mut counts = vec![0; areas.len()];
        shape.count(&mut counts);
        let pairs = counts.iter().zip(areas);
        let area = pairs.map(|(count, area)| u64::from(*count) * area).sum();
        Pattern {
            stock,
            shape,
            counts,
            area,
        }
    }
}

impl Workshop<'_> {
    /// Price of all sheets.
    pub fn price(&self, patterns: &[Pattern]) -> u64 {
        patterns
            .iter()
            .map(|one| self.stocks[one.stock].price)
            .sum()
    }

    pub fn rank(&self, plan: &Filled) -> Rank {
        let missing = plan.missing.iter().zip(self.areas);
        let missing = missing.map(|(count, area)| u64::from(*count) * area).sum();
        let gathered: u128 = plan.patterns.iter().map(|one| self.gathered(one)).sum();
        let spread = u64::MAX - u64::try_from(gathered).unwrap_or(u64::MAX);
        (missing, self.price(&plan.patterns), spread)
    }

    /// Square of the free share of a sheet, times its area.
    fn gathered(&self, one: &Pattern) -> u128 {
        let whole = u128::from(self.stocks[one.stock].frame.area());
        let free = whole - u128::from(one.area).min(whole);
        free * free / whole
    }

    /// Sheets that are left when these are used.
    fn left(&self, patterns: &[Pattern]) -> Vec<u32> {
        let all = self
            .stocks
            .iter()
            .map(|stock| stock.available.unwrap_or(u32::MAX));
        let mut left: Vec<u32> = all.collect();
        for one in patterns {
            left[one.stock] = left[one.stock].saturating_sub(1);
        }
        left
    }

    /// Adds sheets to `patterns` until everything in `missing` is cut or no sheet is left.
    pub fn fill_all(
        &self,
        patterns: Vec<Pattern>,
        missing: Vec<u32>,
        fills: usize,
        random: &mut Randomness,
    ) -> Filled {
        let mut left = self.left(&patterns);
        let mut plan = Filled { patterns, missing };
        while plan.missing.iter().any(|count| *count > 0) {
            let Some(pattern) = self.next(&plan.missing, &left, fills, random) else {
                break;
            };
            for (missing, count) in plan.missing.iter_mut().zip(&pattern.counts) {
                *missing -= count;
            }
            left[pattern.stock] = left[pattern.stock].saturating_sub(1);
            plan.patterns.push(pattern);
        }
        plan
    }

    /// The sheet with the least price for the area of its pieces, of equal ones the fullest.
    fn next(
        &self,
        missing: &[u32],
        left: &[u32],
        fills: usize,
        random: &mut Randomness,
    ) -> Option<Pattern> {
        let mut best: Option<Pattern> = None;
        for (index, stock) in self.stocks.iter().enumerate() {
            if left[index] == 0 {
                continue;
            }
            for fill in 0..fills {
                let ranks = if fill < MANNERS.len() && fills > MANNERS.len() {
                    self.areas.to_vec()
                } else {
                    shaken(self.areas, random)
                };
                let manner = if fills > MANNERS.len() {
                    fill % MANNERS.len()
                } else {
                    (random.bits() % MANNERS.len() as u64) as usize
                };
                let filler = Filler {
                    frame: &stock.frame,
                    positions: &stock.positions,
                    ranks: &ranks,
                };
                let mut rest = missing.to_vec();
                let Some(shape) = filler.fill(MANNERS[manner], &mut rest) else {
                    break;
                };
                let pattern = Pattern::new(index, shape, self.areas);
                if best
                    .as_ref()
                    .is_none_or(|known| self.is_better(&pattern, known))
                {
                    best = Some(pattern);
                }
                if rest.iter().all(|count| *count == 0) {
                    break;
                }
            }
        }
        best
    }

    fn is_better(&self, one: &Pattern, other: &Pattern) -> bool {
        let price = |of: &Pattern| u128::from(self.stocks[of.stock].price);
        let left = price(one) * u128::from(other.area);
        let right = price(other) * u128::from(one.area);
        let fuller = || {
            let whole = |of: &Pattern| u128::from(self.stocks[of.stock].frame.area());
            u128::from(one.area) * whole(other) > u128::from(other.area) * whole(one)
        };
        left < right || (left == right && fuller())
    }

    /// A first plan.
    pub fn first(&self, wanted: &[u32], random: &mut Randomness) -> Filled {
        let fills = (ALL_FILLS / self.stocks.len().max(1)).clamp(FEW_FILLS, FILLS);
        self.fill_all(vec![], wanted.to_vec(), fills, random)
    }

    /// Empties some sheets and fills them again, so many times or until the price is reached.
    pub fn improve(
        &self,
        plan: Filled,
        tries: usize,
        good_enough: u64,
        random: &mut Randomness,
    ) -> Filled {
        let mut rank = self.rank(&plan);
        let mut plan = plan;
        for _ in 0..tries.min(LOOKS / self.looks(&plan)) {
            if plan.patterns.is_empty() || (rank.0 == 0 && rank.1 <= good_enough) {
                break;
            }
            let other = self.refill(&plan, random);
            let other_rank = self.rank(&other);
            if other_rank <= rank {
                plan = other;
                rank = other_rank;
            }
        }
        plan
    }

    /// Positions that one try looks at, about, from above.
    fn looks(&self, plan: &Filled) -> usize {
        let pieces: u32 = plan.patterns.iter().flat_map(|one| &one.counts).sum();
        let on_one = pieces as usize / plan.patterns.len().max(1) + 1;
        let positions: usize = self
            .stocks
            .iter()
            .flat_map(|one| &one.positions)
            .map(Vec::len)
            .sum();
        (EMPTIED as usize * FEW_FILLS * positions * on_one).max(1)
    }

    fn refill(&self, plan: &Filled, random: &mut Randomness) -> Filled {
        let count = plan.patterns.len();
        let emptied = (1 + random.bits() % EMPTIED).min(count as u64);
        let mut kept = plan.patterns.clone();
        let mut missing = plan.missing.clone();
        for _ in 0..emptied {
            let index = (random.bits() % kept.len() as u64) as usize;
            let pattern = kept.swap_remove(index);
            for (missing, count) in missing.iter_mut().zip(&pattern.counts) {
                *missing += count;
            }
        }
        self.fill_all(kept, missing, FEW_FILLS, random)
    }
}
