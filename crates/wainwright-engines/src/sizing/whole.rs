//! The problem in whole numbers: groups of sections as one variable each, ratings by their rank. With
//! whole numbers sums do not depend on their order, so that equal plans are found equal. Not here: the
//! search.

use super::Problem;
use std::ops::{Add, Sub};

/// Counts per unit: volts, ohms.
const PER_UNIT: f64 = 1e9;
/// Counts per unit: cost, kilograms.
const PER_PRICE: f64 = 1e6;
/// No limit.
pub(super) const UNLIMITED: i64 = i64::MAX / 4;

/// Cost [millionths], then mass [mg].
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(super) struct Price {
    pub cost: i64,
    pub mass: i64,
}

impl Add for Price {
    type Output = Price;
    fn add(self, other: Price) -> Price {
        Price {
            cost: self.cost + other.cost,
            mass: self.mass + other.mass,
        }
    }
}

impl Sub for Price {
    type Output = Price;
    fn sub(self, other: Price) -> Price {
        Price {
            cost: self.cost - other.cost,
            mass: self.mass - other.mass,
        }
    }
}

impl Price {
    /// More than any plan costs.
    pub(super) const ENDLESS: Price = Price {
        cost: i64::MAX,
        mass: i64::MAX,
    };

    /// Cost in the caller's currency.
    pub(super) fn currency(self) -> f64 {
        self.cost as f64 / PER_PRICE
    }
}

/// Rank of a device rating among all of the problem, from 1; 0 without a device.
pub(super) type Rank = u16;

/// Sections that take the same choice.
#[derive(Debug, Clone)]
pub(super) struct Variable {
    /// The sections, those nearer to the source first.
    pub members: Vec<usize>,
    /// What they may take.
    pub options: Vec<Choice>,
    /// Sections between the first member and the source.
    pub depth: usize,
}

/// One choice of a variable; lists go by member.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Choice {
    /// Index in the lists of the problem.
    pub index: usize,
    pub price: Price,
    /// Drops [nV].
    pub drops: Vec<i64>,
    /// Resistances [nΩ].
    pub ohms: Vec<i64>,
    pub devices: Vec<Rank>,
}

/// A limit in whole numbers.
#[derive(Debug, Clone)]
pub(super) struct Limit {
    pub sections: Vec<usize>,
    /// Highest sum of drops [nV].
    pub drop: Option<i64>,
    /// Section of the fault, and the highest sum of resistances by rank [nΩ]; −1: not allowed.
    pub fault: Option<(usize, Vec<i64>)>,
}

/// The problem in whole numbers.
#[derive(Debug, Clone)]
pub(super) struct Whole {
    pub variables: Vec<Variable>,
    pub limits: Vec<Limit>,
    /// Ratings by rank − 1 [A].
    pub ratings: Vec<f64>,
    /// For each section its variable and its place among the members.
    pub place: Vec<(usize, usize)>,
    pub parent: Vec<Option<usize>>,
    /// For each section the nearest one, itself or further up, that may have a device.
    pub device_at: Vec<Option<usize>>,
    /// For each section, whether each of its choices has a device.
    pub always: Vec<bool>,
    /// For each section how much higher the device further up is rated.
    pub ratio: Vec<f64>,
}

impl Whole {
    pub(super) fn new(problem: &Problem) -> Self {
        let sections = &problem.sections;
        let ratings = ratings(problem);
        let has =
            |section: &super::Section| section.choices.iter().any(|choice| choice.device.is_some());
        let up = |index: usize| {
            let path = problem.path(index);
            path.into_iter().rev().find(|&above| has(&sections[above]))
        };
        let mut whole = Self {
            variables: Vec::new(),
            limits: problem
                .limits
                .iter()
                .map(|limit| whole_limit(limit, &ratings))
                .collect(),
            place: vec![(0, 0); sections.len()],
            parent: sections.iter().map(|section| section.parent).collect(),
            device_at: (0..sections.len()).map(up).collect(),
            always: sections
                .iter()
                .map(|section| section.choices.iter().all(|choice| choice.device.is_some()))
                .collect(),
            ratio: sections
                .iter()
                .map(|section| section.upstream_ratio.fraction())
                .collect(),
            ratings,
        };
        let grouped: Vec<usize> = problem.alike.iter().flatten().copied().collect();
        let alone = (0..sections.len())
            .filter(|index| !grouped.contains(index))
            .map(|index| vec![index]);
        for members in problem.alike.iter().cloned().chain(alone) {
            whole.add(problem, members);
        }
        whole
    }

