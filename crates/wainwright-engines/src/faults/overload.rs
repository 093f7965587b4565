//! What a device lets through to a conductor behind it at currents that are no short circuit: the
//! region in which opening is not promised or slow, and every current from there to the short circuit.

use super::input::{Device, Withstand};
use super::stress::{ADIABATIC_SECONDS, Prepared};
use crate::conductor::MELTING;
use crate::conductor_heat::HeatError;
use wainwright_units::{Current, Duration, Temperature};

/// Multiple carried for ever when the curve has no gate that says so (judgement: usual for fuses).
const USUAL_CARRIED: f64 = 1.10;
/// Currents tried between two gates where the temperature follows heat loss and has no closed form.
const TRIES: usize = 6;

/// What one device lets one conductor behind it go through.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Overload {
    /// Current that the device carries for ever by design [A].
    pub carries: Current,
    /// Settled temperature of the conductor at that current [°C].
    pub carried: Temperature,
    /// Smallest current at which opening is promised [A]; `None` when it never is.
    pub opens_from: Option<Current>,
    /// Temperature after the latest opening time at that current [°C].
    pub at_opening: Option<Temperature>,
    /// Settled temperature just below that current [°C], the hottest of the region in which
    /// nothing is promised; 1083 °C when the conductor melts, or when opening is never promised.
    pub worst: Temperature,
    /// Check of all currents from `opens_from` to the short circuit; `None` when the short circuit
    /// gives less than `opens_from`.
    pub completeness: Option<Completeness>,
}

/// Hottest point over all currents at which opening is promised.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Completeness {
    /// The current that heats the conductor most before the device has opened [A].
    pub current: Current,
    /// Latest opening time there [s].
    pub latest: Duration,
    /// Temperature of the conductor then [°C], without heat loss up to 5 s.
    pub hottest: Temperature,
    /// Whether that is within the short-circuit limit.
    pub survives: bool,
}

/// Heats one conductor with every current that one device lets pass, up to `largest` [A], the
/// short-circuit current.
///
/// Up to 5 s the energy between two gates rises or falls all the way, so its ends are enough; where
/// heat is lost, six currents between the gates are tried besides.
///
/// # Errors
/// [`HeatError`] for an impossible conductor.
pub fn overload(
    device: &Device,
    conductor: &Withstand,
    largest: Current,
) -> Result<Overload, HeatError> {
    overload_by(device, conductor, largest, false)
}

/// As [`overload`], for many pairs on every keystroke: a course over time is followed only where
/// it decides. Elsewhere the smaller of the temperature without heat loss and the settled one
/// stands, both of which the true one cannot exceed; `at_opening` is left out.
///
/// # Errors
/// [`HeatError`] for an impossible conductor.
pub fn overload_at_most(
    device: &Device,
    conductor: &Withstand,
    largest: Current,
) -> Result<Overload, HeatError> {
    overload_by(device, conductor, largest, true)
}

fn overload_by(
    device: &Device,
    conductor: &Withstand,
    largest: Current,
    bounded: bool,
) -> Result<Overload, HeatError> {
    let prepared = Prepared::new(conductor)?;
    let rating = device.rating.amperes();
    let from = device.curve.opens_from();
    let carried_multiple = device.curve.carries().unwrap_or(USUAL_CARRIED);
    let carries = rating * from.map_or(carried_multiple, |from| carried_multiple.min(from));
    let opens_from = from.map(|from| from * rating);
    let at_opening = match (
        opens_from,
        from.and_then(|from| device.curve.band(from).latest),
    ) {
        (Some(amps), Some(latest)) if !bounded => Some(prepared.after(amps, latest.seconds())?),
        _ => None,
    };
    let worst = match opens_from {
        Some(amps) => prepared.settled(amps)?,
        None => MELTING,
    };
    Ok(Overload {
        carries: Current::from_amperes(carries),
        carried: Temperature::from_celsius(prepared.settled(carries)?),
        opens_from: opens_from.map(Current::from_amperes),
        at_opening: at_opening.map(Temperature::from_celsius),
        worst: Temperature::from_celsius(worst),
        completeness: completeness(
            device,
            conductor,
            &prepared,
            largest.amperes().abs(),
            bounded,
        )?,
    })
}

