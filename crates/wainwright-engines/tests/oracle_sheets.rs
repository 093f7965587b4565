//! Oracles for cutting sheets: an exhaustive search over every cut at every grid line, written
//! straight from the saw (kerf, edges, grain, longest cut), on tiny random jobs.

use std::collections::{BTreeMap, BTreeSet};

use wainwright_engines::sheets::{
    Along, Effort, Job, OneSheet, Piece, Proof, Saw, Sheet, Trim, Valued, best_of_one, cut,
};
use wainwright_engines::weather::Randomness;

/// Numbers of pieces of each kind that one rectangle can give, no more than wanted.
type Sets = BTreeMap<(u32, u32), BTreeSet<Vec<u32>>>;

struct Exhaustive<'j> {
    job: &'j Job,
    grain: Along,
    known: Sets,
}

impl Exhaustive<'_> {
    fn may_cut(&self, runs: Along, length: u32) -> bool {
        let saw = &self.job.saw;
        (saw.can_rip || runs != self.grain) && saw.longest_cut.is_none_or(|most| length <= most)
    }

    fn sets(&mut self, width: u32, height: u32) -> BTreeSet<Vec<u32>> {
        if let Some(known) = self.known.get(&(width, height)) {
            return known.clone();
        }
        let mut sets = BTreeSet::from([vec![0; self.job.pieces.len()]]);
        for (kind, piece) in self.job.pieces.iter().enumerate() {
            let upright = piece.grain.is_none_or(|side| side == self.grain);
            let turned = piece.grain.is_none_or(|side| side != self.grain);
            let fits = upright && (piece.width, piece.height) == (width, height)
                || turned && (piece.height, piece.width) == (width, height);
            if fits && piece.wanted > 0 {
                let mut one = vec![0; self.job.pieces.len()];
                one[kind] = 1;
                sets.insert(one);
            }
        }
        let kerf = self.job.saw.kerf;
        if self.may_cut(Along::Height, height) {
            for at in 1..width {
                let rest = (width - at).saturating_sub(kerf);
                self.combine(&mut sets, (at, height), (rest, height));
            }
        }
        if self.may_cut(Along::Width, width) {
            for at in 1..height {
                let rest = (height - at).saturating_sub(kerf);
                self.combine(&mut sets, (width, at), (width, rest));
            }
        }
        self.known.insert((width, height), sets.clone());
        sets
    }

    fn combine(&mut self, sets: &mut BTreeSet<Vec<u32>>, near: (u32, u32), far: (u32, u32)) {
        let near = self.sets(near.0, near.1);
        let far = if far.0 == 0 || far.1 == 0 {
            BTreeSet::from([vec![0; self.job.pieces.len()]])
        } else {
            self.sets(far.0, far.1)
        };
        for one in &near {
            for other in &far {
                let pairs = one.iter().zip(other).zip(&self.job.pieces);
                sets.insert(
                    pairs
                        .map(|((a, b), piece)| (a + b).min(piece.wanted))
                        .collect(),
                );
            }
        }
    }
}

/// Least price to cut everything; `None` when it cannot be done.
fn least_price(job: &Job) -> Option<u64> {
    let wanted: Vec<u32> = job.pieces.iter().map(|piece| piece.wanted).collect();
    let mut prices = BTreeMap::from([(vec![0u32; wanted.len()], 0u64)]);
    for sheet in &job.sheets {
        let mut exhaustive = Exhaustive {
            job,
            grain: sheet.grain,
            known: BTreeMap::new(),
        };
        // Only left edges are trimmed here.
        if sheet.trim.left > 0 && !exhaustive.may_cut(Along::Height, sheet.height) {
            continue;
        }
        let sets = exhaustive.sets(sheet.usable_width(), sheet.usable_height());
        let pieces: u32 = wanted.iter().sum();
        for _ in 0..sheet.available.unwrap_or(pieces).min(pieces) {
            let mut more = prices.clone();
            for (counts, price) in &prices {
                for set in &sets {
                    let sum = counts.iter().zip(set).zip(&wanted);
                    let sum: Vec<u32> = sum.map(|((a, b), most)| (a + b).min(*most)).collect();
                    let known = more.entry(sum).or_insert(u64::MAX);
                    *known = (*known).min(price + sheet.price);
                }
            }
            prices = more;
        }
    }
    prices.get(&wanted).copied()
}

fn below(random: &mut Randomness, most: u32) -> u32 {
    (random.bits() % u64::from(most)) as u32
}

fn tiny_job(random: &mut Randomness) -> Job {
    let longest = if below(random, 4) == 0 {
        Some(2 + below(random, 6))
    } else {
        None
    };
    let saw = Saw {
        kerf: below(random, 3) / 2 + below(random, 2),
        can_rip: below(random, 4) > 0,
        longest_cut: longest,
    };
    let kinds = 1 + below(random, 2);
    let sheets = (0..kinds).map(|_| Sheet {
        width: 3 + below(random, 5),
        height: 3 + below(random, 6),
        price: u64::from(below(random, 6)) * 10,
        available: (below(random, 3) == 0).then(|| 1 + below(random, 2)),
        grain: if below(random, 3) == 0 {
            Along::Width
        } else {
            Along::Height
        },
        trim: Trim::default(),
    });
    let mut sheets: Vec<Sheet> = sheets.collect();
    if below(random, 8) == 0 {
        sheets[0].trim = Trim {
            left: saw.kerf.max(1),
            ..Trim::default()
        };
    }
    let kinds = 1 + below(random, 3);
    let pieces = (0..kinds).map(|_| Piece {
        width: 1 + below(random, 5),
        height: 1 + below(random, 5),
        wanted: 1 + below(random, 3),
        grain: [None, None, Some(Along::Width), Some(Along::Height)][below(random, 4) as usize],
    });
    let mut pieces: Vec<Piece> = pieces.collect();
    if !saw.can_rip {
        // Otherwise next to nothing could be cut.
        for piece in &mut pieces {
            if below(random, 3) > 0 {
                piece.width = sheets[0].usable_width();
            }
        }
    }
    Job {
        sheets,
        pieces,
        saw,
        effort: Effort::default(),
    }
}

