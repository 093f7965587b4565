//! What a cutting plan says, and how it is refused. Not here: how it is found.

use super::input::Job;
use crate::refusal::Refusal;
use std::cmp::Ordering;
use std::fmt;
use wainwright_units::Ratio;

/// An exact amount of money: `numerator / denominator` cents.
#[derive(Debug, Clone, Copy)]
pub struct Cost {
    /// Parts of cents.
    pub numerator: i64,
    /// Parts to one cent, above zero.
    pub denominator: i64,
}

impl Cost {
    /// In cents \[cents\].
    #[must_use]
    pub fn cents(self) -> f64 {
        self.numerator as f64 / self.denominator as f64
    }
}

impl Ord for Cost {
    fn cmp(&self, other: &Self) -> Ordering {
        let cross =
            |one: &Self, two: &Self| i128::from(one.numerator) * i128::from(two.denominator);
        cross(self, other).cmp(&cross(other, self))
    }
}

impl PartialOrd for Cost {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl PartialEq for Cost {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl Eq for Cost {}

/// How every bar is cut, what it costs, and what is proven about that.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// The different ways a bar is cut: by stock, then longest pieces first.
    pub layouts: Vec<Layout>,
    /// Price of the bars less the worth of the offcuts.
    pub cost: Cost,
    /// No plan costs less than this; equal to the cost when proven.
    pub bound: Cost,
    /// What the pieces would cost if bars could be bought in fractions \[cents\]: the bound of
    /// Gilmore and Gomory over patterns that make no piece oftener than wanted, less a few 1e-9 of
    /// it. Lower when a cap was hit, or in large jobs, where it is followed only until it rounds up
    /// to the same whole cost.
    pub relaxation: f64,
    /// The cost is the least there is.
    pub proven: bool,
    /// Caps that were hit; empty when proven.
    pub caps: Vec<Cap>,
    /// Work done.
    pub work: Work,
}

impl Plan {
    /// Bars used.
    #[must_use]
    pub fn bars(&self) -> u32 {
        self.layouts.iter().map(|layout| layout.times).sum()
    }

    /// Bars of one stock used.
    #[must_use]
    pub fn bars_of(&self, stock: usize) -> u32 {
        let of = self.layouts.iter().filter(|layout| layout.stock == stock);
        of.map(|layout| layout.times).sum()
    }

    /// Cuts made, not counting those that square the ends.
    #[must_use]
    pub fn cuts(&self) -> u32 {
        (self.layouts.iter())
            .map(|layout| layout.times * layout.cuts)
            .sum()
    }

    /// How much less the best plan could cost at most, as a share of this one's cost.
    #[must_use]
    pub fn gap(&self) -> Ratio {
        let (cost, bound) = (self.cost.cents(), self.bound.cents());
        let share = if self.proven || cost == bound {
            0.0
        } else {
            (cost - bound) / cost.abs().max(f64::MIN_POSITIVE)
        };
        Ratio::from_fraction(share)
    }
}

/// One way to cut a bar.
/// Pieces + kerf + offcut + trim + defects = length of the stock.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layout {
    /// Which stock.
    pub stock: usize,
    /// How many bars are cut like this.
    pub times: u32,
    /// Entries of the job's list of pieces in the order they are cut, longest first.
    pub pieces: Vec<usize>,
    /// Cuts, not counting those that square the ends.
    pub cuts: u32,
    /// Lost to these cuts \[steps\].
    pub kerf_lost: u32,
    /// What is left in one piece \[steps\].
    pub offcut: u32,
    /// What the offcut is worth.
    pub credit: Cost,
}

/// A limit of work that was hit.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Cap {
    /// Nodes of the search trees.
    Nodes,
    /// Pivots of linear programs.
    Pivots,
    /// Patterns in one list.
    Patterns,
    /// Patterns and partial patterns looked at.
    States,
    /// Numbers got too rough to go on with; no count of work mends this.
    Precision,
}

