//! Ways worked out by hand, and laws any way keeps. Not here: comparison with another method
//! (`oracle_routes`).
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

use proptest::prelude::*;
use wainwright_engines::routes::*;
use wainwright_units::frame::Point;
use wainwright_units::{Length, Ratio};

/// Sums of a few coordinates [m].
const ROUNDING: f64 = 1e-9;

fn at(x: f64, y: f64, z: f64) -> Point {
    Point::from_metres(x, y, z)
}

fn trunk(path: &[Point]) -> Trunk {
    Trunk {
        path: path.to_vec(),
    }
}

fn wire(from: Point, to: Point) -> Wire {
    Wire {
        from,
        to,
        forced: vec![],
    }
}

fn options(open_factor: f64) -> Options {
    Options {
        join_within: Length::from_millimetres(60.0),
        open_factor,
    }
}

fn near(found: Length, metres: f64) {
    assert!(
        (found.metres() - metres).abs() < ROUNDING,
        "{found:?} against {metres} m"
    );
}

fn only(trunks: &[Trunk], wire: &Wire, factor: f64) -> Way {
    let wires = std::slice::from_ref(wire);
    routes(trunks, wires, &options(factor))
        .unwrap()
        .ways
        .remove(0)
}

/// A trunk under the ceiling of the left wall (y = 1, z = 2), one along the front wall (x = 1) that
/// crosses it 40 mm lower: 1.96 m. Battery on the floor at (3, 1, 0.3), lamp at (1, −0.8, 1.5).
///
/// Up from 0.3 to 2: 1.7. Along the left trunk from x = 3 to x = 1: 2. Over the join 0.04, along the
/// front trunk from y = 1 to −0.8: 1.8. Down from 1.96 to 1.5: 0.46. Sum 6.0; in the open 2.16, so
/// with the factor 2: 8.16. Straight through the open: 2 + 1.8 + 1.2 = 5, weighed 10.
/// Corners: onto the left trunk, down the gap, onto the front trunk, down to the lamp: 4.
#[test]
fn over_a_join_by_hand() {
    let left = trunk(&[at(0.5, 1.0, 2.0), at(4.0, 1.0, 2.0)]);
    let front = trunk(&[at(1.0, 1.0, 1.96), at(1.0, -1.0, 1.96)]);
    let way = only(
        &[left, front],
        &wire(at(3.0, 1.0, 0.3), at(1.0, -0.8, 1.5)),
        2.0,
    );
    near(way.length, 6.0);
    near(way.open, 2.16);
    near(way.weighted, 8.16);
    assert_eq!(way.corners, 4);
    let lengths: Vec<f64> = way.legs.iter().map(|leg| leg.length.metres()).collect();
    for (found, expected) in lengths.iter().zip([1.7, 2.0, 1.84, 0.46]) {
        assert!((found - expected).abs() < ROUNDING, "{lengths:?}");
    }
    let trunks: Vec<Option<usize>> = way
        .legs
        .iter()
        .map(|leg| match leg.course {
            Course::Open => None,
            Course::Trunk { trunk, .. } => Some(trunk),
        })
        .collect();
    assert_eq!(trunks, [None, Some(0), Some(1), None]);
}

/// 61 mm apart they do not join, and only one of them helps.
///
/// - Straight through the open: 2 + 1.8 + 1.2 = 5, weighed 10.
/// - By the left trunk: 1.7 up, 2 in the trunk, 1.8 + 0.5 in the open: weighed 2 · 4 + 2 = 10.
/// - By the front trunk: 1.639 up and 2 along in the open, 1.8 in the trunk, 0.439 down: weighed
///   2 · 4.078 + 1.8 = 9.956, the least.
#[test]
fn beyond_the_tolerance_nothing_joins() {
    let left = trunk(&[at(0.5, 1.0, 2.0), at(4.0, 1.0, 2.0)]);
    let front = trunk(&[at(1.0, 1.0, 1.939), at(1.0, -1.0, 1.939)]);
    let way = only(
        &[left, front],
        &wire(at(3.0, 1.0, 0.3), at(1.0, -0.8, 1.5)),
        2.0,
    );
    near(way.weighted, 9.956);
    near(way.open, 4.078);
    near(way.length, 5.878);
}

/// A sloping trunk, 3 m long and 4 m high: 5 m from corner to corner. From (0, 0.2, 0) to (3, 0, 4.5):
/// 0.2 across, 5 along, 0.5 up. Open factor 1.5: 5 + 1.5 · 0.7 = 6.05 against 1.5 · 7.7 = 11.55.
#[test]
fn sloping_trunk_by_hand() {
    let slope = trunk(&[at(0.0, 0.0, 0.0), at(3.0, 0.0, 4.0)]);
    let way = only(&[slope], &wire(at(0.0, 0.2, 0.0), at(3.0, 0.0, 4.5)), 1.5);
    near(way.length, 5.7);
    near(way.weighted, 6.05);
    assert_eq!(way.corners, 2);
}

