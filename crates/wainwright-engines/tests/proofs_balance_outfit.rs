//! Worked cases of the coupled outfit, of ratings and of placing items against `balance`. Marks as in
//! `proofs_balance`: read, computed, memory.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod towing;

use towing::{kg, m, near, share};
use wainwright_engines::balance::*;
use wainwright_units::frame::Point;
use wainwright_units::*;

fn car() -> TowVehicle {
    TowVehicle {
        wheelbase: m(2.827),
        overhang: m(1.15),
        front: kg(1094.0),
        rear: kg(924.0),
        aboard: kg(80.0),
    }
}

fn chassis(suspension: Suspension) -> Chassis {
    Chassis {
        coupling_to_axle: m(2.9),
        track: m(1.6),
        suspension,
    }
}

fn at(mass: f64, x: f64, y: f64) -> Load {
    Load::point(kg(mass), Point::from_metres(x, y, 0.7))
}

/// 90 kg on the ball, wheelbase 2.827 m, overhang 1.15 m: rear +126.6 kg, front −36.6 kg (computed).
#[test]
fn tongue_on_the_car() {
    let found = hitch_up(&car(), kg(90.0), m(2.9), Torque::ZERO).unwrap();
    near(found.rear_change.kilograms(), 126.6, 0.05);
    near(found.front_change.kilograms(), -36.6, 0.05);
    near(found.payload.kilograms(), 170.0, 1e-9);
    near(found.ball.kilograms(), 90.0, 1e-9);
}

/// 200 kg on the ball, L 4.0 m (computed): the whole front load comes back at 178.64 kg·m; at half
/// of that front −40.68, rear +218.35, trailer axle +22.33 kg, together 200.
#[test]
fn weight_distribution() {
    let torque = |part| restoring_torque(&car(), kg(200.0), m(4.0), share(part)).unwrap();
    let whole = torque(1.0);
    near(whole.newton_metres() / STANDARD_GRAVITY, 178.64, 0.005);
    let full = hitch_up(&car(), kg(200.0), m(4.0), whole).unwrap();
    near(full.front_change.kilograms(), 0.0, 1e-9);
    near(full.restored.fraction(), 1.0, 1e-12);
    let half = hitch_up(&car(), kg(200.0), m(4.0), torque(0.5)).unwrap();
    near(half.front_change.kilograms(), -40.68, 0.005);
    near(half.rear_change.kilograms(), 218.35, 0.005);
    near(half.trailer_axle_change.kilograms(), 22.33, 0.005);
    near(half.ball.kilograms(), 200.0 - 22.33, 0.005);
}

/// The nine-item trailer uncoupled with two people of 90 kg at 4.30 m (computed): 84.3 − 86.9 =
/// −2.6 kg.
#[test]
fn tail_goes_down() {
    let chassis = chassis(Suspension::Single);
    let share_then = 84.26 / 775.0;
    let trailer = statics(&chassis, &[at(775.0, 2.9 * (1.0 - share_then), 0.0)]).unwrap();
    let people = [at(90.0, 4.30, 0.3), at(90.0, 4.30, -0.3)];
    let found = uncoupled(&chassis, &trailer, &people).unwrap();
    near(found.nose.kilograms(), -2.6, 0.05);
    assert!(found.tips);
    // Just where the nose lifts: T = 180·(x/L − 1).
    let edge = found.furthest_back.unwrap();
    let standing = [at(180.0, edge.metres() - 1e-6, 0.0)];
    let there = uncoupled(&chassis, &trailer, &standing).unwrap();
    assert!(!there.tips);
    near(there.nose.kilograms(), 0.0, 1e-3);
}

