//! Weather files taken in as twelve months, and which hours of a trip are night. Not here: reading such files and what
//! follows from them (engines), climates of the project (`trips`).

use crate::result::trip::TripHour;
use crate::trips::ClimateFound;
use wainwright_engines::climate::{MonthFacts, facts};
use wainwright_engines::sun::Place;
use wainwright_engines::weather::{LightAbove, MONTH_DAYS};
use wainwright_engines::weather_file::{self, Form};
use wainwright_model::Day;
use wainwright_units::{Altitude, Angle, Length, Speed, Temperature};

/// Most bytes of a file that are taken.
pub const MOST_WEATHER_BYTES: usize = weather_file::MOST_BYTES;

/// A weather file that was read.
#[derive(Debug, Clone, PartialEq)]
pub struct WeatherRead {
    /// Which form it has, as people call it.
    pub form: &'static str,
    /// Where it is from, as the file says.
    pub name: String,
    /// North positive, when it is known.
    pub latitude: Option<Angle>,
    /// East positive, when it is known.
    pub longitude: Option<Angle>,
    /// Above the sea, when it is known.
    pub altitude: Option<Altitude>,
    /// Hours its clock is ahead of universal time, when it is known.
    pub zone: Option<f64>,
    /// Rows that were read.
    pub rows: usize,
    /// What is wrong with it without making it useless.
    pub warnings: Vec<WeatherFault>,
    /// Its twelve months, January first; none when nobody said where it is from.
    pub months: Option<Vec<WeatherMonth>>,
}

/// A month of a weather file; everything may be unknown.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeatherMonth {
    /// Days with light.
    pub days: usize,
    /// Light on the ground over light above the air.
    pub clearness: Option<f64>,
    /// Light on flat ground \[kWh/(m² d)\].
    pub sun: Option<f64>,
    /// Mean temperature.
    pub mean: Option<Temperature>,
    /// Mean of the daily lows.
    pub coldest: Option<Temperature>,
    /// Mean of the daily highs.
    pub warmest: Option<Temperature>,
    /// Mean wind.
    pub wind: Option<Speed>,
}

/// One thing that is wrong with a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WeatherFault {
    /// Line, the first is 1; none for the file as a whole.
    pub line: Option<usize>,
    /// What was found.
    pub found: String,
    /// What was expected.
    pub expected: String,
    /// What to do.
    pub remedy: String,
}

/// Where a file is from, for one that does not say it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WeatherPlace {
    /// North positive.
    pub latitude: Angle,
    /// East positive.
    pub longitude: Angle,
    /// Above the sea.
    pub altitude: Altitude,
}

/// Reads a weather file; `given` stands in where the file does not say its place.
///
/// # Errors
/// Why the file is of no use, the weightiest first.
pub fn read_weather(
    bytes: &[u8],
    given: Option<WeatherPlace>,
) -> Result<WeatherRead, Vec<WeatherFault>> {
    let record = weather_file::read(bytes).map_err(|all| faults(&all))?;
    let said = given.map(|given| Place {
        latitude: given.latitude,
        longitude: given.longitude,
        altitude: Length::from_metres(given.altitude.metres()),
    });
    let place = record.site.place().or(said);
    let zone = record.site.zone_or_nearest();
    let months = match place {
        Some(place) => {
            let found = facts(&record, place, zone).map_err(|refusal| {
                vec![WeatherFault {
                    line: None,
                    found: refusal.to_string(),
                    expected: "a place on earth".into(),
                    remedy: "correct latitude and longitude".into(),
                }]
            })?;
            Some(found.iter().map(month).collect())
        }
        None => None,
    };
    let site = &record.site;
    let name = [&site.name, &site.region, &site.country];
    let name: Vec<&str> = name
        .into_iter()
        .map(|part| part.trim())
        .filter(|part| !part.is_empty() && *part != "-")
        .collect();
    Ok(WeatherRead {
        form: match record.form {
            Form::EnergyPlusWeather => "EPW",
            Form::TypicalYear => "TMY3",
            Form::Daily => "days",
        },
        name: name.join(", "),
        latitude: place.map(|place| place.latitude),
        longitude: place.map(|place| place.longitude),
        altitude: place.map(|place| Altitude::from_metres(place.altitude.metres())),
        zone,
        rows: record.rows,
        warnings: faults(&record.warnings),
        months,
    })
}