/// Forced over the right wall (y = −1) though the left one (y = 1) is at hand. From (1, 1, 1) to
/// (3, 1, 1), right trunk at z = 1: 2 across, 2 along, 2 across: 6. Forced over left then right, which
/// do not join: they run side by side, so either end of the stretch is the narrowest place, 2 m; from
/// (1, 1, 1) on the left trunk to its end at x = 4: 3, across 2, back along the right one to x = 3: 1,
/// across 2: 8; or to its other end at x = 0: 1 + 2 + 3 + 2 = 8.
#[test]
fn forced_trunks_by_hand() {
    let left = trunk(&[at(0.0, 1.0, 1.0), at(4.0, 1.0, 1.0)]);
    let right = trunk(&[at(0.0, -1.0, 1.0), at(4.0, -1.0, 1.0)]);
    let trunks = [left, right];
    let mut wanted = wire(at(1.0, 1.0, 1.0), at(3.0, 1.0, 1.0));
    near(only(&trunks, &wanted, 2.0).length, 2.0);
    wanted.forced = vec![1];
    near(only(&trunks, &wanted, 2.0).length, 6.0);
    wanted.forced = vec![0, 1];
    near(only(&trunks, &wanted, 2.0).length, 8.0);
}

/// A trunk that runs once around and joins itself where it started: the short way over the join.
#[test]
fn ring_goes_the_short_way_round() {
    let ring = trunk(&[
        at(0.0, 0.0, 0.0),
        at(2.0, 0.0, 0.0),
        at(2.0, 2.0, 0.0),
        at(0.0, 2.0, 0.0),
        at(0.0, 0.0, 0.0),
    ]);
    let mut wanted = wire(at(0.5, 0.0, 0.0), at(0.0, 0.5, 0.0));
    for forced in [vec![], vec![0]] {
        wanted.forced = forced;
        near(only(std::slice::from_ref(&ring), &wanted, 3.0).length, 1.0);
    }
}

/// Three wires in one trunk along x: from 0 to 3, 1 to 4, and 2 to 6 m. Stretches by hand:
/// 0–1 {0}, 1–2 {0 1}, 2–3 {0 1 2}, 3–4 {1 2}, 4–6 {2}. With 2, 1 and 4 conductors: 7 at the fullest.
/// Of stretches at least 2 m long, wire 0 has 2 + 1 = 3 over 1–3; wire 2 has 5 over 2–4.
#[test]
fn stretches_by_hand() {
    let along = trunk(&[at(0.0, 0.0, 1.0), at(10.0, 0.0, 1.0)]);
    let ends = [(0.0, 3.0), (1.0, 4.0), (2.0, 6.0)];
    let wires = ends.map(|(from, to)| wire(at(from, 0.0, 1.0), at(to, 0.0, 1.0)));
    let found = routes(&[along], &wires, &options(2.0)).unwrap();
    let stretches: Vec<(f64, f64, Vec<usize>)> = (found.stretches.iter())
        .map(|stretch| {
            (
                stretch.from.metres(),
                stretch.to.metres(),
                stretch.wires.clone(),
            )
        })
        .collect();
    let expected = [
        (0.0, 1.0, vec![0]),
        (1.0, 2.0, vec![0, 1]),
        (2.0, 3.0, vec![0, 1, 2]),
        (3.0, 4.0, vec![1, 2]),
        (4.0, 6.0, vec![2]),
    ];
    assert_eq!(stretches, expected);
    let fullest = |wire: usize, metres: f64| {
        let all = found.fullest(wire, &[2, 1, 4], Length::from_metres(metres));
        all.iter()
            .map(|full| (full.conductors, full.from.metres(), full.to.metres()))
            .collect::<Vec<_>>()
    };
    assert_eq!(fullest(0, 0.0), [(7, 2.0, 3.0)]);
    assert_eq!(fullest(0, 2.0), [(3, 1.0, 3.0)]);
    assert_eq!(fullest(2, 2.0), [(5, 2.0, 4.0)]);
    assert_eq!(fullest(1, 4.0), []);
}

/// 6 m bare, 5 % for bends, 150 mm drop loop, 40 and 60 mm in the terminations:
/// 6 + 0.3 + 0.15 + 0.1 = 6.55 m.
#[test]
fn cut_length_by_hand() {
    let allowance = Allowance {
        bend_slack: Ratio::from_percent(5.0),
        drop_loop: Length::from_millimetres(150.0),
        terminations: [40.0, 60.0].map(Length::from_millimetres),
    };
    let cut = cut_length(Length::from_metres(6.0), &allowance).unwrap();
    near(cut.slack, 0.3);
    near(cut.terminations, 0.1);
    near(cut.total, 6.55);
    let wrong = Allowance {
        drop_loop: Length::from_metres(-0.1),
        ..allowance
    };
    assert!(cut_length(Length::from_metres(6.0), &wrong).is_err());
}

