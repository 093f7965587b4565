//! The order in which variables are settled: a forest in which all variables of one limit, and each
//! device with the one upstream of it, lie on one way up to a root. Not here: the settling (`climb`).
//!
//! Variables in many limits come first (near the root); each of the others hangs below the last one it
//! shares a limit with. For the tree of a plain plant that gives the plant; plus and minus trees are
//! woven into one.

use super::whole::{UNLIMITED, Whole};
use std::collections::{BTreeMap, BTreeSet};

/// Most different sums kept for one measure; beyond it only the least and the greatest.
const MOST_SUMS: usize = 4096;

/// What is summed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Kind {
    Drop,
    Ohms,
}

/// A remaining amount that sections further up may still use: which sections those are.
pub(super) type Measure = (Kind, Vec<usize>);

/// Where a remaining amount comes from when a variable is settled.
#[derive(Debug, Clone)]
pub(super) enum Base {
    /// A limit of which this variable is the last [nV].
    Drop(i64),
    /// The same for resistance: which limit, the section whose device counts, and what fixed sections
    /// use already [nΩ].
    Ohms(usize, Option<usize>, i64),
    /// A measure of the subtrees below, by index.
    Below(usize),
}

/// How one remaining amount passes a variable.
#[derive(Debug, Clone)]
pub(super) struct Passing {
    pub base: Base,
    pub kind: Kind,
    /// Members of the variable that use some of it.
    pub members: Vec<usize>,
    /// Measure it goes on to; `None` when nothing further up uses any.
    pub target: Option<usize>,
}

/// A variable in the forest.
#[derive(Debug, Clone, Default)]
pub(super) struct Node {
    pub children: Vec<usize>,
    /// Sections further up whose device rating the subtree has to know.
    pub needs: Vec<usize>,
    /// What the subtree leaves for sections further up.
    pub measures: Vec<Measure>,
    /// For each measure the sums that sections further up can come to, rising.
    pub sums: Vec<Vec<i64>>,
    /// Whether `sums` are all there are.
    pub sums_whole: Vec<bool>,
    /// The same measures, before this variable is settled.
    pub below: Vec<Measure>,
    /// For each child where its measures are in `below`.
    pub child_measures: Vec<Vec<usize>>,
    pub passings: Vec<Passing>,
}

/// The forest.
#[derive(Debug, Clone)]
pub(super) struct Forest {
    pub nodes: Vec<Node>,
    pub roots: Vec<usize>,
    /// Variables in the order of settling, roots first.
    pub order: Vec<usize>,
}

/// Options left for each variable, by index.
pub(super) type Domain = Vec<Vec<usize>>;

impl Forest {
    /// `None` when groups feed one another crosswise, so that no order has each device after the one
    /// upstream of it.
    pub(super) fn new(whole: &Whole, domain: &Domain) -> Option<Self> {
        let chains = chains(whole);
        let order = order(whole, domain, &chains);
        if order.len() < whole.variables.len() {
            return None;
        }
        let parents = parents(&order, &chains);
        let mut forest = Self {
            nodes: vec![Node::default(); whole.variables.len()],
            roots: Vec::new(),
            order,
        };
        for &variable in &forest.order {
            match parents[variable] {
                Some(parent) => forest.nodes[parent].children.push(variable),
                None => forest.roots.push(variable),
            }
        }
        let mut rank = vec![0; forest.order.len()];
        for (position, &variable) in forest.order.iter().enumerate() {
            rank[variable] = position;
        }
        let mut last_of: Vec<Vec<usize>> = vec![Vec::new(); rank.len()];
        for (limit, chain) in chains.iter().take(whole.limits.len()).enumerate() {
            if let Some(&last) = chain.iter().max_by_key(|&&variable| rank[variable]) {
                last_of[last].push(limit);
            }
        }
        let mut sums = BTreeMap::new();
        for &variable in forest.order.clone().iter().rev() {
            let bases: Vec<(Base, Measure)> = (last_of[variable].iter())
                .flat_map(|&limit| bases_of(whole, domain, limit))
                .collect();
            forest.fill(whole, domain, variable, bases, &mut sums);
        }
        Some(forest)
    }

