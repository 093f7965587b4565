//! Published ampacity tables, the overcurrent tables that go with them, and their correction factors.
//!
//! All tables are for 30 °C unless a function says otherwise. Not here: wire temperature (engines) and which table applies
//! to a wire (analysis). There is no published table for SAE sizes: they hold about a tenth less copper than the AWG size of
//! the same number, so using its row would be unsafe.

use wainwright_units::{Awg, CrossSection, Current, Length, Ratio, Temperature, WireSize};

use crate::conductor::{awg_row, metric_row};
use crate::mark::Sourced;
use crate::store::{Topic, rows};
use crate::table::Row;

/// Temperature columns of a table [°C] with the names they have in the data file, coolest first.
type Columns = &'static [(f64, &'static str)];

const BOAT: Columns = &[
    (60.0, "a60"),
    (75.0, "a75"),
    (80.0, "a80"),
    (90.0, "a90"),
    (105.0, "a105"),
    (125.0, "a125"),
    (200.0, "a200"),
];
const BUILDING: Columns = &[(60.0, "a60"), (75.0, "a75"), (90.0, "a90")];
const METRIC: Columns = &[
    (60.0, "a60"),
    (70.0, "a70"),
    (85.0, "a85"),
    (105.0, "a105"),
    (125.0, "a125"),
    (200.0, "a200"),
];

/// The edition of the rules for cable inside thermal insulation.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WiringRules {
    /// IEE Wiring Regulations, 16th edition.
    Sixteenth,
    /// BS 7671, later editions.
    Later,
}

/// Ampacity of a single conductor in free air by the table that goes with its size: 33 CFR 183.425 Table 5 for AWG,
/// ISO 10133 Annex A for metric. None for SAE.
pub fn published_ampacity(size: WireSize, limit: Temperature) -> Option<Sourced<Current>> {
    match size {
        WireSize::Awg(gauge) => boat_ampacity(gauge, limit),
        WireSize::Metric(area) => metric_ampacity(area, limit),
        WireSize::Sae(_) => None,
    }
}

/// 33 CFR 183.425 Table 5: single insulated stranded copper, outside engine spaces.
///
/// The column used is the hottest one not above `limit` (60 to 200 °C); none below 60 °C.
pub fn boat_ampacity(gauge: Awg, limit: Temperature) -> Option<Sourced<Current>> {
    amps(awg_row(Topic::AmpacityBoat, gauge)?, BOAT, limit)
}

/// NEC Table 310.16: not more than three conductors in a raceway or cable; column as in [`boat_ampacity`].
pub fn raceway_ampacity(gauge: Awg, limit: Temperature) -> Option<Sourced<Current>> {
    amps(awg_row(Topic::AmpacityRaceway, gauge)?, BUILDING, limit)
}

/// NEC Table 310.17 (from memory): single conductors in free air; column as in [`boat_ampacity`].
pub fn free_air_ampacity(gauge: Awg, limit: Temperature) -> Option<Sourced<Current>> {
    amps(awg_row(Topic::AmpacityFreeAir, gauge)?, BUILDING, limit)
}

/// ISO 10133 Annex A (from memory): single conductor; listed sizes only; column as in [`boat_ampacity`].
pub fn metric_ampacity(area: CrossSection, limit: Temperature) -> Option<Sourced<Current>> {
    amps(metric_row(Topic::AmpacityMetric, area)?, METRIC, limit)
}

/// NEC 240.4(D): largest overcurrent protection of 14, 12 and 10 AWG building wire.
pub fn raceway_overcurrent(gauge: Awg) -> Option<Sourced<Current>> {
    one_column(Topic::AmpacityRacewayOvercurrent, gauge)
}

/// NEC Table 552.10(E)(1) (from memory): largest overcurrent protection of low-voltage circuits, 18 to 10 AWG.
pub fn rv_overcurrent(gauge: Awg) -> Option<Sourced<Current>> {
    one_column(Topic::AmpacityRvOvercurrent, gauge)
}

/// Largest current of cross-linked wire in a truck body builder guide; a cross-check of the 105 °C column of Table 5.
pub fn cross_link_guide(gauge: Awg) -> Option<Sourced<Current>> {
    one_column(Topic::AmpacityCrossLinkGuide, gauge)
}

/// Current of one wire among 33 in a bundle at 70 °C and 60,000 ft; a lower bound for any bundle model.
pub fn aircraft_bundle(gauge: Awg) -> Option<Sourced<Current>> {
    one_column(Topic::AmpacityAircraftBundle, gauge)
}

/// Bundling factor of 33 CFR 183.425 for a number of current-carrying conductors; none for zero.
pub fn bundle_factor(conductors: usize) -> Option<Sourced<Ratio>> {
    band(Topic::AmpacityBundle, conductors)
}

/// NEC count adjustment for current-carrying conductors in one raceway or cable; none for zero.
pub fn raceway_count_factor(conductors: usize) -> Option<Sourced<Ratio>> {
    band(Topic::AmpacityRacewayCount, conductors)
}

/// Factor for a 50 °C space by insulation limit (33 CFR 183.425 Table 5 note 1); exact columns only.
pub fn hot_space_factor(limit: Temperature) -> Option<Sourced<Ratio>> {
    rows(Topic::AmpacityHotSpace)
        .find(|row| row.number("limit_c") == Some(limit.celsius()))?
        .quantity("factor", Ratio::from_fraction)
}

/// NEC factor for an ambient above 30 °C, 75 °C conductor; from 30 up to 60 °C.
pub fn ambient_factor_75(ambient: Temperature) -> Option<Sourced<Ratio>> {
    let celsius = ambient.celsius();
    if celsius <= 30.0 {
        return None;
    }
    rows(Topic::AmpacityAmbient75)
        .find(|row| row.number("to_c").is_some_and(|to| celsius <= to))?
        .quantity("factor", Ratio::from_fraction)
}

/// Factor for a cable totally surrounded by thermal insulation over `length` (50 mm and longer; the longest row holds for
/// anything longer). Between two rows the factor of the longer one is returned.
pub fn surround_factor(rules: WiringRules, length: Length) -> Option<Sourced<Ratio>> {
    let key = match rules {
        WiringRules::Sixteenth => "16th",
        WiringRules::Later => "later",
    };
    let millimetres = length.millimetres();
    if millimetres < 50.0 {
        return None;
    }
    let of_rules: Vec<Row> = rows(Topic::AmpacityThermalInsulation)
        .filter(|row| row.text("edition_key") == Some(key))
        .collect();
    of_rules
        .iter()
        .find(|row| row.number("length_mm").is_some_and(|to| millimetres <= to))
        .or_else(|| of_rules.last())?
        .quantity("factor", Ratio::from_fraction)
}

fn amps(row: Row, columns: Columns, limit: Temperature) -> Option<Sourced<Current>> {
    let allowed = |column: &&(f64, &str)| column.0 <= limit.celsius();
    let (_, name) = columns.iter().rev().find(allowed)?;
    row.quantity(name, Current::from_amperes)
}

fn one_column(topic: Topic, gauge: Awg) -> Option<Sourced<Current>> {
    awg_row(topic, gauge)?.quantity("amps", Current::from_amperes)
}

fn band(topic: Topic, count: usize) -> Option<Sourced<Ratio>> {
    let count = count as f64;
    rows(topic)
        .filter(|row| row.number("from").is_some_and(|from| from <= count))
        .last()?
        .quantity("factor", Ratio::from_fraction)
}
