//! Linings as people ask for them: a whole wall, a hand saw only, a barrel roof, nonsense.
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
use wainwright_units::{Length, Mass};

/// Side wall of a box of 12 ft: ribs at 16 in, a window, a vent, battens, foam, planks.
fn side_wall() -> (Surface, Vec<Layer>) {
    let mut surface = wall(3657.6, 1828.8, 406.4);
    surface.openings = vec![
        opening(1300.0, 800.0, 760.0, 510.0),
        Opening {
            rect: rect(3000.0, 200.0, 150.0, 150.0),
            round: true,
        },
    ];
    let battens = FurringOptions {
        width: mm(38.0),
        material: pine(19.0),
        spacing: mm(406.4),
        spaced: Spaced::Even,
        close_ends: true,
        round_openings: true,
        longest: mm(2438.4),
        least_piece: mm(50.0),
    };
    let foam = FoamOptions {
        material: Material {
            thickness: mm(38.1),
            density_kg_m3: 30.0,
        },
        clearance: mm(5.0),
        sheet: (mm(2438.4), mm(1219.2)),
        least_piece: mm(40.0),
        bead_spacing: mm(300.0),
    };
    let planks = PlankOptions {
        runs: Direction::Height,
        edge_gap: mm(3.0),
        end_gap: mm(3.0),
        opening_gap: mm(3.0),
        hidden_edge: mm(15.0),
        hidden_opening: mm(20.0),
        joint_worth: mm(5000.0),
        stock: [2438.4, 3048.0]
            .map(|length| StockLength {
                length: mm(length),
                price: 0.0,
            })
            .to_vec(),
        ..level(130.175)
    };
    let layers = vec![
        Layer::Foam(foam),
        Layer::Furring(battens),
        Layer::Planks(Box::new(planks)),
    ];
    (surface, layers)
}

fn lay_planks(surface: &Surface, backing: &Backing, options: &PlankOptions) -> Planks {
    planks(surface, backing, options).unwrap()
}

#[test]
fn a_whole_wall() {
    let (surface, layers) = side_wall();
    let lining = line(&surface, &layers).unwrap();
    near(lining.depth.millimetres(), 31.0, 1e-9);
    let masses: f64 = lining
        .layers
        .iter()
        .map(|laid| laid.mass().kilograms())
        .sum();
    near(lining.load.mass.kilograms(), masses, 1e-9);
    near(lining.kg_m2, masses / (3.6576 * 1.8288), 1e-9);
    let [
        Laid::Foam(foam),
        Laid::Furring(battens),
        Laid::Planks(planks),
    ] = &lining.layers[..]
    else {
        panic!("{:?}", lining.layers);
    };
    assert!(foam.pieces.len() >= 9, "nine bays between ten ribs");
    assert!(
        battens
            .battens
            .iter()
            .any(|one| one.role == BattenRole::Opening(0))
    );
    // Upright planks of 1.82 m come from boards of 2.44 m without a joint, on level battens; where a
    // joint only has to save 0.3 m, there are joints and less to buy.
    assert!(planks.planks.iter().all(|one| !one.ends_at_joint));
    let Layer::Planks(mut options) = layers[2].clone() else {
        panic!("no planks");
    };
    options.joint_worth = mm(300.0);
    let thrifty = lay_planks(&surface, &battens.backing(), &options);
    let joints = thrifty
        .planks
        .iter()
        .filter(|one| one.ends_at_joint)
        .count();
    let saved = planks.estimate.bought - thrifty.estimate.bought;
    assert!(
        joints > 0 && saved >= mm(300.0 * joints as f64),
        "{joints} {saved:?}"
    );
    assert!(planks.widest_span <= mm(406.4));
    assert_eq!(planks.loose_ends, 0, "{:?}", planks.loose_ends);
    // Full boards at 12 mm and 445 kg/m³, less openings and notches: never more than the wall's.
    let whole = 3.6576 * 1.8288 * 0.012 * 445.0;
    let mass = totals(planks.planks.iter().map(|one| &one.piece)).mass;
    assert!(mass < Mass::from_kilograms(whole) && mass > Mass::from_kilograms(0.85 * whole));
    let numbers: Vec<usize> = planks.planks.iter().map(|one| one.piece.number).collect();
    assert_eq!(numbers, (1..=numbers.len()).collect::<Vec<_>>());
}

