//! The proof: a search over all patterns that could matter, with cuts at its nodes. Every bound is
//! a sum of whole numbers. Not here: how a node's fractional plan is found (`node`).

use super::master::{Asked, Bound, Master};
use super::meter::Meter;
use super::node::{Node, State, View};
use super::pool::Pool;
use super::prepared::{Pattern, Prepared};
use super::rows::{Kind, Row, broken};
use super::simplex::{Lp, Role, Sense};
use super::solve::round_up;
use std::collections::BTreeSet;
use std::rc::Rc;

/// Rounds of cuts at the root, and at every other node.
const ROUNDS: [usize; 2] = [40, 4];
/// Cuts of one round.
const CUTS: usize = 30;
/// Rows of a node besides those of the job from which on loose ones are taken out.
const MANY_ROWS: usize = 40;
/// Most rows of a node besides those of the job.
const MOST_ROWS: usize = 90;

/// What the search found.
#[derive(Debug, Clone)]
pub(super) struct Found {
    /// A plan cheaper than the one known.
    pub(super) plan: Option<Vec<(Pattern, i64)>>,
    /// No plan costs less \[parts of a cent\].
    pub(super) bound: i64,
}

/// Looks for a plan cheaper than `under`, or proves that there is none; `None` when there are too
/// many patterns that could matter.
pub(super) fn search(
    master: &Master,
    lp: &Lp,
    root: &Bound,
    asked: &Asked,
    under: i64,
    meter: &mut Meter,
) -> Option<Found> {
    let most = room(master.prepared, root, under);
    let pool = Pool::new(master.prepared, root, asked, most, meter)?;
    Some(over(master, lp, (root, pool), asked, under, meter))
}

/// Looks for a plan cheaper than `under` among the patterns made so far, in at most `nodes` nodes.
pub(super) fn search_known(
    master: &Master,
    lp: &Lp,
    root: &Bound,
    asked: &Asked,
    under: i64,
    nodes: u64,
    meter: &mut Meter,
) -> Option<Vec<(Pattern, i64)>> {
    let most = room(master.prepared, root, under);
    let pool = Pool::among(master.prepared, &master.patterns, root, most);
    let whole = meter.budget.nodes;
    meter.budget.nodes = whole.min(meter.work.nodes + nodes);
    let found = over(master, lp, (root, pool), asked, under, meter);
    meter.budget.nodes = whole;
    found.plan
}

/// Distance from a bound to the next better plan \[scaled\].
fn room(prepared: &Prepared, root: &Bound, under: i64) -> i128 {
    i128::from(under - prepared.grain) * i128::from(prepared.scale) - root.scaled
}

fn over(
    master: &Master,
    lp: &Lp,
    (root, pool): (&Bound, Pool),
    asked: &Asked,
    under: i64,
    meter: &mut Meter,
) -> Found {
    let prepared = master.prepared;
    let least = round_up(root.scaled, prepared.scale, prepared.grain);
    let mut tree = Tree {
        prepared,
        asked,
        pool,
        under,
        plan: None,
        meter,
    };
    let lp = tree.start(master, lp);
    let first = Node {
        lp,
        rows: Vec::new(),
        alive: vec![true; tree.pool.patterns.len()],
        bound: root.scaled,
    };
    let bound = tree.run(first, least);
    Found {
        plan: tree.plan,
        bound,
    }
}

struct Tree<'p> {
    prepared: &'p Prepared,
    asked: &'p Asked,
    pool: Pool,
    under: i64,
    plan: Option<Vec<(Pattern, i64)>>,
    meter: &'p mut Meter,
}

