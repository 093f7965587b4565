//! Whole tables of a measured iron-phosphate cell, its cold and its age; figures of lead-acid batteries.
//!
//! Single values and thresholds by chemistry are in `battery`. Not here: how a battery behaves (engines).

use wainwright_units::{Current, Duration, Mass, Ratio, Temperature, Voltage};

use crate::battery::{ChargeState, Chemistry, Flow, cell_emf};
use crate::mark::{Mark, Sourced};
use crate::span::{Span, span};
use crate::store::{Topic, find, rows};
use crate::table::Row;

/// Temperatures at which the resistance was measured [°C].
const MEASURED_AT: [f64; 4] = [10.0, 25.0, 40.0, 60.0];

/// Points of a curve: state of charge 0 to 1, and the value.
pub type Points = Vec<(f64, f64)>;

/// Resistance of a cell times its capacity.
#[derive(Debug, Clone, PartialEq)]
pub struct ResistanceTable {
    /// Measured temperatures, rising [°C].
    pub celsius: [f64; 4],
    /// State of charge, 0 to 1, and the value at each temperature [Ω·Ah].
    pub rows: Vec<(f64, [f64; 4])>,
}

/// Constants of the loss by standing: k exp(−E/R (1/T − 1/298.15)) (c (s − 0.5)³ + d) √t.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CalendarAgeing {
    /// Share lost per square root of a second, k.
    pub per_root_second: f64,
    /// Activation energy E [J/mol].
    pub activation: f64,
    /// Weight of the state of charge, c.
    pub by_charge: f64,
    /// Its constant part, d.
    pub constant: f64,
}

/// Constants of the loss by use: (a C + b)(c (D − 0.6)³ + d) √n percent.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CycleAgeing {
    /// Percent per rate, a.
    pub by_rate: f64,
    /// Percent at no rate, b.
    pub constant: f64,
    /// Weight of the depth, c.
    pub by_depth: f64,
    /// Its constant part, d.
    pub depth_constant: f64,
}

/// How a lead-acid battery charges and discharges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LeadAcid {
    /// Exponent of the law of run time.
    pub peukert: Sourced<Span<f64>>,
    /// Time in which the charge on its label is drawn.
    pub rated_time: Sourced<Duration>,
    /// Energy out over energy in.
    pub round_trip: Sourced<Span<f64>>,
    /// State of charge up to which the full current flows.
    pub bulk_until: Sourced<Ratio>,
    /// Time constant with which the current falls at the absorption voltage.
    pub taper: Sourced<Span<Duration>>,
    /// Time at the absorption voltage in each cycle.
    pub absorption_time: Sourced<Span<Duration>>,
    /// Change of the charging voltage of a cell with its temperature [mV/K].
    pub charge_millivolts_per_kelvin: Sourced<Span<f64>>,
    /// Share of the charge that should be used.
    pub usable: Sourced<Ratio>,
    /// A discharged battery freezes near here.
    pub freezes: Sourced<Span<Temperature>>,
}

/// Open-circuit voltage [V] at 25 °C, mean of charge and discharge.
pub fn open_circuit() -> Option<Sourced<Points>> {
    points(Topic::BatteryLfpOpenCircuit, "soc", "volts")
}

/// Gap [V] between the charging and the discharging open-circuit voltage.
pub fn hysteresis() -> Option<Sourced<Points>> {
    points(Topic::BatteryLfpOpenCircuit, "soc", "hysteresis_v")
}

/// Change of the open-circuit voltage with temperature [mV/K].
pub fn entropy() -> Option<Sourced<Points>> {
    points(Topic::BatteryLfpOpenCircuit, "soc", "entropy_mv_per_k")
}

/// Resistance of the measured cell one way, times its capacity.
pub fn resistance(flow: Flow) -> Option<Sourced<ResistanceTable>> {
    let columns = MEASURED_AT.map(|celsius| format!("{flow}_{celsius}"));
    let read = |row: &Row| {
        let mut values = [0.0; 4];
        for (value, column) in values.iter_mut().zip(&columns) {
            *value = row.number(column)?;
        }
        Some((row.number("soc")?, values))
    };
    let all = gather(Topic::BatteryLfpResistance, read)?;
    Some(all.map(|rows| ResistanceTable {
        celsius: MEASURED_AT,
        rows,
    }))
}

/// Steepness of the logarithm of resistance over the inverse of temperature \[K\].
pub fn activation() -> Option<Sourced<f64>> {
    constant("activation-k")
}

/// Resistance of real cells at −20 °C over that at 25 °C, which the steepness understates.
pub fn cold_resistance_factor() -> Option<Sourced<Span<f64>>> {
    span(constants("cold-resistance-factor")?, |value| value)
}

/// Share of the capacity that can be had at a cell temperature; straight between the stated ones,
/// outside them the nearer end.
pub fn usable_capacity(cell: Temperature) -> Option<Sourced<Ratio>> {
    let shares = points(Topic::BatteryCellCapacity, "celsius", "share")?;
    let wanted = cell.celsius();
    let after = shares.value.iter().find(|point| point.0 >= wanted);
    let before = shares.value.iter().rfind(|point| point.0 <= wanted);
    let share = match (before, after) {
        (Some(left), Some(right)) if right.0 > left.0 => {
            left.1 + (right.1 - left.1) * (wanted - left.0) / (right.0 - left.0)
        }
        (Some(only), _) | (None, Some(only)) => only.1,
        (None, None) => return None,
    };
    Some(shares.map(|_| Ratio::from_fraction(share)))
}

