//! The simulated trips of one month and what is counted in them. Not here: what is changed before (`helps`, `sizes`).

use super::bank::BEGINS_WITH;
use super::climate::chains;
use super::lower::TripInputs;
use crate::known::{Assumption, Basis};
use crate::result::trip::{
    Band, BankFound, Chance, EnergyShare, EnergyShares, FieldFound, GuardFound, Help, MonthChance,
    NoOutlook, RunsOut, TripOdds, TripOutlook, WeatherFound,
};
use wainwright_engines::battery::{CalendarAgeing, CycleAgeing};
use wainwright_engines::solar_power::{cell_temperature, charge_power, module_power};
use wainwright_engines::sun::{Moment, PreparedPanel, clear_sky};
use wainwright_engines::trip::{
    Bands, Camper, Hour, Load, Panels, Prepared, Schedule, Season, Shares, Solar, Start, SunPath,
    Trip, TripError, interval, spread,
};
use wainwright_engines::weather::Randomness;
use wainwright_reference::climate::turbidity;
use wainwright_units::{Duration, Energy, Ratio, Volume};

/// Hours of a year, for ageing by standing.
const YEAR_HOURS: f64 = 8766.0;

/// A basis for stand-ins that are usual.
pub(super) fn usual() -> Basis {
    Basis::Assumed(Assumption::UsualForKind)
}

/// A sentence from any engine.
fn refused(error: impl ToString) -> NoOutlook {
    NoOutlook::Refused(error.to_string())
}

/// Trips of one month, ready to be run.
pub(super) struct Runs<'a> {
    inputs: &'a TripInputs,
    path: SunPath,
    month: u32,
    runs: usize,
    seed: u64,
}

/// What ran out on a trip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Outcome {
    pub(super) energy: bool,
    pub(super) water: bool,
    pub(super) waste: bool,
}

/// Odds of energy alone, and the balance of a mean day.
pub(super) struct EnergyFound {
    pub(super) chance: Chance,
    pub(super) sun_of_a_day: Energy,
    pub(super) used_of_a_day: Energy,
}

/// Everything counted in the trips of the trip's own month.
pub(super) struct Whole {
    charge: Vec<Band>,
    fresh: Vec<Band>,
    waste: Vec<Band>,
    fuel: Vec<Band>,
    trips: Vec<Trip>,
    shares: Shares,
    fields: Vec<FieldFound>,
}

impl<'a> Runs<'a> {
    /// Trips that begin on the trip's own day, in its own month or in the middle of another.
    pub(super) fn of(
        inputs: &'a TripInputs,
        month: u32,
        runs: usize,
        seed: u64,
    ) -> Result<Self, NoOutlook> {
        let begins = inputs.begins;
        let (begin_month, day) = if month == inputs.month() {
            (begins.month(), begins.day())
        } else {
            (month, 15u32.saturating_sub(inputs.hours.nights / 2).max(1))
        };
        let midnight = Moment::from_utc(begins.year(), begin_month, day, -inputs.climate.zone)
            .map_err(refused)?;
        let path =
            SunPath::new(inputs.climate.place, midnight, inputs.hours.days()).map_err(refused)?;
        Ok(Self {
            inputs,
            path,
            month,
            runs,
            seed,
        })
    }

    /// Runs every trip and hands each to `seen`, with the camper and its hours.
    fn each(
        &self,
        mut seen: impl FnMut(usize, &Camper<'_>, &Prepared<'_>, Start, &[Hour]) -> Result<(), TripError>,
    ) -> Result<(), NoOutlook> {
        let inputs = self.inputs;
        let tables = inputs.bank.tables();
        let solar: Vec<Solar> = inputs.fields.iter().map(|field| field.solar).collect();
        let panels: Vec<Panels> = inputs.fields.iter().map(|field| field.panels).collect();
        let loads: Vec<Load> = inputs.uses.iter().map(|one| one.load).collect();
        let camper = Camper {
            pack: tables.pack(),
            limits: inputs.bank.limits(),
            charge_bands: inputs.bank.charge_bands(),
            cell_lag: inputs.bank.cell_lag,
            reconnect: inputs.bank.reconnect,
            guard: inputs.bank.guard,
            solar: &solar,
            alternator: inputs.sources.alternator,
            shore: inputs.sources.shore,
            loads: &loads,
            water: inputs.water.water,
            fuel_tank: inputs.water.fuel,
        };
        let prepared = Prepared::new(&camper).map_err(refused)?;
        let climate = inputs.climate.month(self.month).for_trips(chains());
        let season = Season::new(&self.path, climate, &panels);
        let schedule = Schedule {
            first_hour: inputs.hours.first_hour,
            hours: &inputs.hours.happenings,
        };
        let start = Start {
            charge: inputs.charge(),
            cell: climate.mean,
            fresh: inputs.water.fresh,
            waste: Volume::ZERO,
            fuel: inputs.water.fuel,
        };
        let mut hours = Vec::new();
        for run in 0..self.runs {
            let mut random = Randomness::new(self.seed, run as u64);
            season.fill(&schedule, &mut random, &mut hours);
            seen(run, &camper, &prepared, start, &hours).map_err(refused)?;
        }
        Ok(())
    }