/// D-values: 3.5 t and 2.0 t give 12.485 kN (the source prints 12.50, read); 18/22, 2.2/0.9 and
/// 2.4/1.6 t give 97.12, 6.266 and 9.418 kN (computed).
#[test]
fn d_values() {
    for (vehicle, trailer, kilonewtons, digit) in [
        (3.5, 2.0, 12.485, 1e-3),
        (3.5, 2.0, 12.50, 0.02),
        (18.0, 22.0, 97.12, 0.01),
        (2.2, 0.9, 6.266, 1e-3),
        (2.4, 1.6, 9.418, 1e-3),
    ] {
        let found = d_value(kg(vehicle * 1e3), kg(trailer * 1e3)).unwrap();
        near(found.newtons() / 1e3, kilonewtons, digit);
        let back = heaviest_trailer(kg(vehicle * 1e3), found).unwrap().unwrap();
        near(back.kilograms(), trailer * 1e3, 1e-6);
    }
    let beyond = heaviest_trailer(kg(2000.0), Force::from_newtons(19_620.0)).unwrap();
    assert_eq!(beyond, None);
}

/// A lopsided trailer passes its axle rating by the axle load and fails it by twice its heavier
/// side. By hand: 800 kg at 2.61 m, 0.2 m to the left: axle 720 kg, left 460, right 260; two axles
/// 360 kg each.
#[test]
fn ratings_of_a_lopsided_trailer() {
    let equalised = Suspension::Equalised { spacing: m(0.8) };
    let trailer = statics(&chassis(equalised), &[at(800.0, 2.61, 0.2)]).unwrap();
    near(trailer.left.kilograms(), 460.0, 1e-9);
    let coupled = hitch_up(&car(), trailer.tongue, m(2.9), Torque::ZERO).unwrap();
    let axles = [trailer.axle / 2.0, trailer.axle / 2.0];
    let laden = Laden {
        trailer: &trailer,
        axles: &axles,
        vehicle: Some(&coupled),
    };
    let wanted = [
        (Measure::TrailerMass, 800.0),
        (Measure::AxleGroup, 720.0),
        (Measure::Axle(0), 460.0),
        (Measure::Axle(1), 460.0),
        (Measure::LeftTyre, 230.0),
        (Measure::RightTyre, 130.0),
        (Measure::Tongue, 80.0),
        (Measure::VehicleMass, 2018.0 + 80.0),
        (Measure::VehiclePayload, 160.0),
        (Measure::Combination, 2018.0 + 800.0),
    ];
    let ratings = wanted.map(|(measure, _)| Rating {
        measure,
        limit: kg(400.0),
    });
    let found = margins(&laden, &ratings).unwrap();
    for (margin, (_, load)) in found.iter().zip(wanted) {
        let margin = margin.unwrap();
        near(margin.actual.kilograms(), load, 1e-9);
        near(margin.left.kilograms(), 400.0 - load, 1e-9);
        near(margin.used.fraction(), load / 400.0, 1e-12);
    }
    let alone = Laden {
        vehicle: None,
        ..laden
    };
    let unknown = [Measure::VehicleRear, Measure::Axle(2)].map(|measure| Rating {
        measure,
        limit: kg(400.0),
    });
    assert_eq!(margins(&alone, &unknown).unwrap(), [None, None]);
}

/// Distribution that moves 20 kg to the trailer's axles, by hand: 1000 kg at 2.61 m, in the middle: axle
/// 900 kg, each side 450; then 920, each axle 460, each of the four tyres 230; the tongue rating still
/// sees the slack 100 kg, the combination does not change.
#[test]
fn ratings_with_distribution() {
    let equalised = Suspension::Equalised { spacing: m(0.8) };
    let trailer = statics(&chassis(equalised), &[at(1000.0, 2.61, 0.0)]).unwrap();
    let torque = Torque::from_newton_metres(20.0 * 2.9 * STANDARD_GRAVITY);
    let coupled = hitch_up(&car(), trailer.tongue, m(2.9), torque).unwrap();
    let axles = [trailer.axle / 2.0, trailer.axle / 2.0];
    let laden = Laden {
        trailer: &trailer,
        axles: &axles,
        vehicle: Some(&coupled),
    };
    let wanted = [
        (Measure::AxleGroup, 920.0),
        (Measure::Axle(0), 460.0),
        (Measure::LeftTyre, 230.0),
        (Measure::RightTyre, 230.0),
        (Measure::Tongue, 100.0),
        (Measure::VehicleFront, coupled.front.kilograms()),
        (Measure::VehicleRear, coupled.rear.kilograms()),
        (Measure::VehicleMass, 2018.0 + 80.0),
        (Measure::VehiclePayload, 160.0),
        (Measure::Combination, 2018.0 + 1000.0),
    ];
    for (measure, load) in wanted {
        let rating = Rating {
            measure,
            limit: kg(500.0),
        };
        let found = margins(&laden, &[rating]).unwrap();
        near(found[0].unwrap().actual.kilograms(), load, 1e-9);
    }
}

