//! One step of charge or discharge at a power.

use super::pack::{Direction, Pack};
use wainwright_units::{Current, Duration, Energy, Power, Ratio, Resistance, Temperature, Voltage};

/// What becomes of charge that is offered to a full battery.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum WhenFull {
    /// The charger stops.
    Refuse,
    /// It goes in and is lost, as in a flooded battery that gases.
    Overcharge,
}

/// What charger and protection allow.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Limits {
    /// Largest current in [A].
    pub most_in: Current,
    /// Largest current out; a load that asks for more is cut off [A].
    pub most_out: Current,
    /// Voltage the charger holds at the most [V].
    pub absorption: Voltage,
    /// Time constant with which a nearly full lead-acid battery takes less and less; zero for none.
    pub acceptance: Duration,
    /// State of charge at which loads are cut off.
    pub lowest: Ratio,
    /// What becomes of charge beyond full.
    pub when_full: WhenFull,
}

/// What happened in a step. Energies into the battery are positive.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// Open voltage of the pack at the start [V].
    pub open: Voltage,
    /// Its resistance at the start [Ω].
    pub resistance: Resistance,
    /// Current while it flowed, positive into the battery [A].
    pub current: Current,
    /// Voltage at the terminals while it flowed [V].
    pub terminal: Voltage,
    /// State of charge afterwards.
    pub charge: Ratio,
    /// Energy through the terminals, positive in [Wh].
    pub bus: Energy,
    /// Energy kept in the cells at their open voltage, negative when taken out [Wh].
    pub stored: Energy,
    /// Heat in the resistance [Wh].
    pub heat: Energy,
    /// Charge that went in and was lost, at the open voltage [Wh].
    pub lost: Energy,
    /// Share of the time the current flowed; below one when the battery ran empty or cut off.
    pub flowed: Ratio,
}

impl Limits {
    /// No limits but an empty and a full battery.
    pub const NONE: Limits = Limits {
        most_in: Current::from_amperes(f64::INFINITY),
        most_out: Current::from_amperes(f64::INFINITY),
        absorption: Voltage::from_volts(f64::INFINITY),
        acceptance: Duration::ZERO,
        lowest: Ratio::ZERO,
        when_full: WhenFull::Refuse,
    };
}

/// Takes a power out of the battery for a time, or for as long as there is charge.
///
/// A power that the battery cannot give at any current, or that needs more than the largest
/// current, cuts it off: nothing flows.
pub fn discharge(
    pack: &Pack<'_>,
    charge: Ratio,
    temperature: Temperature,
    power: Power,
    duration: Duration,
    limits: Limits,
) -> Step {
    let direction = Direction::Discharging;
    let open = pack.open_voltage(charge, direction).volts();
    let ohms = pack.resistance(charge, temperature, direction).ohms();
    let root = open * open - 4.0 * ohms * power.watts();
    // The same as (u − √root) / 2R, without taking two near numbers from each other.
    let amperes = 2.0 * power.watts() / (open + root.max(0.0).sqrt());
    let left = (charge - limits.lowest).fraction().max(0.0) * pack.capacity.ampere_hours();
    let wanted = amperes * duration.hours();
    let broke = root < 0.0 || amperes > limits.most_out.amperes() || amperes.is_nan();
    let flowed = match wanted {
        _ if broke => 0.0,
        wanted if wanted > left => left / wanted,
        _ => 1.0,
    };
    let amperes = if broke { 0.0 } else { amperes };
    let taken = amperes * duration.hours() * flowed;
    let terminal = open - amperes * ohms;
    Step {
        open: Voltage::from_volts(open),
        resistance: Resistance::from_ohms(ohms),
        current: Current::from_amperes(-amperes),
        terminal: Voltage::from_volts(terminal),
        charge: charge - Ratio::from_fraction(taken / pack.capacity.ampere_hours()),
        bus: Energy::from_watt_hours(-taken * terminal),
        stored: Energy::from_watt_hours(-taken * open),
        heat: Energy::from_watt_hours(taken * amperes * ohms),
        lost: Energy::ZERO,
        flowed: Ratio::from_fraction(flowed),
    }
}

/// Offers a power to the battery for a time; it takes what the limits allow.
pub fn charge(
    pack: &Pack<'_>,
    charge: Ratio,
    temperature: Temperature,
    offered: Power,
    duration: Duration,
    limits: Limits,
) -> Step {
    let direction = Direction::Charging;
    let open = pack.open_voltage(charge, direction).volts();
    let ohms = pack.resistance(charge, temperature, direction).ohms();
    let root = (open * open + 4.0 * ohms * offered.watts().max(0.0)).sqrt();
    let asked = 2.0 * offered.watts().max(0.0) / (open + root);
    let amperes = allowed(pack, charge, open, ohms, duration, limits)
        .min(asked)
        .max(0.0);
    let put_in = amperes * duration.hours();
    let room = (Ratio::ONE - charge).fraction().max(0.0) * pack.capacity.ampere_hours();
    let kept = (put_in * pack.coulombic.fraction()).min(room);
    let terminal = open + amperes * ohms;
    Step {
        open: Voltage::from_volts(open),
        resistance: Resistance::from_ohms(ohms),
        current: Current::from_amperes(amperes),
        terminal: Voltage::from_volts(terminal),
        charge: charge + Ratio::from_fraction(kept / pack.capacity.ampere_hours()),
        bus: Energy::from_watt_hours(put_in * terminal),
        stored: Energy::from_watt_hours(kept * open),
        heat: Energy::from_watt_hours(put_in * amperes * ohms),
        lost: Energy::from_watt_hours((put_in - kept) * open),
        flowed: Ratio::ONE,
    }
}

/// Largest current in [A].
fn allowed(
    pack: &Pack<'_>,
    charge: Ratio,
    open: f64,
    ohms: f64,
    duration: Duration,
    limits: Limits,
) -> f64 {
    let room = (Ratio::ONE - charge).fraction().max(0.0) * pack.capacity.ampere_hours();
    let mut most = limits.most_in.amperes();
    let headroom = limits.absorption.volts() - open;
    if headroom <= 0.0 {
        return 0.0;
    }
    if ohms > 0.0 {
        most = most.min(headroom / ohms);
    }
    if limits.acceptance > Duration::ZERO {
        most = most.min(room / limits.acceptance.hours());
    }
    if limits.when_full == WhenFull::Refuse && duration > Duration::ZERO {
        most = most.min(room / (pack.coulombic.fraction() * duration.hours()));
    }
    most
}
