//! Hours of a trip in made-up weather: days, hours, light on the panels, their power, temperature.

use super::camper::MOST_FIELDS;
use super::hour::Hour;
use super::sun_path::{SunHour, SunPath};
use crate::solar_power::{Module, Mounting, ShadeBlocks, cell_temperature, module_power};
use crate::sun::{Glass, Ground, Orientation, PreparedPanel, split};
use crate::weather::{
    Chain, DailyAnomaly, MonthWanted, Randomness, hour_temperature, month, month_clearness_in_year,
    smooth_hours,
};
use wainwright_units::{Temperature, TemperatureDifference};

/// The panels of a field, taken together.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Panels {
    /// How they lie.
    pub orientation: Orientation,
    /// Rating of all of them.
    pub module: Module,
    /// How air cools them.
    pub mounting: Mounting,
    /// Their glass.
    pub glass: Glass,
    /// Light thrown back by the ground.
    pub ground: Ground,
    /// Light left on all of them by the time of day.
    pub shade: ShadeBlocks,
    /// Power left by the time of day when a shadow lies on a part of them.
    pub partial: ShadeBlocks,
}

/// A month at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Climate<'a> {
    /// Chains of daily clearness.
    pub chains: &'a [Chain],
    /// Mean clearness of the month.
    pub clearness: f64,
    /// How much this mean differs from year to year, as a share of it.
    pub spread: f64,
    /// Mean temperature.
    pub mean: Temperature,
    /// How days differ from it.
    pub anomaly: DailyAnomaly,
    /// Swing between the coldest and the warmest hour.
    pub swing: TemperatureDifference,
    /// Wind [m/s].
    pub wind: f64,
}

/// What the plan of a trip says about an hour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Happening {
    /// Whether the engine charges.
    pub driving: bool,
    /// Whether shore power is there.
    pub shore: bool,
    /// Whether there is a tap to fill from and a drain to empty into.
    pub tap: bool,
}

/// The plan of a trip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Schedule<'a> {
    /// Hour of the first day at which it starts, 0 to 23.
    pub first_hour: u32,
    /// Its hours, one after the other.
    pub hours: &'a [Happening],
}

/// A month at a place with a camper's panels: what is the same in all its trips.
#[derive(Debug, Clone, PartialEq)]
pub struct Season<'a> {
    path: &'a SunPath,
    above: Vec<f64>,
    climate: Climate<'a>,
    fields: Vec<(Panels, PreparedPanel)>,
}

impl<'a> Season<'a> {
    /// Prepares a month; of the fields, the first four count.
    #[must_use]
    pub fn new(path: &'a SunPath, climate: Climate<'a>, panels: &[Panels]) -> Season<'a> {
        let prepared = |field: &Panels| {
            let prepared = PreparedPanel::new(field.orientation, field.ground, field.glass);
            (*field, prepared)
        };
        Season {
            path,
            above: path.above(),
            climate,
            fields: panels.iter().take(MOST_FIELDS).map(prepared).collect(),
        }
    }

    /// The hours of a trip in one draw of the weather.
    #[must_use]
    pub fn hours(&self, schedule: &Schedule<'_>, random: &mut Randomness) -> Vec<Hour> {
        let mut hours = Vec::new();
        self.fill(schedule, random, &mut hours);
        hours
    }

    /// The same into a list that is used again and again.
    ///
    /// Shorter than the schedule when the sun's path ends before it, and empty without chains.
    pub fn fill(&self, schedule: &Schedule<'_>, random: &mut Randomness, hours: &mut Vec<Hour>) {
        let first = schedule.first_hour as usize;
        self.draw(first, schedule.hours.len(), random, hours);
        for (hour, happening) in hours.iter_mut().zip(schedule.hours) {
            hour.driving = happening.driving;
            hour.shore = happening.shore;
            hour.tap = happening.tap;
        }
    }

    /// So many hours from one on. The year's clearness is drawn first, then the days of the whole
    /// path.
    fn draw(&self, first: usize, count: usize, random: &mut Randomness, hours: &mut Vec<Hour>) {
        hours.clear();
        let climate = &self.climate;
        let wanted = MonthWanted {
            mean: month_clearness_in_year(climate.clearness, climate.spread, random),
            above: &self.above,
        };
        let mut anomaly = climate.anomaly.deviation * random.normal();
        let days = month(climate.chains, wanted, random);
        let wanted_hours = first..first.saturating_add(count);
        for (number, (clearness, day)) in days.iter().zip(self.path.days()).enumerate() {
            let sines = day.map(|hour| hour.sine);
            let lights = day.map(|hour| hour.above);
            let shares = smooth_hours(*clearness, &sines, &lights);
            let mean = climate.mean + anomaly;
            for (at, (share, sun)) in shares.into_iter().zip(day).enumerate() {
                if wanted_hours.contains(&(24 * number + at)) {
                    let air = hour_temperature(mean, climate.swing, at as f64 + 0.5);
                    hours.push(self.hour(at as u32, share * sun.above, sun, air));
                }
            }
            anomaly = climate.anomaly.next(anomaly, random);
        }
    }

    fn hour(&self, hour_of_day: u32, global: f64, at: &SunHour, air: Temperature) -> Hour {
        let mut hour = Hour::dark(hour_of_day, air);
        if global <= 0.0 {
            return hour;
        }
        let sky = split(global, at.sun.zenith, at.day_of_year);
        let middle = f64::from(hour_of_day) + 0.5;
        let places = hour.light.iter_mut().zip(&mut hour.panel);
        for ((panels, prepared), (light, panel)) in self.fields.iter().zip(places) {
            let lit = prepared.lit(sky, at.sun, at.day_of_year);
            let left = panels.shade.at(middle).fraction();
            let wind = self.climate.wind;
            let cell = cell_temperature(air, lit.before.total() * left, wind, panels.mounting);
            *light = lit.behind.total() * left;
            *panel = module_power(panels.module, *light, cell) * panels.partial.at(middle);
        }
        hour
    }
}

/// All hours of a path in one draw of the weather, without driving, shore power or tap.
///
/// Empty when there are no chains.
pub fn made_up_hours(
    path: &SunPath,
    climate: &Climate<'_>,
    panels: &[Panels],
    random: &mut Randomness,
) -> Vec<Hour> {
    let mut hours = Vec::with_capacity(24 * path.days().len());
    Season::new(path, *climate, panels).draw(0, usize::MAX, random, &mut hours);
    hours
}