/// One item by hand: 900 kg trailer, T 90 kg, L 2.9 m; 100 kg more, share 8 to 12 % of 1000 kg. The
/// item may bring −10 to +30 kg: 1 − x/L from −0.1 to 0.3, x from 2.03 to 3.19 m.
#[test]
fn interval_for_one_item() {
    let floor = Interval {
        front: m(1.0),
        rear: m(3.0),
    };
    let item = Movable {
        masses: vec![kg(100.0)],
        floor,
    };
    let band = Band {
        low: share(0.08),
        high: share(0.12),
    };
    let trailer = [at(900.0, 2.61, 0.0)];
    let chassis = chassis(Suspension::Single);
    let found = allowed_along_floor(&chassis, &trailer, &[], &item, band).unwrap();
    let anywhere = found.anywhere.unwrap();
    near(anywhere.front.metres(), 2.03, 1e-9);
    near(anywhere.rear.metres(), 3.19, 1e-9);
    near(found.on_floor.unwrap().rear.metres(), 3.0, 1e-12);
    near(found.tongue_lost_per_metre, 100.0 / 2.9, 1e-9);
    let nowhere = Band {
        low: share(0.20),
        high: share(0.21),
    };
    let found = allowed_along_floor(&chassis, &trailer, &[], &item, nowhere).unwrap();
    assert_eq!(found.on_floor, None);
}

/// From side to side by hand: track 1.6 m, 900 kg with 10 kg·m to the left of the middle, so 12.5 kg
/// apart. A tank of 0 or 80 kg, at most 50 kg apart: 12.5 + 2·80 y/1.6 ≤ 50 gives y ≤ 0.375 m and
/// 12.5 + 100 y ≥ −50 gives y ≥ −0.625 m. At x = 2.9 m it adds 80 kg to the axle of 810 kg: the left
/// wheels carry 445 + 6.25 + 50 y, at most 460 kg allows y ≤ 0.175 m.
#[test]
fn interval_from_side_to_side() {
    let trailer = [at(900.0, 2.61, 10.0 / 900.0)];
    let chassis = chassis(Suspension::Single);
    let floor = SideInterval {
        right: m(-0.5),
        left: m(0.7),
    };
    let along = Interval {
        front: m(2.0),
        rear: m(2.9),
    };
    let item = SideItem {
        masses: vec![kg(0.0), kg(80.0)],
        along,
        floor,
    };
    let mut limits = SideLimits {
        most_difference: Some(kg(50.0)),
        most_one_side: None,
    };
    let found = allowed_sideways(&chassis, &trailer, &[], &item, limits).unwrap();
    let anywhere = found.anywhere.unwrap();
    near(anywhere.left.metres(), 0.375, 1e-9);
    near(anywhere.right.metres(), -0.625, 1e-9);
    near(found.on_floor.unwrap().right.metres(), -0.5, 1e-12);
    limits.most_one_side = Some(kg(460.0));
    let found = allowed_sideways(&chassis, &trailer, &[], &item, limits).unwrap();
    near(found.on_floor.unwrap().left.metres(), 0.175, 1e-9);
    // Empty it changes nothing: 12.5 kg apart are too much for 12, wherever it stands.
    limits.most_difference = Some(kg(12.0));
    let found = allowed_sideways(&chassis, &trailer, &[], &item, limits).unwrap();
    assert_eq!((found.anywhere, found.on_floor), (None, None));
    let wrong = SideItem {
        floor: SideInterval {
            right: m(1.0),
            left: m(0.0),
        },
        ..item
    };
    assert!(allowed_sideways(&chassis, &trailer, &[], &wrong, limits).is_err());
}

