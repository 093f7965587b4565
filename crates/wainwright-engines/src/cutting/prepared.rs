//! The job as the solver sees it: kerf added to every length, equal lengths together, money in
//! whole parts of a cent. Not here: any solving.

use super::CuttingError;
use super::input::Job;
use crate::refusal::Refusal;

/// Most bits of the highest price in parts of a cent; exact prices have 41.
const MOST_BITS: u32 = 34;

/// Pieces of one length.
#[derive(Debug, Clone)]
pub(super) struct Item {
    /// Length and one kerf \[steps\].
    pub(super) weight: i64,
    /// How many.
    pub(super) demand: i64,
    /// Entries of the job's list with their counts.
    pub(super) from: Vec<(usize, u32)>,
}

/// Bars of one kind.
#[derive(Debug, Clone)]
pub(super) struct Bar {
    /// Usable length and one kerf \[steps\].
    pub(super) capacity: i64,
    /// Price \[parts of a cent\].
    pub(super) price: i64,
    /// How many there are.
    pub(super) limit: Option<i64>,
    /// Entry of the job's list; `None` for the bar that stands for what is lacking.
    pub(super) stock: Option<usize>,
}

/// A way to fill one bar: item and how often, items ascending.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Pattern {
    pub(super) bar: usize,
    pub(super) items: Vec<(u32, u32)>,
}

/// The job, prepared.
#[derive(Debug, Clone)]
pub(super) struct Prepared {
    /// Longest first.
    pub(super) items: Vec<Item>,
    pub(super) bars: Vec<Bar>,
    pub(super) kerf: i64,
    /// Shortest offcut that is worth something \[steps\], and worth of each step \[parts of a cent\].
    pub(super) credit: Option<(i64, i64)>,
    /// Parts to a cent.
    pub(super) parts: i64,
    /// Every cost is a multiple of this \[parts of a cent\].
    pub(super) grain: i64,
    /// Highest price or worth of a bar of the job, at least 1 \[parts of a cent\].
    pub(super) unit: i64,
    /// Whole numbers to one part of a cent in exact prices.
    pub(super) scale: i64,
}

impl Prepared {
    pub(super) fn new(job: &Job) -> Result<Self, CuttingError> {
        let parts = job.leftover.map_or(1, |leftover| i64::from(leftover.per));
        let kerf = i64::from(job.kerf);
        let items = items(job);
        let mut bars: Vec<Bar> = (job.stocks.iter().enumerate())
            .filter(|(_, stock)| stock.usable() > 0 && stock.available != Some(0))
            .map(|(index, stock)| Bar {
                capacity: i64::from(stock.usable()) + kerf,
                price: i64::from(stock.price) * parts,
                limit: stock.available.map(i64::from),
                stock: Some(index),
            })
            .collect();
        all_fit(job, &items, &bars)?;
        let credit = job
            .leftover
            .filter(|leftover| leftover.cents > 0)
            .map(|leftover| (i64::from(leftover.least), i64::from(leftover.cents)));
        let highest = |bars: &[Bar]| bars.iter().map(|bar| bar.price).max().unwrap_or(1).max(1);
        let unit = highest(&bars).max(most_worth(&bars, credit));
        let mut grain = bars.iter().fold(0, |sum, bar| gcd(sum, bar.price));
        grain = credit.map_or(grain, |(_, cents)| gcd(grain, cents)).max(1);
        add_lacking(&items, &mut bars, credit, grain);
        let bits = 64 - highest(&bars).max(unit).leading_zeros();
        if bits > MOST_BITS {
            let expected =
                "less in all: fewer bars, lower prices, or a shorter length of its worth";
            let refusal = Refusal::new("worth of all bars", highest(&bars) as f64, expected);
            return Err(CuttingError::Refused(refusal));
        }
        Ok(Self {
            items,
            bars,
            kerf,
            credit,
            parts,
            grain,
            unit,
            scale: 1 << (41 - bits).min(40),
        })
    }

    /// Worth of what a bar has left, a kerf included \[parts of a cent\].
    pub(super) fn worth(&self, left: i64) -> i64 {
        match self.credit {
            Some((least, cents)) if left - self.kerf >= least => (left - self.kerf).max(0) * cents,
            _ => 0,
        }
    }

    /// Price of a bar less the worth of its offcut when `weight` is filled \[parts of a cent\].
    pub(super) fn cost(&self, bar: usize, weight: i64) -> i64 {
        let bar = &self.bars[bar];
        bar.price - self.worth(bar.capacity - weight)
    }

