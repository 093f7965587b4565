//! Runs every case against both networks and gathers what is reported.

use super::input::{Device, FaultCase, StudyError, Withstand, check};
use super::moment::Moment;
use super::paths;
use super::result::{CaseOutcome, Clearing, Opening, Outcome, Study};
use super::sequence::{ByBranch, Course, LEAST_AMPS, Pace, Plant, Trouble};
use super::stress::{self, Prepared};
use crate::fault_currents::{FaultCurrents, FaultPoint};
use crate::network::{Element, Network};
use std::rc::Rc;
use wainwright_units::{Current, Duration};

/// Cap on courses in which one device is early and all others are late.
const MOST_MIXED_COURSES: usize = 8;

/// Studies every case, with the network of largest and the one of smallest fault currents.
///
/// Both networks have the same nodes and branches; only their values differ. The time taken grows
/// with the number of cases and the length of their paths.
///
/// # Errors
/// [`StudyError`] for a network, device, conductor or case that makes no sense.
pub fn study(
    largest: &Network,
    smallest: &Network,
    devices: &[Device],
    conductors: &[Withstand],
    cases: &[FaultCase],
) -> Result<Study, StudyError> {
    study_each_way((largest, cases), (smallest, cases), devices, conductors)
}

/// As [`study`], with the way back told apart: the largest current takes the shortest way, the
/// smallest the longest, so each network has its own case for the same place.
///
/// # Errors
/// [`StudyError`] as for [`study`], and when the two lists do not name the same places in order.
pub fn study_each_way(
    (largest, cases): (&Network, &[FaultCase]),
    (smallest, weak_cases): (&Network, &[FaultCase]),
    devices: &[Device],
    conductors: &[Withstand],
) -> Result<Study, StudyError> {
    check([largest, smallest], devices, conductors, cases)?;
    check([largest, smallest], devices, conductors, weak_cases)?;
    check_places(cases, weak_cases)?;
    let prepared = conductors
        .iter()
        .enumerate()
        .map(|(conductor, entry)| {
            Prepared::new(entry).map_err(|error| StudyError::Heat { conductor, error })
        })
        .collect::<Result<Vec<_>, _>>()?;
    let shop = Shop {
        devices,
        devices_by_branch: by_branch(devices.iter().map(|device| device.branch)),
        conductors: prepared,
        conductors_by_branch: by_branch(conductors.iter().map(|conductor| conductor.branch)),
    };
    let ends = [End::new(largest)?, End::new(smallest)?];
    let outcome = |end: usize, case: &FaultCase| shop.outcome(&ends[end], case);
    let cases = cases
        .iter()
        .zip(weak_cases)
        .map(|(case, weak)| {
            Ok(CaseOutcome {
                place: case.place,
                largest: outcome(0, case)?,
                smallest: outcome(1, weak)?,
            })
        })
        .collect::<Result<Vec<_>, StudyError>>()?;
    Ok(Study { cases })
}

fn check_places(cases: &[FaultCase], weak_cases: &[FaultCase]) -> Result<(), StudyError> {
    let why = "expected the same places in both lists";
    let odd = (0..cases.len().max(weak_cases.len())).find(|index| {
        cases.get(*index).map(|c| c.place) != weak_cases.get(*index).map(|c| c.place)
    });
    odd.map_or(Ok(()), |index| {
        Err(StudyError::Malformed {
            place: ("case", index),
            why,
        })
    })
}

/// One of the two networks, prepared.
struct End<'a> {
    network: &'a Network,
    currents: FaultCurrents,
    one_source: bool,
}

impl<'a> End<'a> {
    fn new(network: &'a Network) -> Result<Self, StudyError> {
        let sources = network.branches.iter();
        let sources = sources.filter(|branch| matches!(branch.element, Element::Source { .. }));
        let one_source = sources.count() <= 1;
        Ok(Self {
            network,
            currents: FaultCurrents::new(network)?,
            one_source,
        })
    }
}

/// What is the same for all cases.
struct Shop<'a> {
    devices: &'a [Device],
    devices_by_branch: ByBranch,
    conductors: Vec<Prepared<'a>>,
    conductors_by_branch: ByBranch,
}

