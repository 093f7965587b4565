//! Proofs for cutting sheets: published single plates with proven optima, jobs with optima known
//! by area or by construction, kerf and trimming by hand, and saws that cannot rip.

mod cutting_jobs;

use wainwright_engines::sheets::{
    Along, Cap, Effort, Grid, Job, Node, Piece, Proof, Saw, Sheet, Trim, best_of_one, cut,
    rip_choice,
};
use wainwright_units::Length;

/// A plate whose optimum takes seconds without optimisation; the bench solves it.
const SLOW: (&str, usize) = ("gcut13", 1);

/// The optimum has to be found and proven: no tolerance.
#[test]
fn published_plates_reach_their_optima() {
    let mut solved = 0;
    for plate in cutting_jobs::plates() {
        for (column, optimum) in plate.optima.iter().enumerate() {
            let Some(optimum) = optimum else { continue };
            if (plate.name.as_str(), column) == SLOW {
                continue;
            }
            let found = best_of_one(&plate.question(column >= 2, column % 2 == 1)).unwrap();
            assert_eq!(found.value, *optimum, "{} column {column}", plate.name);
            assert_eq!(found.at_most, *optimum, "{} column {column}", plate.name);
            assert_eq!(tree_worth(&plate, &found.tree), *optimum, "{}", plate.name);
            for (count, piece) in found.counts.iter().zip(&plate.pieces) {
                assert!(column < 2 || piece.3.is_none_or(|most| *count <= most));
            }
            solved += 1;
        }
    }
    assert!(solved >= 70, "{solved}");
}

/// Value of the pieces of a tree, every rectangle checked against the size of its piece.
fn tree_worth(plate: &cutting_jobs::Plate, tree: &Node) -> u64 {
    fn walk(plate: &cutting_jobs::Plate, node: &Node, width: u32, height: u32) -> u64 {
        match node {
            Node::Offcut => 0,
            Node::Piece { kind, turned } => {
                let piece = &plate.pieces[*kind];
                let size = if *turned {
                    (piece.1, piece.0)
                } else {
                    (piece.0, piece.1)
                };
                assert_eq!(size, (width, height), "{}", plate.name);
                piece.2
            }
            Node::Cut {
                runs: Along::Height,
                at,
                first,
                second,
            } => walk(plate, first, *at, height) + walk(plate, second, width - at, height),
            Node::Cut {
                runs: Along::Width,
                at,
                first,
                second,
            } => walk(plate, first, width, *at) + walk(plate, second, width, height - at),
        }
    }
    walk(plate, tree, plate.width, plate.height)
}

#[test]
fn listed_jobs_reach_their_optima() {
    let jobs = cutting_jobs::jobs();
    assert!(jobs.len() >= 7);
    for listed in jobs {
        let plan = cut(&listed.job).unwrap();
        assert_eq!(plan.price, listed.optimum, "{}", listed.name);
        assert_eq!(plan.proof, Proof::Cheapest, "{}", listed.name);
        assert!(
            plan.at_least as f64 >= listed.bound.ceil(),
            "{}",
            listed.name
        );
        assert!(
            plan.missing.iter().all(|count| *count == 0),
            "{}",
            listed.name
        );
    }
}

fn sheet(width: u32, height: u32, price: u64) -> Sheet {
    Sheet {
        width,
        height,
        price,
        available: None,
        grain: Along::Height,
        trim: Trim::default(),
    }
}

fn piece(width: u32, height: u32, wanted: u32) -> Piece {
    Piece {
        width,
        height,
        wanted,
        grain: None,
    }
}

fn job(sheets: Vec<Sheet>, pieces: Vec<Piece>, kerf: u32) -> Job {
    Job {
        sheets,
        pieces,
        saw: Saw {
            kerf,
            can_rip: true,
            longest_cut: None,
        },
        effort: Effort::default(),
    }
}

/// 48 in by 96 in in sixteenths, kerf 1/8 in: two pieces of 24 in do not fit side by side, two of
/// 23 15/16 in do, and the saw then takes exactly what is between them.
#[test]
fn kerf_decides_whether_halves_fit() {
    let with = |width: u32| job(vec![sheet(768, 1536, 100)], vec![piece(width, 1536, 2)], 2);
    let tight = cut(&with(383)).unwrap();
    assert_eq!((tight.price, tight.proof), (100, Proof::Cheapest));
    let areas = tight.sheets[0].areas;
    assert_eq!(
        (areas.pieces, areas.dust, areas.offcuts),
        (766 * 1536, 2 * 1536, 0)
    );
    assert_eq!(tight.count.cuts, 1);
    let wide = cut(&with(384)).unwrap();
    assert_eq!((wide.price, wide.proof), (200, Proof::Cheapest));
}

