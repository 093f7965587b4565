//! Stories: charging settings that do not agree with battery, protection, loads and modules. Each rule speaks up in its
//! own story and is silent on a sound system, and its fix is proven.

#![allow(clippy::expect_used, reason = "a test that cannot go on has failed")]

mod support;
use support::*;
use wainwright_rules::Severity;

/// A small system whose settings agree.
const SOUND: &str = include_str!("support/charging.toml");

/// Rules of charging settings.
const RULES: [&str; 18] = [
    "module-voltage-above-controller",
    "charge-above-protection",
    "charge-above-loads",
    "battery-never-full",
    "cells-never-balance",
    "float-misset",
    "tail-current-misset",
    "charge-current-above-battery",
    "no-cold-lockout",
    "compensation-on-lithium",
    "equalise-on-lithium",
    "lead-acid-profile",
    "load-dump",
    "controller-cannot-wake",
    "disconnect-below-protection",
    "loads-fail-first",
    "restart-too-near",
    "loads-off-too-long",
];

fn sound_with(changes: &[(&str, &str)]) -> Story {
    Story::new(&with(SOUND, changes))
}

/// A change of the item, after its label.
fn on(story: &str, label: &str, old: &str, new: &str) -> String {
    let (before, after) = story
        .split_once(&format!("label = \"{label}\""))
        .expect("the item");
    let after = with(after, &[(old, new)]);
    format!("{before}label = \"{label}\"{after}")
}

fn charger(label: &str, old: &str, new: &str) -> Story {
    Story::new(&on(SOUND, label, old, new))
}

/// The one finding of a rule, its severity, and that a proven fix takes it away.
#[track_caller]
fn mended(story: &Story, rule: &str, severity: Severity, headline: &[&str]) -> String {
    let found = story.of(rule);
    assert_eq!(found.len(), 1, "{rule}: {found:?}");
    let finding = found[0];
    assert_eq!(finding.severity, severity, "{}", finding.headline);
    for part in headline {
        assert!(finding.headline.contains(part), "{}", finding.headline);
    }
    let fixes = story.fixed(finding);
    assert!(fixes[0].brings.is_empty(), "{:?}", fixes[0].brings);
    fixes[0].title.clone()
}

#[test]
fn nothing_is_said_of_settings_that_agree() {
    let story = Story::new(SOUND);
    for rule in RULES {
        assert!(story.of(rule).is_empty(), "{:?}", story.of(rule));
    }
}

#[test]
fn nothing_is_said_before_the_job_is_begun() {
    for text in [
        "",
        CLEAN,
        CHAIN,
        include_str!("../../../examples/gear-list.toml"),
    ] {
        let story = Story::unfinished(text);
        for rule in RULES {
            assert!(story.of(rule).is_empty(), "{:?}", story.of(rule));
        }
    }
}

#[test]
fn absorption_above_the_trip_of_uneven_cells() {
    // Four cells 0.2 % apart trip at 14.44 V (3.65 V and three cells 0.2 % behind it on the measured curve).
    let story = charger("Shore charger", "14.2 V", "14.5 V");
    let title = mended(
        &story,
        "charge-above-protection",
        Severity::Warning,
        &["Shore charger charges to 14.5 V", "14.4"],
    );
    assert!(
        title.contains("set charge voltage") || title.contains("Set charge voltage"),
        "{title}"
    );
    // Between the margin and the trip it is a caution.
    let story = charger("Shore charger", "14.2 V", "14.4 V");
    mended(
        &story,
        "charge-above-protection",
        Severity::Caution,
        &["close to"],
    );
}

#[test]
fn absorption_above_what_a_load_bears() {
    let story = sound_with(&[("highest_voltage = \"15 V\"", "highest_voltage = \"14.1 V\"")]);
    let found = story.of("charge-above-loads");
    assert_eq!(found.len(), 2, "both chargers");
    assert!(
        found[0].headline.contains("Fridge bears 14.1 V"),
        "{}",
        found[0].headline
    );
    assert!(!story.fixes(found[0]).is_empty());
}

#[test]
fn absorption_too_low_to_fill_or_to_even_out() {
    let story = charger("Solar controller", "14.2 V", "13.3 V");
    mended(&story, "battery-never-full", Severity::Caution, &["13.3 V"]);
    // Bled from 3.5 V: with even resistances at the tail some 13.8 V; 13.65 V fills but never evens out.
    let text = with(
        SOUND,
        &[("balance_from = \"3.45 V\"", "balance_from = \"3.5 V\"")],
    );
    let story = Story::new(&on(&text, "Solar controller", "14.2 V", "13.65 V"));
    assert!(story.of("battery-never-full").is_empty());
    mended(
        &story,
        "cells-never-balance",
        Severity::Notice,
        &["13.65 V"],
    );
}

