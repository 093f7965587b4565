//! `lining` against published numbers and cases worked out by hand.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod lining_support;

use lining_support::*;
use wainwright_engines::lining::*;
use wainwright_engines::tie_down::{lag_withdrawal, screw_withdrawal};
use wainwright_units::{Length, Ratio, Temperature};

/// Planks of a 1×6 of the trade (covers 5 1/8 in) over a width; runs level on a wall of 8 ft.
fn trade(width_inches: f64, least_rip: f64) -> Planks {
    let surface = wall(2438.4, width_inches * 25.4, 406.4);
    let options = PlankOptions {
        least_rip: inches(least_rip),
        ..level(5.125 * 25.4)
    };
    planks(&surface, &surface.rib_backing(), &options).unwrap()
}

/// 74 in of 5 1/8 in: ⌈14.44⌉ = 15 courses, the last 74 − 14 × 5.125 = 2.25 in, or 3.6875 in at
/// both ends; 70.5 in: 14 courses, the last 3.875 in.
#[test]
fn courses_of_the_trade() {
    let plain = trade(74.0, 2.0);
    assert_eq!((plain.fit, plain.planks.len()), (Fit::LastRipped, 15));
    near(plain.courses.last.inches(), 2.25, 1e-9);
    assert_eq!(plain.rips, 1);
    let balanced = trade(74.0, 2.5);
    assert_eq!((balanced.fit, balanced.planks.len()), (Fit::Balanced, 15));
    near(balanced.courses.first.inches(), 3.6875, 1e-9);
    near(balanced.courses.last.inches(), 3.6875, 1e-9);
    assert_eq!(balanced.rips, 2);
    let narrower = trade(70.5, 2.5);
    assert_eq!((narrower.fit, narrower.planks.len()), (Fit::LastRipped, 14));
    near(narrower.courses.last.inches(), 3.875, 1e-9);
    let even = trade(71.75, 2.5);
    assert_eq!((even.fit, even.rips), (Fit::FullBoards, 0));
}

/// Western Wood Products Association: 3.84, 2.34, 1.75, 1.35 ft and 1.28, 1.17, 1.16, 1.13 board ft
/// for a square foot; printed with two decimals.
#[test]
fn factors_are_twelve_and_nominal_over_the_face() {
    for (nominal, face, lineal, board) in [
        (4.0, 3.125, 3.84, 1.28),
        (6.0, 5.125, 2.34, 1.17),
        (8.0, 6.875, 1.75, 1.16),
        (10.0, 8.875, 1.35, 1.13),
    ] {
        let per_foot = lineal_per_area(inches(face)).unwrap() * 0.3048;
        near(per_foot, lineal, 0.0051);
        near(per_foot, 12.0 / face, 1e-12);
        near(
            board_feet_per_square_foot(inches(nominal), inches(face)).unwrap(),
            board,
            0.0051,
        );
    }
}

/// Wood Handbook equation 4-5 at 70 °F, worked out outside this program to two decimals.
#[test]
fn moisture_content_in_air() {
    for (humidity, percent) in [(0.30, 6.17), (0.50, 9.24), (0.65, 11.96), (0.80, 15.99)] {
        let found = emc_percent(
            Temperature::from_celsius(21.1),
            Ratio::from_fraction(humidity),
        );
        near(found.unwrap(), percent, 0.0051);
    }
    assert_eq!(
        emc_percent(Temperature::from_celsius(20.0), Ratio::ZERO),
        Ok(0.0)
    );
    assert!(emc_percent(Temperature::from_celsius(20.0), Ratio::from_fraction(1.0)).is_err());
}

