//! The fractional problem over patterns, its patterns made as they are needed, and the exact bound
//! that its prices prove. Not here: whole numbers of bars.

use super::meter::Meter;
use super::prepared::{Pattern, Prepared};
use super::price::{Priced, Prices, price};
use super::result::Cap;
use super::simplex::{Lp, Role, Sense};
use super::solve::round_up;
use std::collections::BTreeMap;

/// Excess below which a pattern is no longer looked for [of the highest price].
const CLOSE: f64 = 1e-9;
/// Patterns taken from one round besides the best of each bar.
const MANY: usize = 12;
/// Share of the best prices so far in the prices that patterns are made for.
const STEADY: f64 = 0.6;

/// Turns of the demands whose prices are averaged.
const TURNS: usize = 8;

/// A lower bound and the prices that prove it.
#[derive(Debug, Clone)]
pub(super) struct Bound {
    /// No plan costs less \[parts of a cent times the scale\].
    pub(super) scaled: i128,
    pub(super) prices: Prices,
}

/// Patterns known, and what is asked of them.
#[derive(Debug, Clone)]
pub(super) struct Master<'p> {
    pub(super) prepared: &'p Prepared,
    pub(super) patterns: Vec<Pattern>,
    known: BTreeMap<Pattern, usize>,
    /// Row of each bar of which there is a number.
    limit_rows: Vec<Option<usize>>,
}

impl<'p> Master<'p> {
    pub(super) fn new(prepared: &'p Prepared) -> Self {
        let mut next = prepared.items.len();
        let limit_rows = (prepared.bars.iter())
            .map(|bar| {
                bar.limit.map(|_| {
                    next += 1;
                    next - 1
                })
            })
            .collect();
        Self {
            prepared,
            patterns: Vec::new(),
            known: BTreeMap::new(),
            limit_rows,
        }
    }

    /// The problem with no pattern yet: one row for each item, one for each bar with a limit.
    pub(super) fn program(&self) -> Lp {
        let mut lp = Lp::default();
        for (index, item) in self.prepared.items.iter().enumerate() {
            // A little more is asked for, of each item another little, so that rows do not tie.
            let lack = 1.001 * self.alone(item.weight);
            let right = item.demand as f64 + jitter(index);
            lp.add_row(Sense::AtLeast, right, lack, &[], true);
        }
        for limit in self.prepared.limits().into_iter().flatten() {
            lp.add_row(Sense::AtMost, limit as f64, 0.0, &[], false);
        }
        for longer in 1..self.prepared.items.len() {
            // A longer piece in place of the next shorter one.
            lp.add_swap(longer - 1, longer);
        }
        lp
    }

    /// Lowest price of a bar that never runs out and holds this weight [of the highest price].
    fn alone(&self, weight: i64) -> f64 {
        let bars = self.prepared.bars.iter();
        let fitting = bars.filter(|bar| bar.limit.is_none() && bar.capacity >= weight);
        let least = fitting
            .map(|bar| bar.price)
            .min()
            .unwrap_or(self.prepared.unit);
        least as f64 / self.prepared.unit as f64
    }

    /// Number of a pattern, new or known.
    pub(super) fn number(&mut self, pattern: Pattern) -> (usize, bool) {
        if let Some(&number) = self.known.get(&pattern) {
            return (number, false);
        }
        let number = self.patterns.len();
        self.known.insert(pattern.clone(), number);
        self.patterns.push(pattern);
        (number, true)
    }

    /// Cost of a pattern [of the highest price].
    pub(super) fn cost(&self, number: usize) -> f64 {
        self.prepared.pattern_cost(&self.patterns[number]) as f64 / self.prepared.unit as f64
    }

    /// Adds a known pattern to a program.
    pub(super) fn enter(&self, lp: &mut Lp, number: usize) {
        let pattern = &self.patterns[number];
        let mut entries: Vec<(u32, f64)> = (pattern.items.iter())
            .map(|&(item, times)| (item, f64::from(times)))
            .collect();
        if let Some(row) = self.limit_rows[pattern.bar] {
            entries.push((row as u32, 1.0));
        }
        lp.add_pattern(self.cost(number), entries, number);
    }

    /// Row of a limited bar.
    pub(super) fn limit_row(&self, bar: usize) -> Option<usize> {
        self.limit_rows[bar]
    }

