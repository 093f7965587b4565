//! A whole trip, and its sums.

use super::camper::{Camper, Start};
use super::error::TripError;
use super::hour::{Battery, Hour, HourResult, electric};
use super::water::Tanks;
use wainwright_units::{Energy, Ratio, Volume};

/// Longest trip [h].
const MOST_HOURS: usize = 100_000;

/// Sums over a trip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Totals {
    /// Solar energy after the controller, used or not [Wh].
    pub solar: Energy,
    /// Energy from the alternator's charger [Wh].
    pub alternator: Energy,
    /// Energy that charger took from the engine [Wh].
    pub alternator_input: Energy,
    /// Energy from the shore charger [Wh].
    pub shore: Energy,
    /// Energy that charger took from the shore [Wh].
    pub shore_input: Energy,
    /// Energy the loads wanted [Wh].
    pub wanted: Energy,
    /// Energy they did not get [Wh].
    pub unserved: Energy,
    /// Solar energy nobody could use [Wh].
    pub spilled: Energy,
    /// Change of the energy in the cells [Wh].
    pub stored: Energy,
    /// Heat and lost charge of the battery [Wh].
    pub lost: Energy,
    /// Water wanted and not there [L].
    pub water_missing: Volume,
    /// Waste water without room [L].
    pub waste_spilled: Volume,
}

/// What became of a trip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Trip {
    /// Sums.
    pub totals: Totals,
    /// Lowest state of charge at the end of an hour, or at the start.
    pub lowest: Ratio,
    /// State of charge at the end.
    pub charge: Ratio,
    /// First hour with a load unserved, counted from 0.
    pub first_outage: Option<usize>,
    /// Hours with a load unserved.
    pub outage_hours: usize,
    /// First hour with water missing, counted from 0.
    pub first_dry: Option<usize>,
    /// Energy left over in the sums, which is rounding [Wh].
    pub residual: f64,
}

/// Runs a trip and keeps its sums.
///
/// # Errors
/// [`TripError::Input`] for an hour with a number that is none, [`TripError::TooMany`] beyond
/// 100,000 hours, [`TripError::NotConserved`] for a fault of the calculation.
pub fn simulate(camper: &Camper<'_>, start: Start, hours: &[Hour]) -> Result<Trip, TripError> {
    run(camper, start, hours, |_| ())
}

/// Runs a trip and keeps every hour of it.
///
/// # Errors
/// As [`simulate`].
pub fn simulate_hours(
    camper: &Camper<'_>,
    start: Start,
    hours: &[Hour],
) -> Result<(Trip, Vec<HourResult>), TripError> {
    let mut all = Vec::with_capacity(hours.len().min(MOST_HOURS));
    let trip = run(camper, start, hours, |hour| all.push(hour))?;
    Ok((trip, all))
}

fn run(
    camper: &Camper<'_>,
    start: Start,
    hours: &[Hour],
    mut keep: impl FnMut(HourResult),
) -> Result<Trip, TripError> {
    if hours.len() > MOST_HOURS {
        return Err(TripError::TooMany {
            asked: hours.len(),
            most: MOST_HOURS,
        });
    }
    reject_camper(camper, start)?;
    let mut trip = Trip::starting(start.charge);
    let mut battery = Battery {
        charge: start.charge,
        cell: start.cell,
        cut_off: false,
    };
    let mut tanks = Tanks {
        fresh: start.fresh,
        waste: start.waste,
    };
    for (at, hour) in hours.iter().enumerate() {
        reject_nonsense(hour, at)?;
        let mut result = electric(camper, &mut battery, hour, at)?;
        let water = camper.water.hour(&mut tanks, hour.hour_of_day, hour.tap);
        result.water_missing = water.missing;
        result.waste_spilled = water.spilled;
        result.fresh = tanks.fresh;
        result.waste = tanks.waste;
        trip.add(&result, at);
        keep(result);
    }
    trip.finish(camper, hours.len())
}

