//! What a chemistry asks of a charger and a low-voltage disconnect, and the distances kept from what must not happen.
//!
//! Voltages are per cell. Not here: thresholds of boards (`protection_board`), settings of a design (engines, analysis).

use wainwright_units::{Current, Duration, Ratio, Temperature, Voltage};

use crate::battery::Chemistry;
use crate::mark::Sourced;
use crate::span::{Span, span};
use crate::store::{Topic, find, rows};
use crate::table::Row;

/// Charging values of a chemistry.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChargeProfile {
    /// Absorption voltage.
    pub absorption: Sourced<Span<Voltage>>,
    /// State of charge that counts as full; none where voltage and current say it.
    pub full: Option<Sourced<Ratio>>,
    /// Float voltage.
    pub float: Sourced<Span<Voltage>>,
    /// Tail current, as a share of the capacity per hour.
    pub tail: Sourced<Span<Ratio>>,
    /// Absorption time.
    pub absorption_time: Sourced<Span<Duration>>,
    /// Time constant of the falling current; none for lithium.
    pub acceptance: Option<Sourced<Span<Duration>>>,
    /// Change of charging voltage with temperature [V/K per cell]; zero is none.
    pub compensation: Sourced<f64>,
    /// Temperature at which it is zero.
    pub reference: Sourced<Temperature>,
    /// Equalising voltage; none for all but flooded lead-acid.
    pub equalise: Option<Sourced<Voltage>>,
    /// Low-temperature lockout of the charger; none for lead-acid.
    pub lockout: Option<Sourced<Span<Temperature>>>,
    /// Lowest cell voltage.
    pub lowest: Sourced<Voltage>,
    /// Low-voltage disconnect.
    pub disconnect: Sourced<Voltage>,
    /// Reconnect.
    pub reconnect: Sourced<Voltage>,
    /// Loads may be cut off when no more than this is left.
    pub reserve: Sourced<Ratio>,
    /// State of charge by which loads must be back.
    pub back_by: Sourced<Ratio>,
    /// How far a cell recovers when the load goes.
    pub rebound: Sourced<Voltage>,
}

/// Charging current allowed from a cell temperature upward.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RateBand {
    /// Lowest cell temperature of the band.
    pub from: Temperature,
    /// Largest current as a share of the capacity per hour.
    pub rate: Ratio,
}

/// Distances kept from thresholds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ChargeMargins {
    /// Below a voltage at which the board stops charging.
    pub below_trip: Sourced<Voltage>,
    /// Above a voltage at which the board cuts loads off.
    pub above_cut_off: Sourced<Voltage>,
    /// Above the temperature at which the board stops charging [K].
    pub above_cold: Sourced<f64>,
}

/// How far readings of hand meters and displays may be off, one standard deviation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ReadingNoise {
    /// Of a pack voltage.
    pub pack: Sourced<Voltage>,
    /// Of a cell voltage.
    pub cell: Sourced<Voltage>,
    /// Of a current.
    pub current: Sourced<Current>,
    /// Of a temperature [K].
    pub kelvins: Sourced<f64>,
    /// How often something else is named than what happens.
    pub wrong_event: Sourced<Ratio>,
}

/// Charging values of a chemistry.
pub fn charge_profile(chemistry: Chemistry) -> Option<ChargeProfile> {
    let volts = |name| usual(chemistry, name, Voltage::from_volts);
    let share = |name| usual(chemistry, name, Ratio::from_fraction);
    Some(ChargeProfile {
        absorption: of(chemistry, "absorption", Voltage::from_volts)?,
        full: share("full"),
        float: of(chemistry, "float", Voltage::from_volts)?,
        tail: of(chemistry, "tail", Ratio::from_fraction)?,
        absorption_time: of(chemistry, "absorption-time", Duration::from_hours)?,
        acceptance: of(chemistry, "acceptance", Duration::from_hours),
        compensation: usual(chemistry, "compensation", |slope| slope)?,
        reference: usual(
            chemistry,
            "reference-temperature",
            Temperature::from_celsius,
        )?,
        equalise: volts("equalise"),
        lockout: of(chemistry, "lockout", Temperature::from_celsius),
        lowest: volts("lowest")?,
        disconnect: volts("disconnect")?,
        reconnect: volts("reconnect")?,
        reserve: share("reserve")?,
        back_by: share("back-by")?,
        rebound: volts("rebound")?,
    })
}

/// Charging currents by cell temperature, rising; none listed: no limit but the usual rate.
pub fn rate_bands(chemistry: Chemistry) -> Vec<Sourced<RateBand>> {
    let of_it =
        rows(Topic::BatteryChargeRates).filter(|row| row.text("chemistry") == Some(chemistry.id()));
    of_it
        .filter_map(|row| {
            Some(row.sourced(RateBand {
                from: Temperature::from_celsius(row.number("from_c")?),
                rate: Ratio::from_fraction(row.number("rate")?),
            }))
        })
        .collect()
}

/// Distances kept from thresholds.
pub fn charge_margins() -> Option<ChargeMargins> {
    Some(ChargeMargins {
        below_trip: margin("below-trip", Voltage::from_volts)?,
        above_cut_off: margin("above-cut-off", Voltage::from_volts)?,
        above_cold: margin("above-cold", |kelvins| kelvins)?,
    })
}

/// How far readings may be off.
pub fn reading_noise() -> Option<ReadingNoise> {
    Some(ReadingNoise {
        pack: margin("noise-pack", Voltage::from_volts)?,
        cell: margin("noise-cell", Voltage::from_volts)?,
        current: margin("noise-current", Current::from_amperes)?,
        kelvins: margin("noise-temperature", |kelvins| kelvins)?,
        wrong_event: margin("wrong-event", Ratio::from_fraction)?,
    })
}

fn margin<T>(id: &str, make: impl FnOnce(f64) -> T) -> Option<Sourced<T>> {
    find(Topic::BatteryChargeMargins, "id", id)?.quantity("value", make)
}

fn property(chemistry: Chemistry, name: &str) -> Option<Row> {
    let of = |wanted: &str| {
        rows(Topic::BatteryChargeProfile)
            .find(|row| row.text("chemistry") == Some(wanted) && row.text("property") == Some(name))
    };
    of(chemistry.id()).or_else(|| of("any"))
}

fn of<T>(chemistry: Chemistry, name: &str, make: impl Fn(f64) -> T) -> Option<Sourced<Span<T>>> {
    span(property(chemistry, name)?, make)
}

fn usual<T>(chemistry: Chemistry, name: &str, make: impl FnOnce(f64) -> T) -> Option<Sourced<T>> {
    property(chemistry, name)?.quantity("usual", make)
}
