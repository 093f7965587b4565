//! Climate of places by month: light, temperature, wind; haze; what is taken when something is not known.
//!
//! Light is in kWh per m² and day on flat ground. Not here: weather of single days (`weather_chain`), equations (engines).

use wainwright_units::{Angle, Length, Temperature, TemperatureDifference};

use crate::id::ids;
use crate::mark::Sourced;
use crate::span::{Span, span};
use crate::store::{Topic, find, rows};
use crate::table::Row;

ids! {
    /// How much a month differs from year to year.
    Year {
        /// Most months.
        Usual = "usual",
        /// A sunny season or a desert.
        Sunny = "sunny",
        /// A cloudy winter.
        Dull = "dull",
    }
}

ids! {
    /// What lies around a place: it changes how light follows from the daily range of temperature.
    Setting {
        /// Land.
        Inland = "inland",
        /// A large body of water near by.
        Coast = "coast",
    }
}

/// A listed place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Site {
    /// Its id in project files.
    pub id: &'static str,
    /// Name of the town.
    pub name: &'static str,
    /// State or region.
    pub region: &'static str,
    /// Country.
    pub country: &'static str,
    /// Name of the station in the record.
    pub record: &'static str,
    /// Number of the station.
    pub station: &'static str,
    /// North positive.
    pub latitude: Angle,
    /// East positive.
    pub longitude: Angle,
    /// Above the sea.
    pub altitude: Length,
    /// Hours its clock is ahead of universal time [h].
    pub zone: f64,
}

/// One month at a place; none where the sun does not rise.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Month {
    /// 1 to 12.
    pub month: u32,
    /// Light on flat ground [kWh/(m² d)].
    pub global: f64,
    /// Light above the air [kWh/(m² d)].
    pub above: f64,
    /// Light on the ground over light above the air, 0 to 1.
    pub clearness: Option<f64>,
    /// Deviation of daily clearness.
    pub clearness_deviation: Option<f64>,
    /// How much a day's clearness keeps of the day before.
    pub clearness_memory: Option<f64>,
    /// Mean of the worst three days in a row over the mean of the month.
    pub worst_three_days: Option<f64>,
    /// Share of the light that comes from the sky rather than the sun's disc.
    pub diffuse_share: Option<f64>,
    /// Mean temperature.
    pub mean: Temperature,
    /// Mean of the daily lows.
    pub low: Temperature,
    /// Mean of the daily highs.
    pub high: Temperature,
    /// Deviation of daily means.
    pub deviation: TemperatureDifference,
    /// Coldest hour.
    pub lowest: Temperature,
    /// Mean wind, 10 m above an airfield [m/s].
    pub wind: f64,
}

/// Every listed place.
pub fn sites() -> Vec<Sourced<Site>> {
    rows(Topic::ClimateSites).filter_map(site_of).collect()
}

/// The listed place with this id.
pub fn site(id: &str) -> Option<Sourced<Site>> {
    site_of(find(Topic::ClimateSites, "id", id)?)
}

/// The twelve months of a listed place, January first; empty for an unknown id.
pub fn months(site: &str) -> Vec<Sourced<Month>> {
    rows(Topic::ClimateMonths)
        .filter(|row| row.text("site") == Some(site))
        .filter_map(month_of)
        .collect()
}

/// The twelve months taken when nothing is known of a place.
pub fn default_months() -> Vec<Sourced<Month>> {
    rows(Topic::ClimateDefault).filter_map(month_of).collect()
}

/// Latitude and altitude that go with [`default_months`].
pub fn default_place() -> Option<Sourced<(Angle, Length)>> {
    let altitude = constant("default-altitude-m")?.value;
    let latitude = constant("default-latitude")?;
    Some(latitude.map(|degrees| (Angle::from_degrees(degrees), Length::from_metres(altitude))))
}

/// Linke turbidity of a month, 1 to 12, over the United States.
pub fn turbidity(month: u32) -> Option<Sourced<f64>> {
    in_month(Topic::ClimateTurbidity, month)?.quantity("linke", |value| value)
}

