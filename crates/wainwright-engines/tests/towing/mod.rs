//! Short names for the tests of weight and towing, and the study outfit of the sway proofs.
#![allow(dead_code, reason = "each test file uses its part")]

use wainwright_engines::sway::{Axle, Car, Rig, Trailer, TrailerAxle, cornering_stiffness};
use wainwright_units::*;

pub fn kg(value: f64) -> Mass {
    Mass::from_kilograms(value)
}

pub fn lb(value: f64) -> Mass {
    Mass::from_pounds(value)
}

pub fn m(value: f64) -> Length {
    Length::from_metres(value)
}

pub fn inches(value: f64) -> Length {
    Length::from_inches(value)
}

pub fn share(value: f64) -> Ratio {
    Ratio::from_fraction(value)
}

/// Fails unless two numbers agree within an absolute tolerance.
#[track_caller]
pub fn near(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "found {found}, expected {expected} ± {tolerance}"
    );
}

/// A mid-size car, driver only, and a small trailer; what the study varies.
#[derive(Debug, Clone, Copy)]
pub struct Study {
    pub trailer: f64,
    pub length: f64,
    pub tongue_share: f64,
    pub radius: f64,
    pub overhang: f64,
    pub trailer_per_degree: f64,
    pub relaxation: f64,
    pub damper: f64,
}

impl Study {
    pub const BASE: Study = Study {
        trailer: 900.0,
        length: 2.9,
        tongue_share: 0.10,
        radius: 1.10,
        overhang: 1.15,
        trailer_per_degree: 0.15,
        relaxation: 0.0,
        damper: 0.0,
    };

    /// Axle stiffnesses follow the axle loads, tongue load included: 15 % of the load per degree on
    /// the car, the front one times 0.75 for its steering.
    pub fn rig(&self) -> Rig {
        let (mass, base, ahead) = (2018.0, 2.827, 1.295);
        let tongue = self.trailer * self.tongue_share;
        let front = mass * (base - ahead) / base - tongue * self.overhang / base;
        let rear = mass * ahead / base + tongue * (base + self.overhang) / base;
        let axle = |load, per_degree, factor| Axle {
            newtons_per_radian: factor * cornering_stiffness(kg(load), share(per_degree)),
            relaxation: m(self.relaxation),
        };
        Rig {
            car: Car {
                mass: kg(mass),
                yaw_inertia_kg_m2: 3682.0,
                front_to_centre: m(ahead),
                centre_to_rear: m(base - ahead),
                centre_to_ball: m(base - ahead + self.overhang),
                front: axle(front, 0.15, 0.75),
                rear: axle(rear, 0.15, 1.0),
            },
            trailer: Trailer {
                mass: kg(self.trailer),
                yaw_inertia_kg_m2: self.trailer * self.radius * self.radius,
                ball_to_centre: m(self.length * (1.0 - self.tongue_share)),
                axles: vec![TrailerAxle {
                    from_ball: m(self.length),
                    tyres: axle(self.trailer - tongue, self.trailer_per_degree, 1.0),
                }],
            },
            hitch_damping: self.damper,
        }
    }
}
