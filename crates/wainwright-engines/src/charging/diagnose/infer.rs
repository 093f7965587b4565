//! Weighing hidden states by what was seen. Not here: which states there are.

use super::circuit::{State, levels};
use super::states::state;
use super::{Base, share};
use crate::charging::symptom::{
    Cause, Channel, Diagnosis, Event, Levels, MeterNoise, NextMeasurement, Observation, Ranked,
};
use wainwright_units::Ratio;

/// Points of the first look at a cause, spread evenly over the three hidden numbers.
const FIRST: u32 = 512;

/// How many of them are looked at more closely.
const CLOSER: usize = 16;

/// Points around each of those.
const AROUND: u32 = 27;

/// By how much meters are taken to be worse at the first look, so that no good place is missed.
const BLUR: f64 = 5.0;

/// States that stand for all others when the worth of a measurement is computed.
const STANDING_FOR_ALL: usize = 96;

/// A known setting that would have to be another one counts this much.
const SURPRISE: f64 = 0.1;

/// The first look at a cause: hidden numbers and their levels.
#[derive(Debug, Clone)]
pub(super) struct Coarse {
    pub(super) cause: Cause,
    points: Vec<([f64; 3], Levels, f64)>,
}

struct Weighed {
    cause: usize,
    weight: f64,
    match_share: f64,
    levels: Levels,
}

/// The possible causes, each with its states.
pub(super) fn coarse(base: &Base<'_>) -> Vec<Coarse> {
    let of = |cause: &Cause| {
        let point = |index: u32| {
            let hidden = halton(index + 1);
            let (levels, state) = possible(base, *cause, hidden)?;
            Some((hidden, levels, prior(&state)))
        };
        Coarse {
            cause: *cause,
            points: (0..FIRST).filter_map(point).collect(),
        }
    };
    let all = Cause::ALL.iter().map(of);
    all.filter(|coarse| !coarse.points.is_empty()).collect()
}

/// Levels of a cause where it shows: something happens, or nothing does when nothing is the matter.
pub(super) fn possible(base: &Base<'_>, cause: Cause, hidden: [f64; 3]) -> Option<(Levels, State)> {
    let state = state(base, cause, hidden)?;
    let levels = levels(base, &state);
    let quiet = levels.events.contains(&Event::Nothing);
    let finite = Channel::ALL
        .iter()
        .all(|channel| channel.level(&levels).is_finite());
    (finite && quiet == (cause == Cause::Fine)).then_some((levels, state))
}

/// Causes in falling probability.
pub(super) fn diagnose(
    base: &Base<'_>,
    coarse: &[Coarse],
    seen: &Observation,
    noise: MeterNoise,
) -> Diagnosis {
    let mut weighed = Vec::new();
    for (index, one) in coarse.iter().enumerate() {
        weighed.extend(closer(base, one, index, seen, noise));
    }
    let whole: f64 = weighed.iter().map(|one| one.weight).sum();
    let mut ranked: Vec<Ranked> = coarse
        .iter()
        .enumerate()
        .filter_map(|(index, one)| rank(index, one, &weighed, whole))
        .collect();
    ranked.sort_by(|a, b| {
        b.probability
            .fraction()
            .total_cmp(&a.probability.fraction())
    });
    let fit = weighed
        .iter()
        .map(|one| one.match_share)
        .fold(0.0, f64::max);
    Diagnosis {
        ranked,
        next: next(&weighed, whole, coarse.len(), seen, noise),
        fit: Ratio::from_fraction(fit),
    }
}

fn rank(index: usize, one: &Coarse, weighed: &[Weighed], whole: f64) -> Option<Ranked> {
    let own = weighed.iter().filter(|state| state.cause == index);
    let sum: f64 = own.clone().map(|state| state.weight).sum();
    let best = own.max_by(|a, b| a.match_share.total_cmp(&b.match_share));
    let expected = match best {
        Some(best) => best.levels.clone(),
        None => one.points.first()?.1.clone(),
    };
    Some(Ranked {
        cause: one.cause,
        probability: share(sum, whole),
        setting: one.cause.setting(),
        expected,
    })
}

/// States around the best places of the first look; the weights add up to the evidence of the cause.
fn closer(
    base: &Base<'_>,
    one: &Coarse,
    cause: usize,
    seen: &Observation,
    noise: MeterNoise,
) -> Vec<Weighed> {
    let blurred = |point: &([f64; 3], Levels, f64)| {
        point.2.ln() + log_likelihood(&point.1, seen, noise, BLUR).0
    };
    let mut places: Vec<(f64, [f64; 3])> = one
        .points
        .iter()
        .map(|point| (blurred(point), point.0))
        .collect();
    places.sort_by(|a, b| b.0.total_cmp(&a.0));
    let side = f64::from(FIRST).powf(-1.0 / 3.0);
    let count = one.points.len() as f64 * f64::from(AROUND);
    let mut found = Vec::new();
    for (_, middle) in places.into_iter().take(CLOSER) {
        for index in 0..AROUND {
            let off = halton(index + 1);
            let near = |axis: usize| (middle[axis] + side * (off[axis] - 0.5)).clamp(0.0, 1.0);
            let hidden = [near(0), near(1), near(2)];
            let Some((levels, state)) = possible(base, one.cause, hidden) else {
                continue;
            };
            let (log, match_log) = log_likelihood(&levels, seen, noise, 1.0);
            found.push(Weighed {
                cause,
                weight: prior(&state) * log.exp() / count,
                match_share: match_log.exp(),
                levels,
            });
        }
    }
    found
}

