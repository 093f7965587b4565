//! What is on board: battery, protection, chargers, loads, tanks.

use super::load::Load;
use super::water::Water;
use crate::battery::{Limits, Pack, TemperatureRate, Thresholds};
use crate::solar_power::{Controller, Reach};
use wainwright_units::{Current, Duration, Power, Ratio, Resistance, Temperature, Voltage, Volume};

/// Most solar fields of a camper.
pub const MOST_FIELDS: usize = 4;

/// A field of solar panels with a controller of its own, as the battery sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Solar {
    /// The charge controller.
    pub controller: Controller,
    /// Share of the controller's output that is left after wire and dirt.
    pub left: Ratio,
    /// Voltage this controller holds at the most [V]; infinite for the battery's own limit alone.
    pub absorption: Voltage,
    /// Whether the controller starts without seeing a battery voltage. One that does not stays off
    /// behind an open protection board until something else makes the terminals live.
    pub starts_alone: bool,
}

/// A charger fed by the engine or by shore power.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Charger {
    /// Most it gives to the battery side [W].
    pub output: Power,
    /// Largest current it gives to the battery side [A]; infinite for none of its own.
    pub current: Current,
    /// Share of its input that it gives.
    pub efficiency: Ratio,
    /// Voltage it holds at the most [V]; infinite for the battery's own limit alone.
    pub absorption: Voltage,
    /// The wire that feeds it, when that limits it.
    pub line: Option<Line>,
}

/// A wire that feeds a charger.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Line {
    /// Voltage at the source [V].
    pub source: Voltage,
    /// Resistance of both conductors, plug and all [Ω].
    pub resistance: Resistance,
    /// Lowest voltage at which the charger works [V].
    pub least: Voltage,
}

/// The protection board of the battery.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Guard {
    /// When it opens and closes.
    pub thresholds: Thresholds,
    /// How far the fullest cell is ahead of the others, as a share of the charge; the trip's charge
    /// is that of the others.
    pub ahead: Ratio,
}

/// A camper's energy, water and fuel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camper<'a> {
    /// The battery.
    pub pack: Pack<'a>,
    /// What all chargers keep to, and when loads are cut off.
    pub limits: Limits,
    /// Charging current by cell temperature; empty for no such limit.
    pub charge_bands: &'a [TemperatureRate],
    /// How slowly the cells follow the air; zero for at once.
    pub cell_lag: Duration,
    /// Charge at which loads come back after the battery has run empty.
    pub reconnect: Ratio,
    /// The protection board, if its switches count.
    pub guard: Option<Guard>,
    /// Solar fields, four at the most; the first belongs to the first panel power of an hour.
    pub solar: &'a [Solar],
    /// The charger that works while driving.
    pub alternator: Option<Charger>,
    /// The charger that works on shore power.
    pub shore: Option<Charger>,
    /// Everything that draws power.
    pub loads: &'a [Load],
    /// Water tanks and use.
    pub water: Water,
    /// Fuel for heaters that the tank holds [L].
    pub fuel_tank: Volume,
}

/// How a trip starts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Start {
    /// State of charge.
    pub charge: Ratio,
    /// Temperature of the cells.
    pub cell: Temperature,
    /// Fresh water on board [L].
    pub fresh: Volume,
    /// Waste water on board [L].
    pub waste: Volume,
    /// Fuel on board [L]; more than the tank holds counts as a full tank.
    pub fuel: Volume,
}

impl Charger {
    /// A charger limited by its power alone.
    #[must_use]
    pub const fn of(output: Power, efficiency: Ratio) -> Charger {
        Charger {
            output,
            current: Current::from_amperes(f64::INFINITY),
            efficiency,
            absorption: Voltage::from_volts(f64::INFINITY),
            line: None,
        }
    }

    /// Most it gives at its own limits and those of its wire.
    #[must_use]
    pub fn reach(&self) -> Reach {
        let of_line = self
            .line
            .map_or(f64::INFINITY, |line| line.most_power().watts());
        let from_line = Power::from_watts(of_line * self.efficiency.fraction());
        Reach {
            power: self.output.min(from_line),
            current: self.current,
        }
    }
}

impl Line {
    /// Most power that arrives: V (Vs − V) / R is largest at half the source's voltage, or at the
    /// lowest voltage the charger works at if that is higher.
    ///
    /// Zero when the source is below that voltage, infinite without resistance.
    #[must_use]
    pub fn most_power(self) -> Power {
        let source = self.source.volts();
        let volts = self.least.volts().max(source / 2.0);
        if source <= volts {
            return Power::ZERO;
        }
        Power::from_watts(volts * (source - volts) / self.resistance.ohms())
    }
}