/// 130 mm × 0.00234 × 6 = 1.8252 mm; fifteen of them 27.378 mm.
#[test]
fn movement_of_a_wall_of_aspen() {
    let one = movement(mm(130.0), 0.002_34, 7.0, 13.0).unwrap();
    near(one.change.millimetres(), 1.8252, 1e-9);
    assert!(one.in_range);
    let planking = Planking {
        face: mm(130.0),
        courses: 15,
        per_percent: 0.002_34,
        laid_percent: 7.0,
        driest_percent: 6.0,
        wettest_percent: 13.0,
        loosened: Length::ZERO,
    };
    let tight = gap_advice(&planking).unwrap();
    near(tight.swell.millimetres(), 27.378, 1e-9);
    near(tight.edge_gap.millimetres(), 13.689, 1e-9);
    near(tight.shrink_each.millimetres(), 130.0 * 0.002_34, 1e-9);
    // 14 joints of 1/8 in take up 44 mm: nothing is left for the edges.
    let loosened = Planking {
        loosened: inches(0.125),
        ..planking
    };
    assert_eq!(gap_advice(&loosened).unwrap().edge_gap, Length::ZERO);
    assert!(!movement(mm(130.0), 0.002_34, 7.0, 16.0).unwrap().in_range);
}

/// Thickness times density, printed with two decimals; white ash as printed without.
#[test]
fn mass_of_layers() {
    for (thickness, density, printed) in [
        (12.7, 445.0, 5.65),
        (18.26, 460.0, 8.40),
        (38.1, 30.0, 1.14),
        (38.1, 32.5, 1.24),
        (0.76, 2800.0, 2.13),
        (0.8, 7800.0, 6.24),
    ] {
        let material = Material {
            thickness: mm(thickness),
            density_kg_m3: density,
        };
        near(areal_mass(&material).unwrap(), printed, 0.0051);
    }
    // 3 lb/ft² for each inch is 14.647 kg/m²; as a density it was rounded to 1 kg/m³.
    let rule = Material {
        thickness: inches(1.0),
        density_kg_m3: 577.0,
    };
    near(areal_mass(&rule).unwrap(), 14.647, 0.5 * 0.0254 + 0.0005);
    near(
        wood_density(Ratio::from_fraction(0.605), 12.0).unwrap(),
        678.0,
        0.5,
    );
}

/// Allowable withdrawal by the National Design Specification: 2850 G² D and 1800 G^1.5 D^0.75 lbf
/// for each inch of thread, the values worked out apart.
#[test]
fn screws_in_furring() {
    let pounds = |force: wainwright_units::Force| force.newtons() / 4.448_221_615_260_5;
    let screw = |gravity: f64, diameter: f64, thread: f64| {
        let force = screw_withdrawal(
            Ratio::from_fraction(gravity),
            inches(diameter),
            inches(thread),
        );
        pounds(force.unwrap())
    };
    near(screw(0.45, 0.190, 1.0), 109.7, 0.05);
    // Printed without decimals.
    near(screw(0.36, 0.164, 0.75), 45.0, 0.5);
    let lag = lag_withdrawal(Ratio::from_fraction(0.5), inches(0.25), inches(1.0)).unwrap();
    near(pounds(lag), 225.0, 0.5);
}

#[test]
fn arcs() {
    // A half circle, and a sixth of one: chord and radius equal.
    let half = Bow::from_rise(mm(2000.0), mm(1000.0)).unwrap();
    near(
        half.developed().millimetres(),
        1000.0 * std::f64::consts::PI,
        1e-9,
    );
    let sixth = Bow::from_radius(mm(2000.0), mm(2000.0)).unwrap();
    near(
        sixth.rise().millimetres(),
        2000.0 * (1.0 - 0.75_f64.sqrt()),
        1e-9,
    );
    near(
        sixth.developed().millimetres(),
        2000.0 * std::f64::consts::PI / 3.0,
        1e-9,
    );
    // Flat arcs: longer than the chord by 8 s²/(3 c), to the next term 32 s⁴/(5 c³).
    let flat = Bow::from_rise(mm(2000.0), mm(50.0)).unwrap();
    near(flat.slack().millimetres(), 8.0 * 2500.0 / 6000.0, 0.0051);
    let middle = flat.point(flat.developed() * 0.5);
    near(middle.0.millimetres(), 1000.0, 1e-9);
    near(middle.1.millimetres(), 50.0, 1e-9);
    near(flat.point(flat.developed()).0.millimetres(), 2000.0, 1e-9);
    assert_eq!(
        Bow::from_rise(mm(2000.0), Length::ZERO).unwrap().slack(),
        Length::ZERO
    );
    assert!(Bow::from_radius(mm(2000.0), mm(999.0)).is_err());
}

