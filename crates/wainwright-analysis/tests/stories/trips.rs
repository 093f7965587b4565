//! Trips: whether energy and water last. Expected figures are worked out by hand in each test.

use super::{assess, read};
use wainwright_analysis::result::trip::{HelpKind, NoOutlook, RunsOut, TripOutlook};
use wainwright_analysis::trips::{self, Effort};
use wainwright_units::Energy;

const DEMO: &str = include_str!("../../../../examples/dark-sky.toml");
const METRIC: &str = include_str!("../../../../examples/dark-sky-metric.toml");

/// One night with a battery of 100 Ah and nothing that charges.
fn one_night(watts: &str, more: &str) -> String {
    format!(
        r#"wainwright = 1
[item.house]
kind = "battery"
chemistry = "lfp"
cells = 4
capacity = "100 Ah"
[climate.here]
listed = "denver-co"
[trip.night]
to = "here"
begins = "2027-07-10"
begins_hour = 18
nights = 1
[use.lamp]
power = "{watts}"
{more}"#
    )
}

fn outlook(text: &str, trip: &str) -> TripOutlook {
    let project = read(text);
    let inputs = trips::inputs(&project, &assess(text), trip).unwrap();
    trips::outlook(&inputs, Effort::Quick).unwrap()
}

fn odds(found: &TripOutlook, what: RunsOut) -> f64 {
    let one = found.odds.iter().find(|odds| odds.what == what);
    one.unwrap().chance.share.percent()
}

#[test]
fn a_battery_without_sun_is_a_matter_of_adding_up() {
    // Mean open voltage of the measured cell is 3.268 V: 4 x 3.268 V x 100 Ah = 1307 Wh. The board's own draw is
    // some 0.2 W, 5 Wh; the warm pack loses about 1 %. 50 W for 24 h is 1200 Wh and lasts, 56 W is 1344 Wh and does
    // not, whatever the weather.
    let lasts = outlook(&one_night("50 W", ""), "night");
    assert!(odds(&lasts, RunsOut::Energy) < 1e-9);
    let stays = lasts.lowest.middle * 1307.0;
    assert!((60.0..=115.0).contains(&stays), "{stays} Wh left");
    let ends = outlook(&one_night("56 W", ""), "night");
    assert!(odds(&ends, RunsOut::Energy) > 99.9);
    let day = ends.odds[0].day.unwrap();
    assert!(
        (day.middle - 2.0).abs() < 1e-9,
        "it ends in the afternoon of the second day"
    );
}

#[test]
fn hours_people_and_inverter_are_counted_as_typed() {
    // 30 W for 2 h for each of 3 people through an inverter of 80 %: 30 / 0.8 x 6 h = 225 Wh, 45 Wh of it lost.
    let text = one_night(
        "30 W",
        r#"inverter = "inverter"
per_day = "2 h"
per_person = true
hours = [19, 20, 21, 22]
[item.inverter]
kind = "inverter"
power = "300 W"
efficiency = "80 %"
idle_current = "0.5 A"
[living]
people = 3
"#,
    );
    let found = outlook(&text, "night");
    let used = found
        .energy
        .taken
        .iter()
        .find(|one| one.used.is_some())
        .unwrap();
    assert!((used.energy.watt_hours() - 225.0).abs() < 1e-6, "{used:?}");
    assert!((used.lost.watt_hours() - 45.0).abs() < 1e-6, "{used:?}");
    // Standing by day and night: 0.5 A at 12.8 V for 24 h are 153.6 Wh.
    let idle = found
        .energy
        .taken
        .iter()
        .find(|one| one.label.contains("standing by"))
        .unwrap();
    assert!((idle.energy.watt_hours() - 153.6).abs() < 0.1, "{idle:?}");
}

#[test]
fn water_lasts_as_long_as_there_is_some() {
    // 42 L for 2 people at 8 L a day: 16 L a day, half of it after 18:00. Day 1 takes 8 L, days 2 and 3 take 16 L
    // each: 2 L are left, so day 4 runs dry; a tap on day 3 prevents it.
    let trip = |more: &str| {
        one_night("1 W", "").replace(
            "nights = 1",
            &format!("nights = 4\npeople = 2\nwater = \"8 L\"\nto_grey = \"50 %\"\n{more}"),
        ) + "[item.fresh]\nkind = \"tank\"\nholds = \"fresh\"\ncapacity = \"42 L\"\n\
             [item.grey]\nkind = \"tank\"\nholds = \"grey\"\ncapacity = \"30 L\"\n"
    };
    let dry = outlook(&trip(""), "night");
    let water = dry
        .odds
        .iter()
        .find(|odds| odds.what == RunsOut::Water)
        .unwrap();
    assert!((water.chance.share.percent() - 100.0).abs() < 1e-9);
    assert!((water.day.unwrap().middle - 4.0).abs() < 1e-9, "{water:?}");
    assert!(
        odds(&dry, RunsOut::Waste) < 1e-9,
        "21 L at most go into 30 L"
    );
    let filled = outlook(&trip("tap_days = [3]"), "night");
    assert!(odds(&filled, RunsOut::Water) < 1e-9);
    let help = dry
        .helps
        .iter()
        .find(|help| matches!(help.what, HelpKind::TapDay(_)))
        .unwrap();
    assert!((help.gain.percent() - 100.0).abs() < 1e-9);
}

