//! Cutting plans of published and hand-checked jobs. Not here: random jobs (`oracle_cutting`).
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod bar_jobs;

use bar_jobs::{FAMILIES, family};
use wainwright_engines::cutting::*;
use wainwright_units::Length;

fn solve(job: &Job) -> Plan {
    plan(job, &Budget::default()).unwrap()
}

fn job(kerf: u32, length: u32, price: u32, pieces: &[(u32, u32)]) -> Job {
    let pieces = pieces
        .iter()
        .map(|&(length, count)| Piece { length, count });
    Job {
        kerf,
        pieces: pieces.collect(),
        stocks: vec![Stock::new(length, price)],
        leftover: None,
    }
}

/// Optimum and fractional bound; the bound is printed with `digits` digits by its source.
fn check(job: &Job, optimum: f64, relaxation: f64, digits: i32) {
    let plan = solve(job);
    assert!(plan.proven && plan.caps.is_empty(), "{plan:?}");
    assert_eq!(plan.cost.cents(), optimum);
    let printed = (plan.relaxation * 10_f64.powi(digits)).round() / 10_f64.powi(digits);
    assert_eq!(printed, relaxation, "{}", plan.relaxation);
}

/// 20 × 24 in and 4 × 48 in from 96 in: exact divisors, so a kerf costs three bars.
#[test]
fn kerf_counts_between_pieces_only() {
    let of = |kerf| solve(&job(kerf, 1536, 1, &[(384, 20), (768, 4)])).bars();
    assert_eq!((of(0), of(2)), (7, 10));
    // Four pieces and three kerfs fill the bar: the fourth cut is not made.
    let exact = solve(&job(2, 1542, 1, &[(384, 4)]));
    assert_eq!((exact.bars(), exact.layouts[0].cuts), (1, 3));
    assert_eq!(
        (exact.layouts[0].kerf_lost, exact.layouts[0].offcut),
        (6, 0)
    );
    // One step more: a fourth cut turns the rest to dust.
    let dust = solve(&job(2, 1543, 1, &[(384, 4)]));
    assert_eq!((dust.layouts[0].cuts, dust.layouts[0].kerf_lost), (4, 7));
    // One step less: no room for four.
    assert_eq!(solve(&job(2, 1541, 1, &[(384, 4)])).bars(), 2);
}

/// Bar of 96 in at 899, 40 in × 3 and 30 in × 2, kerf 1/8 in, worth 5 cents an inch from 24 in on:
/// 40 + 30, 40 + 30, 40, with 25.75, 25.75 and 55.875 in left.
#[test]
fn worth_of_offcuts() {
    let mut job = job(2, 1536, 899, &[(640, 3), (480, 2)]);
    assert_eq!(solve(&job).cost.cents(), 2697.0);
    job.leftover = Some(Leftover {
        least: 384,
        cents: 5,
        per: 16,
    });
    let plan = solve(&job);
    assert!(plan.proven);
    assert_eq!(plan.cost.cents(), 2160.125);
    let mut offcuts: Vec<(u32, u32)> = (plan.layouts.iter())
        .map(|layout| (layout.offcut, layout.times))
        .collect();
    offcuts.sort_unstable();
    assert_eq!(offcuts, [(412, 2), (894, 1)]);
}

/// M. Fieldhouse 1990: gap of more than one between the fractional and the whole plan.
#[test]
fn fieldhouse_and_a_small_one_of_gau_and_waescher() {
    check(
        &job(0, 132, 1, &[(44, 2), (33, 3), (12, 6)]),
        3.0,
        2.0909,
        4,
    );
    let small = [(30, 1), (22, 1), (20, 1), (19, 1), (12, 2)];
    check(&job(0, 60, 1, &small), 3.0, 2.2, 6);
}

#[test]
fn textbook_rolls() {
    let lengths = [
        (1380, 22),
        (1520, 25),
        (1560, 12),
        (1710, 14),
        (1820, 18),
        (1880, 18),
        (1930, 20),
        (2000, 10),
        (2050, 12),
        (2100, 14),
        (2140, 16),
        (2150, 18),
        (2200, 20),
    ];
    check(&job(0, 5600, 1, &lengths), 73.0, 72.9167, 4);
    let four = [(45, 97), (36, 610), (31, 395), (14, 211)];
    check(&job(0, 100, 1, &four), 453.0, 452.25, 6);
    let five = [(20, 48), (45, 35), (50, 24), (55, 10), (75, 8)];
    check(&job(0, 110, 1, &five), 47.0, 46.25, 6);
}

