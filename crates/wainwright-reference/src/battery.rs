//! Batteries by chemistry: cells, open-circuit voltage, resistance, rates, thresholds, charge voltages.
//!
//! All voltages are per cell. Not here: the battery as a circuit element (engines) and settings of a design (analysis).

use wainwright_units::{Charge, Current, Duration, Ratio, Resistance, Temperature, Voltage};

use crate::id::ids;
use crate::mark::{Mark, Sourced};
use crate::store::{Topic, find, rows};
use crate::table::Row;

ids! {
    /// What the cells are made of.
    Chemistry {
        /// Lithium iron phosphate.
        Lfp = "lfp",
        /// Lead-acid with absorbed electrolyte.
        Agm = "agm",
        /// Lead-acid with liquid electrolyte.
        Flooded = "flooded",
        /// Lead-acid with gelled electrolyte.
        Gel = "gel",
    }
}

ids! {
    /// A named state of charge.
    ChargeState {
        /// Rested after a full charge.
        Full = "full",
        /// Half full.
        Resting = "resting",
        /// Nearly empty.
        Low = "low",
    }
}

ids! {
    /// Which end of the spread of a resistance.
    Spread {
        /// New and warm: for the largest fault current.
        Low = "low",
        /// Usual.
        Typical = "typical",
        /// Cold: for the smallest fault current.
        High = "high",
    }
}

ids! {
    /// Which way the current flows.
    Flow {
        /// Out of the battery.
        Discharge = "discharge",
        /// Into the battery.
        Charge = "charge",
    }
}

/// When a lithium pack protects itself; cell voltages.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Protection {
    /// Stops charging above.
    pub over_voltage: Sourced<Voltage>,
    /// Allows charging again below.
    pub over_voltage_release: Sourced<Voltage>,
    /// Stops discharging below.
    pub under_voltage: Sourced<Voltage>,
    /// Allows discharging again above.
    pub under_voltage_release: Sourced<Voltage>,
    /// Trip current over the continuous discharge limit (dimensionless).
    pub over_current_multiple: Sourced<f64>,
    /// How long the trip current may last.
    pub over_current_time: Sourced<Duration>,
    /// No charging below this cell temperature.
    pub charge_low: Sourced<Temperature>,
    /// No charging above this cell temperature.
    pub charge_high: Sourced<Temperature>,
    /// Opens above this cell temperature.
    pub over_temperature: Sourced<Temperature>,
}

/// Usual charging voltages of one cell.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChargeVoltages {
    /// Absorption.
    pub absorption: Sourced<Voltage>,
    /// Absorption that must not be exceeded.
    pub absorption_most: Sourced<Voltage>,
    /// Float.
    pub float: Sourced<Voltage>,
    /// Loads are shed below.
    pub load_disconnect: Sourced<Voltage>,
}

/// Factors of IEC 61660-1 for the largest and the quasi-steady short-circuit current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShortCircuitFactors {
    /// Voltage over nominal, largest current.
    pub highest_voltage: Sourced<f64>,
    /// Resistance over nominal, largest current.
    pub lowest_resistance: Sourced<f64>,
    /// Voltage over that of the battery, quasi-steady current.
    pub quasi_steady_voltage: Sourced<f64>,
    /// Resistance added, over that of the battery, quasi-steady current.
    pub quasi_steady_added_resistance: Sourced<f64>,
}

/// Cells in series of a nominal 12 V battery.
pub fn cells_of_12_volts(chemistry: Chemistry) -> Option<Sourced<u32>> {
    property(chemistry, "cells-12v")?.quantity("value", |value| value as u32)
}

/// Nominal voltage of one cell.
pub fn nominal_cell(chemistry: Chemistry) -> Option<Sourced<Voltage>> {
    volts(chemistry, "nominal-cell")
}

/// Open-circuit voltage of one cell in a named state.
///
/// Lithium: the measured curve at the state of charge the name stands for; the mark is the weaker of both rows.
pub fn cell_emf(chemistry: Chemistry, state: ChargeState) -> Option<Sourced<Voltage>> {
    if chemistry != Chemistry::Lfp {
        return volts(chemistry, &format!("emf-{state}"));
    }
    let charge = state_of_charge(state)?;
    Some(lfp_open_circuit(charge.value)?.no_better_than(charge.mark))
}

/// The state of charge that a named state stands for in a lithium battery.
pub fn state_of_charge(state: ChargeState) -> Option<Sourced<Ratio>> {
    property(Chemistry::Lfp, &format!("soc-{state}"))?.quantity("value", Ratio::from_fraction)
}

/// Measured open-circuit voltage of a lithium iron phosphate cell at 25 °C, mean of charge and discharge.
///
/// Linear between measured points; a state of charge outside 0 to 1 takes the nearer end.
pub fn lfp_open_circuit(charge: Ratio) -> Option<Sourced<Voltage>> {
    along(
        Topic::BatteryLfpOpenCircuit,
        "soc",
        charge.fraction(),
        "volts",
        Voltage::from_volts,
    )
}

/// Full gap between the charging and the discharging open-circuit voltage of that cell.
pub fn lfp_hysteresis(charge: Ratio) -> Option<Sourced<Voltage>> {
    along(
        Topic::BatteryLfpOpenCircuit,
        "soc",
        charge.fraction(),
        "hysteresis_v",
        Voltage::from_volts,
    )
}