    /// Prices of the program's rows as whole numbers.
    pub(super) fn prices(&self, lp: &Lp) -> Prices {
        let factor = self.prepared.unit as f64 * self.prepared.scale as f64;
        let rows = lp.prices();
        let items = 0..self.prepared.items.len();
        Prices {
            items: items
                .map(|row| (rows[row].max(0.0) * factor) as i64)
                .collect(),
            bars: (self.limit_rows.iter())
                .map(|row| row.map_or(0, |row| ((-rows[row]).max(0.0) * factor).ceil() as i64))
                .collect(),
        }
    }

    /// Makes patterns until `stop`. `None` when a cap was hit; then `best` is still a bound.
    pub(super) fn generate(
        &mut self,
        lp: &mut Lp,
        asked: &Asked,
        best: &mut Option<Bound>,
        stop: Stop,
        meter: &mut Meter,
    ) -> Option<()> {
        let close = (CLOSE * self.prepared.unit as f64 * self.prepared.scale as f64) as i64;
        let mut steady = 0.0;
        loop {
            self.primal(lp, meter)?;
            if matches!(stop, Stop::Value(_)) && self.is_close(lp, None, stop, meter) {
                return Some(());
            }
            let now = self.prices(lp);
            let at = match best {
                Some(best) if steady > 0.0 => mix(&best.prices, &now, steady),
                _ => now,
            };
            let priced = self.price(&at, asked, meter)?;
            let scaled = self.bound(&at, &priced, asked);
            if best.as_ref().is_none_or(|best| scaled > best.scaled) {
                *best = Some(Bound { scaled, prices: at });
            }
            if self.is_close(lp, best.as_ref(), stop, meter) {
                return Some(());
            }
            let most = priced.excess.iter().max().copied().unwrap_or(0);
            let added = self.add(lp, priced);
            if steady == 0.0 && (most <= close || !added) {
                if lp.end_swaps(4.0) {
                    continue;
                }

                return Some(());
            }
            // Prices that gave nothing new: next time those of the program alone.
            steady = if added { STEADY } else { 0.0 };
        }
    }

    /// Whether going on cannot lift the rounded bound, when that is asked.
    fn is_close(&self, lp: &Lp, best: Option<&Bound>, stop: Stop, meter: &Meter) -> bool {
        if let Stop::Value(enough) = stop {
            return lp.value() <= enough;
        }
        let (Stop::Rounded { after }, Some(best)) = (stop, best) else {
            return false;
        };
        let scale = self.prepared.scale;
        let up = |scaled| round_up(scaled, scale, self.prepared.grain);
        let value = lp.value() * self.prepared.unit as f64 * scale as f64 * (1.0 - 1e-7);
        meter.work.states > after && up(value as i128) <= up(best.scaled)
    }

    fn primal(&self, lp: &mut Lp, meter: &mut Meter) -> Option<()> {
        meter.pivot(lp, Lp::primal).then_some(())
    }

    /// Patterns worth more than they cost.
    pub(super) fn price(&self, at: &Prices, asked: &Asked, meter: &mut Meter) -> Option<Priced> {
        let bars: Vec<bool> = asked.limits.iter().map(|limit| *limit != Some(0)).collect();
        let (most, budget) = (&asked.demands, meter.budget.states);
        let used = &mut meter.work.states;
        let priced = price(self.prepared, at, most, &bars, MANY, budget, used);
        if priced.is_none() {
            meter.caps.insert(Cap::States);
        }
        priced
    }

    /// Every plan costs at least this \[scaled\]: worth of the pieces, less what limited bars are
    /// said to bring, less what any bar could be worth beyond its cost.
    fn bound(&self, at: &Prices, priced: &Priced, asked: &Asked) -> i128 {
        let worth = (asked.demands.iter().zip(&at.items))
            .map(|(&demand, &price)| i128::from(demand) * i128::from(price));
        let mut sum: i128 = worth.sum();
        let mut free = 0;
        for (bar, limit) in asked.limits.iter().enumerate() {
            match limit {
                Some(limit) => {
                    let each = i128::from(at.bars[bar]) + i128::from(priced.excess[bar]);
                    sum -= each * i128::from(*limit);
                }
                None => free = free.max(priced.excess[bar]),
            }
        }
        sum - i128::from(free) * i128::from(asked.most_bars)
    }

