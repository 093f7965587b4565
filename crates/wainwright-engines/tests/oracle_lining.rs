//! `lining` against painting every piece on a grid, and against trying every way.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod lining_support;

use lining_support::*;
use wainwright_engines::lining::*;
use wainwright_engines::weather::Randomness;
use wainwright_units::{Area, Length};

const WALLS: u64 = 2000;

/// Paints pieces and compares with what the engine says became of the area.
fn check_grid(surface: &Surface, pieces: &[&Piece], areas: &Areas, seed: u64) {
    let mut grid = Grid::of(surface);
    for piece in pieces {
        grid.paint(piece);
    }
    assert!(grid.thickest() <= 1, "{seed}: pieces lie on one another");
    let painted = grid.painted(1);
    near(areas.pieces.square_metres(), painted, 1e-9);
    for opening in &surface.openings {
        grid.fill(&opening.rect, 2);
    }
    near(grid.painted(1), painted, 1e-9);
    near(areas.openings.square_metres(), grid.painted(2), 1e-9);
    let parts = [areas.pieces, areas.openings, areas.gaps, areas.left_out];
    let sum: f64 = parts.into_iter().map(Area::square_metres).sum();
    near(sum, areas.surface.square_metres(), 1e-9);
}

/// Options of random planks on a grid of 10 mm.
fn random_level(random: &mut Randomness) -> PlankOptions {
    PlankOptions {
        edge_gap: mm(tens(random, 0, 10)),
        end_gap: mm(tens(random, 0, 10)),
        opening_gap: mm(tens(random, 0, 10)),
        hidden_edge: mm(tens(random, 0, 40)),
        hidden_opening: mm(tens(random, 0, 20)),
        least_piece: mm(tens(random, 0, 300)),
        can_rip: random.uniform() < 0.5,
        may_lap: random.uniform() < 0.3,
        effort: 60,
        ..level(tens(random, 80, 180))
    }
}

/// On 2000 walls: no piece lies on another or over an opening, areas agree with the grid, joints are
/// on ribs, the stagger holds, and it is rarely impossible.
#[test]
fn planks_on_a_grid() {
    let (mut joints, mut against, mut notches, mut plain) = (0, 0, 0, 0);
    for seed in 0..WALLS {
        let mut random = Randomness::new(seed, 11);
        let surface = random_wall(&mut random);
        let options = random_level(&mut random);
        let Ok(laid) = planks(&surface, &surface.rib_backing(), &options) else {
            panic!("{seed}");
        };
        let on_grid = laid.courses.edges.iter().all(|edge| {
            let cells = edge.millimetres() / CELL as f64;
            (cells - cells.round()).abs() < 1e-6
        });
        if on_grid {
            let pieces: Vec<&Piece> = laid.planks.iter().map(|one| &one.piece).collect();
            check_grid(&surface, &pieces, &laid.areas, seed);
        }
        notches += laid.notches;
        plain += usize::from(!options.can_rip && laid.rips == 0 && laid.fit != Fit::FullBoards);
        let reported = |shortfall: &&Shortfall| matches!(shortfall, Shortfall::Stagger { .. });
        let excused = laid.shortfalls.iter().filter(reported).count();
        against += usize::from(excused > 0);
        joints += check_joints(&surface, &laid, &options, excused == 0);
    }
    assert!(
        joints > 2000 && notches > 2000 && plain > 100,
        "{joints} {notches} {plain}"
    );
    // Narrow walls between openings with two ribs leave no choice; most have one.
    assert!(against * 20 < WALLS as usize, "{against}");
}

/// Looks at the joints of all planks again, from the ribs and the rule alone.
fn check_joints(
    surface: &Surface,
    laid: &Planks,
    options: &PlankOptions,
    staggered: bool,
) -> usize {
    let ends = laid.planks.iter().filter(|one| one.ends_at_joint);
    let joints: Vec<(usize, f64)> = ends
        .map(|one| {
            let end = one.piece.rect.x + one.piece.rect.width;
            (one.run, end.millimetres())
        })
        .collect();
    for &(_, at) in &joints {
        let mut ribs = surface.ribs.iter().map(|rib| rib.at.millimetres());
        assert!(ribs.any(|rib| (rib - at).abs() < 1e-6), "{at} is on no rib");
    }
    for (index, one) in joints.iter().enumerate() {
        for other in joints.iter().skip(index + 1).filter(|_| staggered) {
            let (courses, distance) = (other.0.abs_diff(one.0), (other.1 - one.1).abs());
            assert!(courses != 1 || distance >= 300.0 - 1e-6);
            assert!(
                courses == 0 || courses > 2 || distance > 150.0,
                "{courses} {distance}"
            );
        }
    }
    let board = 2440.0 + 1e-6;
    let too_long = laid
        .planks
        .iter()
        .filter(|one| one.length.millimetres() > board);
    let told = |shortfall: &&Shortfall| matches!(shortfall, Shortfall::TooLong { .. });
    assert_eq!(
        too_long.count(),
        laid.shortfalls.iter().filter(told).count()
    );
    assert!(options.least_piece.millimetres() <= 300.0);
    joints.len()
}

