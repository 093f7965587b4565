//! `lining` against every joint pattern with the fewest boards, and odds against every outcome.
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
use wainwright_units::{Length, Ratio};

const BOARD: f64 = 2440.0;
const KERF: f64 = 3.0;

/// Fewest boards that hold all lengths, by trying every board for every length.
fn fewest_boards(lengths: &[f64], open: &mut Vec<f64>, most: usize) -> usize {
    let Some((&length, rest)) = lengths.split_first() else {
        return open.len();
    };
    let mut best = most;
    for index in 0..open.len() {
        if open[index] + length + KERF <= BOARD + KERF + 1e-9 {
            open[index] += length + KERF;
            best = best.min(fewest_boards(rest, open, best));
            open[index] -= length + KERF;
        }
    }
    if open.len() + 1 < best {
        open.push(length + KERF);
        best = best.min(fewest_boards(rest, open, best));
        open.pop();
    }
    best
}

/// Every way to join a course, with the fewest joints or one more.
fn ways(width: f64, ribs: &[f64]) -> Vec<Vec<f64>> {
    let fewest = (width / BOARD).ceil() as usize - 1;
    let inside: Vec<f64> = ribs
        .iter()
        .copied()
        .filter(|&at| at > 0.0 && at < width)
        .collect();
    let mut all = Vec::new();
    for mask in 0u32..1 << inside.len() {
        let joints: Vec<f64> = (0..inside.len())
            .filter(|bit| mask >> bit & 1 == 1)
            .map(|bit| inside[bit])
            .collect();
        let good = pieces(width, &joints)
            .iter()
            .all(|&piece| (200.0..=BOARD).contains(&piece));
        if good && joints.len() >= fewest && joints.len() <= fewest + 1 {
            all.push(joints);
        }
    }
    all
}

fn pieces(width: f64, joints: &[f64]) -> Vec<f64> {
    let mut ends = joints.to_vec();
    ends.push(width);
    let starts = std::iter::once(0.0).chain(joints.iter().copied());
    starts.zip(ends).map(|(from, to)| to - from).collect()
}

fn staggered(one: &[f64], other: &[f64], courses: usize) -> bool {
    one.iter().all(|a| {
        other.iter().all(|b| {
            let distance = (a - b).abs();
            (courses != 1 || distance >= 300.0) && distance > 150.0
        })
    })
}

/// Three courses, one board length: how often the search finds as few boards as any pattern, what
/// it loses otherwise, and that it breaks the stagger only where every pattern does.
#[test]
fn joints_against_every_pattern() {
    let (mut same, mut more, mut impossible) = (0, 0, 0);
    for seed in 0..120 {
        let mut random = Randomness::new(seed, 21);
        let width = tens(&mut random, 2500, 3600);
        let every = tens(&mut random, 350, 900);
        let surface = wall(width, 300.0, every);
        let options = PlankOptions {
            joint_worth: Length::ZERO,
            ..level(100.0)
        };
        let laid = planks(&surface, &surface.rib_backing(), &options).unwrap();
        let ribs: Vec<f64> = surface
            .ribs
            .iter()
            .map(|rib| rib.at.millimetres())
            .collect();
        let all = ways(width, &ribs);
        let mut best: Option<usize> = None;
        for first in &all {
            for second in all.iter().filter(|one| staggered(one, first, 1)) {
                let third = |one: &&Vec<f64>| staggered(one, second, 1) && staggered(one, first, 2);
                for third in all.iter().filter(third) {
                    let mut lengths: Vec<f64> = [first, second, third]
                        .iter()
                        .flat_map(|joints| pieces(width, joints))
                        .collect();
                    lengths.sort_by(|one, other| other.total_cmp(one));
                    let known = best.unwrap_or(usize::MAX);
                    best = Some(fewest_boards(&lengths, &mut Vec::new(), known));
                }
            }
        }
        let told = |one: &&Shortfall| matches!(one, Shortfall::Stagger { .. });
        let against = laid.shortfalls.iter().filter(told).count();
        assert_eq!(against == 0, best.is_some(), "{seed}: {width} {every}");
        let Some(best) = best else {
            impossible += 1;
            continue;
        };
        let boards: usize = laid.estimate.boards.iter().sum();
        assert!(boards >= best, "{seed}: an estimate from above");
        assert!(boards <= best + 1, "{seed}: {boards} {best}");
        same += usize::from(boards == best);
        more += usize::from(boards > best);
    }
    assert!(impossible > 5, "{impossible}");
    assert!(
        more * 20 <= same,
        "{same} as few as can be, {more} one more"
    );
}

