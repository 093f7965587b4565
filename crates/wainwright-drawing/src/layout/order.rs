//! Order of nodes within each column so that few wires cross: sweeps by mean
//! neighbour position, then swaps of neighbours while they help.

use super::Side;
use super::stage::{Net, Stage, Stop};

/// What a crossing costs, in nodes passed by a jumper within a column.
const CROSSING_COST: usize = 4;
/// Most sweeps over all columns.
const SWEEPS: usize = 12;
/// Longest chain of jumpers that is followed in one sweep.
const JUMPER_ROUNDS: usize = 8;
/// Most rounds of swapping neighbours.
const SWAP_ROUNDS: usize = 6;
/// Above this many nets in total, swapping is left out to stay fast.
const SWAP_NET_CAP: usize = 6_000;

/// Orders every column of `stage` in place.
pub(super) fn order(stage: &mut Stage) {
    let mut rank = ranks(stage);
    let mut best = (cost(stage, &rank), stage.columns.clone());
    for sweep in 0..SWEEPS {
        if best.0 == 0 && sweep > 1 {
            break;
        }
        sweep_once(stage, &mut rank, sweep % 2 == 0);
        if stage.nets.len() <= SWAP_NET_CAP {
            swap_neighbours(stage, &mut rank);
        }
        let count = cost(stage, &rank);
        if count < best.0 {
            best = (count, stage.columns.clone());
        }
    }
    stage.columns = best.1;
}

fn ranks(stage: &Stage) -> Vec<usize> {
    let mut rank = vec![0; stage.passing.len()];
    for column in &stage.columns {
        for (place, &node) in column.iter().enumerate() {
            rank[node] = place;
        }
    }
    rank
}

/// Position of a stop in its column: whole part the node, fraction the place along the node.
fn position(stage: &Stage, rank: &[usize], stop: Stop) -> f64 {
    rank[stop.node] as f64 + fraction(stage, stop)
}

fn fraction(stage: &Stage, stop: Stop) -> f64 {
    let Some((wire, end)) = stop.lug else {
        return 0.5;
    };
    let count = stage.shapes[stop.node].lugs.len() as f64 + 1.0;
    let place = stage.slot[wire][end] as f64 + 1.0;
    // Terminals above each other on one side keep their order; a bar's lugs are free.
    match stage.shapes[stop.node].class {
        super::shape::Class::Bar => 0.5,
        _ => place / count,
    }
}

fn sweep_once(stage: &mut Stage, rank: &mut [usize], rightwards: bool) {
    let count = stage.columns.len();
    for step in 0..count {
        let column = if rightwards { step } else { count - 1 - step };
        let mut nodes = std::mem::take(&mut stage.columns[column]);
        let mut wishes: Vec<Option<f64>> = nodes
            .iter()
            .map(|&node| wish(stage, rank, node, rightwards))
            .collect();
        follow_jumpers(stage, rank, &nodes, &mut wishes);
        let mut from = 0;
        while from < nodes.len() {
            let group = |node: usize| (stage.piece[node], stage.band[node]);
            let same = nodes[from..]
                .iter()
                .take_while(|&&n| group(n) == group(nodes[from]));
            let to = from + same.count();
            reorder(&mut nodes[from..to], &wishes[from..to]);
            from = to;
        }
        for (place, &node) in nodes.iter().enumerate() {
            rank[node] = place;
        }
        stage.columns[column] = nodes;
    }
}

/// A node that only a jumper from its own column leads to comes right behind the one it hangs on.
fn follow_jumpers(stage: &Stage, rank: &[usize], nodes: &[usize], wishes: &mut [Option<f64>]) {
    for _ in 0..JUMPER_ROUNDS {
        let mut found = Vec::new();
        for (place, &node) in nodes.iter().enumerate() {
            if wishes[place].is_some() {
                continue;
            }
            let hosts = stage.touching[node].iter().filter_map(|&(net, end)| {
                let net = &stage.nets[net];
                let (other, wall) = net.ends[1 - end];
                let same = wall == net.ends[end].1 && other.node != node;
                // Ranks are still those of this very order of nodes.
                same.then(|| wishes.get(rank[other.node]).copied().flatten())?
            });
            if let Some(host) = hosts.reduce(f64::min) {
                found.push((place, host + 1e-6));
            }
        }
        if found.is_empty() {
            return;
        }
        for (place, wish) in found {
            wishes[place] = Some(wish);
        }
    }
}

/// Sorts the nodes that have a wish among the places they hold; the others stay.
fn reorder(nodes: &mut [usize], wishes: &[Option<f64>]) {
    let places: Vec<usize> = (0..nodes.len())
        .filter(|&place| wishes[place].is_some())
        .collect();
    let mut movers: Vec<(f64, usize, usize)> = places
        .iter()
        .map(|&place| (wishes[place].unwrap_or(0.0), place, nodes[place]))
        .collect();
    movers.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    for (&place, (_, _, node)) in places.iter().zip(movers) {
        nodes[place] = node;
    }
}

