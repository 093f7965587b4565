//! Patterns worth more than they cost at given prices of the pieces: a bounded knapsack over lists
//! of partial patterns, in whole numbers, so that "there is none" is exact. Not here: where the
//! prices come from.

use super::prepared::{Pattern, Prepared};

/// Whole-number prices \[parts of a cent times the scale\].
#[derive(Debug, Clone, Default)]
pub(super) struct Prices {
    /// Of one piece of each item, not below zero.
    pub(super) items: Vec<i64>,
    /// Of one more bar of each kind beyond its price, not below zero.
    pub(super) bars: Vec<i64>,
}

/// What was found.
#[derive(Debug, Clone)]
pub(super) struct Priced {
    /// Patterns worth more than they cost, the best of each bar and others, with the excess.
    pub(super) patterns: Vec<(i64, Pattern)>,
    /// Largest excess on each bar, 0 when there is none.
    pub(super) excess: Vec<i64>,
}

#[derive(Clone, Copy)]
struct State {
    weight: i64,
    value: i64,
    trail: u32,
}

/// The lists and where they came from.
struct Lists<'p> {
    prepared: &'p Prepared,
    /// For rising capacities: capacity, and price and extra \[scaled\].
    bars: Vec<(i64, i64)>,
    /// Worth of one step of offcut \[scaled\].
    credit: i64,
    trails: Vec<(u32, u32)>,
    states: u64,
}

/// Patterns of bars still to be had (`bars[k]`) with at most `most[i]` of item i, at most `many`
/// besides the best of each bar; `None` when more than `budget` states were needed. Adds to `used`.
pub(super) fn price(
    prepared: &Prepared,
    prices: &Prices,
    most: &[i64],
    bars: &[bool],
    many: usize,
    budget: u64,
    used: &mut u64,
) -> Option<Priced> {
    let scale = prepared.scale;
    let mut rising: Vec<(i64, i64)> = (prepared.bars.iter().enumerate())
        .filter(|&(index, _)| bars[index])
        .map(|(index, bar)| (bar.capacity, bar.price * scale + prices.bars[index]))
        .collect();
    rising.sort_unstable();
    let mut lists = Lists {
        prepared,
        bars: rising,
        credit: prepared.credit.map_or(0, |(_, cents)| cents * scale),
        trails: vec![(u32::MAX, 0)],
        states: 0,
    };
    let list = lists.fill(prices, most, budget.saturating_sub(*used));
    *used += lists.states;
    Some(lists.gather(&list?, prices, bars, many))
}

