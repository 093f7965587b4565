//! The course of one fault: devices melt at the pace of their currents, open one after another, and
//! the network is solved again after each. What the wires make of it is in `stress.rs`.

use super::input::{Device, FaultCase};
use crate::fault_currents::{FaultCurrents, FaultPoint};
use std::rc::Rc;
use wainwright_units::{Current, Duration};

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
    pub(super) point: Rc<FaultPoint>,
}

impl Piece {
    /// Current in a branch, without sign [A].
    pub(super) fn amps(&self, branch: usize) -> f64 {
        let listed = &self.point.branches;
        let place = listed.binary_search_by_key(&branch, |entry| entry.0);
        place.map_or(0.0, |place| listed[place].1.amperes().abs())
    }
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
    /// Whether the whole network has one source: then a device that carries all of the fault
    /// current ends the fault, and the network need not be solved again to know.
    pub(super) one_source: bool,
}

impl Plant<'_> {
    /// Follows one fault from its first instant.
    pub(super) fn follow(&self, case: &FaultCase, first: &Rc<FaultPoint>, pace: Pace) -> Course {
        let mut course = Course {
            events: vec![],
            pieces: vec![],
            cleared: None,
            remaining: 0.0,
        };
        let mut point = Rc::clone(first);
        let mut open: Vec<usize> = Vec::new();
        // Melted share of each device that has carried current, by index.
        let mut melted: Vec<(usize, f64)> = Vec::new();
        let mut clock = 0.0;
        for _ in 0..MOST_OPENINGS {
            let total = point.total.amperes().abs();
            if total < LEAST_AMPS {
                course.cleared = Some(clock);
                return course;
            }
            let melting = self.melting(&point, &open, pace, &melted);
            let Some(next) = first_to_open(&melting) else {
                break;
            };
            course.pieces.push(Piece {
                seconds: next.left,
                point: Rc::clone(&point),
            });
            clock += next.left;
            course.events.push(Event {
                device: next.device,
                at: clock,
                amps: next.amps,
            });
            melted = carry_over(melted, &melting, next.left);
            let branch = self.devices[next.device].branch;
            if self.one_source && is_all(next.amps, total) {
                course.cleared = Some(clock);
                return course;
            }
            open.push(branch);
            let (a, b) = (case.from, case.to);
            point = Rc::new(self.currents.at_with_open(a, b, case.bridge, &open));
        }
        course.remaining = point.total.amperes().abs();
        if course.remaining < LEAST_AMPS {
            course.cleared = Some(clock);
        } else {
            course.pieces.push(Piece {
                seconds: f64::INFINITY,
                point,
            });
        }
        course
    }

    /// Adds the devices that may open while a course runs, by their earliest curves, and says whether
    /// each of them carries all of the fault current of the only source, so that their order does
    /// not matter.
    pub(super) fn may_open(&self, course: &Course, found: &mut Vec<usize>) -> bool {
        let within = course.cleared.unwrap_or(f64::INFINITY);
        let mut in_series = self.one_source;
        for piece in &course.pieces {
            let total = piece.point.total.amperes().abs();
            for entry in self.melting(&piece.point, &[], Pace::Fast, &[]) {
                if entry.whole <= within {
                    in_series &= is_all(entry.amps, total);
                    if !found.contains(&entry.device) {
                        found.push(entry.device);
                    }
                }
            }
        }
        in_series
    }

    /// Devices that will open if the currents stay, with the time each still needs.
    fn melting(
        &self,
        point: &FaultPoint,
        open: &[usize],
        pace: Pace,
        melted: &[(usize, f64)],
    ) -> Vec<Melting> {
        let mut found = Vec::new();
        for &(branch, current) in &point.branches {
            for device in of_branch(self.devices_by_branch, branch) {
                let amps = current.amperes().abs();
                let Some(whole) = self.opening_seconds(device, amps, pace) else {
                    continue;
                };
                if open.contains(&branch) {
                    continue;
                }
                let done = melted
                    .iter()
                    .find(|entry| entry.0 == device)
                    .map_or(0.0, |e| e.1);
                let left = (whole * (1.0 - done)).max(0.0);
                found.push(Melting {
                    device,
                    amps,
                    whole,
                    left,
                });
            }
        }
        found
    }

    /// Opening time at a constant current [s].
    fn opening_seconds(&self, device: usize, amps: f64, pace: Pace) -> Option<f64> {
        let band = self.devices[device].band(Current::from_amperes(amps));
        let early = pace == Pace::Fast || pace == Pace::OneEarly(device);
        let time = if early { band.earliest } else { band.latest };
        time.map(Duration::seconds)
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

/// The device that opens next; of several at the same time the first in the caller's list.
fn first_to_open(melting: &[Melting]) -> Option<Melting> {
    let soonest = melting.iter().map(|entry| entry.left).reduce(f64::min)?;
    let tied = melting
        .iter()
        .filter(|entry| entry.left <= soonest * (1.0 + TIE));
    tied.min_by_key(|entry| entry.device).copied()
}

/// Adds what melted in `seconds` to what had melted before.
fn carry_over(
    mut melted: Vec<(usize, f64)>,
    melting: &[Melting],
    seconds: f64,
) -> Vec<(usize, f64)> {
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
    melted
}
