//! A measured vehicle and worked trailers against `rollover`. Marks: read (a printed row), computed
//! (worked once outside this program).
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod towing;

use towing::{kg, m, near, share};
use wainwright_engines::rollover::*;
use wainwright_units::*;

fn stance(track: f64, height: f64, softness: f64) -> Stance {
    Stance {
        track: m(track),
        height: m(height),
        sideways: Length::ZERO,
        softness: share(softness),
    }
}

/// A row of the US database of inertial parameters (read): track 1.4835 m, height 0.697 m, 2018 kg,
/// roll inertia 740 kg·m²: static stability factor 1.064 (row: 1.063 by its own track), critical
/// sliding speed printed 9.5 mph, 9.53 computed; tilt-table ratio 0.903, 0.85 of it.
#[test]
fn database_row() {
    let car = stance(1.4835, 0.697, 0.85);
    near(stability_factor(&car).unwrap().fraction(), 1.064, 5e-4);
    let speed = sliding_speed(&car, kg(2018.0), 740.0).unwrap() / 0.44704;
    near(speed, 9.5, 0.05);
    near(speed, 9.53, 0.0055);
    near(threshold(&car).unwrap().fraction(), 0.903, 0.003);
}

/// A trailer of 1.6 m track (computed): centre at 0.8, 1.0, 1.2 m: factor 1.00, 0.80, 0.667; with
/// 0.85: threshold 0.85, 0.68, 0.567, bend of 50 m 73, 66, 60 km/h, side slope 40, 34, 30° (half a
/// unit of each).
#[test]
fn trailer_heights() {
    for (height, factor, limit, bend, slope) in [
        (0.8, 1.00, 0.85, 73.0, 40.0),
        (1.0, 0.80, 0.68, 66.0, 34.0),
        (1.2, 0.667, 0.567, 60.0, 30.0),
    ] {
        let trailer = stance(1.6, height, 0.85);
        near(stability_factor(&trailer).unwrap().fraction(), factor, 5e-4);
        near(threshold(&trailer).unwrap().fraction(), limit, 5e-4);
        near(bend_speed(&trailer, m(50.0)).unwrap() * 3.6, bend, 0.5);
        near(side_slope(&trailer).unwrap().degrees(), slope, 0.5);
    }
}

/// Steady crosswind (computed): 900 kg, track 1.6 m, 5.4 m², coefficient 1.2, force at 1.3 m, air
/// 1.2 kg/m³: 37 m/s.
#[test]
fn crosswind() {
    let wind = CrossWind {
        side: Area::from_square_metres(5.4),
        coefficient: 1.2,
        height: m(1.3),
        air_kg_per_m3: 1.2,
    };
    let found = crosswind_speed(&stance(1.6, 0.9, 1.0), kg(900.0), &wind).unwrap();
    near(found, 37.0, 0.5);
}

/// Departure angle: a tail as high as it is long clears 45°, one of 1 : √3 clears 30° (geometry).
#[test]
fn tail_clearance() {
    near(
        departure_angle(m(0.5), m(0.5)).unwrap().degrees(),
        45.0,
        1e-9,
    );
    let gentle = departure_angle(m(0.5), m(0.5 * 3.0_f64.sqrt())).unwrap();
    near(gentle.degrees(), 30.0, 1e-9);
    assert!(departure_angle(m(0.5), m(0.0)).is_err());
}

/// Load off the middle takes away from the arm; outside the track it is refused.
#[test]
fn off_the_middle() {
    let mut trailer = stance(1.6, 0.8, 1.0);
    trailer.sideways = m(-0.2);
    near(stability_factor(&trailer).unwrap().fraction(), 0.75, 1e-12);
    trailer.sideways = m(0.9);
    assert!(threshold(&trailer).is_err());
}
