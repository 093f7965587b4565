//! Drawn days against the printed chances, counted.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod rows;

use rows::chains;
use wainwright_engines::weather::*;

/// 200,000 days of each chain: the share of each state in the long run, and the lag of one day,
/// are those of the printed matrix. Five standard errors of correlated days.
#[test]
fn drawn_days_visit_states_as_printed() {
    for (number, chain) in chains().iter().enumerate() {
        let mut random = Randomness::new(8, number as u64);
        let width = (chain.highest - chain.lowest) / 10.0;
        let mut present = (chain.lowest + chain.highest) / 2.0;
        let mut visits = [0.0_f64; 10];
        let count = 200_000;
        for _ in 0..count {
            present = chain.next(present, random.uniform());
            assert!(present >= chain.lowest && present <= chain.highest + 1e-12);
            visits[(((present - chain.lowest) / width) as usize).min(9)] += 1.0;
        }
        for (seen, expected) in visits.into_iter().zip(chain.stationary()) {
            let share = seen / f64::from(count);
            // Days remember: up to three days count as one.
            let error = (3.0 * expected * (1.0 - expected) / f64::from(count)).sqrt();
            assert!(
                (share - expected).abs() <= 5.0 * error,
                "{number} {share} {expected}"
            );
        }
    }
}

/// From every state, the next one comes with the printed chance: 20,000 draws each, five errors.
#[test]
fn each_row_is_drawn_as_printed() {
    let mut random = Randomness::new(12, 0);
    for chain in chains() {
        let width = (chain.highest - chain.lowest) / 10.0;
        for (from, row) in chain.rows.iter().enumerate() {
            let present = chain.lowest + width * (from as f64 + 0.5);
            let mut seen = [0.0_f64; 10];
            for _ in 0..20_000 {
                let next = chain.next(present, random.uniform());
                seen[(((next - chain.lowest) / width) as usize).min(9)] += 1.0;
            }
            let sum: f64 = row.iter().sum();
            for (count, share) in seen.into_iter().zip(row) {
                let expected = share / sum;
                let error = (expected * (1.0 - expected) / 20_000.0).sqrt();
                assert!((count / 20_000.0 - expected).abs() <= 5.0 * error + 1e-9);
            }
        }
    }
}
