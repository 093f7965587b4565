//! `balance` against brute force: sums of forces and moments about arbitrary points, every state
//! tried, every place tried.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod towing;

use proptest::prelude::*;
use towing::{kg, m, share};
use wainwright_engines::balance::*;
use wainwright_units::frame::{Point, Vector};
use wainwright_units::*;

fn chassis() -> impl Strategy<Value = Chassis> {
    (1.5..5.0, 1.0..2.2).prop_map(|(length, track)| Chassis {
        coupling_to_axle: m(length),
        track: m(track),
        suspension: Suspension::Single,
    })
}

fn load() -> impl Strategy<Value = Load> {
    let place = (0.0..6.0, -0.9..0.9, 0.2..2.0);
    let size = (0.0..3.0, 0.0..1.8, 0.0..2.0);
    (1.0..300.0, place, size).prop_map(|(mass, (x, y, z), (a, b, c))| Load {
        mass: kg(mass),
        centre: Point::from_metres(x, y, z),
        extent: Vector::from_metres(a, b, c),
    })
}

fn loads() -> impl Strategy<Value = Vec<Load>> {
    prop::collection::vec(load(), 1..8)
}

/// Up to five things with one to three states each, places and masses alike; some are not there in
/// a state.
fn varying() -> impl Strategy<Value = Vec<Varying>> {
    let state = (load(), prop::bool::weighted(0.7)).prop_map(|(load, there)| Load {
        mass: if there { load.mass } else { Mass::ZERO },
        ..load
    });
    let thing = prop::collection::vec(state, 1..4).prop_map(|states| Varying { states });
    prop::collection::vec(thing, 0..6)
}

/// Every combination, counted as the digits of a number.
fn all(fixed: &[Load], varying: &[Varying]) -> Vec<Vec<Load>> {
    let mut found = vec![fixed.to_vec()];
    for thing in varying {
        found = found
            .into_iter()
            .flat_map(|before| {
                thing.states.iter().map(move |state| {
                    let mut with = before.clone();
                    with.push(*state);
                    with
                })
            })
            .collect();
    }
    found
}

/// Tongue and mass \[kg\] by moments about the axle.
fn tongue_and_mass(chassis: &Chassis, loads: &[Load]) -> (f64, f64) {
    let length = chassis.coupling_to_axle.metres();
    let moment: f64 = loads
        .iter()
        .map(|load| load.mass.kilograms() * (length - load.centre.x.metres()))
        .sum();
    let mass: f64 = loads.iter().map(|load| load.mass.kilograms()).sum();
    (moment / length, mass)
}