#[test]
fn tiny_jobs_cost_what_an_exhaustive_search_says() {
    let mut random = Randomness::new(11, 0);
    let (mut proven, mut impossible) = (0, 0);
    for number in 0..1000 {
        let job = tiny_job(&mut random);
        let plan = cut(&job).unwrap();
        let complete = plan.missing.iter().all(|count| *count == 0);
        match least_price(&job) {
            Some(price) => {
                assert!(plan.at_least <= price, "{number}: {job:?} {price} {plan:?}");
                assert!(complete, "{number}: {job:?} {price} {plan:?}");
                assert_eq!(plan.price, price, "{number}: {job:?} {plan:?}");
                proven += usize::from(plan.proof == Proof::Cheapest);
                assert_eq!(
                    plan.proof == Proof::Cheapest,
                    plan.at_least == price,
                    "{number}"
                );
            }
            None => {
                assert!(!complete, "{number}: {job:?} {plan:?}");
                assert!(
                    !matches!(plan.proof, Proof::Cheapest | Proof::Gap),
                    "{number}: {plan:?}"
                );
                impossible += 1;
            }
        }
    }
    assert!(
        impossible > 100 && impossible < 700,
        "{impossible} impossible"
    );
    assert_eq!(proven + impossible, 1000, "{impossible} impossible");
}

#[test]
fn one_sheet_is_worth_what_an_exhaustive_search_says() {
    let mut random = Randomness::new(12, 0);
    for number in 0..1000 {
        let several = 1 + below(&mut random, 4);
        let kinds = (0..several).map(|_| Valued {
            width: 1 + below(&mut random, 6),
            height: 1 + below(&mut random, 6),
            value: 1 + u64::from(below(&mut random, 40)),
            most: Some(1 + below(&mut random, 3)),
            turns: below(&mut random, 2) == 0,
        });
        let kinds: Vec<Valued> = kinds.collect();
        let mut question = OneSheet {
            width: 3 + below(&mut random, 7),
            height: 3 + below(&mut random, 7),
            kerf: below(&mut random, 2),
            kinds,
            blocks: 100_000,
        };
        if number % 2 == 0 {
            question.kinds.iter_mut().for_each(|kind| kind.most = None);
        }
        let found = best_of_one(&question).unwrap();
        let expected = most_worth(&question);
        assert_eq!(found.value, expected, "{number}: {question:?}");
        assert_eq!(found.at_most, expected, "{number}: {question:?}");
        let worth = found.counts.iter().zip(&question.kinds);
        let worth: u64 = worth
            .map(|(count, kind)| u64::from(*count) * kind.value)
            .sum();
        assert_eq!(worth, expected, "{number}: {question:?}");
    }
}

fn most_worth(question: &OneSheet) -> u64 {
    let pieces = question.kinds.iter().map(|kind| {
        let room = (question.width * question.height) / (kind.width * kind.height);
        Piece {
            width: kind.width,
            height: kind.height,
            wanted: kind.most.unwrap_or(room.min(255)),
            grain: (!kind.turns).then_some(Along::Height),
        }
    });
    let job = Job {
        sheets: vec![],
        pieces: pieces.collect(),
        saw: Saw {
            kerf: question.kerf,
            can_rip: true,
            longest_cut: None,
        },
        effort: Effort::default(),
    };
    if question.kinds.iter().any(|kind| kind.most.is_none()) {
        return most_worth_unlimited(
            question,
            question.width,
            question.height,
            &mut BTreeMap::new(),
        );
    }
    let mut exhaustive = Exhaustive {
        job: &job,
        grain: Along::Height,
        known: BTreeMap::new(),
    };
    let sets = exhaustive.sets(question.width, question.height);
    let worth = |set: &Vec<u32>| {
        let pairs = set.iter().zip(&question.kinds);
        pairs
            .map(|(count, kind)| u64::from(*count) * kind.value)
            .sum()
    };
    sets.iter().map(worth).max().unwrap_or(0)
}

fn most_worth_unlimited(
    question: &OneSheet,
    width: u32,
    height: u32,
    known: &mut BTreeMap<(u32, u32), u64>,
) -> u64 {
    if let Some(known) = known.get(&(width, height)) {
        return *known;
    }
    let fits = |kind: &&Valued| {
        (kind.width, kind.height) == (width, height)
            || kind.turns && (kind.height, kind.width) == (width, height)
    };
    let one = question.kinds.iter().filter(fits).map(|kind| kind.value);
    let mut most = one.max().unwrap_or(0);
    for at in 1..width {
        let near = most_worth_unlimited(question, at, height, known);
        let rest = (width - at).saturating_sub(question.kerf);
        let far = if rest > 0 {
            most_worth_unlimited(question, rest, height, known)
        } else {
            0
        };
        most = most.max(near + far);
    }
    for at in 1..height {
        let near = most_worth_unlimited(question, width, at, known);
        let rest = (height - at).saturating_sub(question.kerf);
        let far = if rest > 0 {
            most_worth_unlimited(question, width, rest, known)
        } else {
            0
        };
        most = most.max(near + far);
    }
    known.insert((width, height), most);
    most
}