    /// Whether energy and water ran out, for each trip.
    pub(super) fn ran_out(&self) -> Result<Vec<Outcome>, NoOutlook> {
        let mut all = Vec::with_capacity(self.runs);
        self.each(|_, _, prepared, start, hours| {
            let trip = prepared.simulate(start, hours)?;
            all.push(Outcome {
                energy: trip.first_outage.is_some(),
                water: trip.first_dry.is_some(),
                waste: trip.totals.waste_spilled > Volume::ZERO,
            });
            Ok(())
        })?;
        Ok(all)
    }

    /// Trips on which energy ran out.
    pub(super) fn energy_out(&self) -> Result<usize, NoOutlook> {
        let mut out = 0;
        self.each(|_, _, prepared, start, hours| {
            out += usize::from(prepared.simulate(start, hours)?.first_outage.is_some());
            Ok(())
        })?;
        Ok(out)
    }

    /// Odds that energy runs out, and the balance of a mean day.
    pub(super) fn energy(&self) -> Result<EnergyFound, NoOutlook> {
        let mut out = 0;
        let (mut sun, mut used) = (Energy::ZERO, Energy::ZERO);
        self.each(|_, _, prepared, start, hours| {
            let trip = prepared.simulate(start, hours)?;
            out += usize::from(trip.first_outage.is_some());
            sun += trip.totals.solar;
            used += trip.totals.wanted;
            Ok(())
        })?;
        let days = self.runs.max(1) as f64 * self.inputs.hours.length();
        Ok(EnergyFound {
            chance: chance(out, self.runs),
            sun_of_a_day: sun * (1.0 / days),
            used_of_a_day: used * (1.0 / days),
        })
    }

    /// Everything.
    pub(super) fn whole(&self) -> Result<Whole, NoOutlook> {
        let count = self.inputs.hours.happenings.len();
        let new = || Bands::new(self.runs, count);
        let (mut charge, mut fresh, mut waste, mut fuel) = (new(), new(), new(), new());
        let mut trips = Vec::with_capacity(self.runs);
        let mut shares: Option<Shares> = None;
        self.each(|run, camper, prepared, start, hours| {
            let shares = shares.get_or_insert_with(|| Shares::new(camper));
            let done = prepared.visit(start, hours, |at, seen| {
                charge.set(run, at, seen.charge.fraction());
                fresh.set(run, at, seen.fresh.litres());
                waste.set(run, at, seen.waste.litres());
                fuel.set(run, at, seen.fuel.litres());
                shares.add(camper, &hours[at], seen);
            })?;
            trips.push(done);
            Ok(())
        })?;
        let shares = shares.ok_or_else(|| refused("no trip was run"))?;
        let water = self.inputs.water.water;
        let there = |tank: Volume, bands: Bands| {
            if tank > Volume::ZERO {
                shown(bands)
            } else {
                Vec::new()
            }
        };
        Ok(Whole {
            charge: shown(charge),
            fresh: there(water.fresh_tank, fresh),
            waste: there(water.waste_tank, waste),
            fuel: if self.inputs.water.fuel_is_known {
                shown(fuel)
            } else {
                Vec::new()
            },
            fields: self.fields(&trips),
            trips,
            shares,
        })
    }

    /// What each field gives on a mean day and on a clear one.
    fn fields(&self, trips: &[Trip]) -> Vec<FieldFound> {
        let days = trips.len().max(1) as f64 * self.inputs.hours.length();
        let given = |at: usize| -> Energy { trips.iter().map(|trip| trip.totals.fields[at]).sum() };
        let all = self.inputs.fields.iter().enumerate();
        all.filter_map(|(at, field)| {
            Some(FieldFound {
                controller: field.controller.clone()?,
                modules: field.modules.clone(),
                rated: field.rated,
                shade: field.shade,
                left: field.solar.left,
                mean_day: given(at) * (1.0 / days),
                clear_day: self.clear_day(&field.panels, &field.solar),
            })
        })
        .collect()
    }

