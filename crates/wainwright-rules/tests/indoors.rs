//! Stories: water and mould, stale air, heaters, alarms, cabinets.

mod support;
use support::*;
use wainwright_rules::Severity;

const US: &str = include_str!("../../../examples/dark-sky.toml");

/// Rules of living in the box and of cabinets.
const INDOORS: [&str; 9] = [
    "air-too-stale",
    "cabinet-too-hot",
    "water-in-wall",
    "does-not-fit-cabinet",
    "devices-overlap",
    "mould-on-surface",
    "heater-too-small",
    "fuses-out-of-reach",
    "no-alarm-listed",
];

/// A small box that two people sleep in, foam without foil between steel ribs.
const BOX: &str = r#"
wainwright = 1
[project]
units = "metric"
region = "EU"
[trailer]
inside_length = "4 m"
inside_width = "2 m"
inside_height = "2 m"
summer_air = "35 °C"
rib_spacing = "400 mm"
rib_width = "25 mm"
rib_depth = "40 mm"
rib_metal = "1.5 mm"
[living]
people = 2
winter_air = "-10 °C"
inside_air = "18 °C"
humidity = "45 %"
air_changes = 0.5
vent_area = "40 cm²"
climate = "here"
[climate.here]
latitude = "50 deg"
longitude = "10 deg"
altitude = "200 m"
sun = [0.8, 1.5, 2.6, 4.0, 5.0, 5.4, 5.2, 4.4, 3.1, 1.8, 0.9, 0.6]
mean = ["-4 °C", "-2 °C", "3 °C", "8 °C", "13 °C", "16 °C", "18 °C", "17 °C", "13 °C", "8 °C", "3 °C", "-2 °C"]
[layer.skin]
on = ["left", "right", "front", "rear", "roof"]
order = 1
of = "skin"
material = "aluminium"
thickness = "1 mm"
[layer.foam]
on = ["left", "right", "front", "rear", "roof"]
order = 2
of = "foam"
material = "eps"
thickness = "40 mm"
[layer.over]
on = ["left", "right", "front", "rear", "roof"]
order = 3
of = "foam"
material = "eps"
thickness = "30 mm"
[layer.lining]
on = ["left", "right", "front", "rear", "roof"]
order = 4
of = "sheets"
material = "plywood"
thickness = "6 mm"
[item.stove]
label = "Stove"
kind = "load"
power = "30 W"
job = "heater"
heat = "1 kW"
[item.inverter]
label = "Inverter"
kind = "inverter"
power = "1000 W"
load = "800 W"
efficiency = "85 %"
spot = "1.1 m, 0 m, 0.1 m"
size = "0.3 m x 0.1 m x 0.2 m"
mounted_on = "board"
bend_room = "200 mm"
[item.fuse]
label = "Big fuse"
kind = "fuse"
family = "maxi-blade"
rating = "30 A"
spot = "1.3 m, 0 m, 0.2 m"
size = "0.2 m x 0.05 m x 0.05 m"
mounted_on = "board"
[cabinet.box]
label = "Cabinet"
holds = ["inverter", "fuse"]
spot = "1 m, 0 m, 0 m"
size = "0.8 m x 0.25 m x 0.5 m"
faces = "right"
board = "12 mm"
door = false
"#;

fn box_with(changes: &[(&str, &str)]) -> Story {
    Story::unfinished(&with(BOX, changes))
}

#[test]
fn nothing_is_said_before_the_job_is_begun() {
    for text in ["", CLEAN, CHAIN, include_str!("support/towing.toml")] {
        let story = Story::unfinished(text);
        for rule in INDOORS {
            assert!(story.of(rule).is_empty(), "{:?}", story.of(rule));
        }
    }
}

#[test]
fn water_in_foam_without_foil_is_told_and_foil_mends_it() {
    let story = box_with(&[("humidity = \"45 %\"", "humidity = \"70 %\"")]);
    let finding = story.one("water-in-wall");
    assert_eq!(finding.severity, Severity::Warning);
    let fixes = story.fixed(finding);
    assert!(fixes[0].title.contains("foil"), "{:?}", titles(&fixes));
}

#[test]
fn cold_ribs_are_told_until_foam_is_over_them() {
    // Without the foam over the ribs the plywood touches them.
    let bare = box_with(&[("thickness = \"30 mm\"", "thickness = \"0.1 mm\"")]);
    let finding = bare.one("mould-on-surface");
    assert!(
        finding.headline.contains("metal ribs"),
        "{}",
        finding.headline
    );
    box_with(&[]).silent("mould-on-surface");
}

#[test]
fn stale_air_is_told_with_the_opening_that_mends_it() {
    let story = box_with(&[]);
    let finding = story.one("air-too-stale");
    assert!(
        finding.headline.starts_with("Two people asleep"),
        "{}",
        finding.headline
    );
    let fixes = story.fixed(finding);
    assert!(fixes[0].title.contains("cm²"), "{:?}", titles(&fixes));
    box_with(&[("vent_area = \"40 cm²\"", "vent_area = \"600 cm²\"")]).silent("air-too-stale");
}

