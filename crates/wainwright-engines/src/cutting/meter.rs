//! Counts work and names the caps that were hit. Not here: what is done about it.

use super::input::Budget;
use super::result::{Cap, Work};
use super::simplex::Lp;
use std::collections::BTreeSet;

/// Work done against what may be done.
#[derive(Debug, Clone)]
pub(super) struct Meter {
    pub(super) budget: Budget,
    pub(super) work: Work,
    pub(super) caps: BTreeSet<Cap>,
}

impl Meter {
    pub(super) fn new(budget: Budget) -> Self {
        Self {
            budget,
            work: Work::default(),
            caps: BTreeSet::new(),
        }
    }

    /// Steps of a program as far as the budget goes; false when they did not come to an end, and
    /// then the cap is named.
    pub(super) fn pivot(&mut self, lp: &mut Lp, steps: fn(&mut Lp, u64) -> bool) -> bool {
        let before = lp.pivots;
        let left = self.budget.pivots.saturating_sub(self.work.pivots);
        let done = steps(lp, left);
        let made = lp.pivots - before;
        self.work.pivots += made;
        if !done {
            let cap = if made < left {
                Cap::Precision
            } else {
                Cap::Pivots
            };
            self.caps.insert(cap);
        }
        done
    }

    /// Whether one more node may be looked at; names the cap if not.
    pub(super) fn node(&mut self) -> bool {
        if self.work.nodes >= self.budget.nodes {
            self.caps.insert(Cap::Nodes);
            return false;
        }
        self.work.nodes += 1;
        true
    }
}