#[test]
fn nonsense_is_refused_and_unfinished_input_is_not() {
    let empty = [
        trunk(&[]),
        trunk(&[at(1.0, 1.0, 1.0)]),
        trunk(&[at(1.0, 1.0, 1.0); 3]),
    ];
    let wanted = wire(at(0.0, 0.0, 0.0), at(1.0, 2.0, 3.0));
    near(only(&empty, &wanted, 2.0).length, 6.0);
    assert!(
        only(&empty, &wire(wanted.from, wanted.from), 2.0)
            .legs
            .is_empty()
    );
    let forced = |trunk: usize| Wire {
        forced: vec![trunk],
        ..wanted.clone()
    };
    for (trunks, wire, factor) in [
        (empty.to_vec(), forced(1), 2.0),
        (empty.to_vec(), forced(9), 2.0),
        (empty.to_vec(), wanted.clone(), 0.9),
        (empty.to_vec(), wanted.clone(), f64::NAN),
        (vec![trunk(&[at(f64::NAN, 0.0, 0.0)])], wanted.clone(), 2.0),
        (vec![], wire_with_infinite_end(), 2.0),
    ] {
        assert!(routes(&trunks, &[wire], &options(factor)).is_err());
    }
}

fn wire_with_infinite_end() -> Wire {
    wire(at(0.0, 0.0, 0.0), at(f64::INFINITY, 0.0, 0.0))
}

fn a_point() -> impl Strategy<Value = Point> {
    (0.0..6.0_f64, -1.2..1.2_f64, 0.0..2.4_f64).prop_map(|(x, y, z)| at(x, y, z))
}

fn a_trunk() -> impl Strategy<Value = Trunk> {
    prop::collection::vec(a_point(), 1..5).prop_map(|path| Trunk { path })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Laws of every way, on trunks that slope anyhow.
    #[test]
    fn laws_of_ways(
        trunks in prop::collection::vec(a_trunk(), 0..6),
        more in a_trunk(),
        ends in prop::collection::vec((a_point(), a_point()), 1..6),
        factor in 1.0..4.0_f64,
    ) {
        let wires: Vec<Wire> = ends.iter().map(|&(from, to)| wire(from, to)).collect();
        let back: Vec<Wire> = ends.iter().map(|&(from, to)| wire(to, from)).collect();
        let found = routes(&trunks, &wires, &options(factor)).unwrap();
        let other_way = routes(&trunks, &back, &options(factor)).unwrap();
        let extended: Vec<Trunk> = trunks.iter().cloned().chain([more]).collect();
        let with_more = routes(&extended, &wires, &options(factor)).unwrap();
        let dearer = routes(&trunks, &wires, &options(factor * 1.5)).unwrap();
        for (index, way) in found.ways.iter().enumerate() {
            let (from, to) = ends[index];
            let sum: f64 = way.legs.iter().map(|leg| leg.length.metres()).sum();
            prop_assert!((way.length.metres() - sum).abs() < ROUNDING);
            prop_assert!(way.length.metres() + ROUNDING >= from.distance(to).metres());
            let axes = (to - from).length_along_axes().metres();
            prop_assert!(way.weighted.metres() <= factor * axes + ROUNDING);
            let again = &other_way.ways[index];
            prop_assert!((way.weighted - again.weighted).metres().abs() < ROUNDING);
            prop_assert!((way.open - again.open).metres().abs() < 1e-6);
            prop_assert!(with_more.ways[index].weighted.metres() <= way.weighted.metres() + ROUNDING);
            prop_assert!(dearer.ways[index].weighted.metres() + ROUNDING >= way.weighted.metres());
            prop_assert!(dearer.ways[index].open.metres() <= way.open.metres() + 1e-6);
            let mut here = from;
            for leg in &way.legs {
                prop_assert!(leg.points[0].distance(here).metres() < 1e-6);
                let steps = leg.points.windows(2).map(|pair| pair[0].distance(pair[1]).metres());
                prop_assert!((steps.sum::<f64>() - leg.length.metres()).abs() < ROUNDING);
                here = leg.points[leg.points.len() - 1];
            }
            prop_assert!(here.distance(to).metres() < 1e-6);
        }
        let in_trunks: f64 = found.stretches.iter()
            .map(|stretch| (stretch.to - stretch.from).metres() * stretch.wires.len() as f64).sum();
        let of_ways: f64 = found.ways.iter().map(run_in_trunks).sum();
        prop_assert!(in_trunks <= of_ways + 1e-6, "a wire twice in one place counts once");
        prop_assert!(in_trunks >= of_ways - 1e-6);
    }
}

/// What a way runs along trunks, gaps at joins left out [m].
fn run_in_trunks(way: &Way) -> f64 {
    let spans = way.legs.iter().map(|leg| match leg.course {
        Course::Open => 0.0,
        Course::Trunk { from, to, .. } => (to - from).metres().abs(),
    });
    spans.sum()
}
