//! Cutting plans of builders' jobs against HiGHS, run live on the same jobs. Not here: tiny jobs
//! with everything allowed (`oracle_cutting`).
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod bar_jobs;

use bar_jobs::arcflow::{Answer, by_highs};
use bar_jobs::planks;
use std::time::Instant;
use wainwright_engines::cutting::*;

/// Jobs compared.
const CASES: u64 = 24;
/// Most time for one in the other solver \[s\]; far more than it needs.
const MOST_SECONDS: f64 = 60.0;

#[test]
fn agrees_with_a_general_solver() {
    let jobs: Vec<Job> = (0..CASES)
        .map(|seed| planks(seed, 5 + seed as u32 % 5))
        .collect();
    let theirs = by_highs(&jobs, MOST_SECONDS);
    let (mut own_seconds, mut their_seconds) = (0.0, 0.0);
    for (seed, (job, (answer, seconds))) in jobs.iter().zip(theirs).enumerate() {
        let start = Instant::now();
        let plan = plan(job, &Budget::default()).unwrap();
        own_seconds += start.elapsed().as_secs_f64();
        their_seconds += seconds;
        let Answer::Cost(cost) = answer else {
            panic!("{seed}: {answer:?}");
        };
        // Costs are multiples of 1/16 cent; HiGHS promises 1e-6 of the value.
        assert!(
            (plan.cost.cents() - cost).abs() < 0.03,
            "{seed}: {plan:?} against {cost}"
        );
        assert!(plan.proven, "{seed}: {plan:?}");
    }
    println!(
        "{CASES} jobs: engine {:.1} ms, HiGHS {:.1} ms",
        own_seconds * 1e3,
        their_seconds * 1e3
    );
}
