//! Better places against the best of 10 000 random layouts of the same problem, and the time of one
//! evaluation: by its difference, from scratch, and the loads of all states alone.
//!
//! A random layout puts the items down in random order, each at a random free place of its grid.
//! Run with `cargo bench -p wainwright-engines --bench placing`.
#![allow(
    clippy::expect_used,
    clippy::unwrap_used,
    reason = "a failed assumption ends the measurement"
)]

#[path = "../tests/placing_support/mod.rs"]
mod placing_support;

use std::hint::black_box;
use std::time::Instant;

use placing_support::{Block, below, between, block_at, overlap, places_of, solids};
use wainwright_engines::balance::{
    Band, Chassis, LoadTable, Statics, Suspension, over_states_into,
};
use wainwright_engines::placing::*;
use wainwright_engines::weather::Randomness;
use wainwright_units::frame::{Point, Vector};
use wainwright_units::*;

const RANDOM_LAYOUTS: usize = 10_000;
/// Random places tried for one item before a layout is given up.
const TRIES: usize = 400;

fn main() {
    println!(
        "items  states  random best  (violation)  found    (violation)  bound    gap     search s  \
         proof s  per trial µs  look_at µs  loads µs"
    );
    for (items, states, evaluations) in [(12, 16, 400_000), (25, 16, 400_000), (200, 64, 2_000_000)]
    {
        row(items, states, evaluations);
    }
}

fn row(items: usize, states: usize, evaluations: usize) {
    let mut random = Randomness::new(items as u64, 1);
    let mut problem = problem(&mut random, items, states);
    problem.effort.most_evaluations = evaluations;
    let (layout, best) = best_random(&problem, &mut random);
    // Search alone first, so that the proof has its own time.
    let steps = std::mem::replace(&mut problem.effort.most_proof_steps, 0);
    let start = Instant::now();
    let found = better_places(&problem).expect("a legal problem");
    let search = start.elapsed().as_secs_f64();
    problem.effort.most_proof_steps = steps;
    let start = Instant::now();
    let proven = better_places(&problem).expect("a legal problem");
    let whole = start.elapsed().as_secs_f64();
    let (bound, gap) = match proven.proof {
        Proof::Best => (proven.after.score.cost_kg_m2, 0.0),
        Proof::CostsAtLeast { cost_kg_m2, gap } => (cost_kg_m2, gap.percent()),
        _ => (f64::NAN, f64::NAN),
    };
    let look = best_of(20, || drop(black_box(look_at(&problem, &layout))));
    let loads = loads_seconds(&problem, &layout);
    println!(
        "{items:5}  {states:6}  {:11.2}  ({:9.3})  {:7.2}  ({:9.3})  {bound:7.2}  {gap:5.2} %  {search:8.2}  \
         {:7.2}  {:12.2}  {:10.1}  {:8.1}",
        best.cost_kg_m2,
        best.violation.kilograms(),
        proven.after.score.cost_kg_m2,
        proven.after.score.violation.kilograms(),
        whole - search,
        1e6 * search / found.evaluations as f64,
        1e6 * look,
        1e6 * loads,
    );
}