fn month(facts: &MonthFacts) -> WeatherMonth {
    WeatherMonth {
        days: facts.days,
        clearness: facts.clearness,
        sun: facts.global,
        mean: facts.mean,
        coldest: facts.low,
        warmest: facts.high,
        wind: facts.wind.map(Speed::from_metres_per_second),
    }
}

fn faults(all: &[weather_file::Fault]) -> Vec<WeatherFault> {
    let one = |fault: &weather_file::Fault| WeatherFault {
        line: (fault.line > 0).then_some(fault.line),
        found: fault.found.clone(),
        expected: fault.expected.clone(),
        remedy: fault.remedy.clone(),
    };
    all.iter().map(one).collect()
}

/// Month and day of the month of a day of a trip; 1 is the day it begins. Without a 29 February.
pub fn date_of(begins: Day, day: u32) -> (u32, u32) {
    let before = |month: u32| -> u32 { MONTH_DAYS.iter().take(month as usize - 1).sum() };
    let of_year = before(begins.month()) + begins.day() - 1;
    let mut left = (of_year + day.saturating_sub(1)) % 365;
    for (month, days) in (1..).zip(MONTH_DAYS) {
        if left < days {
            return (month, left + 1);
        }
        left -= days;
    }
    (12, 31)
}

/// Which hours of a trip are night: the sun is below the horizon all the time.
pub fn night(climate: &ClimateFound, begins: Day, hours: &[TripHour]) -> Vec<bool> {
    let mut today: Option<(u32, Option<LightAbove>)> = None;
    let mut dark = Vec::with_capacity(hours.len());
    for hour in hours {
        let light = match today {
            Some((day, light)) if day == hour.day => light,
            _ => {
                let (month, day) = date_of(begins, hour.day);
                LightAbove::new(climate.place, climate.zone, month, day).ok()
            }
        };
        today = Some((hour.day, light));
        dark.push(light.is_some_and(|light| light.hour(hour.hour) <= 0.0));
    }
    dark
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_of_a_trip_have_dates() {
        let begins = Day::new(2027, 12, 30).unwrap();
        assert_eq!(date_of(begins, 1), (12, 30));
        assert_eq!(date_of(begins, 3), (1, 1));
        assert_eq!(date_of(Day::new(2028, 2, 28).unwrap(), 2), (3, 1));
    }

    #[test]
    fn days_without_a_place_are_read_and_their_months_wait_for_it() {
        let mut text = String::from("date,ghi_kwh_m2\n");
        for day in 1..=31 {
            text.push_str(&format!("2025-07-{day:02},6.0\n"));
        }
        let read = read_weather(text.as_bytes(), None).unwrap();
        assert_eq!((read.rows, read.months.clone()), (31, None));
        let place = WeatherPlace {
            latitude: Angle::from_degrees(40.0),
            longitude: Angle::from_degrees(-105.0),
            altitude: Altitude::from_metres(1600.0),
        };
        let months = read_weather(text.as_bytes(), Some(place)).unwrap().months;
        let months = months.unwrap();
        assert_eq!(months[6].days, 31);
        // Above the air 40.8 MJ on a July day at 40° north (FAO Irrigation and Drainage Paper 56, table 2.6; memory).
        let clearness = months[6].clearness.unwrap();
        assert!((clearness - 6.0 / (40.8 / 3.6)).abs() < 0.03, "{clearness}");
        assert_eq!(months[0].clearness, None);
    }

    #[test]
    fn a_file_that_is_none_says_what_was_expected() {
        let faults = read_weather(b"hello", None).unwrap_err();
        assert_eq!(faults[0].line, Some(1));
        assert!(faults[0].expected.contains("GHI"), "{faults:?}");
    }
}
