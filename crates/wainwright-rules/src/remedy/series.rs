//! What can be bought: wire sizes, fuse ratings and families in rising
//! order, and what things cost in the reference's cost units. Not here: edits.

use wainwright_reference::cost::{self, Work};
use wainwright_reference::protection::{self, Family};
use wainwright_reference::{Sourced, conductor};
use wainwright_units::{CrossSection, Current, Voltage, WireSize};

/// Cost units assumed for what the tables do not list; never below a fuse.
const UNLISTED: f64 = 10.0;

/// Sizes above this one, in rising order, of the same kind (AWG, SAE,
/// metric); odd gauges below 4 AWG are hardly sold and left out.
pub(crate) fn larger(size: WireSize) -> Vec<WireSize> {
    let least = area(size).square_millimetres() * 1.001;
    let mut sizes: Vec<WireSize> = alike(size)
        .into_iter()
        .filter(|listed| area(*listed).square_millimetres() > least)
        .filter(|listed| cost::wire_cost(*listed).is_some())
        .collect();
    sizes.sort_by(|a, b| area(*a).total_cmp(&area(*b)));
    sizes
}

/// Nominal metal of a size. SAE sizes are compared by the AWG number they
/// carry, which orders them rightly among themselves.
pub(crate) fn area(size: WireSize) -> CrossSection {
    match size {
        WireSize::Awg(gauge) | WireSize::Sae(gauge) => gauge.area(),
        WireSize::Metric(area) => area,
    }
}

/// Standard ratings of a family, smallest first.
pub(crate) fn ratings(family: &str) -> Vec<Current> {
    Family::from_id(family)
        .map(protection::ratings)
        .unwrap_or_default()
        .into_iter()
        .map(|rating| rating.value)
        .collect()
}

/// Families of fuses that can open this much at this voltage, cheapest
/// first, each with its smallest rating not below `least`.
pub(crate) fn families_for(
    fault: Current,
    volts: Voltage,
    least: Current,
) -> Vec<(&'static str, Current)> {
    let mut found: Vec<(f64, &'static str, Current)> = Family::ALL
        .iter()
        .filter(|family| **family != Family::Breaker)
        .filter(|family| {
            protection::interrupt_at(**family, volts).is_some_and(|most| most.value >= fault)
        })
        .filter_map(|family| {
            let rating = protection::rating_at_least(*family, least)?;
            Some((device(family.id()), family.id(), rating.value))
        })
        .collect();
    found.sort_by(|a, b| a.0.total_cmp(&b.0));
    found
        .into_iter()
        .map(|(_, family, rating)| (family, rating))
        .collect()
}

/// What a family is called in the trade; its id where no table names it.
pub(crate) fn name(family: &'static str) -> &'static str {
    Family::from_id(family)
        .and_then(protection::name)
        .map_or(family, |name| name.value)
}

/// Cost of one metre of wire.
pub(crate) fn wire_per_metre(size: WireSize) -> f64 {
    units(cost::wire_cost(size))
}

/// Cost of one joint on a wire of this size.
pub(crate) fn joint(size: WireSize) -> f64 {
    units(cost::lug_cost(size))
}

/// Cost of the fuse alone.
pub(crate) fn fuse(family: &str) -> f64 {
    family_cost(family).map_or(UNLISTED, |cost| cost.fuse)
}

/// Cost of a fuse with its holder.
pub(crate) fn device(family: &str) -> f64 {
    family_cost(family).map_or(UNLISTED, |cost| cost.fuse + cost.holder)
}

/// Work of swapping a fuse.
pub(crate) fn swap_fuse() -> f64 {
    units(cost::work_cost(Work::SwapFuse))
}

/// Work of pulling a wire, per metre.
pub(crate) fn work_per_metre() -> f64 {
    units(cost::work_cost(Work::SwapWirePerMetre))
}

/// Work of mounting a device.
pub(crate) fn add_device() -> f64 {
    units(cost::work_cost(Work::AddDevice))
}

/// Work of moving a device.
pub(crate) fn move_device() -> f64 {
    units(cost::work_cost(Work::MoveDevice))
}

fn alike(size: WireSize) -> Vec<WireSize> {
    match size {
        WireSize::Awg(_) => conductor::awg_sizes()
            .into_iter()
            .map(WireSize::Awg)
            .collect(),
        WireSize::Sae(_) => conductor::sae_sizes()
            .into_iter()
            .map(WireSize::Sae)
            .collect(),
        WireSize::Metric(_) => conductor::metric_sizes()
            .into_iter()
            .map(WireSize::Metric)
            .collect(),
    }
}

fn family_cost(family: &str) -> Option<cost::ProtectionCost> {
    Family::from_id(family)
        .and_then(cost::protection_cost)
        .map(|cost| cost.value)
}

fn units(cost: Option<Sourced<f64>>) -> f64 {
    cost.map_or(UNLISTED, |cost| cost.value)
}
