//! Laws that every cutting plan keeps, checked from outside on random jobs: pieces inside their
//! sheets, a saw cut between any two, all of them there, areas that add up, a list of cuts that
//! can be followed to the same pieces with the saw at hand, and two runs that agree.

mod cutting_jobs;

use proptest::prelude::*;
use wainwright_engines::sheets::{
    Along, CutSheet, CuttingPlan, Effort, Job, Piece, Proof, Rectangle, Saw, Sheet, Trim, cut,
};

fn any_job() -> impl Strategy<Value = Job> {
    let grain = prop_oneof![Just(Along::Width), Just(Along::Height)];
    let sheet = (
        40..120u32,
        40..160u32,
        0..500u64,
        prop::option::of(0..4u32),
        grain,
        0..2u32,
    );
    let side = prop_oneof![
        3 => Just(None),
        1 => Just(Some(Along::Width)),
        1 => Just(Some(Along::Height)),
    ];
    let piece = (5..90u32, 5..90u32, 0..4u32, side);
    let saw = (
        0..4u32,
        prop::bool::weighted(0.8),
        prop::option::weighted(0.3, 40..160u32),
    );
    let lists = (
        prop::collection::vec(sheet, 1..4),
        prop::collection::vec(piece, 0..9),
    );
    (lists, saw).prop_map(|((sheets, pieces), (kerf, can_rip, longest_cut))| Job {
        sheets: sheets
            .into_iter()
            .map(|(width, height, price, available, grain, trimmed)| Sheet {
                width,
                height,
                price,
                available,
                grain,
                trim: Trim::all(trimmed * (kerf + 1)),
            })
            .collect(),
        pieces: pieces
            .into_iter()
            .map(|(width, height, wanted, grain)| Piece {
                width,
                height,
                wanted,
                grain,
            })
            .collect(),
        saw: Saw {
            kerf,
            can_rip,
            longest_cut,
        },
        effort: Effort {
            blocks: 2_000,
            tries: 60,
            rounds: 10,
        },
    })
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn random_plans_keep_the_laws(job in any_job()) {
        let plan = cut(&job).unwrap();
        check(&job, &plan);
        prop_assert_eq!(&plan, &cut(&job).unwrap());
    }
}

#[test]
fn plans_of_builders_keep_the_laws() {
    for listed in cutting_jobs::jobs() {
        check(&listed.job, &cut(&listed.job).unwrap());
    }
    for number in 0..6 {
        let mut job = cutting_jobs::made_up(number);
        job.effort = Effort {
            blocks: 1_000,
            tries: 200,
            rounds: 10,
        };
        check(&job, &cut(&job).unwrap());
    }
}

fn check(job: &Job, plan: &CuttingPlan) {
    let mut counts = plan.missing.clone();
    let mut used = vec![0u32; job.sheets.len()];
    for one in &plan.sheets {
        used[one.sheet] += 1;
        check_places(job, one);
        follow_cuts(job, one);
        one.placements
            .iter()
            .for_each(|piece| counts[piece.kind] += 1);
    }
    let wanted: Vec<u32> = job.pieces.iter().map(|piece| piece.wanted).collect();
    assert_eq!(counts, wanted, "every piece is cut or missing");
    for (used, sheet) in used.iter().zip(&job.sheets) {
        assert!(
            sheet.available.is_none_or(|most| *used <= most),
            "more sheets than there are"
        );
    }
    let price: u64 = plan
        .sheets
        .iter()
        .map(|one| job.sheets[one.sheet].price)
        .sum();
    assert_eq!(price, plan.price);
    let complete = plan.missing.iter().all(|count| *count == 0);
    match plan.proof {
        Proof::Cheapest => assert!(complete && plan.at_least == price),
        Proof::Gap => assert!(complete && plan.at_least < price),
        _ => assert!(!complete),
    }
    let rips = plan
        .sheets
        .iter()
        .flat_map(|one| &one.cuts)
        .filter(|cut| cut.rip)
        .count();
    assert_eq!(rips, plan.count.rips);
    assert!(job.saw.can_rip || rips == 0);
    assert!(
        job.saw
            .longest_cut
            .is_none_or(|most| plan.count.longest <= most)
    );
}

