//! Several sources: in series, in parallel, in systems of their own, and
//! joined the wrong way round.

use super::{BATTERY, assess, close, full, gear, lead, named};
use wainwright_analysis::result::{Assessment, Side};

fn battery(id: &str, cells: u32) -> String {
    format!(
        "[item.{id}]\nkind = \"battery\"\nchemistry = \"agm\"\ncells = {cells}\ncapacity = \"200 Ah\"\nresistance = \"5 mohm\"\n"
    )
}

fn load(id: &str, amps: f64) -> String {
    format!("[item.{id}]\nkind = \"load\"\ncurrent = \"{amps} A\"\n")
}

fn fuse(id: &str, amps: f64) -> String {
    format!("[item.{id}]\nkind = \"fuse\"\nfamily = \"terminal\"\nrating = \"{amps} A\"\n")
}

fn together(found: &Assessment, wire: &str) -> Option<f64> {
    found
        .wire(wire)
        .unwrap()
        .together
        .map(|amps| amps.amperes())
}

#[test]
fn two_batteries_of_six_volts_in_series_are_one_of_twelve() {
    let text = "wainwright = 1\n".to_owned()
        + &battery("top", 3)
        + &battery("low", 3)
        + &fuse("f", 30.0)
        + &load("l", 5.0)
        + &lead("a", "top.+", "f.in")
        + &lead("b", "f.out", "l.+")
        + &lead("link", "top.-", "low.+")
        + &lead("m", "l.-", "low.-");
    let found = assess(&text);
    let cell = assess(&("wainwright = 1\n".to_owned() + &battery("one", 1)));
    let nominal = |a: &Assessment| a.system_volts.as_ref().unwrap().value.volts();
    close(nominal(&found), 6.0 * nominal(&cell), 1e-9);
    assert_eq!(found.capacity.unwrap().ampere_hours(), 200.0);
    let now = gear(&found, "l", full(&found));
    let drop = now.drop.unwrap().volts();
    assert!(
        drop > 0.0 && drop < 0.5,
        "{drop} V of the whole string, not of one battery"
    );
    assert_eq!(found.wire("m").unwrap().guards[0].device, Some(0));
    assert_eq!(found.wire("link").unwrap().side, Side::Both);
    assert!(found.reversed.is_empty());
}

#[test]
fn a_wire_behind_two_fused_batteries_sees_both_fuses() {
    let text = "wainwright = 1\n".to_owned()
        + &battery("a", 6)
        + &battery("b", 6)
        + &fuse("fa", 60.0)
        + &fuse("fb", 40.0)
        + "[item.bar]\nkind = \"bus-bar\"\nways = 4\n"
        + &load("l", 5.0)
        + &lead("a1", "a.+", "fa.in")
        + &lead("a2", "fa.out", "bar.1")
        + &lead("b1", "b.+", "fb.in")
        + &lead("b2", "fb.out", "bar.2")
        + &lead("out", "bar.3", "l.+")
        + &lead("m", "l.-", "a.-")
        + &lead("link", "a.-", "b.-");
    let found = assess(&text);
    assert_eq!(
        together(&found, "a1"),
        None,
        "nothing lies between the battery and its fuse"
    );
    assert_eq!(
        together(&found, "a2"),
        Some(60.0),
        "60 A from here or 40 A from there, never both"
    );
    assert_eq!(together(&found, "out"), Some(100.0));
    assert_eq!(together(&found, "m"), Some(100.0));
    let smallest = |wire: &str| -> Vec<f64> {
        let guards = found.wire(wire).unwrap().guards.iter();
        guards
            .map(|g| found.devices[g.device.unwrap()].rating.value.amperes())
            .collect()
    };
    assert_eq!(smallest("out"), [60.0, 40.0]);
    assert_eq!(found.capacity.unwrap().ampere_hours(), 400.0);
}

#[test]
fn a_drop_is_counted_from_the_battery_of_the_same_system() {
    let text = BATTERY.to_owned()
        + &battery("other", 12)
        + &load("l", 5.0)
        + &load("k", 5.0)
        + &lead("p", "bat.+", "l.+")
        + &lead("m", "l.-", "bat.-")
        + &lead("q", "other.+", "k.+")
        + &lead("n", "k.-", "other.-");
    let found = assess(&text);
    let fed_by = |id: &str| found.consumer(id).unwrap().fed_by.clone().unwrap();
    assert_eq!(
        (fed_by("l").as_str(), fed_by("k").as_str()),
        ("bat", "other")
    );
    let index = full(&found);
    let (l, k) = (gear(&found, "l", index), gear(&found, "k", index));
    close(l.drop.unwrap().volts(), k.drop.unwrap().volts(), 1e-6);
    let ratio = l.drop_share.unwrap() / k.drop_share.unwrap();
    assert!(
        ratio > 1.8 && ratio < 2.0,
        "a share of 24 V is half of one of 12.8 V: {ratio}"
    );
}

