//! What a knot is made of: its variables, the groups of subtrees that hang below it, the limits inside it,
//! and the variables that share nothing with one another. Not here: the search (`knot`).

use super::climb::Climb;
use super::forest::{Base, Domain, Forest, Kind, Measure, upstream, used};
use super::front::Front;
use super::whole::{Price, Rank, Whole};
use std::collections::{BTreeMap, BTreeSet};
use std::rc::Rc;

/// Subtrees below the knot that have to know the same and use of the same.
pub(super) struct Group {
    pub children: Vec<usize>,
    pub measures: Vec<Measure>,
    pub needs: Vec<usize>,
    /// No plan of them costs less.
    pub floor: Price,
    /// Fronts by the ratings known.
    pub fronts: BTreeMap<Vec<Option<Rank>>, Rc<Front>>,
}

/// A limit of which all sections are in the knot.
pub(super) struct Check {
    pub measure: Measure,
    pub base: Base,
}

/// A variable that shares nothing with the other free ones.
pub(super) struct Free {
    pub variable: usize,
    /// Groups and checks it has a part in.
    pub groups: Vec<usize>,
    pub checks: Vec<usize>,
    /// Its options, cheapest first.
    pub options: Vec<usize>,
}

/// The variables of the knot, in order of the forest; none when ways form a tree.
pub(super) fn knot(forest: &Forest) -> Vec<usize> {
    let mut inside = vec![false; forest.nodes.len()];
    for &variable in forest.order.iter().rev() {
        let node = &forest.nodes[variable];
        inside[variable] = node.below.len() > 2 || node.children.iter().any(|&child| inside[child]);
    }
    forest
        .order
        .iter()
        .copied()
        .filter(|&variable| inside[variable])
        .collect()
}

/// Variables of the knot that share no group and no check with one another, those of most options first;
/// none that feeds another device of the knot, which would have to know its rating.
pub(super) fn free(
    whole: &Whole,
    domain: &Domain,
    order: &[usize],
    groups: &[Group],
    checks: &[Check],
) -> Vec<Free> {
    let feeds: BTreeSet<usize> = order
        .iter()
        .flat_map(|&variable| &whole.variables[variable].members)
        .filter_map(|&member| upstream(whole, member).map(|section| whole.place[section].0))
        .collect();
    let variables = |sections: &[usize]| -> BTreeSet<usize> {
        sections
            .iter()
            .map(|&section| whole.place[section].0)
            .collect()
    };
    let of_groups: Vec<BTreeSet<usize>> = groups
        .iter()
        .map(|group| {
            let measured = group.measures.iter().flat_map(|measure| &measure.1);
            variables(&measured.chain(&group.needs).copied().collect::<Vec<_>>())
        })
        .collect();
    let of_checks: Vec<BTreeSet<usize>> = checks
        .iter()
        .map(|check| {
            let device = match check.base {
                Base::Ohms(_, at, _) => at,
                Base::Drop(_) | Base::Below(_) => None,
            };
            variables(
                &check
                    .measure
                    .1
                    .iter()
                    .copied()
                    .chain(device)
                    .collect::<Vec<_>>(),
            )
        })
        .collect();
    let with = |sets: &[BTreeSet<usize>], variable: usize| -> Vec<usize> {
        (0..sets.len())
            .filter(|&index| sets[index].contains(&variable))
            .collect()
    };
    let mut candidates: Vec<usize> = order
        .iter()
        .copied()
        .filter(|variable| !feeds.contains(variable))
        .collect();
    candidates.sort_by_key(|&variable| (usize::MAX - domain[variable].len(), variable));
    let mut free: Vec<Free> = Vec::new();
    for variable in candidates {
        let (groups, checks) = (with(&of_groups, variable), with(&of_checks, variable));
        let apart = |other: &Free| {
            groups.iter().all(|group| !other.groups.contains(group))
                && checks.iter().all(|check| !other.checks.contains(check))
        };
        if free.iter().all(apart) {
            let mut options = domain[variable].clone();
            options
                .sort_by_key(|&option| (whole.variables[variable].options[option].price, option));
            free.push(Free {
                variable,
                groups,
                checks,
                options,
            });
        }
    }
    free
}

/// Subtrees below the knot. Those that leave more than two amounts over stay alone: together their fronts
/// would grow.
pub(super) fn groups(forest: &Forest, climb: &Climb, in_knot: &BTreeSet<usize>) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    let of_knot = in_knot
        .iter()
        .flat_map(|&variable| &forest.nodes[variable].children);
    let roots = forest.roots.iter();
    for &child in of_knot
        .chain(roots)
        .filter(|child| !in_knot.contains(child))
    {
        let node = &forest.nodes[child];
        let floor = climb.inside(child);
        let same = |group: &&mut Group| {
            group.measures == node.measures && group.needs == node.needs && node.measures.len() <= 2
        };
        if let Some(group) = groups.iter_mut().find(same) {
            group.children.push(child);
            group.floor = group.floor + floor;
            continue;
        }
        groups.push(Group {
            children: vec![child],
            measures: node.measures.clone(),
            needs: node.needs.clone(),
            floor,
            fronts: BTreeMap::new(),
        });
    }
    groups
}

pub(super) fn checks(whole: &Whole, forest: &Forest, order: &[usize]) -> Vec<Check> {
    let mut checks = Vec::new();
    for &variable in order {
        let node = &forest.nodes[variable];
        for passing in &node.passings {
            if matches!(passing.base, Base::Below(_)) {
                continue;
            }
            let own = passing
                .members
                .iter()
                .map(|&member| whole.variables[variable].members[member]);
            let above = passing
                .target
                .map(|target| node.measures[target].1.as_slice());
            checks.push(Check {
                measure: (
                    passing.kind,
                    own.chain(above.unwrap_or_default().iter().copied())
                        .collect(),
                ),
                base: passing.base.clone(),
            });
        }
    }
    checks
}

pub(super) fn least_used(whole: &Whole, domain: &Domain, kind: Kind) -> Vec<i64> {
    let least = |&(variable, member): &(usize, usize)| {
        let options = &whole.variables[variable].options;
        let amounts = domain[variable]
            .iter()
            .map(|&option| used(&options[option], kind, &[member]));
        amounts.min().unwrap_or(0)
    };
    whole.place.iter().map(least).collect()
}

/// Every rating the nearest device at a section or further up may have; 0: none.
pub(super) fn possible_ranks(whole: &Whole, from: Option<usize>) -> Vec<Rank> {
    let mut ranks = BTreeSet::new();
    let mut here = from;
    while let Some(section) = here {
        let (variable, member) = whole.place[section];
        let options = whole.variables[variable].options.iter();
        ranks.extend(
            options
                .map(|choice| choice.devices[member])
                .filter(|&rank| rank > 0),
        );
        if whole.always[section] {
            return ranks.into_iter().collect();
        }
        here = upstream(whole, section);
    }
    ranks.insert(0);
    ranks.into_iter().collect()
}