#[test]
fn float_out_of_its_range() {
    let story = charger(
        "Shore charger",
        "float_voltage = \"13.5 V\"",
        "float_voltage = \"14.3 V\"",
    );
    mended(&story, "float-misset", Severity::Notice, &["14.3 V"]);
    let story = charger(
        "Shore charger",
        "float_voltage = \"13.5 V\"",
        "float_voltage = \"13 V\"",
    );
    mended(&story, "float-misset", Severity::Notice, &["13 V"]);
}

#[test]
fn tail_current_out_of_its_range() {
    // 2 % to 10 % of 100 Ah, and 60 W for 40 % of the time at 12.8 V besides: 3.9 A to 10 A.
    let story = charger(
        "Shore charger",
        "tail_current = \"6 A\"",
        "tail_current = \"15 A\"",
    );
    mended(
        &story,
        "tail-current-misset",
        Severity::Notice,
        &["15 A", "10 A"],
    );
    let story = charger(
        "Shore charger",
        "tail_current = \"6 A\"",
        "tail_current = \"3 A\"",
    );
    mended(&story, "tail-current-misset", Severity::Notice, &["3 A"]);
}

#[test]
fn more_current_than_the_battery_takes() {
    let story = charger("Shore charger", "30 A", "60 A");
    let found = story.of("charge-current-above-battery");
    assert!(
        found
            .iter()
            .any(|finding| finding.severity == Severity::Warning
                && finding.headline.contains("Shore charger gives 60 A")
                && finding.headline.contains("takes 50 A"))
    );
    // 20 A and 40 A one by one are fine, together they are not.
    let story = charger("Shore charger", "30 A", "40 A");
    mended(
        &story,
        "charge-current-above-battery",
        Severity::Caution,
        &["together", "60 A", "50 A"],
    );
}

#[test]
fn frozen_cells_are_charged() {
    let story = charger("Solar controller", "cold_lockout = \"5 °C\"\n", "");
    let title = mended(
        &story,
        "no-cold-lockout",
        Severity::Caution,
        &["Solar controller", "-10 °C"],
    );
    assert!(title.contains("sensor"), "{title}");
    // Where nobody said that the protection stops in the cold it is worse.
    let text = with(SOUND, &[("cold_cutoff = \"0 °C\"\n", "")]);
    let story = Story::new(&on(
        &text,
        "Solar controller",
        "cold_lockout = \"5 °C\"\n",
        "",
    ));
    mended(&story, "no-cold-lockout", Severity::Warning, &["-10 °C"]);
    // A place that never freezes needs none.
    let text = with(
        SOUND,
        &[("winter_air = \"-10 °C\"", "winter_air = \"8 °C\"")],
    );
    let story = Story::new(&on(
        &text,
        "Solar controller",
        "cold_lockout = \"5 °C\"\n",
        "",
    ));
    assert!(story.of("no-cold-lockout").is_empty());
}

#[test]
fn lead_acid_habits_on_lithium() {
    let story = charger(
        "Solar controller",
        "compensation = \"0 V\"",
        "compensation = \"30 mV\"",
    );
    mended(
        &story,
        "compensation-on-lithium",
        Severity::Caution,
        &["30 mV"],
    );
    let story = charger("Solar controller", "equalise = false", "equalise = true");
    mended(
        &story,
        "equalise-on-lithium",
        Severity::Warning,
        &["equalises"],
    );
    let story = charger("Shore charger", "14.2 V", "13.6 V");
    mended(&story, "lead-acid-profile", Severity::Notice, &["13.6 V"]);
}

#[test]
fn the_same_habits_are_right_on_lead_acid() {
    let text = with(
        SOUND,
        &[
            (
                "chemistry = \"lfp\"\ncells = 4",
                "chemistry = \"flooded\"\ncells = 6",
            ),
            ("equalise = false", "equalise = true"),
            ("compensation = \"0 V\"", "compensation = \"18 mV\""),
            ("cold_lockout = \"5 °C\"\n", ""),
        ],
    );
    let story = Story::new(&text);
    for rule in [
        "compensation-on-lithium",
        "equalise-on-lithium",
        "no-cold-lockout",
        "charge-above-protection",
        "cells-never-balance",
        "disconnect-below-protection",
    ] {
        assert!(story.of(rule).is_empty(), "{:?}", story.of(rule));
    }
}