    /// Works out what a variable passes on, its children being done.
    fn fill(
        &mut self,
        whole: &Whole,
        domain: &Domain,
        variable: usize,
        mut bases: Vec<(Base, Measure)>,
        sums: &mut BTreeMap<Measure, (Vec<i64>, bool)>,
    ) {
        let mut node = std::mem::take(&mut self.nodes[variable]);
        let all: BTreeSet<&Measure> = (node.children.iter())
            .flat_map(|&child| &self.nodes[child].measures)
            .collect();
        node.below = all.into_iter().cloned().collect();
        let index = |measure: &Measure| node.below.binary_search(measure).unwrap_or(0);
        node.child_measures = (node.children.iter())
            .map(|&child| self.nodes[child].measures.iter().map(index).collect())
            .collect();
        node.needs = self.needs(whole, &node, variable, &bases);
        let below = node.below.iter().cloned().enumerate();
        bases.extend(below.map(|(index, measure)| (Base::Below(index), measure)));
        let goes_on = |(kind, sections): &Measure| {
            let on = sections
                .iter()
                .copied()
                .filter(|&section| whole.place[section].0 != variable);
            (*kind, on.collect::<Vec<_>>())
        };
        let onward: BTreeSet<Measure> = bases
            .iter()
            .map(|(_, measure)| goes_on(measure))
            .filter(|(_, sections)| !sections.is_empty())
            .collect();
        node.measures = onward.into_iter().collect();
        for (base, measure) in bases {
            let own = measure
                .1
                .iter()
                .filter(|&&section| whole.place[section].0 == variable);
            node.passings.push(Passing {
                base,
                kind: measure.0,
                members: own.map(|&section| whole.place[section].1).collect(),
                target: node.measures.binary_search(&goes_on(&measure)).ok(),
            });
        }
        for measure in &node.measures {
            let found = sums
                .entry(measure.clone())
                .or_insert_with(|| all_sums(whole, domain, measure));
            node.sums.push(found.0.clone());
            node.sums_whole.push(found.1);
        }
        self.nodes[variable] = node;
    }

    /// Sections further up whose device rating has to be known.
    fn needs(
        &self,
        whole: &Whole,
        node: &Node,
        variable: usize,
        bases: &[(Base, Measure)],
    ) -> Vec<usize> {
        let mut needs: BTreeSet<usize> = node
            .children
            .iter()
            .flat_map(|&child| &self.nodes[child].needs)
            .copied()
            .collect();
        needs.extend(bases.iter().filter_map(|(base, _)| match base {
            Base::Ohms(_, at, _) => *at,
            Base::Drop(_) | Base::Below(_) => None,
        }));
        for &member in whole.variables[variable].members.iter().rev() {
            let wanted = needs.contains(&member) && !whole.always[member];
            if whole.device_at[member] == Some(member) && (wanted || whole.ratio[member] > 0.0) {
                needs.extend(upstream(whole, member));
            }
        }
        needs.retain(|&section| whole.place[section].0 != variable);
        needs.into_iter().collect()
    }
}

/// The nearest section above one that may have a device.
pub(super) fn upstream(whole: &Whole, section: usize) -> Option<usize> {
    whole.parent[section].and_then(|parent| whole.device_at[parent])
}

/// The contribution of some members of a variable.
pub(super) fn used(choice: &super::whole::Choice, kind: Kind, members: &[usize]) -> i64 {
    let amounts = match kind {
        Kind::Drop => &choice.drops,
        Kind::Ohms => &choice.ohms,
    };
    members.iter().map(|&member| amounts[member]).sum()
}

/// Sets of variables that have to lie on one way to a root: one for each limit, then one for each device
/// that another one has to suit.
fn chains(whole: &Whole) -> Vec<Vec<usize>> {
    let variable = |section: usize| whole.place[section].0;
    let mut chains: Vec<Vec<usize>> = Vec::new();
    for limit in &whole.limits {
        let mut chain: Vec<usize> = limit
            .sections
            .iter()
            .map(|&section| variable(section))
            .collect();
        if let Some((at, _)) = limit.fault {
            chain.extend(
                devices(whole, whole.device_at[at])
                    .into_iter()
                    .map(variable),
            );
        }
        chains.push(chain);
    }
    for section in 0..whole.place.len() {
        if whole.ratio[section] > 0.0 && whole.device_at[section] == Some(section) {
            let mut chain = vec![variable(section)];
            chain.extend(
                devices(whole, upstream(whole, section))
                    .into_iter()
                    .map(variable),
            );
            chains.push(chain);
        }
    }
    for chain in &mut chains {
        chain.sort_unstable();
        chain.dedup();
    }
    chains
}

/// The sections of which one holds the nearest device: up to the first that always has one.
fn devices(whole: &Whole, first: Option<usize>) -> Vec<usize> {
    let mut found = Vec::new();
    let mut here = first;
    while let Some(section) = here {
        found.push(section);
        here = if whole.always[section] {
            None
        } else {
            upstream(whole, section)
        };
    }
    found
}