/// Against all starts in steps of 1 mm: a sliver is left only where every start leaves one.
#[test]
fn no_sliver_that_some_start_avoids() {
    let (mut avoidable, mut not) = (0, 0);
    for seed in 0..WALLS {
        let mut random = Randomness::new(seed, 12);
        let (height, face) = (
            between(&mut random, 60, 1500),
            between(&mut random, 60, 180),
        );
        let least = between(&mut random, 5, face - 1);
        let surface = wall(1000.0, height as f64, 400.0);
        let options = PlankOptions {
            least_rip: mm(least as f64),
            ..level(face as f64)
        };
        let laid = planks(&surface, &surface.rib_backing(), &options).unwrap();
        let fine = |width: i64| width == face || width >= least;
        let some_start = (1..=face.min(height)).any(|first| {
            let rest = (height - first) % face;
            fine(first) && (rest == 0 || rest >= least)
        });
        let width = |length: Length| (length.millimetres() * 2.0).round() as i64;
        let ends = [width(laid.courses.first), width(laid.courses.last)];
        let sliver = ends.iter().any(|&end| end < 2 * least && end != 2 * face);
        // Balanced ends may be a half millimetre wide of the whole starts tried here.
        if some_start {
            assert!(!sliver, "{seed}: {height} {face} {least} {ends:?}");
            avoidable += 1;
        } else {
            not += usize::from(sliver);
        }
    }
    assert!(avoidable > 1000 && not > 100, "{avoidable} {not}");
}

/// Notches along one opening, course lines beginning at `start` [mm].
fn notched(start: i64, count: i64, face: i64, hole: (i64, i64), height: i64, hide: i64) -> i64 {
    let courses = (0..count).map(|n| (start + n * face, start + (n + 1) * face));
    let (low, high) = (hole.0.max(0), hole.1.min(height));
    courses
        .filter(|&(from, to)| {
            let meets = low < to && high > from;
            let left = (low - from).max(to - high);
            meets && left > hide
        })
        .count() as i64
}

/// Against all starts in steps of 1 mm: a way with full boards is found where there is one, and
/// with no more notches along an opening than the best start has.
#[test]
fn full_boards_against_every_start() {
    let (mut found, mut none, mut better) = (0, 0, 0);
    for seed in 0..WALLS {
        let mut random = Randomness::new(seed, 13);
        let (height, face) = (
            between(&mut random, 300, 1500),
            between(&mut random, 60, 180),
        );
        let (hidden, hide) = (between(&mut random, 0, 40), between(&mut random, 0, 25));
        let low = between(&mut random, 20, height - 20);
        let hole = (low, low + between(&mut random, 30, 500));
        let mut surface = wall(1500.0, height as f64, 400.0);
        let window = opening(500.0, hole.0 as f64, 300.0, (hole.1 - hole.0) as f64);
        surface.openings.push(window);
        let options = PlankOptions {
            hidden_edge: mm(hidden as f64),
            hidden_opening: mm(hide as f64),
            can_rip: false,
            ..level(face as f64)
        };
        let laid = planks(&surface, &surface.rib_backing(), &options).unwrap();
        let count = height / face;
        let starts = (0..=hidden).filter(|start| {
            let end = height - start - count * face;
            count > 0 && (0..=hidden).contains(&end)
        });
        let least = starts
            .map(|start| notched(start, count, face, hole, height, hide))
            .min();
        match least {
            Some(least) => {
                assert_eq!(laid.rips, 0, "{seed}");
                let long: f64 = laid.planks.iter().map(cut_along).sum();
                assert!(
                    long <= 300.0 * least as f64 + 1e-6,
                    "{seed}: {long} {least}"
                );
                found += 1;
                better += usize::from(least == 0);
            }
            None => {
                assert!(laid.rips > 0 || laid.fit == Fit::FullBoards, "{seed}");
                none += 1;
            }
        }
    }
    assert!(
        found > 500 && none > 500 && better > 100,
        "{found} {none} {better}"
    );
}

fn cut_along(plank: &Plank) -> f64 {
    let cuts = plank.piece.cuts.iter();
    cuts.map(|cut| cut.width.millimetres()).sum()
}

