//! The coldest night. Not here: what a side is made of.

use crate::known::Known;
use wainwright_model::{Id, Side};
use wainwright_units::{Airflow, Duration, Power, Ratio, Temperature};

/// What leaves on the coldest night, and the heater for it.
#[derive(Debug, Clone, PartialEq)]
pub struct ColdNight {
    /// Air outside.
    pub outside: Known<Temperature>,
    /// Air inside.
    pub inside: Known<Temperature>,
    /// Changes of air in an hour with everything shut.
    pub air_changes: Known<f64>,
    /// Air through openings that are always open.
    pub vents: Airflow,
    /// What leaves by each way, largest first; the sum is `total`.
    pub leaving: Vec<Leaving>,
    /// All of it.
    pub total: Power,
    /// Share of it that people and what they do give back, not counted.
    pub people: Power,
    /// Heater that also warms the room up: low and high end of what is advised.
    pub advised: (Power, Power),
    /// Heaters aboard.
    pub heaters: Vec<HeaterFound>,
    /// What they give together.
    pub there: Power,
    /// Warming up with them; `None` without a heater.
    pub warm_up: Option<WarmUp>,
}

/// A heater aboard.
#[derive(Debug, Clone, PartialEq)]
pub struct HeaterFound {
    /// The item.
    pub item: Id,
    /// Heat at full power.
    pub heat: Known<Power>,
}

/// What leaves by one way.
#[derive(Debug, Clone, PartialEq)]
pub struct Leaving {
    /// Which way.
    pub by: LeavingBy,
    /// How much.
    pub heat: Power,
    /// Share of all.
    pub share: Ratio,
}

/// A way for heat to leave.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum LeavingBy {
    /// Through a side.
    Side(Side),
    /// Through an opening that is shut.
    Opening(Id),
    /// With air through gaps.
    Leaks,
    /// With air through openings that are always open.
    Vents,
}

/// From the air outside to the air inside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WarmUp {
    /// Heat that air and lining take up \[J/K\]; what stands in the room takes up more.
    pub joules_per_kelvin: f64,
    /// How long it takes; `None` when the heaters never get there.
    pub time: Option<Duration>,
}
