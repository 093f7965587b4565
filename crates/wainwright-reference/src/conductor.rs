//! Copper conductors: area, overall diameter, published resistance, constants.
//!
//! Not here: resistance at other temperatures and the short-circuit equation (engines), and how much current a size may
//! carry (`ampacity`).

use wainwright_units::{Awg, CrossSection, Length, LineResistance, Temperature, WireSize};

use crate::mark::Sourced;
use crate::store::{Topic, find, rows};
use crate::table::Row;

/// A resistance as it was published, at the temperature it was published for.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PublishedResistance {
    /// Resistance per length of one conductor.
    pub line: LineResistance,
    /// Conductor temperature it holds for.
    pub at: Temperature,
}

/// One published case of the adiabatic short-circuit constant k of copper.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AdiabaticCase {
    /// Insulation and condition, as published.
    pub name: &'static str,
    /// Conductor temperature before the fault.
    pub start: Temperature,
    /// Highest conductor temperature at the end of the fault.
    pub end: Temperature,
    /// k [A·s^0.5/mm²].
    pub k: f64,
}

/// Metal area of a nominal size.
///
/// AWG: the table area; SAE: the *minimum* area, about a tenth less than AWG; metric: the nominal area (a size that
/// IEC 60228 does not list comes back at its typed area, marked as a judgement). None: SAE sizes without a row.
pub fn conductor_area(size: WireSize) -> Option<Sourced<CrossSection>> {
    let square = CrossSection::from_square_millimetres;
    match size {
        WireSize::Awg(gauge) => awg_row(Topic::ConductorAwgUncoated, gauge)
            .or_else(|| awg_row(Topic::ConductorAwgDefinition, gauge))?
            .quantity("area_mm2", square),
        WireSize::Sae(gauge) => {
            awg_row(Topic::ConductorSae, gauge)?.quantity("cmil", CrossSection::from_circular_mils)
        }
        WireSize::Metric(area) => metric_row(Topic::ConductorClass5, area)
            .or_else(|| find(Topic::ConductorConstants, "id", "metric-nominal"))
            .map(|row| row.sourced(area)),
    }
}

/// Overall diameter of the stranded conductor without insulation.
///
/// None: SAE sizes without an area, and metric sizes that IEC 60228 does not list.
pub fn conductor_diameter(size: WireSize) -> Option<Sourced<Length>> {
    match size {
        WireSize::Awg(gauge) => match awg_row(Topic::ConductorAwgUncoated, gauge) {
            Some(row) => row.quantity("diameter_in", Length::from_inches),
            None => awg_row(Topic::ConductorAwgDefinition, gauge)?
                .quantity("diameter_mm", Length::from_millimetres),
        },
        WireSize::Sae(gauge) => awg_row(Topic::ConductorSaeDiameter, gauge)?
            .quantity("diameter_mm", Length::from_millimetres),
        WireSize::Metric(area) => metric_row(Topic::ConductorClass5Diameter, area)?
            .quantity("diameter_mm", Length::from_millimetres),
    }
}

/// Resistance as published for a stranded conductor.
///
/// AWG: NEC Chapter 9 Table 8 at 75 °C; metric: IEC 60228 class 5 at 20 °C (a *largest* value); plain SAE: derived from
/// the minimum area at 20 °C. None: tinned SAE, and sizes outside the tables.
pub fn published_resistance(size: WireSize, tinned: bool) -> Option<Sourced<PublishedResistance>> {
    match (size, tinned) {
        (WireSize::Awg(gauge), false) => table_8(Topic::ConductorAwgUncoated, gauge),
        (WireSize::Awg(gauge), true) => table_8(Topic::ConductorAwgCoated, gauge),
        (WireSize::Metric(area), _) => {
            let column = if tinned {
                "tinned_ohm_per_km"
            } else {
                "plain_ohm_per_km"
            };
            metric_row(Topic::ConductorClass5, area)?
                .quantity(column, |ohms| at(ohms / 1000.0, 20.0))
        }
        (WireSize::Sae(_), false) => {
            Some(resistance_at_20(size)?.map(|line| PublishedResistance {
                line,
                at: Temperature::from_celsius(20.0),
            }))
        }
        (WireSize::Sae(_), true) => None,
    }
}

/// Resistance at 20 °C derived for plain AWG and SAE sizes: resistivity over area with 2 % for the lay of the strands.
pub fn resistance_at_20(size: WireSize) -> Option<Sourced<LineResistance>> {
    find(Topic::ConductorResistance20, "size", &size.to_string())?
        .quantity("mohm_per_m", LineResistance::from_milliohms_per_metre)
}

