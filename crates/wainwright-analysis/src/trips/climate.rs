//! A climate of the project as twelve complete months at a place. Not here: how days are made of them.

use crate::result::trip::NoOutlook;
use std::sync::OnceLock;
use wainwright_engines::climate::{
    Light, Month, MonthFacts, Monthly, TypedYear, Usual, YearSpread, from_facts, from_typed,
    nearest,
};
use wainwright_engines::refusal::Refusal;
use wainwright_engines::sun::Place;
use wainwright_engines::weather::Chain;
use wainwright_model::{Climate, FieldExt, Id, Project};
use wainwright_reference::climate as listed;
use wainwright_reference::{climate::Year, weather_chain};
use wainwright_units::{Length, Temperature, TemperatureDifference};

/// A climate of the project, complete.
#[derive(Debug, Clone, PartialEq)]
pub struct ClimateFound {
    /// Its id.
    pub id: Id,
    /// Name of the listed place its figures are from, when they are.
    pub listed: Option<String>,
    /// Where it is.
    pub place: Place,
    /// Hours its standard time is ahead of universal time.
    pub zone: f64,
    /// Its months.
    pub monthly: Monthly,
}

impl ClimateFound {
    /// A month, 1 is January; December for any other number.
    pub fn month(&self, month: u32) -> &Month {
        let months = &self.monthly.months;
        let last = months.len() - 1;
        &months[(month.saturating_sub(1) as usize).min(last)]
    }
}

/// The climate with this id, complete.
///
/// # Errors
/// [`NoOutlook::Missing`] for a climate that is not there or has no place, [`NoOutlook::Refused`] for figures that
/// cannot be.
pub fn climate_found(project: &Project, id: &str) -> Result<ClimateFound, NoOutlook> {
    let missing = |field: &str, wanted| NoOutlook::Missing {
        path: vec!["climate".into(), id.into(), field.into()],
        wanted,
    };
    let (key, climate) = project
        .climates
        .iter()
        .find(|(key, _)| key.as_str() == id)
        .ok_or_else(|| missing("", "a climate of this project"))?;
    let site = match climate.listed.value() {
        Some(name) => Some(
            listed::site(name)
                .ok_or_else(|| missing("listed", "the name of a place of the list"))?
                .value,
        ),
        None => None,
    };
    let place = place(climate, site.as_ref())
        .ok_or_else(|| missing("latitude", "a latitude, or a place of the list"))?;
    let longitude = place.longitude.degrees();
    let zone = climate
        .time_zone
        .value()
        .copied()
        .or(site.map(|site| site.zone))
        .unwrap_or_else(|| (longitude / 15.0).round());
    let usual = usual().ok_or_else(|| NoOutlook::Refused("the climate tables are empty".into()))?;
    let monthly = monthly(climate, site.map(|site| site.id), place, &usual)
        .map_err(|refusal| NoOutlook::Refused(refusal.to_string()))?;
    let monthly = with_spread(monthly, climate);
    Ok(ClimateFound {
        id: key.clone(),
        listed: site.map(|site| format!("{}, {}", site.name, site.region)),
        place,
        zone,
        monthly,
    })
}

/// Chains of daily clearness, read once.
pub(super) fn chains() -> &'static [Chain] {
    static CHAINS: OnceLock<Vec<Chain>> = OnceLock::new();
    CHAINS.get_or_init(|| {
        let chain = |row: wainwright_reference::Sourced<weather_chain::Chain>| Chain {
            up_to: row.value.up_to,
            lowest: row.value.lowest,
            highest: row.value.highest,
            rows: row.value.rows,
        };
        weather_chain::chains().into_iter().map(chain).collect()
    })
}

fn place(climate: &Climate, site: Option<&listed::Site>) -> Option<Place> {
    Some(Place {
        latitude: climate
            .latitude
            .value()
            .copied()
            .or(site.map(|site| site.latitude))?,
        longitude: climate
            .longitude
            .value()
            .copied()
            .or(site.map(|site| site.longitude))
            .unwrap_or(wainwright_units::Angle::ZERO),
        altitude: climate
            .altitude
            .value()
            .map(|altitude| Length::from_metres(altitude.metres()))
            .or(site.map(|site| site.altitude))
            .unwrap_or(Length::ZERO),
    })
}