/// All 72 jobs: cost proven at the published optimum; fractional bound as published, or a lower one
/// that rounds up alike where the engine stops early.
#[test]
fn every_bundled_job_is_proven() {
    let mut count = 0;
    for name in FAMILIES {
        for known in family(name) {
            let plan = solve(&known.job);
            assert!(plan.proven, "{}: {plan:?}", known.name);
            assert_eq!(
                plan.cost.cents(),
                f64::from(known.optimum),
                "{}",
                known.name
            );
            if let Some(relaxation) = known.relaxation {
                // Published with six digits.
                assert!(plan.relaxation < relaxation + 1e-6, "{}", known.name);
                let early = plan.work.states > 20_000_000;
                let near = (plan.relaxation - relaxation).abs() < 2e-6 * relaxation.max(1.0);
                let rounded = plan.relaxation.ceil() == relaxation.ceil();
                assert!(near || early && rounded, "{}: {plan:?}", known.name);
            }
            count += 1;
        }
    }
    assert_eq!(count, 72);
}

/// Same patterns are found where they cost nothing: four bars alike instead of two and two.
#[test]
fn like_layouts_are_put_together() {
    let plan = solve(&job(0, 100, 1, &[(50, 4), (30, 4), (20, 4)]));
    assert_eq!((plan.bars(), plan.layouts.len()), (4, 1), "{plan:?}");
    assert_eq!(plan.layouts[0].pieces, [0, 1, 2]);
}

#[test]
fn bars_at_hand_run_out() {
    let mut job = job(0, 100, 0, &[(60, 3)]);
    job.stocks[0].available = Some(2);
    let refused = plan(&job, &Budget::default()).unwrap_err();
    assert_eq!(refused, CuttingError::NotEnough { proven: true });
    assert!(refused.to_string().contains("add bars"));
    job.stocks.push(Stock::new(70, 500));
    let found = solve(&job);
    assert_eq!(
        (found.cost.cents(), found.bars_of(0), found.bars_of(1)),
        (500.0, 2, 1)
    );
}

#[test]
fn nonsense_is_refused_with_its_place() {
    let mut long = job(0, 100, 1, &[(60, 1), (101, 1)]);
    let refused = plan(&long, &Budget::default()).unwrap_err();
    assert!(
        refused
            .to_string()
            .contains("piece 2 is 101 steps long, expected at most 100")
    );
    long.pieces[1].length = 0;
    assert!(plan(&long, &Budget::default()).is_err());
    long.pieces.clear();
    assert_eq!(solve(&long).bars(), 0);
    let mut worth = job(0, 100, 10, &[(60, 1)]);
    worth.leftover = Some(Leftover {
        least: 0,
        cents: 1,
        per: 10,
    });
    let refused = plan(&worth, &Budget::default()).unwrap_err();
    assert!(
        refused.to_string().contains("worth as an offcut"),
        "{refused}"
    );
    let none = Job::default();
    assert!(solve(&none).proven);
}

/// 40 1/8 in is 1284 thirty-seconds, up and down; a little more is 1285 up.
#[test]
fn the_grid_rounds_pieces_up_and_stock_down() {
    let grid = Grid::thirty_seconds_of_an_inch();
    let inches = |value: f64| Length::from_metres(value * 0.0254);
    assert_eq!(grid.up(inches(40.125)), Ok(1284));
    assert_eq!(grid.down(inches(40.125)), Ok(1284));
    assert_eq!(grid.up(inches(40.126)), Ok(1285));
    assert_eq!(grid.down(inches(40.124)), Ok(1283));
    assert!(grid.up(inches(-1.0)).is_err());
    assert!(Grid::new(Length::from_metres(0.0)).is_err());
}

/// A cap is named, and the bound stays below the optimum.
#[test]
fn caps_are_named_and_bounds_stay_honest() {
    let known = family("own_plank_jobs")
        .into_iter()
        .find(|known| known.name == "own_plank_09");
    let known = known.unwrap();
    let whole = Budget::default();
    let budgets = [
        (Cap::Nodes, Budget { nodes: 1, ..whole }),
        (
            Cap::Pivots,
            Budget {
                pivots: 20,
                ..whole
            },
        ),
        (
            Cap::Patterns,
            Budget {
                patterns: 10,
                ..whole
            },
        ),
        (
            Cap::States,
            Budget {
                states: 300,
                ..whole
            },
        ),
    ];
    for (cap, budget) in budgets {
        let plan = plan(&known.job, &budget).unwrap();
        assert!(plan.caps.contains(&cap), "{cap:?}: {plan:?}");
        assert!(!plan.proven && plan.gap().fraction() > 0.0);
        let optimum = f64::from(known.optimum);
        assert!(
            plan.bound.cents() <= optimum && plan.cost.cents() >= optimum,
            "{plan:?}"
        );
    }
}
