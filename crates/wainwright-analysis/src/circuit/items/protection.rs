//! Fuses, breakers, switches and what else only passes current.

use super::Lowering;
use crate::circuit::{Contact, Device, Part, defaults, given};
use crate::known::{Assumption, Known};
use crate::result::{Reclose, Wanted};
use wainwright_model::{Breaker, Field, FieldExt, Fuse, FuseBlock, Shunt, Switch, SwitchBank};
use wainwright_units::{Current, Resistance, Voltage};

pub(super) fn fuse(lowering: &mut Lowering<'_>, spec: &Fuse) {
    let family = spec
        .family
        .value()
        .map_or("blade", |f| f.as_str())
        .to_owned();
    let Some(rating) = given(&spec.rating, None) else {
        return lack_rating(lowering, "rating");
    };
    let given = Ratings {
        volts: given(&spec.voltage, None),
        interrupt: given(&spec.interrupt, None),
    };
    let nodes = (lowering.node("in"), lowering.node("out"));
    let path = lowering.path("rating").map(str::to_owned).to_vec();
    device(
        lowering,
        nodes,
        0,
        &family,
        rating,
        given,
        Reclose::Fuse,
        path,
    );
}

pub(super) fn breaker(lowering: &mut Lowering<'_>, spec: &Breaker) {
    let Some(rating) = given(&spec.rating, None) else {
        return lack_rating(lowering, "rating");
    };
    let reclose = match spec.reset.value().map(|r| r.as_str()) {
        Some("automatic") => Reclose::Automatic,
        Some("held") => Reclose::Held,
        _ => Reclose::Manual,
    };
    let given = Ratings {
        volts: given(&spec.voltage, None),
        interrupt: given(&spec.interrupt, None),
    };
    let nodes = (lowering.node("in"), lowering.node("out"));
    let path = lowering.path("rating").map(str::to_owned).to_vec();
    device(lowering, nodes, 0, "breaker", rating, given, reclose, path);
}

pub(super) fn block(lowering: &mut Lowering<'_>, spec: &FuseBlock) {
    let family = spec
        .family
        .value()
        .map_or("blade", |f| f.as_str())
        .to_owned();
    let feed = lowering.node("in");
    let volts = given(&spec.voltage, None);
    for (way, rating) in ways(&spec.fuses) {
        let to = lowering.node(&way.to_string());
        let ratings = Ratings {
            volts: volts.clone(),
            interrupt: None,
        };
        let path = way_path(lowering, way);
        device(
            lowering,
            (feed, to),
            way,
            &family,
            rating,
            ratings,
            Reclose::Fuse,
            path,
        );
    }
}

pub(super) fn switch(lowering: &mut Lowering<'_>, spec: &Switch) {
    let style = spec.style.value().map_or("rocker", |s| s.as_str());
    let resistance = contact_resistance(lowering, &spec.resistance, style);
    let closed = spec.closed.value().copied().unwrap_or(true);
    let nodes = (lowering.node("in"), lowering.node("out"));
    contact(lowering, nodes, 0, resistance, closed);
}

pub(super) fn bank(lowering: &mut Lowering<'_>, spec: &SwitchBank) {
    let count = spec.ways.value().copied().unwrap_or(0) as usize;
    let open = spec.open.value().cloned().unwrap_or_default();
    let fuses: Vec<_> = ways(&spec.fuses);
    for way in 1..=count {
        let resistance = contact_resistance(lowering, &None, "rocker");
        let closed = !open.iter().any(|number| *number as usize == way);
        let (from, to) = (
            lowering.node(&format!("in{way}")),
            lowering.node(&format!("out{way}")),
        );
        let Some((_, rating)) = fuses.iter().find(|(number, _)| *number == way) else {
            contact(lowering, (from, to), way, resistance, closed);
            continue;
        };
        let middle = lowering.node(&format!("fuse{way}"));
        contact(lowering, (from, middle), way, resistance, closed);
        let ratings = Ratings {
            volts: None,
            interrupt: None,
        };
        let path = way_path(lowering, way);
        device(
            lowering,
            (middle, to),
            way,
            "blade",
            rating.clone(),
            ratings,
            Reclose::Fuse,
            path,
        );
    }
}

pub(super) fn shunt(lowering: &mut Lowering<'_>, spec: &Shunt) {
    let usual = defaults::shunt_resistance();
    let id = lowering.id.as_str();
    let resistance = given(&spec.resistance, None).unwrap_or_else(|| {
        lowering
            .notes
            .assume(&["item", id, "resistance"], usual, Assumption::UsualForKind)
    });
    lowering.fixed("in", "out", defaults::at_least_contact(resistance.value));
}

struct Ratings {
    volts: Option<Known<Voltage>>,
    interrupt: Option<Known<Current>>,
}

#[allow(clippy::too_many_arguments)]
fn device(
    lowering: &mut Lowering<'_>,
    nodes: (usize, usize),
    way: usize,
    family: &str,
    rating: Known<Current>,
    given: Ratings,
    reclose: Reclose,
    rating_path: Vec<String>,
) {
    let label = match way {
        0 => lowering.label(),
        way => format!("{} way {way}", lowering.label()),
    };
    let usual = defaults::family(family, rating.value, lowering.volts);
    let index = lowering.gear.devices.len();
    lowering.gear.devices.push(Device {
        item: lowering.id.clone(),
        way,
        label,
        family: family.to_owned(),
        volts_rating: given.volts.or(usual.volts),
        interrupt: given.interrupt.or(usual.interrupt),
        resistance: usual.resistance,
        curve: usual.curve,
        rating,
        reclose,
        nodes,
        rating_path,
    });
    lowering.branch(nodes.0, nodes.1, Part::Device(index));
}

fn contact(
    lowering: &mut Lowering<'_>,
    nodes: (usize, usize),
    way: usize,
    resistance: Known<Resistance>,
    closed: bool,
) {
    let index = lowering.gear.contacts.len();
    lowering.gear.contacts.push(Contact {
        item: lowering.id.clone(),
        way,
        resistance,
        closed,
    });
    lowering.branch(nodes.0, nodes.1, Part::Contact(index));
}

fn contact_resistance(
    lowering: &Lowering<'_>,
    field: &Field<Resistance>,
    style: &str,
) -> Known<Resistance> {
    let _ = lowering;
    given(field, None)
        .map(|known| Known::new(defaults::at_least_contact(known.value), known.basis))
        .unwrap_or_else(|| defaults::contact(style))
}

fn ways(fuses: &Field<Vec<Option<Current>>>) -> Vec<(usize, Known<Current>)> {
    let Some(given) = fuses else {
        return Vec::new();
    };
    let basis = crate::known::Basis::Typed(given.at.clone());
    let filled = given.value.iter().enumerate();
    filled
        .filter_map(|(index, rating)| Some((index + 1, Known::new((*rating)?, basis.clone()))))
        .collect()
}

fn way_path(lowering: &Lowering<'_>, way: usize) -> Vec<String> {
    let place = (way - 1).to_string();
    ["item", lowering.id.as_str(), "fuses", &place]
        .map(str::to_owned)
        .to_vec()
}

fn lack_rating(lowering: &mut Lowering<'_>, field: &str) {
    let id = lowering.id.as_str();
    lowering.notes.lack(&["item", id, field], Wanted::Rating);
}
