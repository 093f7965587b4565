//! The ways fault current takes from each source to the fault and back, the devices on them, and
//! whether the one nearest to the fault provably opens first.

use super::input::{Device, FaultCase, StudyError};
use super::moment::{Moment, Seen};
use super::result::{Duty, Selectivity, SourcePath};
use super::sequence::LEAST_AMPS;
use crate::fault_currents::FaultPoint;
use crate::network::{Element, Network};
use crate::protection::provably_selective;
use wainwright_units::Current;

/// Currents at the fault may differ by this [A] and this share of the current; branches below 1 mA
/// are not listed and so are missing in the sum.
const BALANCE_AMPS: f64 = 0.05;
const BALANCE_SHARE: f64 = 1e-6;

/// A branch that carries current, in the direction of the current.
#[derive(Debug, Clone, Copy)]
struct Flow {
    tail: usize,
    head: usize,
    branch: usize,
    amps: f64,
    /// Whether it is a source that gives current.
    source: bool,
}

/// A node found on the way from the fault, and the flow by which it was found.
#[derive(Debug, Clone, Copy)]
struct Visit {
    node: usize,
    /// Position of the visit before in the list, and of the flow used; `None` at the fault.
    before: Option<(usize, usize)>,
}

/// Finds all ways of one fault.
///
/// # Errors
/// [`StudyError::Unbalanced`] when the currents at the fault do not add up.
pub(super) fn find(
    network: &Network,
    devices: &[Device],
    case: &FaultCase,
    moment: &Moment,
) -> Result<Vec<SourcePath>, StudyError> {
    let point = &moment.point;
    let flows = flows(network, point);
    let total = point.total.amperes();
    let arriving: f64 = flows.iter().map(|flow| flow.into(case.from)).sum();
    let residual_amps = arriving - total;
    if residual_amps.abs() > BALANCE_AMPS + BALANCE_SHARE * total.abs() {
        return Err(StudyError::Unbalanced {
            place: case.place,
            residual_amps,
        });
    }
    let (high, low) = if total >= 0.0 {
        (case.from, case.to)
    } else {
        (case.to, case.from)
    };
    let up = walk(&flows, high, Direction::AgainstCurrent);
    let down = walk(&flows, low, Direction::WithCurrent);
    let mut paths: Vec<SourcePath> = Vec::new();
    let mut steps: Vec<(usize, Flow)> = Vec::new();
    for source in flows.iter().filter(|flow| flow.source) {
        let found = up.iter().position(|visit| visit.node == source.head);
        let Some(found) = found else { continue };
        let back = down.iter().position(|visit| visit.node == source.tail);
        steps.clear();
        add_steps(&flows, &up, Some(found), &mut steps);
        steps.push((steps.len(), *source));
        add_steps(&flows, &down, back, &mut steps);
        // By distance from the fault; the sort keeps the side that feeds it first on equal distance.
        steps.sort_by_key(|step| step.0);
        let mut duties: Vec<Duty> = Vec::new();
        for (_, flow) in &steps {
            for seen in moment.devices_in(flow.branch) {
                if !duties.iter().any(|known| known.device == seen.device) {
                    duties.push(duty(&devices[seen.device], seen));
                }
            }
        }
        let same = |path: &&mut SourcePath| {
            path.devices
                .iter()
                .map(|d| d.device)
                .eq(duties.iter().map(|d| d.device))
        };
        match paths.iter_mut().find(same) {
            Some(path) => path.sources.push(source.branch),
            None => paths.push(SourcePath {
                sources: vec![source.branch],
                selectivity: selectivity(&duties),
                devices: duties,
            }),
        }
    }
    Ok(paths)
}

impl Flow {
    fn into(&self, node: usize) -> f64 {
        match (self.head == node, self.tail == node) {
            (true, false) => self.amps,
            (false, true) => -self.amps,
            _ => 0.0,
        }
    }
}

fn flows(network: &Network, point: &FaultPoint) -> Vec<Flow> {
    let carrying = point
        .branches
        .iter()
        .filter(|(_, current)| current.amperes().abs() >= LEAST_AMPS);
    carrying
        .map(|&(index, current)| {
            let branch = &network.branches[index];
            let source = matches!(branch.element, Element::Source { .. });
            // A source's current is counted out of its plus terminal, `from`.
            let forward = (current.amperes() > 0.0) != source;
            let (tail, head) = if forward {
                (branch.from, branch.to)
            } else {
                (branch.to, branch.from)
            };
            let amps = current.amperes().abs();
            Flow {
                tail,
                head,
                branch: index,
                amps,
                source: source && current.amperes() > 0.0,
            }
        })
        .collect()
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Direction {
    AgainstCurrent,
    WithCurrent,
}

/// All nodes from which current comes to `start`, or to which it goes, nearest first.
fn walk(flows: &[Flow], start: usize, direction: Direction) -> Vec<Visit> {
    let ends = |flow: &Flow| match direction {
        Direction::AgainstCurrent => (flow.head, flow.tail),
        Direction::WithCurrent => (flow.tail, flow.head),
    };
    let mut by_near: Vec<(usize, usize)> = flows
        .iter()
        .enumerate()
        .map(|(index, flow)| (ends(flow).0, index))
        .collect();
    by_near.sort_unstable();
    // Whether the node whose flows begin at this place in the list has been found.
    let mut seen = vec![false; by_near.len() + 1];
    let first_of = |node: usize| by_near.partition_point(|entry| entry.0 < node);
    seen[first_of(start)] = true;
    let mut visits = Vec::with_capacity(flows.len() + 1);
    visits.push(Visit {
        node: start,
        before: None,
    });
    let mut next = 0;
    while let Some(visit) = visits.get(next).copied() {
        let onward = by_near[first_of(visit.node)..].iter();
        for &(_, flow) in onward.take_while(|entry| entry.0 == visit.node) {
            let far = ends(&flows[flow]).1;
            let place = first_of(far);
            // A node without onward flows ends the walk and may be found more than once.
            let is_end = by_near.get(place).is_none_or(|entry| entry.0 != far);
            if is_end || !seen[place] {
                seen[place] |= !is_end;
                visits.push(Visit {
                    node: far,
                    before: Some((next, flow)),
                });
            }
        }
        next += 1;
    }
    visits
}

/// Adds the flows from the fault to a visited node, each with its distance from the fault.
fn add_steps(flows: &[Flow], visits: &[Visit], to: Option<usize>, steps: &mut Vec<(usize, Flow)>) {
    let first = steps.len();
    let mut at = to;
    while let Some((before, flow)) = at.and_then(|at| visits[at].before) {
        steps.push((0, flows[flow]));
        at = Some(before);
    }
    steps[first..].reverse();
    for (distance, step) in steps[first..].iter_mut().enumerate() {
        step.0 = distance;
    }
}

fn duty(entry: &Device, seen: &Seen) -> Duty {
    let current = Current::from_amperes(seen.amps);
    Duty {
        device: seen.device,
        current,
        band: seen.band,
        above_interrupt: entry.interrupt.map(|most| current > most),
    }
}

fn selectivity(duties: &[Duty]) -> Selectivity {
    let Some((near, upstream)) = duties.split_first() else {
        return Selectivity::Unprotected;
    };
    if upstream.is_empty() {
        return Selectivity::Single;
    }
    let doubtful = upstream
        .iter()
        .find(|duty| !provably_selective(near.band, duty.band));
    match doubtful {
        Some(duty) => Selectivity::NotProven {
            upstream: duty.device,
        },
        None => Selectivity::Proven,
    }
}
