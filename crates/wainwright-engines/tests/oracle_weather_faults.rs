//! Weather files that are wrong: every fault is named, a shift is found out, no mutilated file is
//! more than an error, and no file is without end. Files that are right are in `oracle_weather_file`.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod rows;
mod weather_files;

use wainwright_engines::climate::{MonthFacts, facts, from_facts};
use wainwright_engines::weather_file::*;
use weather_files::*;

/// Faults name their line, what was found, what was expected, and what to do.
#[test]
fn faults_are_named() {
    let hours = year(7);
    let broken = epw(&hours)
        .replacen(",280,0,", ",280,4711,", 1)
        .replacen(",8,1,12,0,", ",8,32,12,0,", 1)
        .replacen(",9,1,12,0,", ",9,1,noon,0,", 1);
    let record = read_text(&broken);
    let told: Vec<String> = record.warnings.iter().map(Fault::to_string).collect();
    assert!(told[0].starts_with("line 9: found '4711'; expected light from 0 to 1600"));
    assert!(told[1].contains("32; expected month, day and hour 1 to 24; correct the date"));
    assert!(told[2].contains("found 'noon'"), "{}", told[2]);
    assert!(
        told[3].contains("found 8758 hours, gaps in month 8, 9"),
        "{}",
        told[3]
    );

    let half: String = epw(&hours)
        .lines()
        .take(8 + 181 * 24)
        .map(|line| format!("{line}\n"))
        .collect();
    let record = read_text(&half);
    assert!(says(
        &record,
        "4344 hours, gaps in month 7, 8, 9, 10, 11, 12"
    ));
    let facts = facts_of(&record);
    assert!(facts[5].clearness.is_some() && facts[6] == MonthFacts::default());

    let refused = |text: &str, words: &str| {
        let faults = read(text.as_bytes()).unwrap_err();
        let told = faults[0].to_string();
        assert!(told.contains(words), "{told}");
    };
    refused("", "found an empty file");
    refused("PK\u{3}\u{4}\0\0", "bytes that are not text");
    refused("date;ghi_kwh_m2\n2025-01-01;3,2\n", "with commas between");
    refused("<html>\n<body>", "line 1: found '<html>'");
    refused(&epw_head(), "no hour that can be read");
    refused("date,ghi_kwh_m2\n2025-01-01,\n", "no light in any row");
    refused(
        "date,ghi_kwh_m2\n01/02/2025,3.2\n2025-01-03,3\n",
        "1 of 2 rows",
    );
    refused(
        &(epw(&hours) + &epw(&hours)[epw_head().len()..]),
        "hour that came before",
    );
    let no_light: String = hours
        .iter()
        .map(|hour| {
            epw_row(
                &Written {
                    light: 9999.0,
                    ..*hour
                },
                1,
                &(hour.hour + 1).to_string(),
                0,
            )
        })
        .collect();
    refused(&(epw_head() + &no_light), "no global light");
    let sums = "date,ghi_kwh_m2,tmin_c,tmax_c\n2025-06-01,23.4,9,20\n2025-06-02,6,21,9\n";
    let told: Vec<String> = read(sums.as_bytes())
        .unwrap_err()
        .iter()
        .map(Fault::to_string)
        .collect();
    assert!(told[1].contains("divide MJ by 3.6"), "{told:?}");
    assert!(
        told[2].contains("a low of 21 above a high of 9"),
        "{told:?}"
    );
}

/// A record that is late, early, or in universal time is found out; its days are told apart.
#[test]
fn a_shifted_file_is_found_out() {
    let hours = year(8);
    for late in [-7_i32, -1, 1, 7] {
        let shifted: Vec<Written> = (0..8760_i32)
            .map(|at| Written {
                light: hours[(at - late).rem_euclid(8760) as usize].light,
                ..hours[at as usize]
            })
            .collect();
        let record = read_text(&epw(&shifted));
        let alignment = record.alignment.unwrap();
        assert_eq!(alignment.best, late);
        let [early, none, later] = alignment.correlations;
        assert!(if late > 0 {
            later > none && none > early
        } else {
            early > none && none > later
        });
        let word = if late > 0 { "late" } else { "early" };
        assert!(says(
            &record,
            &format!("found hours that are {} h {word}", late.abs())
        ));
        assert_eq!(says(&record, "daily sums stay right"), late.abs() == 1);
        if late.abs() == 1 {
            let (a, b) = (facts_of(&record), facts_of(&read_text(&epw(&hours))));
            for (a, b) in a.iter().zip(b) {
                assert!((a.clearness.unwrap() - b.clearness.unwrap()).abs() < 1e-9);
            }
        }
    }
    let dull: Vec<Written> = hours
        .iter()
        .map(|hour| Written {
            light: f64::from(hour.day * 9),
            ..*hour
        })
        .collect();
    assert!(says(&read_text(&epw(&dull)), "does not follow the sun"));
}