fn check_places(job: &Job, one: &CutSheet) {
    let sheet = &job.sheets[one.sheet];
    let kerf = job.saw.kerf;
    for (index, piece) in one.placements.iter().enumerate() {
        let place = piece.place;
        let wanted = &job.pieces[piece.kind];
        let size = if piece.turned {
            (wanted.height, wanted.width)
        } else {
            (wanted.width, wanted.height)
        };
        assert_eq!((place.width, place.height), size);
        // The side that has to run with the grain does: turned, the two sides change places.
        let upright = wanted
            .grain
            .is_none_or(|side| (side == sheet.grain) != piece.turned);
        assert!(upright, "{wanted:?} {piece:?}");
        assert!(place.x >= sheet.trim.left && place.y >= sheet.trim.bottom);
        assert!(place.x + place.width + sheet.trim.right <= sheet.width);
        assert!(place.y + place.height + sheet.trim.top <= sheet.height);
        for other in &one.placements[index + 1..] {
            assert!(
                apart(&place, &other.place, kerf),
                "{piece:?} {other:?} kerf {kerf}"
            );
        }
        for offcut in &one.offcuts {
            assert!(apart(&place, offcut, kerf), "{piece:?} {offcut:?}");
        }
    }
    let pieces: u64 = one.placements.iter().map(|piece| piece.place.area()).sum();
    let offcuts: u64 = one.offcuts.iter().map(Rectangle::area).sum();
    let dust: u64 = one
        .cuts
        .iter()
        .map(|cut| u64::from(cut.dust) * u64::from(cut.length))
        .sum();
    assert_eq!(
        pieces + offcuts + dust,
        u64::from(sheet.width) * u64::from(sheet.height)
    );
    assert_eq!(
        (pieces, offcuts, dust),
        (one.areas.pieces, one.areas.offcuts, one.areas.dust)
    );
}

fn apart(one: &Rectangle, other: &Rectangle, kerf: u32) -> bool {
    one.x + one.width + kerf <= other.x
        || other.x + other.width + kerf <= one.x
        || one.y + one.height + kerf <= other.y
        || other.y + other.height + kerf <= one.y
}

/// Does what the list says, part by part; what is left must be the pieces and the offcuts.
fn follow_cuts(job: &Job, one: &CutSheet) {
    let sheet = &job.sheets[one.sheet];
    let whole = Rectangle {
        x: 0,
        y: 0,
        width: sheet.width,
        height: sheet.height,
    };
    let mut parts = vec![Some(whole)];
    for cut in &one.cuts {
        let of = cut.of;
        assert_eq!(parts[cut.part].take(), Some(of), "a part that is there");
        let upward = cut.runs == Along::Height;
        assert_eq!(cut.length, if upward { of.height } else { of.width });
        assert_eq!(cut.rip, cut.runs == sheet.grain);
        let (mut near, mut far) = (of, of);
        let gone = cut.setting + job.saw.kerf;
        if upward {
            near.width = cut.setting;
            far.x = (of.x + gone).min(of.x + of.width);
            far.width = of.width.saturating_sub(gone);
        } else {
            near.height = cut.setting;
            far.y = (of.y + gone).min(of.y + of.height);
            far.height = of.height.saturating_sub(gone);
        }
        parts.extend([Some(near), Some(far)]);
    }
    let key = |of: &Rectangle| (of.x, of.y, of.width, of.height);
    let left = parts.iter().flatten().filter(|part| part.area() > 0);
    let mut left: Vec<_> = left.map(key).collect();
    let pieces = one.placements.iter().map(|piece| key(&piece.place));
    let mut told: Vec<_> = pieces.chain(one.offcuts.iter().map(key)).collect();
    left.sort_unstable();
    told.sort_unstable();
    assert_eq!(left, told);
}
