//! Whole trips, in the plain form for one and in the prepared form for thousands.

use super::board::Switches;
use super::camper::{Camper, Start};
use super::electric::{Memory, electric};
use super::error::TripError;
use super::gear::{Gear, MOST_SOURCES, bounds, plain_cells, reject_camper, reject_start};
use super::hour::{Hour, HourResult};
use super::ready::{Ahead, Ready};
use super::totals::{Sums, Trip};
use super::water::Tanks;
use crate::battery::cells::{Cells, Plain};
use crate::battery::grid::Grid;

/// Longest trip [h].
const MOST_HOURS: usize = 100_000;

/// Hours that are made ready at once.
const DAY: usize = 24;

/// A camper prepared for thousands of trips; each is the same as with [`simulate`], to rounding.
#[derive(Debug, Clone)]
pub struct Prepared<'a> {
    camper: Camper<'a>,
    gear: Gear<'a, Grid>,
}

impl<'a> Prepared<'a> {
    /// Prepares a camper.
    ///
    /// # Errors
    /// [`TripError::Input`] for a camper with a number that is none.
    pub fn new(camper: &Camper<'a>) -> Result<Prepared<'a>, TripError> {
        reject_camper(camper)?;
        let cells = Grid::new(plain_cells(camper), bounds(camper));
        Ok(Prepared {
            camper: *camper,
            gear: Gear::prepared(camper, cells),
        })
    }

    /// Runs a trip and keeps its sums.
    ///
    /// # Errors
    /// As [`simulate`].
    pub fn simulate(&self, start: Start, hours: &[Hour]) -> Result<Trip, TripError> {
        self.visit(start, hours, |_, _| ())
    }

    /// Runs a trip and shows every hour of it, with its number, to `see`.
    ///
    /// # Errors
    /// As [`simulate`].
    pub fn visit(
        &self,
        start: Start,
        hours: &[Hour],
        see: impl FnMut(usize, &HourResult),
    ) -> Result<Trip, TripError> {
        run(&self.gear, &self.camper, start, hours, see)
    }
}

/// Runs a trip and keeps its sums.
///
/// # Errors
/// [`TripError::Input`] for an hour with a number that is none, [`TripError::TooMany`] beyond
/// 100,000 hours, [`TripError::NotConserved`] for a fault of the calculation.
pub fn simulate(camper: &Camper<'_>, start: Start, hours: &[Hour]) -> Result<Trip, TripError> {
    plainly(camper, start, hours, |_, _| ())
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
    let trip = plainly(camper, start, hours, |_, hour| all.push(*hour))?;
    Ok((trip, all))
}

fn plainly(
    camper: &Camper<'_>,
    start: Start,
    hours: &[Hour],
    see: impl FnMut(usize, &HourResult),
) -> Result<Trip, TripError> {
    reject_camper(camper)?;
    let gear = Gear::<Plain<'_>>::plain(camper);
    run(&gear, camper, start, hours, see)
}

/// Chooses the form with room for the sources there are: small ones stay out of memory.
#[inline(always)]
fn run<C: Cells>(
    gear: &Gear<'_, C>,
    camper: &Camper<'_>,
    start: Start,
    hours: &[Hour],
    see: impl FnMut(usize, &HourResult),
) -> Result<Trip, TripError> {
    match gear.sources.len() {
        0 | 1 => run_with::<C, 1>(gear, camper, start, hours, see),
        2 => run_with::<C, 2>(gear, camper, start, hours, see),
        _ => run_with::<C, MOST_SOURCES>(gear, camper, start, hours, see),
    }
}

fn run_with<C: Cells, const N: usize>(
    gear: &Gear<'_, C>,
    camper: &Camper<'_>,
    start: Start,
    hours: &[Hour],
    mut see: impl FnMut(usize, &HourResult),
) -> Result<Trip, TripError> {
    if hours.len() > MOST_HOURS {
        return Err(TripError::TooMany {
            asked: hours.len(),
            most: MOST_HOURS,
        });
    }
    reject_start(start)?;
    let mut sums = Sums::starting(start.charge);
    let mut memory = Memory {
        charge: start.charge.fraction(),
        near: 0,
        cut_off: false,
        board: Switches::CLOSED,
        fuel: start.fuel.litres().clamp(0.0, gear.fuel_tank.max(0.0)),
    };
    let mut ahead = Ahead {
        cell: start.cell.celsius(),
        tanks: Tanks {
            fresh: start.fresh,
            waste: start.waste,
        },
    };
    // What the battery has no part in is worked out a day ahead.
    let mut ready = [Ready::<C::Warmth, N>::nothing(gear.cells.warmth(ahead.cell)); DAY];
    for (day, hours) in hours.chunks(DAY).enumerate() {
        let first = day * DAY;
        for (at, (hour, ready)) in hours.iter().zip(&mut ready).enumerate() {
            if let Some(found) = ahead.next(gear, hour, ready) {
                return Err(TripError::Input {
                    hour: first + at,
                    found,
                });
            }
            sums.add_ready(ready, first + at);
        }
        for (at, ready) in ready.iter().take(hours.len()).enumerate() {
            let (result, check) = electric(gear, &mut memory, ready);
            sums.add(&result, check, first + at);
            see(first + at, &result);
        }
    }
    sums.finish(gear, camper, hours.len())
}
