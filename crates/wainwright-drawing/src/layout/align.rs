//! Straight wires: rows that one wire joins are tied to one height, then the
//! ties are placed together.
//!
//! Ties of one channel never cross, so "is above" between ties has no rings
//! and every set of least distances can be met. Starting from wished heights,
//! the mean of the highest and the lowest placement that keeps all distances
//! keeps them too; then each tie moves to the middle of its bent wires.

use super::heights::{Heights, Item};
use super::stage::{Stage, Stop};
use super::{Side, shape::Class};
use std::collections::{BTreeMap, VecDeque};

/// Rounds in which ties move towards their bent wires.
const EASING_ROUNDS: usize = 12;

/// Rows of one tie share a height, up to a fixed shift.
struct Ties {
    /// Tie and shift of every row, by row number.
    of: Vec<(usize, f64)>,
    /// For each tie: ties below it with the least distance, and the reverse.
    below: Vec<Vec<(usize, f64)>>,
    above: Vec<Vec<(usize, f64)>>,
    /// Ties from top to bottom.
    order: Vec<usize>,
    /// Highest and lowest height of each tie in a drawing that is no taller than it must be.
    range: Vec<(f64, f64)>,
}

/// Straightens wires by moving rows; keeps every least distance in `columns`.
pub(super) fn align(stage: &Stage, heights: &mut Heights, columns: &[Vec<Item>]) {
    let numbering = Numbering::new(stage);
    let tied = choose(stage, &numbering, columns);
    let Some(ties) = Ties::new(stage, &numbering, columns, &tied) else {
        return;
    };
    let mut level = ties.start(heights, &numbering);
    let targets = bent(stage, &numbering, &ties, &tied);
    for round in 0..EASING_ROUNDS {
        let mut ease = |tie: usize| ease_one(&ties, &targets, &mut level, tie);
        if round % 2 == 0 {
            ties.order.iter().for_each(|&tie| ease(tie));
        } else {
            ties.order.iter().rev().for_each(|&tie| ease(tie));
        }
    }
    for (node, rows) in heights.rows.iter_mut().enumerate() {
        for (row, y) in rows.iter_mut().enumerate() {
            let (tie, shift) = ties.of[numbering.first[node] + row];
            if tie != usize::MAX {
                *y = level[tie] + shift;
            }
        }
    }
}

/// Consecutive numbers for all rows of all nodes.
struct Numbering {
    first: Vec<usize>,
    count: usize,
}

impl Numbering {
    fn new(stage: &Stage) -> Self {
        let mut count = 0;
        let mut first = Vec::with_capacity(stage.passing.len());
        for node in 0..stage.passing.len() {
            first.push(count);
            count += stage.rows(node).len();
        }
        Self { first, count }
    }

    fn row(&self, stage: &Stage, stop: Stop) -> (usize, f64) {
        let (row, offset) = stage.row_and_offset(stop);
        (self.first[stop.node] + row, offset)
    }
}

/// Nets that become straight: long runs first, then thick ends; never two that cross.
fn choose(stage: &Stage, numbering: &Numbering, columns: &[Vec<Item>]) -> Vec<bool> {
    let mut place = vec![0usize; numbering.count];
    for items in columns {
        for (index, item) in items.iter().enumerate() {
            place[numbering.first[item.node] + item.row] = index;
        }
    }
    let mut wished: Vec<usize> = (0..stage.nets.len())
        .filter(|&net| {
            let [(a, wall_a), (b, wall_b)] = stage.nets[net].ends;
            wall_a == Side::Left && wall_b == Side::Right && a.node != b.node
        })
        .collect();
    wished.sort_by_key(|&net| (priority(stage, net), net));
    let mut right_of: Vec<BTreeMap<usize, usize>> = vec![BTreeMap::new(); columns.len() + 1];
    let mut left_of: Vec<BTreeMap<usize, usize>> = vec![BTreeMap::new(); columns.len() + 1];
    let mut tied = vec![false; stage.nets.len()];
    for net in wished {
        let channel = stage.nets[net].channel;
        let [left, right] = stage.nets[net]
            .ends
            .map(|end| place[numbering.row(stage, end.0).0]);
        let (forth, back) = (&mut right_of[channel], &mut left_of[channel]);
        let upper = forth
            .range(..left)
            .next_back()
            .is_none_or(|(_, &other)| other < right);
        let lower = forth
            .range(left + 1..)
            .next()
            .is_none_or(|(_, &other)| other > right);
        if upper && lower && !forth.contains_key(&left) && !back.contains_key(&right) {
            forth.insert(left, right);
            back.insert(right, left);
            tied[net] = true;
        }
    }
    tied
}

