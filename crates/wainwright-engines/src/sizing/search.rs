//! The best plan, and a proof of it also where fronts had to be cut: branch and bound over the climb.
//! Not here: the climb, why there is no plan (`why`).

use super::climb::{Found, climb};
use super::forest::{Domain, Forest};
use super::front::Cut;
use super::hanging::knot;
use super::knot::untie;
use super::result::Effort;
use super::whole::{Price, Whole};
use std::collections::BTreeSet;

/// Most times the whole is solved.
const MOST_ROUNDS: usize = 300;
/// Most part plans looked at before the search ends with a gap.
const MOST_PLANS: usize = 2_000_000;

/// What the search ended with.
#[derive(Debug, Clone)]
pub(super) struct Ended {
    /// The best plan found, by variable.
    pub best: Option<Found>,
    /// No plan is cheaper; `None` when there is surely none.
    pub bound: Option<Price>,
    pub effort: Effort,
}

/// Options left, with a bound for all their plans.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord)]
struct Part {
    bound: Price,
    number: usize,
    domain: Domain,
}

/// Searches the options of every variable; `None` when groups feed one another crosswise.
pub(super) fn search(whole: &Whole) -> Option<Ended> {
    let options = whole
        .variables
        .iter()
        .map(|variable| variable.options.len());
    let all: Domain = options.map(|count| (0..count).collect()).collect();
    let forest = Forest::new(whole, &all)?;
    if !knot(&forest).is_empty() {
        return Some(search_knot(whole, &forest, &all));
    }
    let mut search = Search {
        whole,
        best: None,
        open: BTreeSet::new(),
        effort: Effort::default(),
    };
    search.look(all)?;
    while let Some(part) = search.open.pop_first() {
        if part.bound >= search.under() {
            continue;
        }
        let Effort { plans, rounds } = search.effort;
        if rounds >= MOST_ROUNDS || plans >= MOST_PLANS {
            search.open.insert(part);
            break;
        }
        let forest = Forest::new(whole, &part.domain)?;
        let open = |variable: &usize| part.domain[*variable].len() > 1;
        let Some(variable) = forest.order.into_iter().find(open) else {
            continue;
        };
        for half in halves(whole, variable, &part.domain[variable]) {
            let mut domain = part.domain.clone();
            domain[variable] = half;
            search.look(domain)?;
        }
    }
    let open = search.open.first().map(|part| part.bound);
    let best = search.best.as_ref().map(|found| found.price);
    Some(Ended {
        bound: open.into_iter().chain(best).min(),
        best: search.best,
        effort: search.effort,
    })
}

/// Where ways cross: the knot once, and once more for a bound when fronts had to be cut.
fn search_knot(whole: &Whole, forest: &Forest, domain: &Domain) -> Ended {
    let found = untie(whole, forest, domain, Cut::Drop);
    let mut effort = Effort {
        plans: found.plans,
        rounds: 1,
    };
    let (mut least, mut open) = (found.best.as_ref().map(|best| best.price), found.open);
    if found.cut {
        let bound = untie(whole, forest, domain, Cut::Merge);
        effort.plans += bound.plans;
        effort.rounds += 1;
        (least, open) = (bound.best.map(|best| best.price), bound.open);
    }
    Ended {
        bound: least.into_iter().chain(open).min(),
        best: found.best,
        effort,
    }
}

struct Search<'w> {
    whole: &'w Whole,
    best: Option<Found>,
    open: BTreeSet<Part>,
    effort: Effort,
}

impl Search<'_> {
    /// Solves with the options left, and keeps them when more can be in them.
    fn look(&mut self, domain: Domain) -> Option<()> {
        let forest = Forest::new(self.whole, &domain)?;
        let (found, cut, plans) = climb(self.whole, &forest, &domain, Cut::Drop, self.under());
        self.effort.rounds += 1;
        self.effort.plans += plans;
        self.best = found.or(self.best.take());
        if !cut {
            return Some(());
        }
        let (bound, _, plans) = climb(self.whole, &forest, &domain, Cut::Merge, self.under());
        self.effort.plans += plans;
        if let Some(bound) = bound.map(|bound| bound.price) {
            let number = self.effort.rounds;
            self.open.insert(Part {
                bound,
                number,
                domain,
            });
        }
        Some(())
    }

    /// What a plan must cost less than to be of use.
    fn under(&self) -> Price {
        self.best.as_ref().map_or(Price::ENDLESS, |best| best.price)
    }
}

/// The options of less resistance and the others.
fn halves(whole: &Whole, variable: usize, options: &[usize]) -> [Vec<usize>; 2] {
    let ohms = |option: usize| {
        whole.variables[variable].options[option]
            .ohms
            .iter()
            .sum::<i64>()
    };
    let mut sorted = options.to_vec();
    sorted.sort_by_key(|&option| (ohms(option), option));
    let mut other = sorted.split_off(sorted.len() / 2);
    sorted.sort_unstable();
    other.sort_unstable();
    [sorted, other]
}