/// Trimmed by 8 on all edges, 768 × 1536 leaves 752 × 1520, and four cuts are made for that.
#[test]
fn trimming_comes_first_and_is_counted() {
    let mut trimmed = job(vec![sheet(768, 1536, 100)], vec![piece(752, 1520, 1)], 2);
    trimmed.sheets[0].trim = Trim::all(8);
    let plan = cut(&trimmed).unwrap();
    assert_eq!((plan.price, plan.count.cuts, plan.count.rips), (100, 4, 2));
    let placed = plan.sheets[0].placements[0].place;
    assert_eq!(
        (placed.x, placed.y, placed.width, placed.height),
        (8, 8, 752, 1520)
    );
    // Left and right: 8 × 1536, top and bottom: 8 × 752, a quarter of each is dust.
    assert_eq!(plan.sheets[0].areas.dust, 2 * 2 * 1536 + 2 * 2 * 752);
    trimmed.pieces[0].width = 753;
    let plan = cut(&trimmed).unwrap();
    assert_eq!(plan.proof, Proof::CannotBeCut);
}

#[test]
fn grain_keeps_a_piece_from_turning() {
    let mut grained = job(vec![sheet(10, 20, 1)], vec![piece(20, 10, 1)], 0);
    assert_eq!(cut(&grained).unwrap().price, 1);
    grained.pieces[0].grain = Some(Along::Width);
    let plan = cut(&grained).unwrap();
    assert!(
        plan.sheets[0].placements[0].turned,
        "its width runs with the grain"
    );
    grained.pieces[0].grain = Some(Along::Height);
    let plan = cut(&grained).unwrap();
    assert_eq!((plan.proof, plan.missing), (Proof::CannotBeCut, vec![1]));
}

/// Four pieces across the whole sheet need three cross cuts with nothing over; pieces half as wide
/// come from half sheets without ripping, for more money.
#[test]
fn a_saw_that_cannot_rip_gets_a_plan_when_there_is_one() {
    let sheets = vec![sheet(48, 96, 50), sheet(24, 96, 30)];
    let pieces = vec![piece(48, 24, 3), piece(24, 48, 1)];
    let choice = rip_choice(&job(sheets, pieces, 0)).unwrap();
    assert_eq!(
        (choice.with_rips.price, choice.with_rips.proof),
        (50, Proof::Cheapest)
    );
    // The last quarter of the sheet turned gives the piece of 24 by 48 as 48 by 24.
    assert_eq!(choice.costs_more, Some(0));
    assert_eq!(choice.without_rips.count.rips, 0);
    assert_eq!(choice.without_rips.count.cuts, 3);

    let sheets = vec![sheet(48, 96, 50), sheet(24, 96, 30)];
    let pieces = vec![piece(48, 24, 2), piece(24, 30, 2)];
    let mut wanted = job(sheets.clone(), pieces, 0);
    let choice = rip_choice(&wanted).unwrap();
    assert_eq!(choice.with_rips.price, 50);
    // Two half sheets: 48 + 48 long on one (turned), 30 + 30 long on the other.
    assert_eq!(
        (choice.without_rips.price, choice.costs_more),
        (60, Some(10))
    );
    // The large ones may not turn: they need the whole sheet, the small ones a half sheet.
    wanted.pieces[0].grain = Some(Along::Height);
    let choice = rip_choice(&wanted).unwrap();
    assert_eq!(
        (choice.without_rips.price, choice.costs_more),
        (80, Some(30))
    );
    assert_eq!(choice.without_rips.proof, Proof::Cheapest);
    assert_eq!(choice.without_rips.count.rips, 0);

    let choice = rip_choice(&job(sheets, vec![piece(20, 20, 1)], 0)).unwrap();
    assert_eq!(choice.without_rips.proof, Proof::CannotBeCut);
    assert_eq!(choice.costs_more, None);
}

/// A saw that reaches across the sheet but not along it: first strips, then cuts inside them.
#[test]
fn a_short_saw_cuts_strips_first() {
    let mut short = job(vec![sheet(48, 96, 50)], vec![piece(24, 48, 4)], 0);
    short.saw.longest_cut = Some(48);
    let plan = cut(&short).unwrap();
    assert_eq!(
        (plan.price, plan.proof, plan.count.longest),
        (50, Proof::Cheapest, 48)
    );
    short.pieces = vec![piece(24, 49, 2)];
    let plan = cut(&short).unwrap();
    assert_eq!(
        plan.proof,
        Proof::CannotBeCut,
        "turned it is too long for the width as well"
    );
}