/// A wall of 1200 by 600 mm with a window of 300 by 200 mm in the middle of it: six courses of
/// 100 mm; the window takes a whole stretch of the third and fourth.
#[test]
fn a_window_by_hand() {
    let mut surface = wall(1200.0, 600.0, 400.0);
    surface.openings.push(opening(450.0, 200.0, 300.0, 200.0));
    let laid = planks(&surface, &surface.rib_backing(), &level(100.0)).unwrap();
    let lengths: Vec<f64> = laid
        .planks
        .iter()
        .map(|one| one.length.millimetres())
        .collect();
    assert_eq!(laid.planks.len(), 8);
    near(lengths.iter().sum(), 4.0 * 1200.0 + 4.0 * 450.0, 1e-9);
    assert_eq!((laid.notches, laid.rips), (0, 0));
    near(laid.areas.pieces.square_metres(), 0.66, 1e-12);
    // Four ribs under each of four full courses, two under each of four short ones.
    assert_eq!(laid.fasteners, 16 + 8);
    // The inner ends of the short ones, at 450 and 750 mm, hang 30 mm beyond the ribs.
    assert_eq!(laid.loose_ends, 4);
    // 20 mm lower, the window notches the second course and leaves 80 mm of the fourth open, which
    // gets a notch as well.
    surface.openings[0] = opening(450.0, 180.0, 300.0, 200.0);
    let laid = planks(&surface, &surface.rib_backing(), &level(100.0)).unwrap();
    assert_eq!((laid.planks.len(), laid.notches), (7, 2));
    near(laid.lengthwise.millimetres(), 600.0, 1e-9);
    let notched = laid
        .planks
        .iter()
        .find(|one| !one.piece.cuts.is_empty())
        .unwrap();
    near(notched.piece.area.square_metres(), 0.12 - 0.3 * 0.02, 1e-12);
    // Centre of a plank of 1200 by 100 mm less 300 by 20 mm at its upper edge.
    let height = (0.12 * 150.0 - 0.006 * 190.0) / 0.114;
    near(notched.piece.centre.1.millimetres(), height, 1e-9);
    near(notched.piece.mass.kilograms(), 0.114 * 0.012 * 445.0, 1e-12);
}

/// Half a sheet wide ribs at 406.4 mm: a wall of 3657.6 mm takes three sheets of 1219.2 mm upright,
/// each joint on the third rib.
#[test]
fn sheets_end_on_ribs() {
    let surface = wall(3657.6, 2438.4, 406.4);
    let options = SheetOptions {
        sheet: (inches(96.0), inches(48.0)),
        grain: None,
        material: pine(5.0),
        edge_gap: Length::ZERO,
        joint_gap: Length::ZERO,
        opening_gap: Length::ZERO,
        least_piece: mm(100.0),
        fastener_edge: mm(152.4),
        fastener_field: mm(304.8),
    };
    let sheets = sheets_on(&surface, &surface.rib_backing(), &options).unwrap();
    let joints: Vec<f64> = sheets
        .joints
        .iter()
        .map(|one| one.inches().round())
        .collect();
    assert_eq!(joints, [48.0, 96.0]);
    assert_eq!(sheets.pieces.len(), 3);
    assert!(sheets.shortfalls.is_empty());
    // 96 in: 16 spaces of 6 in on both edges, 8 of 12 in on both ribs between.
    assert_eq!(sheets.fasteners, 3 * (2 * 17 + 2 * 9));
}

