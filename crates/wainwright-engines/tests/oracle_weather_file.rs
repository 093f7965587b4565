//! Files made of our own weather in each form: every trap is read, and the monthly facts come back.
//! Files with faults are in `oracle_weather_faults`.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod rows;
mod weather_files;

use wainwright_engines::climate::from_facts;
use wainwright_engines::weather::{LightAbove, MONTH_DAYS};
use wainwright_engines::weather_file::*;
use weather_files::*;

fn mean(values: impl Iterator<Item = f64>) -> f64 {
    let all: Vec<f64> = values.collect();
    all.iter().sum::<f64>() / all.len() as f64
}

/// A file in each form gives the hours it was written from, without a complaint.
#[test]
fn hours_come_back() {
    let hours = year(1);
    for (text, form) in [
        (epw(&hours), Form::EnergyPlusWeather),
        (tmy3(&hours), Form::TypicalYear),
    ] {
        let record = read_text(&text);
        assert_eq!((record.form, record.rows), (form, 8760));
        assert!(record.warnings.is_empty(), "{:?}", record.warnings);
        assert_eq!(written(&record), hours);
        assert_eq!(record.site.place(), Some(place()));
        assert_eq!(record.site.zone, Some(ZONE));
        assert_eq!(record.alignment.unwrap().best, 0);
    }
    assert_eq!(read_text(&tmy3(&hours)).site.name, "NOWHERE, MADE UP");
    let record = read_text(&daily(&hours));
    assert_eq!((record.form, record.rows), (Form::Daily, 365));
    assert!(record.warnings.is_empty(), "{:?}", record.warnings);
}

/// Monthly facts against plain sums over what was written; daily files agree with hourly ones.
#[test]
fn monthly_facts_come_back() {
    let hours = year(2);
    let found = facts_of(&read_text(&epw(&hours)));
    let of_days = facts_of(&read_text(&daily(&hours)));
    for ((month, days), (facts, by_day)) in (1..=12).zip(MONTH_DAYS).zip(found.iter().zip(of_days))
    {
        let of_month: Vec<&[Written]> = hours
            .chunks(24)
            .filter(|day| day[0].month == month)
            .collect();
        let above = |day: u32| LightAbove::new(place(), ZONE, month, day).unwrap().day();
        let light = |day: &&[Written]| day.iter().map(|hour| hour.light).sum::<f64>();
        let daily: Vec<f64> = of_month
            .iter()
            .map(|day| light(day) / above(day[0].day))
            .collect();
        let ground: f64 = of_month.iter().map(light).sum();
        let whole: f64 = (1..=days).map(above).sum();
        let near = |found: Option<f64>, expected: f64, within: f64| {
            let off = (found.unwrap() - expected).abs();
            assert!(off <= within, "month {month}: {found:?} {expected}");
        };
        near(facts.clearness, ground / whole, 1e-9);
        // Three decimals of a day's kWh.
        near(by_day.clearness, ground / whole, 2e-4);
        near(facts.global, ground / 1000.0 / f64::from(days), 1e-9);
        let middle = mean(daily.iter().copied());
        let variance = mean(daily.iter().map(|k| (k - middle).powi(2)));
        near(facts.clearness_deviation, variance.sqrt(), 1e-9);
        let pairs = mean(daily.windows(2).map(|k| (k[0] - middle) * (k[1] - middle)));
        near(facts.clearness_memory, pairs / variance, 1e-9);
        near(by_day.clearness_deviation, variance.sqrt(), 2e-4);
        let worst = of_month
            .windows(3)
            .map(|three| three.iter().map(light).sum::<f64>() / 3.0)
            .fold(f64::INFINITY, f64::min);
        near(
            facts.worst_three_days,
            worst * f64::from(days) / ground,
            1e-9,
        );
        let air = |fold: fn(f64, f64) -> f64, start: f64| {
            let of_day = |day: &&[Written]| day.iter().map(|hour| hour.air).fold(start, fold);
            mean(of_month.iter().map(of_day))
        };
        near(facts.low.map(|t| t.celsius()), air(f64::min, 99.0), 1e-9);
        near(facts.high.map(|t| t.celsius()), air(f64::max, -99.0), 1e-9);
        near(by_day.low.map(|t| t.celsius()), air(f64::min, 99.0), 1e-9);
        let all = mean(
            of_month
                .iter()
                .flat_map(|day| day.iter().map(|hour| hour.air)),
        );
        near(facts.mean.map(|t| t.celsius()), all, 1e-9);
        let means: Vec<f64> = of_month
            .iter()
            .map(|day| mean(day.iter().map(|hour| hour.air)))
            .collect();
        let spread = mean(means.iter().map(|t| (t - all).powi(2))).sqrt();
        near(facts.deviation.map(|t| t.kelvins()), spread, 1e-9);
        near(facts.wind, of_month[0][0].wind, 1e-9);
        let lowest = of_month
            .iter()
            .flat_map(|day| day.iter())
            .map(|hour| hour.air);
        near(
            facts.lowest.map(|t| t.celsius()),
            lowest.fold(99.0, f64::min),
            1e-9,
        );
        assert_eq!((facts.days, by_day.days), (days as usize, days as usize));
        assert_eq!(by_day.wind, None);
    }
}