fn reject_camper(camper: &Camper<'_>, start: Start) -> Result<(), TripError> {
    let capacity = camper.pack.capacity.ampere_hours();
    let charge = start.charge.fraction();
    let numbers = [capacity, start.cell.celsius(), camper.reconnect.fraction()];
    let found = if capacity <= 0.0 || camper.pack.series == 0 {
        "the battery has no capacity or no cells"
    } else if numbers.iter().any(|number| !number.is_finite()) {
        "a number of the battery or of the start is none"
    } else if !(0.0..=1.0).contains(&charge) {
        "the charge at the start is not between empty and full"
    } else {
        return Ok(());
    };
    Err(TripError::Input { hour: 0, found })
}

fn reject_nonsense(hour: &Hour, at: usize) -> Result<(), TripError> {
    let found = if !hour.air.is_finite() {
        "the air temperature is no number"
    } else if !(hour.panel.is_finite() && hour.panel.watts() >= 0.0) {
        "the panel power is no number or below zero"
    } else if !hour.light.is_finite() {
        "the light is no number"
    } else {
        return Ok(());
    };
    Err(TripError::Input { hour: at, found })
}

impl Trip {
    fn starting(charge: Ratio) -> Trip {
        Trip {
            totals: Totals::NONE,
            lowest: charge,
            charge,
            first_outage: None,
            outage_hours: 0,
            first_dry: None,
            residual: 0.0,
        }
    }

    fn add(&mut self, hour: &HourResult, at: usize) {
        let totals = &mut self.totals;
        totals.solar += hour.solar;
        totals.alternator += hour.alternator;
        totals.shore += hour.shore;
        totals.wanted += hour.wanted;
        totals.unserved += hour.unserved;
        totals.spilled += hour.spilled;
        totals.stored += hour.stored;
        totals.lost += hour.lost;
        totals.water_missing += hour.water_missing;
        totals.waste_spilled += hour.waste_spilled;
        self.charge = hour.charge;
        self.lowest = self.lowest.min(hour.charge);
        if hour.unserved > Energy::ZERO {
            self.outage_hours += 1;
            self.first_outage.get_or_insert(at);
        }
        if hour.water_missing > Volume::ZERO {
            self.first_dry.get_or_insert(at);
        }
    }

    /// Energy in = served + stored + lost + spilled, over the whole trip.
    fn finish(mut self, camper: &Camper<'_>, hours: usize) -> Result<Trip, TripError> {
        let totals = &mut self.totals;
        let input = |output: Energy, charger: Option<super::Charger>| match charger {
            Some(charger) if output != Energy::ZERO => output / charger.efficiency.fraction(),
            _ => Energy::ZERO,
        };
        totals.alternator_input = input(totals.alternator, camper.alternator);
        totals.shore_input = input(totals.shore, camper.shore);
        let given = totals.solar + totals.alternator + totals.shore;
        let taken = totals.wanted - totals.unserved + totals.stored + totals.lost;
        self.residual = (given - taken - totals.spilled).watt_hours();
        let through = given.watt_hours() + totals.wanted.watt_hours();
        if self.residual.abs() <= 1e-9 * (1.0 + through) {
            return Ok(self);
        }
        Err(TripError::NotConserved {
            hour: hours,
            watt_hours: self.residual,
        })
    }
}

impl Totals {
    const NONE: Totals = Totals {
        solar: Energy::ZERO,
        alternator: Energy::ZERO,
        alternator_input: Energy::ZERO,
        shore: Energy::ZERO,
        shore_input: Energy::ZERO,
        wanted: Energy::ZERO,
        unserved: Energy::ZERO,
        spilled: Energy::ZERO,
        stored: Energy::ZERO,
        lost: Energy::ZERO,
        water_missing: Volume::ZERO,
        waste_spilled: Volume::ZERO,
    };
}
