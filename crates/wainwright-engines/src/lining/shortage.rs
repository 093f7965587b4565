//! Odds that boards in hand run short: boards with defects, pieces spoilt in cutting. How to cut
//! them is another engine's.

use wainwright_units::{Length, Ratio};

use crate::refusal::{Refusal, above_zero, not_below_zero, require};
use crate::trip::interval;
use crate::weather::Randomness;

/// Most runs of one question.
const MOST_RUNS: usize = 1_000_000;
/// Most boards or pieces.
const MOST: usize = 5000;
/// Streams of random numbers of one run: boards, spares, cuts.
const STREAMS: u64 = 3;

/// Pieces all alike from boards all alike.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Alike {
    /// Good pieces needed.
    pub need: usize,
    /// Boards in hand.
    pub boards: usize,
    /// Pieces out of one board.
    pub per_board: usize,
    /// Chance that a piece is spoilt in cutting.
    pub spoil: Ratio,
    /// Chance that a board cannot be used at all.
    pub defect: Ratio,
}

/// A board in hand and what the cutting plan makes of it.
#[derive(Debug, Clone, PartialEq)]
pub struct BoardPlan {
    /// Its length \[m\].
    pub length: Length,
    /// The pieces to cut from it, in this order \[m\].
    pub pieces: Vec<Length>,
}

/// What is still to be cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Remaining {
    /// Boards with a plan.
    pub boards: Vec<BoardPlan>,
    /// Lengths of boards and offcuts without a plan \[m\].
    pub spare: Vec<Length>,
    /// Width of a saw cut \[m\].
    pub kerf: Length,
    /// Chance that a piece is spoilt in cutting.
    pub spoil: Ratio,
    /// Chance that a board cannot be used at all.
    pub defect: Ratio,
}

/// How often boards run short.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShortOdds {
    /// Runs that were simulated.
    pub runs: usize,
    /// Share of them that ran short.
    pub share: Ratio,
    /// Lower end of the 95 % confidence interval.
    pub low: Ratio,
    /// Its upper end.
    pub high: Ratio,
}

/// Exact odds of running short with pieces all alike.
///
/// # Errors
/// Chances outside 0 to 1, or too many boards or pieces.
pub fn shortage_alike(alike: &Alike) -> Result<Ratio, Refusal> {
    chance("chance of a spoilt piece", alike.spoil)?;
    chance("chance of a bad board", alike.defect)?;
    for (field, count) in [
        ("pieces needed", alike.need),
        ("boards", alike.boards),
        ("pieces out of one board", alike.per_board),
    ] {
        require(field, count as f64, count <= MOST, "at most 5000")?;
    }
    let board = alike.one_board();
    // Chance of every number of good pieces; everything from the need on counts as one.
    let mut good = vec![0.0; alike.need + 1];
    if let Some(none) = good.first_mut() {
        *none = 1.0;
    }
    for _ in 0..alike.boards {
        let mut next = vec![0.0; alike.need + 1];
        for (have, &before) in good.iter().enumerate().filter(|(_, before)| **before > 0.0) {
            for (more, &odds) in board.iter().enumerate() {
                if let Some(sum) = next.get_mut((have + more).min(alike.need)) {
                    *sum += before * odds;
                }
            }
        }
        good = next;
    }
    let total: f64 = good.iter().sum();
    require(
        "sum of all chances",
        total,
        (total - 1.0).abs() < 1e-9,
        "one",
    )?;
    let short: f64 = good.iter().take(alike.need).sum();
    Ok(Ratio::from_fraction(short.min(1.0)))
}

/// Simulated odds of running short: the plan is cut board by board; what is spoilt, and what a bad
/// board should have given, is cut again from the shortest rest or spare that holds it.
///
/// # Errors
/// Chances outside 0 to 1, lengths that are none, pieces that do not fit their board, no runs or
/// more than a million.
pub fn shortage(remaining: &Remaining, runs: usize, seed: u64) -> Result<ShortOdds, Refusal> {
    remaining.check()?;
    require(
        "runs",
        runs as f64,
        (1..=MOST_RUNS).contains(&runs),
        "from one to a million",
    )?;
    let short = (0..runs as u64).filter(|&run| remaining.runs_short(seed, run));
    let odds = interval(short.count(), runs);
    Ok(ShortOdds {
        runs,
        share: odds.share,
        low: odds.low,
        high: odds.high,
    })
}