/// A trailer with a floor, two shelves, an aisle, tanks and cargo that change from state to state.
fn problem(random: &mut Randomness, items: usize, states: usize) -> Problem {
    let room = |low: f64, high: f64| {
        (
            Point::from_metres(1.4, -0.9, low),
            Point::from_metres(5.0, 0.9, high),
        )
    };
    let levels = [room(0.5, 1.0), room(1.0, 1.5), room(1.5, 2.0)];
    let scale = (25.0 / items as f64).sqrt().clamp(0.45, 1.2);
    let items = (0..items)
        .map(|index| {
            let size = Vector::from_metres(
                scale * between(random, 0.2, 0.6),
                scale * between(random, 0.2, 0.5),
                between(random, 0.15, 0.45),
            );
            let full = scale * scale * between(random, 4.0, 40.0);
            let masses = (0..states).map(|_| {
                let part = if index % 4 == 0 {
                    between(random, 0.1, 1.0)
                } else {
                    1.0
                };
                Mass::from_kilograms(full * part)
            });
            let regions = levels.iter().flat_map(|level| {
                [false, true].map(|turned| Region::on_floor(level.0, level.1, size, turned))
            });
            Item {
                masses: masses.collect(),
                size,
                regions: regions.flatten().collect(),
                at: None,
            }
        })
        .collect();
    Problem {
        chassis: Chassis {
            coupling_to_axle: Length::from_metres(3.4),
            track: Length::from_metres(1.8),
            suspension: Suspension::Single,
        },
        states,
        fixed: vec![Fixed {
            masses: vec![Mass::from_kilograms(500.0)],
            centre: Point::from_metres(3.1, 0.0, 0.7),
            extent: Vector::from_metres(3.8, 1.8, 0.0),
            solid: false,
        }],
        items,
        keep_clear: vec![KeepClear {
            from: Point::from_metres(2.6, -0.3, 0.5),
            to: Point::from_metres(5.0, 0.3, 2.0),
        }],
        step: Length::from_metres(0.1),
        limits: Limits {
            band: Band {
                low: Ratio::from_percent(9.0),
                high: Ratio::from_percent(12.0),
            },
            least_tongue: None,
            most_tongue: None,
            most_axles: None,
            most_one_side: None,
            most_difference: Some(Mass::from_kilograms(40.0)),
        },
        aim: Aim {
            over: Over::Mean,
            for_difference: 0.2,
            for_height: 0.0,
            for_move: 0.0,
        },
        effort: Effort::default(),
    }
}

/// The best of the random layouts by the engine's own order, and its score.
fn best_random(problem: &Problem, random: &mut Randomness) -> (Vec<Place>, Score) {
    let grids: Vec<Vec<Place>> = problem
        .items
        .iter()
        .map(|item| places_of(problem, item))
        .collect();
    let solids = solids(problem);
    let mut best: Option<(Vec<Place>, Score)> = None;
    let mut made = 0;
    while made < RANDOM_LAYOUTS {
        let Some(layout) = random_layout(problem, &grids, &solids, random) else {
            continue;
        };
        made += 1;
        let score = look_at(problem, &layout).expect("a legal layout").score;
        assert_eq!(score.collisions, 0);
        let better = best.as_ref().is_none_or(|(_, old)| {
            (score.violation, score.cost_kg_m2) < (old.violation, old.cost_kg_m2)
        });
        if better {
            best = Some((layout, score));
        }
    }
    best.expect("random layouts")
}

fn random_layout(
    problem: &Problem,
    grids: &[Vec<Place>],
    solids: &[Block],
    random: &mut Randomness,
) -> Option<Vec<Place>> {
    let mut order: Vec<usize> = (0..grids.len()).collect();
    for index in (1..order.len()).rev() {
        order.swap(index, below(random, index + 1));
    }
    let mut taken: Vec<Block> = solids.to_vec();
    let mut layout: Vec<Option<Place>> = vec![None; grids.len()];
    for item in order {
        let place = (0..TRIES).find_map(|_| {
            let place = grids[item][below(random, grids[item].len())];
            let block = block_at(&problem.items[item], place);
            let free = !taken.iter().any(|one| overlap(one, &block));
            free.then_some((place, block))
        });
        let (place, block) = place?;
        taken.push(block);
        layout[item] = Some(place);
    }
    layout.into_iter().collect()
}

/// Seconds for the loads of all states of one layout, one item put somewhere else each time.
fn loads_seconds(problem: &Problem, layout: &[Place]) -> f64 {
    let mut table = LoadTable::new(problem.states);
    for one in &problem.fixed {
        table.push(one.centre, one.extent, &one.masses).unwrap();
    }
    for (item, place) in problem.items.iter().zip(layout) {
        table
            .push(place.corner + item.size * 0.5, item.size, &item.masses)
            .unwrap();
    }
    let mut found: Vec<Statics> = Vec::new();
    let mut x = 2.0;
    best_of(200, || {
        x += 1e-4;
        table.put(1, Point::from_metres(x, 0.1, 0.6)).unwrap();
        over_states_into(&problem.chassis, &table, &mut found).unwrap();
        black_box(&found);
    })
}

/// Shortest time of several runs \[s\].
fn best_of(runs: usize, mut run: impl FnMut()) -> f64 {
    (0..runs)
        .map(|_| {
            let start = Instant::now();
            run();
            start.elapsed().as_secs_f64()
        })
        .fold(f64::INFINITY, f64::min)
}
