//! Time of sizing plants of 10 to 60 circuits, against a plain branch and bound in the same run. Run with
//! `cargo bench --bench sizing`. The comparison with a general solver is in `oracle_sizing_milp`.

#[path = "../tests/sizing_problems/mod.rs"]
mod sizing_problems;

use sizing_problems::{Minus, Plant, plant};
use std::hint::black_box;
use std::time::Instant;
use wainwright_engines::sizing::{Problem, least_cost};

/// Most steps of the peer before it gives up.
const MOST_STEPS: usize = 100_000_000;

/// Branch and bound section by section: cheapest choices first, bound = cost so far and the cheapest of
/// the rest; a limit is given up when its least sum is too high. Drops only, which makes it easier.
struct Peer<'p> {
    problem: &'p Problem,
    order: Vec<Vec<usize>>,
    rest: Vec<f64>,
    limits_of: Vec<Vec<usize>>,
    left: Vec<f64>,
    best: f64,
    steps: usize,
}

impl<'p> Peer<'p> {
    fn new(problem: &'p Problem) -> Self {
        let cost = |section: usize, choice: usize| problem.sections[section].choices[choice].cost;
        let drop = |section: usize| {
            let choices = problem.sections[section].choices.iter();
            choices
                .map(|choice| choice.drop.volts())
                .fold(f64::INFINITY, f64::min)
        };
        let sections = 0..problem.sections.len();
        let by_cost = |section: usize| {
            let mut order: Vec<usize> = (0..problem.sections[section].choices.len()).collect();
            order.sort_by(|&one, &other| cost(section, one).total_cmp(&cost(section, other)));
            order
        };
        let order: Vec<Vec<usize>> = sections.clone().map(by_cost).collect();
        let mut rest = vec![0.0; order.len() + 1];
        for section in sections.clone().rev() {
            rest[section] = rest[section + 1]
                + order[section]
                    .first()
                    .map_or(0.0, |&first| cost(section, first));
        }
        let of = |section: usize| {
            let limits = problem.limits.iter().enumerate();
            limits
                .filter(|(_, limit)| limit.sections.contains(&section))
                .map(|(index, _)| index)
                .collect()
        };
        let left = problem.limits.iter().map(|limit| {
            let most = limit.most_drop.map_or(f64::INFINITY, |drop| drop.volts());
            most - limit
                .sections
                .iter()
                .map(|&section| drop(section))
                .sum::<f64>()
                + 1e-9
        });
        Self {
            limits_of: sections.map(of).collect(),
            left: left.collect(),
            problem,
            order,
            rest,
            best: f64::INFINITY,
            steps: 0,
        }
    }

    fn search(&mut self, section: usize, cost: f64) {
        self.steps += 1;
        if cost + self.rest[section] >= self.best - 1e-9 || self.steps > MOST_STEPS {
            return;
        }
        let Some(order) = self.order.get(section).cloned() else {
            self.best = cost;
            return;
        };
        let choices = &self.problem.sections[section].choices;
        let least = choices
            .iter()
            .map(|choice| choice.drop.volts())
            .fold(f64::INFINITY, f64::min);
        let limits = self.limits_of[section].clone();
        for choice in order.into_iter().map(|index| &choices[index]) {
            let more = choice.drop.volts() - least;
            if limits.iter().all(|&limit| self.left[limit] >= more) {
                limits.iter().for_each(|&limit| self.left[limit] -= more);
                self.search(section + 1, cost + choice.cost);
                limits.iter().for_each(|&limit| self.left[limit] += more);
            }
        }
    }
}

/// Shortest time of a few runs [µs].
fn shortest(runs: usize, mut work: impl FnMut()) -> f64 {
    let time = |_| {
        let start = Instant::now();
        work();
        start.elapsed().as_secs_f64() * 1e6
    };
    (0..runs).map(time).fold(f64::INFINITY, f64::min)
}

fn main() {
    let kinds = [
        ("one tree", None),
        ("leads alike", Some(Minus::Alike)),
        ("two trees", Some(Minus::OneBar)),
        ("crossing", Some(Minus::CrossBars)),
    ];
    for (name, minus) in kinds {
        for (circuits, blocks) in [(10, 2), (25, 2), (60, 3)] {
            let problem = plant(
                2,
                Plant {
                    circuits,
                    blocks,
                    minus,
                },
            );
            let runs = if minus == Some(Minus::CrossBars) {
                1
            } else {
                5
            };
            let micros = shortest(runs, || {
                black_box(least_cost(black_box(&problem)).is_ok());
            });
            let end = least_cost(&problem).map_or_else(
                |error| error.to_string(),
                |plan| {
                    format!(
                        "cost {:.2}, gap {:.2}, {} part plans",
                        plan.appraisal.cost, plan.gap, plan.effort.plans
                    )
                },
            );
            println!(
                "{name:>11}, {circuits:>2} circuits: {:>9.2} ms, {end}",
                micros / 1e3
            );
        }
    }
    for circuits in [3, 4, 5, 6] {
        let mut problem = plant(
            2,
            Plant {
                circuits,
                blocks: 1,
                minus: None,
            },
        );
        for limit in &mut problem.limits {
            limit.fault = None;
        }
        for section in &mut problem.sections {
            section.upstream_ratio = wainwright_units::Ratio::ZERO;
        }
        let own = shortest(5, || {
            black_box(least_cost(&problem).is_ok());
        });
        let mut peer = Peer::new(&problem);
        let theirs = shortest(1, || peer.search(0, 0.0));
        let cost = least_cost(&problem).map_or(f64::NAN, |plan| plan.appraisal.cost);
        println!(
            "drops only, {circuits} circuits: {own:.0} µs at {cost:.2}; plain branch and bound {theirs:.0} µs at {:.2}, {} steps, {:.0} times as long",
            peer.best,
            peer.steps,
            theirs / own
        );
    }
}
