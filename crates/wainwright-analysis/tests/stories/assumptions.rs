//! Nothing stands in without being listed, with the path to type it at.

use super::{assess, read, with_load};
use wainwright_analysis::known::{Assumption, Basis};
use wainwright_analysis::result::Assessment;

fn listed(found: &Assessment) -> Vec<String> {
    let all = found.assumptions.iter();
    all.flat_map(|a| std::iter::once(&a.path).chain(&a.also))
        .map(|path| path.join("."))
        .collect()
}

const BARE: &str = r#"
wainwright = 1
[item.bat]
kind = "battery"
[item.car]
kind = "vehicle-supply"
[item.tow]
kind = "dcdc-charger"
output_current = "20 A"
[item.roof]
kind = "solar-module"
power = "100 W"
best_voltage = "18 V"
[item.inv]
kind = "inverter"
power = "300 W"
[item.f]
kind = "fuse"
rating = "20 A"
[item.b]
kind = "breaker"
rating = "20 A"
[item.s]
kind = "switch"
[item.u]
kind = "outlet"
[item.bank]
kind = "switch-bank"
[item.tap]
kind = "splice"
[wire.w]
from = "bat.+"
to = "tap.1"
size = "12 AWG"
[wire.v]
from = "tap.2"
to = "f.in"
size = "12 AWG"
runs = "foam"
[wire.c]
from = "f.out"
to = "s.in"
size = "12 AWG"
runs = "conduit"
"#;

#[test]
fn every_stand_in_is_listed_where_it_can_be_typed() {
    let found = assess(BARE);
    let listed = listed(&found);
    for path in [
        "project.region",
        "trailer.summer_air",
        "trailer.roof_air",
        "item.bat.chemistry",
        "item.bat.cells",
        "item.bat.capacity",
        "item.bat.resistance",
        "item.car.voltage",
        "item.car.resistance",
        "item.tow.charge_voltage",
        "item.tow.efficiency",
        "item.roof.short_current",
        "item.roof.open_voltage",
        "item.inv.efficiency",
        "item.inv.low_cutoff",
        "item.inv.surge",
        "item.inv.load",
        "item.f.family",
        "item.f.voltage",
        "item.f.interrupt",
        "item.b.reset",
        "item.s.style",
        "item.s.resistance",
        "item.u.current",
        "item.bank.ways",
        "item.tap.resistance",
        "wire.w.length",
        "wire.w.insulation",
        "wire.w.runs",
        "wire.w.tinned",
        "wire.w.joint_from",
        "wire.v.foam_cover",
        "wire.c.bundle",
        "wire.c.joint_to",
    ] {
        assert!(
            listed.contains(&path.to_owned()),
            "{path} is not in {listed:#?}"
        );
    }
    let mut sorted = listed.clone();
    sorted.sort();
    sorted.dedup();
    assert_eq!(sorted.len(), listed.len(), "nothing is listed twice");
}

#[test]
fn what_many_wires_share_is_one_entry() {
    let found = assess(&with_load("current = \"1 A\""));
    let runs: Vec<_> = found
        .assumptions
        .iter()
        .filter(|a| a.path[2..] == ["runs"])
        .collect();
    assert_eq!(runs.len(), 1);
    assert_eq!(runs[0].also, [["wire", "m", "runs"]]);
    assert_eq!(runs[0].basis, Basis::Assumed(Assumption::UsualForKind));
}

#[test]
fn what_is_typed_is_not_assumed() {
    let listed = listed(&assess(&with_load("current = \"1 A\"")));
    for path in [
        "item.bat.resistance",
        "wire.p.length",
        "wire.p.insulation",
        "wire.p.joint_from",
    ] {
        assert!(!listed.contains(&path.to_owned()), "{path}");
    }
}

#[test]
fn a_value_of_a_part_names_the_part_and_its_source() {
    let text = "wainwright = 1\n[part.mine]\nkind = \"fuse\"\nfamily = \"blade\"\nrating = \"15 A\"\nsource = \"its box\"\n\
                [item.f]\npart = \"mine\"\n";
    let found = wainwright_analysis::assess(&read(text));
    let Basis::Part { part, source } = &found.devices[0].rating.basis else {
        panic!("{:?}", found.devices[0].rating.basis);
    };
    assert_eq!(
        (part.as_str(), source.as_deref()),
        ("mine", Some("its box"))
    );
}