/// Mean position of the neighbours on the side the sweep comes from.
fn wish(stage: &Stage, rank: &[usize], node: usize, rightwards: bool) -> Option<f64> {
    let wall = if rightwards { Side::Right } else { Side::Left };
    let mut sum = 0.0;
    let mut count = 0.0;
    for &(net, end) in &stage.touching[node] {
        let net = &stage.nets[net];
        let (other, other_wall) = net.ends[1 - end];
        let (own, own_wall) = net.ends[end];
        let same_column = own_wall == other_wall;
        if !same_column && own_wall == wall && other.node != node {
            // The own place matters only between wires of the same neighbour.
            sum += position(stage, rank, other) - 1e-4 * fraction(stage, own);
            count += 1.0;
        }
    }
    (count > 0.0).then(|| sum / count)
}

/// Crossings of all wires between neighbouring columns.
fn crossings(stage: &Stage, rank: &[usize]) -> usize {
    let mut by_channel: Vec<Vec<(f64, f64)>> = vec![Vec::new(); stage.columns.len() + 1];
    for net in &stage.nets {
        if let Some(pair) = across(stage, rank, net) {
            by_channel[net.channel].push(pair);
        }
    }
    by_channel.iter_mut().map(|pairs| inversions(pairs)).sum()
}

/// What an order costs: crossings, and the nodes that jumpers within a column must pass.
fn cost(stage: &Stage, rank: &[usize]) -> usize {
    let passed = stage.nets.iter().map(|net| {
        let [(a, wall_a), (b, wall_b)] = net.ends;
        match wall_a == wall_b {
            true => rank[a.node].abs_diff(rank[b.node]).saturating_sub(1),
            false => 0,
        }
    });
    CROSSING_COST * crossings(stage, rank) + passed.sum::<usize>()
}

/// Positions at the left and right wall, for a net that crosses its channel.
fn across(stage: &Stage, rank: &[usize], net: &Net) -> Option<(f64, f64)> {
    let [(a, wall_a), (b, wall_b)] = net.ends;
    let (a, b) = (position(stage, rank, a), position(stage, rank, b));
    match (wall_a, wall_b) {
        (Side::Left, Side::Right) => Some((a, b)),
        (Side::Right, Side::Left) => Some((b, a)),
        _ => None,
    }
}

fn inversions(pairs: &mut [(f64, f64)]) -> usize {
    pairs.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.total_cmp(&b.1)));
    let mut rights: Vec<f64> = pairs.iter().map(|pair| pair.1).collect();
    let mut spare = rights.clone();
    merge_count(&mut rights, &mut spare)
}

/// Counts pairs out of order while merge-sorting.
fn merge_count(values: &mut [f64], spare: &mut [f64]) -> usize {
    let count = values.len();
    if count < 2 {
        return 0;
    }
    let middle = count / 2;
    let (left, right) = values.split_at_mut(middle);
    let (spare_left, spare_right) = spare.split_at_mut(middle);
    let mut found = merge_count(left, spare_left) + merge_count(right, spare_right);
    let (mut i, mut j) = (0, 0);
    for slot in spare.iter_mut() {
        if j >= right.len() || (i < left.len() && left[i] <= right[j]) {
            *slot = left[i];
            i += 1;
        } else {
            *slot = right[j];
            found += left.len() - i;
            j += 1;
        }
    }
    values.copy_from_slice(spare);
    found
}

/// Swaps neighbours of one column while that lowers the crossings between their own wires.
fn swap_neighbours(stage: &mut Stage, rank: &mut [usize]) {
    for _ in 0..SWAP_ROUNDS {
        let mut swapped = false;
        for column in 0..stage.columns.len() {
            for place in 1..stage.columns[column].len() {
                let (upper, lower) = (
                    stage.columns[column][place - 1],
                    stage.columns[column][place],
                );
                if (stage.piece[upper], stage.band[upper])
                    != (stage.piece[lower], stage.band[lower])
                {
                    continue;
                }
                if pair_crossings(stage, rank, lower, upper)
                    < pair_crossings(stage, rank, upper, lower)
                {
                    stage.columns[column].swap(place - 1, place);
                    rank.swap(upper, lower);
                    swapped = true;
                }
            }
        }
        if !swapped {
            return;
        }
    }
}

/// Crossings between wires of two nodes of one column if `upper` is above `lower`.
fn pair_crossings(stage: &Stage, rank: &[usize], upper: usize, lower: usize) -> usize {
    let ends = |node: usize| {
        stage.touching[node].iter().filter_map(move |&(net, end)| {
            let net = &stage.nets[net];
            let (other, other_wall) = net.ends[1 - end];
            let wall = net.ends[end].1;
            (wall != other_wall).then(|| (wall, position(stage, rank, other)))
        })
    };
    let mut count = 0;
    for (wall, at) in ends(upper) {
        count += ends(lower)
            .filter(|&(other_wall, other)| other_wall == wall && other < at)
            .count();
    }
    count
}
