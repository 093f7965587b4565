//! The outcome of the fault engine in the assessment's terms.

use super::places::Place;
use crate::circuit::{self, Circuit, Part};
use crate::result::{FaultEnd, FaultResult, Opening, Stress};
use wainwright_engines::conductor::{MELTING, adiabatic_time};
use wainwright_engines::faults::{Clearing, Outcome, Selectivity, SourcePath, Withstand};
use wainwright_units::{Current, Duration, Temperature};

/// Longest time for which heat loss may be left out \[s\].
const ADIABATIC_SECONDS: f64 = 5.0;
/// Conductors named in a fault result, worst first.
const MOST_STRESSES: usize = 8;

/// One place with both ends of its range.
pub(super) fn result(
    circuit: &Circuit,
    conductors: &[Withstand],
    place: &Place,
    (largest, smallest): (&Outcome, &Outcome),
) -> Option<FaultResult> {
    let touches = |wire: &circuit::Wire| wire.from_node == place.node || wire.to_node == place.node;
    let wires = circuit.wires.iter().enumerate();
    let wires = wires.filter(|(_, wire)| touches(wire));
    Some(FaultResult {
        node: place.node,
        at: circuit.nodes.members(place.node).first()?.clone(),
        wires: wires.map(|(index, _)| index).collect(),
        largest: end(circuit, conductors, largest),
        smallest: end(circuit, conductors, smallest),
    })
}

fn end(circuit: &Circuit, conductors: &[Withstand], outcome: &Outcome) -> FaultEnd {
    let ruling = ruling(circuit, outcome);
    let (selective, rival) = match ruling.map(|path| path.selectivity) {
        Some(Selectivity::NotProven { upstream }) => (Some(false), Some(upstream)),
        Some(Selectivity::Proven | Selectivity::Single) => (Some(true), None),
        Some(Selectivity::Unprotected) | None => (None, None),
    };
    let remaining = match outcome.clearing {
        Clearing::Never { remaining } | Clearing::Uncertain { remaining, .. } => Some(remaining),
        Clearing::NoCurrent | Clearing::Cleared { .. } => None,
    };
    let nearest = ruling.and_then(|path| path.devices.first());
    FaultEnd {
        amps: outcome.current,
        openings: openings(outcome),
        cleared: match outcome.clearing {
            Clearing::Cleared { earliest, latest } => Some((earliest, latest)),
            _ => None,
        },
        stresses: stresses(conductors, outcome),
        should_open: nearest.map(|duty| duty.device),
        selective,
        rival,
        comes_back: outcome.comes_back,
        remaining,
    }
}

/// The way to the fault that the order of opening is told by: one whose order
/// is not proven before any other, then the one with the largest current at
/// its nearest device. A source that limits its own current rules only where
/// no other feeds the fault.
fn ruling<'a>(circuit: &Circuit, outcome: &'a Outcome) -> Option<&'a SourcePath> {
    let limited = |branch: &usize| match circuit.branches.get(*branch).map(|b| b.part) {
        Some(Part::Consumer(index)) => circuit.consumers[index].demand.self_limit().is_some(),
        _ => false,
    };
    let strong = |path: &&SourcePath| !path.sources.iter().all(limited);
    let rank = |path: &&SourcePath| {
        let doubtful = matches!(path.selectivity, Selectivity::NotProven { .. });
        let nearest = path.devices.first();
        let amps = nearest.map_or(0.0, |duty| duty.current.amperes().abs());
        (doubtful, amps)
    };
    let worst = |a: &&SourcePath, b: &&SourcePath| {
        let (a, b) = (rank(a), rank(b));
        a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
    };
    let protected = |path: &&SourcePath| !path.devices.is_empty();
    let all = || outcome.paths.iter().rev().filter(protected);
    all()
        .filter(strong)
        .max_by(worst)
        .or_else(|| all().max_by(worst))
}

/// Openings that will happen, then devices that see the fault without being
/// promised to open.
fn openings(outcome: &Outcome) -> Vec<Opening> {
    let mut found: Vec<Opening> = outcome
        .openings
        .iter()
        .map(|opening| Opening {
            device: opening.device,
            amps: opening.current,
            earliest: opening.earliest.unwrap_or(opening.latest),
            latest: Some(opening.latest),
            beyond_interrupt: opening.above_interrupt.unwrap_or(false),
        })
        .collect();
    let duties = outcome.paths.iter().flat_map(|path| &path.devices);
    for duty in duties {
        let known = found.iter().any(|opening| opening.device == duty.device);
        if let (false, Some(earliest)) = (known, duty.band.earliest) {
            found.push(Opening {
                device: duty.device,
                amps: duty.current,
                earliest,
                latest: duty.band.latest,
                beyond_interrupt: duty.above_interrupt.unwrap_or(false),
            });
        }
    }
    found
}

/// How long a conductor bears a current without losing heat; nothing where
/// that is longer than the equation holds for.
fn stands(conductor: &Withstand, current: Current) -> Option<Duration> {
    let metal = conductor.build.metal;
    let time = adiabatic_time(metal, conductor.start, conductor.short_limit, current);
    (time.seconds() <= ADIABATIC_SECONDS).then_some(time)
}

fn stresses(conductors: &[Withstand], outcome: &Outcome) -> Vec<Stress> {
    let worst = |stress: &wainwright_engines::faults::Stress| Stress {
        wire: stress.conductor,
        amps: stress.current,
        hottest: stress.hottest.min(Temperature::from_celsius(MELTING)),
        survives: stress.survives,
        stands: stands(&conductors[stress.conductor], stress.current),
    };
    let mut found: Vec<Stress> = outcome.stresses.iter().map(worst).collect();
    found.sort_by(|a, b| {
        let heat = b.hottest.celsius().total_cmp(&a.hottest.celsius());
        a.survives
            .cmp(&b.survives)
            .then(heat)
            .then(a.wire.cmp(&b.wire))
    });
    found.truncate(MOST_STRESSES);
    found
}