/// One current that is tried.
struct Try {
    amps: f64,
    latest: Duration,
    /// Temperature that the true one does not exceed [°C].
    most: f64,
    /// Whether `most` is what is reported.
    is_final: bool,
}

fn completeness(
    device: &Device,
    conductor: &Withstand,
    prepared: &Prepared<'_>,
    largest: f64,
    bounded: bool,
) -> Result<Option<Completeness>, HeatError> {
    let short_limit = conductor.short_limit.celsius();
    let mut open: Vec<Try> = Vec::new();
    // The hottest, and of equals the one tried first: its place, and its temperature.
    let mut worst: Option<(usize, f64)> = None;
    for multiple in multiples(device, largest / device.rating.amperes()) {
        let Some(latest) = device.curve.band(multiple).latest else {
            continue;
        };
        let amps = multiple * device.rating.amperes();
        let tried = bound(prepared, amps, latest, bounded.then_some(short_limit))?;
        let beats = worst.is_none_or(|(_, hottest)| tried.most > hottest);
        if tried.is_final && beats {
            worst = Some((open.len(), tried.most));
        }
        open.push(tried);
    }
    // The one that may get hottest goes first, so that most others need not be followed.
    let mut order: Vec<usize> = (0..open.len())
        .filter(|place| !open[*place].is_final)
        .collect();
    order.sort_by(|a, b| open[*b].most.total_cmp(&open[*a].most));
    for place in order {
        let beats = |hottest: f64| {
            worst.is_none_or(|(first, most)| hottest > most || (hottest == most && place < first))
        };
        if !beats(open[place].most) {
            continue;
        }
        let hottest = prepared.after(open[place].amps, open[place].latest.seconds())?;
        if beats(hottest) {
            worst = Some((place, hottest));
        }
    }
    Ok(worst.map(|(place, hottest)| Completeness {
        current: Current::from_amperes(open[place].amps),
        latest: open[place].latest,
        hottest: Temperature::from_celsius(hottest),
        survives: hottest <= short_limit,
    }))
}

/// The true temperature exceeds neither the settled one nor the one without heat loss. Up to 5 s the
/// latter is what counts; later the bound itself is, where it is within `enough` [°C].
fn bound(
    prepared: &Prepared<'_>,
    amps: f64,
    latest: Duration,
    enough: Option<f64>,
) -> Result<Try, HeatError> {
    let without_loss = prepared.without_loss(amps * amps * latest.seconds());
    let (most, is_final) = if latest.seconds() <= ADIABATIC_SECONDS {
        (without_loss, true)
    } else {
        let most = prepared.settled(amps)?.min(without_loss);
        (most, enough.is_some_and(|limit| most <= limit))
    };
    Ok(Try {
        amps,
        latest,
        most,
        is_final,
    })
}

/// Multiples to try, from the lowest at which opening is promised to `largest`.
fn multiples(device: &Device, largest: f64) -> Vec<f64> {
    let curve = &device.curve;
    let latest = |multiple: f64| {
        curve
            .band(multiple)
            .latest
            .map_or(f64::INFINITY, Duration::seconds)
    };
    let gates = curve.gates.iter().filter(|gate| gate.latest.is_some());
    let gates = gates.map(|gate| gate.multiple.fraction());
    let mut corners: Vec<f64> = gates.filter(|multiple| *multiple < largest).collect();
    if curve.opens_from().is_some_and(|from| from <= largest) {
        corners.push(largest);
    }
    let mut found = Vec::new();
    for (corner, next) in corners.iter().zip(corners.iter().skip(1)) {
        found.push(*corner);
        if latest(*corner) <= ADIABATIC_SECONDS {
            continue;
        }
        let steepness = (latest(*next) / latest(*corner)).ln() / (next / corner).ln();
        let ratio = (next / corner).powf(1.0 / (TRIES + 1) as f64);
        found.extend((1..=TRIES).map(|step| corner * ratio.powi(step as i32)));
        if latest(*next) < ADIABATIC_SECONDS {
            // The first current that is judged without heat loss; a hair more, so that it is.
            let change = (ADIABATIC_SECONDS / latest(*corner)).ln() / steepness;
            found.push((corner * change.exp() * (1.0 + 1e-12)).min(*next));
        }
    }
    found.extend(corners.last());
    found
}
