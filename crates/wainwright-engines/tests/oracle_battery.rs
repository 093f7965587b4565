//! Currents by halving an interval instead of by the closed equation, at random.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod campers;

use campers::{celsius, lossless, share, watts};
use proptest::prelude::*;
use wainwright_engines::battery::*;
use wainwright_units::*;

/// The current at which a rising function reaches a power, by halving.
fn halve(mut low: f64, mut high: f64, power: f64, at: impl Fn(f64) -> f64) -> f64 {
    for _ in 0..200 {
        let middle = (low + high) / 2.0;
        if at(middle) < power {
            low = middle;
        } else {
            high = middle;
        }
    }
    (low + high) / 2.0
}

proptest! {
    #[test]
    fn currents_solve_the_circuit(
        open in 5.0..60.0, milliohms in 0.1..200.0, share_of_most in 0.0..0.99,
    ) {
        let curve = [(0.5, open)];
        let pack = Pack {
            open: Curve::new(&curve),
            connections: Resistance::from_milliohms(milliohms),
            ..lossless(1e6)
        };
        let ohms = milliohms / 1000.0;
        let most = open * open / (4.0 * ohms);
        let power = share_of_most * most;
        let tick = Duration::from_seconds(1.0);
        let half = share(0.5);
        let out = discharge(&pack, half, celsius(20.0), watts(power), tick, Limits::NONE);
        let expected = halve(0.0, open / (2.0 * ohms), power, |i| i * (open - i * ohms));
        prop_assert!((-out.current.amperes() - expected).abs() < 1e-6 * (1.0 + expected));
        let put = charge(&pack, half, celsius(20.0), watts(power), tick, Limits::NONE);
        let expected = halve(0.0, 10.0 * most / open, power, |i| i * (open + i * ohms));
        prop_assert!((put.current.amperes() - expected).abs() < 1e-6 * (1.0 + expected));
        let beyond = discharge(&pack, half, celsius(20.0), watts(1.01 * most), tick, Limits::NONE);
        prop_assert_eq!(beyond.flowed, Ratio::ZERO);
    }

    /// The area under a curve is the sum of many thin strips, and a curve finds its own points.
    #[test]
    fn curves_are_their_strips(
        steps in prop::collection::vec((0.01..1.0, 0.01..1.0), 2..12), from in 0.0..3.0, to in 0.0..3.0,
    ) {
        let mut at = (0.0, 2.0);
        let points: Vec<(f64, f64)> = steps
            .into_iter()
            .map(|(x, y)| {
                at = (at.0 + x, at.1 + y);
                at
            })
            .collect();
        let curve = Curve::new(&points);
        let strips = 20_000;
        let width: f64 = (to - from) / f64::from(strips);
        let sum: f64 = (0..strips)
            .map(|strip| curve.at(from + (f64::from(strip) + 0.5) * width) * width)
            .sum();
        prop_assert!((curve.area(from, to) - sum).abs() < 1e-4);
        for (x, y) in &points {
            prop_assert!((curve.at(*x) - y).abs() < 1e-9);
            prop_assert!((curve.reaches(*y).unwrap() - x).abs() < 1e-9);
        }
    }
}
