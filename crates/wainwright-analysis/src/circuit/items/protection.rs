//! Fuses, breakers, switches and what else only passes current.

use super::{Gear, Lowering};
use crate::circuit::{Branch, Contact, Device, Fixed, Notes, Part, at_least_contact, defaults};
use crate::known::{Assumption, Basis, Known};
use crate::result::{Reclose, Wanted};
use wainwright_model::{
    Breaker, Field, FieldExt, Fuse, FuseBlock, Reset, Shunt, Spec, Switch, SwitchBank,
};
use wainwright_units::{Current, Quantity, Resistance, Voltage};

/// Family of a fuse where nobody said.
const USUAL_FAMILY: &str = "blade";
/// Style of a switch where nobody said.
const USUAL_STYLE: &str = "rocker";
/// What a breaker does after it has opened, where nobody said.
const USUAL_RESET: Reset = Reset::Manual;
/// Ways of a bank where nobody said, as many as a form lists.
const USUAL_WAYS: u32 = 12;

pub(super) fn fuse(lowering: &mut Lowering<'_>, spec: &Fuse) {
    let family = family(lowering, &spec.family);
    let ratings = (&spec.voltage, &spec.interrupt);
    single(lowering, family, &spec.rating, ratings, Reclose::Fuse);
}

pub(super) fn breaker(lowering: &mut Lowering<'_>, spec: &Breaker) {
    let path = ["item", lowering.id.as_str(), "reset"];
    let stand_in = USUAL_RESET.as_str();
    lowering
        .notes
        .word_or(&spec.reset, &path, |r| r.as_str(), stand_in);
    let reclose = match spec.reset.value().copied().unwrap_or(USUAL_RESET) {
        Reset::Automatic => Reclose::Automatic,
        Reset::Held => Reclose::Held,
        Reset::Manual => Reclose::Manual,
    };
    let ratings = (&spec.voltage, &spec.interrupt);
    single(lowering, "breaker", &spec.rating, ratings, reclose);
}

pub(super) fn block(lowering: &mut Lowering<'_>, spec: &FuseBlock) {
    if spec.fuses.is_none() {
        lack_rating(lowering, "fuses");
    }
    let family = family(lowering, &spec.family);
    let feed = lowering.node("in");
    for (way, rating) in ways(lowering, &spec.fuses) {
        let out = lowering.node(&way.to_string());
        let kind = Kind {
            way,
            family,
            reclose: Reclose::Fuse,
            rating_path: way_path(lowering, way),
        };
        let volts = lowering.notes.given(&spec.voltage);
        device(lowering, (feed, out), kind, rating, (volts, None));
    }
}

pub(super) fn switch(lowering: &mut Lowering<'_>, spec: &Switch) {
    let id = lowering.id.as_str();
    let path = ["item", id, "style"];
    let known = spec.resistance.value().is_some();
    let style = match (known, spec.style.value()) {
        (true, None) => USUAL_STYLE,
        _ => lowering
            .notes
            .word_or(&spec.style, &path, |s| s.as_str(), USUAL_STYLE),
    };
    let path = ["item", id, "resistance"];
    let usual = defaults::contact(style);
    let resistance = lowering
        .notes
        .given_or_known(&spec.resistance, &path, usual);
    let closed = spec.closed.value().copied().unwrap_or(true);
    let nodes = (lowering.node("in"), lowering.node("out"));
    contact(lowering, nodes, 0, resistance, closed);
}

pub(super) fn bank(lowering: &mut Lowering<'_>, spec: &SwitchBank) {
    let count = lowering.item.spec.ways().unwrap_or_else(|| {
        let path = ["item", lowering.id.as_str(), "ways"];
        let basis = Basis::Assumed(Assumption::UsualForKind);
        lowering
            .notes
            .assume_text(&path, USUAL_WAYS.to_string(), &basis);
        USUAL_WAYS
    });
    let open = spec.open.value().cloned().unwrap_or_default();
    let fuses: Vec<_> = ways(lowering, &spec.fuses);
    for way in 1..=count {
        let resistance = defaults::contact(USUAL_STYLE);
        let closed = !open.contains(&way);
        let ends = (format!("in{way}"), format!("out{way}"));
        let (from, to) = (lowering.node(&ends.0), lowering.node(&ends.1));
        let way = way as usize;
        let Some((_, rating)) = fuses.iter().find(|(number, _)| *number == way) else {
            contact(lowering, (from, to), way, resistance, closed);
            continue;
        };
        let middle = lowering.node(&format!("fuse{way}"));
        contact(lowering, (from, middle), way, resistance, closed);
        let kind = Kind {
            way,
            family: USUAL_FAMILY,
            reclose: Reclose::Fuse,
            rating_path: way_path(lowering, way),
        };
        device(lowering, (middle, to), kind, rating.clone(), (None, None));
    }
}