#[test]
fn energy_that_came_in_went_somewhere() {
    for (text, trip) in [
        (DEMO, "new-moon"),
        (METRIC, "long-weekend"),
        (METRIC, "winter-work"),
    ] {
        let found = outlook(text, trip);
        let sum = |all: &[wainwright_analysis::result::trip::EnergyShare]| -> f64 {
            all.iter().map(|one| one.energy.watt_hours()).sum()
        };
        let came = sum(&found.energy.given) + found.energy.from_battery.watt_hours();
        let went = sum(&found.energy.taken) + found.energy.battery_losses.watt_hours();
        // Unserved was wanted and not taken, spilled was not given.
        assert!(
            (came - went).abs() < 1e-6 * went,
            "{trip}: {came} Wh came, {went} Wh went"
        );
        assert!(found.energy.unserved >= Energy::ZERO && found.energy.spilled >= Energy::ZERO);
        assert_eq!(found.hours.len(), found.charge.len());
        assert_eq!(found.months.len(), 12);
        for band in &found.charge {
            assert!(
                0.0 <= band.low
                    && band.low <= band.middle
                    && band.middle <= band.high
                    && band.high <= 1.0 + 1e-9
            );
        }
    }
}

#[test]
fn equal_inputs_give_equal_answers_and_wires_do_not_matter_to_the_key() {
    let project = read(DEMO);
    let found = assess(DEMO);
    let inputs = trips::inputs(&project, &found, "new-moon").unwrap();
    let again = trips::outlook(&inputs, Effort::Quick).unwrap();
    let once_more = trips::outlook(&inputs, Effort::Quick).unwrap();
    assert_eq!(again.charge, once_more.charge);
    // Another label somewhere changes nothing the trip rests on.
    let renamed = DEMO.replace("label = \"Porch light\"", "label = \"Lamp at the door\"");
    assert_ne!(renamed, DEMO);
    assert_eq!(
        inputs,
        trips::inputs(&read(&renamed), &assess(&renamed), "new-moon").unwrap()
    );
    let smaller = DEMO.replace("capacity = \"280 Ah\"", "capacity = \"200 Ah\"");
    assert_ne!(
        inputs,
        trips::inputs(&read(&smaller), &assess(&smaller), "new-moon").unwrap()
    );
}

#[test]
fn more_of_everything_never_hurts_on_the_same_weather() {
    let found = outlook(DEMO, "new-moon");
    for help in &found.helps {
        assert!(help.gain.fraction() >= -1e-12, "{help:?}");
    }
    let inverter = found
        .helps
        .iter()
        .find(|help| matches!(help.what, HelpKind::InverterOff(_)));
    assert!(
        inverter.unwrap().gain.percent() > 5.0,
        "standing by costs a seventh of all energy"
    );
    // More modules or batteries never raise the odds in the chart either.
    let project = read(DEMO);
    let inputs = trips::inputs(&project, &assess(DEMO), "new-moon").unwrap();
    let chart = trips::sizes(&inputs, Effort::Quick).unwrap();
    for one in &chart.points {
        for other in &chart.points {
            if one.modules <= other.modules && one.batteries <= other.batteries {
                assert!(one.chance.share >= other.chance.share, "{one:?} {other:?}");
            }
        }
    }
    let now = chart.points[chart.now.unwrap()];
    assert_eq!((now.modules, now.batteries), (2, 1));
    for best in &chart.best {
        assert!(chart.points[*best].chance.share <= chart.accepted);
    }
}

#[test]
fn what_is_missing_is_named() {
    let project = read("wainwright = 1\n[trip.t]\nnights = 2\n");
    let found = wainwright_analysis::assess(&project);
    let error = trips::inputs(&project, &found, "t").unwrap_err();
    assert!(
        matches!(&error, NoOutlook::Missing { path, .. } if path.ends_with(&["begins".to_owned()])),
        "{error:?}"
    );
    assert_eq!(
        trips::inputs(&project, &found, "other").unwrap_err(),
        NoOutlook::NoTrip
    );
    assert_eq!(trips::briefs(&project).len(), 1);
    // A climate of the list that there is not.
    let text = one_night("5 W", "").replace("denver-co", "atlantis");
    let project = read(&text);
    let error =
        trips::inputs(&project, &wainwright_analysis::assess(&project), "night").unwrap_err();
    assert!(
        matches!(&error, NoOutlook::Missing { path, .. } if path.contains(&"listed".to_owned())),
        "{error:?}"
    );
}

#[test]
fn a_switching_controller_and_lead_acid_are_reckoned_too() {
    let text = one_night("20 W", "").replace(
        "chemistry = \"lfp\"\ncells = 4",
        "chemistry = \"agm\"\ncells = 6",
    ) + r#"[item.module]
kind = "solar-module"
power = "100 W"
short_current = "6 A"
[item.controller]
kind = "solar-controller"
tracking = "pwm"
output_current = "10 A"
"#;
    let found = outlook(&text, "night");
    // Half of 100 Ah at about 12.4 V may be used: some 620 Wh; 20 W for 24 h are 480 Wh.
    let energy = found.bank.energy.watt_hours();
    assert!((550.0..=660.0).contains(&energy), "{energy} Wh");
    assert!((found.bank.usable.percent() - 50.0).abs() < 1e-9);
    assert!(odds(&found, RunsOut::Energy) < 1e-9);
    // Straight to the battery at 12 to 14 V and 6 A, 60 to 90 W at noon: less than the 100 W it is rated for.
    let clear = found.fields[0].clear_day.watt_hours();
    assert!(
        (250.0..=700.0).contains(&clear),
        "{clear} Wh on a clear day in July"
    );
}
