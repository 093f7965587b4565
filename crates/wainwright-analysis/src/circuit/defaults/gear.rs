//! Usual values of gear that no published table gives. All of them are
//! judgements of this project, on the careful side of what is sold; each is
//! listed among the assumptions wherever it stands in.

use wainwright_units::{Charge, Current, Power, Ratio, Resistance, Voltage};

/// Capacity of a battery.
pub(crate) const CAPACITY: Charge = Charge::from_ampere_hours(100.0);
/// Current of a socket.
pub(crate) const OUTLET: Current = Current::from_amperes(10.0);
/// Efficiency of an inverter at its load.
pub(crate) const INVERTER_EFFICIENCY: Ratio = Ratio::from_fraction(0.88);
/// Efficiency of a charger that is fed from direct current.
pub(crate) const DCDC_EFFICIENCY: Ratio = Ratio::from_fraction(0.87);
/// Voltage of a tow vehicle with its engine running.
pub(crate) const VEHICLE_VOLTAGE: Voltage = Voltage::from_volts(13.8);
/// Resistance of a tow vehicle's battery, line and connector: little, because
/// little resistance lets the largest fault current through.
pub(crate) const VEHICLE_RESISTANCE: Resistance = Resistance::from_milliohms(10.0);
/// Nominal voltage of a system without a battery.
pub(crate) const SYSTEM: Voltage = Voltage::from_volts(12.8);
/// Efficiency below which a figure is not believed: it would ask for more
/// current than any source has.
pub(crate) const LEAST_EFFICIENCY: f64 = 0.05;
/// Cutoff of an inverter over the nominal voltage: 10.5 V of 12.8 V.
const CUTOFF_SHARE: f64 = 10.5 / 12.8;
/// Surge of an inverter over its lasting power.
const SURGE_TIMES: f64 = 2.0;

/// Voltage below which an inverter stops, in a system of this voltage.
pub(crate) fn inverter_cutoff(system: Option<Voltage>) -> Voltage {
    system.unwrap_or(SYSTEM) * CUTOFF_SHARE
}

/// What an inverter of this power gives for seconds.
pub(crate) fn inverter_surge(power: Power) -> Power {
    power * SURGE_TIMES
}
