//! Weather files made up by the tests: a year of our own weather, written in each form.
#![allow(dead_code, reason = "each test file uses a part")]

use super::rows::{chains, rows};
use wainwright_engines::climate::{MonthFacts, Usual, YearSpread, facts};
use wainwright_engines::sun::Place;
use wainwright_engines::weather::*;
use wainwright_engines::weather_file::*;
use wainwright_units::*;

/// Clock of the place [h].
pub const ZONE: f64 = -7.0;

/// One hour as written: month, day, hour that begins, light, temperature, wind.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Written {
    pub month: u32,
    pub day: u32,
    pub hour: u32,
    pub light: f64,
    pub air: f64,
    pub wind: f64,
}

/// The place of the files.
pub fn place() -> Place {
    Place {
        latitude: Angle::from_degrees(39.83),
        longitude: Angle::from_degrees(-104.65),
        altitude: Length::from_metres(1650.0),
    }
}

/// A year of hours, with the light in whole Wh and the temperature in tenths, as files have them.
pub fn year(seed: u64) -> Vec<Written> {
    let chains = chains();
    let table = rows("climate_monthly.csv");
    let of_place = table
        .iter()
        .filter(|row| row.text("city").starts_with("Denver Intl"));
    let mut random = Randomness::new(seed, 0);
    let mut hours = Vec::new();
    for (row, (month, days)) in of_place.zip((1..=12).zip(MONTH_DAYS)) {
        let above: Vec<LightAbove> = (1..=days)
            .map(|day| LightAbove::new(place(), ZONE, month, day).unwrap())
            .collect();
        let whole: Vec<f64> = above.iter().map(LightAbove::day).collect();
        let wanted = MonthWanted {
            mean: row.number("kt"),
            above: &whole,
        };
        let swing = TemperatureDifference::from_kelvins(row.number("tmax") - row.number("tmin"));
        let law = DailyAnomaly {
            memory: 0.66,
            deviation: TemperatureDifference::from_kelvins(row.number("tsd")),
        };
        let mut anomaly = TemperatureDifference::ZERO;
        let clearness = wainwright_engines::weather::month(&chains, wanted, &mut random);
        for ((day, light), clearness) in (1..=days).zip(&above).zip(clearness) {
            anomaly = law.next(anomaly, &mut random);
            let mean = Temperature::from_celsius(row.number("tmean")) + anomaly;
            let lights: Vec<f64> = (0..24).map(|hour| light.hour(hour)).collect();
            let sines: Vec<f64> = lights.iter().map(|light| light / 1367.0).collect();
            let shares = smooth_hours(clearness, &sines, &lights);
            for hour in 0..24_u32 {
                let at = hour as usize;
                let air = hour_temperature(mean, swing, f64::from(hour) + 1.0).celsius();
                hours.push(Written {
                    month,
                    day,
                    hour,
                    light: (shares[at] * lights[at]).round(),
                    air: (10.0 * air).round() / 10.0,
                    wind: (10.0 * row.number("wind")).round() / 10.0,
                });
            }
        }
    }
    hours
}

/// Eight lines of header.
pub fn epw_head() -> String {
    [
        "LOCATION,Nowhere,CO,USA,TMY3,725650,39.83,-104.65,-7.0,1650.0",
        "DESIGN CONDITIONS,1,Made up,,Heating,12,-18.8,-15.5,-23.4,0.6,-12.4",
        "TYPICAL/EXTREME PERIODS,1,Summer - Week Nearest Max,Extreme,7/ 6,7/12",
        "GROUND TEMPERATURES,1,.5,1200,0.9,1300,1.03,0.45,2.1,4.5,10.9,16.4,20.4,22.1,20.8,17.1,11.9,6.4",
        "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0",
        "COMMENTS 1,Made up for a test",
        "COMMENTS 2,No real weather",
        "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31",
        "",
    ]
    .join("\n")
}