/// Smaller is tied first.
fn priority(stage: &Stage, net: usize) -> (u8, u8) {
    let ends = stage.nets[net].ends.map(|end| end.0);
    let lanes = ends.iter().filter(|stop| stop.lug.is_none()).count() as u8;
    let rigid = ends.iter().filter(|stop| {
        let class = stage.shapes.get(stop.node).map(|shape| shape.class);
        !matches!(class, None | Some(Class::Bar | Class::Ways))
    });
    let returning = ends.iter().any(|stop| stage.band[stop.node] == 2);
    (2 - lanes + u8::from(returning), rigid.count() as u8)
}

impl Ties {
    /// Groups tied rows; `None` if "is above" had a ring, which crossing-free ties exclude.
    fn new(
        stage: &Stage,
        numbering: &Numbering,
        columns: &[Vec<Item>],
        tied: &[bool],
    ) -> Option<Self> {
        let mut near: Vec<Vec<(usize, f64)>> = vec![Vec::new(); numbering.count];
        for net in (0..tied.len()).filter(|&net| tied[net]) {
            let [(a, at_a), (b, at_b)] =
                stage.nets[net].ends.map(|end| numbering.row(stage, end.0));
            near[a].push((b, at_a - at_b));
            near[b].push((a, at_b - at_a));
        }
        let mut of = vec![(usize::MAX, 0.0); numbering.count];
        let mut count = 0;
        for item in columns.iter().flatten() {
            let start = numbering.first[item.node] + item.row;
            if of[start].0 != usize::MAX {
                continue;
            }
            of[start] = (count, 0.0);
            let mut queue = VecDeque::from([start]);
            while let Some(row) = queue.pop_front() {
                for &(other, shift) in &near[row] {
                    if of[other].0 == usize::MAX {
                        of[other] = (count, of[row].1 + shift);
                        queue.push_back(other);
                    }
                }
            }
            count += 1;
        }
        let mut ties = Self {
            of,
            below: vec![Vec::new(); count],
            above: vec![Vec::new(); count],
            order: Vec::with_capacity(count),
            range: Vec::new(),
        };
        for items in columns {
            for pair in items.windows(2) {
                let [upper, lower] = pair else { continue };
                let (a, shift_a) = ties.of[numbering.first[upper.node] + upper.row];
                let (b, shift_b) = ties.of[numbering.first[lower.node] + lower.row];
                let least = shift_a + lower.after - shift_b;
                ties.below[a].push((b, least));
                ties.above[b].push((a, least));
            }
        }
        ties.sort();
        ties.find_range(stage, numbering, columns);
        (ties.order.len() == count).then_some(ties)
    }

    fn sort(&mut self) {
        let mut waiting: Vec<usize> = self.above.iter().map(Vec::len).collect();
        let mut queue: VecDeque<usize> = (0..waiting.len())
            .filter(|&tie| waiting[tie] == 0)
            .collect();
        while let Some(tie) = queue.pop_front() {
            self.order.push(tie);
            for &(other, _) in &self.below[tie] {
                waiting[other] -= 1;
                if waiting[other] == 0 {
                    queue.push_back(other);
                }
            }
        }
    }

    /// The least height of the whole drawing gives every tie its range.
    fn find_range(&mut self, stage: &Stage, numbering: &Numbering, columns: &[Vec<Item>]) {
        let mut top = vec![f64::NEG_INFINITY; self.below.len()];
        let mut tail = vec![f64::NEG_INFINITY; self.below.len()];
        for item in columns.iter().flatten() {
            let (tie, shift) = self.of[numbering.first[item.node] + item.row];
            let reach = stage.rows(item.node)[item.row];
            top[tie] = top[tie].max(reach.above - shift);
            tail[tie] = tail[tie].max(reach.below + shift);
        }
        for &tie in &self.order {
            let least = self.above[tie]
                .iter()
                .map(|&(other, least)| top[other] + least);
            top[tie] = least.fold(top[tie], f64::max);
        }
        for &tie in self.order.iter().rev() {
            let least = self.below[tie]
                .iter()
                .map(|&(other, least)| tail[other] + least);
            tail[tie] = least.fold(tail[tie], f64::max);
        }
        let whole = top
            .iter()
            .zip(&tail)
            .map(|(top, tail)| top + tail)
            .fold(0.0, f64::max);
        self.range = top
            .into_iter()
            .zip(tail)
            .map(|(top, tail)| (top, whole - tail))
            .collect();
    }

