//! The sun over many instants against the same sun found one by one.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

use proptest::prelude::*;
use wainwright_engines::sun::*;
use wainwright_units::*;

/// What a sweep may add to its method, as an arc on the sky [°].
const MOST_ADDED: f64 = 1e-4;

/// Height at which the lift by air begins, as a jump [°].
const JUMP: f64 = -0.833_37;

fn place(latitude: f64, longitude: f64, altitude: f64) -> Place {
    Place {
        latitude: Angle::from_degrees(latitude),
        longitude: Angle::from_degrees(longitude),
        altitude: Length::from_metres(altitude),
    }
}

/// Arc between two directions [°].
fn arc(one: Ray, other: Ray) -> f64 {
    let chord = (one.east - other.east).powi(2)
        + (one.north - other.north).powi(2)
        + (one.up - other.up).powi(2);
    (chord.sqrt() / 2.0).asin().to_degrees() * 2.0
}

/// Furthest arc between a sweep and single positions; every other value must be the same.
fn furthest(place: Place, instants: Instants, method: Method) -> f64 {
    let air = Air::standard(place.altitude);
    let sweep = Sweep::new(place, air, instants, method).unwrap();
    let mut furthest = 0.0_f64;
    let mut count = 0;
    for (step, at) in sweep.steps().zip(0..) {
        count += 1;
        let moment = instants.at(at);
        assert_eq!(step.day_of_year, moment.day_of_year());
        assert_eq!(step.extraterrestrial, extraterrestrial(step.day_of_year));
        let single = position(moment, place, air, method).unwrap();
        let zenith = single.zenith.degrees();
        furthest = furthest.max((step.sun().zenith.degrees() - zenith).abs());
        if (90.0 - zenith - JUMP).abs() > MOST_ADDED {
            furthest = furthest.max(arc(step.ray, Ray::from(single)));
        }
        let length = step.ray.east.powi(2) + step.ray.north.powi(2) + step.ray.up.powi(2);
        assert!((length - 1.0).abs() < 1e-12 && arc(step.ray, Ray::from(step.sun())) < 1e-5);
    }
    assert_eq!(count, instants.count);
    furthest
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// 0.0001°: the distance of the sun changes its parallax by 1.7 % (0.00004°), the earth is not
    /// round (0.00001°), and the rest is left to the curve.
    #[test]
    fn a_sweep_follows_its_method(
        year in 2011..2109, hours in 0.0..8760.0,
        latitude in -90.0..=90.0, longitude in -180.0..=180.0, altitude in 0.0..4000.0,
        step_hours in 0.001..40.0, count in 1_u32..80, exact: bool,
    ) {
        let first = Moment::from_utc(year, 1, 1, hours).unwrap();
        let instants = Instants { first, step_hours, count };
        let method = if exact { Method::Exact } else { Method::Fast };
        let off = furthest(place(latitude, longitude, altitude), instants, method);
        prop_assert!(off < MOST_ADDED, "{off}");
    }
}

/// Every hour of twenty years, which the drawn sweeps are too short for.
#[test]
fn a_sweep_of_years_follows_its_method() {
    let instants = Instants {
        first: Moment::from_utc(2020, 1, 1, 0.0).unwrap(),
        step_hours: 1.0,
        count: 175_320,
    };
    let off = furthest(place(39.74, -105.18, 1829.0), instants, Method::Fast);
    assert!(off < MOST_ADDED, "{off}");
    println!("furthest arc from the fast method in twenty years: {off:.7}°");
    let year = Instants {
        count: 8760,
        ..instants
    };
    let off = furthest(place(39.74, -105.18, 1829.0), year, Method::Exact);
    assert!(off < MOST_ADDED, "{off}");
    println!("furthest arc from the exact method in a year: {off:.7}°");
}

/// The same light and power as the equations for single instants, to 0.01 W/m², which is what
/// 0.0001° does to a beam of 1000 W/m² and to the low sun.
#[test]
fn light_of_a_sweep_is_that_of_single_instants() {
    let here = place(47.0, 8.5, 450.0);
    let air = Air::standard(here.altitude);
    let panel = Orientation {
        tilt: Angle::from_degrees(35.0),
        azimuth: Angle::from_degrees(160.0),
    };
    let (ground, glass) = (
        Ratio::from_fraction(0.2),
        Glass::MartinRuiz { coefficient: 0.16 },
    );
    let prepared = PreparedPanel::new(panel, ground, glass);
    let clear = ClearSky::new(here.altitude, 3.1);
    let instants = Instants {
        first: Moment::from_utc(2026, 6, 20, 0.0).unwrap(),
        step_hours: 0.05,
        count: 960,
    };
    let sweep = Sweep::new(here, air, instants, Method::Fast).unwrap();
    let mut most = 0.0_f64;
    for (step, at) in sweep.steps().zip(0..) {
        let sky = clear.light(&step.ray, step.extraterrestrial);
        let lit = prepared.lit_by(sky, &step.ray, step.extraterrestrial);
        let sun = position(instants.at(at), here, air, Method::Fast).unwrap();
        let single_sky = clear_sky(sun, step.day_of_year, here.altitude, 3.1);
        let before = on_panel(single_sky, sun, step.day_of_year, panel, ground);
        let behind = through_glass(before, incidence(sun, panel), panel.tilt, glass);
        for (one, other) in [
            (lit.before.total(), before.total()),
            (lit.behind.total(), behind.total()),
            (sky.global, single_sky.global),
        ] {
            assert!((one - other).abs() < 0.01, "{at}: {one} {other}");
        }
        let above = step.extraterrestrial * sun.zenith.radians().cos().max(0.0);
        assert!((step.above_flat_ground() - above).abs() < 0.01);
        most = most.max(lit.behind.total());
    }
    assert!(most > 800.0, "{most}");
}

#[test]
fn impossible_sweeps_are_refused() {
    let here = place(47.0, 8.5, 450.0);
    let air = Air::standard(here.altitude);
    let new = |place, air, first, step_hours, count| {
        let instants = Instants {
            first,
            step_hours,
            count,
        };
        Sweep::new(place, air, instants, Method::Fast)
    };
    let now = Moment::from_utc(2026, 1, 1, 0.0).unwrap();
    let lost = place(95.0, 0.0, 0.0);
    assert!(matches!(
        new(lost, air, now, 1.0, 24),
        Err(SunError::Place(_))
    ));
    let none = Air {
        pascals: -1.0,
        ..air
    };
    assert!(matches!(
        new(here, none, now, 1.0, 24),
        Err(SunError::Place(_))
    ));
    for (step_hours, count) in [(f64::NAN, 2), (-1.0, 2), (f64::INFINITY, 2), (8760.0, 200)] {
        let refused = new(here, air, now, step_hours, count);
        assert!(matches!(refused, Err(SunError::Time(_))), "{refused:?}");
    }
    // To the very last instant of the method, and nothing at all.
    let last = Moment::from_utc(2110, 12, 31, 0.0).unwrap();
    assert!(new(here, air, last, 1.0, 23).is_ok());
    assert_eq!(new(here, air, now, 1.0, 0).unwrap().steps().count(), 0);
}
