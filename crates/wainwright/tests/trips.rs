//! Stories of trips, sizes and weather on the command line.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a story that cannot go on must fail"
)]

#[path = "support/program.rs"]
mod program;
mod support;

use program::{json, run, stderr, stdout, text};
use support::Folder;

const DEMO: &str = include_str!("../../../examples/dark-sky.toml");

#[test]
fn a_trip_tells_odds_and_what_helps_and_is_the_same_every_time() {
    let folder = Folder::new();
    let file = folder.write("t.toml", DEMO);
    let args = ["trip", text(&file), "new-moon", "--quick", "--json"];
    let report = json(&args);
    let found = &report["found"];
    let energy = &found["odds"][0];
    assert_eq!(energy["what"], "energy");
    let [low, share, high] =
        ["low", "share", "high"].map(|end| energy["chance"][end].as_f64().unwrap());
    assert!(low <= share && share <= high && high <= 1.0);
    // From 16 h of the first day on, six nights.
    assert_eq!(found["hours"][0]["hour"], 16);
    let days = |hour: &serde_json::Value| hour["day"].as_u64().unwrap();
    assert_eq!(
        found["hours"].as_array().unwrap().iter().map(days).max(),
        Some(7)
    );
    assert_eq!(found["months"].as_array().unwrap().len(), 12);
    let gains: Vec<f64> = found["helps"]
        .as_array()
        .unwrap()
        .iter()
        .map(|help| help["gain_share"].as_f64().unwrap())
        .collect();
    assert!(
        gains.windows(2).all(|pair| pair[0] >= pair[1]),
        "the best first: {gains:?}"
    );
    assert_eq!(json(&args), report);
}

#[test]
fn a_trip_that_is_not_there_is_named_with_those_that_are() {
    let folder = Folder::new();
    let file = folder.write("t.toml", DEMO);
    let output = run(&["trip", text(&file), "gone"]);
    assert_eq!(output.status.code(), Some(5));
    assert!(stderr(&output).contains("new-moon"), "{}", stderr(&output));
    let empty = folder.write("e.toml", "");
    assert_eq!(run(&["trip", text(&empty)]).status.code(), Some(5));
}

#[test]
fn more_batteries_never_run_empty_more_often() {
    let folder = Folder::new();
    let file = folder.write("t.toml", DEMO);
    let report = json(&["size", text(&file), "--quick", "--json"]);
    let points = report["points"].as_array().unwrap();
    let of = |point: &serde_json::Value, name: &str| point[name].as_u64().unwrap();
    for pair in points
        .windows(2)
        .filter(|pair| of(&pair[0], "modules") == of(&pair[1], "modules"))
    {
        let share = |point: &serde_json::Value| point["chance"]["share"].as_f64().unwrap();
        assert!(of(&pair[1], "batteries") == of(&pair[0], "batteries") + 1);
        assert!(share(&pair[1]) <= share(&pair[0]), "{pair:?}");
    }
    assert_eq!(
        points.iter().filter(|point| point["now"] == true).count(),
        1
    );
    for point in points.iter().filter(|point| point["smallest"] == true) {
        assert_eq!(point["holds"], true);
    }
}

#[test]
fn a_weather_file_is_read_and_put_in_when_asked_to() {
    let folder = Folder::new();
    let file = folder.write("t.toml", "[project]\nname = \"t\"\n");
    let mut days = String::from("date,ghi_kwh_m2,tmin_c,tmax_c\n");
    for month in 1..=12 {
        for day in 1..=28 {
            days.push_str(&format!("2025-{month:02}-{day:02},3.1,2,12\n"));
        }
    }
    let weather = folder.write("days.csv", &days);
    let args = ["climate", text(&file), "--import", text(&weather)];
    let output = run(&args);
    assert_eq!(
        output.status.code(),
        Some(2),
        "nobody said where it is from"
    );
    assert!(stdout(&output).contains("--latitude"));
    let place = ["--latitude", "39.7 deg", "--longitude", "-105.2 deg"];
    let placed = [&args[..], &place[..]].concat();
    assert_eq!(run(&placed).status.code(), Some(0));
    assert!(
        !std::fs::read_to_string(&file).unwrap().contains("climate"),
        "only looked at"
    );
    let written = [&placed[..], &["--id", "home", "--write"]].concat();
    let output = run(&written);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let after = std::fs::read_to_string(&file).unwrap();
    assert!(
        after.contains("[climate.home]") && after.contains("latitude = \"39.700 deg\""),
        "{after}"
    );
    let shown = run(&["climate", text(&file)]);
    assert_eq!(shown.status.code(), Some(0), "{}", stdout(&shown));
    assert!(stdout(&shown).contains("December"));
}

#[test]
fn a_file_that_is_none_says_where_and_why() {
    let folder = Folder::new();
    let file = folder.write("t.toml", "");
    let weather = folder.write("w.csv", "a;b\n1;2\n");
    let output = run(&["climate", text(&file), "--import", text(&weather)]);
    assert_eq!(output.status.code(), Some(2));
    assert!(
        stdout(&output).contains("Line 1: found"),
        "{}",
        stdout(&output)
    );
}
