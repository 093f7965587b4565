//! The best way of one wire that is free to choose its trunks. Not here: forced trunks (`forced`),
//! the points of the way (`legs`).

use super::SAME;
use super::line::{Foot, Metres, along_axes};
use super::network::{Network, Place};

/// A step of a way between two places on trunks.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Step {
    /// Inside one trunk, to a way from its start [m].
    Along(f64),
    /// Over a join to another place.
    Over(Place),
    /// Through the open to a place on another trunk.
    Open(Place),
}

/// The trunk part of a way: where the wire is led on, and the steps from there on.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Inside {
    pub start: Place,
    pub steps: Vec<Step>,
}

/// What a way weighs [m]: all of it, with the open part multiplied; then its open part alone.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Weight {
    pub all: f64,
    pub open: f64,
}

impl Weight {
    /// Lighter by more than rounding, or as light and less in the open.
    pub(super) fn beats(self, other: Self) -> bool {
        self.all < other.all - SAME || self.all <= other.all + SAME && self.open < other.open - SAME
    }
}

/// Where an end can be led onto trunks.
#[derive(Debug, Clone, Copy)]
pub(super) struct Hook {
    pub place: Place,
    /// Way in the open [m].
    pub reach: f64,
    /// Joining places next to it on its trunk, and the ways there [m].
    near: [Option<(usize, f64)>; 2],
}

/// How two hooks are joined best.
#[derive(Clone, Copy)]
enum Link {
    /// Both on one trunk, straight along it.
    Same,
    /// By two joining places.
    Joins(usize, usize),
}

/// Room for the search, used again for each wire.
#[derive(Default)]
pub(super) struct Room {
    feet: Vec<Foot>,
    pub from: Vec<Hook>,
    pub to: Vec<Hook>,
}

/// The best way, `None` for the trunks when the direct way along the axes is as good.
pub(super) fn free(
    network: &Network,
    [from, to]: [Metres; 2],
    open_factor: f64,
    room: &mut Room,
) -> (Weight, Option<Inside>) {
    let direct = along_axes(from, to);
    let mut best = Weight {
        all: open_factor * direct,
        open: direct,
    };
    let mut found = None;
    hooks(
        network,
        from,
        direct,
        open_factor,
        &mut room.feet,
        &mut room.from,
    );
    hooks(
        network,
        to,
        direct,
        open_factor,
        &mut room.feet,
        &mut room.to,
    );
    for start in &room.from {
        for end in &room.to {
            let open = start.reach + end.reach;
            if open_factor * open > best.all + SAME {
                break;
            }
            let (inside, link) = between(network, start, end);
            let all = open_factor * open + inside;
            let weight = Weight { all, open };
            if weight.beats(best) {
                best = weight;
                found = Some((*start, *end, link));
            }
        }
    }
    let inside = found.map(|(start, end, link)| Inside {
        start: start.place,
        steps: steps(network, &end, link),
    });
    (best, inside)
}

/// Every place where an end may best be led onto a trunk, nearest first.
pub(super) fn hooks(
    network: &Network,
    end: Metres,
    most: f64,
    open_factor: f64,
    feet: &mut Vec<Foot>,
    hooks: &mut Vec<Hook>,
) {
    hooks.clear();
    for (trunk, line) in network.lines.iter().enumerate() {
        line.feet(end, most, open_factor, feet);
        for &Foot { at, reach } in feet.iter() {
            let place = Place { trunk, at };
            let way = |index: usize| (index, (network.places[index].at - at).abs());
            let near = network.neighbours(place).map(|near| near.map(way));
            hooks.push(Hook { place, reach, near });
        }
    }
    hooks.sort_by(|one, other| one.reach.total_cmp(&other.reach));
}

/// The shortest way inside trunks between two hooks [m].
fn between(network: &Network, start: &Hook, end: &Hook) -> (f64, Link) {
    let mut best = (f64::INFINITY, Link::Same);
    if start.place.trunk == end.place.trunk {
        best.0 = (start.place.at - end.place.at).abs();
    }
    for &(first, before) in start.near.iter().flatten() {
        for &(last, after) in end.near.iter().flatten() {
            let way = before + network.way(first, last) + after;
            if way < best.0 - SAME {
                best = (way, Link::Joins(first, last));
            }
        }
    }
    best
}

fn steps(network: &Network, end: &Hook, link: Link) -> Vec<Step> {
    let mut steps = Vec::new();
    if let Link::Joins(first, last) = link {
        steps.push(Step::Along(network.places[first].at));
        for pair in network.passed(first, last).windows(2) {
            if let &[here, there] = pair {
                let (here, there) = (network.places[here], network.places[there]);
                let over = here.trunk != there.trunk || !next_to(network, here, there);
                steps.push(if over {
                    Step::Over(there)
                } else {
                    Step::Along(there.at)
                });
            }
        }
    }
    steps.push(Step::Along(end.place.at));
    steps
}

/// Whether two places of one trunk follow one another along it, so that the way between them is the
/// trunk and not a join of the trunk with itself.
fn next_to(network: &Network, one: Place, other: Place) -> bool {
    let joined = network.joins.iter().find(|join| {
        let ends = [network.places[join.one], network.places[join.other]];
        ends == [one, other] || ends == [other, one]
    });
    joined.is_none_or(|join| (one.at - other.at).abs() <= join.gap)
}
