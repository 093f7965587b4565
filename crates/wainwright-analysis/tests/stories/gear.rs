//! What each kind of item does to a circuit.

use super::{BATTERY, assess, close, full, gear, lead, wire, with_load};
use wainwright_analysis::result::{JointOwner, Outcome, Reclose, Wanted};

#[test]
fn a_load_takes_its_power_its_current_or_what_its_resistance_lets_through() {
    let taken = |fields| {
        let found = assess(&with_load(fields));
        let index = full(&found);
        let now = gear(&found, "load", index);
        (now.volts.unwrap().volts(), now.amps.amperes())
    };
    let (volts, amps) = taken("power = \"60 W\"");
    close(volts * amps, 60.0, 1e-6);
    let (_, amps) = taken("current = \"4 A\"");
    close(amps, 4.0, 1e-9);
    let (volts, amps) = taken("resistance = \"3 ohm\"");
    close(volts / amps, 3.0, 1e-6);
}

#[test]
fn a_heater_counts_as_a_load_and_not_as_a_loss() {
    let found = assess(&with_load("resistance = \"3 ohm\""));
    let index = full(&found);
    let now = gear(&found, "load", index);
    let Outcome::Steady { loads, losses, .. } = &found.states[index].outcome else {
        panic!("no operating point");
    };
    close(loads.watts(), now.power.watts(), 1e-6);
    // 4.4 A through less than 50 mΩ of leads and battery.
    assert!(
        losses.watts() > 0.1 && losses.watts() < 1.0,
        "{}",
        losses.watts()
    );
}

#[test]
fn a_shunt_a_splice_and_a_switch_lose_their_resistance_times_the_current() {
    for (item, from, to) in [
        ("kind = \"shunt\"\nresistance = \"20 mohm\"", "in", "out"),
        ("kind = \"splice\"\nresistance = \"20 mohm\"", "1", "7"),
        (
            "kind = \"frame\"\nresistance = \"20 mohm\"",
            "front",
            "rear",
        ),
        ("kind = \"switch\"\nresistance = \"20 mohm\"", "in", "out"),
    ] {
        let text = format!(
            "{BATTERY}[item.x]\n{item}\n[item.load]\nkind = \"load\"\ncurrent = \"5 A\"\n{}{}{}",
            lead("a", "bat.+", &format!("x.{from}")),
            lead("b", &format!("x.{to}"), "load.+"),
            lead("m", "load.-", "bat.-")
        );
        let found = assess(&text);
        let index = full(&found);
        let at = |terminal| {
            let node = found.node_of("x", terminal).unwrap();
            found.states[index].node_volts[node].unwrap().volts()
        };
        close(at(from) - at(to), 0.1, 1e-9);
        let joint = found
            .joints
            .iter()
            .find(|j| matches!(&j.owner, JointOwner::Contact(id, 0) if *id == *"x"));
        let judged = item.contains("splice") || item.contains("switch");
        assert_eq!(joint.is_some(), judged, "{item}");
        if let Some(joint) = joint {
            close(joint.heat.watts(), 0.5, 1e-9);
        }
        let path = wainwright_analysis::voltage_path(&super::read(&text), &found, "load", index);
        assert!(path.iter().any(|step| step.name == "x"), "{path:?}");
    }
}

#[test]
fn an_open_switch_cuts_its_load_off_and_an_open_way_its_own_only() {
    let text = with_load("current = \"5 A\"").replace(
        "from = \"bat.+\"\nto = \"load.+\"",
        "from = \"s.out\"\nto = \"load.+\"",
    ) + &lead("feed", "bat.+", "s.in");
    let open = text.clone() + "[item.s]\nkind = \"switch\"\nclosed = false\n";
    let found = assess(&open);
    assert!(!gear(&found, "load", full(&found)).on);
    let closed = assess(&(text + "[item.s]\nkind = \"switch\"\n"));
    assert!(gear(&closed, "load", full(&closed)).on);

    let bank = format!(
        "{BATTERY}[item.s]\nkind = \"switch-bank\"\nfuses = [\"10 A\", \"5 A\"]\nopen = [2]\n\
         [item.one]\nkind = \"load\"\ncurrent = \"1 A\"\n[item.two]\nkind = \"load\"\ncurrent = \"1 A\"\n{}{}{}{}{}{}",
        lead("f1", "bat.+", "s.in1"),
        lead("f2", "s.in1", "s.in2"),
        lead("p1", "s.out1", "one.+"),
        lead("p2", "s.out2", "two.+"),
        lead("m1", "one.-", "bat.-"),
        lead("m2", "two.-", "bat.-"),
    );
    let found = assess(&bank);
    let index = full(&found);
    assert!(gear(&found, "one", index).on && !gear(&found, "two", index).on);
    close(
        found.device("s", 1).unwrap().states[index].amps.amperes(),
        1.0,
        1e-9,
    );
    assert_eq!(
        found.devices.len(),
        2,
        "the number of fuses is the number of ways"
    );
}

