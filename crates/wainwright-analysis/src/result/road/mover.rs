//! What pulling it asks of coupler, brakes and fuel.

use crate::known::Known;
use wainwright_reference::Source;
use wainwright_reference::brake_law::BrakeLaw;
use wainwright_units::{Area, Force, Mass, Ratio, Speed, Volume};

/// The D value.
#[derive(Debug, Clone, PartialEq)]
pub struct PullCheck {
    /// What the outfit asks \[N\].
    pub asked: Force,
    /// The coupler's \[N\].
    pub rated: Known<Force>,
    /// Mass of the tow vehicle that was used: the most it may weigh.
    pub vehicle: Mass,
    /// Mass of the trailer that was used: the most it may weigh, or its heaviest state.
    pub trailer: Mass,
}

/// The front of the trailer.
#[derive(Debug, Clone, PartialEq)]
pub struct FrontalCheck {
    /// Width times height of the box, walls counted where their thickness is given \[m²\].
    pub actual: Area,
    /// The tow vehicle's limit.
    pub limit: Known<Area>,
    /// Limit minus front \[m²\].
    pub left: Area,
    /// Share used.
    pub used: Ratio,
}

/// One law on brakes.
#[derive(Debug, Clone, PartialEq)]
pub struct BrakeCheck {
    /// The law: place, whom it is for, mass, date.
    pub law: BrakeLaw,
    /// Where it was read.
    pub source: &'static Source,
    /// Whether the trailer's gross rating asks for brakes; `None` when it is not given.
    pub by_rating: Option<bool>,
    /// Whether its heaviest state asks for brakes; `None` without states.
    pub by_load: Option<bool>,
    /// Whether the bare trailer does already; `None` without states.
    pub by_bare: Option<bool>,
}

/// Fuel alone and with the trailer; an estimate.
#[derive(Debug, Clone, PartialEq)]
pub struct FuelResult {
    /// Speed it is for.
    pub speed: Speed,
    /// The vehicle alone.
    pub alone: FuelFigures,
    /// With the trailer, heaviest state.
    pub towing: FuelFigures,
}

/// Fuel of one outfit; an estimate.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FuelFigures {
    /// Force at the wheels \[N\].
    pub force: Force,
    /// Litres for 100 km.
    pub litres_per_100_km: f64,
    /// Miles on a US gallon.
    pub miles_per_gallon: f64,
}

/// Two outfits; an estimate.
#[derive(Debug, Clone, PartialEq)]
pub struct FuelCompared {
    /// Speed it is for.
    pub speed: Speed,
    /// The first outfit.
    pub first: FuelFigures,
    /// The second outfit.
    pub second: FuelFigures,
    /// What the second burns more over the distance.
    pub more: Volume,
    /// Fuel of the second over that of the first.
    pub ratio: f64,
}
