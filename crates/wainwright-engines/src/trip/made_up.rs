//! Hours of a trip in made-up weather: days, hours, light on the panels, their power, temperature.

use super::hour::Hour;
use super::sun_path::{SunHour, SunPath};
use crate::solar_power::{Module, Mounting, ShadeBlocks, cell_temperature, module_power};
use crate::sun::{Glass, Ground, Orientation, PreparedPanel, split};
use crate::weather::{
    Chain, DailyAnomaly, MonthWanted, Randomness, hour_temperature, month, month_clearness_in_year,
    smooth_hours,
};
use wainwright_units::{Power, Temperature, TemperatureDifference};

/// The panels on the roof, taken together.
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
    /// Shade by the time of day.
    pub shade: ShadeBlocks,
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

/// The hours of a path in one draw of the weather, without driving, shore power or tap.
///
/// Empty when there are no chains. The year's clearness is drawn first, then the days.
pub fn made_up_hours(
    path: &SunPath,
    climate: &Climate<'_>,
    panels: &Panels,
    random: &mut Randomness,
) -> Vec<Hour> {
    let above = path.above();
    let wanted = MonthWanted {
        mean: month_clearness_in_year(climate.clearness, climate.spread, random),
        above: &above,
    };
    let prepared = PreparedPanel::new(panels.orientation, panels.ground, panels.glass);
    let mut anomaly = climate.anomaly.deviation * random.normal();
    let mut hours = Vec::with_capacity(24 * above.len());
    for (clearness, day) in month(climate.chains, wanted, random)
        .iter()
        .zip(path.days())
    {
        let sines = day.map(|hour| hour.sine);
        let lights = day.map(|hour| hour.above);
        let shares = smooth_hours(*clearness, &sines, &lights);
        let mean = climate.mean + anomaly;
        for (at, (share, sun)) in shares.into_iter().zip(day).enumerate() {
            let air = hour_temperature(mean, climate.swing, at as f64 + 0.5);
            hours.push(one_hour(
                at as u32,
                share * sun.above,
                sun,
                air,
                climate.wind,
                (panels, &prepared),
            ));
        }
        anomaly = climate.anomaly.next(anomaly, random);
    }
    hours
}

fn one_hour(
    hour_of_day: u32,
    global: f64,
    at: &SunHour,
    air: Temperature,
    wind: f64,
    (panels, prepared): (&Panels, &PreparedPanel),
) -> Hour {
    let mut hour = Hour {
        hour_of_day,
        air,
        panel: Power::ZERO,
        light: 0.0,
        driving: false,
        shore: false,
        tap: false,
    };
    if global <= 0.0 {
        return hour;
    }
    let sky = split(global, at.sun.zenith, at.day_of_year);
    let lit = prepared.lit(sky, at.sun, at.day_of_year);
    let left = panels.shade.at(f64::from(hour_of_day) + 0.5).fraction();
    let cell = cell_temperature(air, lit.before.total() * left, wind, panels.mounting);
    hour.light = lit.behind.total() * left;
    hour.panel = module_power(panels.module, hour.light, cell);
    hour
}
