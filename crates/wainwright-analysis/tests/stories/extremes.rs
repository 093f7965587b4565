//! Values at the ends of what can be typed, and sizes beyond the usual.

use super::{BATTERY, assess, close, full, gear, lead, with_load};
use std::time::Instant;
use wainwright_analysis::result::{Assessment, Outcome};
use wainwright_model::parse;

fn is_sound(found: &Assessment) {
    for solved in &found.states {
        let volts = solved.node_volts.iter().flatten();
        assert!(volts.map(|v| v.volts()).all(f64::is_finite));
    }
    for wire in &found.wires {
        assert!(wire.ampacity.in_force.amperes() >= 0.0);
        for now in &wire.states {
            let all = [
                now.amps.amperes(),
                now.temperature.celsius(),
                now.drop.volts(),
                now.resistance.ohms(),
            ];
            assert!(
                all.iter().all(|value| value.is_finite()),
                "{}: {all:?}",
                wire.id
            );
            assert!(now.temperature.celsius() < 1084.0);
        }
    }
    assert!(found.unstudied.is_empty(), "{:?}", found.unstudied);
}

#[test]
fn wires_from_a_micrometre_to_a_kilometre_in_every_size() {
    for length in ["0.000001 m", "1 mm", "1 m", "1000 m"] {
        for size in [
            "30 AWG", "22 AWG", "18 AWG", "10 SAE", "4/0 AWG", "0.5 mm2", "150 mm2", "7.3 mm2",
        ] {
            let text = with_load("current = \"0.1 A\"")
                .replace("3 m", length)
                .replace("12 AWG", size);
            let parsed = parse(&text, wainwright_analysis::catalogue());
            let found = wainwright_analysis::assess(&parsed.project);
            is_sound(&found);
        }
    }
}

#[test]
fn a_wire_without_foam_in_foam_lies_open_and_the_faults_are_still_studied() {
    let text = with_load("current = \"5 A\"").replace(
        "[wire.p]\n",
        "[wire.p]\nruns = \"foam\"\nfoam_cover = \"0 mm\"\n",
    );
    let found = assess(&text);
    is_sound(&found);
    assert!(!found.faults.is_empty());
    let wire = found.wire("p").unwrap();
    assert!(wire.states[full(&found)].temperature > wire.air.value);
}

#[test]
fn a_current_that_melts_the_wire_stops_at_the_melting_point() {
    let found = assess(
        &with_load("current = \"250 A\"")
            .replace("12 AWG", "14 AWG")
            .replace("3 m", "10 cm"),
    );
    is_sound(&found);
    assert!(
        found.wire("p").unwrap().states[full(&found)]
            .temperature
            .celsius()
            > 1000.0
    );
}

#[test]
fn two_hundred_wires_are_assessed_at_once() {
    let mut text = format!(
        "{BATTERY}[item.main]\nkind = \"fuse\"\nfamily = \"class-t\"\nrating = \"200 A\"\n\
         [item.plus]\nkind = \"bus-bar\"\nways = 99\n[item.minus]\nkind = \"bus-bar\"\nways = 99\n{}{}{}",
        lead("a", "bat.+", "main.in"),
        lead("b", "main.out", "plus.1"),
        lead("c", "bat.-", "minus.1")
    );
    for n in 2..=70 {
        text += &format!(
            "[item.f{n}]\nkind = \"fuse\"\nfamily = \"blade\"\nrating = \"5 A\"\n[item.l{n}]\nkind = \"load\"\ncurrent = \"1 A\"\n"
        );
        text += &lead(&format!("x{n}"), &format!("plus.{n}"), &format!("f{n}.in"));
        text += &lead(&format!("y{n}"), &format!("f{n}.out"), &format!("l{n}.+"));
        text += &lead(&format!("z{n}"), &format!("l{n}.-"), &format!("minus.{n}"));
    }
    let project = super::read(&text);
    let start = Instant::now();
    let found = wainwright_analysis::assess(&project);
    assert!(start.elapsed().as_secs() < 5, "{:?}", start.elapsed());
    assert_eq!(found.wires.len(), 3 + 3 * 69);
    is_sound(&found);
    let index = full(&found);
    close(
        found.device("main", 0).unwrap().states[index]
            .amps
            .amperes(),
        69.0,
        1e-6,
    );
    assert_eq!(found.wire("z40").unwrap().together.unwrap().amperes(), 5.0);
    assert_eq!(found.wire("b").unwrap().together.unwrap().amperes(), 200.0);
    assert!(gear(&found, "l70", index).on);
}

#[test]
fn a_ring_shares_its_current_and_loses_no_guard() {
    let text = BATTERY.to_owned()
        + "[item.f]\nkind = \"fuse\"\nfamily = \"blade\"\nrating = \"20 A\"\n[item.l]\nkind = \"load\"\ncurrent = \"6 A\"\n\
           [item.r]\nkind = \"bus-bar\"\nways = 4\n[item.s]\nkind = \"bus-bar\"\nways = 4\n"
        + &lead("a", "bat.+", "f.in")
        + &lead("b", "f.out", "r.1")
        + &lead("c1", "r.2", "s.2")
        + &lead("c2", "r.3", "s.3")
        + &lead("d", "s.1", "l.+")
        + &lead("m", "l.-", "bat.-");
    let found = assess(&text);
    let index = full(&found);
    for wire in ["c1", "c2"] {
        let wire = found.wire(wire).unwrap();
        close(wire.states[index].amps.amperes(), 3.0, 1e-9);
        assert_eq!(wire.guards[0].device, Some(0));
        assert_eq!(
            wire.together.unwrap().amperes(),
            20.0,
            "the other strand may break"
        );
    }
    assert!(matches!(
        found.states[index].outcome,
        Outcome::Steady { .. }
    ));
}