    /// Whether a device may sit below another one: 0 stands for none.
    pub(super) fn selective(&self, section: usize, own: Rank, upstream: Rank) -> bool {
        let rating = |rank: Rank| self.ratings.get(usize::from(rank).wrapping_sub(1)).copied();
        match (rating(own), rating(upstream)) {
            (Some(own), Some(upstream)) => fits(own, self.ratio[section], upstream),
            _ => true,
        }
    }

    fn add(&mut self, problem: &Problem, mut members: Vec<usize>) {
        let depth = |index: usize| problem.path(index).len();
        members.sort_by_key(|&index| (depth(index), index));
        let Some(&first) = members.first() else {
            return;
        };
        let count = problem.sections[first].choices.len();
        let options = (0..count)
            .map(|index| self.choice(problem, &members, index))
            .collect();
        for (place, &member) in members.iter().enumerate() {
            self.place[member] = (self.variables.len(), place);
        }
        self.variables.push(Variable {
            depth: depth(first) - 1,
            members,
            options: without_beaten(options),
        });
    }

    fn choice(&self, problem: &Problem, members: &[usize], index: usize) -> Choice {
        let choices: Vec<_> = members
            .iter()
            .map(|&member| problem.sections[member].choices[index])
            .collect();
        let price = choices.iter().map(|choice| Price {
            cost: count(choice.cost, PER_PRICE),
            mass: count(choice.mass.kilograms(), PER_PRICE),
        });
        Choice {
            index,
            price: price.fold(Price::default(), Price::add),
            drops: choices
                .iter()
                .map(|choice| count(choice.drop.volts(), PER_UNIT))
                .collect(),
            ohms: choices
                .iter()
                .map(|choice| count(choice.resistance.ohms(), PER_UNIT))
                .collect(),
            devices: choices
                .iter()
                .map(|choice| {
                    choice
                        .device
                        .map_or(0, |rating| rank(&self.ratings, rating.amperes()))
                })
                .collect(),
        }
    }
}

/// Whether a device upstream is rated high enough above another; a billionth is rounding.
pub(super) fn fits(own: f64, ratio: f64, upstream: f64) -> bool {
    own * ratio <= upstream * (1.0 + 1e-9)
}

/// The highest resistance a table allows for a rating [Ω]; `None`: not allowed at all.
pub(super) fn allowed(
    table: &[(wainwright_units::Current, wainwright_units::Resistance)],
    rating: f64,
) -> Option<f64> {
    let entry = table
        .iter()
        .find(|(listed, _)| listed.amperes() * (1.0 + 1e-9) >= rating);
    entry.map(|(_, most)| most.ohms())
}

/// All different ratings, rising [A].
pub(super) fn ratings(problem: &Problem) -> Vec<f64> {
    let choices = problem.sections.iter().flat_map(|section| &section.choices);
    let mut ratings: Vec<f64> = choices
        .filter_map(|choice| choice.device)
        .map(|rating| rating.amperes())
        .collect();
    ratings.sort_by(f64::total_cmp);
    ratings.dedup();
    ratings
}

fn rank(ratings: &[f64], rating: f64) -> Rank {
    let before = ratings.partition_point(|&listed| listed < rating);
    Rank::try_from(before + 1).unwrap_or(Rank::MAX)
}

fn whole_limit(limit: &super::Limit, ratings: &[f64]) -> Limit {
    let fault = limit.fault.as_ref().map(|fault| {
        let by_rank = ratings
            .iter()
            .map(|&rating| allowed(&fault.table, rating).map_or(-1, |most| count(most, PER_UNIT)));
        (fault.at, by_rank.collect())
    });
    Limit {
        sections: limit.sections.clone(),
        drop: limit.most_drop.map(|drop| count(drop.volts(), PER_UNIT)),
        fault,
    }
}

/// Drops each choice that another one with the same devices beats in everything. The first of equals
/// stays.
fn without_beaten(options: Vec<Choice>) -> Vec<Choice> {
    let no_more =
        |one: &[i64], other: &[i64]| one.iter().zip(other).all(|(one, other)| one <= other);
    let beats = |one: &Choice, other: &Choice| {
        one.devices == other.devices
            && one.price <= other.price
            && no_more(&one.drops, &other.drops)
            && no_more(&one.ohms, &other.ohms)
    };
    let beaten = |other: &Choice| {
        options.iter().any(|one| {
            one.index != other.index
                && beats(one, other)
                && (one.index < other.index || !beats(other, one))
        })
    };
    options
        .iter()
        .filter(|choice| !beaten(choice))
        .cloned()
        .collect()
}

fn count(value: f64, per_unit: f64) -> i64 {
    (value * per_unit).round() as i64
}