impl Tree<'_> {
    /// The root's program over the pool.
    fn start(&self, master: &Master, root: &Lp) -> Lp {
        let mut lp = root.clone();
        let most = self.under as f64 / self.prepared.unit as f64;
        for column in 0..lp.columns() {
            if let Role::Pattern(number) = lp.role(column) {
                match self.pool.find(&master.patterns[number]) {
                    Some(place) => lp.renumber(column, place),
                    None => {
                        lp.renumber(column, usize::MAX);
                        lp.freeze(column, 4.0);
                    }
                }
            }
        }
        lp.drop_dear(most);
        lp.settle();
        lp
    }

    /// Depth first; returns the least bound of what is left.
    fn run(&mut self, first: Node, least: i64) -> i64 {
        let mut open = vec![first];
        let mut unsolved = i128::MAX;
        let mut is_root = true;
        while let Some(mut node) = open.pop() {
            if self.closed(node.bound) {
                continue;
            }
            if !self.meter.node() {
                unsolved = unsolved.min(node.bound);
                break;
            }
            let st = self.work(&mut node, is_root);
            match st {
                State::Closed => {}
                State::Unsolved => unsolved = unsolved.min(node.bound),
                State::Solved => match self.branch(&node) {
                    Some((up, down)) => {
                        open.push(down);
                        open.push(up);
                    }
                    None => unsolved = unsolved.min(node.bound),
                },
            }
            is_root = false;
            if self.under <= least {
                return self.under;
            }
        }
        let left = open.iter().map(|node| node.bound);
        let lowest = left.fold(unsolved, i128::min);
        let limit = i128::from(self.under) * i128::from(self.prepared.scale);
        if lowest >= limit {
            return self.under;
        }
        round_up(lowest, self.prepared.scale, self.prepared.grain).min(self.under)
    }

    fn closed(&self, bound: i128) -> bool {
        round_up(bound, self.prepared.scale, self.prepared.grain) >= self.under
    }

    /// Solves a node, adding cuts while they help.
    fn work(&mut self, node: &mut Node, is_root: bool) -> State {
        for round in 0.. {
            let view = View {
                prepared: self.prepared,
                asked: self.asked,
                pool: &self.pool,
                under: self.under,
            };
            match node.solve(&view, self.meter) {
                State::Solved => {}
                other => return other,
            }
            self.try_whole(node);
            if self.closed(node.bound) {
                return State::Closed;
            }
            if is_root {
                self.shrink(node);
            }
            let exactly = self.ask_exactly(node);
            let no_more = round >= ROUNDS[usize::from(!is_root)];
            if !exactly && (no_more || !self.cut(node)) {
                break;
            }
        }
        let limited = self.asked.limits.iter().flatten().count();
        if node.rows.len() > MANY_ROWS {
            node.drop_loose(self.prepared.items.len() + limited);
        }
        State::Solved
    }

    /// Leaves out what is no longer alive, when that is much.
    fn shrink(&mut self, node: &mut Node) {
        let alive = node.alive.iter().filter(|alive| **alive).count();
        if alive * 10 > self.pool.patterns.len() * 7 {
            return;
        }
        let new = self.pool.only(self.prepared, &node.alive);
        for column in 0..node.lp.columns() {
            if let Role::Pattern(number) = node.lp.role(column) {
                let pattern = self.pool.patterns.get(number);
                let place = pattern.and_then(|pattern| new.find(pattern));
                node.lp.renumber(column, place.unwrap_or(usize::MAX));
                if place.is_none() && !node.lp.is_frozen(column) {
                    node.lp.freeze(column, 4.0);
                }
            }
        }
        node.lp.settle();
        for row in &mut node.rows {
            *row = Row::new(row.kind.clone(), row.sense, row.right, &new);
        }
        node.alive = vec![true; new.patterns.len()];
        self.pool = new;
    }

    /// Where unfilled bars bring money, pieces made oftener than asked are no detail: asks for no
    /// more of them. True if any row was added.
    fn ask_exactly(&self, node: &mut Node) -> bool {
        if !self.prepared.pays_unfilled() {
            return false;
        }
        let mut made = vec![0.0; self.asked.demands.len()];
        for (place, amount) in node.amounts() {
            for &(item, times) in &self.pool.patterns[place].items {
                made[item as usize] += amount * f64::from(times);
            }
        }
        let mut any = false;
        for (item, &demand) in self.asked.demands.iter().enumerate() {
            let kind = Kind::Share {
                items: vec![(item as u32, 1)],
                by: 1,
            };
            let known = |row: &Row| row.kind == kind;
            if made[item] > demand as f64 + 1e-4 && !node.rows.iter().any(known) {
                node.add(
                    Row::new(kind, Sense::AtMost, demand, &self.pool),
                    &self.pool,
                );
                any = true;
            }
        }
        any
    }

    fn cut(&self, node: &mut Node) -> bool {
        let amounts = node.amounts();
        let plan: Vec<(&Pattern, f64)> = (amounts.iter())
            .map(|&(place, amount)| (&self.pool.patterns[place], amount))
            .collect();
        let room = MOST_ROWS.saturating_sub(node.rows.len());
        let cuts = broken(&plan, &self.asked.demands, &node.rows, CUTS.min(room));
        let any = !cuts.is_empty();
        for (kind, right) in cuts {
            node.add(
                Row::new(kind, Sense::AtLeast, right, &self.pool),
                &self.pool,
            );
        }
        any
    }

    /// A fractional plan that is whole, or that makes one when rounded up.
    fn try_whole(&mut self, node: &Node) {
        let mut left = self.asked.demands.clone();
        let mut limits = self.asked.limits.clone();
        let mut plan: Vec<(Pattern, i64)> = Vec::new();
        for (place, amount) in node.amounts() {
            let times = (amount - 1e-4).ceil() as i64;
            let pattern = &self.pool.patterns[place];
            for _ in 0..times {
                let mut items = pattern.items.clone();
                for entry in &mut items {
                    let taken = left[entry.0 as usize].min(i64::from(entry.1));
                    left[entry.0 as usize] -= taken;
                    entry.1 = taken as u32;
                }
                items.retain(|entry| entry.1 > 0);
                if items.is_empty() {
                    continue;
                }
                if let Some(limit) = &mut limits[pattern.bar] {
                    *limit -= 1;
                    if *limit < 0 {
                        return;
                    }
                }
                let bar = pattern.bar;
                plan.push((Pattern { bar, items }, 1));
            }
        }
        let cost = super::greedy::cost(self.prepared, &plan);
        if left.iter().all(|&count| count == 0) && cost < self.under {
            self.under = cost;
            self.plan = Some(plan);
        }
    }

    /// Both sides of what is most undecided.
    fn branch(&self, node: &Node) -> Option<(Node, Node)> {
        let (kind, amount) = self.undecided(node)?;
        let below = amount.floor() as i64;
        let side = |sense, right| {
            let mut child = node.clone();
            child.side(kind.clone(), sense, right, &self.pool, self.asked);
            child
        };
        Some((side(Sense::AtLeast, below + 1), side(Sense::AtMost, below)))
    }

    fn undecided(&self, node: &Node) -> Option<(Kind, f64)> {
        let amounts = node.amounts();
        let count = |kind: &Kind| -> f64 {
            let parts = amounts.iter();
            parts
                .map(|&(place, amount)| kind.counts(&self.pool.patterns[place]) as f64 * amount)
                .sum()
        };
        let mut bars: Vec<Kind> = vec![Kind::All];
        bars.extend((0..self.prepared.bars.len()).map(Kind::Bars));
        let mut best: Option<(f64, Kind, f64)> = None;
        let mut offer = |kind: Kind, amount: f64, weight: f64| {
            let part = amount - amount.floor();
            let score = part.min(1.0 - part);
            if score > 1e-4
                && best
                    .as_ref()
                    .is_none_or(|(most, ..)| score * weight > *most)
            {
                best = Some((score * weight, kind, amount));
            }
        };
        for kind in bars {
            let amount = count(&kind);
            offer(kind, amount, 1e3);
        }
        for kind in self.light(&amounts) {
            let amount = count(&kind);
            offer(kind, amount, 30.0);
        }
        for kind in self.pairs(&amounts) {
            let amount = count(&kind);
            offer(kind, amount, 1.0);
        }
        for &(place, amount) in &amounts {
            offer(Kind::Same(self.pool.patterns[place].clone()), amount, 1e-3);
        }
        best.map(|(_, kind, amount)| (kind, amount))
    }

    /// Bars with an offcut of at least some length, where that has a worth.
    fn light(&self, amounts: &[(usize, f64)]) -> BTreeSet<Kind> {
        let weights = self.prepared.items.iter().map(|item| item.weight);
        let weights: Rc<Vec<i64>> = Rc::new(weights.collect());
        let mut kinds = BTreeSet::new();
        for &(place, _) in amounts {
            let pattern = &self.pool.patterns[place];
            let most = self.prepared.weight(&pattern.items);
            let bar = pattern.bar;
            if self.prepared.worth(self.prepared.bars[bar].capacity - most) > 0 {
                let weights = Rc::clone(&weights);
                kinds.insert(Kind::Light { bar, most, weights });
            }
        }
        kinds
    }

    /// Ways in which pieces lie together in the fractional plan.
    fn pairs(&self, amounts: &[(usize, f64)]) -> BTreeSet<Kind> {
        let mut kinds = BTreeSet::new();
        for &(place, _) in amounts {
            let items = &self.pool.patterns[place].items;
            for (at, &(one, times)) in items.iter().enumerate() {
                for many in 2..=times {
                    kinds.insert(Kind::together((one, many), (one, many)));
                }
                for &(two, others) in &items[at + 1..] {
                    kinds.insert(Kind::together((one, 1), (two, 1)));
                    kinds.insert(Kind::together((one, times), (two, others)));
                }
            }
        }
        kinds
    }
}
