//! How trunks hang together: the places where they join, and the shortest way inside trunks between
//! any two such places. Made once for all wires. Not here: the wires.

use super::line::Line;
use super::{MOST_JOIN_PLACES, SAME};
use crate::refusal::{Refusal, require};
use std::cmp::Ordering;
use std::collections::BinaryHeap;

/// A place on a trunk: the trunk and the way from its start [m].
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Place {
    pub trunk: usize,
    pub at: f64,
}

/// A join between two places.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Join {
    pub one: usize,
    pub other: usize,
    /// The gap along the axes [m].
    pub gap: f64,
}

/// The trunks, their joins and the ways between these.
#[derive(Debug, Clone)]
pub(super) struct Network {
    pub lines: Vec<Line>,
    pub places: Vec<Place>,
    pub joins: Vec<Join>,
    /// For each trunk its places in order along it.
    pub on_trunk: Vec<Vec<usize>>,
    /// Shortest way from place to place [m]; infinite where there is none.
    way: Vec<f64>,
    /// The place before the last on the shortest way from place to place.
    before: Vec<usize>,
}

impl Network {
    pub(super) fn new(lines: Vec<Line>, join_within: f64) -> Result<Self, Refusal> {
        let mut network = Self {
            on_trunk: vec![Vec::new(); lines.len()],
            lines,
            places: Vec::new(),
            joins: Vec::new(),
            way: Vec::new(),
            before: Vec::new(),
        };
        network.find_joins(join_within)?;
        for (index, place) in network.places.iter().enumerate() {
            network.on_trunk[place.trunk].push(index);
        }
        for on_trunk in &mut network.on_trunk {
            on_trunk.sort_by(|&one, &other| {
                let at = |index: usize| network.places[index].at;
                at(one).total_cmp(&at(other)).then(one.cmp(&other))
            });
        }
        network.find_ways();
        Ok(network)
    }

    /// Shortest way inside trunks between two joining places [m].
    pub(super) fn way(&self, from: usize, to: usize) -> f64 {
        self.way[from * self.places.len() + to]
    }

    /// The joining places passed from one to another, both included.
    pub(super) fn passed(&self, from: usize, to: usize) -> Vec<usize> {
        let mut passed = vec![to];
        let mut here = to;
        while here != from && passed.len() <= self.places.len() {
            here = self.before[from * self.places.len() + here];
            passed.push(here);
        }
        passed.reverse();
        passed
    }

    /// The nearest joining places before and after a place on a trunk.
    pub(super) fn neighbours(&self, place: Place) -> [Option<usize>; 2] {
        let on_trunk = &self.on_trunk[place.trunk];
        let after = on_trunk.partition_point(|&index| self.places[index].at < place.at);
        let before = after.checked_sub(1).map(|index| on_trunk[index]);
        [before, on_trunk.get(after).copied()]
    }

    fn find_joins(&mut self, join_within: f64) -> Result<(), Refusal> {
        let pieces: Vec<(usize, usize, super::line::Piece)> = (self.lines.iter().enumerate())
            .flat_map(|(trunk, line)| {
                let pieces = line.pieces().enumerate();
                pieces.map(move |(index, piece)| (trunk, index, piece))
            })
            .collect();
        for (first, (trunk, index, one)) in pieces.iter().enumerate() {
            for (trunk_2, index_2, other) in &pieces[first + 1..] {
                let next_to = trunk == trunk_2 && index + 1 == *index_2;
                if next_to || one.box_gap(other) > join_within + SAME {
                    continue;
                }
                let (gap, ways) = one.narrowest(other);
                if gap > join_within + SAME {
                    continue;
                }
                for (mine, theirs) in ways {
                    let (at, at_2) = (one.upto + mine, other.upto + theirs);
                    if trunk == trunk_2 && (at - at_2).abs() <= gap + SAME {
                        continue;
                    }
                    let one = self.place(Place { trunk: *trunk, at });
                    let (trunk, at) = (*trunk_2, at_2);
                    let other = self.place(Place { trunk, at });
                    let join = Join { one, other, gap };
                    if !self
                        .joins
                        .iter()
                        .any(|known| (known.one, known.other) == (one, other))
                    {
                        self.joins.push(join);
                    }
                }
                let places = self.places.len();
                let few = places <= MOST_JOIN_PLACES;
                require(
                    "places where trunks join",
                    places as f64,
                    few,
                    "at most 600",
                )?;
            }
        }
        Ok(())
    }

    /// The index of a place, made when it is new.
    fn place(&mut self, place: Place) -> usize {
        let same =
            |known: &Place| known.trunk == place.trunk && (known.at - place.at).abs() <= SAME;
        self.places.iter().position(same).unwrap_or_else(|| {
            self.places.push(place);
            self.places.len() - 1
        })
    }

    /// Shortest ways from every joining place to every other.
    fn find_ways(&mut self) {
        let count = self.places.len();
        let mut next: Vec<Vec<(usize, f64)>> = vec![Vec::new(); count];
        for on_trunk in &self.on_trunk {
            for pair in on_trunk.windows(2) {
                if let &[one, other] = pair {
                    let step = self.places[other].at - self.places[one].at;
                    next[one].push((other, step));
                    next[other].push((one, step));
                }
            }
        }
        for join in &self.joins {
            next[join.one].push((join.other, join.gap));
            next[join.other].push((join.one, join.gap));
        }
        self.way = vec![f64::INFINITY; count * count];
        self.before = vec![0; count * count];
        for from in 0..count {
            let row = from * count..(from + 1) * count;
            ways_from(
                from,
                &next,
                &mut self.way[row.clone()],
                &mut self.before[row],
            );
        }
    }
}

/// A place that can be reached, nearest first in a heap, ties in order of index.
#[derive(PartialEq)]
struct Reached(f64, usize);

impl Eq for Reached {}

impl Ord for Reached {
    fn cmp(&self, other: &Self) -> Ordering {
        other.0.total_cmp(&self.0).then(other.1.cmp(&self.1))
    }
}

impl PartialOrd for Reached {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

/// Dijkstra's search from one place.
fn ways_from(from: usize, next: &[Vec<(usize, f64)>], way: &mut [f64], before: &mut [usize]) {
    way[from] = 0.0;
    before[from] = from;
    let mut open = BinaryHeap::from([Reached(0.0, from)]);
    while let Some(Reached(run, here)) = open.pop() {
        if run > way[here] {
            continue;
        }
        for &(there, step) in &next[here] {
            if run + step < way[there] {
                way[there] = run + step;
                before[there] = here;
                open.push(Reached(run + step, there));
            }
        }
    }
}