/// The climate a file was made from comes back from it: clearness within the 4 % to which months
/// are drawn (5 % for months whose twenty draws miss), the mean temperature within four standard
/// errors of thirty days that remember, the range within the 5 % of the shape of a day.
#[test]
fn the_climate_of_a_file_comes_back() {
    let table = rows::rows("climate_monthly.csv");
    let made_from = table
        .iter()
        .filter(|row| row.text("city").starts_with("Denver Intl"));
    let facts = facts_of(&read_text(&epw(&year(12))));
    let months = from_facts(&facts, place(), &usual()).unwrap().months;
    let mut seen = 0;
    for (row, month) in made_from.zip(months) {
        let share = month.clearness / row.number("kt") - 1.0;
        assert!(share.abs() < 0.05, "{share}");
        let deviation = row.number("tsd");
        let error = deviation * (1.66_f64 / 0.34 / 30.0).sqrt();
        let off = month.mean.celsius() - row.number("tmean");
        assert!(off.abs() < 4.0 * error, "{off} {error}");
        let range = row.number("tmax") - row.number("tmin");
        assert!((month.swing.kelvins() / range - 1.0).abs() < 0.05);
        assert!((month.wind - row.number("wind")).abs() < 0.051);
        assert_eq!(month.basis, wainwright_engines::climate::Basis::Record);
        seen += 1;
    }
    assert_eq!(seen, 12);
}

/// Traps that must change nothing: line ends, blank lines, bytes that are no UTF-8, a byte order
/// mark, years, fractions, blank names, minute 60, a header line less, 32 fields.
#[test]
fn harmless_traps_change_nothing() {
    let hours = year(3);
    let plain = epw(&hours);
    let odd_hours: String = hours
        .iter()
        .map(|hour| epw_row(hour, 1900, &format!(" {}.0", hour.hour + 1), 60))
        .collect();
    let short: String = plain
        .lines()
        .enumerate()
        .map(|(at, line)| match at {
            0..8 => format!("{line}\n"),
            _ => line.splitn(33, ',').take(32).collect::<Vec<_>>().join(",") + "\n",
        })
        .collect();
    let latin = |text: &str| {
        let (before, after) = text.split_once("Made up for a test").unwrap();
        [before.as_bytes(), b"Caf\xe9 \xb0C", after.as_bytes()].concat()
    };
    let files: [Vec<u8>; 8] = [
        plain.replace('\n', "\r\n").into_bytes(),
        plain.replace('\n', "\r").into_bytes(),
        format!("\u{feff}\n\n{plain}\n\n   \n").into_bytes(),
        latin(&plain),
        (epw_head() + &odd_hours).into_bytes(),
        plain.replace("Nowhere,CO,USA", ",,").into_bytes(),
        plain
            .replace("COMMENTS 2,No real weather\n", "")
            .into_bytes(),
        short.into_bytes(),
    ];
    for (at, file) in files.iter().enumerate() {
        let record = read(file).unwrap_or_else(|faults| panic!("{at}: {}", faults[0]));
        assert_eq!(written(&record), hours, "{at}");
        assert!(record.warnings.is_empty(), "{at} {:?}", record.warnings);
    }
    let tmy3 = tmy3(&hours);
    // The end of a day may be called 0:00 of the next one.
    let mut nights = String::new();
    for (at, line) in tmy3.lines().enumerate() {
        let next = hours.get((at + 24) % 8760).copied();
        let rest = line.split_once(",24:00,").map(|parts| parts.1);
        let line = match (rest, next) {
            (Some(rest), Some(_)) => {
                let day = &hours[(at - 2 + 1) % 8760];
                format!("{:02}/{:02}/1999,00:00,{rest}", day.month, day.day)
            }
            _ => line.to_owned(),
        };
        nights += &(line + "\n");
    }
    let record = read_text(&nights);
    assert_eq!(written(&record), hours);
    assert!(record.warnings.is_empty(), "{:?}", record.warnings);
}