    /// Energy of the first whole day under a clear sky.
    fn clear_day(&self, panels: &Panels, solar: &Solar) -> Energy {
        let climate = self.inputs.climate.month(self.month);
        let turbid = turbidity(self.month).map_or(3.5, |row| row.value);
        let prepared = PreparedPanel::new(panels.orientation, panels.ground, panels.glass);
        let volts = self.inputs.bank.nominal;
        let Some(day) = self.path.days().first() else {
            return Energy::ZERO;
        };
        let lit = day.iter().enumerate().filter(|(_, hour)| hour.sine > 0.0);
        lit.map(|(at, hour)| {
            let sky = clear_sky(
                hour.sun,
                hour.day_of_year,
                self.inputs.climate.place.altitude,
                turbid,
            );
            let light = prepared.lit(sky, hour.sun, hour.day_of_year);
            let left = panels.shade.at(at as f64 + 0.5).fraction();
            let cell = cell_temperature(
                climate.mean,
                light.before.total() * left,
                climate.wind,
                panels.mounting,
            );
            let behind = light.behind.total() * left;
            let made =
                module_power(panels.module, behind, cell) * panels.partial.at(at as f64 + 0.5);
            charge_power(solar.controller, made, behind, volts)
                * solar.left
                * Duration::from_hours(1.0)
        })
        .sum()
    }
}

impl TripInputs {
    /// Charge at the start.
    fn charge(&self) -> Ratio {
        self.begins_with.unwrap_or(BEGINS_WITH)
    }
}

impl Whole {
    pub(super) fn into_outlook(
        self,
        inputs: &TripInputs,
        helps: Vec<Help>,
        months: Vec<MonthChance>,
    ) -> TripOutlook {
        let runs = self.trips.len();
        let month = inputs.climate.month(inputs.month());
        let mean = |each: fn(&Trip) -> f64| -> f64 {
            self.trips.iter().map(each).sum::<f64>() / runs.max(1) as f64
        };
        let lowest = self
            .trips
            .iter()
            .map(|trip| trip.lowest.fraction())
            .collect();
        TripOutlook {
            trip: inputs.trip.clone(),
            hours: inputs.hours.shown(),
            runs,
            odds: self.odds(inputs),
            any: chance(self.trips.iter().filter(|trip| any(trip)).count(), runs),
            accepted: inputs.accepted.clone(),
            energy: self.energy(inputs),
            water_wanted: inputs.water.a_day * inputs.hours.length(),
            fuel_burnt: Volume::from_litres(mean(|trip| trip.totals.fuel_used.litres())),
            helps,
            months,
            lowest: spread(lowest).map_or_else(Band::default, band),
            guard: GuardFound {
                full_stops: mean(|trip| trip.board_trips as f64),
                load_dumps: mean(|trip| trip.load_dumps as f64),
                refused: mean(|trip| trip.blocked_hours as f64),
                asleep: mean(|trip| trip.asleep_hours as f64),
            },
            bank: BankFound {
                items: inputs.bank.items.clone(),
                capacity: inputs.bank.capacity,
                energy: inputs.bank.energy(),
                usable: inputs.bank.usable,
            },
            weather: WeatherFound {
                climate: inputs.climate.id.clone(),
                listed: inputs.climate.listed.clone(),
                month: inputs.month(),
                clearness: month.clearness,
                spread: month.spread,
                mean: month.mean,
            },
            wear: self.wear(inputs),
            unused: inputs.unused.clone(),
            assumptions: inputs.assumptions.clone(),
            charge: self.charge,
            fresh: self.fresh,
            waste: self.waste,
            fuel: self.fuel,
            fields: self.fields,
        }
    }

    fn odds(&self, inputs: &TripInputs) -> Vec<TripOdds> {
        let water = inputs.water.water;
        let mut all = vec![self.odds_of(inputs, RunsOut::Energy, |trip| trip.first_outage)];
        if water.fresh_tank > Volume::ZERO {
            all.push(self.odds_of(inputs, RunsOut::Water, |trip| trip.first_dry));
        }
        if water.waste_tank > Volume::ZERO {
            // Waste water runs over in the same way on every trip; its hour is that of the middle band.
            let over = self
                .trips
                .iter()
                .filter(|trip| trip.totals.waste_spilled > Volume::ZERO)
                .count();
            let full = self
                .waste
                .iter()
                .position(|band| band.middle >= water.waste_tank.litres() - 1e-6);
            let day = full.map(|at| f64::from(inputs.hours.day_and_hour(at).0));
            all.push(TripOdds {
                what: RunsOut::Waste,
                chance: chance(over, self.trips.len()),
                day: day.filter(|_| over > 0).map(|day| Band {
                    low: day,
                    middle: day,
                    high: day,
                }),
            });
        }
        if inputs.water.fuel_is_known {
            all.push(self.odds_of(inputs, RunsOut::Fuel, |trip| trip.first_cold));
        }
        all
    }

