//! The states every trailer is solved for, and those a person names.

use super::{BATTERY, assess, close, gear, lead, named, state};
use wainwright_analysis::result::StateKind;

fn trailer(states: &str) -> String {
    format!(
        "{BATTERY}[item.lamp]\nkind = \"load\"\ncurrent = \"1 A\"\nsurge = \"4 A\"\n\
         [item.fan]\nkind = \"load\"\npower = \"20 W\"\ncontinuous = true\n\
         [item.heater]\nkind = \"load\"\nresistance = \"4 ohm\"\nsurge = \"6 A\"\n\
         [item.inv]\nkind = \"inverter\"\npower = \"300 W\"\nsurge = \"500 W\"\nefficiency = \"100 %\"\nload = \"200 W\"\n\
         {}{}{}{}{}{}{}{}{states}",
        lead("p1", "bat.+", "lamp.+"),
        lead("p2", "bat.+", "fan.+"),
        lead("p3", "bat.+", "heater.+"),
        lead("p4", "bat.+", "inv.+"),
        lead("m1", "lamp.-", "bat.-"),
        lead("m2", "fan.-", "bat.-"),
        lead("m3", "heater.-", "bat.-"),
        lead("m4", "inv.-", "bat.-"),
    )
}

#[test]
fn the_usual_states_switch_on_what_they_say() {
    let found = assess(&trailer(""));
    let on = |kind: &StateKind| -> Vec<&str> {
        let index = state(&found, kind);
        let all = ["lamp", "fan", "heater", "inv"];
        all.into_iter()
            .filter(|id| gear(&found, id, index).on)
            .collect()
    };
    assert_eq!(
        on(&StateKind::EverythingLow),
        ["lamp", "fan", "heater", "inv"]
    );
    assert_eq!(on(&StateKind::Hours), ["fan"]);
    let surge = state(&found, &StateKind::Surge);
    close(gear(&found, "inv", surge).power.watts(), 500.0, 1e-6);
    assert!(!found.states[surge].lasting);
    assert!(
        !found.states.iter().any(|s| s.kind == StateKind::Charging),
        "nothing charges"
    );
    for solved in found.states.iter().filter(|s| s.lasting) {
        assert!(solved.heat_residual.kelvins() < 0.1);
    }
}

#[test]
fn named_states_follow_on_off_surge_inverter_load_and_battery() {
    let found = assess(&trailer(
        "[state.only]\non = [\"lamp\"]\nbattery = \"low\"\n\
         [state.but]\noff = [\"lamp\", \"inv\"]\nbattery = \"full\"\n\
         [state.start]\non = []\nsurge = [\"lamp\", \"heater\"]\n\
         [state.work]\non = []\ninverter_load = \"120 W\"\n",
    ));
    let on = |id: &str, state: &str| gear(&found, id, named(&found, state)).on;
    assert!(on("lamp", "only") && !on("fan", "only") && !on("inv", "only"));
    assert!(!on("lamp", "but") && on("fan", "but") && on("heater", "but") && !on("inv", "but"));
    let amps = |id: &str, state: &str| gear(&found, id, named(&found, state)).amps.amperes();
    close(amps("lamp", "start"), 4.0, 1e-9);
    close(amps("heater", "start"), 6.0, 1e-9);
    close(
        gear(&found, "inv", named(&found, "work")).power.watts(),
        120.0,
        1e-6,
    );
    let volts = |state: &str| {
        gear(&found, "bat", named(&found, state))
            .volts
            .unwrap()
            .volts()
    };
    assert!(volts("only") < volts("but"), "a low battery gives less");
}

#[test]
fn heat_in_a_surge_is_that_of_the_surge() {
    let found = assess(&trailer(""));
    let surge = state(&found, &StateKind::Surge);
    let wire = found.wire("p4").unwrap();
    let now = wire.states[surge];
    let metal = now.resistance.ohms() - wire.joints.ohms();
    let expected = now.amps.amperes().powi(2) * metal / 3.0;
    close(now.heat.watts_per_metre(), expected, 1e-6 * expected);
}