/// Charging current by cell temperature: from this temperature upward, this share of the capacity
/// per hour [1/h]; in rising temperature, nothing below the first and above the last.
pub fn charge_bands() -> Vec<Sourced<(Temperature, f64)>> {
    let band = |row: Row| {
        let from = Temperature::from_celsius(row.number("celsius")?);
        row.quantity("rate", |rate| (from, rate))
    };
    rows(Topic::BatteryCellChargeBands)
        .filter_map(band)
        .collect()
}

/// Charge out over charge in.
pub fn coulombic() -> Option<Sourced<Span<Ratio>>> {
    span(constants("coulombic")?, Ratio::from_fraction)
}

/// Share of the capacity lost in a month by standing.
pub fn self_discharge_per_month() -> Option<Sourced<Span<Ratio>>> {
    span(constants("self-discharge-per-month")?, Ratio::from_fraction)
}

/// Own draw of a protection board.
pub fn board_draw() -> Option<Sourced<Span<Current>>> {
    span(constants("board-draw-ma")?, |milliamperes| {
        Current::from_amperes(milliamperes / 1000.0)
    })
}

/// Heat capacity of cells [J/(kg·K)].
pub fn heat_capacity() -> Option<Sourced<f64>> {
    constant("heat-capacity-j-kg-k")
}

/// Mass of a 12 V pack of 100 Ah.
pub fn mass_per_100_ampere_hours() -> Option<Sourced<Span<Mass>>> {
    span(constants("mass-per-100-ah-kg")?, Mass::from_kilograms)
}

/// Loss by standing of the measured cell.
pub fn calendar_ageing() -> Option<Sourced<CalendarAgeing>> {
    let first = ageing("calendar-k")?;
    let constants = CalendarAgeing {
        per_root_second: first.value,
        activation: ageing("calendar-activation")?.value,
        by_charge: ageing("calendar-by-charge")?.value,
        constant: ageing("calendar-constant")?.value,
    };
    Some(first.map(|_| constants))
}

/// Loss by use of the measured cell.
pub fn cycle_ageing() -> Option<Sourced<CycleAgeing>> {
    let first = ageing("cycle-by-rate")?;
    let constants = CycleAgeing {
        by_rate: first.value,
        constant: ageing("cycle-constant")?.value,
        by_depth: ageing("cycle-by-depth")?.value,
        depth_constant: ageing("cycle-depth-constant")?.value,
    };
    Some(first.map(|_| constants))
}

/// Figures of a lead-acid battery; none for iron phosphate.
pub fn lead_acid(chemistry: Chemistry) -> Option<LeadAcid> {
    let row = |property: &str| {
        rows(Topic::BatteryCellLeadAcid).find(|row| {
            row.text("chemistry") == Some(chemistry.id()) && row.text("property") == Some(property)
        })
    };
    Some(LeadAcid {
        peukert: span(row("peukert")?, |value| value)?,
        rated_time: row("rated-hours")?.quantity("usual", Duration::from_hours)?,
        round_trip: span(row("energy-round-trip")?, |value| value)?,
        bulk_until: row("bulk-until")?.quantity("usual", Ratio::from_fraction)?,
        taper: span(row("taper-hours")?, Duration::from_hours)?,
        absorption_time: span(row("absorption-hours")?, Duration::from_hours)?,
        charge_millivolts_per_kelvin: span(row("absorption-mv-per-k-cell")?, |value| value)?,
        usable: row("usable")?.quantity("usual", Ratio::from_fraction)?,
        freezes: span(row("freeze-c")?, Temperature::from_celsius)?,
    })
}

/// Rested voltage of one lead-acid cell over the state of charge: empty, half, full; none for iron
/// phosphate, whose measured curve is [`open_circuit`].
pub fn rested_voltages(chemistry: Chemistry) -> Option<Sourced<[(f64, Voltage); 3]>> {
    if chemistry == Chemistry::Lfp {
        return None;
    }
    let at = |state| Some(cell_emf(chemistry, state)?.value);
    let full = cell_emf(chemistry, ChargeState::Full)?;
    let points = [
        (0.0, at(ChargeState::Low)?),
        (0.5, at(ChargeState::Resting)?),
        (1.0, full.value),
    ];
    Some(full.map(|_| points))
}

fn constants(id: &str) -> Option<Row> {
    find(Topic::BatteryCellConstants, "id", id)
}

fn constant(id: &str) -> Option<Sourced<f64>> {
    constants(id)?.quantity("usual", |value| value)
}

fn ageing(id: &str) -> Option<Sourced<f64>> {
    find(Topic::BatteryCellAgeing, "id", id)?.quantity("value", |value| value)
}

fn points(topic: Topic, x: &str, y: &str) -> Option<Sourced<Points>> {
    gather(topic, |row| Some((row.number(x)?, row.number(y)?)))
}

/// All rows of a table as one value, trusted no more than the weakest of them.
fn gather<T>(topic: Topic, read: impl Fn(&Row) -> Option<T>) -> Option<Sourced<Vec<T>>> {
    let mut all = Vec::new();
    let mut first: Option<Sourced<()>> = None;
    let mut weakest = Mark::Read;
    for row in rows(topic) {
        all.push(read(&row)?);
        weakest = weakest.weaker(row.mark());
        first.get_or_insert(row.sourced(()));
    }
    Some(first?.map(|()| all).no_better_than(weakest))
}
