//! A trunk as a line: places along it, where a point is best led onto it, and where two straight
//! pieces come nearest. Not here: which of these a wire takes.
//!
//! A distance "along the axes" is |Δx| + |Δy| + |Δz|. On a straight piece it is linear between the
//! places where one coordinate agrees, so every least is at such a place or at an end of the piece.

use super::input::metres;
use super::{SAME, Trunk};
use std::array::from_fn;

/// Coordinates in the trailer frame [m].
pub(super) type Metres = [f64; 3];

/// The centre line of a trunk, with the way run up to each corner.
#[derive(Debug, Clone)]
pub(super) struct Line {
    corners: Vec<Metres>,
    /// Way from the start to each corner [m].
    upto: Vec<f64>,
}

/// A straight piece of a line.
#[derive(Debug, Clone, Copy)]
pub(super) struct Piece {
    /// Where it starts.
    pub start: Metres,
    /// Unit vector along it.
    pub along: Metres,
    /// Its length [m].
    pub length: f64,
    /// Way from the start of the line to its start [m].
    pub upto: f64,
}

/// A place where a wire may be led onto a line.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Foot {
    /// Way from the start of the line [m].
    pub at: f64,
    /// Way in the open from the wire's end, along the axes [m].
    pub reach: f64,
}

impl Line {
    pub(super) fn new(trunk: &Trunk) -> Self {
        let mut line = Self {
            corners: Vec::with_capacity(trunk.path.len()),
            upto: Vec::with_capacity(trunk.path.len()),
        };
        for &corner in &trunk.path {
            let corner = metres(corner);
            let (before, run) = match (line.corners.last(), line.upto.last()) {
                (Some(&before), Some(&run)) => (before, run),
                _ => (corner, 0.0),
            };
            let step = straight(before, corner);
            if line.corners.is_empty() || step > SAME {
                line.corners.push(corner);
                line.upto.push(run + step);
            }
        }
        line
    }

    /// Whether nothing can run in it.
    pub(super) fn is_empty(&self) -> bool {
        self.corners.len() < 2
    }

    /// Its straight pieces in order.
    pub(super) fn pieces(&self) -> impl Iterator<Item = Piece> + '_ {
        let ends = self.corners.windows(2).zip(self.upto.windows(2));
        ends.filter_map(|(ends, runs)| match (ends, runs) {
            (&[start, end], &[upto, to]) => {
                let length = to - upto;
                let along = from_fn(|axis| (end[axis] - start[axis]) / length);
                Some(Piece {
                    start,
                    along,
                    length,
                    upto,
                })
            }
            _ => None,
        })
    }

    /// The place a way from the start.
    pub(super) fn place(&self, at: f64) -> Metres {
        let after = self.upto.partition_point(|&upto| upto <= at).max(1);
        let last = self.corners.len().saturating_sub(1);
        let (from, to) = (after.min(last).saturating_sub(1), after.min(last));
        let (start, end) = (self.corners[from], self.corners[to]);
        let length = self.upto[to] - self.upto[from];
        if length <= 0.0 {
            return start;
        }
        let share = ((at - self.upto[from]) / length).clamp(0.0, 1.0);
        from_fn(|axis| start[axis] + share * (end[axis] - start[axis]))
    }

    /// The places passed from one to another, both ends and all corners between.
    pub(super) fn run(&self, from: f64, to: f64) -> Vec<Metres> {
        let (low, high) = (from.min(to), from.max(to));
        let mut places = vec![self.place(low)];
        let between = self.corners.iter().zip(&self.upto);
        let between = between.filter(|&(_, &upto)| upto > low + SAME && upto < high - SAME);
        places.extend(between.map(|(&corner, _)| corner));
        places.push(self.place(high));
        if from > to {
            places.reverse();
        }
        places
    }

    /// Adds every place where a wire from `from` may best be led onto the line, no further than
    /// `most` away [m], and drops those that another one beats.
    pub(super) fn feet(&self, from: Metres, most: f64, open_factor: f64, feet: &mut Vec<Foot>) {
        feet.clear();
        for piece in self.pieces() {
            if piece.box_gap_to_point(from) > most {
                continue;
            }
            let mut add = |way: f64| {
                let reach = along_axes(piece.place(way), from);
                let at = piece.upto + way;
                feet.push(Foot { at, reach });
            };
            add(0.0);
            piece
                .agreements(from)
                .into_iter()
                .flatten()
                .for_each(&mut add);
            add(piece.length);
        }
        keep_best(feet, open_factor);
    }
}

impl Piece {
    /// The place a way from its start.
    pub(super) fn place(&self, way: f64) -> Metres {
        from_fn(|axis| self.start[axis] + way * self.along[axis])
    }

