//! Which side of the two-conductor system each node is on.

use super::{Branch, Consumer, Part};
use crate::result::Side;

/// The side of each node: reached from plus terminals of sources, from minus
/// terminals, from both, or from neither, through anything but gear.
pub(crate) fn sides(node_count: usize, branches: &[Branch], consumers: &[Consumer]) -> Vec<Side> {
    let joined = adjacency(node_count, branches);
    let sources = || consumers.iter().filter(|c| c.demand.is_source());
    let plus = reach(&joined, sources().map(|c| c.nodes.0));
    let minus = reach(&joined, sources().map(|c| c.nodes.1));
    plus.iter()
        .zip(&minus)
        .map(|pair| match pair {
            (true, false) => Side::Plus,
            (false, true) => Side::Minus,
            (true, true) => Side::Both,
            (false, false) => Side::Neither,
        })
        .collect()
}

/// Numbers the pieces that conductors hold together.
pub(crate) fn islands(node_count: usize, branches: &[Branch]) -> Vec<usize> {
    let joined = adjacency(node_count, branches);
    let mut islands = vec![usize::MAX; node_count];
    for start in 0..node_count {
        let mut open = vec![start];
        while let Some(node) = open.pop() {
            if islands[node] == usize::MAX {
                islands[node] = start;
                open.extend(joined[node].iter().copied());
            }
        }
    }
    islands
}

fn adjacency(node_count: usize, branches: &[Branch]) -> Vec<Vec<usize>> {
    let mut joined = vec![Vec::new(); node_count];
    for branch in branches {
        if !matches!(branch.part, Part::Consumer(_)) {
            joined[branch.from].push(branch.to);
            joined[branch.to].push(branch.from);
        }
    }
    joined
}

fn reach(joined: &[Vec<usize>], starts: impl Iterator<Item = usize>) -> Vec<bool> {
    let mut seen = vec![false; joined.len()];
    let mut open: Vec<usize> = starts.collect();
    while let Some(node) = open.pop() {
        if !std::mem::replace(&mut seen[node], true) {
            open.extend(joined[node].iter().filter(|next| !seen[**next]));
        }
    }
    seen
}