#[test]
fn a_fuse_block_feeds_each_way_through_its_own_fuse() {
    let text = format!(
        "{BATTERY}[item.b]\nkind = \"fuse-block\"\nfamily = \"blade\"\nfuses = [\"10 A\", \"\", \"5 A\"]\n\
         [item.one]\nkind = \"load\"\ncurrent = \"3 A\"\n[item.two]\nkind = \"load\"\ncurrent = \"2 A\"\n\
         [item.none]\nkind = \"load\"\ncurrent = \"2 A\"\n{}{}{}{}{}{}{}",
        lead("f", "bat.+", "b.in"),
        lead("p1", "b.1", "one.+"),
        lead("p2", "b.3", "two.+"),
        lead("p3", "b.2", "none.+"),
        lead("m1", "one.-", "bat.-"),
        lead("m2", "two.-", "bat.-"),
        lead("m3", "none.-", "bat.-"),
    );
    let found = assess(&text);
    let index = full(&found);
    let share = |way| {
        found.device("b", way).unwrap().states[index]
            .share
            .fraction()
    };
    close(share(1), 0.3, 1e-9);
    close(share(3), 0.4, 1e-9);
    assert!(found.device("b", 2).is_none() && !gear(&found, "none", index).on);
    close(wire(&found, "f", index).amps.amperes(), 5.0, 1e-9);
    assert_eq!(
        found.device("b", 3).unwrap().rating_path,
        ["item", "b", "fuses", "2"]
    );
}

#[test]
fn a_bar_without_a_number_of_ways_is_one_piece_of_metal_all_the_same() {
    let text = with_load("current = \"5 A\"").replace(
        "from = \"bat.+\"\nto = \"load.+\"",
        "from = \"bar.40\"\nto = \"load.+\"",
    ) + "[item.bar]\nkind = \"bus-bar\"\n"
        + &lead("feed", "bat.+", "bar.1");
    let found = assess(&text);
    assert!(gear(&found, "load", full(&found)).on);
    assert_eq!(found.node_of("bar", "1"), found.node_of("bar", "40"));
}

#[test]
fn an_inverter_takes_its_load_over_its_efficiency_and_never_less_than_idle() {
    let inverter = |fields: &str| {
        format!(
            "{BATTERY}[item.inv]\nkind = \"inverter\"\npower = \"300 W\"\nefficiency = \"80 %\"\nidle_current = \"1 A\"\n{fields}\n{}{}",
            lead("p", "bat.+", "inv.+"),
            lead("m", "inv.-", "bat.-")
        )
    };
    let watts = |text: &str| {
        let found = assess(text);
        gear(&found, "inv", full(&found)).power.watts()
    };
    close(watts(&inverter("load = \"200 W\"")), 250.0, 1e-6);
    close(watts(&inverter("load = \"0 W\"")), 12.8, 1e-6);
}

#[test]
fn breakers_say_what_they_do_after_opening() {
    for (reset, expected) in [
        ("manual", Reclose::Manual),
        ("automatic", Reclose::Automatic),
        ("held", Reclose::Held),
    ] {
        let text = with_load("current = \"5 A\"").replace(
            "from = \"bat.+\"\nto = \"load.+\"",
            "from = \"b.out\"\nto = \"load.+\"",
        ) + &format!(
            "[item.b]\nkind = \"breaker\"\nrating = \"10 A\"\nreset = \"{reset}\"\n"
        ) + &lead("feed", "bat.+", "b.in");
        let found = assess(&text);
        assert_eq!(found.devices[0].reclose, expected);
        let node = found.node_of("load", "+").unwrap();
        let fault = found.faults.iter().find(|f| f.node == node).unwrap();
        assert_eq!(fault.largest.comes_back, expected == Reclose::Automatic);
    }
}

#[test]
fn what_is_missing_is_named_by_the_path_to_type_it_at() {
    let text = format!(
        "{BATTERY}[item.f]\nkind = \"fuse\"\n[item.l]\nkind = \"load\"\n[item.i]\nkind = \"inverter\"\n\
         [item.b]\nkind = \"fuse-block\"\n[item.c]\nkind = \"shore-charger\"\n[item.s]\nkind = \"solar-module\"\n\
         [wire.w]\nfrom = \"bat.+\"\nto = \"f.in\"\n[wire.v]\nfrom = \"f.out\"\nto = \"l.+\"\nsize = \"12 AWG\"\ninsulation = \"felt\"\n"
    );
    let parsed = wainwright_model::parse(&text, wainwright_analysis::catalogue());
    let found = wainwright_analysis::assess(&parsed.project);
    let missing: Vec<(String, Wanted)> = found
        .missing
        .iter()
        .map(|m| (m.path.join("."), m.wanted))
        .collect();
    for (path, wanted) in [
        ("item.f.rating", Wanted::Rating),
        ("item.l.power", Wanted::Demand),
        ("item.i.power", Wanted::Demand),
        ("item.b.fuses", Wanted::Rating),
        ("item.c.output_current", Wanted::Demand),
        ("item.s.short_current", Wanted::Demand),
        ("wire.w.size", Wanted::Size),
        ("wire.v.insulation", Wanted::Insulation),
    ] {
        assert!(
            missing.contains(&(path.to_owned(), wanted)),
            "{path} in {missing:?}"
        );
    }
    assert!(
        !found
            .loose
            .iter()
            .any(|l| l.item == *"f" && l.terminal == "in"),
        "a wire without a size still joins"
    );
}
