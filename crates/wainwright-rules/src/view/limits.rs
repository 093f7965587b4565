//! What the rules hold values against, as amounts with their source: ampacity,
//! insulation limits, the profile's limits. Not here: the limits of one rule
//! only, they stand in its file.

use super::words;
use crate::finding::Amount;
use wainwright_analysis::known::{Basis, Known};
use wainwright_analysis::result::{Assessment, DeviceResult, Guard, WireInState, WireResult};
use wainwright_model::{Kind, Project, Region};
use wainwright_reference::Mark;
use wainwright_reference::limit::{RatioLimit, ratio_limit};
use wainwright_units::{Current, Length, Ratio, System, Temperature};

/// Numbers this close are equal: the shares are ratios of typed figures, and
/// 24 A on a 30 A fuse is 80 %, not above it.
pub(crate) const EQUAL: f64 = 1e-9;

/// Whether `value` is above `limit` by more than rounding.
pub(crate) fn above(value: f64, limit: f64) -> bool {
    value > limit + EQUAL * limit.abs().max(1.0)
}

/// The units people want to read.
pub(crate) fn system(project: &Project) -> System {
    project
        .head
        .units
        .as_ref()
        .map_or(System::Metric, |units| units.value.into())
}

/// The rule profile of the project; the United States where nothing is said.
pub(crate) fn region(project: &Project) -> Region {
    project
        .head
        .region
        .as_ref()
        .map_or(Region::Us, |region| region.value)
}

/// The kind of a piece of gear.
pub(crate) fn kind(project: &Project, item: &str) -> Kind {
    project
        .items
        .get(item)
        .map_or(Kind::Unknown, |item| item.spec.kind())
}

/// What a conductor bears for ever where it runs, with the source that
/// decides: the published table, or the heat balance.
pub(crate) fn ampacity(wire: &WireResult) -> Amount {
    let current = wire.ampacity.in_force;
    let text = words::amps(current);
    match table_in_force(wire) {
        Some(table) => Amount::based("I_z", current.amperes(), text, &Basis::Table(table)),
        None => Amount::computed("I_z", current.amperes(), text),
    }
}

/// The published table whose value is in force, when it is below the
/// computed one.
pub(crate) fn table_in_force(wire: &WireResult) -> Option<&'static wainwright_reference::Source> {
    let table = wire.ampacity.table.as_ref()?;
    (table.current.amperes() <= wire.ampacity.in_force.amperes() + EQUAL).then_some(table.source)
}

/// Whether the ampacity in force rests on a row written from memory.
pub(crate) fn ampacity_from_memory(wire: &WireResult) -> bool {
    table_in_force(wire).is_some_and(|source| source.mark == Mark::Memory)
}

/// The continuous limit of the insulation.
pub(crate) fn insulation(wire: &WireResult, system: System) -> Amount {
    let text = words::class(wire.limit, system);
    let class = wainwright_reference::insulation::insulation(&wire.insulation.value);
    let basis = class.map_or_else(
        || wire.insulation.basis.clone(),
        |class| Basis::Table(class.continuous_limit.source),
    );
    Amount::based("θ_max", wire.limit.celsius(), text, &basis)
}

/// A profile limit that is a share.
pub(crate) fn share(symbol: &'static str, limit: &Known<Ratio>) -> Amount {
    Amount::based(
        symbol,
        limit.value.fraction(),
        words::percent(limit.value),
        &limit.basis,
    )
}

/// A profile limit that is a length.
pub(crate) fn length(limit: &Known<Length>, system: System) -> Amount {
    Amount::based(
        "l",
        limit.value.metres(),
        words::length(limit.value, system),
        &limit.basis,
    )
}

/// The worst lasting state of a wire, with its index.
pub(crate) fn worst(wire: &WireResult) -> Option<(usize, WireInState)> {
    let index = wire.worst?;
    wire.states.get(index).map(|state| (index, *state))
}

/// The largest current of a wire over lasting states, with the state.
pub(crate) fn most_amps(assessment: &Assessment, wire: &WireResult) -> Option<(usize, Current)> {
    lasting(assessment)
        .filter_map(|index| wire.states.get(index).map(|s| (index, s.amps.abs())))
        .max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)))
}

