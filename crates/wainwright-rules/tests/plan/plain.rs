//! A plain gear list.

use super::{plan, told};

/// One battery, all ways of charging, an inverter, five loads, a bank.
pub const GEAR: &str = r#"wainwright = 1

[project]
units = "us"
region = "US"

[trailer]
inside_length = "12 ft"
inside_width = "6 ft"
inside_height = "6 ft"

[item.house]
label = "House battery"
part = "lfp-12v-280ah"

[item.module-a]
part = "solar-200w"

[item.module-b]
part = "solar-200w"

[item.solar]
part = "mppt-30a"

[item.shore]
part = "shore-charger-30a"

[item.dcdc]
part = "dcdc-20a"

[item.tow]
part = "vehicle-heavy"

[item.inverter]
part = "inverter-12v-1000w"

[item.fridge]
part = "fridge-45l"

[item.fan]
part = "roof-fan"

[item.pump]
part = "water-pump"

[item.lights]
part = "led-strip"

[item.socket]
part = "socket-12v"

[item.bank]
part = "switch-bank-6"
"#;

#[test]
fn a_plain_gear_list_gets_wiring_without_a_warning() {
    let plan = plan(GEAR);
    assert!(
        plan.unsolved.is_empty() && plan.obstacles.is_empty(),
        "{}",
        told(&plan)
    );
    assert!(
        plan.cost >= plan.lower_bound && plan.gap() < 0.01,
        "{}",
        plan.gap()
    );
    assert!(
        plan.decisions
            .iter()
            .all(|d| d.what.ends_with('.') && d.why.ends_with('.'))
    );
    let loose = plan.findings.iter().filter(|f| f.rule == "loose-terminal");
    assert_eq!(loose.count(), 0, "everything is joined");
}