/// An offcut at hand costs nothing and is used first; when it is not enough, one sheet is bought.
#[test]
fn offcuts_at_hand_come_first() {
    let mut offcut = sheet(30, 40, 0);
    offcut.available = Some(1);
    let with = |wanted| {
        job(
            vec![sheet(48, 96, 50), offcut],
            vec![piece(30, 40, wanted)],
            0,
        )
    };
    assert_eq!(cut(&with(1)).unwrap().price, 0);
    let plan = cut(&with(3)).unwrap();
    assert_eq!((plan.price, plan.proof), (50, Proof::Cheapest));
    let mut only = with(2);
    only.sheets.remove(0);
    let plan = cut(&only).unwrap();
    assert_eq!(
        (plan.proof, plan.missing[0], plan.sheets.len()),
        (Proof::TooFewSheets, 1, 1)
    );
}

/// One piece in the corner of 96 by 48. Of 10 by 10, cutting upwards first leaves 86 by 48, more
/// than 96 by 38 the other way; of 80 by 10 it is the other way round: 16 by 48 or 96 by 38.
#[test]
fn the_largest_rectangle_is_kept() {
    let plan = cut(&job(vec![sheet(96, 48, 1)], vec![piece(10, 10, 1)], 0)).unwrap();
    let first = plan.sheets[0].offcuts[0];
    assert_eq!((first.width, first.height), (86, 48));
    let plan = cut(&job(vec![sheet(96, 48, 1)], vec![piece(80, 10, 1)], 0)).unwrap();
    let first = plan.sheets[0].offcuts[0];
    assert_eq!((first.width, first.height), (96, 38));
}

#[test]
fn nothing_wanted_needs_no_sheet() {
    for wanted in [
        job(vec![], vec![], 2),
        job(vec![sheet(9, 9, 1)], vec![piece(2, 2, 0)], 2),
    ] {
        let plan = cut(&wanted).unwrap();
        assert_eq!(
            (plan.price, plan.sheets.len(), plan.proof),
            (0, 0, Proof::Cheapest)
        );
    }
    let plan = cut(&job(vec![], vec![piece(2, 2, 3)], 2)).unwrap();
    assert_eq!((plan.proof, plan.missing), (Proof::CannotBeCut, vec![3]));
}

#[test]
fn nonsense_is_refused_with_its_place() {
    let why = cut(&job(
        vec![sheet(9, 9, 1)],
        vec![piece(2, 2, 1), piece(0, 2, 1)],
        0,
    ))
    .unwrap_err();
    assert_eq!(why.place, Some(("piece", 1)));
    let mut trimmed = job(vec![sheet(9, 9, 1)], vec![piece(2, 2, 1)], 2);
    trimmed.sheets[0].trim.left = 1;
    let why = cut(&trimmed).unwrap_err();
    assert_eq!(why.place, Some(("sheet", 0)));
}

#[test]
fn pieces_round_up_and_sheets_down() {
    let grid = Grid {
        step: Length::from_inches(1.0 / 16.0),
    };
    assert_eq!(grid.up(Length::from_inches(24.0)).unwrap(), 384);
    assert_eq!(grid.down(Length::from_inches(24.0)).unwrap(), 384);
    assert_eq!(grid.up(Length::from_inches(24.01)).unwrap(), 385);
    assert_eq!(grid.down(Length::from_inches(23.99)).unwrap(), 383);
    assert!(grid.up(Length::from_inches(-1.0)).is_err());
    assert!(grid.down(Length::from_metres(f64::NAN)).is_err());
}

/// Budgets are counts: with next to no work the plan is still complete and says what ended early.
#[test]
fn little_effort_still_gives_a_plan() {
    let mut hasty = cutting_jobs::jobs().remove(3).job;
    hasty.effort = Effort {
        blocks: 10,
        tries: 0,
        rounds: 1,
    };
    let plan = cut(&hasty).unwrap();
    assert!(plan.missing.iter().all(|count| *count == 0));
    assert_eq!(plan.proof, Proof::Gap);
    assert!(plan.at_least < plan.price);
    assert!(plan.caps.contains(&Cap::Blocks), "{:?}", plan.caps);
}