impl Lists<'_> {
    fn fill(&mut self, prices: &Prices, most: &[i64], budget: u64) -> Option<Vec<State>> {
        let items = &self.prepared.items;
        let widest = self.bars.last().map_or(0, |bar| bar.0);
        let pays_unfilled = self.prepared.pays_unfilled();
        let mut order: Vec<usize> = (0..items.len())
            .filter(|&item| (prices.items[item] > 0 || pays_unfilled) && most[item] > 0)
            .filter(|&item| items[item].weight <= widest)
            .collect();
        // Dearest per step first; cross products fit 128 bits.
        order.sort_by(|&a, &b| {
            let cross = |one: usize, two: usize| {
                i128::from(prices.items[one]) * i128::from(items[two].weight)
            };
            cross(b, a).cmp(&cross(a, b)).then(a.cmp(&b))
        });
        // The empty bar stands apart: it is no pattern, and must not outdo one.
        let mut empty = vec![State {
            weight: 0,
            value: 0,
            trail: 0,
        }];
        let mut list: Vec<State> = Vec::new();
        let mut merged = Vec::new();
        let mut fresh = Vec::new();
        for &item in &order {
            let (weight, value) = (items[item].weight, prices.items[item]);
            // No state can gain more than this for each step.
            let rate = (value / weight + 1).max(self.credit);
            self.prune(&mut list, rate);
            self.prune(&mut empty, rate);
            if list.is_empty() && empty.is_empty() {
                break;
            }
            let mut shifted = empty.clone();
            if value > 0 {
                shifted.extend_from_slice(&list);
            }
            for _ in 0..most[item] {
                fresh.clear();
                for state in &shifted {
                    if state.weight + weight > widest {
                        break;
                    }
                    fresh.push(State {
                        weight: state.weight + weight,
                        value: state.value + value,
                        trail: state.trail,
                    });
                }
                self.states += (fresh.len() + list.len()) as u64;
                if self.states > budget || self.trails.len() > 60_000_000 {
                    return None;
                }
                self.prune(&mut fresh, rate);
                if fresh.is_empty() {
                    break;
                }
                for state in &mut fresh {
                    self.trails.push((state.trail, item as u32));
                    state.trail = (self.trails.len() - 1) as u32;
                }
                merge(&list, &fresh, &mut merged);
                std::mem::swap(&mut list, &mut merged);
                std::mem::swap(&mut shifted, &mut fresh);
                if value == 0 {
                    break;
                }
            }
        }
        Some(list)
    }

    /// Drops what no bar can make worth its price at that rate.
    fn prune(&self, list: &mut Vec<State>, rate: i64) {
        // For each bar on: least of price - rate * capacity over it and all longer ones.
        let mut least = i64::MAX;
        let mut needs: Vec<(i64, i64)> = vec![(0, 0); self.bars.len()];
        for (index, &(capacity, price)) in self.bars.iter().enumerate().rev() {
            least = least.min(price - rate * capacity);
            needs[index] = (capacity, least);
        }
        let mut bar = 0;
        list.retain(|state| {
            while bar < needs.len() && needs[bar].0 < state.weight {
                bar += 1;
            }
            bar < needs.len() && state.value - rate * state.weight > needs[bar].1
        });
    }

    fn gather(&self, list: &[State], prices: &Prices, bars: &[bool], many: usize) -> Priced {
        let mut excess = vec![0; bars.len()];
        let mut found: Vec<(i64, usize, u32)> = Vec::new();
        for (bar, is_left) in bars.iter().enumerate() {
            if !is_left {
                continue;
            }
            let capacity = self.prepared.bars[bar].capacity;
            for state in list.iter().take_while(|state| state.weight <= capacity) {
                let cost = self.prepared.cost(bar, state.weight) * self.prepared.scale;
                let more = state.value - cost - prices.bars[bar];
                if more > 0 {
                    excess[bar] = excess[bar].max(more);
                    found.push((more, bar, state.trail));
                }
            }
        }
        found.sort_by_key(|&(more, bar, trail)| (std::cmp::Reverse(more), bar, trail));
        let mut has_best = vec![false; bars.len()];
        let mut last = std::collections::BTreeSet::new();
        let mut patterns = Vec::new();
        for (more, bar, trail) in found {
            let best = !std::mem::replace(&mut has_best[bar], true);
            let other = last.len() < many && last.insert((bar, self.trails[trail as usize].1));
            if best || other {
                patterns.push((more, self.pattern(bar, trail)));
            }
        }
        Priced { patterns, excess }
    }

    fn pattern(&self, bar: usize, mut trail: u32) -> Pattern {
        let mut flat = Vec::new();
        while trail != 0 {
            let (before, item) = self.trails[trail as usize];
            flat.push(item);
            trail = before;
        }
        Pattern::of(bar, flat)
    }
}

impl Pattern {
    /// The pattern of a bar with these items, in any order.
    pub(super) fn of(bar: usize, mut flat: Vec<u32>) -> Self {
        flat.sort_unstable();
        let mut items: Vec<(u32, u32)> = Vec::new();
        for item in flat {
            match items.last_mut() {
                Some(last) if last.0 == item => last.1 += 1,
                _ => items.push((item, 1)),
            }
        }
        Self { bar, items }
    }
}

/// Both lists by weight, without states that weigh more and are worth no more.
fn merge(one: &[State], two: &[State], out: &mut Vec<State>) {
    out.clear();
    let (mut i, mut j) = (0, 0);
    let mut best = -1;
    while i < one.len() || j < two.len() {
        let first = j == two.len()
            || i < one.len()
                && (one[i].weight, std::cmp::Reverse(one[i].value))
                    <= (two[j].weight, std::cmp::Reverse(two[j].value));
        let state = if first { one[i] } else { two[j] };
        i += usize::from(first);
        j += usize::from(!first);
        if state.value > best {
            best = state.value;
            out.push(state);
        }
    }
}
