//! Routes against Floyd and Warshall's method on a fine grid of places: every trunk cut into steps, every
//! place on a trunk within reach of both ends. The search tries a few places only; the grid tries all.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod sizing_problems;

use sizing_problems::Dice;
use wainwright_engines::routes::*;
use wainwright_units::Length;
use wainwright_units::frame::Point;

/// Trunks along the axes, corners on whole decimetres.
const CASES: u64 = 600;

/// Places of a trunk with the way from its start, one for each step of a piece.
fn places(path: &[[f64; 3]], steps: impl Fn(f64) -> usize) -> Vec<(usize, f64, [f64; 3])> {
    let mut found = Vec::new();
    let mut run = 0.0;
    for (piece, pair) in path.windows(2).enumerate() {
        let length = straight(pair[0], pair[1]);
        let count = steps(length);
        for step in 0..=count {
            let share = step as f64 / count as f64;
            let place =
                std::array::from_fn(|axis| pair[0][axis] + share * (pair[1][axis] - pair[0][axis]));
            found.push((piece, run + share * length, place));
        }
        run += length;
    }
    found
}

fn straight(one: [f64; 3], other: [f64; 3]) -> f64 {
    (0..3)
        .map(|axis| (one[axis] - other[axis]).powi(2))
        .sum::<f64>()
        .sqrt()
}

fn axes(one: [f64; 3], other: [f64; 3]) -> f64 {
    (0..3).map(|axis| (one[axis] - other[axis]).abs()).sum()
}

/// Weight of the best way, over all places and all ways between them.
fn by_grid(
    trunks: &[Vec<[f64; 3]>],
    ends: [[f64; 3]; 2],
    factor: f64,
    join_within: f64,
    steps: impl Fn(f64) -> usize,
) -> f64 {
    let mut nodes: Vec<(usize, usize, f64, [f64; 3])> = Vec::new();
    for (trunk, path) in trunks.iter().enumerate() {
        nodes.extend(
            places(path, &steps)
                .into_iter()
                .map(|(piece, run, place)| (trunk, piece, run, place)),
        );
    }
    let count = nodes.len() + 2;
    let (from, to) = (nodes.len(), nodes.len() + 1);
    let mut way = vec![vec![f64::INFINITY; count]; count];
    for (one, a) in nodes.iter().enumerate() {
        for (other, b) in nodes.iter().enumerate() {
            if a.0 == b.0 {
                way[one][other] = (a.2 - b.2).abs();
            }
        }
        way[from][one] = factor * axes(ends[0], a.3);
        way[one][to] = factor * axes(ends[1], a.3);
    }
    way[from][to] = factor * axes(ends[0], ends[1]);
    join(&nodes, &mut way, join_within);
    for over in 0..count {
        for one in 0..count {
            if way[one][over].is_finite() {
                for other in 0..count {
                    way[one][other] = way[one][other].min(way[one][over] + way[over][other]);
                }
            }
        }
    }
    way[from][to]
}

/// Joins each two pieces at their narrowest places; of many, those furthest along either way.
fn join(nodes: &[(usize, usize, f64, [f64; 3])], way: &mut [Vec<f64>], within: f64) {
    let mut pieces: Vec<(usize, usize)> = nodes.iter().map(|node| (node.0, node.1)).collect();
    pieces.dedup();
    let of = |piece: (usize, usize)| {
        nodes
            .iter()
            .enumerate()
            .filter(move |(_, node)| (node.0, node.1) == piece)
    };
    for (index, &one) in pieces.iter().enumerate() {
        for &other in &pieces[index + 1..] {
            if one.0 == other.0 && other.1 == one.1 + 1 {
                continue;
            }
            let mut pairs: Vec<(f64, usize, usize)> = Vec::new();
            for (a, place) in of(one) {
                pairs.extend(of(other).map(|(b, there)| (axes(place.3, there.3), a, b)));
            }
            let least = pairs
                .iter()
                .map(|pair| pair.0)
                .fold(f64::INFINITY, f64::min);
            pairs.retain(|pair| pair.0 <= least + 1e-9);
            if least > within + 1e-9 {
                continue;
            }
            let ends = [pairs.first(), pairs.last()];
            for &(gap, a, b) in ends.into_iter().flatten() {
                way[a][b] = way[a][b].min(gap);
                way[b][a] = way[b][a].min(gap);
            }
        }
    }
}

