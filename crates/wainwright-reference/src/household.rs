//! Household loads of a camper: power, hours, time of day, fridges, heater, kettle, water, the usual day.
//!
//! Not here: what a fridge or a heater needs in a given air (engines), losses of converters (`device_class`).

use wainwright_units::{Duration, Energy, Power, Ratio, Temperature, Voltage, Volume};

use crate::id::ids;
use crate::mark::Sourced;
use crate::span::{Span, span};
use crate::store::{Topic, find, rows};
use crate::table::Row;

ids! {
    /// A size of fridge.
    FridgeClass {
        /// Box of 40 to 50 L.
        Small = "small",
        /// 80 to 100 L.
        Middle = "middle",
        /// 130 L with thin walls.
        Large = "large",
    }
}

ids! {
    /// A household by its energy a day.
    DayPreset {
        /// Weekend with little.
        Weekend = "weekend",
        /// Two people with a fridge.
        Couple = "couple",
        /// Remote work with a fridge.
        RemoteWork = "remote-work",
        /// What an induction plate adds to any of them.
        InductionAdded = "induction-added",
    }
}

/// A usual load.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LoadPreset {
    /// Id in the data file.
    pub id: &'static str,
    /// Its plain name.
    pub name: &'static str,
    /// Power while it is on.
    pub power: Span<Power>,
    /// Time it is on each day.
    pub hours: Span<Duration>,
}

/// Time of day, in hours from 0 to 24; `from` after `to` goes over midnight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TimeOfDay {
    /// Begin [h].
    pub from: f64,
    /// End [h].
    pub to: f64,
}

/// Walls of a class of fridges.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fridge {
    /// Least volume.
    pub volume_low: Volume,
    /// Largest volume.
    pub volume_high: Volume,
    /// Heat its walls let in [W/K].
    pub conductance: f64,
}

/// What turns heat through the walls into electricity.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FridgeFigures {
    /// Inside.
    pub inside: Sourced<Temperature>,
    /// Evaporator below inside [K].
    pub evaporator_below: Sourced<f64>,
    /// Condenser above the air around it [K].
    pub condenser_above: Sourced<f64>,
    /// Share of the ideal coefficient of performance.
    pub carnot_share: Sourced<Ratio>,
    /// Electronics.
    pub electronics: Sourced<Power>,
    /// Added for door openings.
    pub doors: Sourced<Span<Ratio>>,
    /// Cooling food from 25 °C [Wh/kg].
    pub food: Sourced<f64>,
}

/// A diesel air heater of 2 kW.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HeaterFigures {
    /// Fuel an hour [L/h].
    pub fuel: Sourced<Span<f64>>,
    /// Power while it starts.
    pub start_power: Sourced<Span<Power>>,
    /// How long it starts.
    pub start_time: Sourced<Span<Duration>>,
    /// Voltage below which it stops, 12 V system.
    pub stops_at: Sourced<Span<Voltage>>,
}

/// All usual loads, in the order of the table.
pub fn load_presets() -> Vec<Sourced<LoadPreset>> {
    rows(Topic::HouseholdLoads).filter_map(preset).collect()
}

/// One usual load by its id.
pub fn load_preset(id: &str) -> Option<Sourced<LoadPreset>> {
    preset(find(Topic::HouseholdLoads, "id", id)?)
}

/// When a usual load is on.
pub fn time_of_day(id: &str) -> Option<Sourced<TimeOfDay>> {
    let row = find(Topic::HouseholdHours, "id", id)?;
    Some(row.sourced(TimeOfDay {
        from: row.number("from")?,
        to: row.number("to")?,
    }))
}

/// Walls of a class of fridges.
pub fn fridge(class: FridgeClass) -> Option<Sourced<Fridge>> {
    let row = find(Topic::HouseholdFridges, "id", class.id())?;
    Some(row.sourced(Fridge {
        volume_low: Volume::from_litres(row.number("volume_low")?),
        volume_high: Volume::from_litres(row.number("volume_high")?),
        conductance: row.number("conductance")?,
    }))
}

/// What turns heat through a fridge's walls into electricity.
pub fn fridge_figures() -> Option<FridgeFigures> {
    Some(FridgeFigures {
        inside: usual("fridge-inside", Temperature::from_celsius)?,
        evaporator_below: usual("fridge-evaporator-below", |kelvins| kelvins)?,
        condenser_above: usual("fridge-condenser-above", |kelvins| kelvins)?,
        carnot_share: usual("fridge-carnot-share", Ratio::from_fraction)?,
        electronics: usual("fridge-electronics", Power::from_watts)?,
        doors: spread("fridge-doors", Ratio::from_fraction)?,
        food: usual("fridge-food", |watt_hours| watt_hours)?,
    })
}

/// A diesel air heater of 2 kW.
pub fn heater_figures() -> Option<HeaterFigures> {
    Some(HeaterFigures {
        fuel: spread("heater-fuel", |litres| litres)?,
        start_power: spread("heater-start-power", Power::from_watts)?,
        start_time: spread("heater-start-minutes", |minutes| {
            Duration::from_seconds(60.0 * minutes)
        })?,
        stops_at: spread("heater-stops-at", Voltage::from_volts)?,
    })
}

/// Heat that brings a litre of water from 15 to 100 °C.
pub fn kettle_heat() -> Option<Sourced<Energy>> {
    usual("kettle-heat", Energy::from_watt_hours)
}

/// Electricity a kettle takes for that litre.
pub fn kettle_energy() -> Option<Sourced<Span<Energy>>> {
    spread("kettle-energy", Energy::from_watt_hours)
}

/// Water a person uses each day.
pub fn water_per_person() -> Option<Sourced<Span<Volume>>> {
    spread("water-per-person", Volume::from_litres)
}

/// Mean power in each hour of a usual day, from midnight.
pub fn usual_day() -> Vec<Sourced<Power>> {
    rows(Topic::HouseholdShape)
        .filter_map(|row| row.quantity("watts", Power::from_watts))
        .collect()
}

/// Energy a day of a household.
pub fn day_preset(preset: DayPreset) -> Option<Sourced<Span<Energy>>> {
    span(
        find(Topic::HouseholdPresets, "id", preset.id())?,
        Energy::from_watt_hours,
    )
}

fn preset(row: Row) -> Option<Sourced<LoadPreset>> {
    let hours = |column| Some(Duration::from_hours(row.number(column)?));
    Some(row.sourced(LoadPreset {
        id: row.text("id")?,
        name: row.text("name")?,
        power: span(row, Power::from_watts)?.value,
        hours: Span {
            low: hours("hours_low")?,
            usual: hours("hours_usual")?,
            high: hours("hours_high")?,
        },
    }))
}

fn usual<T>(id: &str, make: impl FnOnce(f64) -> T) -> Option<Sourced<T>> {
    find(Topic::HouseholdConstants, "id", id)?.quantity("usual", make)
}

fn spread<T>(id: &str, make: impl Fn(f64) -> T) -> Option<Sourced<Span<T>>> {
    span(find(Topic::HouseholdConstants, "id", id)?, make)
}
