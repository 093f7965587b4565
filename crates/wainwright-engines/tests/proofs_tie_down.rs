//! Published withdrawal values and worked fixings of a 35 kg battery against `tie_down`. Marks:
//! read (printed in a source), computed (worked once outside this program).
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod towing;

use towing::{inches, kg, m, near, share};
use wainwright_engines::tie_down::*;
use wainwright_units::*;

/// Newtons in a pound-force.
const POUND: f64 = 4.448_222;

/// Lag screws in side grain, National Design Specification table (read), lbf per inch: half a
/// printed unit.
#[test]
fn lag_screw_table() {
    for (gravity, diameter, printed) in [
        (0.50, 0.25, 225.0),
        (0.43, 0.3125, 212.0),
        (0.42, 0.375, 235.0),
        (0.67, 0.5, 587.0),
    ] {
        let found = lag_withdrawal(share(gravity), inches(diameter), inches(1.0)).unwrap();
        near(found.newtons() / POUND, printed, 0.5);
    }
}

/// Wood screw, G 0.45, 0.190 in: 109 lbf per inch in the same specification's table (read; the
/// equation gives 109.66, and the table drops the fraction: 0.7). A #10 in 15 mm plywood of G 0.50
/// holds nominally 356 N, 0.5 N for rounding (computed).
#[test]
fn wood_screws() {
    let one = screw_withdrawal(share(0.45), inches(0.190), inches(1.0)).unwrap();
    near(one.newtons() / POUND, 109.0, 0.7);
    let ply = screw_withdrawal(share(0.50), inches(0.190), m(0.015)).unwrap();
    near(ply.newtons(), 356.0, 0.5);
    // Half of it, four screws, against the target of 3 g: about 700 N of 1030 N.
    let asked = forces(kg(35.0), &even(3.0)).unwrap().largest;
    near(asked.newtons(), 1030.0, 0.5);
    let four = spare(asked, ply / 2.0, 4).unwrap();
    near(four.held.newtons(), 700.0, 15.0);
    assert!(four.left.newtons() < 0.0);
    assert!(four.used.fraction() > 1.0);
}

fn even(value: f64) -> Profile {
    Profile {
        forward: value,
        rearward: value,
        sideways: value,
        upward: value,
    }
}

/// A 35 kg battery, 343 N (computed): 0.435, 0.5, 0.6, 0.8 g are 149, 172, 206, 275 N; 0.2 g 69 N;
/// 10 and 20 g 3.4 and 6.9 kN; the boat pull, twice the weight up to 90 lbf, is 400 N.
#[test]
fn battery_forces() {
    for (acceleration, newtons, digit) in [
        (1.0, 343.0, 0.5),
        (0.435, 149.0, 0.5),
        (0.5, 172.0, 0.5),
        (0.6, 206.0, 0.5),
        (0.8, 275.0, 0.5),
        (0.2, 69.0, 0.5),
        (10.0, 3400.0, 50.0),
        (20.0, 6900.0, 50.0),
    ] {
        let found = forces(kg(35.0), &even(acceleration)).unwrap();
        near(found.upward.newtons(), newtons, digit);
    }
    // The federal breaking-strength profile (read): 0.8 forward, 0.5 rearward, 0.5 sideways.
    let driving = Profile {
        forward: 0.8,
        rearward: 0.5,
        sideways: 0.5,
        upward: 0.2,
    };
    let found = forces(kg(35.0), &driving).unwrap();
    near(found.forward.newtons(), 275.0, 0.5);
    near(found.sideways.newtons(), 172.0, 0.5);
    assert_eq!(found.largest, found.forward);
    let cap = Force::from_newtons(90.0 * POUND);
    near(pull_test(kg(35.0), 2.0, cap).unwrap().newtons(), 400.0, 0.5);
    near(
        pull_test(kg(10.0), 2.0, cap).unwrap().newtons(),
        196.1,
        0.05,
    );
}

/// Strap over the battery (computed): 0.8 g, friction 0.3, factor 1.25, one strap: 358 N; on a mat
/// (0.6): 72 N; sideways 0.6 g, friction 0.3, factor 1.1: 189 N. Friction alone is enough below its
/// own coefficient.
#[test]
fn battery_strap() {
    let lashing = |along, friction, safety| Lashing {
        mass: kg(35.0),
        along,
        down: 1.0,
        friction,
        straps: 1,
        angle: Angle::from_degrees(90.0),
        safety,
    };
    for (along, friction, safety, newtons) in [
        (0.8, 0.3, 1.25, 358.0),
        (0.8, 0.6, 1.25, 72.0),
        (0.6, 0.3, 1.1, 189.0),
        (0.5, 0.6, 1.25, 0.0),
    ] {
        let found = strap_tension(&lashing(along, friction, safety)).unwrap();
        near(found.newtons(), newtons, 0.6);
    }
    assert!(strap_tension(&lashing(0.8, 0.0, 1.25)).is_err());
}

/// Bolts of class 8.8, proof 580 and strength 800 N/mm² (read), shear 0.6 of the strength: M6 (20.1
/// mm²) 11.66 and 9.65 kN, M8 (36.6 mm²) 21.2 and 17.6 kN (computed).
#[test]
fn class_8_8_bolts() {
    let metal = BoltMetal {
        proof_newtons_per_mm2: 580.0,
        tensile_newtons_per_mm2: 800.0,
        shear_share: share(0.6),
    };
    for (area, proof, shear, digit) in [(20.1, 11.66, 9.65, 0.005), (36.6, 21.2, 17.6, 0.05)] {
        let found = bolt(Area::from_square_metres(area * 1e-6), &metal).unwrap();
        near(found.proof.newtons() / 1e3, proof, digit);
        near(found.shear.newtons() / 1e3, shear, digit);
    }
}

/// A box tips when the acceleration is above half its length over the height of its centre
/// (geometry).
#[test]
fn tipping() {
    near(
        tipping_acceleration(m(0.3), m(0.15), 1.0).unwrap(),
        1.0,
        1e-12,
    );
    near(
        tipping_acceleration(m(0.3), m(0.30), 0.8).unwrap(),
        0.4,
        1e-12,
    );
}

/// Nonsense is refused.
#[test]
fn refusals() {
    assert!(forces(kg(0.0), &even(1.0)).is_err());
    assert!(forces(kg(1.0), &even(-1.0)).is_err());
    assert!(lag_withdrawal(share(5.0), inches(0.25), inches(1.0)).is_err());
    assert!(spare(Force::from_newtons(1.0), Force::from_newtons(1.0), 0).is_err());
}
