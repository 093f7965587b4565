//! Which wires share which stretch of a trunk. Not here: what that does to their temperature.

use super::SAME;
use super::legs::{Course, Way};
use wainwright_units::Length;

/// A stretch of a trunk in which the same wires run all along.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// Which trunk.
    pub trunk: usize,
    /// Where it starts, from the start of the trunk.
    pub from: Length,
    /// Where it ends, from the start of the trunk.
    pub to: Length,
    /// The wires in it, in order; never empty.
    pub wires: Vec<usize>,
}

/// How full a trunk gets along the way of one wire.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fullest {
    /// Which trunk.
    pub trunk: usize,
    /// Conductors that run together, the wire's own included.
    pub conductors: usize,
    /// Where that begins, from the start of the trunk.
    pub from: Length,
    /// Where that ends, from the start of the trunk.
    pub to: Length,
}

/// Every stretch of every trunk that holds a wire, in order along the trunks.
pub(super) fn stretches(trunks: usize, ways: &[Way]) -> Vec<Stretch> {
    let mut spans: Vec<Vec<(f64, f64, usize)>> = vec![Vec::new(); trunks];
    for (wire, way) in ways.iter().enumerate() {
        for leg in &way.legs {
            if let Course::Trunk { trunk, from, to } = leg.course {
                let (from, to) = (from.metres(), to.metres());
                if (from - to).abs() > SAME {
                    spans[trunk].push((from.min(to), from.max(to), wire));
                }
            }
        }
    }
    let spans = spans.iter().enumerate();
    spans
        .flat_map(|(trunk, spans)| of_trunk(trunk, spans))
        .collect()
}

/// For each trunk a wire runs in, the most conductors that run together with it over at least a
/// length; `conductors` says how many each wire brings, 1 for a wire it does not name.
pub(super) fn fullest(
    stretches: &[Stretch],
    wire: usize,
    conductors: &[usize],
    at_least: Length,
) -> Vec<Fullest> {
    let mut found: Vec<Fullest> = Vec::new();
    let own: Vec<Fullest> = (stretches
        .iter()
        .filter(|stretch| stretch.wires.contains(&wire)))
    .map(|stretch| Fullest {
        trunk: stretch.trunk,
        conductors: stretch
            .wires
            .iter()
            .map(|&other| conductors.get(other).copied().unwrap_or(1))
            .sum(),
        from: stretch.from,
        to: stretch.to,
    })
    .collect();
    let follows = |one: &Fullest, other: &Fullest| {
        one.trunk == other.trunk && (other.from - one.to).metres().abs() <= SAME
    };
    for run in own.chunk_by(follows) {
        let Some(best) = fullest_of_run(run, at_least) else {
            continue;
        };
        match found.last_mut() {
            Some(last) if last.trunk == best.trunk => {
                if best.conductors > last.conductors {
                    *last = best;
                }
            }
            _ => found.push(best),
        }
    }
    found
}

/// The most conductors all along some part of a run of stretches that is long enough.
fn fullest_of_run(run: &[Fullest], at_least: Length) -> Option<Fullest> {
    let mut best: Option<Fullest> = None;
    for first in 0..run.len() {
        let mut together = run[first];
        for stretch in &run[first..] {
            together.to = stretch.to;
            together.conductors = together.conductors.min(stretch.conductors);
            let long = (together.to - together.from).metres() + SAME >= at_least.metres();
            if long && best.is_none_or(|best| together.conductors > best.conductors) {
                best = Some(together);
            }
            if long {
                break;
            }
        }
    }
    best
}

fn of_trunk(trunk: usize, spans: &[(f64, f64, usize)]) -> Vec<Stretch> {
    let mut ends: Vec<f64> = spans.iter().flat_map(|&(from, to, _)| [from, to]).collect();
    ends.sort_by(f64::total_cmp);
    ends.dedup_by(|next, before| *next - *before <= SAME);
    let mut stretches: Vec<Stretch> = Vec::new();
    for pair in ends.windows(2) {
        let &[from, to] = pair else { continue };
        let middle = f64::midpoint(from, to);
        let inside = spans
            .iter()
            .filter(|span| span.0 < middle && middle < span.1);
        let mut wires: Vec<usize> = inside.map(|span| span.2).collect();
        wires.sort_unstable();
        wires.dedup();
        let (from, to) = (Length::from_metres(from), Length::from_metres(to));
        match stretches.last_mut() {
            Some(last) if last.wires == wires && last.to == from => last.to = to,
            _ if wires.is_empty() => {}
            _ => stretches.push(Stretch {
                trunk,
                from,
                to,
                wires,
            }),
        }
    }
    stretches
}
