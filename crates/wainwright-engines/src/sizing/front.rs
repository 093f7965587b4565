//! Fronts: the plans of a subtree that no other one beats in price and in what it leaves over for
//! sections further up. Not here: where the plans come from (`climb`).

use super::whole::{Price, UNLIMITED};
use std::ops::Range;

/// Most plans of a front that leaves at most two amounts over.
const MOST_KEPT: usize = 4000;
/// Most plans of a front that leaves more amounts over.
const MOST_KEPT_OF_MANY: usize = 100;

/// How a front that grew too long is cut.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Cut {
    /// Some plans are dropped: what is found is a plan, maybe not the best.
    Drop,
    /// Neighbours become one that is as good as the best of them: what is found is a bound.
    Merge,
}

/// Plans in order of price. Each leaves `width` amounts over.
#[derive(Debug, Clone, Default)]
pub(super) struct Front {
    pub width: usize,
    pub prices: Vec<Price>,
    /// What each plan leaves over, one plan after the other.
    pub left: Vec<i64>,
    /// Where each plan comes from.
    pub origins: Vec<(u32, u32)>,
}

impl Front {
    pub(super) fn new(width: usize) -> Self {
        Self {
            width,
            ..Self::default()
        }
    }

    /// The one plan of an empty subtree.
    pub(super) fn nothing(width: usize) -> Self {
        Self {
            width,
            prices: vec![Price::default()],
            left: vec![UNLIMITED; width],
            origins: vec![(0, 0)],
        }
    }

    pub(super) fn len(&self) -> usize {
        self.prices.len()
    }

    /// What a plan leaves over.
    pub(super) fn left(&self, plan: usize) -> &[i64] {
        &self.left[self.range(plan)]
    }

    pub(super) fn push(&mut self, price: Price, left: &[i64], origin: (u32, u32)) {
        self.prices.push(price);
        self.left.extend_from_slice(left);
        self.origins.push(origin);
    }

    /// Most plans to keep of a front that leaves so many amounts over.
    pub(super) fn most_kept(&self) -> usize {
        if self.width > 2 {
            MOST_KEPT_OF_MANY
        } else {
            MOST_KEPT
        }
    }

    /// Only the plans that no other one beats, in order of price, and about half of `most` when these are
    /// more than that. Says whether any of them were lost.
    pub(super) fn thin(&mut self, cut: Cut, most: usize) -> bool {
        let mut order: Vec<usize> = (0..self.len()).collect();
        order.sort_by(|&one, &other| {
            let by_price = self.prices[one].cmp(&self.prices[other]);
            by_price.then_with(|| self.left(other).cmp(self.left(one)))
        });
        let mut kept = match self.width {
            0 => order.into_iter().take(1).collect(),
            1 => self.best_of_one(&order),
            2 => self.best_of_two(&order),
            _ => self.best_of_many(&order),
        };
        if kept.len() <= most {
            *self = self.chosen(&kept);
            return false;
        }
        let groups = groups(kept.len(), most / 2);
        match cut {
            Cut::Drop => {
                kept = self.spread(&kept, &groups);
                *self = self.chosen(&kept);
            }
            Cut::Merge => *self = self.merged(&kept, &groups),
        }
        true
    }

    fn range(&self, plan: usize) -> Range<usize> {
        plan * self.width..(plan + 1) * self.width
    }

    fn best_of_one(&self, order: &[usize]) -> Vec<usize> {
        let mut most = i64::MIN;
        let mut kept = Vec::new();
        for &plan in order {
            if self.left[plan] > most {
                most = self.left[plan];
                kept.push(plan);
            }
        }
        kept
    }

    /// Keeps the outline of what is left over so far: the first falling, the second rising.
    fn best_of_two(&self, order: &[usize]) -> Vec<usize> {
        let mut outline: Vec<(i64, i64)> = Vec::new();
        let mut kept = Vec::new();
        for &plan in order {
            let (one, other) = (self.left[2 * plan], self.left[2 * plan + 1]);
            let at = outline.partition_point(|known| known.0 >= one);
            if at > 0 && outline[at - 1].1 >= other {
                continue;
            }
            let from = if at > 0 && outline[at - 1].0 == one {
                at - 1
            } else {
                at
            };
            let covered = outline[from..]
                .iter()
                .take_while(|known| known.1 <= other)
                .count();
            outline.splice(from..from + covered, [(one, other)]);
            kept.push(plan);
        }
        kept
    }

    fn best_of_many(&self, order: &[usize]) -> Vec<usize> {
        let mut kept: Vec<usize> = Vec::new();
        for &plan in order {
            let left = self.left(plan);
            let covers = |&other: &usize| {
                self.left(other)
                    .iter()
                    .zip(left)
                    .all(|(more, less)| more >= less)
            };
            if !kept.iter().any(covers) {
                kept.push(plan);
            }
        }
        kept
    }

    fn chosen(&self, plans: &[usize]) -> Front {
        let mut front = Front::new(self.width);
        for &plan in plans {
            front.push(self.prices[plan], self.left(plan), self.origins[plan]);
        }
        front
    }

    /// The first of each group, and whoever leaves the most of any amount.
    fn spread(&self, kept: &[usize], groups: &[Range<usize>]) -> Vec<usize> {
        let mut chosen: Vec<usize> = groups.iter().map(|group| group.start).collect();
        let most = |amount: usize| {
            (0..kept.len())
                .max_by_key(|&place| (self.left(kept[place])[amount], usize::MAX - place))
        };
        chosen.extend((0..self.width).filter_map(most));
        let least = |place: usize| self.left(kept[place]).iter().min().copied();
        chosen.extend((0..kept.len()).max_by_key(|&place| (least(place), usize::MAX - place)));
        chosen.sort_unstable();
        chosen.dedup();
        chosen.into_iter().map(|place| kept[place]).collect()
    }

    /// One plan for each group, as cheap as the cheapest and leaving the most of each amount.
    fn merged(&self, kept: &[usize], groups: &[Range<usize>]) -> Front {
        let mut front = Front::new(self.width);
        for group in groups {
            let plans = &kept[group.clone()];
            let Some(&first) = plans.first() else {
                continue;
            };
            let mut left = self.left(first).to_vec();
            for &plan in plans {
                for (most, &own) in left.iter_mut().zip(self.left(plan)) {
                    *most = own.max(*most);
                }
            }
            front.push(self.prices[first], &left, self.origins[first]);
        }
        front
    }
}

/// Equal parts of a range.
fn groups(length: usize, count: usize) -> Vec<Range<usize>> {
    (0..count)
        .map(|group| group * length / count..(group + 1) * length / count)
        .collect()
}