/// A row of 35 fields.
pub fn epw_row(written: &Written, year: u32, hour: &str, minute: u32) -> String {
    let Written {
        month,
        day,
        light,
        air,
        wind,
        ..
    } = written;
    format!(
        "{year},{month},{day},{hour},{minute},?9?9E0,{air:.1},-3.0,40,83500,0,0,280,{light:.0},0,{light:.0},\
         9999,9999,9999,9999,180,{wind:.1},5,5,16.1,77777,9,999999999,89,0.05,0,88,0.2,0.0,0.0\n"
    )
}

/// The file in the form EPW; each month of another year.
pub fn epw(hours: &[Written]) -> String {
    let rows = hours.iter().map(|hour| {
        let year = 1970 + (hour.month * 7) % 30;
        epw_row(hour, year, &(hour.hour + 1).to_string(), 0)
    });
    epw_head() + &rows.collect::<String>()
}

/// The file in the form TMY3, with the columns that matter among others.
pub fn tmy3(hours: &[Written]) -> String {
    let head = "725650,\"NOWHERE, MADE UP\",CO,-7.0,39.830,-104.650,1650\n\
        Date (MM/DD/YYYY),Time (HH:MM),ETR (W/m^2),ETRN (W/m^2),GHI (W/m^2),GHI source,GHI uncert (%),\
        DNI (W/m^2),DNI source,DNI uncert (%),DHI (W/m^2),DHI source,DHI uncert (%),\
        Dry-bulb (C),Dry-bulb source,Dry-bulb uncert (code),Wspd (m/s),Wspd source\n";
    let rows = hours.iter().map(|hour| {
        let year = 1976 + hour.month;
        format!(
            "{:02}/{:02}/{year},{:02}:00,0,0,{:.0},1,9,0,1,9,{:.0},1,9,{:.1},A,7,{:.1},A\n",
            hour.month,
            hour.day,
            hour.hour + 1,
            hour.light,
            hour.light,
            hour.air,
            hour.wind
        )
    });
    head.to_owned() + &rows.collect::<String>()
}

/// The days of the hours in our own form.
pub fn daily(hours: &[Written]) -> String {
    let mut text = "date,ghi_kwh_m2,tmin_c,tmax_c\n".to_owned();
    for day in hours.chunks(24) {
        let light: f64 = day.iter().map(|hour| hour.light).sum();
        let low = day.iter().map(|hour| hour.air).fold(99.0, f64::min);
        let high = day.iter().map(|hour| hour.air).fold(-99.0, f64::max);
        text += &format!(
            "2025-{:02}-{:02},{:.3},{low:.1},{high:.1}\n",
            day[0].month,
            day[0].day,
            light / 1000.0
        );
    }
    text
}

/// The record of a text that can be read.
pub fn read_text(text: &str) -> Record {
    read(text.as_bytes()).unwrap_or_else(|faults| panic!("{}", faults[0]))
}

/// Monthly facts of a record at the place of the files.
pub fn facts_of(record: &Record) -> [MonthFacts; 12] {
    facts(record, place(), Some(ZONE)).unwrap()
}

/// Hours of a record as they were written.
pub fn written(record: &Record) -> Vec<Written> {
    let Readings::Hours(hours) = &record.readings else {
        panic!("no hours");
    };
    let hour = |hour: &HourReading| Written {
        month: hour.month,
        day: hour.day,
        hour: hour.hour,
        light: hour.global.unwrap(),
        air: hour.air.unwrap().celsius(),
        wind: hour.wind.unwrap(),
    };
    hours.iter().map(hour).collect()
}

/// Whether a warning of a record holds some words.
pub fn says(record: &Record, words: &str) -> bool {
    let mut all = record.warnings.iter().map(Fault::to_string);
    all.any(|text| text.contains(words))
}

/// What is taken for what is not known.
pub fn usual() -> Usual {
    Usual {
        deviation: [TemperatureDifference::from_kelvins(3.0); 12],
        memory: 0.66,
        wind: 4.0,
        lowest_deviations: 2.2,
        range_over_swing: 1.2,
        spread: YearSpread {
            usual: 0.08,
            sunny: 0.05,
            dull: 0.12,
            sunny_from: 0.62,
            dull_below: 0.42,
        },
    }
}
