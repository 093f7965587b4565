//! Heights: every row of every column gets its y so that wires run straight
//! where they can. Order in the column is given; distances are kept exactly.

use super::stage::{Stage, Stop};
use crate::diagram::Block;

/// Space between blocks of one column [px].
const BLOCK_GAP: f64 = 12.0;
/// Space between a block and a wire that passes it [px].
const PASSING_GAP: f64 = 6.0;
/// Space between two connected pieces [px].
const PIECE_GAP: f64 = 36.0;
/// Sweeps of the whole sheet.
const SWEEPS: usize = 10;

/// Heights of all rows.
#[derive(Debug, Clone)]
pub(super) struct Heights {
    /// For each node, the y of each of its rows [px].
    pub rows: Vec<Vec<f64>>,
}

impl Heights {
    /// Height of a stop [px].
    pub fn of(&self, stage: &Stage, stop: Stop) -> f64 {
        let (row, offset) = stage.row_and_offset(stop);
        self.rows[stop.node].get(row).copied().unwrap_or(0.0) + offset
    }
}

/// One row of a column while it is being placed.
pub(super) struct Item {
    pub node: usize,
    pub row: usize,
    /// Least distance from the row above, 0 for the first [px].
    pub after: f64,
}

/// Places every row; top of the drawing is 0.
pub(super) fn heights(stage: &mut Stage, blocks: &[Block]) -> Heights {
    let mut heights = Heights {
        rows: (0..stage.passing.len())
            .map(|node| packed(stage, node))
            .collect(),
    };
    let count = stage.columns.len();
    for column in 0..count {
        let items = items(stage, column);
        let mut at = 0.0;
        for item in &items {
            at += item.after;
            heights.rows[item.node][item.row] = at;
        }
    }
    for sweep in 0..SWEEPS {
        for step in 0..count {
            let column = if sweep % 2 == 1 {
                step
            } else {
                count - 1 - step
            };
            let only = (sweep < 4).then_some(sweep % 2 == 1);
            rearrange(stage, blocks, &mut heights, column);
            place_column(stage, &mut heights, column, only);
        }
    }
    let columns: Vec<Vec<Item>> = (0..count).map(|column| items(stage, column)).collect();
    super::align::align(stage, &mut heights, &columns);
    settle_top(stage, &mut heights);
    heights
}

/// Rows of one node as close as they may be.
fn packed(stage: &Stage, node: usize) -> Vec<f64> {
    let mut below: Option<f64> = None;
    let mut at = 0.0;
    let row = |reach: &super::shape::Reach| {
        at += below.map_or(0.0, |below| below + 2.0 + reach.above);
        below = Some(reach.below);
        at
    };
    stage.rows(node).iter().map(row).collect()
}

/// Rows of a column from top to bottom with their least distances.
fn items(stage: &Stage, column: usize) -> Vec<Item> {
    let mut items: Vec<Item> = Vec::new();
    let mut last: Option<(usize, f64)> = None;
    for &node in &stage.columns[column] {
        for (row, reach) in stage.rows(node).iter().enumerate() {
            let after = last.map_or(0.0, |(before, below)| {
                below + reach.above + gap(stage, before, node)
            });
            items.push(Item { node, row, after });
            last = Some((node, reach.below));
        }
    }
    items
}

fn gap(stage: &Stage, upper: usize, lower: usize) -> f64 {
    if upper == lower {
        return 2.0;
    }
    if stage.piece[upper] != stage.piece[lower] {
        return PIECE_GAP;
    }
    match (stage.passing[upper], stage.passing[lower]) {
        (None, None) => BLOCK_GAP,
        (Some(_), Some(_)) => 0.0,
        _ => PASSING_GAP,
    }
}