/// Sheets and foam on 2000 walls, painted.
#[test]
fn sheets_and_foam_on_a_grid() {
    let (mut panels, mut loose) = (0, 0);
    for seed in 0..WALLS {
        let mut random = Randomness::new(seed, 14);
        let surface = random_wall(&mut random);
        let options = SheetOptions {
            sheet: (mm(2440.0), mm(1220.0)),
            grain: None,
            material: pine(5.0),
            edge_gap: mm(tens(&mut random, 0, 10)),
            joint_gap: mm(tens(&mut random, 0, 10)),
            opening_gap: mm(tens(&mut random, 0, 10)),
            least_piece: mm(tens(&mut random, 0, 100)),
            fastener_edge: mm(150.0),
            fastener_field: mm(300.0),
        };
        let laid = sheets_on(&surface, &surface.rib_backing(), &options).unwrap();
        let pieces: Vec<&Piece> = laid.pieces.iter().collect();
        check_grid(&surface, &pieces, &laid.areas, seed);
        for piece in &laid.pieces {
            let size = [piece.rect.width, piece.rect.height].map(|side| side.millimetres());
            let (short, long) = (size[0].min(size[1]), size[0].max(size[1]));
            assert!(long <= 2440.0 + 1e-6 && short <= 1220.0 + 1e-6, "{seed}");
        }
        let told = |one: &&Shortfall| matches!(one, Shortfall::Unsupported { .. });
        let unsupported = laid.shortfalls.iter().filter(told).count();
        for joint in laid.joints.iter().filter(|_| unsupported == 0) {
            let mut ribs = surface.ribs.iter().map(|rib| rib.at.millimetres());
            assert!(
                ribs.any(|rib| (rib - joint.millimetres()).abs() < 1e-6),
                "{seed}"
            );
        }
        panels += laid.pieces.len();
        loose += usize::from(unsupported > 0);
        check_foam(&surface, &mut random, seed);
    }
    assert!(panels > 3000 && loose == 0, "{panels} {loose}");
}

fn check_foam(surface: &Surface, random: &mut Randomness, seed: u64) {
    let options = FoamOptions {
        material: pine(38.0),
        clearance: mm(CELL as f64),
        sheet: (mm(tens(random, 400, 2440)), mm(tens(random, 300, 1220))),
        least_piece: Length::ZERO,
        bead_spacing: mm(300.0),
    };
    let laid = foam(surface, &surface.rib_rects(), &options).unwrap();
    let (one, other) = (options.sheet.0, options.sheet.1);
    let mut grid = Grid::of(surface);
    let slack = mm(1e-6);
    for piece in &laid.pieces {
        grid.paint(piece);
        let (width, height) = (piece.rect.width - slack, piece.rect.height - slack);
        let fits = width <= one && height <= other || width <= other && height <= one;
        assert!(fits, "{seed}: {piece:?}");
    }
    assert!(grid.thickest() <= 1, "{seed}");
    near(laid.areas.pieces.square_metres(), grid.painted(1), 1e-9);
    let blocked = surface.rib_rects();
    let openings = surface.openings.iter().map(|opening| &opening.rect);
    let painted = grid.painted(1);
    for rect in blocked.iter().chain(openings) {
        grid.fill(rect, 2);
    }
    near(grid.painted(1), painted, 1e-9);
}

/// Battens on 2000 walls: none on another or over an opening, and without openings none further
/// from the next than asked.
#[test]
fn battens_on_a_grid() {
    for seed in 0..WALLS {
        let mut random = Randomness::new(seed, 15);
        let surface = random_wall(&mut random);
        let options = FurringOptions {
            width: mm(40.0),
            material: pine(19.0),
            spacing: mm(tens(&mut random, 200, 600)),
            spaced: if random.uniform() < 0.5 {
                Spaced::Even
            } else {
                Spaced::FromStart
            },
            close_ends: random.uniform() < 0.5,
            round_openings: random.uniform() < 0.5,
            longest: mm(tens(&mut random, 800, 2400)),
            least_piece: mm(50.0),
        };
        let laid = furring(&surface, &options).unwrap();
        let from_start = options.spaced == Spaced::FromStart;
        if from_start {
            let pieces: Vec<&Piece> = laid.battens.iter().map(|one| &one.piece).collect();
            check_grid(&surface, &pieces, &laid.areas, seed);
        }
        for batten in &laid.battens {
            assert!(batten.length <= options.longest + mm(1e-6), "{seed}");
        }
        let bare = Surface {
            openings: vec![],
            ..surface
        };
        let laid = furring(&bare, &options).unwrap();
        let level = laid
            .battens
            .iter()
            .filter(|one| one.runs == Direction::Width);
        let mut centres: Vec<f64> = level
            .map(|one| one.piece.rect.middle().1.millimetres())
            .collect();
        centres.sort_by(f64::total_cmp);
        for pair in centres.windows(2) {
            assert!(
                pair[1] - pair[0] <= options.spacing.millimetres() + 1e-6,
                "{seed} {pair:?}"
            );
        }
    }
}
