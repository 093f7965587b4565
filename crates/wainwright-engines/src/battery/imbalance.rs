//! Pack voltage at which the fullest of uneven cells trips the protection.

use super::curve::Curve;
use wainwright_units::{Ratio, Voltage};

/// A pack whose fullest cell is ahead of the others.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Uneven<'a> {
    /// Cells in series, at least one.
    pub series: u32,
    /// Open voltage of a cell over its state of charge.
    pub open: Curve<'a>,
    /// Resistance times capacity [Ω·Ah].
    pub resistance: f64,
    /// Charging current as a share of the capacity per hour [1/h].
    pub rate: f64,
    /// Cell voltage at which charging is cut off [V].
    pub trip: Voltage,
}

/// Pack voltage when the fullest cell, ahead by `ahead`, reaches its trip voltage.
///
/// `None` when no cell ever gets there. Above full the curve goes on as steeply as it ends, since a
/// weak current trips the board only beyond full.
pub fn trip_voltage(pack: Uneven<'_>, ahead: Ratio) -> Option<Voltage> {
    let rise = pack.resistance * pack.rate;
    let full = pack.open.reaches(pack.trip.volts() - rise)?;
    let others = pack.open.at_or_beyond(full - ahead.fraction()) + rise;
    let rest = f64::from(pack.series.saturating_sub(1));
    Some(Voltage::from_volts(pack.trip.volts() + rest * others))
}
