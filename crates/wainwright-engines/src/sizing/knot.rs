//! Where ways cross: branch and bound over the shared sections, with the fronts of the separate ones
//! ready-made. Not here: ways that form a tree (`climb` alone).
//!
//! The knot is every variable below which more than two amounts have to be kept apart, and all above it.
//! What hangs below the knot is settled by climbing, once for each set of device ratings. Some variables
//! of the knot share nothing below it (the feeders of different fuse blocks): once all others are taken
//! each of these has its own best option. The bound of a part plan: its price, the least price of what is
//! not taken yet, for each free variable its best option with all that hangs on it, and for every other
//! group the cheapest plan that fits, as if the rest of the knot used as little as it can.

use super::climb::{Climb, Found};
use super::forest::{Base, Domain, Forest, Kind, Measure, upstream, used};
use super::front::{Cut, Front};
use super::hanging::{Check, Free, Group, checks, free, groups, knot, least_used, possible_ranks};
use super::whole::{Price, Rank, UNLIMITED, Whole};
use std::collections::BTreeSet;
use std::rc::Rc;

/// Most part plans of the knot.
const MOST_STEPS: usize = 30_000;
/// Most sets of ratings tried for one group whose devices are not all taken yet.
const MOST_RATING_SETS: usize = 1000;

/// What the search of a knot found.
pub(super) struct Untied {
    pub best: Option<Found>,
    /// The least bound of what was left unsearched.
    pub open: Option<Price>,
    /// Whether fronts were cut.
    pub cut: bool,
    pub plans: usize,
}

/// The best plan when ways cross.
pub(super) fn untie(whole: &Whole, forest: &Forest, domain: &Domain, cut: Cut) -> Untied {
    let mut order = knot(forest);
    let in_knot: BTreeSet<usize> = order.iter().copied().collect();
    let climb = Climb::new(whole, forest, domain, cut);
    let groups = groups(forest, &climb, &in_knot);
    let checks = checks(whole, forest, &order);
    let free = free(whole, domain, &order, &groups, &checks);
    order.retain(|variable| !free.iter().any(|free| free.variable == *variable));
    let fixed = |parts: fn(&Free) -> &Vec<usize>, count: usize| -> Vec<usize> {
        let taken: BTreeSet<usize> = free.iter().flat_map(parts).copied().collect();
        (0..count).filter(|index| !taken.contains(index)).collect()
    };
    let mut untying = Untying {
        other_groups: fixed(|free| &free.groups, groups.len()),
        other_checks: fixed(|free| &free.checks, checks.len()),
        groups,
        checks,
        free,
        seen: vec![None; whole.place.len()],
        used: [Kind::Drop, Kind::Ohms].map(|kind| least_used(whole, domain, kind)),
        taken: vec![0; whole.variables.len()],
        best: None,
        open: None,
        steps: 0,
        order,
        climb,
    };
    let least = untying
        .order
        .iter()
        .map(|&variable| untying.climb.least[variable]);
    let price = least.fold(Price::default(), |sum, price| sum + price);
    untying.descend(0, price);
    Untied {
        best: untying.best,
        open: untying.open,
        cut: untying.climb.was_cut,
        plans: untying.climb.plans + untying.steps,
    }
}

struct Untying<'w> {
    climb: Climb<'w>,
    order: Vec<usize>,
    groups: Vec<Group>,
    checks: Vec<Check>,
    free: Vec<Free>,
    /// Groups and checks in which no free variable has a part.
    other_groups: Vec<usize>,
    other_checks: Vec<usize>,
    /// The nearest device rating as known so far, by section.
    seen: Vec<Option<Rank>>,
    /// Drop and resistance of each section: of its choice, or the least it can have.
    used: [Vec<i64>; 2],
    taken: Vec<usize>,
    best: Option<Found>,
    open: Option<Price>,
    steps: usize,
}

