//! What holds for every plan: the same text gives the same plan, what is
//! fixed stays, what is owned is used, what cannot be done is told.

use super::plain::GEAR;
use super::{plan, told};
use wainwright_analysis::catalogue;
use wainwright_model::{apply, parse, replay};
use wainwright_rules::plan::{ObstacleKind, Options, make};

#[test]
fn the_same_text_gives_the_same_plan() {
    assert_eq!(plan(GEAR), plan(GEAR));
}

#[test]
fn the_edits_give_the_text_and_can_be_taken_back() {
    let plan = plan(GEAR);
    let applied = apply(GEAR, &plan.edits).unwrap();
    assert_eq!(applied.text, plan.text);
    assert_eq!(replay(&applied.text, &applied.inverse).unwrap(), GEAR);
}

#[test]
fn a_planned_project_needs_no_plan() {
    let again = plan(&plan(GEAR).text);
    assert!(again.is_empty(), "{:?}", again.edits);
}

#[test]
fn every_wire_is_sized_coloured_and_labelled_once() {
    let planned = plan(GEAR).text;
    let project = parse(&planned, catalogue()).project;
    let mut labels: Vec<String> = Vec::new();
    for (id, wire) in project.wires.iter() {
        assert!(wire.size.is_some() && wire.insulation.is_some(), "{id}");
        assert!(wire.colour.is_some() && wire.length.is_some(), "{id}");
        labels.push(wire.label.clone().unwrap().value);
    }
    labels.sort();
    let count = labels.len();
    labels.dedup();
    assert_eq!(count, labels.len());
    assert!(count > 30);
}

#[test]
fn fixed_wires_stay_byte_for_byte() {
    // The inverter is wired already, with wire and fuse somebody chose.
    let fixed = "\n[item.my-fuse]  # from the shed\nkind = \"fuse\"\nfamily = \"class-t\"\nrating = \"150 A\"\n\n\
                 [wire.mine]\nfrom = \"my-fuse.out\"  # short\nto = \"inverter.+\"\nsize = \"2/0 AWG\"\n\
                 insulation = \"boat-105\"\nlength = \"3 ft\"\n";
    let text = format!("{GEAR}{fixed}");
    let plan = plan(&text);
    for table in fixed.split("\n\n") {
        assert!(plan.text.contains(table.trim()), "{table}");
    }
    assert!(plan.unsolved.is_empty(), "{}", told(&plan));
    // It is fed where it begins, with no second fuse before it.
    let project = parse(&plan.text, catalogue()).project;
    let feeds = project.wires.iter().filter(|(_, wire)| {
        wire.to
            .as_ref()
            .is_some_and(|to| to.value.to_string() == "my-fuse.in")
    });
    assert_eq!(feeds.count(), 1);
    assert!(!project.items.contains("inverter-fuse"));
}

#[test]
fn what_is_in_the_shed_is_used_and_costs_nothing() {
    let bought = plan(GEAR);
    let stock = "\n[stock.coil]\nof = \"wire\"\nsize = \"12 AWG\"\ninsulation = \"gxl\"\nlength = \"200 ft\"\n\n\
                 [stock.fuse]\nof = \"fuse\"\nfamily = \"blade\"\nrating = \"15 A\"\ncount = 4\n";
    let owned = plan(&format!("{GEAR}{stock}"));
    let uses = |text: &str| {
        let project = parse(text, catalogue()).project;
        let metres = project
            .wires
            .iter()
            .filter(|(_, wire)| wire.size.as_ref().is_some_and(|size| size.text == "12 AWG"))
            .filter_map(|(_, wire)| wire.length.as_ref())
            .map(|length| length.value.metres());
        metres.sum::<f64>()
    };
    assert!(uses(&owned.text) > uses(&bought.text), "{}", owned.text);
    assert!(uses(&owned.text) <= 200.0 * 0.3048 + 40.0);
    assert!(owned.cost < bought.cost, "{} {}", owned.cost, bought.cost);
    assert!(owned.unsolved.is_empty(), "{}", told(&owned));
}

#[test]
fn no_battery_is_told() {
    let plan = plan("wainwright = 1\n\n[item.lamp]\nkind = \"load\"\npower = \"10 W\"\n");
    assert!(plan.is_empty());
    assert_eq!(plan.obstacles[0].kind, ObstacleKind::Missing);
}

#[test]
fn an_empty_and_a_broken_text_are_planned_without_a_word_of_panic() {
    for text in [
        "",
        "wainwright = 1\n[item.a]\nkind = \"battery\"\n[item.a]\n[wire.",
        "[item.b]\nkind=\"battery\"\n",
    ] {
        let parsed = parse(text, catalogue());
        let plan = make(text, &parsed.project, &Options::default());
        assert!(plan.rounds <= Options::default().rounds);
    }
}

