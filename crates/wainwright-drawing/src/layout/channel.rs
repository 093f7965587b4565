//! Tracks: the upright pieces of wires between two columns, each in its own track.
//!
//! Two wires whose level pieces meet at (nearly) the same height from opposite
//! walls must turn in the right order; a ring of such demands is broken by
//! giving one wire a second upright piece. Then the order that crosses least is taken.

use std::collections::VecDeque;

/// Level pieces closer than this are treated as at the same height [px].
const CLOSE: f64 = 9.0;
/// Upright pieces in one track keep this distance [px].
const CLEAR: f64 = 8.0;
/// Above this many bending wires in one channel the soft ordering is left out.
const SOFT_CAP: usize = 700;

/// One wire's demand on a channel: heights at the left and at the right wall [px].
#[derive(Debug, Clone)]
pub(super) struct Demand {
    pub left: Vec<f64>,
    pub right: Vec<f64>,
}

/// The upright pieces of one demand, in the order in which the wire runs from
/// its first height: track number, from height, to height.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Turn {
    pub uprights: Vec<(usize, f64, f64)>,
}

/// Upright piece while tracks are being found.
#[derive(Debug, Clone)]
struct Piece {
    demand: usize,
    left: Vec<f64>,
    right: Vec<f64>,
    low: f64,
    high: f64,
    /// Height of the middle level piece, after a split.
    middle: Option<f64>,
}

/// Finds tracks for all demands; returns the turns and the number of tracks.
pub(super) fn tracks(demands: &[Demand]) -> (Vec<Turn>, usize) {
    let mut pieces: Vec<Piece> = demands.iter().enumerate().filter_map(piece).collect();
    let sequence = sequence(&mut pieces, demands);
    let mut track = vec![0usize; pieces.len()];
    let mut placed: Vec<usize> = Vec::with_capacity(pieces.len());
    let mut count = 0;
    for &next in &sequence {
        let blocked = placed.iter().filter(|&&other| {
            must_precede(&pieces[other], &pieces[next]) || overlap(&pieces[other], &pieces[next])
        });
        track[next] = blocked.map(|&other| track[other] + 1).max().unwrap_or(0);
        count = count.max(track[next] + 1);
        placed.push(next);
    }
    hug_right_wall(&pieces, &sequence, &mut track, count);
    let mut turns = vec![Turn::default(); demands.len()];
    for (index, piece) in pieces.iter().enumerate() {
        let demand = &demands[piece.demand];
        let heights: Vec<f64> = demand.left.iter().chain(&demand.right).copied().collect();
        let (from, to) = match (piece.middle, piece.left.is_empty()) {
            (None, _) => (heights[0], heights[1]),
            (Some(middle), false) => (heights[0], middle),
            (Some(middle), true) => (middle, heights[1]),
        };
        turns[piece.demand].uprights.push((track[index], from, to));
    }
    for (turn, demand) in turns.iter_mut().zip(demands) {
        // A split wire runs left part first.
        if let (2, Some(&first)) = (turn.uprights.len(), demand.left.first()) {
            turn.uprights.sort_by_key(|upright| upright.1 != first);
        }
    }
    (turns, count)
}

/// Loops that start and end at the right wall move as far right as they may.
fn hug_right_wall(pieces: &[Piece], sequence: &[usize], track: &mut [usize], count: usize) {
    for (place, &piece) in sequence.iter().enumerate().rev() {
        if !pieces[piece].left.is_empty() || pieces[piece].middle.is_some() {
            continue;
        }
        let later = sequence[place + 1..].iter().filter(|&&other| {
            must_precede(&pieces[piece], &pieces[other]) || overlap(&pieces[piece], &pieces[other])
        });
        let most = later.map(|&other| track[other]).min().unwrap_or(count);
        track[piece] = track[piece].max(most.saturating_sub(1));
    }
}

fn piece((demand, wish): (usize, &Demand)) -> Option<Piece> {
    let heights = || wish.left.iter().chain(&wish.right).copied();
    let low = heights().fold(f64::INFINITY, f64::min);
    let high = heights().fold(f64::NEG_INFINITY, f64::max);
    let straight = wish.left.len() == 1 && low == high;
    (!straight && heights().count() == 2).then(|| Piece {
        demand,
        left: wish.left.clone(),
        right: wish.right.clone(),
        low,
        high,
        middle: None,
    })
}

/// Whether `a` must turn left of `b`: its left level piece is at the height of `b`'s right one.
fn must_precede(a: &Piece, b: &Piece) -> bool {
    let close = |y: &f64| b.right.iter().any(|other| (y - other).abs() < CLOSE);
    a.demand != b.demand && a.left.iter().any(close)
}

fn overlap(a: &Piece, b: &Piece) -> bool {
    a.low < b.high + CLEAR && b.low < a.high + CLEAR
}

/// Crossings between two pieces if `a` turns left of `b`.
fn crossings(a: &Piece, b: &Piece) -> i32 {
    let within = |y: &&f64, piece: &Piece| piece.low < **y && **y < piece.high;
    let right = a.right.iter().filter(|y| within(y, b)).count();
    let left = b.left.iter().filter(|y| within(y, a)).count();
    (right + left) as i32
}

