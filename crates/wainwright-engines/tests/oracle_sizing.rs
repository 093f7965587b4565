//! Sizing against trying every plan, on tiny problems with any kind of limit. The sums here are made
//! apart from the engine's. Not here: larger problems (`oracle_sizing_milp`).
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod sizing_problems;

use sizing_problems::tiny;
use wainwright_engines::sizing::*;

/// Random problems tried.
const CASES: u64 = 3000;

/// Cost and mass of the best plan, by trying all; whole numbers of the tiny problems.
fn by_trying_all(problem: &Problem) -> Option<(i64, i64)> {
    let lengths: Vec<usize> = problem
        .sections
        .iter()
        .map(|section| section.choices.len())
        .collect();
    let mut chosen = vec![0; lengths.len()];
    let mut best = None;
    loop {
        if holds(problem, &chosen) {
            let of = |value: fn(&Choice) -> f64| -> i64 {
                let taken = problem.sections.iter().zip(&chosen);
                taken
                    .map(|(section, &choice)| value(&section.choices[choice]).round() as i64)
                    .sum()
            };
            let price = (
                of(|choice| choice.cost),
                of(|choice| choice.mass.kilograms()),
            );
            best = best.into_iter().chain([price]).min();
        }
        let Some(next) = (0..chosen.len()).find(|&index| chosen[index] + 1 < lengths[index]) else {
            return best;
        };
        chosen[..next].fill(0);
        chosen[next] += 1;
    }
}

fn holds(problem: &Problem, chosen: &[usize]) -> bool {
    let taken = |section: usize| &problem.sections[section].choices[chosen[section]];
    let nearest = |from: Option<usize>| {
        let mut here = from;
        while let Some(section) = here {
            if let Some(rating) = taken(section).device {
                return Some(rating.amperes());
            }
            here = problem.sections[section].parent;
        }
        None
    };
    let thousandths = |value: f64| (value * 1000.0).round() as i64;
    let limit_holds = |limit: &Limit| {
        let drop: i64 = limit
            .sections
            .iter()
            .map(|&section| thousandths(taken(section).drop.volts()))
            .sum();
        let ohms: i64 = limit
            .sections
            .iter()
            .map(|&section| thousandths(taken(section).resistance.ohms()))
            .sum();
        let drop_holds = limit
            .most_drop
            .is_none_or(|most| drop <= thousandths(most.volts()));
        let fault_holds = limit
            .fault
            .as_ref()
            .is_none_or(|fault| match nearest(Some(fault.at)) {
                None => true,
                Some(rating) => fault.table.iter().any(|(listed, most)| {
                    let lower = fault.table.iter().filter(|(other, _)| other < listed);
                    let fits = rating <= listed.amperes()
                        && lower.clone().all(|(other, _)| other.amperes() < rating);
                    fits && ohms <= thousandths(most.ohms())
                }),
            });
        drop_holds && fault_holds
    };
    let selective = |section: usize| {
        let own = taken(section).device.map(|rating| rating.amperes());
        let upstream = nearest(problem.sections[section].parent);
        let ratio = problem.sections[section].upstream_ratio.fraction();
        own.zip(upstream)
            .is_none_or(|(own, upstream)| own * ratio <= upstream)
    };
    problem.limits.iter().all(limit_holds)
        && (0..chosen.len()).all(selective)
        && problem.alike.iter().all(|group| {
            group
                .iter()
                .all(|&section| chosen[section] == chosen[group[0]])
        })
}

/// Exact: everything is whole numbers.
#[test]
fn tiny_problems_agree_with_trying_all() {
    let (mut possible, mut impossible, mut explained) = (0, 0, 0);
    for seed in 0..CASES {
        let problem = tiny(seed);
        let expected = by_trying_all(&problem);
        match (least_cost(&problem), expected) {
            (Ok(plan), Some((cost, mass))) => {
                assert!(plan.proven, "{seed}");
                assert!(holds(&problem, &plan.chosen), "{seed}: {plan:?}");
                let found = (
                    plan.appraisal.cost.round() as i64,
                    plan.appraisal.mass.kilograms().round() as i64,
                );
                assert_eq!(found, (cost, mass), "{seed}: {problem:?}");
                assert_eq!((plan.gap, plan.lower_bound), (0.0, cost as f64), "{seed}");
                possible += 1;
            }
            (Err(SizingError::Impossible(obstacles)), None) => {
                impossible += 1;
                explained += usize::from(!obstacles.is_empty());
                check_obstacles(&problem, &obstacles);
            }
            (found, expected) => {
                panic!("{seed}: found {found:?}, expected {expected:?}\n{problem:?}")
            }
        }
    }
    assert!(
        possible > 1000 && impossible > 300,
        "{possible} {impossible}"
    );
    assert_eq!(explained, impossible);
}

/// What is said to stand in the way stands in the way by itself, and a joint reason is a smallest one.
fn check_obstacles(problem: &Problem, obstacles: &[Obstacle]) {
    for obstacle in obstacles {
        let mut only = problem.clone();
        let strip = |problem: &mut Problem, limits: &[usize], sections: &[usize]| {
            for (index, limit) in problem.limits.iter_mut().enumerate() {
                if !limits.contains(&index) {
                    (limit.most_drop, limit.fault) = (None, None);
                }
            }
            for (index, section) in problem.sections.iter_mut().enumerate() {
                if !sections.contains(&index) {
                    section.upstream_ratio = wainwright_units::Ratio::ZERO;
                }
            }
        };
        match obstacle {
            Obstacle::NoChoice { .. } => panic!("each section has choices"),
            Obstacle::Drop { limit, least, most } => {
                assert!(least > most);
                strip(&mut only, &[*limit], &[]);
                only.limits[*limit].fault = None;
                only.limits[*limit].most_drop = Some(*least);
                assert!(by_trying_all(&only).is_some(), "the least sum can be had");
                only.limits[*limit].most_drop = Some(*most);
            }
            Obstacle::Resistance { limit, .. } => {
                strip(&mut only, &[*limit], &[]);
                only.limits[*limit].most_drop = None;
            }
            Obstacle::Selectivity { section, .. } => strip(&mut only, &[], &[*section]),
            Obstacle::Together { limits, sections } => {
                strip(&mut only, limits, sections);
                for &left_out in limits {
                    let mut rest = only.clone();
                    (rest.limits[left_out].most_drop, rest.limits[left_out].fault) = (None, None);
                    assert!(
                        by_trying_all(&rest).is_some(),
                        "limit {left_out} is not needed"
                    );
                }
                for &left_out in sections {
                    let mut rest = only.clone();
                    rest.sections[left_out].upstream_ratio = wainwright_units::Ratio::ZERO;
                    assert!(
                        by_trying_all(&rest).is_some(),
                        "section {left_out} is not needed"
                    );
                }
            }
        }
        assert_eq!(by_trying_all(&only), None, "{obstacle:?}");
    }
}