    /// Whether some bar brings money when it is hardly used, so that pieces would better be spread.
    pub(super) fn pays_unfilled(&self) -> bool {
        (0..self.bars.len()).any(|bar| self.cost(bar, 0) < 0)
    }

    /// Steps filled by a pattern.
    pub(super) fn weight(&self, items: &[(u32, u32)]) -> i64 {
        let weights = items.iter();
        weights
            .map(|&(item, times)| self.items[item as usize].weight * i64::from(times))
            .sum()
    }

    /// Cost of one pattern \[parts of a cent\].
    pub(super) fn pattern_cost(&self, pattern: &Pattern) -> i64 {
        self.cost(pattern.bar, self.weight(&pattern.items))
    }

    /// Number of pieces.
    pub(super) fn pieces(&self) -> i64 {
        self.items.iter().map(|item| item.demand).sum()
    }

    /// Most pieces that fit one bar.
    pub(super) fn most_in_a_bar(&self) -> i64 {
        let least = self.items.last().map_or(1, |item| item.weight);
        (self.widest() / least.max(1)).clamp(1, self.pieces().max(1))
    }

    /// How many of each item are wanted.
    pub(super) fn demands(&self) -> Vec<i64> {
        self.items.iter().map(|item| item.demand).collect()
    }

    /// How many of each bar there are.
    pub(super) fn limits(&self) -> Vec<Option<i64>> {
        self.bars.iter().map(|bar| bar.limit).collect()
    }

    /// Longest bar with one kerf \[steps\].
    pub(super) fn widest(&self) -> i64 {
        self.bars.iter().map(|bar| bar.capacity).max().unwrap_or(0)
    }
}

fn items(job: &Job) -> Vec<Item> {
    let mut order: Vec<usize> = (0..job.pieces.len())
        .filter(|&index| job.pieces[index].count > 0)
        .collect();
    order.sort_by_key(|&index| (std::cmp::Reverse(job.pieces[index].length), index));
    let mut items: Vec<Item> = Vec::new();
    for index in order {
        let piece = job.pieces[index];
        let weight = i64::from(piece.length) + i64::from(job.kerf);
        match items.last_mut() {
            Some(last) if last.weight == weight => {
                last.demand += i64::from(piece.count);
                last.from.push((index, piece.count));
            }
            _ => items.push(Item {
                weight,
                demand: i64::from(piece.count),
                from: vec![(index, piece.count)],
            }),
        }
    }
    items
}

fn all_fit(job: &Job, items: &[Item], bars: &[Bar]) -> Result<(), CuttingError> {
    let longest = bars.iter().map(|bar| bar.capacity).max();
    let longest = longest.unwrap_or(i64::from(job.kerf));
    match items.first() {
        Some(item) if item.weight > longest => {
            let piece = item.from[0].0;
            Err(CuttingError::TooLong {
                piece,
                length: job.pieces[piece].length,
                longest: (longest - i64::from(job.kerf)) as u32,
            })
        }
        _ => Ok(()),
    }
}

/// When the bars could run out: bars beyond any price, so that there is always a plan.
fn add_lacking(items: &[Item], bars: &mut Vec<Bar>, credit: Option<(i64, i64)>, grain: i64) {
    let Some(first) = items.first() else {
        return;
    };
    let endless = |bar: &Bar| bar.limit.is_none() && bar.capacity >= first.weight;
    if bars.iter().any(endless) {
        return;
    }
    let pieces: i64 = items.iter().map(|item| item.demand).sum();
    let spent = |bar: &Bar| bar.price * bar.limit.unwrap_or(pieces).min(pieces);
    let gained = |bar: &Bar| {
        let (_, cents) = credit.unwrap_or((0, 0));
        bar.capacity * cents * bar.limit.unwrap_or(pieces).min(pieces)
    };
    let price: i64 = bars.iter().map(|bar| spent(bar) + gained(bar)).sum();
    bars.push(Bar {
        capacity: first.weight,
        price: (price / grain + 1) * grain,
        limit: None,
        stock: None,
    });
}

fn most_worth(bars: &[Bar], credit: Option<(i64, i64)>) -> i64 {
    let longest = bars.iter().map(|bar| bar.capacity).max().unwrap_or(0);
    credit.map_or(0, |(_, cents)| cents * longest)
}

fn gcd(one: i64, two: i64) -> i64 {
    if two == 0 { one } else { gcd(two, one % two) }
}
