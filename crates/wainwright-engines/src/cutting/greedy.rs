//! Plans made one bar at a time: a first upper bound, and the end of a rounding. Nothing is proven
//! here.

use super::prepared::{Pattern, Prepared};

/// Looks taken for the fullest bar.
const LOOKS: u32 = 3_000;

/// How a bar is filled.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Fill {
    /// Longest piece that still fits, again and again.
    LongestFirst,
    /// The longest piece, then whatever leaves least over.
    Fullest,
}

/// Patterns that make what is asked, each with how often.
pub(super) fn greedy(
    prepared: &Prepared,
    demands: &[i64],
    limits: &[Option<i64>],
    fill: Fill,
) -> Vec<(Pattern, i64)> {
    let mut left = demands.to_vec();
    let mut bars = limits.to_vec();
    let mut plan = Vec::new();
    while let Some((pattern, weight)) = best_bar(prepared, &left, &bars, fill) {
        let times = (pattern.items.iter())
            .map(|&(item, times)| left[item as usize] / i64::from(times))
            .chain(bars[pattern.bar])
            .min()
            .unwrap_or(1);
        // Near the end another bar may be better.
        let times = if weight == 0 { 1 } else { times.max(1) };
        for &(item, each) in &pattern.items {
            left[item as usize] -= i64::from(each) * times;
        }
        if let Some(limit) = &mut bars[pattern.bar] {
            *limit -= times;
        }
        plan.push((pattern, times));
    }
    plan
}

/// Cost of a plan \[parts of a cent\].
pub(super) fn cost(prepared: &Prepared, plan: &[(Pattern, i64)]) -> i64 {
    let bars = plan.iter();
    bars.map(|(pattern, times)| prepared.pattern_cost(pattern) * times)
        .sum()
}

fn best_bar(
    prepared: &Prepared,
    left: &[i64],
    bars: &[Option<i64>],
    fill: Fill,
) -> Option<(Pattern, i64)> {
    let first = left.iter().position(|&count| count > 0)?;
    let all: i64 = (left.iter().zip(&prepared.items))
        .map(|(&count, item)| count * item.weight)
        .sum();
    let mut best: Option<(f64, Pattern, i64)> = None;
    for (bar, limit) in bars.iter().enumerate() {
        let capacity = prepared.bars[bar].capacity;
        let start = (first..left.len())
            .find(|&item| left[item] > 0 && prepared.items[item].weight <= capacity);
        let Some(start) = start.filter(|_| *limit != Some(0)) else {
            continue;
        };
        let flat = if all <= capacity {
            everything(left)
        } else {
            filled(prepared, left, capacity, start, fill)
        };
        let pattern = Pattern::of(bar, flat);
        let weight = prepared.weight(&pattern.items);
        // Money for each step filled; the last bar counts for all that is left.
        let rate = prepared.cost(bar, weight) as f64 / weight.max(1) as f64;
        if best.as_ref().is_none_or(|(least, ..)| rate < *least) {
            best = Some((rate, pattern, weight));
        }
    }
    best.map(|(_, pattern, weight)| (pattern, all - weight))
}

fn everything(left: &[i64]) -> Vec<u32> {
    let items = left.iter().enumerate();
    items
        .flat_map(|(item, &count)| std::iter::repeat_n(item as u32, count as usize))
        .collect()
}

fn filled(prepared: &Prepared, left: &[i64], capacity: i64, start: usize, fill: Fill) -> Vec<u32> {
    let mut flat = Vec::new();
    if fill == Fill::LongestFirst {
        let mut room = capacity;
        for (item, &count) in left.iter().enumerate().skip(start) {
            let weight = prepared.items[item].weight;
            let times = count.min(room / weight);
            room -= times * weight;
            flat.extend(std::iter::repeat_n(item as u32, times as usize));
        }
        return flat;
    }
    let mut search = Fullest {
        prepared,
        left: left.to_vec(),
        best: Vec::new(),
        best_room: i64::MAX,
        looks: LOOKS,
    };
    search.left[start] -= 1;
    flat.push(start as u32);
    search.look(start, capacity - prepared.items[start].weight, &mut flat);
    search.best
}

struct Fullest<'p> {
    prepared: &'p Prepared,
    left: Vec<i64>,
    best: Vec<u32>,
    best_room: i64,
    looks: u32,
}

impl Fullest<'_> {
    fn look(&mut self, from: usize, room: i64, flat: &mut Vec<u32>) {
        if room < self.best_room {
            self.best_room = room;
            self.best.clone_from(flat);
        }
        for item in from..self.left.len() {
            if self.best_room == 0 || self.looks == 0 {
                return;
            }
            let weight = self.prepared.items[item].weight;
            if self.left[item] > 0 && weight <= room {
                self.looks -= 1;
                self.left[item] -= 1;
                flat.push(item as u32);
                self.look(item, room - weight, flat);
                flat.pop();
                self.left[item] += 1;
            }
        }
    }
}
