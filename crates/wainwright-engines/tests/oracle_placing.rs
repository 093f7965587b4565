//! `placing` against trying everything: every layout of small problems evaluated from scratch.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod placing_support;
mod towing;

use placing_support::{
    Outcome, blocks, every_layout, outcome, overlap, places_of, random_problem, solids,
};
use towing::near;
use wainwright_engines::placing::*;
use wainwright_engines::weather::Randomness;

const PROBLEMS: usize = 200;

/// The best of every layout by the same order as the engine's.
fn best_of_all(problem: &Problem) -> Option<Outcome> {
    every_layout(problem)
        .into_iter()
        .reduce(|best, one| if one.better_than(&best) { one } else { best })
}

/// On 200 small problems (up to four items, coarse grid, one to four states) the search finds the
/// best layout, with the proof and without it, and the bound is never above it.
#[test]
fn search_and_bound_against_all_layouts() {
    let (mut compared, mut kept, mut found_alone, mut closed) = (0, 0, 0, 0);
    for seed in 0..PROBLEMS {
        let mut problem = random_problem(&mut Randomness::new(seed as u64, 5), 4);
        let Some(best) = best_of_all(&problem) else {
            continue;
        };
        compared += 1;
        let found = better_places(&problem).unwrap();
        let score = found.after.score;
        assert_eq!(score.collisions, 0, "{seed}");
        near(score.violation.kilograms(), best.violation, 1e-6);
        near(score.cost_kg_m2, best.cost, 1e-6 * (1.0 + best.cost));
        if best.violation <= 1e-9 {
            kept += 1;
            assert_eq!(found.proof, Proof::Best, "{seed}");
        } else {
            let Proof::NoneKeepsLimits { least_violation } = found.proof else {
                panic!("{seed}: {:?}", found.proof);
            };
            near(least_violation.kilograms(), best.violation, 1e-6);
        }
        problem.effort.most_proof_steps = 0;
        let alone = better_places(&problem).unwrap();
        let reached = (alone.after.score.cost_kg_m2 - best.cost).abs() <= 1e-6 * (1.0 + best.cost)
            && (alone.after.score.violation.kilograms() - best.violation).abs() <= 1e-6;
        found_alone += usize::from(reached);
        match alone.proof {
            Proof::Best => closed += 1,
            Proof::CostsAtLeast { cost_kg_m2, .. } => {
                assert!(
                    cost_kg_m2 <= best.cost + 1e-6,
                    "{seed}: {cost_kg_m2} {best:?}"
                );
            }
            Proof::NoneKeepsLimits { least_violation } => {
                assert!(best.violation > 0.0, "{seed}");
                assert!(
                    least_violation.kilograms() <= best.violation + 1e-9,
                    "{seed}"
                );
            }
            Proof::Unknown => assert!(best.violation > 0.0 || !reached, "{seed}"),
        }
    }
    println!(
        "compared {compared}, limits kept {kept}, found without proof {found_alone}, closed {closed}"
    );
    assert!(compared >= 150, "{compared}");
    assert!((40..compared).contains(&kept), "{kept}");
    assert_eq!(found_alone, compared);
}

/// Up to ten items: the score is what the slow evaluation says of the places, overlaps counted pair
/// by pair; every place is one of the item's own; nothing is worse than it was; the loads before
/// are those of the places before. The engine itself refuses a bound above the cost it found.
#[test]
fn answers_evaluated_again() {
    for seed in 0..60 {
        let mut problem = random_problem(&mut Randomness::new(seed, 6), 10);
        problem.step = wainwright_units::Length::from_metres(0.2);
        problem.effort.most_evaluations = 20_000;
        problem.effort.most_proof_steps = 500;
        let found = better_places(&problem).unwrap();
        let score = found.after.score;
        let again = outcome(&problem, &found.places);
        near(score.violation.kilograms(), again.violation, 1e-6);
        near(score.cost_kg_m2, again.cost, 1e-6 * (1.0 + again.cost));
        assert_eq!(
            score.collisions,
            collisions(&problem, &found.places),
            "{seed}"
        );
        for (item, place) in problem.items.iter().zip(&found.places) {
            let nearest = places_of(&problem, item)
                .into_iter()
                .filter(|one| one.turned == place.turned)
                .map(|one| one.corner.distance(place.corner).metres())
                .fold(f64::INFINITY, f64::min);
            assert!(nearest < 1e-9, "{seed}: {place:?}");
        }
        let Some(before) = &found.before else {
            continue;
        };
        let present: Vec<Place> = problem.items.iter().filter_map(|item| item.at).collect();
        let was = outcome(&problem, &present);
        near(before.score.cost_kg_m2, was.cost, 1e-6 * (1.0 + was.cost));
        assert_eq!(before.score.collisions, collisions(&problem, &present));
        assert!(
            (score.collisions, again.violation - 1e-9) <= (before.score.collisions, was.violation),
            "{seed}"
        );
    }
}

fn collisions(problem: &Problem, places: &[Place]) -> usize {
    let boxes = blocks(problem, places);
    let solids = solids(problem);
    let pair = |a: usize, b: usize| usize::from(overlap(&boxes[a], &boxes[b]));
    let count = boxes.len();
    let pairs: usize = (0..count)
        .flat_map(|a| (0..a).map(move |b| (a, b)))
        .map(|(a, b)| pair(a, b))
        .sum();
    let fixed = boxes
        .iter()
        .flat_map(|one| solids.iter().filter(move |solid| overlap(one, solid)));
    pairs + fixed.count()
}