impl Untying<'_> {
    /// Tries every option of the next variable, the most promising first. `price` is that of the knot.
    fn descend(&mut self, level: usize, price: Price) {
        let Some(&variable) = self.order.get(level) else {
            self.finish(price);
            return;
        };
        let whole = self.climb.whole;
        let mut promising = Vec::new();
        for &option in &self.climb.domain[variable] {
            let own = whole.variables[variable].options[option].price;
            let price = price - self.climb.least[variable] + own;
            if self.take(variable, Some(option))
                && let Some(bound) = self.bound(price)
            {
                promising.push((bound, price, option));
            }
        }
        promising.sort_unstable();
        for (bound, price, option) in promising {
            if self.best.as_ref().is_some_and(|best| best.price <= bound) {
                break;
            }
            if self.steps >= MOST_STEPS {
                self.open = Some(self.open.map_or(bound, |open| open.min(bound)));
                break;
            }
            self.steps += 1;
            self.take(variable, Some(option));
            self.descend(level + 1, price);
        }
        self.take(variable, None);
    }

    /// Writes down what an option uses and which ratings it makes known, or that nothing is taken; `false`
    /// when a device does not suit the one upstream.
    fn take(&mut self, variable: usize, option: Option<usize>) -> bool {
        let whole = self.climb.whole;
        let domain = &self.climb.domain[variable];
        let options = &whole.variables[variable].options;
        let mut suits = true;
        for (place, &member) in whole.variables[variable].members.iter().enumerate() {
            for (kind, amounts) in [Kind::Drop, Kind::Ohms].into_iter().zip(&mut self.used) {
                let amount = |&option: &usize| used(&options[option], kind, &[place]);
                let least = || domain.iter().map(amount).min().unwrap_or(0);
                amounts[member] = option.as_ref().map_or_else(least, amount);
            }
            if whole.device_at[member] != Some(member) {
                continue;
            }
            let above =
                upstream(whole, member).map_or(0, |section| self.seen[section].unwrap_or(0));
            self.seen[member] = option.map(|option| {
                let own = options[option].devices[place];
                suits &= whole.ratio[member] <= 0.0 || whole.selective(member, own, above);
                if own == 0 { above } else { own }
            });
        }
        if let Some(option) = option {
            self.taken[variable] = option;
        }
        suits
    }

    /// No plan with what is taken so far costs less; `None` when there is none that is of use.
    fn bound(&mut self, price: Price) -> Option<Price> {
        if !self
            .other_checks
            .iter()
            .all(|&check| self.holds(&self.checks[check]))
        {
            return None;
        }
        let mut bound = price;
        for place in 0..self.other_groups.len() {
            bound = bound + self.cheapest(self.other_groups[place])?.0;
        }
        for place in 0..self.free.len() {
            bound = bound + self.best_option(place)?.0;
            if self.best.as_ref().is_some_and(|best| best.price <= bound) {
                return None;
            }
        }
        Some(bound)
    }

    /// The best option of a free variable with what hangs on it: its price, and which it is.
    fn best_option(&mut self, place: usize) -> Option<(Price, usize)> {
        let whole = self.climb.whole;
        let variable = self.free[place].variable;
        let mut best: Option<(Price, usize)> = None;
        for index in 0..self.free[place].options.len() {
            let option = self.free[place].options[index];
            let price = whole.variables[variable].options[option].price;
            let beaten = |price: Price| best.is_some_and(|best| best.0 <= price);
            if beaten(price) {
                break;
            }
            if !self.take(variable, Some(option)) {
                continue;
            }
            if let Some(price) = self.with_hanging(place, price)
                && !beaten(price)
            {
                best = Some((price, option));
            }
        }
        self.take(variable, None);
        best
    }

    /// A price with the cheapest plan of every group a free variable has a part in.
    fn with_hanging(&mut self, place: usize, price: Price) -> Option<Price> {
        if !self.free[place]
            .checks
            .iter()
            .all(|&check| self.holds(&self.checks[check]))
        {
            return None;
        }
        let mut price = price;
        for index in 0..self.free[place].groups.len() {
            price = price + self.cheapest(self.free[place].groups[index])?.0;
        }
        Some(price)
    }

    fn holds(&self, check: &Check) -> bool {
        let most = match check.base {
            Base::Drop(most) => most,
            Base::Below(_) => UNLIMITED,
            Base::Ohms(limit, at, taken) => {
                let table = self.climb.whole.limits[limit]
                    .fault
                    .as_ref()
                    .map(|fault| &fault.1);
                let allowed = |rank: Rank| {
                    let entry =
                        table.and_then(|table| table.get(usize::from(rank).wrapping_sub(1)));
                    entry.map_or(UNLIMITED, |&most| if most < 0 { -1 } else { most - taken })
                };
                let known = at.map_or(Some(0), |section| self.seen[section]);
                known.map_or(UNLIMITED, allowed)
            }
        };
        self.sum(&check.measure) <= most
    }

    fn sum(&self, (kind, sections): &Measure) -> i64 {
        let amounts = &self.used[usize::from(*kind == Kind::Ohms)];
        sections.iter().map(|&section| amounts[section]).sum()
    }

    /// Price and origin of the cheapest plan of a group that fits into what is left.
    fn cheapest(&mut self, group: usize) -> Option<(Price, u32)> {
        let known: Vec<Option<Rank>> = self.groups[group]
            .needs
            .iter()
            .map(|&section| self.seen[section])
            .collect();
        let Some(front) = self.front(group, known) else {
            return Some((self.groups[group].floor, 0));
        };
        let measures = &self.groups[group].measures;
        let asked: Vec<i64> = measures.iter().map(|measure| self.sum(measure)).collect();
        let fits = |&plan: &usize| {
            front
                .left(plan)
                .iter()
                .zip(&asked)
                .all(|(left, asked)| left >= asked)
        };
        let plan = (0..front.len()).find(fits)?;
        Some((front.prices[plan], front.origins[plan].0))
    }

    /// The front of a group; of ratings not known yet the best of all that there may be. `None` when these
    /// are too many.
    fn front(&mut self, group: usize, known: Vec<Option<Rank>>) -> Option<Rc<Front>> {
        if let Some(front) = self.groups[group].fronts.get(&known) {
            return Some(Rc::clone(front));
        }
        let needs = self.groups[group].needs.iter().zip(&known);
        let possible = |(&section, known): (&usize, &Option<Rank>)| match known {
            Some(rank) => vec![*rank],
            None => possible_ranks(self.climb.whole, Some(section)),
        };
        let mut sets: Vec<Vec<Rank>> = vec![Vec::new()];
        for ranks in needs.map(possible) {
            if sets.len() * ranks.len() > MOST_RATING_SETS {
                return None;
            }
            let with = |set: &Vec<Rank>, rank: Rank| set.iter().copied().chain([rank]).collect();
            sets = sets
                .iter()
                .flat_map(|set| ranks.iter().map(move |&rank| with(set, rank)))
                .collect();
        }
        let mut all = Front::new(self.groups[group].measures.len());
        for set in &sets {
            let front = self
                .climb
                .together(&self.groups[group].children, all.width, set);
            for plan in 0..front.len() {
                all.push(front.prices[plan], front.left(plan), front.origins[plan]);
            }
        }
        if sets.len() > 1 {
            let count = all.len();
            all.thin(Cut::Merge, count);
        }
        let all = Rc::new(all);
        self.groups[group].fronts.insert(known, Rc::clone(&all));
        Some(all)
    }

    /// All but the free variables are taken: the best options of these, and the plan, if it beats the best
    /// so far.
    fn finish(&mut self, price: Price) {
        let Some(price) = self.bound(price) else {
            return;
        };
        for place in 0..self.free.len() {
            let Some((_, option)) = self.best_option(place) else {
                return;
            };
            self.take(self.free[place].variable, Some(option));
        }
        let origins: Option<Vec<u32>> = (0..self.groups.len())
            .map(|group| self.cheapest(group).map(|found| found.1))
            .collect();
        if let Some(origins) = origins {
            let mut options = self.taken.clone();
            for origin in origins {
                self.climb.follow(origin, &mut options);
            }
            self.best = Some(Found { price, options });
        }
        for place in 0..self.free.len() {
            self.take(self.free[place].variable, None);
        }
    }
}