/// 1828.8 mm less 6 mm of gaps is 14 courses of 5 1/8 in and 0.35 mm, or with rips 15.
#[test]
fn somebody_with_a_hand_saw() {
    let surface = wall(2438.4, 1828.8, 406.4);
    let options = |can_rip: bool, hidden: f64| PlankOptions {
        edge_gap: mm(3.0),
        hidden_edge: mm(hidden),
        can_rip,
        ..level(130.175)
    };
    let lay = |can_rip, hidden| {
        planks(&surface, &surface.rib_backing(), &options(can_rip, hidden)).unwrap()
    };
    let table_saw = lay(true, 10.0);
    assert_eq!((table_saw.fit, table_saw.rips), (Fit::Balanced, 2));
    let told = table_saw.other.unwrap();
    assert_eq!((told.rips, told.boards()), (0, 14));
    let hand_saw = lay(false, 10.0);
    assert!(matches!(hand_saw.fit, Fit::HiddenByTrim { .. }));
    assert_eq!((hand_saw.rips, hand_saw.lengthwise), (0, Length::ZERO));
    assert!(hand_saw.shortfalls.is_empty());
    let instead = hand_saw.other.unwrap();
    assert_eq!((instead.rips, instead.boards()), (2, 15));
    // Without a trim that hides it there is no way, and that is said.
    let bare = lay(false, 0.0);
    assert!(
        bare.shortfalls
            .contains(&Shortfall::NeedsRips { pieces: 2 })
    );
    // Unless courses may be set off a little, or lie over one another.
    let loosened = PlankOptions {
        loosen: mm(1.0),
        ..options(false, 0.0)
    };
    let loosened = planks(&surface, &surface.rib_backing(), &loosened).unwrap();
    let Fit::Loosened { per_course } = loosened.fit else {
        panic!("{:?}", loosened.fit);
    };
    near(
        per_course.millimetres() * 13.0,
        1822.8 - 14.0 * 130.175,
        1e-9,
    );
    let lapped = PlankOptions {
        may_lap: true,
        ..options(false, 0.0)
    };
    let lapped = planks(&surface, &surface.rib_backing(), &lapped).unwrap();
    assert!(matches!(lapped.fit, Fit::Lapped { .. }));
    assert_eq!((lapped.rips, lapped.planks.len()), (0, 15));
    // The board that is lapped weighs as much as any other.
    let last = lapped.planks.last().unwrap().piece.mass.kilograms();
    near(last, lapped.planks[0].piece.mass.kilograms(), 1e-12);
}

trait Boards {
    fn boards(&self) -> usize;
}

impl Boards for OtherWay {
    fn boards(&self) -> usize {
        self.estimate.boards.iter().sum()
    }
}

/// A barrel roof of 1.9 m, 120 mm higher in the middle, boards along the trailer: laid out by the
/// length of the arc, no course missing at the far edge.
#[test]
fn a_barrel_roof() {
    let bow = Bow::from_rise(mm(1900.0), mm(120.0)).unwrap();
    let surface = Surface {
        width: mm(3600.0),
        height: bow.developed(),
        ribs_run: Direction::Height,
        ..wall(3600.0, 1900.0, 600.0)
    };
    let laid = planks(&surface, &surface.rib_backing(), &level(130.0)).unwrap();
    let end = laid.courses.edges.last().copied().unwrap();
    near(end.millimetres(), bow.developed().millimetres(), 1e-9);
    let top = bow.point(bow.developed() * 0.5).1;
    near(top.millimetres(), 120.0, 1e-9);
    // 3.6 m from boards of 2.44 m: every course is joined, on a rib.
    assert!(laid.planks.iter().filter(|one| one.ends_at_joint).count() >= 15);
    assert!(laid.shortfalls.is_empty(), "{:?}", laid.shortfalls);
}