fn prior(state: &State) -> f64 {
    if state.surprise { SURPRISE } else { 1.0 }
}

/// Logarithm of how likely the readings are, and of how well they match (0 is perfect).
fn log_likelihood(levels: &Levels, seen: &Observation, noise: MeterNoise, blur: f64) -> (f64, f64) {
    let mut log = 0.0;
    for channel in Channel::ALL {
        if let Some(reading) = channel.reading(seen) {
            let off = (reading - channel.level(levels)) / (blur * sigma(*channel, noise));
            log -= off * off / 2.0;
        }
    }
    let event = seen.event.map_or(0.0, |event| {
        event_share(levels, event, noise.wrong_event.fraction()).ln()
    });
    (log + event, log)
}

/// How likely somebody names an event when some can be seen.
fn event_share(levels: &Levels, event: Event, wrong: f64) -> f64 {
    let right = levels.events.len() as f64;
    if levels.events.contains(&event) {
        (1.0 - wrong) / right
    } else {
        wrong / (Event::COUNT as f64 - right).max(1.0)
    }
}

/// Expected information of each channel that was not read, most first.
fn next(
    weighed: &[Weighed],
    whole: f64,
    causes: usize,
    seen: &Observation,
    noise: MeterNoise,
) -> Vec<NextMeasurement> {
    let few = resampled(weighed, whole);
    let unread = Channel::ALL
        .iter()
        .filter(|channel| channel.reading(seen).is_none());
    let mut next: Vec<NextMeasurement> = unread
        .map(|channel| NextMeasurement {
            channel: *channel,
            bits: information(&few, causes, *channel, sigma(*channel, noise)),
        })
        .collect();
    next.sort_by(|a, b| b.bits.total_cmp(&a.bits));
    next
}

/// States of equal weight that stand for all.
fn resampled(weighed: &[Weighed], whole: f64) -> Vec<&Weighed> {
    let mut few = Vec::new();
    let mut sum = 0.0;
    for state in weighed {
        sum += state.weight;
        let due = |taken: usize| (taken as f64 + 0.5) / STANDING_FOR_ALL as f64 * whole;
        while few.len() < STANDING_FOR_ALL && due(few.len()) < sum {
            few.push(state);
        }
    }
    few
}

/// Entropy of the causes now, less the mean entropy after reading a channel [bit].
fn information(few: &[&Weighed], causes: usize, channel: Channel, sigma: f64) -> f64 {
    // Three nodes and weights that integrate a normal distribution exactly up to fifth powers.
    let root = 3.0_f64.sqrt();
    let nodes = [(-root, 1.0 / 6.0), (0.0, 2.0 / 3.0), (root, 1.0 / 6.0)];
    let mut now = vec![0.0; causes];
    for state in few {
        now[state.cause] += 1.0;
    }
    let mut later = 0.0;
    for state in few {
        for (offset, weight) in nodes {
            let reading = channel.level(&state.levels) + offset * sigma;
            let mut after = vec![0.0; causes];
            for other in few {
                let off = (reading - channel.level(&other.levels)) / sigma;
                after[other.cause] += (-off * off / 2.0).exp();
            }
            later += weight * entropy(&after) / few.len() as f64;
        }
    }
    (entropy(&now) - later).max(0.0)
}

fn entropy(weights: &[f64]) -> f64 {
    let whole: f64 = weights.iter().sum();
    let shares = weights.iter().map(|weight| weight / whole);
    shares
        .filter(|share| *share > 0.0)
        .map(|share| -share * share.log2())
        .sum()
}

fn sigma(channel: Channel, noise: MeterNoise) -> f64 {
    match channel {
        Channel::AtCharger | Channel::AtBattery | Channel::AtLoads => noise.pack.volts(),
        Channel::HighestCell | Channel::LowestCell => noise.cell.volts(),
        Channel::Current => noise.current.amperes(),
        Channel::Temperature => noise.kelvins,
    }
}

/// Points that fill a cube evenly (J. H. Halton 1960), in bases 2, 3 and 5.
fn halton(index: u32) -> [f64; 3] {
    [2, 3, 5].map(|base| {
        let (mut rest, mut place, mut value) = (index, 1.0, 0.0);
        while rest > 0 {
            place /= f64::from(base);
            value += f64::from(rest % base) * place;
            rest /= base;
        }
        value
    })
}