/// Work done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Work {
    /// Nodes of the search trees.
    pub nodes: u64,
    /// Pivots of linear programs.
    pub pivots: u64,
    /// Most patterns in one list.
    pub patterns: u64,
    /// Patterns and partial patterns looked at.
    pub states: u64,
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq)]
pub enum CuttingError {
    /// An input outside its range.
    Refused(Refusal),
    /// A piece that fits into no stock.
    TooLong {
        /// Entry of the list of pieces.
        piece: usize,
        /// Its length \[steps\].
        length: u32,
        /// What the longest stock leaves for it \[steps\]; 0 when there is no stock.
        longest: u32,
    },
    /// The bars there are do not hold all pieces.
    NotEnough {
        /// No way of cutting holds them; else none was found within the budget.
        proven: bool,
    },
    /// The books do not balance: an error of the engine.
    Unbalanced(Refusal),
}

impl fmt::Display for CuttingError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Refused(refusal) => refusal.fmt(out),
            Self::TooLong {
                piece,
                length,
                longest,
            } => write!(
                out,
                "piece {} is {length} steps long, expected at most {longest}, the longest stock; \
                 join it from two or add a longer stock",
                piece + 1
            ),
            Self::NotEnough { proven: true } => {
                out.write_str("the bars at hand do not hold all pieces; add bars or allow buying")
            }
            Self::NotEnough { proven: false } => out.write_str(
                "no way was found to cut all pieces from the bars at hand, and none is ruled out; \
                 add bars or raise the budget",
            ),
            Self::Unbalanced(refusal) => write!(out, "the plan does not add up: {refusal}"),
        }
    }
}

impl std::error::Error for CuttingError {}

/// Every bar adds up to its stock, every piece is cut, and no stock is used oftener than there is.
pub(super) fn balance(job: &Job, plan: &Plan) -> Result<(), CuttingError> {
    let mut made = vec![0_u32; job.pieces.len()];
    let mut cost = 0_i64;
    for (index, layout) in plan.layouts.iter().enumerate() {
        let wrong = |field, found: u64, expected| {
            let refusal = Refusal::new(field, found as f64, expected).at("layout", index);
            Err(CuttingError::Unbalanced(refusal))
        };
        let Some(stock) = job.stocks.get(layout.stock) else {
            return wrong("stock", layout.stock as u64, "one of the job");
        };
        let mut sum = u64::from(stock.trim) + u64::from(stock.defects);
        sum += u64::from(layout.kerf_lost) + u64::from(layout.offcut);
        for &piece in &layout.pieces {
            made[piece] += layout.times;
            sum += u64::from(job.pieces[piece].length);
        }
        if sum != u64::from(stock.length) {
            return wrong("sum of all parts [steps]", sum, "the length of the stock");
        }
        if u64::from(layout.kerf_lost) > u64::from(job.kerf) * u64::from(layout.cuts) {
            return wrong("kerf [steps]", layout.kerf_lost.into(), "kerf times cuts");
        }
        let bar = i64::from(stock.price) * layout.credit.denominator - layout.credit.numerator;
        cost += bar * i64::from(layout.times);
    }
    let short = (0..made.len()).find(|&piece| made[piece] != job.pieces[piece].count);
    if let Some(piece) = short {
        let refusal = Refusal::new("pieces cut", made[piece].into(), "the number wanted");
        return Err(CuttingError::Unbalanced(refusal.at("piece", piece)));
    }
    for (index, stock) in job.stocks.iter().enumerate() {
        let used = plan.bars_of(index);
        if stock.available.is_some_and(|most| used > most) {
            let refusal = Refusal::new("bars used", used.into(), "at most what is there");
            return Err(CuttingError::Unbalanced(refusal.at("stock", index)));
        }
    }
    if cost != plan.cost.numerator {
        let refusal = Refusal::new("cost", cost as f64, "the sum over the bars");
        return Err(CuttingError::Unbalanced(refusal));
    }
    Ok(())
}