fn corner(dice: &mut Dice) -> [f64; 3] {
    [dice.below(13), dice.below(7), dice.below(7)].map(|steps| steps as f64 / 10.0)
}

/// A path along the axes.
fn square_path(dice: &mut Dice) -> Vec<[f64; 3]> {
    let mut path = vec![corner(dice)];
    let mut last_axis = 3;
    for _ in 0..dice.between(1, 3) {
        let mut next = path[path.len() - 1];
        let axis = dice.below(3);
        let size = [13, 7, 7][axis];
        let moved = dice.below(size) as f64 / 10.0;
        if axis != last_axis && (moved - next[axis]).abs() > 0.05 {
            next[axis] = moved;
            path.push(next);
            last_axis = axis;
        }
    }
    path
}

fn trunk(path: &[[f64; 3]]) -> Trunk {
    Trunk {
        path: path
            .iter()
            .map(|&[x, y, z]| Point::from_metres(x, y, z))
            .collect(),
    }
}

fn engine(trunks: &[Vec<[f64; 3]>], ends: [[f64; 3]; 2], factor: f64, join_within: f64) -> f64 {
    let trunks: Vec<Trunk> = trunks.iter().map(|path| trunk(path)).collect();
    let [from, to] = ends.map(|[x, y, z]| Point::from_metres(x, y, z));
    let wire = Wire {
        from,
        to,
        forced: vec![],
    };
    let options = Options {
        join_within: Length::from_metres(join_within),
        open_factor: factor,
    };
    routes(&trunks, &[wire], &options).unwrap().ways[0]
        .weighted
        .metres()
}

/// Exact to rounding: with all corners and ends on whole decimetres the best place is on one, too.
#[test]
fn square_trunks_agree_with_the_grid() {
    let mut used = 0;
    for seed in 0..CASES {
        let mut dice = Dice::new(seed);
        let trunks: Vec<_> = (0..dice.between(1, 4))
            .map(|_| square_path(&mut dice))
            .collect();
        let ends = [corner(&mut dice), corner(&mut dice)];
        let factor = dice.pick(&[1.0, 1.5, 2.0, 5.0, 10.0]);
        let join_within = dice.pick(&[0.0, 0.1, 0.2]);
        let expected = by_grid(&trunks, ends, factor, join_within, |length| {
            (length * 10.0).round() as usize
        });
        let found = engine(&trunks, ends, factor, join_within);
        assert!(
            (found - expected).abs() < 1e-9,
            "{seed}: {found} against {expected}\n{trunks:?} {ends:?}"
        );
        used += usize::from(expected < factor * axes(ends[0], ends[1]) - 1e-9);
    }
    assert!(
        used > CASES as usize / 4,
        "trunks helped in {used} cases only"
    );
}

/// Sloping trunks that touch nowhere: never above the grid, and below it by no more than a step may cost.
/// Moving a foot by half a step changes the reach by at most √3 of that, at both ends.
#[test]
fn sloping_trunks_agree_with_the_grid() {
    const STEP: f64 = 0.01;
    let mut used = 0;
    for seed in 0..60 {
        let mut dice = Dice::new(1_000_000 + seed);
        let path = vec![corner(&mut dice), corner(&mut dice), corner(&mut dice)];
        if path.windows(2).any(|pair| pair[0] == pair[1]) {
            continue;
        }
        let ends = [corner(&mut dice), corner(&mut dice)];
        let factor = dice.pick(&[1.0, 1.5, 3.0]);
        let trunks = [path];
        let expected = by_grid(&trunks, ends, factor, 0.0, |length| {
            (length / STEP).ceil() as usize
        });
        let found = engine(&trunks, ends, factor, 0.0);
        let slack = STEP * (1.0 + factor * 3.0_f64.sqrt());
        assert!(
            found <= expected + 1e-9 && found >= expected - slack,
            "{seed}: {found} against {expected}"
        );
        used += usize::from(found < factor * axes(ends[0], ends[1]) - 1e-9);
    }
    assert!(used > 10, "{used}");
}
