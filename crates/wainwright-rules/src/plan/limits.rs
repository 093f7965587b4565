//! Numbers a plan is drawn up by, each from a row of the reference tables or
//! a judgement that is said to be one. Not here: limits the rules hold
//! results against (`view::limits`).

use wainwright_model::Region;
use wainwright_reference::conductor::{awg_sizes, metric_sizes};
use wainwright_reference::cost::{protection_cost, wire_cost};
use wainwright_reference::limit::{RatioLimit, SizeLimit, ratio_limit, size_limit};
use wainwright_reference::protection::{Family, voltage_rating};
use wainwright_units::WireSize;

/// Terminals and gear bear conductors up to this \[°C\]: judgement.
pub(super) const TERMINALS_BEAR: f64 = 90.0;
/// A fuse carries this many times what flows through it at least: room for
/// what is measured otherwise than typed. Judgement.
pub(super) const FUSE_ROOM: f64 = 1.1;
/// A fuse passes this many times its rating for most of a second (the gates
/// of ISO 8820-3 at 1.35: not before 0.75 s), as long as a motor starts.
pub(super) const START: f64 = 1.35;
/// Gear of constant power takes this many times its rated current when the
/// battery is low and something is lost on the way: judgement.
pub(super) const LOW: f64 = 1.2;
/// A switch is chosen for this many times its current: judgement.
pub(super) const SWITCH_ROOM: f64 = 1.1;
/// Strings of solar modules that may be joined without fuses: two, as one
/// cannot push more into the other than it bears.
pub(super) const STRINGS_UNFUSED: usize = 2;
/// Most current through the inlet of a fuse block \[A\]: the class of blade
/// fuse blocks.
pub(super) const BLOCK_AMPS: f64 = 100.0;
/// Most ways of one fuse block and most studs of one bar that are sold.
pub(super) const MOST_BLOCK_WAYS: usize = 12;
/// Most studs of one bus bar: judgement.
pub(super) const MOST_STUDS: u32 = 20;
/// Most lugs on one stud: ABYC E-11.
pub(super) const LUGS: u32 = 4;

/// Share of a fuse's rating that may flow for hours.
pub(super) fn share(limit: RatioLimit, usual: f64) -> f64 {
    ratio_limit(limit).map_or(usual, |row| row.value.fraction())
}

/// Sizes that are sold in a region, thin to thick, not below its least.
pub(super) fn sizes(region: Region) -> Vec<WireSize> {
    let (all, least): (Vec<WireSize>, _) = match region {
        Region::Us => (
            awg_sizes().into_iter().map(WireSize::Awg).collect(),
            SizeLimit::SeparateUs,
        ),
        Region::Eu => (
            metric_sizes().into_iter().map(WireSize::Metric).collect(),
            SizeLimit::SeparateEu,
        ),
    };
    let least = size_limit(least).map_or(0.0, |row| area(row.value));
    let mut sizes: Vec<WireSize> = all
        .into_iter()
        .filter(|size| area(*size) >= least - 1e-9 && wire_cost(*size).is_some())
        .filter(|size| !hardly_sold(*size))
        .collect();
    sizes.sort_by(|a, b| area(*a).total_cmp(&area(*b)));
    sizes
}

/// Odd gauges are hardly sold.
fn hardly_sold(size: WireSize) -> bool {
    matches!(size, WireSize::Awg(gauge) if gauge.number() > 0 && gauge.number() % 2 == 1)
}

/// Nominal metal \[mm²\].
pub(super) fn area(size: WireSize) -> f64 {
    crate::remedy::series::area(size).square_millimetres()
}

/// Smallest bond between minus and frame \[mm²\].
pub(super) fn bond() -> f64 {
    size_limit(SizeLimit::ChassisBond).map_or(0.0, |row| area(row.value))
}

/// Families of single fuses that may be used at a voltage, cheapest first.
pub(super) fn families(volts: f64) -> Vec<Family> {
    let sold = [
        Family::Blade,
        Family::MaxiBlade,
        Family::StripSmall,
        Family::StripLarge,
        Family::Anl,
        Family::Terminal,
        Family::ClassT,
    ];
    let able = |family: &Family| {
        voltage_rating(*family).is_some_and(|most| most.value.volts() >= volts - 1e-9)
    };
    let cost = |family: &Family| {
        protection_cost(*family).map_or(f64::INFINITY, |c| c.value.fuse + c.value.holder)
    };
    let mut found: Vec<Family> = sold.into_iter().filter(able).collect();
    found.sort_by(|a, b| cost(a).total_cmp(&cost(b)));
    found
}

/// Insulation of battery cables and of branch wires.
pub(super) fn insulation(region: Region, branch: bool) -> &'static str {
    match (region, branch) {
        (_, false) => "boat-105",
        (Region::Us, true) => "gxl",
        (Region::Eu, true) => "silicone",
    }
}
