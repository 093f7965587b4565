//! `rollover`, `tie_down` and `road_load` against slow methods: balances of force and moment found
//! by halving, and small steps in time.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod towing;

use proptest::prelude::*;
use towing::{kg, m, share};
use wainwright_engines::{road_load, rollover, tie_down};
use wainwright_units::*;

/// Where a rising function passes zero.
fn halve(mut low: f64, mut high: f64, rising: &dyn Fn(f64) -> f64) -> f64 {
    for _ in 0..200 {
        let middle = 0.5 * (low + high);
        if rising(middle) < 0.0 {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

#[track_caller]
fn same(found: f64, expected: f64, part: f64) {
    assert!((found / expected - 1.0).abs() < part, "{found} {expected}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// Tipping where the moments about the outer tyre balance.
    #[test]
    fn tipping_by_moments(
        track in 1.2..2.2_f64, height in 0.5..1.6_f64, aside in -0.3..0.3_f64,
        mass in 300.0..2500.0_f64, area in 2.0..12.0_f64,
    ) {
        let stance = rollover::Stance {
            track: m(track), height: m(height), sideways: m(aside), softness: Ratio::ONE,
        };
        // About the tyre on the side it leans to.
        let about = |side: f64, tilt: f64| {
            tilt.sin() * height - tilt.cos() * (0.5 * track - side * aside)
        };
        let either = |tilt: f64| about(1.0, tilt).max(about(-1.0, tilt));
        let slope = rollover::side_slope(&stance).unwrap();
        same(slope.radians(), halve(0.0, 1.57, &either), 1e-9);
        let wind = rollover::CrossWind {
            side: Area::from_square_metres(area), coefficient: 1.1, height: m(1.3), air_kg_per_m3: 1.2,
        };
        let blown = |speed: f64| {
            let force = 0.5 * 1.2 * 1.1 * area * speed * speed;
            force * 1.3 - mass * STANDARD_GRAVITY * (0.5 * track - aside.abs())
        };
        let found = rollover::crosswind_speed(&stance, kg(mass), &wind).unwrap();
        same(found, halve(0.0, 500.0, &blown), 1e-9);
    }

    /// Sliding into a kerb: the angular momentum about it is kept, then the body swings up in small
    /// steps; just faster it goes over, just slower it falls back.
    #[test]
    fn kerb_by_small_steps(track in 1.3..1.9_f64, height in 0.5..0.9_f64, inertia in 200.0..900.0_f64) {
        let stance = rollover::Stance {
            track: m(track), height: m(height), sideways: Length::ZERO, softness: Ratio::ONE,
        };
        let mass = 1500.0;
        let critical = rollover::sliding_speed(&stance, kg(mass), inertia).unwrap();
        let reach = (0.5 * track).hypot(height);
        let about = inertia + mass * reach * reach;
        let goes_over = |speed: f64| {
            let (mut angle, mut turn) = (height.atan2(0.5 * track), mass * speed * height / about);
            let step = 1e-4;
            while turn > 0.0 {
                turn -= 0.5 * step * mass * STANDARD_GRAVITY * reach * f64::cos(angle) / about;
                angle += step * turn;
                turn -= 0.5 * step * mass * STANDARD_GRAVITY * reach * f64::cos(angle) / about;
                if angle > std::f64::consts::FRAC_PI_2 {
                    return true;
                }
            }
            false
        };
        prop_assert!(goes_over(1.001 * critical));
        prop_assert!(!goes_over(0.999 * critical));
    }

    /// A strap of the tension found just stops the item; friction presses on the floor and under
    /// the strap.
    #[test]
    fn strap_by_balance(
        mass in 5.0..80.0_f64, along in 0.2..1.0_f64, friction in 0.1..0.7_f64,
        straps in 1..4_usize, degrees in 20.0..90.0_f64,
    ) {
        let lashing = tie_down::Lashing {
            mass: kg(mass), along, down: 1.0, friction, straps, safety: 1.0,
            angle: Angle::from_degrees(degrees),
        };
        let holds = |tension: f64| {
            let weight = mass * STANDARD_GRAVITY;
            let pull = 2.0 * straps as f64 * tension * degrees.to_radians().sin();
            friction * (weight + pull) - weight * along
        };
        let found = tie_down::strap_tension(&lashing).unwrap().newtons();
        if along > friction + 1e-6 {
            same(found, halve(0.0, 1e6, &holds), 1e-7);
        } else if along < friction {
            prop_assert_eq!(found, 0.0);
        }
    }

    /// Fuel burnt over 100 km of small steps, uphill; and the climb's share of it.
    #[test]
    fn fuel_by_small_steps(
        mass in 900.0..3500.0_f64, drag_area in 0.5..4.0_f64, speed in 12.0..32.0_f64,
        grade in 0.0..0.08_f64,
    ) {
        let vehicle = road_load::Vehicle {
            mass: kg(mass), rolling: Ratio::ZERO, drag_area: Area::from_square_metres(drag_area),
        };
        let engine = road_load::Engine {
            idle_power: Power::from_watts(20e3), idle_speed: 25.0,
            marginal_efficiency: share(0.35), megajoules_per_litre: 32.0,
        };
        let flat = road_load::Road { air_kg_per_m3: 1.2, headwind: 2.0, grade: Ratio::ZERO };
        let steep = road_load::Road { grade: share(grade), ..flat };
        let found = road_load::fuel(&[vehicle], &engine, &steep, speed).unwrap();
        let (mut far, mut burnt) = (0.0, 0.0);
        while far < 1e3 {
            let work = 0.5 * 1.2 * drag_area * (speed + 2.0) * (speed + 2.0) * speed;
            let lift = mass * STANDARD_GRAVITY * speed * grade.atan().sin();
            burnt += 0.1 * (20e3 * speed / 25.0 + (work + lift) / 0.35);
            far += 0.1 * speed;
        }
        same(found.litres_per_100_km, burnt / 32e6 * 1e5 / far, 1e-9);
        let level = road_load::fuel(&[vehicle], &engine, &flat, speed).unwrap();
        let rise = m(1e5 * grade.atan().sin());
        let climb = road_load::climb_fuel(kg(mass), rise, &engine).unwrap().litres();
        prop_assert!((found.litres_per_100_km - level.litres_per_100_km - climb).abs() < 1e-9);
    }

    /// A stop in small steps, the unbraked trailer pushing through the coupling.
    #[test]
    fn stop_by_small_steps(
        car in 1200.0..2800.0_f64, trailer in 300.0..2500.0_f64, part in 0.0..0.15_f64,
        friction in 0.3..0.9_f64, speed in 5.0..35.0_f64,
    ) {
        let tongue = part * trailer;
        let slowing =
            road_load::unbraked_deceleration(friction, kg(car), kg(trailer), kg(tongue)).unwrap();
        let stop = road_load::stopping_distance(speed, slowing, Duration::ZERO).unwrap();
        let (mut far, mut going, step) = (0.0, speed, 1e-4);
        while going > 0.0 {
            let grip = friction * (car + tongue) * STANDARD_GRAVITY;
            let next = going - step * grip / (car + trailer);
            far += 0.5 * step * (going + next.max(0.0));
            going = next;
        }
        same(stop.whole.metres(), far, 1e-4);
    }
}
