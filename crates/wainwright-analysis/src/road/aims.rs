//! What the road study holds the design against: advice on the tongue, speed, tie-down. Not here: ratings printed
//! on plates (`ratings`).

use super::notes::RoadNotes;
use super::shelf::{engine_profile, most_of, shelf};
use crate::known::{Assumption, Basis, Known};
use crate::result::road::{Aims, TongueLimits};
use wainwright_model::{FieldExt, HoldAgainst, Project, Region, TongueAdvice, UnitSystem};
use wainwright_reference::Sourced;

/// Whose advice is followed: as typed, or that of the region, or that of the units.
pub(super) fn advice(project: &Project, notes: &mut RoadNotes) -> Known<TongueAdvice> {
    if let Some(known) = notes.given(&project.towing.advice) {
        return known;
    }
    let american = match (project.head.region.value(), project.head.units.value()) {
        (Some(region), _) => *region == Region::Us,
        (None, Some(units)) => *units == UnitSystem::Us,
        (None, None) => false,
    };
    let advice = if american {
        TongueAdvice::Us
    } else {
        TongueAdvice::Eu
    };
    let why = Assumption::Profile;
    notes.assume_because(&["towing", "advice"], advice.as_str().to_owned(), why);
    Known::assumed(advice, why)
}

/// Everything the design is held against.
pub(super) fn aims(project: &Project, advice: Known<TongueAdvice>, notes: &mut RoadNotes) -> Aims {
    let own = &project.towing;
    let against = hold_against(project, &advice, notes);
    let hold = shelf().profile(against.value);
    Aims {
        tongue: tongue(project, &advice, notes),
        side_difference: notes.given(&own.side_difference),
        speed: notes.given(&own.speed),
        hold_profile: hold.map(|row| table(row.map(engine_profile))),
        hold_most: hold.and_then(|row| most_of(row.value)),
        hold_against: Some(against),
        advice: Some(advice),
    }
}

/// A table value as known.
pub(super) fn table<T>(row: Sourced<T>) -> Known<T> {
    Known::new(row.value, Basis::Table(row.source))
}

/// The band: one's own limits where they are typed, the advice for the rest. Below limits of one's own nothing is
/// said about stopping.
fn tongue(
    project: &Project,
    advice: &Known<TongueAdvice>,
    notes: &RoadNotes,
) -> Option<TongueLimits> {
    let band = shelf().band(advice.value)?;
    let own = &project.towing;
    let (low, high) = (notes.given(&own.tongue_low), notes.given(&own.tongue_high));
    let low_is_own = low.is_some();
    let low = low.unwrap_or_else(|| table(band.ok_low));
    let high = high.unwrap_or_else(|| table(band.ok_high));
    // Limits the wrong way round hold the higher one for the top.
    let high = if high.value < low.value {
        Known::new(low.value.max(high.value), high.basis)
    } else {
        high
    };
    Some(TongueLimits {
        stop_below: (!low_is_own).then(|| table(band.stop_below)),
        low,
        high,
        advice: Some(band.advice),
    })
}

fn hold_against(
    project: &Project,
    advice: &Known<TongueAdvice>,
    notes: &mut RoadNotes,
) -> Known<HoldAgainst> {
    if let Some(known) = notes.given(&project.towing.hold_against) {
        return known;
    }
    let against = match advice.value {
        TongueAdvice::Us => HoldAgainst::Road,
        TongueAdvice::Eu | TongueAdvice::Uk | TongueAdvice::Au => HoldAgainst::Van,
    };
    let why = Assumption::Profile;
    notes.assume_because(
        &["towing", "hold_against"],
        against.as_str().to_owned(),
        why,
    );
    Known::assumed(against, why)
}
