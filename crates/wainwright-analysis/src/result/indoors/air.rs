//! Air through a night. Not here: the heat that it carries.

use crate::known::Known;
use wainwright_model::Id;
use wainwright_units::{Airflow, Area, Duration, Length, Ratio, Temperature};

/// Air through a night for those who sleep in the room.
#[derive(Debug, Clone, PartialEq)]
pub struct FreshAir {
    /// How long they sleep.
    pub night: Duration,
    /// Carbon dioxide of all together [L/s].
    pub made_litres_per_second: f64,
    /// Water of all together [g/h].
    pub water_grams_per_hour: f64,
    /// Carbon dioxide of the air outside \[ppm\].
    pub outside_ppm: f64,
    /// That of good air \[ppm\].
    pub good_ppm: f64,
    /// Most of it \[ppm\].
    pub most_ppm: f64,
    /// Air outside on a mild night, with which openings move least.
    pub outside: Temperature,
    /// Openings that are always open.
    pub openings: Vec<OpenPlace>,
    /// Low ones together, high ones together, and the height between them.
    pub low: Area,
    /// High ones together.
    pub high: Area,
    /// From the low ones to the high ones; `None` when they are all at one height.
    pub height: Option<Length>,
    /// The night with everything shut, with the openings, and with the fan.
    pub curves: Vec<AirCurve>,
    /// What keeps it below the most.
    pub needed: AirNeeded,
    /// Published guidance for openings that are always open: low, and high in a wall.
    pub guidance: Option<(Area, Area)>,
}

/// An opening that is always open.
#[derive(Debug, Clone, PartialEq)]
pub struct OpenPlace {
    /// The opening; `None` for those of `[living]`.
    pub opening: Option<Id>,
    /// Area clear of mesh.
    pub area: Area,
    /// Its middle above the floor; `None` when nobody said.
    pub above_floor: Option<Length>,
}

/// A night with air from somewhere.
#[derive(Debug, Clone, PartialEq)]
pub struct AirCurve {
    /// From where.
    pub from: AirFrom,
    /// How much.
    pub airflow: Airflow,
    /// Carbon dioxide by time: hours since they lay down, ppm.
    pub points: Vec<(f64, f64)>,
    /// At the end \[ppm\].
    pub end_ppm: f64,
    /// Where it would settle \[ppm\]; `None` without any air.
    pub steady_ppm: Option<f64>,
    /// Humidity where it would settle on the coldest night, by the breath of people alone; above one: water runs.
    pub humidity: Option<Ratio>,
}

/// Where air comes from; each counts those before it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum AirFrom {
    /// Gaps alone.
    Leaks,
    /// And openings that are always open, on a calm night.
    Openings,
    /// And the fan.
    Fan,
}

/// What would be enough.
#[derive(Debug, Clone, PartialEq)]
pub struct AirNeeded {
    /// Air that keeps the night below the most carbon dioxide.
    pub airflow: Option<Airflow>,
    /// Low and high opening, equally large, that bring it in calm air; `None` when not to be had.
    pub opening: Option<Area>,
    /// Height between them that was taken.
    pub height: Known<Length>,
    /// Air that keeps the humidity of `[living]` on the coldest night; `None` when outside is as humid.
    pub for_humidity: Option<Airflow>,
}