    fn odds_of(
        &self,
        inputs: &TripInputs,
        what: RunsOut,
        first: fn(&Trip) -> Option<usize>,
    ) -> TripOdds {
        let days: Vec<f64> = self
            .trips
            .iter()
            .filter_map(first)
            .map(|at| f64::from(inputs.hours.day_and_hour(at).0))
            .collect();
        TripOdds {
            what,
            chance: chance(days.len(), self.trips.len()),
            day: spread(days).map(band),
        }
    }

    fn energy(&self, inputs: &TripInputs) -> EnergyShares {
        let each = 1.0 / self.trips.len().max(1) as f64;
        let given = |item: Option<wainwright_model::Id>, label: &str, energy: Energy| EnergyShare {
            item,
            used: None,
            label: label.to_owned(),
            lost: Energy::ZERO,
            energy: energy * each,
        };
        let fields = inputs.fields.iter().zip(self.shares.fields);
        let mut sources: Vec<EnergyShare> = fields
            .map(|(field, energy)| given(field.controller.clone(), "Sun", energy))
            .collect();
        if inputs.sources.alternator.is_some() {
            sources.push(given(
                inputs.sources.alternator_item.clone(),
                "Tow vehicle",
                self.shares.alternator,
            ));
        }
        if inputs.sources.shore.is_some() {
            sources.push(given(
                inputs.sources.shore_item.clone(),
                "Shore power",
                self.shares.shore,
            ));
        }
        let taken = inputs
            .uses
            .iter()
            .zip(&self.shares.loads)
            .map(|(one, energy)| EnergyShare {
                item: one.item.clone(),
                used: one.used.clone(),
                label: one.label.clone(),
                lost: *energy * each * one.lost.fraction(),
                energy: *energy * each,
            });
        let mut taken: Vec<EnergyShare> = taken.collect();
        taken.sort_by(|a, b| b.energy.watt_hours().total_cmp(&a.energy.watt_hours()));
        EnergyShares {
            given: sources,
            taken,
            battery_losses: self.shares.battery_losses * each,
            from_battery: -(self.shares.stored * each),
            spilled: self.shares.spilled * each,
            unserved: self.shares.unserved * each,
        }
    }

    /// Loss by this trip's use and by a year of standing at its mean charge, for the measured chemistry.
    fn wear(&self, inputs: &TripInputs) -> Option<(Ratio, Ratio)> {
        if !inputs.bank.iron_phosphate || self.trips.is_empty() {
            return None;
        }
        let count = self.trips.len() as f64;
        let mean = |each: fn(&Trip) -> f64| self.trips.iter().map(each).sum::<f64>() / count;
        let cycles = mean(|trip| trip.cycles);
        let depth = Ratio::from_fraction(1.0 - mean(|trip| trip.lowest.fraction()));
        let rate = cycles / inputs.hours.happenings.len().max(1) as f64;
        let cell =
            wainwright_units::Temperature::from_celsius(mean(|trip| trip.mean_cell.celsius()));
        let charge = Ratio::from_fraction(mean(|trip| trip.mean_charge.fraction()));
        let year = Duration::from_hours(YEAR_HOURS);
        let by_use = CycleAgeing::IRON_PHOSPHATE.loss(rate, depth, cycles);
        Some((
            by_use,
            CalendarAgeing::IRON_PHOSPHATE.loss(charge, cell, year),
        ))
    }
}

/// Whether anything ran out on a trip.
fn any(trip: &Trip) -> bool {
    trip.first_outage.is_some() || trip.first_dry.is_some() || trip.first_cold.is_some()
}

/// Odds with their interval.
pub(super) fn chance(count: usize, runs: usize) -> Chance {
    let odds = interval(count, runs);
    Chance {
        share: odds.share,
        low: odds.low,
        high: odds.high,
    }
}

fn shown(bands: Bands) -> Vec<Band> {
    bands.by_hour().into_iter().map(band).collect()
}

fn band([low, middle, high]: [f64; 3]) -> Band {
    Band { low, middle, high }
}