/// Both at once, by the two cases above: 100 kg may go from 2.03 to 3.19 m, on a floor up to 3.0 m;
/// 2·100 y/1.6 within 25 kg gives 0.2 m to either side.
#[test]
fn zone_for_one_item() {
    let item = Movable {
        masses: vec![kg(100.0)],
        floor: Interval {
            front: m(1.0),
            rear: m(3.0),
        },
    };
    let band = Band {
        low: share(0.08),
        high: share(0.12),
    };
    let floor = SideInterval {
        right: m(-0.7),
        left: m(0.1),
    };
    let limits = SideLimits {
        most_difference: Some(kg(25.0)),
        most_one_side: None,
    };
    let chassis = chassis(Suspension::Single);
    let trailer = [at(900.0, 2.61, 0.0)];
    let zone = allowed_zone(&chassis, &trailer, &[], &item, floor, band, limits)
        .unwrap()
        .unwrap();
    near(zone.along.front.metres(), 2.03, 1e-9);
    near(zone.along.rear.metres(), 3.0, 1e-9);
    near(zone.across.right.metres(), -0.2, 1e-9);
    near(zone.across.left.metres(), 0.1, 1e-9);
    let nowhere = Band {
        low: share(0.20),
        high: share(0.21),
    };
    let none = allowed_zone(&chassis, &trailer, &[], &item, floor, nowhere, limits).unwrap();
    assert_eq!(none, None);
}

/// A box of 1.8 by 2.0 m against a limit of 3.0 m², by hand: 3.6 m², 0.6 too much, 120 %.
#[test]
fn frontal_area() {
    let limit = Area::from_square_metres(3.0);
    let found = frontal_area_margin(m(1.8), m(2.0), limit).unwrap();
    near(found.actual.square_metres(), 3.6, 1e-12);
    near(found.left.square_metres(), -0.6, 1e-12);
    near(found.used.percent(), 120.0, 1e-9);
    assert!(frontal_area_margin(m(1.8), m(0.0), limit).is_err());
}

/// The three passes of the weighing proofs (computed): 200 lb on a ball 1.15 m behind the rear axle
/// of a 2.827 m wheelbase take 81.4 lb off the front axle; 80 lb were seen.
#[test]
fn front_axle_of_the_three_passes() {
    let found = hitch_up(&car(), towing::lb(200.0), m(2.9), Torque::ZERO).unwrap();
    near(found.front_change.pounds(), -81.4, 0.05);
}

/// Nonsense is refused with its place; nothing panics.
#[test]
fn refusals_say_where() {
    let chassis = chassis(Suspension::Single);
    let bad = statics(&chassis, &[at(1.0, 1.0, 0.0), at(f64::NAN, 1.0, 0.0)]).unwrap_err();
    assert!(
        bad.to_string().starts_with("item 2: mass [kg] is NaN"),
        "{bad}"
    );
    assert!(statics(&chassis, &[]).is_err());
    let flat = Chassis {
        coupling_to_axle: Length::ZERO,
        ..chassis
    };
    assert!(statics(&flat, &[at(1.0, 1.0, 0.0)]).is_err());
    let empty = Varying { states: vec![] };
    assert!(extremes(&chassis, &[at(1.0, 1.0, 0.0)], &[empty]).is_err());
    let two = Varying {
        states: vec![at(0.0, 1.0, 0.0), at(1.0, 1.0, 0.0)],
    };
    let many = vec![two; 13];
    assert!(every_state(&chassis, &[at(1.0, 1.0, 0.0)], &many).is_err());
}
