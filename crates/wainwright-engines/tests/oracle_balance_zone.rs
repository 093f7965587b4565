//! Many states at once, and zones from side to side, against one state at a time and every place
//! tried.
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

fn varying() -> impl Strategy<Value = Vec<Varying>> {
    let state = (load(), prop::bool::weighted(0.7)).prop_map(|(load, there)| Load {
        mass: if there { load.mass } else { Mass::ZERO },
        ..load
    });
    let thing = prop::collection::vec(state, 1..4).prop_map(|states| Varying { states });
    prop::collection::vec(thing, 0..5)
}

fn limit(most: f64) -> impl Strategy<Value = Option<Mass>> {
    prop::option::weighted(0.8, (0.0..most).prop_map(kg))
}

/// Sides with an item at a place, in every state and with every mass of it: the largest difference
/// and the most on one side \[kg\].
fn worst_sides(
    chassis: &Chassis,
    fixed: &[Load],
    varying: &[Varying],
    masses: &[Mass],
    at: Point,
) -> (f64, f64) {
    let (mut apart, mut most) = (0.0_f64, f64::MIN);
    for mass in masses {
        let with = [fixed, &[Load::point(*mass, at)]].concat();
        for case in every_state(chassis, &with, varying).unwrap() {
            let (left, right) = (
                case.statics.left.kilograms(),
                case.statics.right.kilograms(),
            );
            apart = apart.max((left - right).abs());
            most = most.max(left.max(right));
        }
    }
    (apart, most)
}