/// All outcomes of boards and cuts, one by one.
fn short_by_hand(alike: &Alike) -> f64 {
    let (spoil, defect) = (alike.spoil.fraction(), alike.defect.fraction());
    let cuts = alike.boards * alike.per_board;
    let mut short = 0.0;
    for boards in 0u32..1 << alike.boards {
        for pieces in 0u32..1 << cuts {
            let (mut odds, mut good) = (1.0, 0);
            for board in 0..alike.boards {
                let bad = boards >> board & 1 == 1;
                odds *= if bad { defect } else { 1.0 - defect };
                for piece in 0..alike.per_board {
                    let spoilt = pieces >> (board * alike.per_board + piece) & 1 == 1;
                    odds *= if spoilt { spoil } else { 1.0 - spoil };
                    good += usize::from(!bad && !spoilt);
                }
            }
            short += if good < alike.need { odds } else { 0.0 };
        }
    }
    short
}

#[test]
fn exact_odds_against_every_outcome() {
    for seed in 0..60 {
        let mut random = Randomness::new(seed, 22);
        let alike = Alike {
            need: between(&mut random, 0, 8) as usize,
            boards: between(&mut random, 0, 4) as usize,
            per_board: between(&mut random, 0, 3) as usize,
            spoil: Ratio::from_fraction(random.uniform()),
            defect: Ratio::from_fraction(random.uniform()),
        };
        let found = shortage_alike(&alike).unwrap().fraction();
        near(found, short_by_hand(&alike), 1e-12);
    }
}

/// One piece from a board: the simulation is the binomial case, and its 95 % intervals hold the
/// exact odds nearly always.
#[test]
fn simulated_odds_against_exact_ones() {
    let mut missed = 0;
    for seed in 0..60 {
        let mut random = Randomness::new(seed, 23);
        let need = between(&mut random, 1, 12) as usize;
        let spare = between(&mut random, 0, 4) as usize;
        let (spoil, defect) = (0.2 * random.uniform(), 0.2 * random.uniform());
        let board = BoardPlan {
            length: mm(1000.0),
            pieces: vec![mm(900.0)],
        };
        let remaining = Remaining {
            boards: vec![board; need],
            spare: vec![mm(1000.0); spare],
            kerf: mm(3.0),
            spoil: Ratio::from_fraction(spoil),
            defect: Ratio::from_fraction(defect),
        };
        let exact = shortage_alike(&Alike {
            need,
            boards: need + spare,
            per_board: 1,
            spoil: remaining.spoil,
            defect: remaining.defect,
        });
        let found = shortage(&remaining, 4000, seed).unwrap();
        let exact = exact.unwrap();
        missed += usize::from(exact < found.low || exact > found.high);
    }
    // Of 60 intervals three miss on average; more than nine in one of a thousand.
    assert!(missed <= 9, "{missed}");
}

#[test]
fn spares_are_the_fewest() {
    let remaining = Remaining {
        boards: vec![
            BoardPlan {
                length: mm(2440.0),
                pieces: vec![mm(1200.0), mm(1200.0)],
            };
            10
        ],
        spare: vec![],
        kerf: mm(3.0),
        spoil: Ratio::from_percent(3.0),
        defect: Ratio::from_percent(5.0),
    };
    let five = Ratio::from_percent(5.0);
    let board = mm(2440.0);
    let (count, odds) = spares_for(&remaining, board, five, 20, 5000, 1)
        .unwrap()
        .unwrap();
    assert!(odds.high < five);
    let mut fewer = remaining.clone();
    fewer.spare = vec![board; count - 1];
    assert!(shortage(&fewer, 5000, 1).unwrap().high >= five);
    // Pieces all alike, two from a board: the exact odds say the same.
    let exact = |boards| {
        let alike = Alike {
            need: 20,
            boards,
            per_board: 2,
            spoil: remaining.spoil,
            defect: remaining.defect,
        };
        shortage_alike(&alike).unwrap()
    };
    assert!(exact(10 + count) < five);
    assert!(
        spares_for(&remaining, board, Ratio::ZERO, 2, 100, 1)
            .unwrap()
            .is_none()
    );
}

/// A board of 1000 mm with one piece of 496 mm planned: a second try fits with a saw cut of 5 mm
/// before it, not with one of 10 mm. Odds of running short: the square of the chance, or the chance.
#[test]
fn the_saw_cut_decides_whether_a_second_try_fits() {
    let spoil = 0.3;
    for (kerf, exact) in [(5.0, spoil * spoil), (10.0, spoil)] {
        let remaining = Remaining {
            boards: vec![BoardPlan {
                length: mm(1000.0),
                pieces: vec![mm(496.0)],
            }],
            spare: vec![],
            kerf: mm(kerf),
            spoil: Ratio::from_fraction(spoil),
            defect: Ratio::ZERO,
        };
        let found = shortage(&remaining, 20_000, 5).unwrap().share.fraction();
        // Four deviations of 20 000 tries: 4 × √(0.21 / 20 000).
        near(found, exact, 0.013);
    }
}
