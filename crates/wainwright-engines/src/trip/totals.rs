//! Sums over a trip, and what became of it.

use super::camper::{Camper, Charger, MOST_FIELDS};
use super::electric::Check;
use super::error::TripError;
use super::gear::{Gear, MOST_SOURCES};
use super::hour::HourResult;
use super::ready::Ready;
use crate::battery::cells::Cells;
use wainwright_units::{Energy, Ratio, Temperature, Volume};

/// Energy that may be left over, as a share of what went through the bus, plus this many [Wh].
const MOST_LEFT_OVER: f64 = 1e-9;

/// Sums over a trip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Totals {
    /// Solar energy after the controller, used or not [Wh].
    pub solar: Energy,
    /// Energy drawn from each solar field [Wh].
    pub fields: [Energy; MOST_FIELDS],
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
    /// Fuel burnt [L].
    pub fuel_used: Volume,
    /// Fuel wanted and not there [L].
    pub fuel_missing: Volume,
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
    /// First hour in which a heater had not enough fuel, counted from 0.
    pub first_cold: Option<usize>,
    /// Hours in which the protection board opened the charging path because a cell was too high.
    pub board_trips: usize,
    /// Those of them in which the sun gave power, which then hits the loads.
    pub load_dumps: usize,
    /// Hours with sun in which no controller woke, the terminals being dead.
    pub asleep_hours: usize,
    /// Hours in which cold or heat kept an offered charge out.
    pub blocked_hours: usize,
    /// Charge taken out, in full batteries.
    pub cycles: f64,
    /// Mean state of charge at the ends of hours; the starting one without hours.
    pub mean_charge: Ratio,
    /// Mean temperature of the cells; zero degrees without hours.
    pub mean_cell: Temperature,
    /// Energy left over in the sums, which is rounding [Wh].
    pub residual: f64,
}

/// A trip that is being added up.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sums {
    trip: Trip,
    /// Sums of states of charge and of temperatures [°C].
    charges: f64,
    cells: f64,
    /// Given by each source, from the highest set point down [Wh].
    used: [f64; MOST_SOURCES],
    /// What the hours left over, and what went through the terminals of the battery, in size [Wh].
    left_over: f64,
    battery: f64,
}

impl Sums {
    pub(super) fn starting(charge: Ratio) -> Sums {
        Sums {
            trip: Trip {
                totals: Totals::NONE,
                lowest: charge,
                charge,
                first_outage: None,
                outage_hours: 0,
                first_dry: None,
                first_cold: None,
                board_trips: 0,
                load_dumps: 0,
                asleep_hours: 0,
                blocked_hours: 0,
                cycles: 0.0,
                mean_charge: charge,
                mean_cell: Temperature::from_celsius(0.0),
                residual: 0.0,
            },
            charges: 0.0,
            cells: 0.0,
            used: [0.0; MOST_SOURCES],
            left_over: 0.0,
            battery: 0.0,
        }
    }

    #[inline(always)]
    pub(super) fn add_ready<W, const N: usize>(&mut self, ready: &Ready<W, N>, at: usize) {
        let (trip, water) = (&mut self.trip, &ready.water);
        self.cells += ready.cell;
        trip.totals.water_missing += water.missing;
        trip.totals.waste_spilled += water.spilled;
        if water.missing.litres() > 0.0 {
            trip.first_dry.get_or_insert(at);
        }
    }

    #[inline(always)]
    pub(super) fn add<const N: usize>(&mut self, hour: &HourResult, check: Check<N>, at: usize) {
        let trip = &mut self.trip;
        trip.totals.add(hour);
        let drop = (trip.charge - hour.charge).fraction();
        trip.cycles += if drop > 0.0 { drop } else { 0.0 };
        trip.charge = hour.charge;
        if hour.charge.fraction() < trip.lowest.fraction() {
            trip.lowest = hour.charge;
        }
        self.charges += hour.charge.fraction();
        if hour.unserved.watt_hours() > 0.0 {
            trip.outage_hours += 1;
            trip.first_outage.get_or_insert(at);
        }
        if hour.fuel_missing.litres() > 0.0 {
            trip.totals.fuel_missing += hour.fuel_missing;
            trip.first_cold.get_or_insert(at);
        }
        if hour.board_trip || hour.asleep || hour.blocked {
            trip.board_trips += usize::from(hour.board_trip);
            trip.load_dumps += usize::from(hour.load_dump);
            trip.asleep_hours += usize::from(hour.asleep);
            trip.blocked_hours += usize::from(hour.blocked);
        }
        for (sum, used) in self.used.iter_mut().zip(check.used) {
            *sum += used;
        }
        self.left_over += check.left_over;
        self.battery += check.battery;
    }

    /// Energy in = served + stored + lost + spilled, hour by hour and over the whole trip.
    pub(super) fn finish<C: Cells>(
        mut self,
        gear: &Gear<'_, C>,
        camper: &Camper<'_>,
        hours: usize,
    ) -> Result<Trip, TripError> {
        let trip = &mut self.trip;
        let totals = &mut trip.totals;
        let [first, second, third, fourth, alternator, shore] = gear.by_place(&self.used);
        totals.fields = [first, second, third, fourth].map(Energy::from_watt_hours);
        totals.spilled = totals.solar - totals.fields.into_iter().sum::<Energy>();
        totals.alternator = Energy::from_watt_hours(alternator);
        totals.shore = Energy::from_watt_hours(shore);
        let input = |output: Energy, charger: Option<Charger>| match charger {
            Some(charger) if output != Energy::ZERO => output / charger.efficiency.fraction(),
            _ => Energy::ZERO,
        };
        totals.alternator_input = input(totals.alternator, camper.alternator);
        totals.shore_input = input(totals.shore, camper.shore);
        let given = totals.solar + totals.alternator + totals.shore;
        let taken = totals.wanted - totals.unserved + totals.stored + totals.lost;
        trip.residual = (given - taken - totals.spilled).watt_hours();
        if hours > 0 {
            trip.mean_charge = Ratio::from_fraction(self.charges / hours as f64);
            trip.mean_cell = Temperature::from_celsius(self.cells / hours as f64);
        }
        let through = (given + totals.wanted).watt_hours() + self.battery;
        let allowed = MOST_LEFT_OVER * (1.0 + through);
        let below_zero = -totals.spilled.watt_hours();
        if self.left_over <= allowed && trip.residual.abs() <= allowed && below_zero <= allowed {
            return Ok(self.trip);
        }
        Err(TripError::NotConserved {
            hours,
            watt_hours: self.left_over.max(trip.residual.abs()),
        })
    }
}

impl Totals {
    const NONE: Totals = Totals {
        solar: Energy::ZERO,
        fields: [Energy::ZERO; MOST_FIELDS],
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
        fuel_used: Volume::ZERO,
        fuel_missing: Volume::ZERO,
    };

    #[inline(always)]
    fn add(&mut self, hour: &HourResult) {
        self.solar += hour.solar;
        self.wanted += hour.wanted;
        self.unserved += hour.unserved;
        self.stored += hour.stored;
        self.lost += hour.lost;
        self.fuel_used += hour.fuel_used;
    }
}