/// 10,000 files with flipped bits, cut, with lines or columns out of place: an answer each time,
/// with a bounded list of faults, and facts that are numbers.
#[test]
fn mutilated_files_are_at_worst_an_error() {
    let hours = &year(9)[..24 * 12];
    let files = [epw(hours), tmy3(hours), daily(&year(9)[..24 * 40])];
    let mut random = wainwright_engines::weather::Randomness::new(10, 10);
    let mut below = |most: usize| (random.uniform() * most as f64) as usize;
    let (mut read_well, mut refused) = (0, 0);
    for number in 0..10_000 {
        let mut bytes = files[number % 3].clone().into_bytes();
        match below(6) {
            0 => {
                let length = below(bytes.len());
                bytes.truncate(length);
            }
            1 => bytes = columns_swapped(&bytes, below(20), below(20)),
            2 => {
                let from = below(bytes.len());
                let to = (from + below(3000)).min(bytes.len());
                bytes.drain(from..to);
            }
            3 => {
                let from = below(bytes.len());
                let piece: Vec<u8> = bytes.iter().skip(from).take(below(2000)).copied().collect();
                let at = below(bytes.len());
                bytes.splice(at..at, piece);
            }
            4 => {
                let at = below(bytes.len());
                let words = [
                    "1e309",
                    "-1",
                    "NaN",
                    ",,,,",
                    "\"",
                    "\n\n",
                    "\u{0}",
                    "24:00",
                    "999999999999",
                ];
                bytes.splice(at..at, words[below(words.len())].bytes());
            }
            _ => {}
        }
        for _ in 0..below(40) {
            let at = below(bytes.len().max(1));
            if let Some(byte) = bytes.get_mut(at) {
                *byte ^= 1 << below(8);
            }
        }
        match read(&bytes) {
            Ok(record) => {
                read_well += 1;
                assert!(record.warnings.len() <= 2 * MOST_FAULTS + 8);
                let place = record.site.place().unwrap_or(place());
                let months = facts(&record, place, record.site.zone).unwrap();
                for month in months {
                    let numbers = [
                        month.clearness,
                        month.clearness_deviation,
                        month.clearness_memory,
                        month.global,
                        month.memory,
                        month.wind,
                    ];
                    assert!(numbers.into_iter().flatten().all(f64::is_finite));
                }
                let _ = from_facts(&months, place, &usual());
            }
            Err(faults) => {
                refused += 1;
                assert!(!faults.is_empty() && faults.len() <= MOST_FAULTS + 2);
            }
        }
    }
    println!("{read_well} were read, {refused} refused");
    assert!(read_well > 1000 && refused > 1000);
}

fn columns_swapped(bytes: &[u8], one: usize, other: usize) -> Vec<u8> {
    let text = String::from_utf8_lossy(bytes);
    let swapped = text.lines().map(|line| {
        let mut cells: Vec<&str> = line.split(',').collect();
        if one < cells.len() && other < cells.len() {
            cells.swap(one, other);
        }
        cells.join(",")
    });
    swapped.collect::<Vec<_>>().join("\n").into_bytes()
}

/// Files that want to be endless end at a stated size.
#[test]
fn hostile_files_meet_their_limits() {
    let told = |bytes: &[u8]| read(bytes).unwrap_err()[0].to_string();
    assert!(told(&vec![b'1'; MOST_BYTES + 1]).contains("at most 33554432"));
    let rows = "2025-01-01,1\n".repeat(MOST_ROWS + 1);
    assert!(told(format!("date,ghi_kwh_m2\n{rows}").as_bytes()).contains("more than 110000 rows"));
    let hour = year(1)[12];
    let rows = epw_row(&hour, 1, "13", 0).repeat(MOST_ROWS + 1);
    assert!(told((epw_head() + &rows).as_bytes()).contains("more than 110000 rows"));
    let wide = format!("LOCATION{}", ",".repeat(20_000_000));
    assert!(told(wide.as_bytes()).contains("no hour that can be read"));
    let odd = format!("date,ghi_kwh_m2\n{}", "x,y\n".repeat(100_000));
    let faults = read(odd.as_bytes()).unwrap_err();
    assert_eq!(faults.len(), MOST_FAULTS + 2);
    assert!(faults.last().unwrap().to_string().contains("99960 more"));
}
