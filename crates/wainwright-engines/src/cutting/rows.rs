//! Rows beyond those of pieces and bars: cuts that every whole plan obeys, and the sides of a
//! branch. Not here: which are chosen when.

use super::pool::Pool;
use super::prepared::Pattern;
use super::simplex::Sense;
use std::rc::Rc;

/// What a row counts in a pattern.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    /// Pieces of the items, each counted `times`, divided by `by` and rounded up.
    Share { items: Vec<(u32, i64)>, by: i64 },
    /// Bars that hold so many of one item and so many of another.
    Together { one: (u32, u32), two: (u32, u32) },
    /// Bars of one kind.
    Bars(usize),
    /// Bars of all kinds.
    All,
    /// Bars of one kind that are filled no more than this, by the weights of the items \[steps\].
    Light {
        bar: usize,
        most: i64,
        weights: Rc<Vec<i64>>,
    },
    /// Bars cut by one pattern.
    Same(Pattern),
}

/// A row and its entries over the pool.
#[derive(Debug, Clone)]
pub(super) struct Row {
    pub(super) kind: Kind,
    pub(super) sense: Sense,
    pub(super) right: i64,
    /// Pattern and what it counts; shared between nodes.
    pub(super) entries: Rc<Vec<(u32, i64)>>,
}

impl Row {
    pub(super) fn new(kind: Kind, sense: Sense, right: i64, pool: &Pool) -> Self {
        let entries = (kind.places(pool).into_iter())
            .map(|place| (place, kind.counts(&pool.patterns[place as usize])))
            .filter(|&(_, value)| value != 0)
            .collect();
        Self {
            kind,
            sense,
            right,
            entries: Rc::new(entries),
        }
    }
}

impl Kind {
    /// Bars with at least so many of two items.
    pub(super) const fn together(one: (u32, u32), two: (u32, u32)) -> Self {
        Self::Together { one, two }
    }

    /// Places of all patterns in which the row could count something.
    fn places(&self, pool: &Pool) -> Vec<u32> {
        match self {
            Self::Share { items, .. } => {
                let holders = items.iter().map(|entry| &pool.holders[entry.0 as usize]);
                let mut places: Vec<u32> = holders.flatten().copied().collect();
                places.sort_unstable();
                places.dedup();
                places
            }
            Self::Together { one, .. } => pool.holders[one.0 as usize].clone(),
            Self::Same(pattern) => pool
                .find(pattern)
                .map(|place| place as u32)
                .into_iter()
                .collect(),
            _ => (0..pool.patterns.len() as u32).collect(),
        }
    }

    /// What the row counts in a pattern.
    pub(super) fn counts(&self, pattern: &Pattern) -> i64 {
        match self {
            Self::Share { items, by } => {
                let mut sum = 0;
                for &(item, times) in items {
                    sum += times * held(pattern, item);
                }
                (sum + by - 1) / by
            }
            Self::Together { one, two } => {
                let both = held(pattern, one.0) >= i64::from(one.1)
                    && held(pattern, two.0) >= i64::from(two.1);
                i64::from(both)
            }
            Self::Bars(bar) => i64::from(pattern.bar == *bar),
            Self::All => 1,
            Self::Light { bar, most, weights } => {
                let weight =
                    |&(item, times): &(u32, u32)| weights[item as usize] * i64::from(times);
                let sum: i64 = pattern.items.iter().map(weight).sum();
                i64::from(pattern.bar == *bar && sum <= *most)
            }
            Self::Same(other) => i64::from(pattern == other),
        }
    }
}

/// Pieces of an item in a pattern.
pub(super) fn held(pattern: &Pattern, item: u32) -> i64 {
    (pattern.items.iter())
        .find(|entry| entry.0 == item)
        .map_or(0, |entry| i64::from(entry.1))
}

/// Cuts that a fractional plan breaks: halves of one, two or three items, most broken first.
pub(super) fn broken(
    plan: &[(&Pattern, f64)],
    demands: &[i64],
    known: &[Row],
    most: usize,
) -> Vec<(Kind, i64)> {
    let mut holders: Vec<Vec<usize>> = vec![Vec::new(); demands.len()];
    for (index, (pattern, _)) in plan.iter().enumerate() {
        for &(item, _) in &pattern.items {
            holders[item as usize].push(index);
        }
    }
    let look = Look {
        plan,
        demands,
        holders,
    };
    let mut found: Vec<(f64, Vec<u32>)> = Vec::new();
    for one in 0..demands.len() {
        look.test(&[one], &mut found);
        let near = look.beside(one);
        for (at, &two) in near.iter().enumerate() {
            if two > one {
                look.test(&[one, two], &mut found);
            }
            // Triples in which this item is with both others.
            for &three in &near[at + 1..] {
                look.test(&[one, two, three], &mut found);
            }
        }
    }
    found.sort_by(|a, b| b.0.total_cmp(&a.0).then_with(|| a.1.cmp(&b.1)));
    found.dedup_by(|a, b| a.1 == b.1);
    let kinds = found.into_iter().map(|(_, items)| {
        let demand: i64 = items.iter().map(|&item| demands[item as usize]).sum();
        let kind = Kind::Share {
            items: items.into_iter().map(|item| (item, 1)).collect(),
            by: 2,
        };
        (kind, (demand + 1) / 2)
    });
    let fresh = kinds.filter(|(kind, _)| known.iter().all(|row| row.kind != *kind));
    fresh.take(most).collect()
}

struct Look<'p> {
    plan: &'p [(&'p Pattern, f64)],
    demands: &'p [i64],
    holders: Vec<Vec<usize>>,
}

impl Look<'_> {
    /// Items that share a bar with this one.
    fn beside(&self, item: usize) -> Vec<usize> {
        let holders = self.holders[item].iter();
        let mut near: Vec<usize> = holders
            .flat_map(|&index| self.plan[index].0.items.iter())
            .map(|entry| entry.0 as usize)
            .filter(|&other| other != item)
            .collect();
        near.sort_unstable();
        near.dedup();
        near
    }

    /// Notes the cut over these items if it is broken.
    fn test(&self, items: &[usize], found: &mut Vec<(f64, Vec<u32>)>) {
        let demand: i64 = items.iter().map(|&item| self.demands[item]).sum();
        if demand % 2 == 0 {
            return;
        }
        let mut sum = 0.0;
        for (place, &item) in items.iter().enumerate() {
            for &index in &self.holders[item] {
                let (pattern, amount) = &self.plan[index];
                let counts = |item: &usize| held(pattern, *item as u32);
                if items[..place].iter().any(|item| counts(item) > 0) {
                    continue;
                }
                let held: i64 = items.iter().map(counts).sum();
                sum += amount * ((held + 1) / 2) as f64;
            }
        }
        let lacking = ((demand + 1) / 2) as f64 - sum;
        if lacking > 0.02 {
            let mut items: Vec<u32> = items.iter().map(|&item| item as u32).collect();
            items.sort_unstable();
            found.push((lacking, items));
        }
    }
}