/// Resistance of *solid* AWG wire at 75 °C (14 to 8 AWG); only to show that a table did not mix solid and stranded.
pub fn solid_resistance(gauge: Awg) -> Option<Sourced<PublishedResistance>> {
    table_8(Topic::ConductorAwgSolid, gauge)
}

/// Largest resistance at 20 °C of tinned aircraft wire; an independent check of the order of size.
pub fn aircraft_resistance(gauge: Awg) -> Option<Sourced<LineResistance>> {
    awg_row(Topic::ConductorAircraft, gauge)?
        .quantity("ohm_per_kft", LineResistance::from_ohms_per_thousand_feet)
}

/// AWG sizes of NEC Chapter 9 Table 8, thin to thick: what can be bought.
pub fn awg_sizes() -> Vec<Awg> {
    gauges(Topic::ConductorAwgUncoated)
}

/// SAE sizes with a minimum area, thin to thick.
pub fn sae_sizes() -> Vec<Awg> {
    gauges(Topic::ConductorSae)
}

/// Nominal metric sizes of IEC 60228, thin to thick.
pub fn metric_sizes() -> Vec<CrossSection> {
    rows(Topic::ConductorClass5)
        .filter_map(|row| row.number("size_mm2"))
        .map(CrossSection::from_square_millimetres)
        .collect()
}

/// Resistivity of annealed copper at 20 °C [Ω·mm²/km].
pub fn copper_resistivity() -> Option<Sourced<f64>> {
    constant("copper-resistivity-20")
}

/// How much longer stranding makes the copper (dimensionless).
pub fn lay_factor() -> Option<Sourced<f64>> {
    constant("lay-factor")
}

/// β, the temperature below zero Celsius at which the straight line of copper resistance meets zero \[K\].
pub fn zero_resistance_temperature() -> Option<Sourced<f64>> {
    constant("zero-resistance-temperature")
}

/// K of the adiabatic short-circuit equation for copper [A·s^0.5/mm²].
pub fn adiabatic_constant() -> Option<Sourced<f64>> {
    constant("adiabatic-constant")
}

/// Volumetric heat of copper [MJ/(m³·K)].
pub fn copper_heat_capacity() -> Option<Sourced<f64>> {
    constant("copper-heat-capacity")
}

/// Volumetric heat of cable insulation [MJ/(m³·K)].
pub fn polymer_heat_capacity() -> Option<Sourced<f64>> {
    constant("polymer-heat-capacity")
}

/// Emissivity of insulation surfaces (dimensionless).
pub fn insulation_emissivity() -> Option<Sourced<f64>> {
    constant("insulation-emissivity")
}

/// Published and derived cases of the adiabatic constant k, for proofs of the equation.
pub fn adiabatic_cases() -> Vec<Sourced<AdiabaticCase>> {
    let case = |row: Row| {
        Some(row.sourced(AdiabaticCase {
            name: row.text("case")?,
            start: Temperature::from_celsius(row.number("start_c")?),
            end: Temperature::from_celsius(row.number("final_c")?),
            k: row.number("k")?,
        }))
    };
    rows(Topic::ConductorAdiabaticK).filter_map(case).collect()
}

/// The row of an AWG number in a table whose key column `size` holds bare numbers.
pub(crate) fn awg_row(topic: Topic, gauge: Awg) -> Option<Row> {
    find(topic, "size", &gauge.to_string())
}

/// The row of a nominal metric size in a table with the key column `size_mm2`.
pub(crate) fn metric_row(topic: Topic, area: CrossSection) -> Option<Row> {
    let wanted = area.square_millimetres();
    rows(topic).find(|row| {
        row.number("size_mm2")
            .is_some_and(|size| (size - wanted).abs() < 1e-6)
    })
}

fn table_8(topic: Topic, gauge: Awg) -> Option<Sourced<PublishedResistance>> {
    awg_row(topic, gauge)?.quantity("ohm_per_kft", |ohms| PublishedResistance {
        line: LineResistance::from_ohms_per_thousand_feet(ohms),
        at: Temperature::from_celsius(75.0),
    })
}

fn at(ohms_per_metre: f64, celsius: f64) -> PublishedResistance {
    PublishedResistance {
        line: LineResistance::from_ohms_per_metre(ohms_per_metre),
        at: Temperature::from_celsius(celsius),
    }
}

fn gauges(topic: Topic) -> Vec<Awg> {
    let mut gauges: Vec<Awg> = rows(topic)
        .filter_map(|row| Awg::from_digits(row.text("size")?))
        .collect();
    gauges.sort_unstable();
    gauges
}

fn constant(id: &str) -> Option<Sourced<f64>> {
    find(Topic::ConductorConstants, "id", id)?.quantity("value", |value| value)
}