/// Columns are found by name, wherever they stand.
#[test]
fn columns_are_found_by_name() {
    let hours = year(4);
    let swapped: String = tmy3(&hours)
        .lines()
        .enumerate()
        .map(|(at, line)| {
            let mut cells: Vec<&str> = line.split(',').collect();
            if at > 0 {
                cells.swap(2, 13);
                cells.swap(4, 16);
            }
            cells.join(",") + "\n"
        })
        .collect();
    assert_eq!(written(&read_text(&swapped)), hours);
    let no_wind = tmy3(&hours).replace("Wspd (m/s)", "Wspd (kt)");
    let record = read_text(&no_wind);
    assert!(says(&record, "no column 'Wspd (m/s)'"));
    assert_eq!(facts_of(&record)[0].wind, None);
    let days = daily(&hours).replace("date,ghi_kwh_m2,tmin_c,tmax_c", "TMAX_C ,Date,x,ghi_kwh_m2");
    let record = read_text(&format!(
        "{}\n20,2025-01-01,?,3.2\n",
        days.lines().next().unwrap()
    ));
    let Readings::Days(days) = record.readings else {
        panic!("no days");
    };
    assert_eq!((days[0].global, days[0].coldest), (Some(3200.0), None));
}

/// Quarter hours add up to the same hours, as energy in EPW and as power in TMY3.
#[test]
fn parts_of_hours_add_up() {
    let hours = year(5);
    let mut energy = epw_head();
    for hour in &hours {
        let quarter = Written {
            light: hour.light / 4.0,
            ..*hour
        };
        for minute in [15, 30, 45, 60] {
            let row = epw_row(&quarter, 2001, &(hour.hour + 1).to_string(), minute);
            // Energy of a quarter hour with its decimals.
            let rounded = format!(",{:.0},0,{:.0},", quarter.light, quarter.light);
            let exact = format!(",{},0,{},", quarter.light, quarter.light);
            energy += &row.replacen(&rounded, &exact, 1);
        }
    }
    let text = tmy3(&hours);
    let mut power = String::new();
    for (at, line) in text.lines().enumerate() {
        if at < 2 {
            power += &format!("{line}\n");
            continue;
        }
        let (date, rest) = line.split_once(',').unwrap();
        let (time, rest) = rest.split_once(',').unwrap();
        let end = time[..2].parse::<u32>().unwrap();
        power += &format!(
            "{date},{:02}:30,{rest}\n{date},{end:02}:00,{rest}\n",
            end - 1
        );
    }
    for (text, rows) in [(energy, 4 * 8760), (power, 2 * 8760)] {
        let record = read_text(&text);
        assert_eq!(record.rows, rows);
        assert!(record.warnings.is_empty(), "{:?}", record.warnings);
        for (found, expected) in written(&record).iter().zip(&hours) {
            assert!((found.light - expected.light).abs() < 1e-9);
            assert!((found.air - expected.air).abs() < 1e-9);
        }
    }
    // Power in each quarter hour of an EPW would count fourfold.
    let wrong: String = hours
        .iter()
        .flat_map(|hour| {
            [15, 30, 45, 60].map(|minute| epw_row(hour, 1, &(hour.hour + 1).to_string(), minute))
        })
        .collect();
    let record = read_text(&(epw_head() + &wrong));
    assert!(says(&record, "times the light above the air"));
}

/// Hours counted from 0, a leap year, codes for missing values.
#[test]
fn odd_files_are_read_and_named() {
    let hours = year(6);
    let from_nought: String = hours
        .iter()
        .map(|hour| epw_row(hour, 2003, &hour.hour.to_string(), 0))
        .collect();
    let record = read_text(&(epw_head() + &from_nought));
    assert_eq!(written(&record), hours);
    assert!(says(&record, "hours that are counted from 0"));

    let mut leap = hours.clone();
    let extra: Vec<Written> = hours
        .iter()
        .filter(|hour| (hour.month, hour.day) == (2, 28))
        .map(|hour| Written { day: 29, ..*hour })
        .collect();
    leap.splice(59 * 24..59 * 24, extra);
    let record = read_text(&epw(&leap));
    assert_eq!(written(&record), leap);
    assert!(record.warnings.is_empty(), "{:?}", record.warnings);
    assert_eq!(facts_of(&record)[1].days, 29);

    // The first two days of July without light, the third without air, the fourth without wind.
    let text: String = epw(&hours)
        .lines()
        .map(|line| {
            let mut cells: Vec<&str> = line.split(',').collect();
            if cells.len() == 35 && cells[1] == "7" {
                match cells[2] {
                    "1" => cells[13] = "9999",
                    "2" => cells[13] = "",
                    "3" => cells[6] = "99.9",
                    "4" => cells[21] = "999",
                    _ => {}
                }
            }
            cells.join(",") + "\n"
        })
        .collect();
    let record = read_text(&text);
    assert!(record.warnings.is_empty(), "{:?}", record.warnings);
    let july = facts_of(&record)[6];
    assert_eq!(july.days, 29);
    let whole = facts_of(&read_text(&epw(&hours)))[6];
    assert!(july.mean != whole.mean && july.global != whole.global && july.wind == whole.wind);
    let missing = tmy3(&hours).replace(",24:00,0,0,0,1,9", ",24:00,0,0,-9900,1,9");
    assert_eq!(
        facts_of(&read_text(&missing))[6].days,
        31,
        "nights need no light"
    );
}