/// Twelve months from what was typed, or from the listed place; what neither gives comes from the nearest listed one.
fn monthly(
    climate: &Climate,
    site: Option<&str>,
    place: Place,
    usual: &Usual,
) -> Result<Monthly, Refusal> {
    let light = twelve(climate.clearness.value())
        .map(Light::Clearness)
        .or(twelve(climate.sun.value()).map(Light::Global));
    let stand_in = site.map(str::to_owned).or_else(|| near(place));
    let facts = stand_in.map(|site| facts_of(&site));
    let mean = twelve(climate.mean.value()).or_else(|| {
        let facts = facts.as_ref()?;
        let mean: Vec<Temperature> = facts.iter().filter_map(|month| month.mean).collect();
        mean.try_into().ok()
    });
    match (light, mean) {
        (Some(light), Some(mean)) => {
            let cold = twelve(climate.coldest.value());
            let warm = twelve(climate.warmest.value());
            let extremes = cold
                .zip(warm)
                .map(|(cold, warm)| std::array::from_fn(|month| (cold[month], warm[month])));
            let wind = climate.wind.value().map(|all| {
                let sum: f64 = all.iter().map(|one| one.metres_per_second()).sum();
                sum / all.len().max(1) as f64
            });
            from_typed(
                &TypedYear {
                    light,
                    mean,
                    extremes,
                    wind,
                },
                place,
                usual,
            )
        }
        _ => {
            let mut facts = facts.unwrap_or_else(|| facts_from(&listed::default_months()));
            if let Some(mean) = twelve(climate.mean.value()) {
                for (month, mean) in facts.iter_mut().zip(mean) {
                    month.mean = Some(mean);
                }
            }
            from_facts(&facts, place, usual)
        }
    }
}

fn twelve<T: Copy>(values: Option<&Vec<T>>) -> Option<[T; 12]> {
    values?.as_slice().try_into().ok()
}

/// The nearest listed place of a like height.
fn near(place: Place) -> Option<String> {
    let sites = listed::sites();
    let places: Vec<Place> = sites
        .iter()
        .map(|site| Place {
            latitude: site.value.latitude,
            longitude: site.value.longitude,
            altitude: site.value.altitude,
        })
        .collect();
    let found = nearest(place, &places, listed::most_climb()?.value)?;
    Some(sites.get(found.index)?.value.id.to_owned())
}

fn facts_of(site: &str) -> [MonthFacts; 12] {
    facts_from(&listed::months(site))
}

fn facts_from(months: &[wainwright_reference::Sourced<listed::Month>]) -> [MonthFacts; 12] {
    let mut all = [MonthFacts::default(); 12];
    for (facts, month) in all.iter_mut().zip(months) {
        let month = month.value;
        *facts = MonthFacts {
            days: 30,
            clearness: month.clearness,
            clearness_deviation: month.clearness_deviation,
            clearness_memory: month.clearness_memory,
            global: Some(month.global),
            worst_three_days: month.worst_three_days,
            mean: Some(month.mean),
            low: Some(month.low),
            high: Some(month.high),
            deviation: Some(month.deviation),
            memory: None,
            lowest: Some(month.lowest),
            wind: Some(month.wind),
        };
    }
    all
}

/// A typed spread between years goes before the usual one.
fn with_spread(mut monthly: Monthly, climate: &Climate) -> Monthly {
    if let Some(spread) = climate.spread.value() {
        for month in &mut monthly.months {
            month.spread = spread.fraction();
        }
    }
    monthly
}

/// What stands in where a record says nothing.
fn usual() -> Option<Usual> {
    let deviation: Vec<TemperatureDifference> = (1..=12)
        .filter_map(|month| Some(listed::usual_deviation(month)?.value))
        .collect();
    Some(Usual {
        deviation: deviation.try_into().ok()?,
        memory: listed::temperature_memory()?.value,
        wind: listed::usual_wind()?.value,
        lowest_deviations: listed::lowest_deviations()?.value.usual,
        range_over_swing: listed::range_over_swing()?.value,
        spread: YearSpread {
            usual: listed::year_spread(Year::Usual)?.value,
            sunny: listed::year_spread(Year::Sunny)?.value,
            dull: listed::year_spread(Year::Dull)?.value,
            sunny_from: listed::sunny_from()?.value,
            dull_below: listed::dull_below()?.value,
        },
    })
}
