//! What to set on every charging device so that it agrees with battery, protection board, wires and
//! loads; what in the present settings does not agree; which of them explains a symptom. Not here: the
//! figures of a chemistry or a device class, which come from the caller; wording.
//!
//! # Computes
//! A card of settings for each charger and each low-voltage disconnect, with all bounds and the ones
//! that bind; conflicts with changes that remove them; causes of a symptom by probability and what to
//! measure next.
//!
//! # Equation
//! - trip of the board, fullest of N cells ahead by Δ at c per hour: V = Vtrip + (N − 1)(OCV(s* − Δ) +
//!   c r), OCV(s*) + c r = Vtrip; absorption ≤ V − margin, without credit for the wire, because the
//!   current may fall to zero
//! - full at the tail current: absorption ≥ N OCV(full) + (I − Iload)(N r / Ah + connections) + I Rwire
//! - cut-off of the board, emptiest cell behind by Δ: V = Vcut + (N − 1)(OCV(s* + Δ) − c r),
//!   OCV(s*) − c r = Vcut; disconnect ≥ V + margin
//! - disconnect ≤ N OCV(reserve) − I (Rpack + Rwire); reconnect ≥ disconnect + I (Rpack + Rwire) +
//!   rebound
//! - from the current limit to the tail at constant voltage: t = ∫ Ah ds / I(s), I(s) = (V − N OCV(s)) /
//!   (Rpack + Rwire); lead-acid: t = τ ln(I / Itail)
//! - a current limit is the charger's share of what the battery takes: I · takes / Σ I
//! - causes: P(cause | seen) ∝ P(cause) · mean over hidden states of Π normal(reading − level) · P(event)
//!
//! # Assumptions and limits
//! Open voltage is the mean of charging and discharging. One cell is ahead or behind, the others are
//! even. At real rates the steep end begins a little earlier than measured at rest, so the imbalance a
//! setting bears may be up to twice what is computed. The pack trips at the weakest current of the
//! taper, where the pack voltage is lowest. Before anything is seen all possible causes are equally
//! likely, but a setting that is known and in order counts a tenth.
//!
//! # Valid range
//! 1 to 32 cells in series; charging up to 0.5 of the capacity per hour.
//!
//! # Example
//! ```
//! use wainwright_engines::battery::{Curve, Uneven};
//! use wainwright_engines::charging::cut_off_voltage;
//! use wainwright_units::{Ratio, Voltage};
//! let open = Curve::new(&[(0.0, 2.3), (0.01, 2.8), (0.1, 3.2), (0.9, 3.34), (1.0, 3.5)]);
//! let pack = Uneven { series: 4, open, resistance: 0.2, rate: 0.0, trip: Voltage::from_volts(2.5) };
//! let even = cut_off_voltage(pack, Ratio::ZERO).unwrap();
//! assert!((even.volts() - 10.0).abs() < 1e-9);
//! assert!(cut_off_voltage(pack, Ratio::from_percent(2.0)).unwrap() > even);
//! ```
//!
//! # Sources
//! - M. Naumann, thesis, Technical University of Munich 2018: the measured cell the tests use (read).
//! - Manuals of solar controllers: order of set points, 0.2 V between a disconnect and the board's own
//!   thresholds (read).
//! - Bayes' rule and expected information as in C. E. Shannon, Bell System Technical Journal 27, 1948
//!   (memory).

mod bound;
mod card;
mod check;
mod conflict;
mod diagnose;
mod find;
mod input;
mod pack;
mod remedy;
mod set;
mod symptom;

pub use bound::{Bound, Number, Reason, SetPoint, ToChange};
pub use card::{
    Cards, ChargerCard, ChargerFigures, DisconnectCard, DisconnectFigures, PackFigures, Taper,
};
pub use conflict::{Change, Conflict, ConflictKind, Figure, Place};
pub use diagnose::Hypotheses;
pub use input::{
    Battery, Board, Charger, ChargerKind, Disconnect, DisconnectKind, DisconnectSettings, Family,
    Loads, Margins, Profile, Settings, System, Window,
};
pub use pack::{cut_off_voltage, taper};
pub use remedy::{adopt, apply};
pub use symptom::{
    Bench, Cause, Channel, Diagnosis, Event, Levels, MeterNoise, NextMeasurement, Observation,
    Ranked, Setting,
};

use crate::refusal::Refusal;

/// The card of settings of every device.
///
/// # Errors
/// [`Refusal`] when a battery, wire or device is none, with the one it belongs to.
pub fn cards(system: &System<'_>) -> Result<Cards, Refusal> {
    check::check(system)?;
    set::cards(system)
}

/// What does not agree in the present settings, each with what removes it.
///
/// # Errors
/// As [`cards`].
pub fn conflicts(system: &System<'_>) -> Result<Vec<Conflict>, Refusal> {
    let cards = cards(system)?;
    Ok(remedy::with_remedies(system, &cards))
}

/// The causes of what was seen at one charger and one disconnect, and what to measure next.
///
/// # Errors
/// As [`cards`]; also for a charger or disconnect that is not there, or a noise that is not above zero.
pub fn diagnose(
    system: &System<'_>,
    bench: Bench,
    seen: &Observation,
    noise: MeterNoise,
) -> Result<Diagnosis, Refusal> {
    Hypotheses::new(system, bench)?.diagnose(seen, noise)
}
