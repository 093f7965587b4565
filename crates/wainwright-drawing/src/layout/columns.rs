//! Which column each block stands in: supplies left, loads right, returns behind the loads.
//!
//! The direction of flow is not taken from the order of a link's ends. It is
//! found by letting a made-up potential settle over the plus side (supplies
//! high, loads low, every wire alike), so that a breaker between a controller
//! and a bus bar stands between them, in loops too.

use super::graph::Graph;
use crate::diagram::{BlockKind, Pole};
use std::collections::VecDeque;

/// Rounds of settling; the order of blocks, not the value, is used.
const SETTLING_ROUNDS: usize = 60;

/// Columns of all wired blocks.
#[derive(Debug, Clone)]
pub(super) struct Columns {
    /// Column of each block; meaningless for blocks without a wire.
    pub of: Vec<usize>,
    pub count: usize,
    /// Height class: 0 free, 1 batteries below it, 2 the return way below everything.
    pub band: Vec<u8>,
}

/// What a block is for the flow.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Role {
    Supply,
    Battery,
    Sink,
    Return,
    Way,
}

/// Finds the column of every wired block.
pub(super) fn columns(graph: &Graph) -> Columns {
    let roles = roles(graph);
    let mut of = vec![0usize; graph.blocks.len()];
    forward(graph, &roles, &mut of);
    let load_column = put_sinks(graph, &roles, &mut of);
    let band = put_returns(graph, &roles, load_column, &mut of);
    let count = renumber(graph, &mut of);
    Columns { of, count, band }
}

fn roles(graph: &Graph) -> Vec<Role> {
    let mut minus_only: Vec<bool> = graph.wired.clone();
    for wire in graph.wires.iter().filter(|wire| wire.pole == Pole::Plus) {
        for place in wire.ends {
            minus_only[place.block] = false;
        }
    }
    let role = |(index, block): (usize, &crate::diagram::Block)| match block.kind {
        BlockKind::Battery => Role::Battery,
        BlockKind::Supply | BlockKind::SolarModule => Role::Supply,
        BlockKind::Controller | BlockKind::Charger => Role::Supply,
        BlockKind::Load | BlockKind::Outlet | BlockKind::Inverter => Role::Sink,
        _ if minus_only[index] => Role::Return,
        _ => Role::Way,
    };
    graph.blocks.iter().enumerate().map(role).collect()
}

/// The potential at which a block is held, if it is.
fn held(kind: BlockKind) -> Option<f64> {
    match kind {
        BlockKind::Supply | BlockKind::SolarModule => Some(1.3),
        BlockKind::Controller | BlockKind::Charger => Some(1.15),
        BlockKind::Battery => Some(1.0),
        BlockKind::Load | BlockKind::Outlet | BlockKind::Inverter => Some(0.0),
        _ => None,
    }
}

/// Columns of everything that is neither a load nor a return, from left to right.
fn forward(graph: &Graph, roles: &[Role], of: &mut [usize]) {
    let near = graph.neighbours(|wire| wire.pole == Pole::Plus);
    let mut supplied: Vec<bool> = vec![false; graph.blocks.len()];
    for (index, role) in roles.iter().enumerate() {
        supplied[graph.piece[index]] |= matches!(role, Role::Supply | Role::Battery);
    }
    let rank = ranks(graph, &near, &supplied);
    let mut sequence: Vec<usize> = (0..of.len())
        .filter(|&block| matches!(roles[block], Role::Supply | Role::Battery | Role::Way))
        .collect();
    sequence.sort_by_key(|&block| rank[block]);
    let peers = |a: usize, b: usize| {
        graph.blocks[a].kind == graph.blocks[b].kind && held(graph.blocks[a].kind).is_some()
    };
    for &block in &sequence {
        let before = near[block].iter().filter(|&&other| {
            rank[other] < rank[block] && roles[other] != Role::Sink && !peers(block, other)
        });
        of[block] = before.map(|&other| of[other] + 1).max().unwrap_or(0);
    }
    level_batteries(graph, roles, of);
    pull_right(&near, roles, &rank, &sequence, of);
}

/// Batteries of one piece stand in one column, so that a parallel pair reads as one.
fn level_batteries(graph: &Graph, roles: &[Role], of: &mut [usize]) {
    let batteries: Vec<usize> = (0..of.len())
        .filter(|&b| roles[b] == Role::Battery)
        .collect();
    let mut deepest = vec![0; of.len()];
    for &block in &batteries {
        let piece = graph.piece[block];
        deepest[piece] = of[block].max(deepest[piece]);
    }
    for &block in &batteries {
        of[block] = deepest[graph.piece[block]];
    }
}

/// A block that nothing feeds from the left stands next to what follows it.
fn pull_right(
    near: &[Vec<usize>],
    roles: &[Role],
    rank: &[usize],
    sequence: &[usize],
    of: &mut [usize],
) {
    for &block in sequence
        .iter()
        .rev()
        .filter(|&&block| roles[block] == Role::Way)
    {
        let fed = near[block].iter().any(|&other| rank[other] < rank[block]);
        let next = near[block]
            .iter()
            .filter(|&&other| rank[other] > rank[block]);
        if let (false, Some(least)) = (fed, next.map(|&other| of[other]).min()) {
            of[block] = of[block].max(least.saturating_sub(1));
        }
    }
}