/// Order from left to right; splits pieces where demands form a ring.
fn sequence(pieces: &mut Vec<Piece>, demands: &[Demand]) -> Vec<usize> {
    let mut taken: Vec<f64> = demands
        .iter()
        .flat_map(|demand| demand.left.iter().chain(&demand.right))
        .copied()
        .collect();
    let soft = pieces.len() <= SOFT_CAP;
    let mut before: Vec<Vec<usize>> = Vec::new();
    let mut waiting: Vec<usize> = Vec::new();
    let mut score: Vec<i32> = Vec::new();
    recount(pieces, soft, &mut before, &mut waiting, &mut score);
    let mut done = vec![false; pieces.len()];
    let mut order = Vec::with_capacity(pieces.len());
    while order.len() < pieces.len() {
        let ready = (0..pieces.len()).filter(|&p| !done[p] && waiting[p] == 0);
        let Some(next) = ready.min_by_key(|&p| (score[p], p)) else {
            split_one(pieces, &done, &waiting, &mut taken);
            done.push(false);
            recount(pieces, soft, &mut before, &mut waiting, &mut score);
            for &finished in &order {
                release(
                    pieces,
                    finished,
                    soft,
                    &before,
                    &mut waiting,
                    &mut score,
                    &done,
                );
            }
            continue;
        };
        done[next] = true;
        order.push(next);
        release(pieces, next, soft, &before, &mut waiting, &mut score, &done);
    }
    order
}

/// Counts anew who waits for whom and what going first would cost.
fn recount(
    pieces: &[Piece],
    soft: bool,
    before: &mut Vec<Vec<usize>>,
    waiting: &mut Vec<usize>,
    score: &mut Vec<i32>,
) {
    let count = pieces.len();
    *before = vec![Vec::new(); count];
    *waiting = vec![0; count];
    *score = vec![0; count];
    for a in 0..count {
        for b in 0..count {
            if a == b {
                continue;
            }
            if must_precede(&pieces[a], &pieces[b]) {
                before[a].push(b);
                waiting[b] += 1;
            }
            if soft && overlap(&pieces[a], &pieces[b]) {
                score[a] += crossings(&pieces[a], &pieces[b]) - crossings(&pieces[b], &pieces[a]);
            }
        }
    }
}

fn release(
    pieces: &[Piece],
    next: usize,
    soft: bool,
    before: &[Vec<usize>],
    waiting: &mut [usize],
    score: &mut [i32],
    done: &[bool],
) {
    for &other in &before[next] {
        waiting[other] -= 1;
    }
    if !soft {
        return;
    }
    for other in (0..pieces.len()).filter(|&other| other != next) {
        if !done[other] && overlap(&pieces[other], &pieces[next]) {
            score[other] -=
                crossings(&pieces[other], &pieces[next]) - crossings(&pieces[next], &pieces[other]);
        }
    }
}

/// Gives the waiting piece that others wait for most cheaply a second upright.
fn split_one(pieces: &mut Vec<Piece>, done: &[bool], waiting: &[usize], taken: &mut Vec<f64>) {
    let stuck: VecDeque<usize> = (0..pieces.len())
        .filter(|&p| !done[p] && !pieces[p].left.is_empty() && !pieces[p].right.is_empty())
        .collect();
    let Some(&chosen) = stuck.iter().min_by_key(|&&p| (waiting[p], p)) else {
        return;
    };
    let middle = free_height(taken, (pieces[chosen].low + pieces[chosen].high) / 2.0);
    taken.push(middle);
    let mut second = pieces[chosen].clone();
    let first = &mut pieces[chosen];
    first.right.clear();
    second.left.clear();
    for piece in [first, &mut second] {
        let wall = piece.left.iter().chain(&piece.right).copied();
        let wall = wall.fold(middle, |_, height| height);
        piece.low = wall.min(middle);
        piece.high = wall.max(middle);
        piece.middle = Some(middle);
    }
    pieces.push(second);
}

/// The height nearest to `wish` that keeps clear of all `taken` ones.
fn free_height(taken: &[f64], wish: f64) -> f64 {
    let free = |y: f64| taken.iter().all(|other| (other - y).abs() >= CLEAR - 1.0);
    let mut candidates: Vec<f64> = taken
        .iter()
        .flat_map(|y| [y - CLEAR, y + CLEAR])
        .chain([wish])
        .map(f64::round)
        .collect();
    candidates.sort_by(|a, b| (a - wish).abs().total_cmp(&(b - wish).abs()));
    candidates
        .iter()
        .copied()
        .find(|&y| free(y))
        .unwrap_or(wish)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn demand(left: &[f64], right: &[f64]) -> Demand {
        Demand {
            left: left.to_vec(),
            right: right.to_vec(),
        }
    }

    #[test]
    fn straight_wires_need_no_track() {
        let (turns, count) = tracks(&[demand(&[10.0], &[10.0]), demand(&[50.0], &[50.0])]);
        assert_eq!(count, 0);
        assert!(turns.iter().all(|turn| turn.uprights.is_empty()));
    }

    #[test]
    fn a_wire_that_leaves_where_another_arrives_turns_first() {
        let (turns, _) = tracks(&[demand(&[0.0], &[40.0]), demand(&[40.0], &[80.0])]);
        assert!(turns[1].uprights[0].0 < turns[0].uprights[0].0);
    }

    #[test]
    fn two_wires_that_change_places_are_told_apart_by_a_second_upright() {
        let (turns, count) = tracks(&[demand(&[0.0], &[60.0]), demand(&[60.0], &[0.0])]);
        let pieces: Vec<usize> = turns.iter().map(|turn| turn.uprights.len()).collect();
        assert_eq!(pieces.iter().sum::<usize>(), 3);
        assert_eq!(count, 3);
        let split = if pieces[0] == 2 { 0 } else { 1 };
        let [first, second] = turns[split].uprights[..] else {
            panic!("one wire has two uprights");
        };
        let whole = turns[1 - split].uprights[0].0;
        assert!(first.0 < whole && whole < second.0);
        assert_eq!(first.2, second.1, "both meet at one height between");
    }

    #[test]
    fn wires_far_apart_share_a_track() {
        let (_, count) = tracks(&[demand(&[0.0], &[20.0]), demand(&[100.0], &[150.0])]);
        assert_eq!(count, 1);
    }
}
