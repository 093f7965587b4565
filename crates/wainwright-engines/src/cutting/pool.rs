//! All patterns that a cheaper plan could hold: those whose cost exceeds their worth at the prices
//! of a bound by no more than the distance from the bound to the plan wanted. Not here: the search
//! among them.

use super::master::{Asked, Bound};
use super::meter::Meter;
use super::prepared::{Pattern, Prepared};
use super::result::Cap;

/// Most entries of the table that says what the rest of a bar can be worth.
const TABLE: i64 = 12_000_000;

/// Patterns, and what they hold, one after the other.
#[derive(Debug, Clone, Default)]
pub(super) struct Pool {
    /// Sorted.
    pub(super) patterns: Vec<Pattern>,
    /// Cost of each \[parts of a cent\].
    pub(super) costs: Vec<i64>,
    /// Places of the patterns that hold each item.
    pub(super) holders: Vec<Vec<u32>>,
}

impl Pool {
    /// Every pattern with a reduced cost of at most `most` \[scaled\]; `None` when there are too many.
    pub(super) fn new(
        prepared: &Prepared,
        bound: &Bound,
        asked: &Asked,
        most: i128,
        meter: &mut Meter,
    ) -> Option<Self> {
        let Ok(most) = i64::try_from(most) else {
            meter.caps.insert(Cap::Patterns);
            return None;
        };
        let mut lister = Lister {
            prepared,
            bound,
            asked,
            best: Best::new(prepared, bound, asked),
            most,
            flat: Vec::new(),
            patterns: Vec::new(),
            bar: 0,
            left_patterns: meter.budget.patterns,
            left_states: meter.budget.states.saturating_sub(meter.work.states),
        };
        let before = lister.left_states;
        let mut done = true;
        for (bar, limit) in asked.limits.iter().enumerate() {
            if *limit == Some(0) {
                continue;
            }
            lister.bar = bar;
            let start = prepared.bars[bar].price * prepared.scale + bound.prices.bars[bar];
            done = done && lister.list(0, prepared.bars[bar].capacity, start);
        }
        meter.work.states += before - lister.left_states;
        meter.work.patterns = meter.work.patterns.max(lister.patterns.len() as u64);
        if !done {
            let cap = if lister.left_states == 0 {
                Cap::States
            } else {
                Cap::Patterns
            };
            meter.caps.insert(cap);
            return None;
        }
        Some(Self::of(prepared, lister.patterns))
    }

    /// Those of some patterns with a reduced cost of at most `most` \[scaled\]: enough to look for a
    /// plan, not to prove that there is none.
    pub(super) fn among(
        prepared: &Prepared,
        patterns: &[Pattern],
        bound: &Bound,
        most: i128,
    ) -> Self {
        let reduced = |pattern: &Pattern| {
            let cost = prepared.pattern_cost(pattern) * prepared.scale;
            let worth = (pattern.items.iter())
                .map(|&(item, times)| bound.prices.items[item as usize] * i64::from(times));
            i128::from(cost + bound.prices.bars[pattern.bar] - worth.sum::<i64>())
        };
        let near = patterns.iter().filter(|pattern| reduced(pattern) <= most);
        Self::of(prepared, near.cloned().collect())
    }

    fn of(prepared: &Prepared, mut patterns: Vec<Pattern>) -> Self {
        patterns.sort_unstable();
        let costs = patterns
            .iter()
            .map(|pattern| prepared.pattern_cost(pattern));
        let mut holders = vec![Vec::new(); prepared.items.len()];
        for (place, pattern) in patterns.iter().enumerate() {
            for &(item, _) in &pattern.items {
                holders[item as usize].push(place as u32);
            }
        }
        Self {
            costs: costs.collect(),
            holders,
            patterns,
        }
    }

    /// Place of a pattern.
    pub(super) fn find(&self, pattern: &Pattern) -> Option<usize> {
        self.patterns.binary_search(pattern).ok()
    }

    /// Only the patterns that are still alive.
    pub(super) fn only(&self, prepared: &Prepared, alive: &[bool]) -> Self {
        let kept = self.patterns.iter().zip(alive);
        let kept = kept.filter(|(_, alive)| **alive);
        Self::of(prepared, kept.map(|(pattern, _)| pattern.clone()).collect())
    }
}

/// Most worth of items from `item` on in a given room, a worth of the offcut included \[scaled\].
enum Best {
    /// By item and room.
    Table { width: usize, values: Vec<i64> },
    /// Worth of one step at best, by item.
    Rate(Vec<i64>),
}

impl Best {
    fn new(prepared: &Prepared, bound: &Bound, asked: &Asked) -> Self {
        let items = prepared.items.len();
        let width = prepared.widest() + 1;
        let credit = prepared.credit.map_or(0, |(_, cents)| cents) * prepared.scale;
        if width * (items as i64 + 1) > TABLE {
            let mut rates = vec![credit; items + 1];
            for item in (0..items).rev() {
                let rate = bound.prices.items[item] / prepared.items[item].weight + 1;
                rates[item] = rates[item + 1].max(rate);
            }
            return Self::Rate(rates);
        }
        let width = width as usize;
        let mut values = vec![0; width * (items + 1)];
        for room in 0..width {
            values[items * width + room] = prepared.worth(room as i64) * prepared.scale;
        }
        for item in (0..items).rev() {
            let weight = prepared.items[item].weight as usize;
            let price = bound.prices.items[item];
            let (head, tail) = values.split_at_mut((item + 1) * width);
            let row = &mut head[item * width..];
            for (room, value) in row.iter_mut().enumerate() {
                let most = (room / weight).min(asked.demands[item].max(0) as usize);
                *value = tail[room];
                for times in 1..=most {
                    *value = (*value).max(tail[room - times * weight] + price * times as i64);
                }
            }
        }
        Self::Table { width, values }
    }

    fn at(&self, item: usize, room: i64) -> i64 {
        match self {
            Self::Table { width, values } => values[item * width + room as usize],
            Self::Rate(rates) => rates[item] * room,
        }
    }
}

struct Lister<'p> {
    prepared: &'p Prepared,
    bound: &'p Bound,
    asked: &'p Asked,
    best: Best,
    most: i64,
    flat: Vec<(u32, u32)>,
    patterns: Vec<Pattern>,
    bar: usize,
    left_patterns: u64,
    left_states: u64,
}

impl Lister<'_> {
    /// Patterns with the items taken so far and any from `item` on; false when there are too many.
    fn list(&mut self, item: usize, room: i64, reduced: i64) -> bool {
        if reduced - self.best.at(item, room) > self.most {
            return true;
        }
        if self.left_states == 0 {
            return false;
        }
        self.left_states -= 1;
        if item == self.prepared.items.len() {
            if self.flat.is_empty() {
                return true;
            }
            if self.left_patterns == 0 {
                return false;
            }
            self.left_patterns -= 1;
            self.patterns.push(Pattern {
                bar: self.bar,
                items: self.flat.clone(),
            });
            return true;
        }
        let weight = self.prepared.items[item].weight;
        let price = self.bound.prices.items[item];
        let most = (room / weight).min(self.asked.demands[item]);
        for times in (0..=most).rev() {
            if times > 0 {
                self.flat.push((item as u32, times as u32));
            }
            let done = self.list(item + 1, room - times * weight, reduced - price * times);
            if times > 0 {
                self.flat.pop();
            }
            if !done {
                return false;
            }
        }
        true
    }
}