#[test]
fn a_load_without_a_figure_is_told_and_the_rest_is_planned() {
    let plan = plan(&format!(
        "{GEAR}\n[item.riddle]\nlabel = \"Riddle\"\nkind = \"load\"\n"
    ));
    assert!(!plan.is_empty());
    assert!(
        plan.obstacles
            .iter()
            .any(|o| o.kind == ObstacleKind::Missing && o.text.contains("Riddle"))
    );
}

#[test]
fn more_than_the_battery_gives_is_told_before() {
    let text = GEAR
        .replace("inverter-12v-1000w", "inverter-12v-3000w")
        .replace("lfp-12v-280ah", "lfp-12v-100ah");
    let plan = plan(&text);
    assert!(
        plan.obstacles
            .iter()
            .any(|o| o.kind == ObstacleKind::Gear && o.text.contains("must give")),
        "{}",
        told(&plan)
    );
}

#[test]
fn three_strings_of_modules_get_fuses_two_do_not() {
    let more = "\n[item.module-c]\npart = \"solar-200w\"\n";
    let fuses = |text: &str| plan(text).text.matches("Solar string fuse").count();
    assert_eq!(fuses(GEAR), 0);
    assert_eq!(fuses(&format!("{GEAR}{more}")), 3);
}

#[test]
fn batteries_in_parallel_get_a_fuse_each() {
    let more = "\n[item.second]\npart = \"lfp-12v-280ah\"\n";
    let plan = plan(&format!("{GEAR}{more}"));
    assert_eq!(plan.text.matches("label = \"Main fuse\"").count(), 2);
    assert!(plan.unsolved.is_empty(), "{}", told(&plan));
}

#[test]
fn gear_for_24_volts_puts_two_batteries_in_series() {
    let text = GEAR
        .replace("inverter-12v-1000w", "inverter-24v-1000w")
        .replace(
            "part = \"mppt-30a\"",
            "part = \"mppt-30a\"\ncharge_voltage = \"28.4 V\"",
        )
        .replace(
            "part = \"shore-charger-30a\"",
            "part = \"shore-charger-30a\"\ncharge_voltage = \"28.4 V\"",
        )
        .replace(
            "part = \"dcdc-20a\"",
            "part = \"dcdc-20a\"\ncharge_voltage = \"28.4 V\"",
        );
    let plan = plan(&format!(
        "{text}\n[item.second]\npart = \"lfp-12v-280ah\"\n"
    ));
    assert!(
        plan.text.contains("from = \"house.-\"\nto = \"second.+\""),
        "{}",
        told(&plan)
    );
    assert_eq!(plan.text.matches("label = \"Main fuse\"").count(), 1);
}

#[test]
fn foam_gets_cross_linked_insulation_not_pvc() {
    let text = GEAR
        .replace("[item.fridge]", "[item.fridge]\nspot = \"3 m, 0.1 m, 0 m\"")
        .replace("[item.house]", "[item.house]\nspot = \"0.1 m, 0.1 m, 0 m\"");
    let trunk = "\n[trunk.wall]\npath = [\"100 mm, 100 mm, 100 mm\", \"3000 mm, 100 mm, 100 mm\"]\nruns = \"foam\"\n";
    let plan = plan(&format!("{text}{trunk}"));
    assert!(plan.findings.iter().all(|f| f.rule != "pvc-against-foam"));
    let project = parse(&plan.text, catalogue()).project;
    let fridge = project.wires.get("fridge-plus").unwrap();
    assert!(fridge.length.is_none(), "its route decides");
    assert_eq!(fridge.insulation.as_ref().unwrap().value, "gxl");
}

#[test]
fn forty_loads_are_planned() {
    let mut text = GEAR.replace("lfp-12v-280ah", "lfp-12v-300ah");
    for number in 0..35 {
        text.push_str(&format!(
            "\n[item.light-{number}]\nkind = \"load\"\ncurrent = \"0.8 A\"\n"
        ));
    }
    let begun = std::time::Instant::now();
    let plan = plan(&text);
    println!(
        "{} wires, {} rounds, {:?}",
        plan.text.matches("[wire.").count(),
        plan.rounds,
        begun.elapsed()
    );
    assert!(plan.unsolved.is_empty(), "{}", told(&plan));
    let loose = plan.findings.iter().filter(|f| f.rule == "loose-terminal");
    assert_eq!(loose.count(), 0, "{}", told(&plan));
}