    /// Ways at which one coordinate agrees with that of a point, strictly inside.
    fn agreements(&self, with: Metres) -> [Option<f64>; 3] {
        from_fn(|axis| {
            let way = (with[axis] - self.start[axis]) / self.along[axis];
            (way > 0.0 && way < self.length).then_some(way)
        })
    }

    /// Lowest and highest coordinate.
    fn span(&self, axis: usize) -> (f64, f64) {
        let (one, other) = (self.start[axis], self.place(self.length)[axis]);
        (one.min(other), one.max(other))
    }

    /// A bound: no place on the piece is nearer to the point along the axes.
    fn box_gap_to_point(&self, point: Metres) -> f64 {
        let gap = |axis: usize| {
            let (low, high) = self.span(axis);
            (low - point[axis]).max(point[axis] - high).max(0.0)
        };
        gap(0) + gap(1) + gap(2)
    }

    /// A bound: the two pieces come no nearer along the axes.
    pub(super) fn box_gap(&self, other: &Piece) -> f64 {
        let gap = |axis: usize| {
            let ((low, high), (low_2, high_2)) = (self.span(axis), other.span(axis));
            (low - high_2).max(low_2 - high).max(0.0)
        };
        gap(0) + gap(1) + gap(2)
    }

    /// Where two pieces come nearest along the axes: ways along each and the gap. Where they run side
    /// by side these are the two ends of that stretch.
    pub(super) fn narrowest(&self, other: &Piece) -> (f64, Vec<(f64, f64)>) {
        let mut ways = Vec::with_capacity(20);
        for mine in [0.0, self.length] {
            ways.push((mine, 0.0));
            ways.push((mine, other.length));
            let theirs = other.agreements(self.place(mine));
            ways.extend(theirs.into_iter().flatten().map(|way| (mine, way)));
        }
        for theirs in [0.0, other.length] {
            let mine = self.agreements(other.place(theirs));
            ways.extend(mine.into_iter().flatten().map(|way| (way, theirs)));
        }
        for axes in [[0, 1], [0, 2], [1, 2]] {
            ways.extend(self.agree_in_two(other, axes));
        }
        let gap = |&(mine, theirs): &(f64, f64)| along_axes(self.place(mine), other.place(theirs));
        let least = ways.iter().map(gap).fold(f64::INFINITY, f64::min);
        ways.retain(|pair| gap(pair) <= least + SAME);
        (least, ways)
    }

    /// The ways at which both pieces agree in two coordinates.
    fn agree_in_two(&self, other: &Piece, [one, two]: [usize; 2]) -> Option<(f64, f64)> {
        let (u, v) = (self.along, other.along);
        let apart = |axis: usize| other.start[axis] - self.start[axis];
        let determinant = u[two] * v[one] - u[one] * v[two];
        if determinant.abs() < SAME {
            return None;
        }
        let mine = (apart(two) * v[one] - apart(one) * v[two]) / determinant;
        let theirs = (u[one] * apart(two) - u[two] * apart(one)) / determinant;
        let inside = |way: f64, length: f64| (-SAME..=length + SAME).contains(&way);
        (inside(mine, self.length) && inside(theirs, other.length)).then(|| {
            (
                mine.clamp(0.0, self.length),
                theirs.clamp(0.0, other.length),
            )
        })
    }
}

/// Length of a run that follows the axes [m].
pub(super) fn along_axes(one: Metres, other: Metres) -> f64 {
    (0..3).map(|axis| (one[axis] - other[axis]).abs()).sum()
}

/// Straight distance [m].
pub(super) fn straight(one: Metres, other: Metres) -> f64 {
    (one[0] - other[0])
        .hypot(one[1] - other[1])
        .hypot(one[2] - other[2])
}

/// Drops each place that is reached better over another one and along the line.
fn keep_best(feet: &mut Vec<Foot>, open_factor: f64) {
    let beats = |one: &Foot, other: &Foot| {
        let over = open_factor * one.reach + (one.at - other.at).abs();
        let own = open_factor * other.reach;
        over < own - SAME || over <= own + SAME && one.reach < other.reach - SAME
    };
    // Feet lie in order along the line: whatever beats one does so through its neighbours.
    for _ in 0..2 {
        let mut kept: Vec<Foot> = Vec::with_capacity(feet.len());
        for foot in feet.drain(..) {
            let twin = |other: &Foot| (other.at - foot.at).abs() <= SAME;
            if !kept
                .last()
                .is_some_and(|last| twin(last) || beats(last, &foot))
            {
                kept.push(foot);
            }
        }
        kept.reverse();
        *feet = kept;
    }
}