#[test]
fn a_switching_controller_leaves_the_modules_on_the_loads() {
    let story = charger(
        "Solar controller",
        "tracking = \"mppt\"",
        "tracking = \"pwm\"",
    );
    let found = story.of("load-dump");
    // 24 V, 0.3 % more for each of 35 degrees: 26.5 V on a fridge that bears 15 V.
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].severity, Severity::Warning);
    assert!(
        found[0].headline.contains("26.5 V"),
        "{}",
        found[0].headline
    );
    assert!(found[0].headline.contains("15 V"), "{}", found[0].headline);
}

#[test]
fn a_battery_that_sleeps_and_a_controller_that_waits() {
    let story = sound_with(&[
        ("sleeps = false", "sleeps = true"),
        ("needs_battery = false", "needs_battery = true"),
    ]);
    assert_eq!(story.of("controller-cannot-wake").len(), 1);
    for change in [
        [("sleeps = false", "sleeps = true")],
        [("needs_battery = false", "needs_battery = true")],
    ] {
        assert!(sound_with(&change).of("controller-cannot-wake").is_empty());
    }
}

#[test]
fn disconnects_below_the_protection_and_the_loads() {
    let story = charger("Inverter", "11.8 V", "9.9 V");
    mended(
        &story,
        "disconnect-below-protection",
        Severity::Caution,
        &["9.9 V"],
    );
    let text = with(
        SOUND,
        &[("lowest_voltage = \"10.8 V\"", "lowest_voltage = \"12 V\"")],
    );
    let story = Story::new(&text);
    let found = story.of("loads-fail-first");
    assert_eq!(found.len(), 1, "an inverter does not feed the fridge");
    assert!(
        found[0].headline.contains("Low-voltage relay"),
        "{}",
        found[0].headline
    );
    assert!(
        found[0].headline.contains("Fridge needs 12 V"),
        "{}",
        found[0].headline
    );
}

#[test]
fn reconnect_too_near_or_too_far() {
    let story = charger("Inverter", "13.1 V", "12 V");
    mended(
        &story,
        "restart-too-near",
        Severity::Caution,
        &["Inverter", "12 V"],
    );
    let story = charger("Low-voltage relay", "13.1 V", "13.6 V");
    mended(&story, "loads-off-too-long", Severity::Notice, &["13.6 V"]);
    let story = charger(
        "Low-voltage relay",
        "load_off = \"11.8 V\"",
        "load_off = \"12.9 V\"",
    );
    assert_eq!(story.of("loads-off-too-long").len(), 1);
}

#[test]
fn cold_modules_above_their_controller() {
    // 24 V and 0.3 % for each of 35 degrees: 26.52 V.
    let story = sound_with(&[("highest_input = \"75 V\"", "highest_input = \"26 V\"")]);
    let found = story.of("module-voltage-above-controller");
    assert_eq!(found.len(), 1);
    assert_eq!(found[0].severity, Severity::Danger);
    assert!(
        found[0].headline.contains("26.5 V"),
        "{}",
        found[0].headline
    );
    assert!(
        found[0].headline.contains("-10 °C"),
        "{}",
        found[0].headline
    );
    // Where the cold is not typed, a cold place stands in, and that is no certain danger.
    let story = sound_with(&[
        ("highest_input = \"75 V\"", "highest_input = \"26 V\""),
        ("winter_air = \"-10 °C\"", "people = 1"),
    ]);
    let found = story.of("module-voltage-above-controller");
    assert_eq!(found[0].severity, Severity::Warning);
    assert!(found[0].from_memory || !found[0].assumptions.is_empty());
    // Two in series bring twice as much.
    let series = with(
        SOUND,
        &[
            ("to = \"solar.pv-\"", "to = \"second.+\""),
            ("highest_input = \"75 V\"", "highest_input = \"50 V\""),
        ],
    );
    let series = format!(
        "{series}\n[item.second]\nlike = \"panel\"\n\n[wire.second-minus]\nfrom = \"second.-\"\nto = \"solar.pv-\"\nsize = \"6 mm2\"\nlength = \"3 m\"\n"
    );
    let series = series.replace("like = \"panel\"", "kind = \"solar-module\"\npower = \"200 W\"\nopen_voltage = \"24 V\"\nbest_voltage = \"20 V\"");
    let found = Story::new(&series);
    let found = found.of("module-voltage-above-controller");
    assert_eq!(found.len(), 1);
    assert!(found[0].headline.contains("53 V"), "{}", found[0].headline);
    assert_eq!(found[0].subjects.len(), 3, "controller and both modules");
}