    /// Adds patterns that pay at the program's own prices; true if there was any.
    fn add(&mut self, lp: &mut Lp, priced: Priced) -> bool {
        let mut added = false;
        for (_, pattern) in priced.patterns {
            let mut reduced = 0.0;
            for &(item, times) in &pattern.items {
                reduced -= lp.prices()[item as usize] * f64::from(times);
            }
            if let Some(row) = self.limit_rows[pattern.bar] {
                reduced -= lp.prices()[row];
            }
            let (number, _) = self.number(pattern);
            if reduced + self.cost(number) < -CLOSE {
                self.enter(lp, number);
                added = true;
            }
        }
        added
    }

    /// Prices between several best ones: as good a bound, and fewer patterns that just pay.
    pub(super) fn between(
        &mut self,
        lp: &Lp,
        asked: &Asked,
        best: &Bound,
        meter: &mut Meter,
    ) -> Option<Bound> {
        let mut sum = best.clone();
        let mut count = 1;
        for turn in 1..=TURNS {
            let mut turned = lp.clone();
            for (row, &demand) in asked.demands.iter().enumerate() {
                turned.set_right(row, demand as f64 + 1e4 * jitter(row * turn + 7 * turn));
            }
            turned.settle();
            let mut other = None;
            if !meter.pivot(&mut turned, Lp::dual) {
                return None;
            }
            self.generate(&mut turned, asked, &mut other, Stop::Best, meter)?;
            let last = self.prices(&turned);
            let priced = self.price(&last, asked, meter)?;
            let scaled = self.bound(&last, &priced, asked);

            let lost = (best.scaled - scaled) as f64;
            if lost < 1e-6 * self.prepared.unit as f64 * self.prepared.scale as f64 {
                add(&mut sum.prices.items, &last.items);
                add(&mut sum.prices.bars, &last.bars);
                count += 1;
            }
        }
        for price in sum.prices.items.iter_mut().chain(&mut sum.prices.bars) {
            *price /= count;
        }
        let priced = self.price(&sum.prices, asked, meter)?;
        sum.scaled = self.bound(&sum.prices, &priced, asked);
        Some(sum)
    }

    /// Patterns with an amount.
    pub(super) fn amounts(&self, lp: &Lp) -> Vec<(usize, usize, f64)> {
        let mut amounts: Vec<(usize, usize, f64)> = (lp.basic())
            .filter_map(|(column, amount)| match lp.role(column) {
                Role::Pattern(number) if amount > 1e-5 => Some((column, number, amount)),
                _ => None,
            })
            .collect();
        amounts.sort_by(|a, b| b.2.total_cmp(&a.2).then(a.1.cmp(&b.1)));
        amounts
    }
}

/// When the making of patterns ends.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Stop {
    /// When no pattern is better.
    Best,
    /// Also when the bound cannot come to lie beyond another whole cost, once so much was looked at.
    Rounded {
        /// Partial patterns.
        after: u64,
    },
    /// Also when the value of the program is so low [of the highest price].
    Value(f64),
}

/// What is still asked for.
#[derive(Debug, Clone)]
pub(super) struct Asked {
    /// Pieces of each item.
    pub(super) demands: Vec<i64>,
    /// Bars of each kind.
    pub(super) limits: Vec<Option<i64>>,
    /// No best plan uses more bars that never run out.
    pub(super) most_bars: i64,
}

/// A little more than asked for, differently for each row.
pub(super) fn jitter(row: usize) -> f64 {
    1e-7 * (1.0 + (row as f64 * 0.618_033_988_749_895).fract())
}

fn add(sum: &mut [i64], more: &[i64]) {
    for (sum, more) in sum.iter_mut().zip(more) {
        *sum += more;
    }
}

fn mix(one: &Prices, two: &Prices, share: f64) -> Prices {
    let both = |a: &[i64], b: &[i64]| {
        let pairs = a.iter().zip(b);
        let mixed = pairs.map(|(&a, &b)| (share * a as f64 + (1.0 - share) * b as f64) as i64);
        mixed.collect()
    };
    Prices {
        items: both(&one.items, &two.items),
        bars: both(&one.bars, &two.bars),
    }
}
