//! One hour on the bus: who gives, who takes, what is left over.

use super::camper::{Camper, Charger};
use super::error::TripError;
use crate::battery::{self, Direction, Limits, Step};
use crate::solar_power::charge_power;
use wainwright_units::{
    Current, Duration, Energy, Power, Ratio, Resistance, Temperature, Voltage, Volume,
};

/// Length of a step.
const HOUR: Duration = Duration::from_hours(1.0);

/// Energy that may be left over, as a share of what went through the bus, plus this many [Wh].
const MOST_LEFT_OVER: f64 = 1e-9;

/// What an hour brings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hour {
    /// Hour of the day, 0 is the one from midnight.
    pub hour_of_day: u32,
    /// Air temperature [°C].
    pub air: Temperature,
    /// Best power of the panels in this hour [W].
    pub panel: Power,
    /// Light behind the glass of the panels [W/m²], for controllers that follow the current.
    pub light: f64,
    /// Whether the engine charges.
    pub driving: bool,
    /// Whether shore power is there.
    pub shore: bool,
    /// Whether there is a tap to fill from and a drain to empty into.
    pub tap: bool,
}

/// What an hour did.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HourResult {
    /// State of charge at the end.
    pub charge: Ratio,
    /// Temperature of the cells.
    pub cell: Temperature,
    /// Open voltage at the start [V].
    pub open: Voltage,
    /// Resistance at the start [Ω].
    pub resistance: Resistance,
    /// Current, positive into the battery [A].
    pub current: Current,
    /// Solar energy after the controller [Wh], used or not.
    pub solar: Energy,
    /// Energy drawn from the alternator's charger [Wh].
    pub alternator: Energy,
    /// Energy drawn from the shore charger [Wh].
    pub shore: Energy,
    /// Energy the loads wanted [Wh].
    pub wanted: Energy,
    /// Energy the loads did not get [Wh].
    pub unserved: Energy,
    /// Solar energy nobody could use [Wh].
    pub spilled: Energy,
    /// Energy into the battery's terminals, negative out [Wh].
    pub into_battery: Energy,
    /// Energy kept in the cells, negative when taken [Wh].
    pub stored: Energy,
    /// Heat and lost charge in the battery and losses of the chargers [Wh].
    pub lost: Energy,
    /// Whether loads are cut off from the battery at the end.
    pub cut_off: bool,
    /// Water wanted and not there [L].
    pub water_missing: Volume,
    /// Fresh water at the end [L].
    pub fresh: Volume,
    /// Waste water at the end [L].
    pub waste: Volume,
    /// Waste water for which there was no room [L].
    pub waste_spilled: Volume,
}

/// What the hours before have left of the battery.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Battery {
    pub charge: Ratio,
    pub cell: Temperature,
    pub cut_off: bool,
}

/// Power that each source could give, and what the loads want [W].
struct Bus {
    solar: Power,
    alternator: Power,
    shore: Power,
    wanted: Power,
}

/// The electric side of an hour; water fields are left at zero.
pub(super) fn electric(
    camper: &Camper<'_>,
    battery: &mut Battery,
    hour: &Hour,
    at: usize,
) -> Result<HourResult, TripError> {
    let cell = battery::cell_temperature_after(battery.cell, hour.air, camper.cell_lag, HOUR);
    let bus = bus(camper, hour, battery.charge);
    if !bus.wanted.is_finite() || bus.wanted < Power::ZERO {
        return Err(TripError::Input {
            hour: at,
            found: "the power of a load is no number or below zero",
        });
    }
    let sources = bus.solar + bus.alternator + bus.shore;
    let net = sources - bus.wanted;
    let step = battery_step(camper, *battery, cell, net);
    let short = (-net).max(Power::ZERO) * HOUR * (1.0 - step.flowed.fraction());
    let needed = bus.wanted * HOUR - short + step.bus;
    let used_solar = needed.min(bus.solar * HOUR);
    let from_alternator = (needed - used_solar).min(bus.alternator * HOUR);
    let from_shore = needed - used_solar - from_alternator;
    let ran_out = step.flowed < Ratio::ONE;
    battery.charge = step.charge;
    battery.cell = cell;
    battery.cut_off = (ran_out || battery.cut_off) && step.charge < camper.reconnect;
    let result = HourResult {
        charge: step.charge,
        cell,
        open: step.open,
        resistance: step.resistance,
        current: step.current,
        solar: bus.solar * HOUR,
        alternator: from_alternator,
        shore: from_shore,
        wanted: bus.wanted * HOUR,
        unserved: short,
        spilled: bus.solar * HOUR - used_solar,
        into_battery: step.bus,
        stored: step.stored,
        lost: step.heat + step.lost,
        cut_off: battery.cut_off,
        water_missing: Volume::ZERO,
        fresh: Volume::ZERO,
        waste: Volume::ZERO,
        waste_spilled: Volume::ZERO,
    };
    check(&result, at)?;
    Ok(result)
}

fn bus(camper: &Camper<'_>, hour: &Hour, charge: Ratio) -> Bus {
    let volts = camper.pack.open_voltage(charge, Direction::Charging);
    let solar = camper.solar.map_or(Power::ZERO, |solar| {
        charge_power(solar.controller, hour.panel, hour.light, volts) * solar.left
    });
    let running = |charger: Option<Charger>, on: bool| {
        charger
            .filter(|_| on)
            .map_or(Power::ZERO, |charger| charger.output)
    };
    Bus {
        solar,
        alternator: running(camper.alternator, hour.driving),
        shore: running(camper.shore, hour.shore),
        wanted: camper
            .loads
            .iter()
            .map(|load| load.power(hour.hour_of_day, hour.air))
            .sum(),
    }
}

fn battery_step(camper: &Camper<'_>, battery: Battery, cell: Temperature, net: Power) -> Step {
    let pack = &camper.pack;
    if net >= Power::ZERO {
        let by_cold = battery::allowed_charge(camper.charge_bands, pack.capacity, cell);
        let limits = Limits {
            most_in: camper.limits.most_in.min(by_cold),
            ..camper.limits
        };
        return battery::charge(pack, battery.charge, cell, net, HOUR, limits);
    }
    let limits = if battery.cut_off {
        Limits {
            most_out: Current::ZERO,
            ..camper.limits
        }
    } else {
        camper.limits
    };
    battery::discharge(pack, battery.charge, cell, -net, HOUR, limits)
}

/// Sources = loads served + battery, and battery = stored + lost.
fn check(result: &HourResult, at: usize) -> Result<(), TripError> {
    let given = result.solar - result.spilled + result.alternator + result.shore;
    let served = result.wanted - result.unserved;
    let on_bus = given - served - result.into_battery;
    let in_battery = result.into_battery - result.stored - result.lost;
    let through = given.abs() + served.abs() + result.into_battery.abs();
    let left_over = on_bus.abs() + in_battery.abs();
    let negative = [result.spilled, result.unserved, result.shore, result.lost]
        .into_iter()
        .fold(Energy::ZERO, Energy::min);
    let worst = left_over.max(-negative).watt_hours();
    if worst <= MOST_LEFT_OVER * (1.0 + through.watt_hours()) {
        return Ok(());
    }
    Err(TripError::NotConserved {
        hour: at,
        watt_hours: worst,
    })
}