proptest! {
    /// The three supports carry the loads: no force and no moment is left about any point.
    #[test]
    fn supports_carry_the_loads(
        chassis in chassis(), loads in loads(), x in -3.0..9.0_f64, y in -3.0..3.0_f64,
    ) {
        let found = statics(&chassis, &loads).unwrap();
        let (axle, side) = (chassis.coupling_to_axle.metres(), 0.5 * chassis.track.metres());
        let supports = [
            (found.tongue.kilograms(), 0.0, 0.0),
            (found.left.kilograms(), axle, side),
            (found.right.kilograms(), axle, -side),
        ];
        let (mut force, mut pitch, mut roll) = (0.0, 0.0, 0.0);
        for (up, at, left) in supports {
            force += up;
            pitch += up * (at - x);
            roll += up * (left - y);
        }
        for load in &loads {
            let down = load.mass.kilograms();
            force -= down;
            pitch -= down * (load.centre.x.metres() - x);
            roll -= down * (load.centre.y.metres() - y);
        }
        for left_over in [force, pitch, roll] {
            prop_assert!(left_over.abs() < 1e-8, "{left_over}");
        }
    }

    /// Yaw inertia of boxes by the two-point rule of Gauss in each direction, which is exact for
    /// squares.
    #[test]
    fn yaw_inertia_point_by_point(chassis in chassis(), loads in loads()) {
        let found = statics(&chassis, &loads).unwrap();
        let mut sum = 0.0;
        for load in &loads {
            for (a, b) in [(1.0, 1.0), (1.0, -1.0), (-1.0, 1.0), (-1.0, -1.0)] {
                let part = 0.5 / 3.0_f64.sqrt();
                let x = load.centre.x.metres() + a * part * load.extent.x.metres();
                let y = load.centre.y.metres() + b * part * load.extent.y.metres();
                let (dx, dy) = (x - found.centre.x.metres(), y - found.centre.y.metres());
                sum += 0.25 * load.mass.kilograms() * (dx * dx + dy * dy);
            }
        }
        prop_assert!((sum / found.yaw_inertia_kg_m2 - 1.0).abs() < 1e-9);
    }

    /// Tilted, every load turned about the wheel centre by itself.
    #[test]
    fn tilted_item_by_item(
        chassis in chassis(), loads in loads(), degrees in -20.0..20.0_f64, radius in 0.2..0.4_f64,
        coupling in 0.3..0.6_f64,
    ) {
        let level = statics(&chassis, &loads).unwrap();
        let heights = Heights { wheel_radius: m(radius), coupling_when_level: m(coupling) };
        let tilt = Angle::from_degrees(degrees);
        let found = at_attitude(&chassis, &level, &heights, tilt).unwrap();
        let (sin, cos) = tilt.radians().sin_cos();
        // How far ahead of the wheel centre a point is once turned, and how high.
        let ahead = |x: f64, z: f64| {
            (chassis.coupling_to_axle.metres() - x) * cos - (z - radius) * sin
        };
        let moment: f64 = loads
            .iter()
            .map(|load| load.mass.kilograms() * ahead(load.centre.x.metres(), load.centre.z.metres()))
            .sum();
        let tongue = moment / ahead(0.0, coupling);
        prop_assert!((found.tongue.kilograms() - tongue).abs() < 1e-8);
        let height = radius + chassis.coupling_to_axle.metres() * sin + (coupling - radius) * cos;
        let back = nose_up_at(&chassis, &heights, m(height)).unwrap();
        prop_assert!((back.degrees() - degrees).abs() < 1e-9);
        let more = at_attitude(&chassis, &level, &heights, Angle::from_degrees(degrees + 1e-4)).unwrap();
        let slope = (more.tongue - found.tongue).kilograms() / 1e-4;
        prop_assert!((slope - found.tongue_per_degree.kilograms()).abs() < 1e-3 * (1.0 + slope.abs()));
    }

    /// Two springs under a tilted floor: their difference and the moment about the ball fix the
    /// tongue.
    #[test]
    fn independent_axles_as_springs(
        chassis in chassis(), loads in loads(), degrees in -2.0..2.0_f64, rate in 50e3..300e3_f64,
        spacing in 0.7..1.0_f64,
    ) {
        let chassis = Chassis {
            suspension: Suspension::Independent { spacing: m(spacing), newtons_per_metre: rate },
            ..chassis
        };
        let level = statics(&chassis, &loads).unwrap();
        // Coupling and centre at wheel height: the springs alone act.
        let heights = Heights { wheel_radius: level.centre.z, coupling_when_level: level.centre.z };
        let found = at_attitude(&chassis, &level, &heights, Angle::from_degrees(degrees)).unwrap();
        let (front, rear) = (found.axles[0].kilograms(), found.axles[1].kilograms());
        let squeeze = rate * spacing * degrees.to_radians() / STANDARD_GRAVITY;
        let (length, mass) = (chassis.coupling_to_axle.metres(), level.mass.kilograms());
        let moment = front * (length - 0.5 * spacing) + rear * (length + 0.5 * spacing)
            - mass * level.centre.x.metres();
        prop_assert!((rear - front - squeeze).abs() < 1e-7);
        prop_assert!(moment.abs() < 1e-7, "{moment}");
        prop_assert!((found.tongue.kilograms() + front + rear - mass).abs() < 1e-8);
    }

    /// Car and trailer as two bodies: forces and moments of each close, distribution torque and all.
    #[test]
    fn hitch_body_by_body(
        tongue in 0.0..400.0_f64, torque in 0.0..4000.0_f64, length in 2.0..6.0_f64,
        base in 2.3..3.8_f64, over in 0.7..1.6_f64,
    ) {
        let vehicle = TowVehicle {
            wheelbase: m(base), overhang: m(over), front: kg(1000.0), rear: kg(1000.0), aboard: kg(0.0),
        };
        let found =
            hitch_up(&vehicle, kg(tongue), m(length), Torque::from_newton_metres(torque)).unwrap();
        let moment = torque / STANDARD_GRAVITY;
        let (front, rear) = (found.front_change.kilograms(), found.rear_change.kilograms());
        let (axle, ball) = (found.trailer_axle_change.kilograms(), found.ball.kilograms());
        // Car about its ball: the bars lift the tail, so they load the front axle.
        let car = front * (base + over) + rear * over - moment;
        // Trailer about the ball: the bars press its axle down; its tongue was balanced before.
        let trailer = axle * length - moment;
        for left_over in [front + rear - ball, car, trailer, axle + ball - tongue] {
            prop_assert!(left_over.abs() < 1e-8, "{left_over}");
        }
    }

    /// The worst cases are the worst of every combination tried one by one.
    #[test]
    fn worst_of_all_states(chassis in chassis(), fixed in loads(), varying in varying()) {
        let found = extremes(&chassis, &fixed, &varying).unwrap();
        let states = all(&fixed, &varying);
        let listed = every_state(&chassis, &fixed, &varying).unwrap();
        prop_assert_eq!(listed.len(), states.len());
        let (mut low, mut high, mut mass) = (f64::MAX, f64::MIN, 0.0_f64);
        let (mut least, mut most) = (f64::MAX, f64::MIN);
        let (mut left, mut right, mut axle) = (f64::MIN, f64::MIN, f64::MIN);
        for (state, case) in states.iter().zip(&listed) {
            let (tongue, all) = tongue_and_mass(&chassis, state);
            prop_assert!((case.statics.tongue.kilograms() - tongue).abs() < 1e-8);
            (low, high) = (low.min(tongue / all), high.max(tongue / all));
            (least, most, mass) = (least.min(tongue), most.max(tongue), mass.max(all));
            axle = axle.max(all - tongue);
            let moment: f64 =
                state.iter().map(|load| load.mass.kilograms() * load.centre.y.metres()).sum();
            let half = 0.5 * (all - tongue);
            left = left.max(half + moment / chassis.track.metres());
            right = right.max(half - moment / chassis.track.metres());
        }
        for (case, expected) in [
            (found.lowest_share.statics.share.fraction(), low),
            (found.highest_share.statics.share.fraction(), high),
            (found.least_tongue.statics.tongue.kilograms(), least),
            (found.most_tongue.statics.tongue.kilograms(), most),
            (found.most_mass.statics.mass.kilograms(), mass),
            (found.most_axle.statics.axle.kilograms(), axle),
            (found.most_left.statics.left.kilograms(), left),
            (found.most_right.statics.right.kilograms(), right),
        ] {
            prop_assert!((case - expected).abs() < 1e-8, "{case} {expected}");
        }
    }

    /// The closed interval for an item is where every state, tried one by one, stays in the band.
    #[test]
    fn interval_by_trying(
        chassis in chassis(), fixed in loads(), varying in varying(), full in 5.0..300.0_f64,
        empty in prop_oneof![Just(0.0), 1.0..50.0_f64], low in -0.1..0.2_f64, width in 0.0..0.6_f64,
    ) {
        let band = Band { low: share(low), high: share(low + width) };
        let floor = Interval { front: m(0.5), rear: m(5.5) };
        let item = Movable { masses: vec![kg(empty), kg(full)], floor };
        let found = allowed_along_floor(&chassis, &fixed, &varying, &item, band).unwrap();
        let states = all(&fixed, &varying);
        for step in 0..=50 {
            let x = 0.5 + 0.1 * f64::from(step);
            let within = states.iter().all(|state| {
                item.masses.iter().all(|mass| {
                    let mut with = state.clone();
                    with.push(Load::point(*mass, Point::from_metres(x, 0.0, 0.0)));
                    let (tongue, all) = tongue_and_mass(&chassis, &with);
                    (low..=low + width).contains(&(tongue / all))
                })
            });
            let inside = found
                .on_floor
                .is_some_and(|part| (part.front.metres()..=part.rear.metres()).contains(&x));
            let at_an_end = found.anywhere.is_some_and(|part| {
                (x - part.front.metres()).abs() < 1e-6 || (x - part.rear.metres()).abs() < 1e-6
            });
            prop_assert!(within == inside || at_an_end, "{x}: {found:?}");
        }
    }
}
