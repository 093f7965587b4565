//! What is on board: battery, chargers, loads, water.

use super::load::Load;
use super::water::Water;
use crate::battery::{Limits, Pack, TemperatureRate};
use crate::solar_power::Controller;
use wainwright_units::{Duration, Power, Ratio, Temperature, Volume};

/// Solar panels as the battery sees them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Solar {
    /// The charge controller.
    pub controller: Controller,
    /// Share of the controller's output that is left after wire and dirt.
    pub left: Ratio,
}

/// A charger fed by the engine or by shore power.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Charger {
    /// Most it gives to the battery side [W].
    pub output: Power,
    /// Share of its input that it gives.
    pub efficiency: Ratio,
}

/// A camper's energy and water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Camper<'a> {
    /// The battery.
    pub pack: Pack<'a>,
    /// What charger and protection allow.
    pub limits: Limits,
    /// Charging current by cell temperature; empty for no such limit.
    pub charge_bands: &'a [TemperatureRate],
    /// How slowly the cells follow the air; zero for at once.
    pub cell_lag: Duration,
    /// Charge at which loads come back after the battery has run empty.
    pub reconnect: Ratio,
    /// The solar controller, if there is one.
    pub solar: Option<Solar>,
    /// The charger that works while driving.
    pub alternator: Option<Charger>,
    /// The charger that works on shore power.
    pub shore: Option<Charger>,
    /// Everything that draws power.
    pub loads: &'a [Load],
    /// Tanks.
    pub water: Water,
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
}
