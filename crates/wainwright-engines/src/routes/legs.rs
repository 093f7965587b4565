//! The legs, points, lengths and corners of a way once its trunks are chosen, and the check that they
//! add up. Not here: the choice.

use super::line::{Metres, straight};
use super::network::Network;
use super::search::{Inside, Step, Weight};
use super::{SAME, input::point};
use crate::refusal::{Refusal, require};
use wainwright_units::Length;
use wainwright_units::frame::Point;

/// Least turn that counts as a corner: cosine of one degree.
const STRAIGHT_ON: f64 = 0.999_847_7;

/// The way of one wire.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// Its parts from one end to the other; each starts where the one before it ends.
    pub legs: Vec<Leg>,
    /// Length of all legs: the bare way, without anything for bends and ends.
    pub length: Length,
    /// Part of the length outside trunks.
    pub open: Length,
    /// What the search made least: the length, with the part outside trunks multiplied.
    pub weighted: Length,
    /// Places where the way turns by more than one degree.
    pub corners: usize,
}

/// A part of a way that runs in one trunk or in the open.
#[derive(Debug, Clone, PartialEq)]
pub struct Leg {
    /// Where it runs.
    pub course: Course,
    /// Its points from start to end.
    pub points: Vec<Point>,
    /// Its length.
    pub length: Length,
}

/// Where a leg runs.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Course {
    /// Outside all trunks, along the axes.
    Open,
    /// In a trunk. A leg also covers the gap by which it came over from the trunk before.
    Trunk {
        /// Which one.
        trunk: usize,
        /// Where it enters, from the start of the trunk.
        from: Length,
        /// Where it leaves, from the start of the trunk.
        to: Length,
    },
}

/// The way of one wire, checked.
pub(super) fn way(
    network: &Network,
    [from, to]: [Metres; 2],
    weight: Weight,
    inside: Option<&Inside>,
    open_factor: f64,
) -> Result<Way, Refusal> {
    let mut legs = Legs::new(from);
    match inside {
        None => legs.open(open_points(from, to)),
        Some(inside) => legs.inside(network, inside, to),
    }
    let length: f64 = legs.made.iter().map(|leg| leg.length.metres()).sum();
    let outside = legs.made.iter().filter(|leg| leg.course == Course::Open);
    let open: f64 = outside.map(|leg| leg.length.metres()).sum();
    let weighted = length + (open_factor - 1.0) * open;
    let slip = SAME * 100.0 * (1.0 + weighted);
    let kept = (weighted - weight.all).abs() <= slip && length + slip >= straight(from, to);
    require(
        "length of a route [m]",
        length,
        kept,
        "the sum the search found, and no less than the straight line",
    )?;
    Ok(Way {
        corners: corners(&legs.made),
        legs: legs.made,
        length: Length::from_metres(length),
        open: Length::from_metres(open),
        weighted: Length::from_metres(weighted),
    })
}

/// Legs as they are made, one after the other.
struct Legs {
    made: Vec<Leg>,
    here: Metres,
    /// Points of a gap that the next leg in a trunk begins with.
    gap: Vec<Metres>,
}

impl Legs {
    fn new(here: Metres) -> Self {
        Self {
            made: Vec::with_capacity(4),
            here,
            gap: Vec::new(),
        }
    }

    fn inside(&mut self, network: &Network, inside: &Inside, to: Metres) {
        let mut at = inside.start;
        let mut entered = at.at;
        let place = |at: super::network::Place| network.lines[at.trunk].place(at.at);
        self.open(open_points(self.here, place(at)));
        for step in &inside.steps {
            match *step {
                Step::Along(next) => at.at = next,
                Step::Over(next) => {
                    self.trunk(network, at.trunk, entered, at.at);
                    self.gap.extend(open_points(self.here, place(next)));
                    self.here = place(next);
                    (at, entered) = (next, next.at);
                }
                Step::Open(next) => {
                    self.trunk(network, at.trunk, entered, at.at);
                    self.open(open_points(self.here, place(next)));
                    (at, entered) = (next, next.at);
                }
            }
        }
        self.trunk(network, at.trunk, entered, at.at);
        // The last reach is laid out from the end of the wire, as the first one is.
        let mut last = open_points(to, self.here);
        last.reverse();
        self.open(last);
    }

    fn open(&mut self, points: Vec<Metres>) {
        self.add(Course::Open, points);
    }

    fn trunk(&mut self, network: &Network, trunk: usize, from: f64, to: f64) {
        let mut points = std::mem::take(&mut self.gap);
        points.extend(network.lines[trunk].run(from, to));
        let (from, to) = (Length::from_metres(from), Length::from_metres(to));
        self.add(Course::Trunk { trunk, from, to }, points);
    }

    /// Adds a leg, unless it leads nowhere.
    fn add(&mut self, course: Course, mut points: Vec<Metres>) {
        points.dedup_by(|next, before| straight(*before, *next) <= SAME);
        if let Some(&last) = points.last() {
            self.here = last;
        }
        let steps = points.windows(2);
        let length: f64 = steps.map(|pair| straight(pair[0], pair[1])).sum();
        if points.len() < 2 {
            return;
        }
        self.made.push(Leg {
            course,
            points: points.into_iter().map(point).collect(),
            length: Length::from_metres(length),
        });
    }
}

/// Points of a run along the axes: up or down first, then lengthways, then across.
fn open_points(from: Metres, to: Metres) -> Vec<Metres> {
    let mut points = vec![from];
    let mut here = from;
    for axis in [2, 0, 1] {
        here[axis] = to[axis];
        points.push(here);
    }
    points
}

fn corners(legs: &[Leg]) -> usize {
    let mut count = 0;
    let mut before: Option<wainwright_units::frame::Vector> = None;
    for pair in legs.iter().flat_map(|leg| leg.points.windows(2)) {
        if let &[one, other] = pair {
            let step = other - one;
            let turned = before.is_some_and(|before| {
                let product = before.length().metres() * step.length().metres();
                before.dot(step).square_metres() < STRAIGHT_ON * product
            });
            count += usize::from(turned);
            before = Some(step);
        }
    }
    count
}