/// Fewest more boards of a length with which the upper end of the odds is below a share; `None`
/// when `most` are not enough.
///
/// # Errors
/// As [`shortage`], and a length that is not above zero.
pub fn spares_for(
    remaining: &Remaining,
    spare: Length,
    below: Ratio,
    most: usize,
    runs: usize,
    seed: u64,
) -> Result<Option<(usize, ShortOdds)>, Refusal> {
    above_zero("length of a spare board [m]", spare.metres())?;
    require("spare boards", most as f64, most <= 100, "at most 100")?;
    let mut with = remaining.clone();
    for count in 0..=most {
        let odds = shortage(&with, runs, seed)?;
        if odds.high < below {
            return Ok(Some((count, odds)));
        }
        with.spare.push(spare);
    }
    Ok(None)
}

impl Alike {
    /// Chances of 0, 1, … good pieces out of one board.
    fn one_board(&self) -> Vec<f64> {
        let (bad, good) = (self.spoil.fraction(), 1.0 - self.spoil.fraction());
        let mut odds = vec![1.0];
        for _ in 0..self.per_board {
            let mut next = vec![0.0; odds.len() + 1];
            for (have, &before) in odds.iter().enumerate() {
                if let [same, more] = &mut next[have..=have + 1] {
                    *same += before * bad;
                    *more += before * good;
                }
            }
            odds = next;
        }
        let defect = self.defect.fraction();
        for one in &mut odds {
            *one *= 1.0 - defect;
        }
        if let Some(none) = odds.first_mut() {
            *none += defect;
        }
        odds
    }
}

impl Remaining {
    fn check(&self) -> Result<(), Refusal> {
        chance("chance of a spoilt piece", self.spoil)?;
        chance("chance of a bad board", self.defect)?;
        not_below_zero("kerf [m]", self.kerf.metres())?;
        let pieces: usize = self.boards.iter().map(|board| board.pieces.len()).sum();
        let largest = pieces.max(self.boards.len() + self.spare.len());
        require(
            "boards or pieces",
            largest as f64,
            largest <= MOST,
            "at most 5000",
        )?;
        for (index, board) in self.boards.iter().enumerate() {
            board
                .check(self.kerf.metres())
                .map_err(|refusal| refusal.at("board", index))?;
        }
        for (index, spare) in self.spare.iter().enumerate() {
            above_zero("length [m]", spare.metres())
                .map_err(|refusal| refusal.at("spare", index))?;
        }
        Ok(())
    }

    fn runs_short(&self, seed: u64, run: u64) -> bool {
        let stream = |which: u64| Randomness::new(seed, run * STREAMS + which);
        let (mut boards, mut spares, mut cuts) = (stream(0), stream(1), stream(2));
        let happens = |random: &mut Randomness, odds: Ratio| random.uniform() < odds.fraction();
        let mut rests: Vec<f64> = Vec::new();
        let mut again: Vec<f64> = Vec::new();
        for board in &self.boards {
            let pieces = board.pieces.iter().map(|piece| piece.metres());
            if happens(&mut boards, self.defect) {
                again.extend(pieces);
                continue;
            }
            let mut rest = board.length.metres();
            for piece in pieces {
                rest -= piece + self.kerf.metres();
                if happens(&mut cuts, self.spoil) {
                    again.push(piece);
                }
            }
            rests.push(rest);
        }
        let spare = self.spare.iter().map(|spare| spare.metres());
        rests.extend(spare.filter(|_| !happens(&mut spares, self.defect)));
        again.sort_by(|one, other| other.total_cmp(one));
        again.into_iter().any(|piece| {
            loop {
                let Some(rest) = shortest_that_holds(&mut rests, piece) else {
                    break true;
                };
                *rest -= piece + self.kerf.metres();
                if !happens(&mut cuts, self.spoil) {
                    break false;
                }
            }
        })
    }
}

impl BoardPlan {
    fn check(&self, kerf: f64) -> Result<(), Refusal> {
        above_zero("length [m]", self.length.metres())?;
        for piece in &self.pieces {
            above_zero("piece [m]", piece.metres())?;
        }
        let pieces: f64 = self.pieces.iter().map(|piece| piece.metres()).sum();
        let cuts = self.pieces.len().saturating_sub(1) as f64 * kerf;
        let over = pieces + cuts - self.length.metres();
        require(
            "pieces beyond their board [m]",
            over,
            over <= 1e-6,
            "nothing: pieces and saw cuts fit the board",
        )
    }
}

fn shortest_that_holds(rests: &mut [f64], piece: f64) -> Option<&mut f64> {
    let holding = rests.iter_mut().filter(|rest| **rest >= piece - 1e-9);
    holding.min_by(|one, other| one.total_cmp(other))
}

fn chance(field: &'static str, chance: Ratio) -> Result<(), Refusal> {
    let share = chance.fraction();
    require(
        field,
        share,
        (0.0..=1.0).contains(&share),
        "from 0 to 100 %",
    )
}
