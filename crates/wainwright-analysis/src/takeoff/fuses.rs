//! Fuses with their spares, holders, and what else sits between the wires.

use super::Desk;
use super::lines::Lines;
use crate::known::{Assumption, Basis};
use crate::result::{Amount, AskedFor, Thing};
use std::collections::BTreeMap;
use wainwright_model::{FieldExt, FuseFamily, Id, Item, Kind, Spec};
use wainwright_reference::plan::holder_for;
use wainwright_reference::protection::Family;
use wainwright_units::{Current, WireSize};

/// Family of a fuse where nobody said.
const USUAL_FAMILY: FuseFamily = FuseFamily::Blade;
/// One spare for so many fuses of a rating, and at least one (judgement).
const FUSES_PER_SPARE: u32 = 4;

/// Everything between the wires that is not supplied with something.
pub(super) fn add(desk: &Desk<'_>, lines: &mut Lines) {
    let mut all: BTreeMap<(FuseFamily, i64), (Current, u32)> = BTreeMap::new();
    for (id, item) in desk.project.items.iter() {
        let bought = item.supplied.value() != Some(&true);
        for (family, rating) in ratings(item) {
            let key = (family, thousandths(rating));
            all.entry(key).or_insert((rating, 0)).1 += 1;
            let thing = Thing::Fuse { family, rating };
            let amount = Amount::Pieces(u32::from(bought));
            lines.add(thing, amount, ("item", id), rating_basis(desk, item));
        }
        if bought {
            between(desk, id, item, lines);
        }
    }
    for ((family, _), (rating, count)) in all {
        let thing = Thing::Fuse { family, rating };
        if let Some(line) = lines.line(&thing) {
            line.more = Amount::Pieces(count.div_ceil(FUSES_PER_SPARE).max(1));
            line.more_basis = Some(Basis::Assumed(Assumption::UsualForKind));
        }
    }
}

/// Fuses in an item, as rated.
fn ratings(item: &Item) -> Vec<(FuseFamily, Current)> {
    let family = |given: Option<&FuseFamily>| given.copied().unwrap_or(USUAL_FAMILY);
    let several = |fuses: Option<&Vec<Option<Current>>>, family: FuseFamily| {
        let fuses = fuses.into_iter().flatten().flatten();
        fuses.map(|rating| (family, *rating)).collect()
    };
    match &item.spec {
        Spec::Fuse(fuse) => {
            let rating = fuse.rating.value().copied();
            let family = family(fuse.family.value());
            rating.map(|rating| (family, rating)).into_iter().collect()
        }
        Spec::FuseBlock(block) => several(block.fuses.value(), family(block.family.value())),
        Spec::SwitchBank(bank) => several(bank.fuses.value(), USUAL_FAMILY),
        _ => Vec::new(),
    }
}

fn rating_basis(desk: &Desk<'_>, item: &Item) -> Basis {
    let given = match &item.spec {
        Spec::Fuse(fuse) => fuse.rating.as_ref().map(|given| desk.notes.basis(given)),
        Spec::FuseBlock(block) => block.fuses.as_ref().map(|given| desk.notes.basis(given)),
        Spec::SwitchBank(bank) => bank.fuses.as_ref().map(|given| desk.notes.basis(given)),
        _ => None,
    };
    given.unwrap_or(Basis::Computed)
}

/// Holders, and items that are bought as they are.
fn between(desk: &Desk<'_>, id: &Id, item: &Item, lines: &mut Lines) {
    let one = Amount::Pieces(1);
    let of = ("item", id);
    let kind = item.spec.kind();
    match &item.spec {
        Spec::Fuse(fuse) => {
            let Some(rating) = fuse.rating.value().copied() else {
                lines.ask(&["item", id.as_str(), "rating"], AskedFor::Rating);
                return;
            };
            let family = fuse.family.value().copied().unwrap_or(USUAL_FAMILY);
            let wire = thickest(desk, id);
            let listed = Family::from_id(family.as_str());
            let found = listed.zip(wire);
            let found = found.and_then(|(family, size)| holder_for(family, size, rating));
            let basis = found.as_ref().map(|found| Basis::Table(found.source));
            let thing = Thing::Holder {
                family,
                name: found.map(|found| found.value.name),
                wire,
            };
            lines.add(thing, one, of, basis.unwrap_or(Basis::Computed));
        }
        Spec::FuseBlock(_)
        | Spec::BusBar(_)
        | Spec::Breaker(_)
        | Spec::Switch(_)
        | Spec::SwitchBank(_)
        | Spec::Shunt(_)
        | Spec::Tank(_)
        | Spec::Splice(_) => {
            let thing = bought(id, item, kind);
            lines.add(thing, one, of, Basis::Computed);
        }
        _ => {}
    }
}

/// Items of one part are one thing; an item of its own is known by its name.
fn bought(id: &Id, item: &Item, kind: Kind) -> Thing {
    let part = item.part.value().cloned();
    let library = |part: &String| crate::catalogue().get(part);
    let label = match &part {
        Some(part) => library(part).and_then(|found| found.label.value().cloned()),
        None => item.label.value().cloned(),
    };
    let fallback = || part.clone().unwrap_or_else(|| id.to_string());
    Thing::Item {
        kind,
        label: label.unwrap_or_else(fallback),
        part,
    }
}

/// The thickest wire that ends at an item.
fn thickest(desk: &Desk<'_>, item: &Id) -> Option<WireSize> {
    let wires = desk.project.wires.iter().filter(|(_, wire)| {
        let ends = [wire.from.value(), wire.to.value()];
        ends.into_iter().flatten().any(|end| end.item == *item)
    });
    let sizes = wires.filter_map(|(_, wire)| wire.size.value().copied());
    sizes.max_by(|a, b| area(*a).total_cmp(&area(*b)))
}

/// Nominal area of a size \[mm²\].
fn area(size: WireSize) -> f64 {
    match size {
        WireSize::Awg(gauge) | WireSize::Sae(gauge) => gauge.area().square_millimetres(),
        WireSize::Metric(area) => area.square_millimetres(),
    }
}

/// Rating in milliamperes, to tell ratings apart.
fn thousandths(rating: Current) -> i64 {
    #[allow(clippy::cast_possible_truncation, reason = "ratings are small")]
    let rounded = (rating.amperes() * 1000.0).round() as i64;
    rounded
}