impl Shop<'_> {
    fn outcome(&self, end: &End<'_>, case: &FaultCase) -> Result<Outcome, StudyError> {
        let plant = Plant {
            currents: &end.currents,
            devices: self.devices,
            devices_by_branch: &self.devices_by_branch,
            conductors_by_branch: &self.conductors_by_branch,
            one_source: end.one_source,
        };
        let point = end.currents.at(case.from, case.to, case.bridge);
        let first = Rc::new(Moment::new(point, &plant));
        let paths = paths::find(end.network, self.devices, case, &first)?;
        let trouble = Trouble::new(&plant, case, Rc::clone(&first));
        let point = &first.point;
        let follow = |pace| trouble.follow(pace);
        let (slow, fast) = (follow(Pace::Slow), follow(Pace::Fast));
        let mut early = Vec::new();
        let in_series = trouble.may_open(&slow, &mut early);
        let mut courses = vec![slow];
        if !in_series {
            trouble.may_open(&fast, &mut early);
            // A course may bring further devices into play, which then get a course of their own.
            let mut next = 0;
            while let Some(&device) = early.get(next).filter(|_| next < MOST_MIXED_COURSES) {
                let course = follow(Pace::OneEarly(device));
                trouble.may_open(&course, &mut early);
                courses.push(course);
                next += 1;
            }
        }
        early.sort_unstable();
        let mut stresses = Vec::new();
        for course in &courses {
            stress::add(&mut stresses, course, &self.conductors)?;
        }
        let slow = &courses[0];
        let openings = self.openings(slow, &fast);
        early.retain(|device| !slow.events.iter().any(|event| event.device == *device));
        let comes_back = slow.events.iter().chain(&fast.events);
        let comes_back = comes_back
            .clone()
            .any(|event| self.devices[event.device].recloses);
        Ok(Outcome {
            current: Current::from_amperes(point.total.amperes().abs()),
            open_circuit: point.open_circuit,
            may_open_too: early,
            paths,
            openings,
            clearing: clearing(point, &courses, &fast),
            comes_back,
            stresses,
        })
    }

    fn openings(&self, slow: &Course, fast: &Course) -> Vec<Opening> {
        let opening = |event: &super::sequence::Event| {
            let early = fast
                .events
                .iter()
                .find(|other| other.device == event.device);
            let interrupt = self.devices[event.device].interrupt;
            Opening {
                device: event.device,
                current: Current::from_amperes(event.amps),
                earliest: early.map(|other| Duration::from_seconds(other.at)),
                latest: Duration::from_seconds(event.at),
                above_interrupt: interrupt.map(|most| event.amps > most.amperes()),
            }
        };
        slow.events.iter().map(opening).collect()
    }
}

fn clearing(point: &FaultPoint, late: &[Course], fast: &Course) -> Clearing {
    if point.total.amperes().abs() < LEAST_AMPS {
        return Clearing::NoCurrent;
    }
    let latest = late
        .iter()
        .map(|course| course.cleared)
        .collect::<Option<Vec<f64>>>();
    let remaining = late
        .iter()
        .map(|course| course.remaining)
        .fold(0.0, f64::max);
    let remaining = Current::from_amperes(remaining);
    let all = late.iter().chain([fast]);
    let earliest = all.filter_map(|course| course.cleared).reduce(f64::min);
    match (earliest.map(Duration::from_seconds), latest) {
        (Some(earliest), Some(latest)) => {
            let latest = latest.into_iter().fold(0.0, f64::max);
            Clearing::Cleared {
                earliest,
                latest: Duration::from_seconds(latest),
            }
        }
        (Some(earliest), None) => Clearing::Uncertain {
            earliest,
            remaining,
        },
        (None, _) => Clearing::Never { remaining },
    }
}

fn by_branch(branches: impl Iterator<Item = usize>) -> ByBranch {
    let mut list: ByBranch = branches
        .enumerate()
        .map(|(index, branch)| (branch, index))
        .collect();
    list.sort_unstable();
    list
}
