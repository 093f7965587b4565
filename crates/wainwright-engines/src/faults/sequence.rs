//! The course of one fault: devices melt at the pace of their currents, open one after another, and
//! the network is solved again after each. What the wires make of it is in `stress.rs`.

use super::input::{Device, FaultCase};
use super::moment::{Moment, Seen};
use crate::fault_currents::FaultCurrents;
use std::cell::RefCell;
use std::rc::Rc;
use wainwright_units::Duration;

/// Current below which nothing is said to flow [A].
pub(super) const LEAST_AMPS: f64 = 1e-3;
/// Cap on openings in one fault.
const MOST_OPENINGS: usize = 64;

/// Share by which two opening times may differ and still be the same, but for rounding.
const TIE: f64 = 1e-9;

/// A pair of a branch and an index into the caller's list, sorted by branch.
pub(super) type ByBranch = Vec<(usize, usize)>;

/// Entries of a sorted list that belong to a branch.
pub(super) fn of_branch(list: &ByBranch, branch: usize) -> impl Iterator<Item = usize> + '_ {
    let first = list.partition_point(|entry| entry.0 < branch);
    list[first..]
        .iter()
        .take_while(move |entry| entry.0 == branch)
        .map(|entry| entry.1)
}

/// Which devices take their earliest time; all others take their latest.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Pace {
    Fast,
    Slow,
    /// One device early, all others late.
    OneEarly(usize),
}

/// A stretch of time with constant currents.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    /// [s]; infinite for the last one of a fault that is never cleared.
    pub(super) seconds: f64,
    pub(super) moment: Rc<Moment>,
}

/// One opening: device, time [s], current through it just before [A].
#[derive(Debug, Clone, Copy)]
pub(super) struct Event {
    pub(super) device: usize,
    pub(super) at: f64,
    pub(super) amps: f64,
}

/// Everything that happens at one pace.
#[derive(Debug, Clone)]
pub(super) struct Course {
    pub(super) events: Vec<Event>,
    pub(super) pieces: Vec<Piece>,
    /// Time at which the fault ends [s]; `None`: never.
    pub(super) cleared: Option<f64>,
    /// What flows in the end [A].
    pub(super) remaining: f64,
}

/// What a course of events needs to know of the plant.
pub(super) struct Plant<'a> {
    pub(super) currents: &'a FaultCurrents,
    pub(super) devices: &'a [Device],
    pub(super) devices_by_branch: &'a ByBranch,
    pub(super) conductors_by_branch: &'a ByBranch,
    /// Whether the whole network has one source: then a device that carries all of the fault
    /// current ends the fault, and the network need not be solved again to know.
    pub(super) one_source: bool,
}

/// One fault in a plant, with the moments that its courses have in common.
pub(super) struct Trouble<'a> {
    pub(super) plant: &'a Plant<'a>,
    case: &'a FaultCase,
    first: Rc<Moment>,
    /// By the opened branches, ascending.
    later: RefCell<Vec<(Vec<usize>, Rc<Moment>)>>,
}

impl<'a> Trouble<'a> {
    pub(super) fn new(plant: &'a Plant<'a>, case: &'a FaultCase, first: Rc<Moment>) -> Self {
        Self {
            plant,
            case,
            first,
            later: RefCell::default(),
        }
    }

    /// The currents after some branches have opened.
    fn after(&self, open: &[usize]) -> Rc<Moment> {
        let mut opened = open.to_vec();
        opened.sort_unstable();
        let mut later = self.later.borrow_mut();
        if let Some((_, known)) = later.iter().find(|entry| entry.0 == opened) {
            return Rc::clone(known);
        }
        let (a, b, bridge) = (self.case.from, self.case.to, self.case.bridge);
        let point = self.plant.currents.at_with_open(a, b, bridge, open);
        let moment = Rc::new(Moment::new(point, self.plant));
        later.push((opened, Rc::clone(&moment)));
        moment
    }

