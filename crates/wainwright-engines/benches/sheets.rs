//! How long the sheet engine takes: every plate and every job of the test data, and made-up jobs
//! of builders, once each. Run with `cargo bench --bench sheets`.

#![allow(
    clippy::unwrap_used,
    reason = "a bench that cannot read its data has nothing to measure"
)]

#[path = "../tests/cutting_jobs/mod.rs"]
mod cutting_jobs;

use std::time::Instant;
use wainwright_engines::sheets::{best_of_one, cut, rip_choice};

fn main() {
    for plate in cutting_jobs::plates() {
        for (index, optimum) in plate.optima.iter().enumerate() {
            let Some(optimum) = optimum else { continue };
            let start = Instant::now();
            let found = best_of_one(&plate.question(index >= 2, index % 2 == 1)).unwrap();
            let ms = start.elapsed().as_secs_f64() * 1000.0;
            let right = found.value == *optimum && found.at_most == *optimum;
            println!(
                "{:8} {index} {ms:9.1} ms  {} of {optimum} at most {} blocks {} {}",
                plate.name,
                found.value,
                found.at_most,
                found.blocks,
                if right { "" } else { "WRONG" }
            );
        }
    }
    for listed in cutting_jobs::jobs() {
        let start = Instant::now();
        let plan = cut(&listed.job).unwrap();
        let ms = start.elapsed().as_secs_f64() * 1000.0;
        println!(
            "{:16} {ms:9.1} ms  price {} at least {} listed {} {:?} {:?} {:?}",
            listed.name,
            plan.price,
            plan.at_least,
            listed.optimum,
            plan.proof,
            plan.count,
            plan.caps
        );
        let start = Instant::now();
        let choice = rip_choice(&listed.job).unwrap();
        let ms = start.elapsed().as_secs_f64() * 1000.0;
        println!(
            "{:16} {ms:9.1} ms  without rips: {:?}",
            "", choice.without_rips.proof
        );
    }
    for number in 0..15 {
        let mut job = cutting_jobs::made_up(number);
        if number == 12 || number == 13 {
            // A whole house full.
            job.pieces.iter_mut().for_each(|piece| piece.wanted *= 12);
        }
        if number == 14 {
            job = cutting_jobs::at_the_caps();
        }
        let pieces: u32 = job.pieces.iter().map(|piece| piece.wanted).sum();
        let start = Instant::now();
        let plan = cut(&job).unwrap();
        let ms = start.elapsed().as_secs_f64() * 1000.0;
        println!(
            "made up {number:2}: {} kinds {pieces} pieces {} stocks {ms:9.1} ms  price {} at least {} {:?} {:?} missing {}",
            job.pieces.len(),
            job.sheets.len(),
            plan.price,
            plan.at_least,
            plan.proof,
            plan.caps,
            plan.missing.iter().sum::<u32>()
        );
    }
}
