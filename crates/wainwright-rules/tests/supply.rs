//! Stories: voltage, inverters, batteries, supplied leads.

mod support;
use support::*;
use wainwright_rules::Severity;

const FRIDGE_POS: &str = "to = \"fridge.+\"\nsize = \"10 AWG\"";
const FRIDGE_NEG: &str = "to = \"minus.2\"\nsize = \"10 AWG\"";

fn fridge(size: &str) -> Story {
    clean_with(&[
        (FRIDGE_POS, &FRIDGE_POS.replace("10 AWG", size)),
        (FRIDGE_NEG, &FRIDGE_NEG.replace("10 AWG", size)),
    ])
}

#[test]
fn voltage_drop_fires_exactly_above_the_limit() {
    let (mut fired, mut silent) = (0, 0);
    for size in ["8 AWG", "10 AWG", "12 AWG", "14 AWG", "16 AWG"] {
        let story = fridge(size);
        let gear = story.assessment.consumer("fridge").expect("fridge");
        let worst = gear
            .states
            .iter()
            .filter(|s| s.on)
            .filter_map(|s| s.drop_share);
        let worst = worst.map(|share| share.fraction()).fold(0.0, f64::max);
        assert_eq!(
            !story.of("voltage-drop").is_empty(),
            worst > 0.03,
            "{size}: {worst}"
        );
        if worst > 0.03 {
            fired += 1
        } else {
            silent += 1
        }
    }
    assert!(fired > 0 && silent > 0);
}

#[test]
fn voltage_drop_of_a_long_thin_wire_is_what_ohm_says() {
    // 16 AWG at 20 °C is 13.46 mΩ/m; 10 ft out and back are 6.096 m, 82 mΩ; at
    // 5 A that is 0.41 V in the wire alone, hot and with joints a little more.
    let story = fridge("16 AWG");
    let finding = story.one("voltage-drop");
    assert_eq!(finding.severity, Severity::Caution);
    let gear = story.assessment.consumer("fridge").expect("fridge");
    let drop = gear
        .states
        .iter()
        .filter_map(|s| s.drop)
        .map(|d| d.volts())
        .fold(0.0, f64::max);
    assert!(drop > 0.41 && drop < 0.85, "{drop}");
    assert!(
        finding.headline.contains("3 % allowed for critical gear"),
        "{}",
        finding.headline
    );
    assert!(
        finding
            .detail
            .iter()
            .any(|s| s.contains("fridge-pos") || s.contains("fridge-neg"))
    );
}

#[test]
fn voltage_drop_is_mended_in_the_wires_that_matter() {
    let story = fridge("16 AWG");
    let finding = story.one("voltage-drop").clone();
    let fixes = story.fixed(&finding);
    assert!(fixes[0].title.contains("fridge-"), "{:?}", titles(&fixes));
    assert!(
        fixes.windows(2).all(|pair| pair[0].cost <= pair[1].cost),
        "cheapest first"
    );
}

#[test]
fn gear_that_drops_out_is_a_warning() {
    let story = clean_with(&[
        (
            "current = \"5 A\"",
            "power = \"60 W\"\nlowest_voltage = \"12.5 V\"",
        ),
        (FRIDGE_POS, &FRIDGE_POS.replace("10 AWG", "16 AWG")),
    ]);
    let finding = story.one("voltage-drop");
    assert_eq!(finding.severity, Severity::Warning, "{}", finding.headline);
    assert!(
        finding.headline.contains("stops working below 12.5 V"),
        "{}",
        finding.headline
    );
}

/// A 1000 W inverter on the main fuse's output.
fn inverter(size: &str, length: &str, more: &str) -> Story {
    let text = with(CLEAN, &[("rating = \"60 A\"", "rating = \"200 A\"")]);
    let text = text
        .replace("\"6 AWG", "\"2/0 AWG")
        .replace("\"8 AWG", "\"2/0 AWG");
    Story::new(&format!(
        "{text}\n[item.inv]\nkind = \"inverter\"\npower = \"1000 W\"\nsurge = \"1500 W\"\nefficiency = \"88 %\"\nlow_cutoff = \"10 V\"\n{more}\n\
         [wire.inv-pos]\nfrom = \"main.out\"\nto = \"inv.+\"\nsize = \"{size}\"\ninsulation = \"gxl\"\nlength = \"{length}\"\nsupplied = true\n\n\
         [wire.inv-neg]\nfrom = \"inv.-\"\nto = \"bat.-\"\nlike = \"inv-pos\"\n"
    ))
}

#[test]
fn thin_supplied_lead_is_held_against_rated_power() {
    // 1000 W / 0.88 at its shut-down voltage of 10 V is 113.6 A. The lead carries
    // only 100 W today.
    let story = inverter("8 AWG", "3 ft", "load = \"100 W\"");
    let finding = story.at("thin-supplied-lead", "item.inv").clone();
    let rated = finding.value.as_ref().expect("value").value;
    assert!((rated - 1000.0 / 0.88 / 10.0).abs() < 0.1, "{rated}");
    story.silent("overheated-conductor");
    let fixes = story.fixed(&finding);
    let after = story.after(&fixes[0]);
    let lead = after.assessment.wire("inv-pos").expect("wire");
    assert!(lead.ampacity.in_force.amperes() >= rated && !lead.supplied);
    inverter("1/0 AWG", "3 ft", "load = \"100 W\"").silent("thin-supplied-lead");
}

