//! A study of one outfit (mid-size car, driver only, measured inertia; 900 kg trailer) against
//! `sway`: what each change does to damping and to the speed where it is gone. All values computed
//! once outside this program by another model; ζ to 0.0006 and speeds to 0.6 km/h, half a printed
//! digit and a little.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod towing;

use towing::{Study, near};
use wainwright_engines::sway::*;

const BASE: Study = Study::BASE;
/// Highest speed of the study [km/h].
const TOP: f64 = 320.0;

fn damping(study: Study, kilometres_per_hour: f64) -> f64 {
    let found = motion(&study.rig(), kilometres_per_hour / 3.6).unwrap();
    found.sway.unwrap().damping.fraction()
}

#[track_caller]
fn gone_at(study: Study, kilometres_per_hour: Option<f64>) {
    let found = zero_damping_speed(&study.rig(), 40.0 / 3.6, TOP / 3.6).unwrap();
    match (found, kilometres_per_hour) {
        (Onset::NotInRange, None) => {}
        (
            Onset::At {
                metres_per_second, ..
            },
            Some(expected),
        ) => near(metres_per_second * 3.6, expected, 0.6),
        other => panic!("{study:?}: {other:?}"),
    }
}

#[track_caller]
fn row(study: Study, gone: Option<f64>, at_80: f64, at_100: f64) {
    near(damping(study, 80.0), at_80, 6e-4);
    near(damping(study, 100.0), at_100, 6e-4);
    gone_at(study, gone);
}

/// Axle stiffnesses and lengths of the outfit (computed): half a printed digit.
#[test]
fn outfit_of_the_study() {
    let rig = BASE.rig();
    near(rig.car.front.newtons_per_radian, 66_813.0, 0.5);
    near(rig.car.rear.newtons_per_radian, 88_582.0, 0.5);
    near(rig.trailer.axles[0].tyres.newtons_per_radian, 68_268.0, 0.5);
    near(rig.trailer.ball_to_centre.metres(), 2.610, 5e-4);
    near(rig.car.centre_to_ball.metres(), 2.682, 5e-4);
    near(rig.trailer.yaw_inertia_kg_m2, 1089.0, 0.5);
}

#[test]
fn base_outfit() {
    for (speed, expected) in [(60.0, 0.399), (80.0, 0.291), (100.0, 0.227), (120.0, 0.186)] {
        near(damping(BASE, speed), expected, 6e-4);
    }
    let found = motion(&BASE.rig(), 100.0 / 3.6).unwrap();
    near(found.roots[0].re, -1.0841, 6e-5);
    near(found.roots[0].im, 4.6440, 6e-5);
    near(found.roots[2].re, -2.8583, 6e-5);
    near(found.roots[2].im, 2.7120, 6e-5);
}

#[test]
fn tongue_share() {
    for (tongue_share, gone, at_80, at_100) in [
        (-0.05, Some(110.0), 0.103, 0.029),
        (0.0, Some(152.0), 0.170, 0.100),
        (0.02, Some(184.0), 0.196, 0.128),
        (0.05, Some(304.0), 0.233, 0.168),
        (0.07, None, 0.257, 0.193),
        (0.10, None, 0.291, 0.227),
        (0.15, None, 0.336, 0.268),
    ] {
        let study = Study {
            tongue_share,
            ..BASE
        };
        row(study, gone, at_80, at_100);
    }
}

#[test]
fn yaw_radius() {
    for (radius, gone, at_80, at_100) in [
        (1.3, 298.0, 0.229, 0.164),
        (1.5, 154.0, 0.167, 0.099),
        (1.8, 103.0, 0.080, 0.009),
    ] {
        row(Study { radius, ..BASE }, Some(gone), at_80, at_100);
    }
    for (tongue_share, gone, at_80, at_100) in [
        (0.0, 97.0, 0.065, -0.009),
        (0.05, 119.0, 0.118, 0.047),
        (0.10, 154.0, 0.167, 0.099),
        (0.15, 236.0, 0.211, 0.147),
    ] {
        let study = Study {
            radius: 1.5,
            tongue_share,
            ..BASE
        };
        row(study, Some(gone), at_80, at_100);
    }
}

#[test]
fn mass_and_length() {
    for (trailer, at_80, at_100) in [
        (500.0, 0.310, 0.245),
        (900.0, 0.291, 0.227),
        (1600.0, 0.266, 0.203),
        (2000.0, 0.255, 0.192),
    ] {
        row(Study { trailer, ..BASE }, None, at_80, at_100);
    }
    for (length, at_80, at_100) in [
        (2.3, 0.193, 0.139),
        (2.6, 0.244, 0.186),
        (3.3, 0.348, 0.277),
        (3.8, 0.412, 0.330),
    ] {
        row(Study { length, ..BASE }, None, at_80, at_100);
    }
    for (overhang, at_80, at_100) in [(0.8, 0.297, 0.232), (1.5, 0.286, 0.223)] {
        row(Study { overhang, ..BASE }, None, at_80, at_100);
    }
    for (radius, gone, at_80, at_100) in [
        (1.4, None, 0.336, 0.259),
        (1.8, Some(139.0), 0.185, 0.101),
        (2.2, Some(92.0), 0.055, -0.032),
    ] {
        let large = Study {
            trailer: 1600.0,
            length: 4.0,
            radius,
            ..BASE
        };
        row(large, gone, at_80, at_100);
    }
}

#[test]
fn tyres() {
    for (per_cent, gone, at_80, at_100) in [
        (8.0, Some(186.0), 0.174, 0.115),
        (10.0, Some(266.0), 0.208, 0.148),
        (12.0, None, 0.242, 0.180),
        (19.0, None, 0.354, 0.285),
    ] {
        let study = Study {
            trailer_per_degree: per_cent / 100.0,
            ..BASE
        };
        row(study, gone, at_80, at_100);
    }
    let lag = Study {
        relaxation: 0.5,
        ..BASE
    };
    row(lag, None, 0.239, 0.185);
    let poor = Study {
        radius: 1.5,
        tongue_share: 0.05,
        ..lag
    };
    row(poor, Some(104.0), 0.071, 0.010);
}

/// And the change that a damper makes, as a difference of two rigs.
#[test]
fn hitch_damper() {
    let poor = Study {
        radius: 1.5,
        tongue_share: 0.02,
        ..BASE
    };
    for (damper, gone, at_100) in [
        (0.0, 105.0, 0.014),
        (500.0, 117.0, 0.047),
        (1000.0, 131.0, 0.079),
    ] {
        let study = Study { damper, ..poor };
        near(damping(study, 100.0), at_100, 6e-4);
        gone_at(study, Some(gone));
        let change = damping_change(&poor.rig(), &study.rig(), 100.0 / 3.6).unwrap();
        near(change.change.unwrap(), at_100 - 0.014, 1.2e-3);
    }
}

/// Zero damping by bisection of the Routh–Hurwitz conditions: 29.087952 m/s (computed) for the
/// outfit with yaw radius 1.5 m and a share of 2 %. 1e-6: the printed digits.
#[test]
fn routh_hurwitz() {
    let poor = Study {
        radius: 1.5,
        tongue_share: 0.02,
        ..BASE
    };
    let found = zero_damping_speed(&poor.rig(), 10.0, 60.0).unwrap();
    let Onset::At {
        metres_per_second, ..
    } = found
    else {
        panic!("{found:?}");
    };
    near(metres_per_second, 29.087_952, 1e-6);
}