/// What is installed keeps its numbers: the same wall gives the same planks, and what is left to cut
/// is the rest of the list.
#[test]
fn half_done() {
    let surface = wall(3600.0, 1300.0, 400.0);
    let lay = || planks(&surface, &surface.rib_backing(), &level(130.0)).unwrap();
    let (before, after) = (lay(), lay());
    assert_eq!(before, after);
    let left = after.planks.iter().filter(|one| one.piece.number > 9);
    let boards: Vec<BoardPlan> = left
        .map(|one| BoardPlan {
            length: mm(2440.0),
            pieces: vec![one.length],
        })
        .collect();
    let need = boards.len();
    let remaining = Remaining {
        boards,
        spare: vec![],
        kerf: mm(3.0),
        spoil: wainwright_units::Ratio::from_percent(5.0),
        defect: wainwright_units::Ratio::from_percent(3.0),
    };
    let none = shortage(&remaining, 2000, 7).unwrap();
    let (spares, odds) = spares_for(
        &remaining,
        mm(2440.0),
        wainwright_units::Ratio::from_percent(5.0),
        10,
        2000,
        7,
    )
    .unwrap()
    .unwrap();
    assert!(
        need > 5 && spares >= 1 && odds.share < none.share,
        "{need} {spares}"
    );
}

/// Whatever is typed, there is an answer or a refusal, never a panic, and areas are numbers.
#[test]
fn nonsense_is_refused() {
    let odd = [
        f64::NAN,
        f64::INFINITY,
        -1.0,
        0.0,
        1e-12,
        1e-3,
        1.0,
        130.0,
        2000.0,
        1e9,
    ];
    let mut refused = 0;
    for seed in 0..3000 {
        let mut random = Randomness::new(seed, 31);
        let mut any = |usual: f64| {
            if random.uniform() < 0.85 {
                return mm(usual);
            }
            mm(odd[(random.uniform() * odd.len() as f64) as usize])
        };
        let mut surface = Surface {
            width: any(1200.0),
            height: any(800.0),
            ..wall(1200.0, 800.0, 400.0)
        };
        surface.ribs[1].width = any(40.0);
        surface.ribs[2].at = any(800.0);
        surface.openings.push(Opening {
            rect: Rect {
                x: any(300.0),
                y: any(200.0),
                width: any(200.0),
                height: any(200.0),
            },
            round: false,
        });
        let options = PlankOptions {
            face: any(130.0),
            edge_gap: any(3.0),
            longest: any(2000.0),
            least_piece: any(200.0),
            hidden_edge: any(10.0),
            effort: 10,
            ..level(130.0)
        };
        let sheet = SheetOptions {
            sheet: (any(2440.0), any(1220.0)),
            grain: None,
            material: pine(5.0),
            edge_gap: any(3.0),
            joint_gap: any(3.0),
            opening_gap: any(3.0),
            least_piece: any(50.0),
            fastener_edge: any(150.0),
            fastener_field: mm(300.0),
        };
        let battens = FurringOptions {
            width: any(40.0),
            material: pine(19.0),
            spacing: any(400.0),
            spaced: Spaced::FromStart,
            close_ends: true,
            round_openings: true,
            longest: any(2000.0),
            least_piece: any(50.0),
        };
        let backing = surface.rib_backing();
        let laid = planks(&surface, &backing, &options);
        refused += usize::from(laid.is_err());
        if let Ok(laid) = laid {
            assert!(laid.areas.pieces.square_metres().is_finite(), "{seed}");
        }
        refused += usize::from(sheets_on(&surface, &backing, &sheet).is_err());
        refused += usize::from(furring(&surface, &battens).is_err());
        refused += usize::from(trims(&surface, any(50.0), &Side::ALL, true).is_err());
    }
    assert!(refused > 1000, "{refused}");
}