/// Measured resistance of a lithium iron phosphate cell of the given capacity, by state of charge and temperature.
///
/// Linear in both between measured points; 10 to 60 °C, outside the nearer end holds (colder cells are worse than that).
pub fn lfp_resistance(
    flow: Flow,
    charge: Ratio,
    cell: Temperature,
    capacity: Charge,
) -> Option<Sourced<Resistance>> {
    const MEASURED_AT: [f64; 4] = [10.0, 25.0, 40.0, 60.0];
    let celsius = cell.celsius().clamp(10.0, 60.0);
    let column = |at: f64| format!("{flow}_{at}");
    let at = |temperature: f64| {
        along(
            Topic::BatteryLfpResistance,
            "soc",
            charge.fraction(),
            &column(temperature),
            |ohms| ohms,
        )
    };
    let above = *MEASURED_AT.iter().find(|&&at| at >= celsius)?;
    let below = *MEASURED_AT.iter().rfind(|&&at| at <= celsius)?;
    let (cool, warm) = (at(below)?, at(above)?);
    let share = if above > below {
        (celsius - below) / (above - below)
    } else {
        0.0
    };
    let ohm_hours = cool.value + share * (warm.value - cool.value);
    per_capacity(cool.map(|_| ohm_hours), capacity)
}

/// Direct-current resistance of one cell, scaled from its capacity; none for a capacity that is not above zero.
pub fn cell_resistance(
    chemistry: Chemistry,
    spread: Spread,
    capacity: Charge,
) -> Option<Sourced<Resistance>> {
    let row = property(chemistry, &format!("resistance-{spread}"))?;
    per_capacity(row.quantity("value", |ohm_hours| ohm_hours)?, capacity)
}

/// Resistance of protection board and leads of a whole pack, besides its cells.
pub fn pack_extra_resistance(chemistry: Chemistry, spread: Spread) -> Option<Sourced<Resistance>> {
    property(chemistry, &format!("pack-extra-{spread}"))?.quantity("value", Resistance::from_ohms)
}

/// Usual continuous current limit of a battery of this capacity.
pub fn current_limit(
    chemistry: Chemistry,
    flow: Flow,
    capacity: Charge,
) -> Option<Sourced<Current>> {
    property(chemistry, &format!("{flow}-rate"))?.quantity("value", |rate| {
        Current::from_amperes(rate * capacity.ampere_hours())
    })
}

/// Usual thresholds of the protection in a pack; none for lead-acid, which has none.
pub fn protection(chemistry: Chemistry) -> Option<Protection> {
    let celsius = |name| property(chemistry, name)?.quantity("value", Temperature::from_celsius);
    Some(Protection {
        over_voltage: volts(chemistry, "over-voltage")?,
        over_voltage_release: volts(chemistry, "over-voltage-release")?,
        under_voltage: volts(chemistry, "under-voltage")?,
        under_voltage_release: volts(chemistry, "under-voltage-release")?,
        over_current_multiple: property(chemistry, "over-current-multiple")?
            .quantity("value", |value| value)?,
        over_current_time: property(chemistry, "over-current-time")?
            .quantity("value", Duration::from_seconds)?,
        charge_low: celsius("charge-temperature-low")?,
        charge_high: celsius("charge-temperature-high")?,
        over_temperature: celsius("over-temperature")?,
    })
}

/// Cell voltage below which a battery must not be discharged.
pub fn least_voltage(chemistry: Chemistry) -> Option<Sourced<Voltage>> {
    volts(chemistry, "under-voltage")
}

/// Usual charging voltages of one cell.
pub fn charge_voltages(chemistry: Chemistry) -> Option<ChargeVoltages> {
    Some(ChargeVoltages {
        absorption: volts(chemistry, "absorption")?,
        absorption_most: volts(chemistry, "absorption-most")?,
        float: volts(chemistry, "float")?,
        load_disconnect: volts(chemistry, "load-disconnect")?,
    })
}

/// Factors of IEC 61660-1, from memory; its scope excludes lithium, so they serve as a form only.
pub fn short_circuit_factors() -> Option<ShortCircuitFactors> {
    let factor = |id| find(Topic::BatteryShortCircuit, "id", id)?.quantity("value", |value| value);
    Some(ShortCircuitFactors {
        highest_voltage: factor("highest-voltage")?,
        lowest_resistance: factor("lowest-resistance")?,
        quasi_steady_voltage: factor("quasi-steady-voltage")?,
        quasi_steady_added_resistance: factor("quasi-steady-added-resistance")?,
    })
}

fn property(chemistry: Chemistry, name: &str) -> Option<Row> {
    rows(Topic::BatteryChemistry).find(|row| {
        row.text("chemistry") == Some(chemistry.id()) && row.text("property") == Some(name)
    })
}

fn volts(chemistry: Chemistry, name: &str) -> Option<Sourced<Voltage>> {
    property(chemistry, name)?.quantity("value", Voltage::from_volts)
}

fn per_capacity(ohm_hours: Sourced<f64>, capacity: Charge) -> Option<Sourced<Resistance>> {
    let hours = capacity.ampere_hours();
    (hours.is_finite() && hours > 0.0)
        .then(|| ohm_hours.map(|value| Resistance::from_ohms(value / hours)))
}

/// Straight line between the rows of a table whose column `x` ascends; outside it the nearer end.
fn along<T>(
    topic: Topic,
    x: &str,
    wanted: f64,
    y: &str,
    make: impl FnOnce(f64) -> T,
) -> Option<Sourced<T>> {
    if wanted.is_nan() {
        return None;
    }
    let mut below: Option<(f64, f64)> = None;
    let mut weakest = Mark::Read;
    let mut last = None;
    for row in rows(topic) {
        let (here, value) = (row.number(x)?, row.number(y)?);
        weakest = weakest.weaker(row.mark());
        last = Some(row.sourced(value));
        if wanted <= here {
            let value = match below {
                Some((from, start)) => start + (value - start) * (wanted - from) / (here - from),
                None => value,
            };
            return Some(row.sourced(make(value)).no_better_than(weakest));
        }
        below = Some((here, value));
    }
    Some(last?.map(make).no_better_than(weakest))
}
