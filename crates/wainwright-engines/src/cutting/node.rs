//! One node of the search: its program over the pool, solved until no pattern of the pool is
//! better, and its exact bound. Not here: what follows from it (`tree`).

use super::master::Asked;
use super::meter::Meter;
use super::pool::Pool;
use super::prepared::Prepared;
use super::result::Cap;
use super::rows::{Kind, Row, held};
use super::simplex::{Lp, Role, Sense};
use super::solve::round_up;

/// Patterns taken from the pool in one round.
const MANY: usize = 30;
/// Reduced cost below which a pattern is taken [of the highest price].
const CLOSE: f64 = 3e-9;
/// Times the prices of broken rows are raised before the node is given up.
const RAISES: usize = 4;

/// How a node ended.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum State {
    /// Nothing cheaper than the plan known is below it.
    Closed,
    /// Its fractional plan is known.
    Solved,
    /// A cap was hit.
    Unsolved,
}

/// What all nodes look at.
pub(super) struct View<'p> {
    pub(super) prepared: &'p Prepared,
    pub(super) asked: &'p Asked,
    pub(super) pool: &'p Pool,
    pub(super) under: i64,
}

/// A part of the search.
#[derive(Debug, Clone)]
pub(super) struct Node {
    pub(super) lp: Lp,
    pub(super) rows: Vec<Row>,
    /// Patterns that a cheaper plan below this node could hold.
    pub(super) alive: Vec<bool>,
    /// No plan below costs less \[scaled\].
    pub(super) bound: i128,
}

/// Prices of all rows as whole numbers, and what each pattern costs beyond them.
struct Exact {
    reduced: Vec<i64>,
    bound: i128,
}

impl Node {
    /// Patterns of the fractional plan with their amounts.
    pub(super) fn amounts(&self) -> Vec<(usize, f64)> {
        let mut amounts: Vec<(usize, f64)> = (self.lp.basic())
            .filter_map(|(column, amount)| match self.lp.role(column) {
                Role::Pattern(place) if amount > 1e-5 && place != usize::MAX => {
                    Some((place, amount))
                }
                _ => None,
            })
            .collect();
        amounts.sort_by(|a, b| b.1.total_cmp(&a.1).then(a.0.cmp(&b.0)));
        amounts
    }

    /// Adds a row.
    pub(super) fn add(&mut self, row: Row, pool: &Pool) {
        let mut entries = Vec::new();
        for column in 0..self.lp.columns() {
            if let Role::Pattern(place) = self.lp.role(column) {
                let value = pool.patterns.get(place).map_or(0, |p| row.kind.counts(p));
                if value != 0 {
                    entries.push((column, value as f64));
                }
            }
        }
        self.lp
            .add_row(row.sense, row.right as f64, 1.0, &entries, false);
        self.rows.push(row);
    }

    /// One side of a branch: by leaving patterns out where that says it, else by a row.
    pub(super) fn side(
        &mut self,
        kind: Kind,
        sense: Sense,
        right: i64,
        pool: &Pool,
        asked: &Asked,
    ) {
        if let Kind::Together { one, two } = &kind {
            let single = |item: u32| asked.demands[item as usize] == 1;
            if sense == Sense::AtMost && right == 0 {
                return self.leave_out(pool, |pattern| kind.counts(pattern) > 0);
            }
            if sense == Sense::AtLeast && one.0 != two.0 && single(one.0) && single(two.0) {
                let (one, two) = (one.0, two.0);
                return self.leave_out(pool, |p| (held(p, one) > 0) != (held(p, two) > 0));
            }
        }
        self.add(Row::new(kind, sense, right, pool), pool);
    }

    /// Takes out cuts that hold nothing back.
    pub(super) fn drop_loose(&mut self, first: usize) {
        let mut loose = self.lp.loose();
        loose.retain(|&row| {
            row >= first && matches!(self.rows[row - first].kind, Kind::Share { .. })
        });
        if loose.is_empty() {
            return;
        }
        self.lp.remove_rows(&loose);
        let mut index = first;
        self.rows.retain(|_| {
            index += 1;
            !loose.contains(&(index - 1))
        });
    }

    fn leave_out(&mut self, pool: &Pool, out: impl Fn(&super::prepared::Pattern) -> bool) {
        for (alive, pattern) in self.alive.iter_mut().zip(&pool.patterns) {
            *alive = *alive && !out(pattern);
        }
        self.freeze_dead();
    }

    fn freeze_dead(&mut self) {
        for column in 0..self.lp.columns() {
            if let Role::Pattern(place) = self.lp.role(column) {
                let dead = place != usize::MAX && !self.alive[place];
                if dead && !self.lp.is_frozen(column) {
                    self.lp.freeze(column, 2.0);
                }
            }
        }
        self.lp.settle();
    }

