//! Opening bands against what the standards promise at their gates, and by hand between them.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod fuses;
mod wires;

use fuses::{curve, large_blade, medium_blade};
use wainwright_engines::protection::*;
use wires::{close, seconds};

/// At each gate the band is what is published there, exactly.
#[test]
fn published_at_the_gates() {
    for (multiple, earliest, latest) in [
        (1.35, 0.75, 600.0),
        (1.60, 0.25, 50.0),
        (2.0, 0.15, 5.0),
        (3.5, 0.04, 0.5),
        (6.0, 0.02, 0.1),
    ] {
        let band = medium_blade().band(multiple);
        assert_eq!(band.earliest, Some(seconds(earliest)));
        assert_eq!(band.latest, Some(seconds(latest)));
    }
}

/// Nothing is promised between 1.10 and 1.35 times the rating, and nothing opens below 1.10.
#[test]
fn no_promise_below_the_lowest_gate() {
    let fuse = medium_blade();
    for multiple in [0.0, 0.5, 1.0, 1.0999] {
        assert_eq!(fuse.band(multiple), Band::default());
    }
    for multiple in [1.10, 1.2, 1.3, 1.3499] {
        let band = fuse.band(multiple);
        assert!(
            band.earliest.is_some() && band.latest.is_none(),
            "{multiple}"
        );
    }
    assert_eq!(fuse.opens_from(), Some(1.35));
    assert_eq!(fuse.carries(), Some(1.10));
    assert_eq!(fuse.band(f64::NAN), Band::default());
    assert_eq!(OpeningCurve::default().band(10.0), Band::default());
}

/// By hand between 2.0 and 3.5 at √(2 · 3.5): halfway in logarithms, so the geometric mean of the times,
/// √(0.15 · 0.04) and √(5 · 0.5). Rounding only.
#[test]
fn halfway_between_gates() {
    let band = medium_blade().band((2.0_f64 * 3.5).sqrt());
    assert!(close(
        band.earliest.unwrap().seconds(),
        (0.15_f64 * 0.04).sqrt(),
        1e-12
    ));
    assert!(close(
        band.latest.unwrap().seconds(),
        (5.0_f64 * 0.5).sqrt(),
        1e-12
    ));
}

/// Above the last gate: at twice its current a quarter of its earliest time, and its latest time.
#[test]
fn above_the_last_gate() {
    let band = medium_blade().band(12.0);
    assert!(close(band.earliest.unwrap().seconds(), 0.02 / 4.0, 1e-12));
    assert_eq!(band.latest, Some(seconds(0.1)));
}

/// More current never opens later, and earliest never comes after latest.
#[test]
fn falls_with_current() {
    for fuse in [medium_blade(), large_blade()] {
        fuse.check().unwrap();
        let (mut low, mut high) = (f64::INFINITY, f64::INFINITY);
        for step in 0..2000 {
            let band = fuse.band(1.1 * 1.002_f64.powi(step));
            let earliest = band.earliest.unwrap().seconds();
            let latest = band.latest.map_or(f64::INFINITY, |latest| latest.seconds());
            assert!(
                earliest <= low * (1.0 + 1e-12)
                    && latest <= high * (1.0 + 1e-12)
                    && earliest <= latest
            );
            (low, high) = (earliest, latest);
        }
    }
}

/// UL 248-14: 135 % within an hour, 200 % within 2 min, no earliest times: it may open at once there,
/// and nothing upstream of it may be called selective on its account.
#[test]
fn gates_without_earliest_times() {
    let fuse = curve(&[(1.0, -1.0, -1.0), (1.35, -1.0, 3600.0), (2.0, -1.0, 120.0)]);
    fuse.check().unwrap();
    assert_eq!(fuse.band(1.6).earliest, Some(seconds(0.0)));
    assert_eq!(fuse.band(5.0).earliest, Some(seconds(0.0)));
    assert_eq!(fuse.band(5.0).latest, Some(seconds(120.0)));
    assert!(!provably_selective(
        medium_blade().band(6.0),
        fuse.band(2.0)
    ));
}

/// 15 A medium blade behind a 60 A large blade. At 123 A (8.2 and 2.05 times the rating) at most 0.1 s
/// against about 1.8 s: selective. At 600 A (10 times the large one's rating) the gates prove nothing.
#[test]
fn blades_in_series() {
    let bands = |amps: f64| {
        (
            medium_blade().band(amps / 15.0),
            large_blade().band(amps / 60.0),
        )
    };
    let (near, upstream) = bands(123.0);
    assert_eq!(near.latest, Some(seconds(0.1)));
    assert!((1.7..2.0).contains(&upstream.earliest.unwrap().seconds()));
    assert!(provably_selective(near, upstream));
    assert!(!provably_selective(upstream, near));
    let (near, upstream) = bands(600.0);
    assert!(!provably_selective(near, upstream));
    // A device that does not open at this current is selective with anything that does.
    assert!(provably_selective(
        medium_blade().band(3.0),
        Band::default()
    ));
    assert!(!provably_selective(Band::default(), Band::default()));
}

/// Gates that cannot be are refused, with their place.
#[test]
fn impossible_curves() {
    let at = |gates: &[(f64, f64, f64)]| curve(gates).check().unwrap_err().gate;
    assert_eq!(at(&[(1.35, 1.0, 600.0), (1.35, 0.5, 50.0)]), 1);
    assert_eq!(at(&[(1.35, 1.0, 600.0), (2.0, 2.0, 50.0)]), 1);
    assert_eq!(at(&[(1.35, 1.0, 600.0), (2.0, 0.5, 700.0)]), 1);
    assert_eq!(at(&[(1.35, 700.0, 600.0)]), 0);
    assert_eq!(at(&[(-1.0, 1.0, 600.0)]), 0);
}