/// Lets the lugs of a column's blocks follow the heights of what they lead to.
fn rearrange(stage: &mut Stage, blocks: &[Block], heights: &mut Heights, column: usize) {
    for place in 0..stage.columns[column].len() {
        let node = stage.columns[column][place];
        let Some(block) = blocks.get(node) else {
            continue;
        };
        let mut wishes = Vec::new();
        for &(net, end) in &stage.touching[node] {
            let net = &stage.nets[net];
            if let Some((wire, which)) = net.ends[end].0.lug {
                let other = heights.of(stage, net.ends[1 - end].0);
                wishes.push((stage.slot[wire][which], other));
            }
        }
        for (slot, wish) in wishes {
            stage.shapes[node].lugs[slot].wish = wish;
        }
        stage.arrange(node, block);
    }
}

/// Best heights of one column for the heights its neighbours have now.
/// With `only`, neighbours of one side count: `true` those to the left.
fn place_column(stage: &Stage, heights: &mut Heights, column: usize, only: Option<bool>) {
    let items = items(stage, column);
    let mut stacked = 0.0;
    let mut wishes = Vec::with_capacity(items.len());
    let mut floors = Vec::with_capacity(items.len());
    for item in &items {
        stacked += item.after;
        let (wish, weight) =
            wish(stage, heights, item, only).unwrap_or((heights.rows[item.node][item.row], 0.01));
        wishes.push((wish - stacked, weight));
        floors.push(stacked);
    }
    for ((item, level), floor) in items.iter().zip(rising(&wishes)).zip(floors) {
        heights.rows[item.node][item.row] = level.round() + floor;
    }
}

/// Mean wished height of a row and its weight.
fn wish(stage: &Stage, heights: &Heights, item: &Item, only: Option<bool>) -> Option<(f64, f64)> {
    let mut sum = 0.0;
    let mut total = 0.0;
    for (own, other, from_left) in neighbours(stage, item) {
        if only.is_some_and(|left| left != from_left) || other.node == item.node {
            continue;
        }
        let weight = if other.lug.is_none() || own.lug.is_none() {
            2.0
        } else {
            1.0
        };
        sum += weight * (heights.of(stage, other) - stage.row_and_offset(own).1);
        total += weight;
    }
    (total > 0.0).then(|| (sum / total, total))
}

/// The stops of a row, each with the stop it leads to and whether that lies to the left.
fn neighbours<'a>(
    stage: &'a Stage,
    item: &'a Item,
) -> impl Iterator<Item = (Stop, Stop, bool)> + 'a {
    stage.touching[item.node]
        .iter()
        .filter_map(move |&(net, end)| {
            let (own, wall) = stage.nets[net].ends[end];
            let (other, other_wall) = stage.nets[net].ends[1 - end];
            let here = stage.row_and_offset(own).0 == item.row;
            (here && wall != other_wall).then_some((own, other, wall == super::Side::Right))
        })
}

/// Nearest non-falling sequence in weighted least squares (pooling of neighbours that fall).
fn rising(wishes: &[(f64, f64)]) -> Vec<f64> {
    let mut pools: Vec<(f64, f64, usize)> = Vec::new();
    for &(wish, weight) in wishes {
        pools.push((wish, weight, 1));
        while let [.., a, b] = pools[..] {
            if a.0 <= b.0 {
                break;
            }
            let weight = a.1 + b.1;
            pools.truncate(pools.len() - 2);
            pools.push(((a.0 * a.1 + b.0 * b.1) / weight, weight, a.2 + b.2));
        }
    }
    pools
        .iter()
        .flat_map(|&(level, _, count)| std::iter::repeat_n(level, count))
        .collect()
}

/// Moves everything so that the highest reach is at 0.
fn settle_top(stage: &Stage, heights: &mut Heights) {
    let mut top = f64::INFINITY;
    for column in &stage.columns {
        for &node in column {
            for (row, reach) in stage.rows(node).iter().enumerate() {
                top = top.min(heights.rows[node][row] - reach.above);
            }
        }
    }
    if top.is_finite() {
        let top = top.floor();
        heights.rows.iter_mut().flatten().for_each(|y| *y -= top);
    }
}