/// Deviation of daily mean temperatures in a month, 1 to 12, of the northern half of the earth.
pub fn usual_deviation(month: u32) -> Option<Sourced<TemperatureDifference>> {
    in_month(Topic::ClimateDefault, month)?
        .quantity("deviation_k", TemperatureDifference::from_kelvins)
}

/// Deviation of a month's clearness from year to year, as a share of it.
pub fn year_spread(year: Year) -> Option<Sourced<f64>> {
    constant(&format!("year-spread-{year}"))
}

/// Clearness from which a month counts as sunny.
pub fn sunny_from() -> Option<Sourced<f64>> {
    constant("sunny-from")
}

/// Clearness below which a month counts as cloudy.
pub fn dull_below() -> Option<Sourced<f64>> {
    constant("dull-below")
}

/// Clearness per square root of a kelvin of daily range (Hargreaves), with its range.
pub fn swing_factor(setting: Setting) -> Option<Sourced<Span<f64>>> {
    span(
        find(
            Topic::ClimateConstants,
            "id",
            &format!("swing-factor-{setting}"),
        )?,
        |value| value,
    )
}

/// Deviation of a clearness found that way, in units of clearness.
pub fn swing_factor_error() -> Option<Sourced<f64>> {
    constant("swing-factor-error")
}

/// Mean of the daily ranges over the swing of the month's mean day.
pub fn range_over_swing() -> Option<Sourced<f64>> {
    constant("range-over-swing")
}

/// How much a day's mean temperature keeps of the day before.
pub fn temperature_memory() -> Option<Sourced<f64>> {
    constant("temperature-memory")
}

/// The coldest hour of a month below its mean daily low, in deviations of the daily mean.
pub fn lowest_deviations() -> Option<Sourced<Span<f64>>> {
    span(
        find(Topic::ClimateConstants, "id", "lowest-deviations")?,
        |value| value,
    )
}

/// Wind where none is known [m/s].
pub fn usual_wind() -> Option<Sourced<f64>> {
    constant("wind-m-s")
}

/// Largest difference in altitude to a listed place that may stand in for another.
pub fn most_climb() -> Option<Sourced<Length>> {
    Some(constant("most-climb-m")?.map(Length::from_metres))
}

fn constant(id: &str) -> Option<Sourced<f64>> {
    find(Topic::ClimateConstants, "id", id)?.quantity("usual", |value| value)
}

fn in_month(topic: Topic, month: u32) -> Option<Row> {
    rows(topic).find(|row| row.number("month") == Some(f64::from(month)))
}

fn site_of(row: Row) -> Option<Sourced<Site>> {
    Some(row.sourced(Site {
        id: row.text("id")?,
        name: row.text("name")?,
        region: row.text("region")?,
        country: row.text("country")?,
        record: row.text("record")?,
        station: row.text("station")?,
        latitude: Angle::from_degrees(row.number("latitude")?),
        longitude: Angle::from_degrees(row.number("longitude")?),
        altitude: Length::from_metres(row.number("altitude_m")?),
        zone: row.number("zone_h")?,
    }))
}

fn month_of(row: Row) -> Option<Sourced<Month>> {
    let celsius = |column| row.number(column).map(Temperature::from_celsius);
    Some(row.sourced(Month {
        month: row.number("month")? as u32,
        global: row.number("global_kwh")?,
        above: row.number("above_kwh")?,
        clearness: row.number("clearness"),
        clearness_deviation: row.number("clearness_deviation"),
        clearness_memory: row.number("clearness_memory"),
        worst_three_days: row.number("worst_three_days"),
        diffuse_share: row.number("diffuse_share"),
        mean: celsius("mean_c")?,
        low: celsius("low_c")?,
        high: celsius("high_c")?,
        deviation: TemperatureDifference::from_kelvins(row.number("deviation_k")?),
        lowest: celsius("lowest_c")?,
        wind: row.number("wind_m_s")?,
    }))
}
