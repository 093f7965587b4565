//! From job to plan: first plans, the fractional bound, rounding, then proof by a search over all
//! patterns that could matter. Not here: each of these.

use super::CuttingError;
use super::alike::alike;
use super::dive::{Manner, dive};
use super::greedy::{Fill, cost, greedy};
use super::input::{Budget, Job, check};
use super::master::{Asked, Bound, Master, Stop};
use super::meter::Meter;
use super::prepared::{Pattern, Prepared};
use super::result::{Cap, Cost, Plan, balance};
use super::simplex::Lp;
use super::{finish, tree};

/// Ways to round, one after the other until one reaches the bound.
const MANNERS: [Manner; 4] = [
    manner(0.9, 0.0, 0),
    manner(1.0, 0.0, 0),
    manner(0.8, 1.0, 0),
    manner(1.0, 2.0, 1),
];

/// Further ways, when too many patterns could matter to list them.
const MORE_MANNERS: [Manner; 6] = [
    manner(0.95, 0.5, 1),
    manner(1.0, 1.0, 2),
    manner(0.7, 0.0, 0),
    manner(1.0, 0.5, 3),
    manner(0.9, 3.0, 4),
    manner(1.0, 0.0, 5),
];

/// Nodes of each short search among the patterns made so far.
const KNOWN_NODES: u64 = 40;

/// Partial patterns looked at before the fractional bound may stay rough.
const LIGHT: u64 = 20_000_000;

const fn manner(up_from: f64, for_full: f64, skip: usize) -> Manner {
    Manner {
        up_from,
        for_full,
        skip,
    }
}

/// The least costly way to cut all pieces, and what is proven about it.
///
/// # Errors
/// [`CuttingError`]: an input outside its range, a piece longer than every stock, or bars at hand
/// that do not hold the pieces.
pub fn plan(job: &Job, budget: &Budget) -> Result<Plan, CuttingError> {
    check(job)?;
    let prepared = Prepared::new(job)?;
    let mut meter = Meter::new(*budget);
    let mut search = Search::new(&prepared, &mut meter);
    if !prepared.items.is_empty() {
        search.run();
    }
    let (best, bound, relaxation) = (search.best, search.bound, search.relaxation);
    let under = search.under;
    let proven = under <= bound;
    if best
        .iter()
        .any(|(pattern, _)| prepared.bars[pattern.bar].stock.is_none())
    {
        return Err(CuttingError::NotEnough { proven });
    }
    let best = alike(&prepared, best);
    let parts = prepared.parts;
    let whole = |numerator| Cost {
        numerator,
        denominator: parts,
    };
    let mut caps: Vec<Cap> = meter.caps.iter().copied().collect();
    if proven {
        caps.clear();
    }
    let plan = Plan {
        layouts: finish::layouts(job, &prepared, &best),
        cost: whole(cost(&prepared, &best)),
        bound: whole(if proven { under } else { bound }),
        relaxation,
        proven,
        caps,
        work: meter.work,
    };
    balance(job, &plan)?;
    Ok(plan)
}

struct Search<'p> {
    prepared: &'p Prepared,
    meter: &'p mut Meter,
    best: Vec<(Pattern, i64)>,
    /// Cost of the best plan \[parts of a cent\].
    under: i64,
    /// No plan costs less \[parts of a cent\].
    bound: i64,
    relaxation: f64,
}

impl<'p> Search<'p> {
    fn new(prepared: &'p Prepared, meter: &'p mut Meter) -> Self {
        Self {
            prepared,
            meter,
            best: Vec::new(),
            under: 0,
            bound: 0,
            relaxation: 0.0,
        }
    }

    fn run(&mut self) {
        self.first_plans();
        let asked = self.asked();
        let mut master = Master::new(self.prepared);
        let mut lp = master.program();
        for (pattern, _) in &self.best {
            let (number, new) = master.number(pattern.clone());
            if new {
                master.enter(&mut lp, number);
            }
        }
        let mut best = None;
        let stop = Stop::Rounded { after: LIGHT };
        let whole = master.generate(&mut lp, &asked, &mut best, stop, self.meter);
        let Some(root) = &best else {
            self.bound = self.least_thinkable();
            return;
        };
        self.note_root(root);
        if whole.is_none() {
            return;
        }
        self.round(&mut master, &lp, &asked);
        if self.under <= self.bound {
            return;
        }
        let whole = master.generate(&mut lp, &asked, &mut best, Stop::Best, self.meter);
        if let (Some(()), Some(root)) = (whole, &best) {
            self.note_root(root);
            let root = root.clone();
            self.prove(&mut master, &lp, &root, &asked);
        }
    }