    /// Heights near the wished ones that keep all distances.
    fn start(&self, heights: &Heights, numbering: &Numbering) -> Vec<f64> {
        let mut sums = vec![(0.0, 0.0); self.below.len()];
        for (node, rows) in heights.rows.iter().enumerate() {
            for (row, y) in rows.iter().enumerate() {
                let (tie, shift) = self.of[numbering.first[node] + row];
                if let Some(sum) = sums.get_mut(tie) {
                    *sum = (sum.0 + y - shift, sum.1 + 1.0);
                }
            }
        }
        let mean = |sum: &(f64, f64)| (sum.0 / f64::max(sum.1, 1.0)).round();
        let within = |(sum, &(low, high)): (&(f64, f64), &(f64, f64))| mean(sum).max(low).min(high);
        let wished: Vec<f64> = sums.iter().zip(&self.range).map(within).collect();
        let mut lowest = wished.clone();
        for &tie in &self.order {
            let least = self.above[tie]
                .iter()
                .map(|&(other, least)| lowest[other] + least);
            lowest[tie] = least.fold(lowest[tie], f64::max);
        }
        let mut highest = wished;
        for &tie in self.order.iter().rev() {
            let most = self.below[tie]
                .iter()
                .map(|&(other, least)| highest[other] - least);
            highest[tie] = most.fold(highest[tie], f64::min);
        }
        lowest
            .iter()
            .zip(highest)
            .map(|(a, b)| ((a + b) / 2.0).floor())
            .collect()
    }
}

/// For each tie: the other tie of each bent wire, the shift that would make it straight, its weight.
fn bent(
    stage: &Stage,
    numbering: &Numbering,
    ties: &Ties,
    tied: &[bool],
) -> Vec<Vec<(usize, f64, f64)>> {
    let mut targets = vec![Vec::new(); ties.below.len()];
    for (index, net) in stage.nets.iter().enumerate() {
        if tied[index] || net.ends[0].1 == net.ends[1].1 {
            continue;
        }
        let [(a, shift_a), (b, shift_b)] = net.ends.map(|end| {
            let (row, offset) = numbering.row(stage, end.0);
            let (tie, shift) = ties.of[row];
            (tie, shift + offset)
        });
        if a != b && a != usize::MAX && b != usize::MAX {
            targets[a].push((b, shift_b - shift_a, 1.0));
            targets[b].push((a, shift_a - shift_b, 1.0));
        }
    }
    targets
}

/// Moves one tie to the weighted middle of its targets, as far as its neighbours let it.
fn ease_one(ties: &Ties, targets: &[Vec<(usize, f64, f64)>], level: &mut [f64], tie: usize) {
    let mut wishes: Vec<(f64, f64)> = targets[tie]
        .iter()
        .map(|&(other, shift, weight)| (level[other] + shift, weight))
        .collect();
    if wishes.is_empty() {
        return;
    }
    wishes.sort_by(|a, b| a.0.total_cmp(&b.0));
    let half = wishes.iter().map(|wish| wish.1).sum::<f64>() / 2.0;
    let mut sum = 0.0;
    let middle = wishes.iter().find(|wish| {
        sum += wish.1;
        sum >= half
    });
    let Some(&(middle, _)) = middle else { return };
    let low = ties.above[tie]
        .iter()
        .map(|&(other, least)| level[other] + least);
    let low = low.fold(ties.range[tie].0, f64::max);
    let high = ties.below[tie]
        .iter()
        .map(|&(other, least)| level[other] - least);
    let high = high.fold(ties.range[tie].1, f64::min);
    if low <= high {
        level[tie] = middle.max(low).min(high);
    }
}