/// Battens of 40 mm on a wall of 2000 mm at 400 mm: centres from 20 to 1980 mm, five spaces of 392 mm.
#[test]
fn battens_by_hand() {
    let surface = wall(2400.0, 2000.0, 400.0);
    let options = FurringOptions {
        width: mm(40.0),
        material: pine(19.0),
        spacing: mm(400.0),
        spaced: Spaced::Even,
        close_ends: false,
        round_openings: true,
        longest: mm(2000.0),
        least_piece: mm(50.0),
    };
    let laid = furring(&surface, &options).unwrap();
    // 2400 mm is more than 2000 mm: joined on the rib at 2000 mm.
    assert_eq!(laid.battens.len(), 12);
    let Backing::Lines(lines) = laid.backing() else {
        panic!("no lines");
    };
    let mut at: Vec<f64> = lines.iter().map(|line| line.at.millimetres()).collect();
    at.sort_by(f64::total_cmp);
    at.dedup_by(|next, kept| (*next - *kept).abs() < 1e-6);
    assert_eq!(at.len(), 6);
    for (index, at) in at.iter().enumerate() {
        near(*at, 20.0 + 392.0 * index as f64, 1e-9);
    }
    // Six ribs to the joint and on it, two from it on, for each of six rows.
    assert_eq!(laid.fasteners, 6 * (6 + 2));
    let framed = Surface {
        openings: vec![opening(600.0, 500.0, 500.0, 300.0)],
        ..surface
    };
    let laid = furring(&framed, &options).unwrap();
    let frame = laid
        .battens
        .iter()
        .filter(|one| one.role == BattenRole::Opening(0));
    let lengths: Vec<f64> = frame.map(|one| one.length.millimetres().round()).collect();
    assert_eq!(lengths, [580.0, 580.0, 300.0, 300.0]);
}

/// Three bays between four ribs of 40 mm at 400 mm; sheets of 1200 by 600 mm; 5 mm clear all round.
#[test]
fn foam_by_hand() {
    let surface = wall(1200.0, 1000.0, 400.0);
    let options = FoamOptions {
        material: Material {
            thickness: mm(38.1),
            density_kg_m3: 30.0,
        },
        clearance: mm(5.0),
        sheet: (mm(1200.0), mm(600.0)),
        least_piece: mm(50.0),
        bead_spacing: mm(300.0),
    };
    let laid = foam(&surface, &surface.rib_rects(), &options).unwrap();
    assert_eq!(laid.pieces.len(), 3);
    for piece in &laid.pieces {
        near(piece.rect.width.millimetres(), 350.0, 1e-9);
        near(piece.rect.height.millimetres(), 990.0, 1e-9);
    }
    near(laid.tape.metres(), 3.0 * 2.0 * 1.36, 1e-9);
    near(laid.adhesive.metres(), 3.0 * 2.0 * 0.99, 1e-9);
}

#[test]
fn trims_by_hand() {
    let mut surface = wall(2000.0, 1000.0, 400.0);
    // A door from the floor, and a round vent.
    surface.openings.push(opening(300.0, 0.0, 600.0, 800.0));
    surface.openings.push(Opening {
        rect: rect(1400.0, 400.0, 200.0, 200.0),
        round: true,
    });
    let found = trims(&surface, mm(50.0), &[Side::Bottom, Side::Top], true).unwrap();
    let lengths: Vec<(TrimPlace, f64)> = found
        .iter()
        .map(|trim| (trim.place, trim.length.millimetres().round()))
        .collect();
    assert_eq!(
        lengths,
        [
            (TrimPlace::Edge(Side::Bottom), 300.0),
            (TrimPlace::Edge(Side::Bottom), 1100.0),
            (TrimPlace::Edge(Side::Top), 2000.0),
            (TrimPlace::Opening(0, Side::Right), 850.0),
            (TrimPlace::Opening(0, Side::Top), 700.0),
            (TrimPlace::Opening(0, Side::Left), 850.0),
            (TrimPlace::Ring(1), 628.0),
        ]
    );
}