#[test]
fn fix_of_one_wire_leaves_wires_that_are_like_it_alone() {
    let story = inverter("8 AWG", "3 ft", "load = \"100 W\"");
    let finding = story.at("thin-supplied-lead", "item.inv").clone();
    for fix in story
        .fixes(&finding)
        .iter()
        .filter(|f| !f.title.contains("inv-neg"))
    {
        let after = story.after(fix);
        let other = after.assessment.wire("inv-neg").expect("wire");
        assert_eq!(other.size.value.to_string(), "8 AWG", "{}", fix.title);
        assert!(other.supplied);
    }
}

#[test]
fn weak_inverter_leads_are_found_at_low_battery() {
    inverter("2/0 AWG", "3 ft", "").silent("inverter-lead-weak");
    let story = inverter("4 AWG", "10 ft", "");
    let finding = story.one("inverter-lead-weak").clone();
    assert!(finding.severity >= Severity::Warning);
    let fixes = story.fixed(&finding);
    assert!(
        fixes.iter().all(|f| f.title.contains("inv-")),
        "{:?}",
        titles(&fixes)
    );
}

/// The lights ask for 200 W through 100 ft of this wire, behind 30 A.
fn long_lights(size: &str) -> Story {
    let text = with(
        CLEAN,
        &[
            ("[\"15 A\", \"10 A\", \"\"]", "[\"15 A\", \"30 A\", \"\"]"),
            ("current = \"3 A\"", "power = \"200 W\""),
            (
                "to = \"lights.+\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"\nlength = \"12 ft\"",
                "to = \"lights.+\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"\nlength = \"100 ft\"",
            ),
            (
                "to = \"minus.3\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"\nlength = \"12 ft\"",
                "to = \"minus.3\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"\nlength = \"100 ft\"",
            ),
        ],
    );
    Story::new(&text.replace("\"16 AWG\"", &format!("\"{size}\"")))
}

#[test]
fn supply_that_cannot_carry_the_load_is_named() {
    // 100 ft of 16 AWG out and back is 0.82 Ω: at 13 V no more than U²/4R = 51 W
    // reach the end; 200 W are asked for, at any voltage.
    let story = long_lights("16 AWG");
    // Battery low and battery full are one cause.
    let finding = story.one("supply-collapses");
    assert_eq!(finding.severity, Severity::Warning);
    assert_eq!(finding.key(), "supply-collapses:item.lights");
    Story::new(CLEAN).silent("supply-collapses");
}

#[test]
fn supply_that_cannot_carry_the_load_is_mended_by_thicker_wire() {
    // 200 W at 11.5 V or more need U²/4R > 200 W: less than 0.17 Ω, so that
    // 10 AWG (0.2 Ω out and back) cannot do and 6 AWG (0.08 Ω) must.
    let story = long_lights("16 AWG");
    let finding = story.one("supply-collapses").clone();
    let fixes = story.fixed(&finding);
    assert!(
        fixes
            .iter()
            .any(|f| f.title.contains("AWG") && f.title.contains("lights-pos")),
        "{:?}",
        titles(&fixes)
    );
    assert!(!long_lights("10 AWG").of("supply-collapses").is_empty());
    long_lights("6 AWG").silent("supply-collapses");
}

#[test]
fn battery_limits_are_those_typed() {
    // The clean system takes 5 A + 3 A.
    let limited = |amps: &str| {
        clean_with(&[(
            "part = \"lfp-12v-100ah\"",
            &format!("part = \"lfp-12v-100ah\"\ndischarge_limit = \"{amps}\""),
        )])
    };
    limited("8.5 A").silent("battery-overdrawn");
    let story = limited("7.9 A");
    let finding = story.one("battery-overdrawn");
    assert!((finding.value.as_ref().expect("value").value - 8.0).abs() < 1e-6);
    assert_eq!(finding.severity, Severity::Warning);
}

#[test]
fn charge_limit_counts_chargers_together() {
    let story = clean_and(
        "[item.shore]\nkind = \"shore-charger\"\noutput_current = \"60 A\"\ncharge_voltage = \"14.4 V\"\n\n\
         [wire.c1]\nfrom = \"shore.+\"\nto = \"main.out\"\nsize = \"4 AWG\"\ninsulation = \"gxl\"\nlength = \"2 ft\"\n\n\
         [wire.c2]\nfrom = \"shore.-\"\nto = \"bat.-\"\nlike = \"c1\"\n",
    );
    // The library's 100 Ah battery takes 50 A.
    let finding = story.one("battery-overdrawn");
    assert!(
        finding.headline.contains("must take 60 A"),
        "{}",
        finding.headline
    );
}