/// Strict order of flow on the plus side: 0 is the furthest upstream.
fn ranks(graph: &Graph, near: &[Vec<usize>], supplied: &[bool]) -> Vec<usize> {
    let count = graph.blocks.len();
    let fixed: Vec<Option<f64>> = (0..count)
        .map(|block| match held(graph.blocks[block].kind) {
            Some(level) => Some(level),
            None if near[block].len() <= 1 && supplied[graph.piece[block]] => Some(0.0),
            None => None,
        })
        .collect();
    let distance = distances(graph, near, &fixed);
    let mut sweep: Vec<usize> = (0..count).collect();
    sweep.sort_by_key(|&block| (distance[block], block));
    let mut level: Vec<f64> = fixed.iter().map(|fixed| fixed.unwrap_or(0.5)).collect();
    for round in 0..SETTLING_ROUNDS {
        let mut settle = |block: usize| {
            if fixed[block].is_none() && !near[block].is_empty() {
                let sum: f64 = near[block].iter().map(|&other| level[other]).sum();
                level[block] = sum / near[block].len() as f64;
            }
        };
        if round % 2 == 0 {
            sweep.iter().for_each(|&block| settle(block));
        } else {
            sweep.iter().rev().for_each(|&block| settle(block));
        }
    }
    let mut order: Vec<usize> = (0..count).collect();
    let key = |block: usize| (-(level[block] * 1e6).round() as i64, distance[block], block);
    order.sort_by_key(|&block| key(block));
    let mut rank = vec![0; count];
    for (position, &block) in order.iter().enumerate() {
        rank[block] = position;
    }
    rank
}

/// Wires from the nearest supply; in a piece without one, from its first linked end.
fn distances(graph: &Graph, near: &[Vec<usize>], fixed: &[Option<f64>]) -> Vec<usize> {
    let mut distance = vec![usize::MAX; near.len()];
    let supplies = (0..near.len()).filter(|&b| fixed[b].is_some_and(|level| level >= 1.0));
    let mut queue: VecDeque<usize> = supplies.collect();
    for &block in &queue {
        distance[block] = 0;
    }
    spread(near, &mut queue, &mut distance);
    for wire in graph.wires.iter().filter(|wire| wire.pole == Pole::Plus) {
        let start = wire.ends[0].block;
        if distance[start] == usize::MAX {
            distance[start] = 0;
            spread(near, &mut VecDeque::from([start]), &mut distance);
        }
    }
    distance
}

fn spread(near: &[Vec<usize>], queue: &mut VecDeque<usize>, distance: &mut [usize]) {
    while let Some(block) = queue.pop_front() {
        for &other in &near[block] {
            if distance[other] == usize::MAX {
                distance[other] = distance[block] + 1;
                queue.push_back(other);
            }
        }
    }
}

/// All loads share the column right of everything that feeds any of them.
fn put_sinks(graph: &Graph, roles: &[Role], of: &mut [usize]) -> usize {
    let feeding = (0..of.len()).filter(|&block| {
        graph.wired[block] && matches!(roles[block], Role::Supply | Role::Battery | Role::Way)
    });
    let column = feeding.map(|block| of[block] + 1).max().unwrap_or(0);
    for block in (0..of.len()).filter(|&block| roles[block] == Role::Sink) {
        of[block] = column;
    }
    column
}

/// Return blocks: those that collect from loads stand right of the loads, the
/// main one furthest right; those between them and the supply stand near it.
fn put_returns(graph: &Graph, roles: &[Role], load_column: usize, of: &mut [usize]) -> Vec<u8> {
    let near = graph.neighbours(|wire| wire.pole != Pole::Plus);
    let mut queue = VecDeque::new();
    let mut steps = vec![usize::MAX; of.len()];
    let mut collected = vec![usize::MAX; of.len()];
    for block in 0..of.len() {
        if matches!(roles[block], Role::Supply | Role::Battery) {
            steps[block] = 0;
            queue.push_back(block);
        }
    }
    // Batteries first: the way back to them is the main return.
    queue
        .make_contiguous()
        .sort_by_key(|&block| roles[block] != Role::Battery);
    let mut band: Vec<u8> = roles
        .iter()
        .map(|&role| u8::from(role == Role::Battery))
        .collect();
    while let Some(block) = queue.pop_front() {
        for &next in &near[block] {
            if roles[next] != Role::Return || steps[next] != usize::MAX {
                continue;
            }
            steps[next] = steps[block] + 1;
            let gathers = near[next].iter().any(|&other| roles[other] == Role::Sink);
            if collected[block] != usize::MAX {
                collected[next] = collected[block] + 1;
            } else if gathers {
                collected[next] = 0;
            } else {
                of[next] = of[block] + 1;
                band[next] = if roles[block] == Role::Battery {
                    2
                } else {
                    band[block]
                };
            }
            queue.push_back(next);
        }
    }
    let deepest = collected.iter().filter(|&&depth| depth != usize::MAX).max();
    let deepest = deepest.copied().unwrap_or(0);
    for block in (0..of.len()).filter(|&block| roles[block] == Role::Return) {
        if collected[block] != usize::MAX {
            of[block] = load_column + 1 + deepest - collected[block];
        } else if steps[block] == usize::MAX {
            of[block] = load_column + 1;
        }
    }
    band
}

/// Closes up empty columns; returns how many are left.
fn renumber(graph: &Graph, of: &mut [usize]) -> usize {
    let mut used: Vec<usize> = (0..of.len())
        .filter(|&b| graph.wired[b])
        .map(|b| of[b])
        .collect();
    used.sort_unstable();
    used.dedup();
    for column in of.iter_mut() {
        *column = used.binary_search(column).unwrap_or(0);
    }
    used.len()
}