#[test]
fn sources_joined_the_wrong_way_round_are_named_and_the_loads_are_not() {
    let charger = "[item.c]\nkind = \"shore-charger\"\noutput_current = \"10 A\"\ncharge_voltage = \"14.2 V\"\n";
    let loads = load("l", 5.0) + &lead("p", "bat.+", "l.+") + &lead("m", "l.-", "bat.-");
    let names = |text: &str| -> Vec<String> {
        assess(text)
            .reversed
            .iter()
            .map(ToString::to_string)
            .collect()
    };
    let right = format!(
        "{BATTERY}{charger}{loads}{}{}",
        lead("x", "c.+", "l.+"),
        lead("y", "c.-", "l.-")
    );
    assert!(names(&right).is_empty());
    let wrong = format!(
        "{BATTERY}{charger}{loads}{}{}",
        lead("x", "c.-", "l.+"),
        lead("y", "c.+", "l.-")
    );
    assert_eq!(names(&wrong), ["c"]);
    let batteries = format!(
        "{BATTERY}{}{loads}{}{}",
        battery("b", 6),
        lead("x", "b.-", "l.+"),
        lead("y", "b.+", "l.-")
    );
    assert_eq!(names(&batteries), ["b"]);
}

const TWO_ROOFS: &str = r#"
[item.roof-a]
kind = "solar-module"
open_voltage = "22 V"
short_current = "6 A"
best_voltage = "18 V"
best_current = "5.5 A"
[item.roof-b]
kind = "solar-module"
open_voltage = "22 V"
short_current = "6 A"
best_voltage = "18 V"
best_current = "5.5 A"
[item.roof-c]
kind = "solar-module"
open_voltage = "22 V"
short_current = "6 A"
best_voltage = "18 V"
best_current = "5.5 A"
[item.sun-1]
kind = "solar-controller"
output_current = "10 A"
charge_voltage = "14.2 V"
[item.sun-2]
kind = "solar-controller"
output_current = "10 A"
charge_voltage = "14.2 V"
[item.car]
kind = "vehicle-supply"
voltage = "13.8 V"
resistance = "20 mohm"
[item.tow]
kind = "dcdc-charger"
output_current = "10 A"
charge_voltage = "14.2 V"
efficiency = "90 %"
[state.first]
charging = ["sun-1"]
on = []
[state.second]
charging = ["sun-2"]
on = []
[state.towing]
charging = ["tow"]
on = []
[state.nothing]
on = []
"#;

#[test]
fn a_named_charger_brings_along_only_what_feeds_it() {
    let mut text = BATTERY.to_owned() + TWO_ROOFS;
    for (n, (from, to)) in [
        ("roof-a.+", "sun-1.pv+"),
        ("roof-a.-", "sun-1.pv-"),
        ("roof-b.+", "sun-2.pv+"),
        ("roof-b.-", "roof-c.+"),
        ("roof-c.-", "sun-2.pv-"),
        ("sun-1.out+", "bat.+"),
        ("sun-1.out-", "bat.-"),
        ("sun-2.out+", "bat.+"),
        ("sun-2.out-", "bat.-"),
        ("sun-1.pv-", "bat.-"),
        ("sun-2.pv-", "bat.-"),
        ("car.+", "tow.in+"),
        ("car.-", "tow.in-"),
        ("tow.out+", "bat.+"),
        ("tow.out-", "bat.-"),
        ("tow.in-", "bat.-"),
    ]
    .into_iter()
    .enumerate()
    {
        text += &lead(&format!("w{n}"), from, to);
    }
    let found = assess(&text);
    let gives = |state: &str| -> Vec<&str> {
        let index = named(&found, state);
        ["roof-a", "roof-b", "roof-c", "car"]
            .into_iter()
            .filter(|id| gear(&found, id, index).amps.amperes() > 0.1)
            .collect()
    };
    assert_eq!(gives("first"), ["roof-a"]);
    assert_eq!(
        gives("second"),
        ["roof-b", "roof-c"],
        "both modules of the string, the lower one too"
    );
    assert_eq!(gives("towing"), ["car"]);
    assert!(gives("nothing").is_empty());
    // 14.2 V · 10 A / 0.9 at the input.
    let tow = found
        .consumers
        .iter()
        .find(|c| c.item == *"tow" && c.plus == "in+")
        .unwrap();
    close(
        tow.states[named(&found, "towing")].power.watts(),
        14.2 * 10.0 / 0.9,
        1e-6,
    );
    let charge = found
        .consumers
        .iter()
        .find(|c| c.item == *"tow" && c.plus == "out+")
        .unwrap();
    assert!(charge.fed_by.as_ref().is_some_and(|id| *id == *"bat") && tow.fed_by.is_none());
}
