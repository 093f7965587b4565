//! What holds and guards the wires on their way: clips, ties, tube, grommets,
//! labels.

use super::Desk;
use super::lines::Lines;
use crate::known::Basis;
use crate::result::{Amount, Leg, Run, Thing, Through};
use std::collections::BTreeSet;
use wainwright_model::{Id, Spot};
use wainwright_reference::limit::{LengthLimit, length_limit};
use wainwright_reference::plan::grommets_per_pass;
use wainwright_units::{CrossSection, Length};

/// Fixings along every route.
pub(super) fn add(desk: &Desk<'_>, lines: &mut Lines) {
    clips(desk, lines);
    tubes(desk, lines);
    grommets(desk, lines);
    for (id, _) in desk.project.wires.iter() {
        let both = Amount::Pieces(2);
        lines.add(Thing::Label, both, ("wire", id), Basis::Computed);
    }
}

/// Clips: at both ends of what is used of a trunk and between, no further
/// apart than the published distance; off the trunks only between, because the
/// ends are held. Ties at the same distance where wires run together. Foam and
/// tube hold what is in them.
fn clips(desk: &Desk<'_>, lines: &mut Lines) {
    let Some(limit) = length_limit(LengthLimit::Support) else {
        return;
    };
    let basis = || Basis::Table(limit.source);
    for trunk in &desk.assessment.routing.trunks {
        if matches!(trunk.run.value, Run::Foam | Run::Conduit) {
            continue;
        }
        let of = ("trunk", &trunk.id);
        let spans = spans(trunk.used, limit.value);
        if spans > 0 {
            lines.add(Thing::Clip, Amount::Pieces(spans + 1), of, basis());
        }
        let ties = self::spans(trunk.shared, limit.value);
        if ties > 0 {
            lines.add(Thing::CableTie, Amount::Pieces(ties), of, basis());
        }
    }
    for (id, leg) in off_trunk(desk) {
        let between = spans(leg.length, limit.value).saturating_sub(1);
        if between > 0 {
            lines.add(Thing::Clip, Amount::Pieces(between), ("wire", id), basis());
        }
    }
}

/// Legs off the trunks, each place once, with the first wire there.
fn off_trunk<'a>(desk: &'a Desk<'_>) -> Vec<(&'a Id, &'a Leg)> {
    let mut seen = BTreeSet::new();
    let wires = desk.assessment.routing.wires.iter();
    let legs = wires.flat_map(|wire| {
        let legs = wire.route.iter().flat_map(|route| &route.legs);
        legs.map(|leg| (&wire.wire, leg))
    });
    let off = legs.filter(|(_, leg)| leg.trunk.is_none());
    off.filter(|(_, leg)| {
        let corners = leg.stretches.iter().flat_map(|s| [s.from, s.to]);
        let mut corners: Vec<_> = corners.map(millimetres).collect();
        if corners.first() > corners.last() {
            corners.reverse();
        }
        seen.insert(corners)
    })
    .collect()
}

/// Spaces between supports over a length.
fn spans(length: Length, apart: Length) -> u32 {
    let spans = (length.metres() / apart.metres() - 1e-9).ceil().max(0.0);
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "not below zero, and trailers are short"
    )]
    let whole = spans as u32;
    whole
}

/// Tube for the trunks that are one.
fn tubes(desk: &Desk<'_>, lines: &mut Lines) {
    let trunks = desk.assessment.routing.trunks.iter();
    for trunk in trunks.filter(|trunk| trunk.run.value == Run::Conduit) {
        let fullest = trunk.fullest.as_ref();
        let nothing = CrossSection::from_square_millimetres(0.0);
        let Some(filled) = fullest.map(|fullest| fullest.filled) else {
            continue;
        };
        let thing = Thing::Conduit {
            filled: filled.max(nothing),
        };
        let amount = Amount::Length(trunk.used);
        lines.add(thing, amount, ("trunk", &trunk.id), Basis::Computed);
    }
}

/// Grommets: wires that go through at one place share one.
fn grommets(desk: &Desk<'_>, lines: &mut Lines) {
    let Some(each) = grommets_per_pass() else {
        return;
    };
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a small count"
    )]
    let pieces = each.value.max(0.0) as u32;
    let mut seen = BTreeSet::new();
    for wire in &desk.assessment.routing.wires {
        for pass in wire.route.iter().flat_map(|route| &route.passes) {
            let through = match &pass.through {
                Through::Wall(side) => side.as_str().to_owned(),
                Through::Lining(trunk) => format!("lining {trunk}"),
            };
            if seen.insert((through, millimetres(pass.at))) {
                let basis = Basis::Table(each.source);
                let of = ("wire", &wire.wire);
                lines.add(Thing::Grommet, Amount::Pieces(pieces), of, basis);
            }
        }
    }
}

fn millimetres(spot: Spot) -> [i64; 3] {
    crate::route::millimetres(spot)
}
