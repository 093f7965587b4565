//! What the assessment of a draft says about its sections: currents, largest
//! faults, and the drop along the way to each load. Not here: choosing sizes.

use super::choose::Choice;
use super::draft::Draft;
use crate::view::{Graph, limits};
use crate::wiring::shared_way::without_inverters;
use crate::wiring::voltage_drop::{supply_wires, worst_drop};
use std::collections::BTreeMap;
use wainwright_analysis::result::{Assessment, Role};

/// One section as it was computed.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
pub(super) struct Seen {
    /// Largest lasting current of its wires \[A\].
    pub(super) amps: f64,
    /// Largest lasting current through its fuse \[A\].
    pub(super) through: f64,
    /// Largest current through its fuse that goes on for hours \[A\].
    pub(super) hours: f64,
    /// Largest short-circuit current through its fuse \[A\].
    pub(super) fault: f64,
}

/// A wire on the way to a load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct OnPath {
    pub(super) section: usize,
    /// Place among the wires of its section.
    pub(super) place: usize,
    /// Current \[A\].
    pub(super) amps: f64,
}

/// The way to a load and back, with the drop it may have: what an inverter at
/// full power costs the load on a shared way is left out, as no wire of the
/// load's own mends that.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct DropPath {
    pub(super) wires: Vec<OnPath>,
    /// Lost in everything but these wires \[V\].
    pub(super) fixed: f64,
    /// Most that may be lost in all \[V\].
    pub(super) most: f64,
}

/// A draft as it was computed.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Measured {
    pub(super) sections: Vec<Seen>,
    pub(super) paths: Vec<DropPath>,
}

impl DropPath {
    /// Lost in the wires of one section with this choice \[V\].
    pub(super) fn in_section(&self, section: usize, choice: &Choice) -> f64 {
        let wires = self.wires.iter().filter(|wire| wire.section == section);
        wires
            .map(|wire| wire.amps * choice.ohms.get(wire.place).copied().unwrap_or(0.0))
            .sum()
    }
}

/// Reads an assessed draft.
/// `rooms` are the shares of the limit that loads are planned to, where a
/// check asked for less than the usual share.
pub(super) fn measure(
    draft: &Draft,
    assessment: &Assessment,
    graph: &Graph,
    rooms: &BTreeMap<String, f64>,
) -> Measured {
    let index: BTreeMap<&str, usize> = assessment
        .wires
        .iter()
        .enumerate()
        .map(|(index, wire)| (wire.id.as_str(), index))
        .collect();
    let mut owner: BTreeMap<usize, (usize, usize)> = BTreeMap::new();
    let mut sections = vec![Seen::default(); draft.sections.len()];
    for (number, (section, seen)) in draft.sections.iter().zip(&mut sections).enumerate() {
        for (place, wire) in section.wires.iter().enumerate() {
            let id = draft.wires.get(*wire).map_or("", |wire| wire.id.as_str());
            let Some(found) = index.get(id) else { continue };
            owner.insert(*found, (number, place));
            if let Some(wire) = assessment.wires.get(*found) {
                let most = limits::most_amps(assessment, wire).map_or(0.0, |(_, a)| a.amperes());
                seen.amps = seen.amps.max(most);
            }
        }
        if let Some(device) = draft.device(number)
            && let Some(device) = assessment.device(&device.item, device.way)
        {
            let lasting = limits::lasting(assessment).filter_map(|state| device.states.get(state));
            seen.through = lasting.map(|s| s.amps.amperes()).fold(0.0, f64::max);
            seen.hours = device
                .continuous_amps
                .map_or(0.0, |(amps, _)| amps.amperes());
            seen.fault = device.largest_fault.map_or(0.0, |fault| fault.amperes());
        }
    }
    Measured {
        sections,
        paths: paths(assessment, graph, &owner, rooms),
    }
}

fn paths(
    assessment: &Assessment,
    graph: &Graph,
    owner: &BTreeMap<usize, (usize, usize)>,
    rooms: &BTreeMap<String, f64>,
) -> Vec<DropPath> {
    let takes = |role: Role| matches!(role, Role::Load | Role::Inverter);
    let gear = assessment
        .consumers
        .iter()
        .filter(|c| takes(c.role) && c.fed_by.is_some());
    let inverters: Vec<Inverter> = assessment
        .consumers
        .iter()
        .filter(|c| c.role == Role::Inverter)
        .map(|c| Inverter {
            item: c.item.as_str(),
            way: supply_wires(assessment, graph, c.item.as_str()),
            amps: c
                .states
                .iter()
                .map(|s| if s.on { s.amps.abs().amperes() } else { 0.0 })
                .collect(),
        })
        .collect();
    let found = gear.filter_map(|gear| {
        let (state, here, share) = worst_drop(assessment, gear)?;
        let drop = here.drop?.volts();
        let limit = match gear.critical {
            true => &assessment.limits.drop_critical,
            false => &assessment.limits.drop_other,
        };
        let nominal = drop / share.fraction().max(1e-12);
        let alone = match gear.role {
            Role::Load => without_inverters(assessment, graph, gear, state),
            _ => None,
        };
        let mut fixed = alone.map_or(drop, |alone| alone.drop.volts());
        let mut wires = Vec::new();
        for wire in supply_wires(assessment, graph, gear.item.as_str()) {
            let (Some((section, place)), Some(found)) =
                (owner.get(&wire), assessment.wires.get(wire))
            else {
                continue;
            };
            let Some(solved) = found.states.get(state) else {
                continue;
            };
            let others = inverters
                .iter()
                .filter(|other| alone.is_some() && other.shares(gear.item.as_str(), wire));
            let theirs: f64 = others.filter_map(|other| other.amps.get(state)).sum();
            let amps = (solved.amps.abs().amperes() - theirs).max(0.0);
            let metal = (solved.resistance.ohms() - found.joints.ohms()).max(0.0);
            fixed -= amps * metal;
            wires.push(OnPath {
                section: *section,
                place: *place,
                amps,
            });
        }
        let room = rooms.get(gear.item.as_str()).copied().unwrap_or(ROOM);
        let most = nominal * limit.value.fraction() * room;
        Some(DropPath { wires, fixed, most })
    });
    found.collect()
}

/// An inverter, the wires it is fed by, and what it takes in each state [A].
struct Inverter<'a> {
    item: &'a str,
    way: Vec<usize>,
    amps: Vec<f64>,
}

impl Inverter<'_> {
    /// Whether this wire feeds it as well as other gear.
    fn shares(&self, gear: &str, wire: usize) -> bool {
        self.item != gear && self.way.contains(&wire)
    }
}

/// Drops are planned to this share of their limit: currents of constant power
/// grow a little as wires are made thinner.
pub(super) const ROOM: f64 = 0.97;
