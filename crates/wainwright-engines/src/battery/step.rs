//! One step of charge or discharge at a power. The equations are in `flow`.

use super::flow::{self, Flow, Instant, Store};
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
    let now = instant(pack, charge, temperature, Direction::Discharging);
    let asked = flow::current_out(now, power.watts());
    let given = flow::take(
        now,
        Store::of(pack),
        charge.fraction(),
        limits.lowest.fraction(),
        (asked, limits.most_out.amperes()),
        duration.hours(),
    );
    Step::from(now, given)
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
    let now = instant(pack, charge, temperature, Direction::Charging);
    let store = Store::of(pack);
    let (charge, hours) = (charge.fraction(), duration.hours());
    let amperes = flow::current_in(now, offered.watts())
        .min(flow::held_current(now, limits.absorption.volts()))
        .min(limits.most_in.amperes())
        .min(flow::accepted(store, charge, limits.acceptance.hours()))
        .min(flow::refused(store, charge, hours, limits.when_full));
    Step::from(now, flow::put(now, store, charge, amperes.max(0.0), hours))
}

fn instant(
    pack: &Pack<'_>,
    charge: Ratio,
    temperature: Temperature,
    direction: Direction,
) -> Instant {
    Instant {
        open: pack.open_voltage(charge, direction).volts(),
        ohms: pack.resistance(charge, temperature, direction).ohms(),
    }
}

impl Step {
    fn from(now: Instant, flow: Flow) -> Step {
        Step {
            open: Voltage::from_volts(now.open),
            resistance: Resistance::from_ohms(now.ohms),
            current: Current::from_amperes(flow.amperes),
            terminal: Voltage::from_volts(flow.terminal),
            charge: Ratio::from_fraction(flow.charge),
            bus: Energy::from_watt_hours(flow.bus),
            stored: Energy::from_watt_hours(flow.stored),
            heat: Energy::from_watt_hours(flow.heat),
            lost: Energy::from_watt_hours(flow.lost),
            flowed: Ratio::from_fraction(flow.flowed),
        }
    }
}