    /// The fractional plan over the living patterns of the pool.
    pub(super) fn solve(&mut self, view: &View, meter: &mut Meter) -> State {
        let factor = view.prepared.unit as f64 * view.prepared.scale as f64;
        let close = (CLOSE * factor) as i64;
        let limit = i128::from(view.under - view.prepared.grain) * i128::from(view.prepared.scale);
        self.lp.drop_dear(0.2);
        let mut raises = 0;
        loop {
            if !(meter.pivot(&mut self.lp, Lp::dual) && meter.pivot(&mut self.lp, Lp::primal)) {
                return State::Unsolved;
            }
            meter.work.states += view.pool.patterns.len() as u64;
            if meter.work.states > meter.budget.states {
                meter.caps.insert(Cap::States);
                return State::Unsolved;
            }
            let exact = self.exact(view);
            if exact.bound > self.bound {
                self.bound = exact.bound;
            }
            if round_up(self.bound, view.prepared.scale, view.prepared.grain) >= view.under {
                return State::Closed;
            }
            if self.take(view, &exact.reduced, close) {
                continue;
            }
            if self.lp.raise_lacking(8.0) {
                raises += 1;
                if raises > RAISES {
                    meter.caps.insert(Cap::Precision);
                    return State::Unsolved;
                }
                continue;
            }
            let most = limit - exact.bound;
            for (alive, &reduced) in self.alive.iter_mut().zip(&exact.reduced) {
                *alive = *alive && i128::from(reduced) <= most;
            }
            return State::Solved;
        }
    }

    /// Takes the patterns that are furthest below their worth.
    fn take(&mut self, view: &View, reduced: &[i64], close: i64) -> bool {
        let mut here = vec![false; reduced.len()];
        for column in 0..self.lp.columns() {
            if let Role::Pattern(place) = self.lp.role(column)
                && let Some(here) = here.get_mut(place)
            {
                *here = true;
            }
        }
        let mut better: Vec<(i64, usize)> = (reduced.iter().enumerate())
            .filter(|&(place, &cost)| cost < -close && self.alive[place] && !here[place])
            .map(|(place, &cost)| (cost, place))
            .collect();
        if better.is_empty() {
            return false;
        }
        better.sort_unstable();
        better.truncate(MANY);
        let first = view.prepared.items.len();
        let limited: Vec<Option<usize>> = (view.asked.limits.iter())
            .scan(first, |next, limit| {
                let row = limit.map(|_| *next);
                *next += usize::from(limit.is_some());
                Some(row)
            })
            .collect();
        let start = first + limited.iter().flatten().count();
        for (_, place) in better {
            let pattern = &view.pool.patterns[place];
            let mut entries: Vec<(u32, f64)> = (pattern.items.iter())
                .map(|&(item, times)| (item, f64::from(times)))
                .collect();
            if let Some(row) = limited[pattern.bar] {
                entries.push((row as u32, 1.0));
            }
            for (index, row) in self.rows.iter().enumerate() {
                let value = row.kind.counts(pattern);
                if value != 0 {
                    entries.push(((start + index) as u32, value as f64));
                }
            }
            let cost = view.pool.costs[place] as f64 / view.prepared.unit as f64;
            self.lp.add_pattern(cost, entries, place);
        }
        true
    }

    /// Reduced costs and bound in whole numbers, from the prices rounded down.
    fn exact(&self, view: &View) -> Exact {
        let prepared = view.prepared;
        let factor = prepared.unit as f64 * prepared.scale as f64;
        let rows = self.lp.prices();
        // Any prices prove a bound; these cannot overflow a sum over one pattern.
        let top = (1_i64 << 61) / (prepared.most_in_a_bar() * (self.rows.len() as i64 + 2));
        let down = |price: f64| ((price.max(0.0) * factor) as i64).min(top);
        let items = prepared.items.len();
        let mut next = items;
        let mut extra = vec![0; prepared.bars.len()];
        let mut bound: i128 = 0;
        let prices: Vec<i64> = rows[..items].iter().map(|&price| down(price)).collect();
        for (&price, &demand) in prices.iter().zip(&view.asked.demands) {
            bound += i128::from(price) * i128::from(demand);
        }
        for (bar, limit) in view.asked.limits.iter().enumerate() {
            if let Some(limit) = limit {
                extra[bar] = down(-rows[next]);
                bound -= i128::from(extra[bar]) * i128::from(*limit);
                next += 1;
            }
        }
        let living = view.pool.patterns.iter().zip(&view.pool.costs);
        let mut reduced: Vec<i64> = (living.zip(&self.alive))
            .map(|((pattern, &cost), &alive)| {
                if !alive {
                    return 0;
                }
                let mut reduced = cost * prepared.scale + extra[pattern.bar];
                for &(item, times) in &pattern.items {
                    reduced -= prices[item as usize] * i64::from(times);
                }
                reduced
            })
            .collect();
        for (row, &price) in self.rows.iter().zip(&rows[next..]) {
            let signed = match row.sense {
                Sense::AtLeast => down(price),
                Sense::AtMost => -down(-price),
            };
            if signed == 0 {
                continue;
            }
            bound += i128::from(signed) * i128::from(row.right);
            for &(place, value) in row.entries.iter() {
                reduced[place as usize] -= signed * value;
            }
        }
        bound -= self.beyond(view, &reduced);
        Exact { reduced, bound }
    }

    /// What bars could be worth beyond their cost, at most \[scaled\].
    fn beyond(&self, view: &View, reduced: &[i64]) -> i128 {
        let mut excess = vec![0_i64; view.prepared.bars.len()];
        for (place, &cost) in reduced.iter().enumerate() {
            if cost < 0 && self.alive[place] {
                let bar = view.pool.patterns[place].bar;
                excess[bar] = excess[bar].max(-cost);
            }
        }
        let mut free = 0;
        let mut sum = 0;
        for (&excess, limit) in excess.iter().zip(&view.asked.limits) {
            match limit {
                Some(limit) => sum += i128::from(excess) * i128::from(*limit),
                None => free = free.max(excess),
            }
        }
        sum + i128::from(free) * i128::from(view.asked.most_bars)
    }
}