#[test]
fn heater_below_what_leaves_is_told() {
    // Walls and roof 32 m². Between the ribs 0.17 + 0.07/0.0355 + 0.006/0.13 = 2.19 m²K/W, around them (97 of 400 mm)
    // 0.17 + 0.013 + 0.845 + 0.046 = 1.07: 0.57 W/(m²K), 18.3 W/K. The floor 8 m² of 1.3, half an air change of 16 m³
    // and 40 cm² of vents: 32 to 33 W/K; 28 K: 0.9 kW.
    box_with(&[]).silent("heater-too-small");
    let story = box_with(&[("heat = \"1 kW\"", "heat = \"500 W\"")]);
    let finding = story.one("heater-too-small");
    assert_eq!(finding.severity, Severity::Caution);
    let watts = finding.value.as_ref().map_or(0.0, |value| value.value);
    assert!((850.0..980.0).contains(&watts), "{watts}");
}

#[test]
fn fire_without_an_alarm_is_a_notice() {
    let story = box_with(&[]);
    assert_eq!(story.one("no-alarm-listed").severity, Severity::Notice);
    let alarm =
        format!("{BOX}\n[item.co]\nlabel = \"CO alarm\"\nkind = \"load\"\ncurrent = \"0.1 A\"\n");
    Story::unfinished(&alarm).silent("no-alarm-listed");
}

#[test]
fn hot_cabinet_is_told_and_openings_mend_it() {
    // 800 W (1/0.85 − 1) = 141 W and the idle draw, behind 1.5 m² of plywood: more than 25 K over 35 °C.
    let story = box_with(&[]);
    let finding = story.one("cabinet-too-hot");
    assert_eq!(finding.severity, Severity::Warning);
    let air = finding.value.as_ref().map_or(0.0, |value| value.value);
    assert!((60.0..85.0).contains(&air), "{air}");
    let fixes = story.fixed(finding);
    assert!(fixes[0].title.starts_with("Open"), "{:?}", titles(&fixes));
    box_with(&[("load = \"800 W\"", "load = \"50 W\"")]).silent("cabinet-too-hot");
}

#[test]
fn devices_that_overlap_or_do_not_fit_and_fuses_out_of_reach_are_told() {
    let story = box_with(&[]);
    // 100 mm of inverter and 200 mm for its wires, in 250 mm less the board of 12 mm.
    let fit = story.one("does-not-fit-cabinet");
    assert!(
        fit.headline.starts_with("Inverter needs"),
        "{}",
        fit.headline
    );
    let two = story.one("devices-overlap");
    assert_eq!(two.subjects.len(), 2);
    let reach = story.one("fuses-out-of-reach");
    assert!(story.fixed(reach)[0].title.contains("door"));
    let mended = box_with(&[
        ("bend_room = \"200 mm\"", "bend_room = \"100 mm\""),
        (
            "spot = \"1.3 m, 0 m, 0.2 m\"",
            "spot = \"1.5 m, 0 m, 0.2 m\"",
        ),
        ("door = false", "door = true"),
    ]);
    for rule in [
        "does-not-fit-cabinet",
        "devices-overlap",
        "fuses-out-of-reach",
    ] {
        mended.silent(rule);
    }
}

#[test]
fn fuse_in_a_hot_cabinet_is_run_hard_sooner() {
    // 3.9 A for hours through 5 A are 78 %. 100 W through 0.95 m² of plywood of 2.9 W/(m²K) make 36 K over 25 °C: a
    // tenth of the rating is gone.
    let wired = |load: &str| {
        let text = format!(
            r#"
wainwright = 1
[project]
units = "metric"
region = "EU"
[trailer]
summer_air = "25 °C"
[item.bat]
kind = "battery"
chemistry = "lfp"
cells = 4
capacity = "100 Ah"
[item.fuse]
kind = "fuse"
family = "blade"
rating = "5 A"
[item.lamp]
kind = "load"
current = "3.9 A"
continuous = true
heat_loss = "{load}"
[wire.a]
from = "bat.+"
to = "fuse.in"
size = "6 mm2"
insulation = "h07v-k"
length = "0.1 m"
[wire.b]
from = "fuse.out"
to = "lamp.+"
like = "a"
[wire.c]
from = "lamp.-"
to = "bat.-"
like = "a"
[cabinet.box]
holds = ["lamp", "fuse"]
spot = "0 m, 0 m, 0 m"
size = "0.5 m x 0.5 m x 0.5 m"
"#
        );
        Story::unfinished(&text)
    };
    wired("0 W").silent("fuse-run-hard");
    let hot = wired("100 W");
    let finding = hot.one("fuse-run-hard");
    assert!(
        finding.headline.contains("left of its rating"),
        "{}",
        finding.headline
    );
}

#[test]
fn the_example_shows_what_its_box_and_cabinet_lack() {
    let story = Story::new(US);
    for rule in [
        "air-too-stale",
        "cabinet-too-hot",
        "water-in-wall",
        "mould-on-surface",
        "fuses-out-of-reach",
    ] {
        assert_eq!(story.of(rule).len(), 1, "{rule}: {:#?}", story.headlines());
    }
    let outside = story.at("does-not-fit-cabinet", "item.dcdc");
    assert_eq!(outside.severity, Severity::Caution);
    story.silent("no-alarm-listed");
    story.silent("heater-too-small");
}