    fn first_plans(&mut self) {
        let (demands, limits) = (self.prepared.demands(), self.prepared.limits());
        let plans = [Fill::LongestFirst, Fill::Fullest]
            .map(|fill| greedy(self.prepared, &demands, &limits, fill));
        for plan in plans {
            self.offer(plan);
        }
    }

    fn offer(&mut self, plan: Vec<(Pattern, i64)>) {
        let found = cost(self.prepared, &plan);
        if self.best.is_empty() || found < self.under {
            self.under = found;
            self.best = plan;
        }
    }

    fn asked(&self) -> Asked {
        let endless = self.prepared.bars.iter().filter(|bar| bar.limit.is_none());
        let cheapest = endless.map(|bar| bar.price).min().unwrap_or(0);
        let pieces = self.prepared.pieces();
        let most_bars = if self.prepared.credit.is_none() && cheapest > 0 {
            pieces.min(self.under / cheapest)
        } else {
            pieces
        };
        Asked {
            demands: self.prepared.demands(),
            limits: self.prepared.limits(),
            most_bars,
        }
    }

    fn note_root(&mut self, root: &Bound) {
        let scale = self.prepared.scale;
        self.relaxation = root.scaled as f64 / scale as f64 / self.prepared.parts as f64;
        self.bound = round_up(root.scaled, scale, self.prepared.grain);
    }

    /// All bars empty and worth their offcuts: no plan costs less.
    fn least_thinkable(&self) -> i64 {
        let pieces = self.prepared.pieces();
        let bars = self.prepared.bars.iter().enumerate();
        bars.map(|(index, bar)| {
            let gain = (-self.prepared.cost(index, 0)).max(0);
            -gain * bar.limit.unwrap_or(pieces).min(pieces)
        })
        .sum()
    }

    fn round(&mut self, master: &mut Master, lp: &Lp, asked: &Asked) {
        for manner in MANNERS {
            if self.under <= self.bound {
                return;
            }
            if let Some(plan) = dive(
                master, lp, asked, manner, self.bound, self.under, self.meter,
            ) {
                self.offer(plan);
            }
        }
    }

    fn prove(&mut self, master: &mut Master, lp: &Lp, root: &Bound, asked: &Asked) {
        let mut found = tree::search(master, lp, root, asked, self.under, self.meter);
        if found.is_none() {
            self.try_known(master, lp, root, asked);
            if self.under <= self.bound {
                return;
            }
            // Other prices may leave fewer patterns.
            let between = master.between(lp, asked, root, self.meter);
            found = between
                .and_then(|root| tree::search(master, lp, &root, asked, self.under, self.meter));
        }
        let Some(found) = found else {
            return;
        };
        if let Some(plan) = found.plan {
            self.offer(plan);
        }
        self.bound = self.bound.max(found.bound).min(self.under);
    }
}

impl Search<'_> {
    /// More ways to round, each followed by a short search among the patterns made so far.
    fn try_known(&mut self, master: &mut Master, lp: &Lp, root: &Bound, asked: &Asked) {
        for manner in MORE_MANNERS {
            let nodes = KNOWN_NODES;
            let found = tree::search_known(master, lp, root, asked, self.under, nodes, self.meter);
            let found = found.or_else(|| {
                dive(
                    master, lp, asked, manner, self.bound, self.under, self.meter,
                )
            });
            if let Some(plan) = found {
                self.offer(plan);
            }
            if self.under <= self.bound {
                return;
            }
        }
    }
}

/// Least multiple of `grain` that is not below a scaled bound \[parts of a cent\].
pub(super) fn round_up(scaled: i128, scale: i64, grain: i64) -> i64 {
    let step = i128::from(scale) * i128::from(grain);
    let steps = scaled.div_euclid(step) + i128::from(scaled.rem_euclid(step) > 0);
    (steps * i128::from(grain)) as i64
}