proptest! {
    /// Every column of the table is what one state by itself gives. The inertia loses digits where
    /// the centre of gravity is far from the axle: 1e-9 of the moment about the ball.
    #[test]
    fn table_is_state_by_state(
        chassis in chassis(),
        loads in prop::collection::vec((load(), prop::collection::vec(0.0..200.0_f64, 5), any::<bool>()), 1..12),
        to in (0.0..6.0, -0.9..0.9, 0.2..2.0),
    ) {
        let mut table = LoadTable::new(5);
        let mut rows: Vec<(Load, Vec<f64>)> = Vec::new();
        for (load, masses, even) in loads {
            let masses = if even { vec![load.mass.kilograms(); 5] } else { masses };
            let given: Vec<Mass> = masses.iter().copied().map(kg).collect();
            let given = if even { &given[..1] } else { &given[..] };
            prop_assert_eq!(table.push(load.centre, load.extent, given).unwrap(), rows.len());
            rows.push((load, masses));
        }
        let moved = Point::from_metres(to.0, to.1, to.2);
        table.put(0, moved).unwrap();
        rows[0].0.centre = moved;
        let found = over_states(&chassis, &table).unwrap();
        prop_assert_eq!((found.len(), table.len()), (5, rows.len()));
        for (state, fast) in found.iter().enumerate() {
            let loads: Vec<Load> =
                rows.iter().map(|(load, masses)| Load { mass: kg(masses[state]), ..*load }).collect();
            let slow = statics(&chassis, &loads).unwrap();
            let about_ball = slow.mass.kilograms() * slow.centre.x.metres().powi(2);
            for (a, b, scale) in [
                (fast.mass.kilograms(), slow.mass.kilograms(), slow.mass.kilograms()),
                (fast.tongue.kilograms(), slow.tongue.kilograms(), slow.mass.kilograms()),
                (fast.axle.kilograms(), slow.axle.kilograms(), slow.mass.kilograms()),
                (fast.left.kilograms(), slow.left.kilograms(), slow.mass.kilograms()),
                (fast.right.kilograms(), slow.right.kilograms(), slow.mass.kilograms()),
                (fast.share.fraction(), slow.share.fraction(), 1.0),
                (fast.centre.x.metres(), slow.centre.x.metres(), 1.0),
                (fast.centre.y.metres(), slow.centre.y.metres(), 1.0),
                (fast.centre.z.metres(), slow.centre.z.metres(), 1.0),
                (fast.yaw_inertia_kg_m2, slow.yaw_inertia_kg_m2, slow.yaw_inertia_kg_m2 + about_ball),
                (fast.yaw_radius.metres().powi(2), slow.yaw_radius.metres().powi(2), 1.0),
            ] {
                prop_assert!((a - b).abs() <= 1e-9 * scale.max(1.0), "{a} {b}");
            }
        }
    }

    /// The closed interval from side to side is where every state keeps the limits.
    #[test]
    fn sideways_by_trying(
        chassis in chassis(), fixed in loads(), varying in varying(), full in 5.0..300.0_f64,
        empty in prop_oneof![Just(0.0), 1.0..50.0_f64], x in 0.5..5.5_f64,
        apart in limit(400.0), one_side in limit(2500.0),
    ) {
        let limits = SideLimits { most_difference: apart, most_one_side: one_side };
        let item = SideItem {
            masses: vec![kg(empty), kg(full)],
            along: Interval { front: m(x), rear: m(x) },
            floor: SideInterval { right: m(-1.0), left: m(1.0) },
        };
        let found = allowed_sideways(&chassis, &fixed, &varying, &item, limits).unwrap();
        for step in 0..=20 {
            let y = -1.0 + 0.1 * f64::from(step);
            let at = Point::from_metres(x, y, 0.5);
            let (worst, most) = worst_sides(&chassis, &fixed, &varying, &item.masses, at);
            let within = apart.is_none_or(|limit| worst <= limit.kilograms())
                && one_side.is_none_or(|limit| most <= limit.kilograms());
            let inside = found
                .on_floor
                .is_some_and(|part| (part.right.metres()..=part.left.metres()).contains(&y));
            let at_an_end = found.anywhere.is_some_and(|part| {
                (y - part.right.metres()).abs() < 1e-6 || (y - part.left.metres()).abs() < 1e-6
            });
            prop_assert!(within == inside || at_an_end, "{y}: {found:?}");
        }
    }

    /// All of a zone is allowed, its corners first; and where there is none, some limit fails at
    /// every place tried or the two intervals do not meet on the floor.
    #[test]
    fn zone_by_trying(
        chassis in chassis(), fixed in loads(), varying in varying(), mass in 5.0..200.0_f64,
        low in -0.1..0.2_f64, width in 0.1..0.6_f64, apart in limit(800.0), one_side in limit(2500.0),
    ) {
        let band = Band { low: share(low), high: share(low + width) };
        let limits = SideLimits { most_difference: apart, most_one_side: one_side };
        let item = Movable {
            masses: vec![kg(mass)],
            floor: Interval { front: m(0.5), rear: m(5.5) },
        };
        let floor = SideInterval { right: m(-0.9), left: m(0.9) };
        let zone = allowed_zone(&chassis, &fixed, &varying, &item, floor, band, limits).unwrap();
        let keeps = |x: f64, y: f64, slack: f64| {
            let at = Point::from_metres(x, y, 0.5);
            let (worst, most) = worst_sides(&chassis, &fixed, &varying, &item.masses, at);
            let with = [fixed.as_slice(), &[Load::point(kg(mass), at)]].concat();
            let shares = every_state(&chassis, &with, &varying).unwrap();
            apart.is_none_or(|limit| worst <= limit.kilograms() + slack)
                && one_side.is_none_or(|limit| most <= limit.kilograms() + slack)
                && shares.iter().all(|case| {
                    let share = case.statics.share.fraction();
                    share >= low - 1e-9 && share <= low + width + 1e-9
                })
        };
        match zone {
            Some(Zone { along, across }) => {
                for a in [0.0, 0.3, 1.0] {
                    for b in [0.0, 0.7, 1.0] {
                        let x = along.front.metres() + a * (along.rear - along.front).metres();
                        let y = across.right.metres() + b * (across.left - across.right).metres();
                        prop_assert!(keeps(x, y, 1e-6), "{x} {y}");
                    }
                }
            }
            None => {
                let on_floor = allowed_along_floor(&chassis, &fixed, &varying, &item, band).unwrap();
                if let Some(along) = on_floor.on_floor {
                    for step in 0..=18 {
                        prop_assert!(!keeps(along.rear.metres(), -0.9 + 0.1 * f64::from(step), -1e-6));
                    }
                }
            }
        }
    }
}