/// Indices of the states that last.
pub(crate) fn lasting(assessment: &Assessment) -> impl Iterator<Item = usize> + '_ {
    assessment
        .states
        .iter()
        .enumerate()
        .filter(|(_, s)| s.lasting)
        .map(|(index, _)| index)
}

/// The device of a guard.
pub(crate) fn guard_device<'a>(
    assessment: &'a Assessment,
    guard: &Guard,
) -> Option<&'a DeviceResult> {
    assessment.devices.get(guard.device?)
}

/// Whether the source of this guard cannot push more than the wire bears.
pub(crate) fn source_is_harmless(wire: &WireResult, guard: &Guard) -> bool {
    guard
        .self_limited
        .is_some_and(|most| !above(most.amperes(), wire.ampacity.in_force.amperes()))
}

/// A temperature as an amount \[°C\], shown in the units of the project; no
/// larger than where copper melts.
pub(crate) fn heat(symbol: &'static str, value: Temperature, system: System) -> Amount {
    let shown = value.celsius().min(words::COPPER_MELTS);
    let text = words::air(Temperature::from_celsius(shown), system);
    Amount::computed(symbol, shown, text)
}

/// A current as an amount.
pub(crate) fn current(symbol: &'static str, value: Current) -> Amount {
    Amount::computed(symbol, value.abs().amperes(), words::amps(value))
}

/// Largest rating of a protective device over the ampacity of its conductor:
/// IEC 60364-4-43 433.1 with opening for certain at 1.35 × rating. Without
/// the table's row the rating must not exceed the ampacity.
pub(crate) fn rating_share() -> f64 {
    ratio_limit(RatioLimit::FuseToAmpacityIec).map_or(1.0, |row| row.value.fraction())
}

/// Largest permitted rating over the published table value below 50 V.
pub(crate) fn table_share() -> f64 {
    ratio_limit(RatioLimit::FuseToAmpacityMost).map_or(1.0, |row| row.value.fraction())
}

/// The largest rating a conductor allows, as an amount.
pub(crate) fn largest_rating(wire: &WireResult) -> Amount {
    let bears = ampacity(wire);
    let value = bears.value * rating_share();
    let text = format!("{:.1} A ({} × {})", value, rating_share(), bears.text);
    Amount {
        symbol: "I_n",
        value,
        text,
        ..bears
    }
}

/// Conductors that a device protects from a source which could harm them
/// (indices): those it is the smallest device for.
pub(crate) fn protects(assessment: &Assessment, device: &DeviceResult) -> Vec<usize> {
    let same = |found: &DeviceResult| found.item == device.item && found.way == device.way;
    let wires = assessment.wires.iter().enumerate();
    wires
        .filter(|(_, wire)| {
            wire.guards.iter().any(|guard| {
                guard_device(assessment, guard).is_some_and(same)
                    && !source_is_harmless(wire, guard)
            })
        })
        .map(|(index, _)| index)
        .collect()
}

/// Whether a wire is a short tap: no longer than the profile lets a source's
/// first wire be, it leads to nothing but a device that fits it. The rules
/// that let a fuse sit a little way from its source let it sit that far from
/// a thicker circuit too.
pub(crate) fn is_tap(assessment: &Assessment, wire: &WireResult) -> bool {
    let longest = match wire.sheathed {
        true => &assessment.limits.unfused_sheathed,
        false => &assessment.limits.unfused,
    };
    if above(wire.length.value.metres(), longest.value.metres()) {
        return false;
    }
    let bears = wire.ampacity.in_force.amperes() * rating_share();
    [wire.from_node, wire.to_node].into_iter().any(|node| {
        let at = |device: &&DeviceResult| device.nodes.0 == node || device.nodes.1 == node;
        let mut devices = assessment.devices.iter().filter(at);
        let fits = |device: &DeviceResult| !above(device.rating.value.amperes(), bears);
        let wires = assessment
            .wires
            .iter()
            .filter(|w| w.from_node == node || w.to_node == node);
        devices.next().is_some_and(fits) && devices.next().is_none() && wires.count() == 1
    })
}