    /// Follows the fault from its first instant.
    pub(super) fn follow(&self, pace: Pace) -> Course {
        let mut course = Course {
            events: vec![],
            pieces: vec![],
            cleared: None,
            remaining: 0.0,
        };
        let mut moment = Rc::clone(&self.first);
        let mut open: Vec<usize> = Vec::new();
        // Melted share of each device that has carried current, by index.
        let mut melted: Vec<(usize, f64)> = Vec::new();
        let mut melting: Vec<Melting> = Vec::new();
        let mut clock = 0.0;
        for _ in 0..MOST_OPENINGS {
            let total = moment.total_amps();
            if total < LEAST_AMPS {
                course.cleared = Some(clock);
                return course;
            }
            melting.clear();
            let seen = moment.devices.iter();
            let seen = seen.filter(|seen| !open.contains(&seen.branch));
            melting.extend(seen.filter_map(|seen| Melting::of(seen, pace, &melted)));
            let Some(next) = first_to_open(&melting) else {
                break;
            };
            course.pieces.push(Piece {
                seconds: next.left,
                moment: Rc::clone(&moment),
            });
            clock += next.left;
            course.events.push(Event {
                device: next.device,
                at: clock,
                amps: next.amps,
            });
            carry_over(&mut melted, &melting, next.left);
            if self.plant.one_source && is_all(next.amps, total) {
                course.cleared = Some(clock);
                return course;
            }
            open.push(self.plant.devices[next.device].branch);
            moment = self.after(&open);
        }
        course.remaining = moment.total_amps();
        if course.remaining < LEAST_AMPS {
            course.cleared = Some(clock);
        } else {
            course.pieces.push(Piece {
                seconds: f64::INFINITY,
                moment,
            });
        }
        course
    }

    /// Adds the devices that may open while a course runs, by their earliest curves, and says whether
    /// each of them carries all of the fault current of the only source, so that their order does
    /// not matter.
    pub(super) fn may_open(&self, course: &Course, found: &mut Vec<usize>) -> bool {
        let within = course.cleared.unwrap_or(f64::INFINITY);
        let mut in_series = self.plant.one_source;
        for piece in &course.pieces {
            let total = piece.moment.total_amps();
            for seen in &piece.moment.devices {
                let whole = seen.band.earliest.map(Duration::seconds);
                if whole.is_some_and(|whole| whole <= within) {
                    in_series &= is_all(seen.amps, total);
                    if !found.contains(&seen.device) {
                        found.push(seen.device);
                    }
                }
            }
        }
        in_series
    }
}

fn is_all(amps: f64, total: f64) -> bool {
    (amps - total).abs() <= 1e-9 * total
}

/// A device on its way to opening [A, s].
#[derive(Debug, Clone, Copy)]
struct Melting {
    device: usize,
    amps: f64,
    whole: f64,
    left: f64,
}

impl Melting {
    /// A device that will open if its current stays, with the time it still needs.
    fn of(seen: &Seen, pace: Pace, melted: &[(usize, f64)]) -> Option<Self> {
        let early = pace == Pace::Fast || pace == Pace::OneEarly(seen.device);
        let band = seen.band;
        let time = if early { band.earliest } else { band.latest };
        let whole = time.map(Duration::seconds)?;
        let done = melted.iter().find(|entry| entry.0 == seen.device);
        Some(Self {
            device: seen.device,
            amps: seen.amps,
            whole,
            left: (whole * (1.0 - done.map_or(0.0, |entry| entry.1))).max(0.0),
        })
    }
}

/// The device that opens next; of several at the same time the first in the caller's list.
fn first_to_open(melting: &[Melting]) -> Option<Melting> {
    let soonest = melting.iter().map(|entry| entry.left).reduce(f64::min)?;
    let tied = melting
        .iter()
        .filter(|entry| entry.left <= soonest * (1.0 + TIE));
    tied.min_by_key(|entry| entry.device).copied()
}

/// Adds what melted in `seconds` to what had melted before.
fn carry_over(melted: &mut Vec<(usize, f64)>, melting: &[Melting], seconds: f64) {
    for entry in melting {
        let share = if entry.whole > 0.0 {
            seconds / entry.whole
        } else {
            1.0
        };
        match melted.iter_mut().find(|known| known.0 == entry.device) {
            Some(known) => known.1 = (known.1 + share).min(1.0),
            None => melted.push((entry.device, share.min(1.0))),
        }
    }
}
