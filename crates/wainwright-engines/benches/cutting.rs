//! Cutting plans: every bundled job with its bound and proof, builders' jobs of rising size, and the
//! plank jobs side by side with HiGHS in the same run.
//!
//! Run with `cargo bench -p wainwright-engines --bench cutting`; names of families after `--` run
//! these alone.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a failed assumption ends the measurement"
)]

#[path = "../tests/bar_jobs/mod.rs"]
mod bar_jobs;

use bar_jobs::arcflow::{Answer, by_highs};
use bar_jobs::{FAMILIES, Known, family, planks};
use std::time::Instant;
use wainwright_engines::cutting::*;

/// Runs of each plank job; the shortest counts.
const RUNS: usize = 5;
/// Most time for one job in the other solver \[s\].
const MOST_SECONDS: f64 = 120.0;

fn main() {
    let asked: Vec<String> = (std::env::args().skip(1))
        .filter(|word| !word.starts_with('-'))
        .collect();
    let wanted = |name: &str| asked.is_empty() || asked.iter().any(|one| one == name);
    for name in FAMILIES.into_iter().filter(|name| wanted(name)) {
        bundled(name);
    }
    if wanted("sizes") {
        for kinds in [12, 20, 30, 45] {
            rising(kinds);
        }
    }
    if wanted("highs") {
        beside_highs();
    }
}

/// Every job of one file: seconds, cost, bound, proof.
fn bundled(name: &str) {
    let (mut worst, mut sum, mut solved) = (0.0_f64, 0.0, 0);
    let jobs = family(name);
    for Known {
        name: title,
        job,
        optimum,
        relaxation,
    } in &jobs
    {
        let start = Instant::now();
        let plan = plan(job, &Budget::default()).expect("a plan");
        let seconds = start.elapsed().as_secs_f64();
        let known = relaxation.map_or("-".to_owned(), |value| format!("{value:.6}"));
        println!(
            "  {title:22} {:8.1} ms  cost {} (known {optimum})  bound {}  fractional {:.6} (known {known})  {}  \
             {} layouts of {} bars  {:?} {:?}",
            seconds * 1e3,
            plan.cost.cents(),
            plan.bound.cents(),
            plan.relaxation,
            if plan.proven { "proven" } else { "OPEN" },
            plan.layouts.len(),
            plan.bars(),
            plan.work,
            plan.caps,
        );
        solved += usize::from(plan.proven && plan.cost.cents() == f64::from(*optimum));
        worst = worst.max(seconds);
        sum += seconds;
    }
    println!(
        "{name}: {solved} of {} proven at the known optimum, {sum:.3} s in all, {worst:.3} s at most",
        jobs.len()
    );
}

/// Builders' jobs with many kinds of pieces.
fn rising(kinds: u32) {
    let (mut worst, mut sum, mut open) = (0.0_f64, 0.0, 0);
    for seed in 0..30 {
        let job = planks(1_000 + seed, kinds);
        let start = Instant::now();
        let plan = plan(&job, &Budget::default()).expect("a plan");
        let seconds = start.elapsed().as_secs_f64();
        if !plan.proven {
            println!(
                "  {kinds} kinds, seed {seed}: open, gap {:.4} %, {:?}, {:?}",
                plan.gap().percent(),
                plan.caps,
                plan.work
            );
            open += 1;
        }
        worst = worst.max(seconds);
        sum += seconds;
    }
    println!("{kinds} kinds, 30 jobs: {open} open, {sum:.3} s in all, {worst:.3} s at most");
}

/// The plank jobs by both.
fn beside_highs() {
    let mut jobs: Vec<(String, Job)> = (family("own_plank_jobs").into_iter())
        .map(|known| (known.name, known.job))
        .collect();
    for seed in 0..12 {
        jobs.push((format!("random 12 kinds {seed}"), planks(seed, 12)));
    }
    let list: Vec<Job> = jobs.iter().map(|(_, job)| job.clone()).collect();
    let theirs = by_highs(&list, MOST_SECONDS);
    let (mut own_sum, mut their_sum) = (0.0, 0.0);
    let mut ratios = Vec::new();
    for ((name, job), (answer, seconds)) in jobs.iter().zip(theirs) {
        let mut own = f64::INFINITY;
        let mut found = None;
        for _ in 0..RUNS {
            let start = Instant::now();
            found = Some(plan(job, &Budget::default()).expect("a plan"));
            own = own.min(start.elapsed().as_secs_f64());
        }
        let found = found.expect("a run");
        let agree = match answer {
            Answer::Cost(cost) if (cost - found.cost.cents()).abs() < 0.03 => "agree",
            Answer::Open => "HiGHS not done",
            _ => "DIFFER",
        };
        println!(
            "  {name:22} engine {:8.3} ms {}  HiGHS {:10.1} ms  ratio {:8.0}  {agree} {:?}",
            own * 1e3,
            if found.proven { "proven" } else { "OPEN" },
            seconds * 1e3,
            seconds / own,
            found.cost.cents(),
        );
        own_sum += own;
        their_sum += seconds;
        ratios.push(seconds / own);
    }
    ratios.sort_by(f64::total_cmp);
    println!(
        "side by side: engine {:.1} ms, HiGHS {:.1} ms, ratio {:.0}; of each: least {:.0}, median {:.0}, greatest {:.0}",
        own_sum * 1e3,
        their_sum * 1e3,
        their_sum / own_sum,
        ratios[0],
        ratios[ratios.len() / 2],
        ratios[ratios.len() - 1],
    );
}