/// Variables with one option first, then those in the most limits, then those near the source; but
/// never a device before the one upstream of it.
fn order(whole: &Whole, domain: &Domain, chains: &[Vec<usize>]) -> Vec<usize> {
    let count = whole.variables.len();
    let mut shared = vec![0_usize; count];
    // The chains of limits come first; those of devices alone do not count.
    for &variable in chains.iter().take(whole.limits.len()).flatten() {
        shared[variable] += 1;
    }
    let after = devices_after(whole);
    let mut waits = vec![0_usize; count];
    for &variable in after.iter().flatten() {
        waits[variable] += 1;
    }
    let key = |variable: usize| {
        let free = domain[variable].len() != 1;
        let most_first = usize::MAX - shared[variable];
        (free, most_first, whole.variables[variable].depth, variable)
    };
    let ready = (0..count).filter(|&variable| waits[variable] == 0);
    let mut ready: BTreeSet<_> = ready.map(key).collect();
    let mut order = Vec::with_capacity(count);
    while let Some((.., variable)) = ready.pop_first() {
        order.push(variable);
        for &next in &after[variable] {
            waits[next] -= 1;
            if waits[next] == 0 {
                ready.insert(key(next));
            }
        }
    }
    order
}

/// For each variable those with a device right below one of its own.
fn devices_after(whole: &Whole) -> Vec<BTreeSet<usize>> {
    let mut after = vec![BTreeSet::new(); whole.variables.len()];
    for section in 0..whole.place.len() {
        if whole.device_at[section] != Some(section) {
            continue;
        }
        if let Some(above) = upstream(whole, section) {
            let (first, then) = (whole.place[above].0, whole.place[section].0);
            if first != then {
                after[first].insert(then);
            }
        }
    }
    after
}

/// The elimination tree of the order: each variable below the last one before it that it is linked to,
/// straight or over variables after it.
fn parents(order: &[usize], chains: &[Vec<usize>]) -> Vec<Option<usize>> {
    let mut of: Vec<Vec<usize>> = vec![Vec::new(); order.len()];
    for (index, chain) in chains.iter().enumerate() {
        for &variable in chain {
            of[variable].push(index);
        }
    }
    let mut parents = vec![None; order.len()];
    let mut top: Vec<usize> = (0..order.len()).collect();
    let mut latest: Vec<Option<usize>> = vec![None; chains.len()];
    for &variable in order.iter().rev() {
        for &chain in &of[variable] {
            if let Some(below) = latest[chain] {
                let root = root_of(&mut top, below);
                if root != variable {
                    parents[root] = Some(variable);
                    top[root] = variable;
                }
            }
            latest[chain] = Some(variable);
        }
    }
    parents
}

fn root_of(top: &mut [usize], from: usize) -> usize {
    let mut here = from;
    while top[here] != here {
        top[here] = top[top[here]];
        here = top[here];
    }
    here
}

/// What a limit leaves for its sections once the fixed ones are taken off, as one measure for each kind.
fn bases_of(whole: &Whole, domain: &Domain, limit: usize) -> Vec<(Base, Measure)> {
    let Some(asked) = whole.limits.get(limit) else {
        return Vec::new();
    };
    let is_fixed = |section: usize| domain[whole.place[section].0].len() == 1;
    let (fixed, mut free): (Vec<usize>, Vec<usize>) =
        (asked.sections.iter()).partition(|&&section| is_fixed(section));
    free.sort_unstable();
    let own = |section: usize, kind: Kind| {
        let (variable, member) = whole.place[section];
        let option = domain[variable][0];
        used(&whole.variables[variable].options[option], kind, &[member])
    };
    let taken = |kind: Kind| -> i64 { fixed.iter().map(|&section| own(section, kind)).sum() };
    let mut bases = Vec::new();
    if let Some(most) = asked.drop {
        bases.push((
            Base::Drop(most - taken(Kind::Drop)),
            (Kind::Drop, free.clone()),
        ));
    }
    if let Some((at, _)) = &asked.fault {
        bases.push((
            Base::Ohms(limit, whole.device_at[*at], taken(Kind::Ohms)),
            (Kind::Ohms, free),
        ));
    }
    bases
}

/// Every sum some sections can come to, rising; only the least and greatest when there are too many.
fn all_sums(whole: &Whole, domain: &Domain, (kind, sections): &Measure) -> (Vec<i64>, bool) {
    let mut by_variable: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for &section in sections {
        let (variable, member) = whole.place[section];
        by_variable.entry(variable).or_default().push(member);
    }
    let mut sums = vec![0];
    let mut all = true;
    for (variable, members) in by_variable {
        let options = domain[variable]
            .iter()
            .map(|&option| &whole.variables[variable].options[option]);
        let mut own: Vec<i64> = options
            .map(|choice| used(choice, *kind, &members))
            .collect();
        own.sort_unstable();
        own.dedup();
        if sums.len() * own.len() > MOST_SUMS {
            all = false;
            let ends = |list: &[i64]| {
                [
                    list.first().copied().unwrap_or(UNLIMITED),
                    list.last().copied().unwrap_or(UNLIMITED),
                ]
            };
            (sums, own) = (ends(&sums).to_vec(), ends(&own).to_vec());
        }
        sums = sums
            .iter()
            .flat_map(|sum| own.iter().map(move |more| sum + more))
            .collect();
        sums.sort_unstable();
        sums.dedup();
    }
    (sums, all)
}