pub(super) fn shunt(lowering: &mut Lowering<'_>, spec: &Shunt) {
    let path = ["item", lowering.id.as_str(), "resistance"];
    let usual = defaults::shunt_resistance();
    let whole = lowering
        .notes
        .given_or_known(&spec.resistance, &path, usual);
    let (from, to) = (lowering.node("in"), lowering.node("out"));
    let part = Part::Fixed(lowering.gear.fixed.len());
    lowering.gear.fixed.push(Fixed {
        item: lowering.id.clone(),
        branch: at_least_contact(whole.value),
        whole,
        joint: false,
    });
    lowering.gear.branches.push(Branch { from, to, part });
}

/// Fills in what a device can open at the system's voltage, which is known
/// only once every battery is.
pub(super) fn rate(gear: &mut Gear, notes: &mut Notes, volts: Option<Voltage>) {
    for device in &mut gear.devices {
        if device.interrupt.is_some() {
            continue;
        }
        device.interrupt = defaults::interrupt(&device.family, volts);
        let own = device.way == 0;
        if let (true, Some(known)) = (own, &device.interrupt) {
            let path = ["item", device.item.as_str(), "interrupt"];
            let shown = known.value.show(notes.system());
            notes.assume_alike(&path, shown, &known.basis);
        }
    }
}

/// What a device is, besides its rating.
struct Kind {
    way: usize,
    family: &'static str,
    reclose: Reclose,
    rating_path: Vec<String>,
}

/// A device in a holder of its own.
fn single(
    lowering: &mut Lowering<'_>,
    family: &'static str,
    rating: &Field<Current>,
    (volts, interrupt): (&Field<Voltage>, &Field<Current>),
    reclose: Reclose,
) {
    let Some(rating) = lowering.notes.given(rating) else {
        return lack_rating(lowering, "rating");
    };
    let given = (lowering.notes.given(volts), lowering.notes.given(interrupt));
    let nodes = (lowering.node("in"), lowering.node("out"));
    let rating_path = ["item", lowering.id.as_str(), "rating"];
    let kind = Kind {
        way: 0,
        family,
        reclose,
        rating_path: rating_path.map(str::to_owned).to_vec(),
    };
    device(lowering, nodes, kind, rating, given);
}

fn device(
    lowering: &mut Lowering<'_>,
    nodes: (usize, usize),
    kind: Kind,
    rating: Known<Current>,
    (volts, interrupt): (Option<Known<Voltage>>, Option<Known<Current>>),
) {
    let label = match kind.way {
        0 => lowering.label(),
        way => format!("{} way {way}", lowering.label()),
    };
    let usual = defaults::family(kind.family, rating.value);
    let index = lowering.gear.devices.len();
    let volts_rating = volts.or_else(|| usual_volts(lowering, usual.volts));
    lowering.gear.devices.push(Device {
        item: lowering.id.clone(),
        way: kind.way,
        label,
        family: kind.family.to_owned(),
        volts_rating,
        interrupt,
        resistance: usual.resistance,
        air: None,
        curve: usual.curve,
        rating,
        reclose: kind.reclose,
        nodes,
        rating_path: kind.rating_path,
    });
    lowering.branch(nodes.0, nodes.1, Part::Device(index));
}

/// The family's voltage rating, noted where a person could type another.
fn usual_volts(
    lowering: &mut Lowering<'_>,
    usual: Option<Known<Voltage>>,
) -> Option<Known<Voltage>> {
    let known = usual?;
    // Fuses of a bank are ordinary blades; their voltage is not asked for.
    if !matches!(lowering.item.spec, Spec::SwitchBank(_)) {
        let path = ["item", lowering.id.as_str(), "voltage"];
        let shown = known.value.show(lowering.notes.system());
        let noted =
            |a: &crate::result::AssumedValue| a.path == path || a.also.iter().any(|p| *p == path);
        if !lowering.notes.assumed.iter().any(noted) {
            lowering.notes.assume_alike(&path, shown, &known.basis);
        }
    }
    Some(known)
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
        resistance: Known::new(at_least_contact(resistance.value), resistance.basis),
        closed,
    });
    lowering.branch(nodes.0, nodes.1, Part::Contact(index));
}

fn family(
    lowering: &mut Lowering<'_>,
    field: &Field<wainwright_model::FuseFamily>,
) -> &'static str {
    let path = ["item", lowering.id.as_str(), "family"];
    lowering
        .notes
        .word_or(field, &path, |f| f.as_str(), USUAL_FAMILY)
}

/// Ways that have a fuse, from 1, with its rating.
fn ways(
    lowering: &Lowering<'_>,
    fuses: &Field<Vec<Option<Current>>>,
) -> Vec<(usize, Known<Current>)> {
    let Some(given) = fuses else {
        return Vec::new();
    };
    let basis = lowering.notes.basis(given);
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
