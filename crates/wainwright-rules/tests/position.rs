//! Stories: where protection sits, and whether every source has its own.

mod support;
use support::*;
use wainwright_rules::Severity;

const FIRST: &str = "to = \"main.in\"\nsize = \"6 AWG\"\ninsulation = \"gxl\"\nlength = \"4 in\"";

fn first(rest: &str) -> Story {
    clean_with(&[(FIRST, &FIRST.replace("length = \"4 in\"", rest))])
}

#[test]
fn unfused_stretch_may_be_seven_inches() {
    first("length = \"7 in\"").silent("unfused-source-stretch");
    let story = first("length = \"7.1 in\"");
    let finding = story.one("unfused-source-stretch").clone();
    assert_eq!(finding.key(), "unfused-source-stretch:item.bat");
    assert!(
        finding.limit.as_ref().and_then(|l| l.source).is_some(),
        "the limit has a source"
    );
}

#[test]
fn unfused_stretch_may_be_longer_in_a_sheath() {
    first("length = \"40 in\"\nsheathed = true").silent("unfused-source-stretch");
    assert_eq!(
        first("length = \"41 in\"\nsheathed = true")
            .of("unfused-source-stretch")
            .len(),
        1
    );
}

#[test]
fn unfused_stretch_is_shorter_in_europe() {
    let eu = |length: &str| {
        clean_with(&[
            ("region = \"US\"", "region = \"EU\""),
            (FIRST, &FIRST.replace("4 in", length)),
        ])
    };
    eu("200 mm").silent("unfused-source-stretch");
    assert_eq!(eu("205 mm").of("unfused-source-stretch").len(), 1);
}

#[test]
fn own_limit_replaces_the_profile() {
    let own = "[limits]\nunfused_length = \"18 in\"\n\n[item.bat]";
    let story = clean_with(&[
        ("[item.bat]", own),
        (FIRST, &FIRST.replace("4 in", "17 in")),
    ]);
    story.silent("unfused-source-stretch");
}

#[test]
fn unfused_stretch_is_mended_at_the_source() {
    let story = first("length = \"4 ft\"");
    let finding = story.one("unfused-source-stretch").clone();
    let fixes = story.fixed(&finding);
    assert!(
        fixes
            .iter()
            .any(|f| f.title.starts_with("Move the 60 A fuse main")),
        "{:?}",
        titles(&fixes)
    );
    assert!(
        fixes.iter().any(|f| f.title.contains("at bat.+")),
        "{:?}",
        titles(&fixes)
    );
    let moved = fixes
        .iter()
        .find(|f| f.title.starts_with("Move"))
        .expect("moved");
    let after = story.after(moved);
    // 4 ft before and 8 ft behind the fuse become 4 in and 11 ft 8 in.
    let metres = |id: &str| {
        after
            .assessment
            .wire(id)
            .expect("wire")
            .length
            .value
            .metres()
    };
    assert!((metres("bat-main") - 0.1016).abs() < 1e-6);
    assert!(
        (metres("feed") - 140.0 * 0.0254).abs() < 1e-3,
        "{}",
        metres("feed")
    );
}

#[test]
fn battery_without_any_fuse_is_a_danger() {
    let story = clean_with(&[
        (
            "[item.main]\nkind = \"fuse\"\nfamily = \"terminal\"\nrating = \"60 A\"\n",
            "[item.main]\nkind = \"switch\"\nstyle = \"battery\"\nrating = \"200 A\"\n",
        ),
        (
            "size = \"8 AWG\"\ninsulation = \"gxl\"\nlength = \"8 ft\"",
            "size = \"16 AWG\"\ninsulation = \"gpt\"\nlength = \"8 ft\"",
        ),
    ]);
    let finding = story.one("unfused-source-stretch").clone();
    assert_eq!(finding.severity, Severity::Danger, "{}", finding.headline);
    let feed = wainwright_rules::Subject::Wire(wainwright_model::Id::new("feed").expect("id"));
    assert!(finding.subjects.contains(&feed), "{:?}", finding.subjects);
}

#[test]
fn source_that_cannot_push_more_needs_no_fuse() {
    let charger = |amps: &str| {
        clean_and(&format!(
            "[item.shore]\nkind = \"shore-charger\"\noutput_current = \"{amps}\"\ncharge_voltage = \"14.2 V\"\n\n\
             [wire.c1]\nfrom = \"shore.+\"\nto = \"block.in\"\nsize = \"10 AWG\"\ninsulation = \"gxl\"\nlength = \"5 ft\"\n\n\
             [wire.c2]\nfrom = \"shore.-\"\nto = \"minus.4\"\nlike = \"c1\"\n"
        ))
    };
    charger("20 A").silent("unfused-source-stretch");
    let strong = charger("200 A");
    assert_eq!(
        strong.of("unfused-source-stretch").len(),
        1,
        "{:#?}",
        strong.headlines()
    );
}

/// Feed to a switch, a fuse behind it, the pump behind that.
fn switched(main: &str, feed: &str) -> Story {
    clean_and(&format!(
        "[item.sw]\nkind = \"switch\"\nrating = \"20 A\"\n\n\
         [item.sw-fuse]\nkind = \"fuse\"\nfamily = \"blade\"\nrating = \"7.5 A\"\n\n\
         [item.pump]\nkind = \"load\"\ncurrent = \"4 A\"\n\n\
         [wire.to-switch]\nfrom = \"{main}\"\nto = \"sw.in\"\nsize = \"{feed}\"\ninsulation = \"gpt\"\nlength = \"5 ft\"\n\n\
         [wire.to-fuse]\nfrom = \"sw.out\"\nto = \"sw-fuse.in\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"\nlength = \"2 in\"\n\n\
         [wire.pump-pos]\nfrom = \"sw-fuse.out\"\nto = \"pump.+\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"\nlength = \"8 ft\"\n\n\
         [wire.pump-neg]\nfrom = \"pump.-\"\nto = \"minus.4\"\nlike = \"pump-pos\"\n"
    ))
}

#[test]
fn fuse_behind_switch_leaves_the_feed_to_the_main_fuse() {
    // The feed hangs on the 60 A main fuse; 16 AWG bears a third of that.
    let story = switched("main.out", "16 AWG");
    let finding = story.one("fuse-behind-switch").clone();
    assert_eq!(finding.key(), "fuse-behind-switch:item.sw");
    assert!(
        finding.headline.contains("60 A fuse main"),
        "{}",
        finding.headline
    );
    // Behind the 10 A way of the block the same wire is protected.
    switched("block.2", "16 AWG").silent("fuse-behind-switch");
    // A feed for the main fuse needs no other.
    switched("main.out", "6 AWG").silent("fuse-behind-switch");
}

#[test]
fn fuse_behind_switch_is_mended_by_moving_it() {
    let story = switched("main.out", "16 AWG");
    let finding = story.one("fuse-behind-switch").clone();
    let fixes = story.fixed(&finding);
    let moved = fixes
        .iter()
        .find(|f| f.title.contains("ahead of the switch"));
    let moved = moved.unwrap_or_else(|| panic!("{:?}", titles(&fixes)));
    let after = story.after(moved);
    let pump = after.assessment.consumer("pump").expect("pump");
    assert!(
        pump.states.iter().any(|s| s.on && s.amps.amperes() > 3.9),
        "the pump still runs"
    );
}

/// Two chargers on one stud behind one fuse.
fn chargers(own: bool) -> Story {
    let far = if own {
        ["f1.out", "f2.out"]
    } else {
        ["stud.1", "stud.2"]
    };
    let fuses = if own {
        "[item.f1]\nkind = \"fuse\"\nfamily = \"blade\"\nrating = \"30 A\"\n\n\
         [item.f2]\nkind = \"fuse\"\nfamily = \"blade\"\nrating = \"30 A\"\n\n\
         [wire.f1-stud]\nfrom = \"stud.1\"\nto = \"f1.in\"\nsize = \"8 AWG\"\ninsulation = \"gxl\"\nlength = \"3 in\"\n\n\
         [wire.f2-stud]\nfrom = \"stud.2\"\nto = \"f2.in\"\nsize = \"8 AWG\"\ninsulation = \"gxl\"\nlength = \"3 in\"\n\n"
    } else {
        ""
    };
    clean_and(&format!(
        "{fuses}[item.stud]\nkind = \"bus-bar\"\nways = 4\n\n\
         [item.shore]\nkind = \"shore-charger\"\noutput_current = \"20 A\"\ncharge_voltage = \"14.2 V\"\n\n\
         [item.drive]\nkind = \"dcdc-charger\"\noutput_current = \"20 A\"\ncharge_voltage = \"14.2 V\"\n\n\
         [wire.stud-feed]\nfrom = \"main.out\"\nto = \"stud.3\"\nsize = \"6 AWG\"\ninsulation = \"gxl\"\nlength = \"2 ft\"\n\n\
         [wire.shore-pos]\nfrom = \"{}\"\nto = \"shore.+\"\nsize = \"8 AWG\"\ninsulation = \"gxl\"\nlength = \"4 ft\"\n\n\
         [wire.shore-neg]\nfrom = \"shore.-\"\nto = \"minus.4\"\nlike = \"shore-pos\"\n\n\
         [wire.drive-pos]\nfrom = \"{}\"\nto = \"drive.out+\"\nlike = \"shore-pos\"\n\n\
         [wire.drive-neg]\nfrom = \"drive.out-\"\nto = \"minus.4\"\nlike = \"shore-pos\"\n",
        far[0], far[1]
    ))
}

#[test]
fn chargers_on_one_stud_share_a_fuse() {
    chargers(true).silent("shared-charger-protection");
    let story = chargers(false);
    let finding = story.one("shared-charger-protection").clone();
    assert_eq!(finding.severity, Severity::Warning);
    assert!(
        finding.headline.contains("Shore and drive"),
        "{}",
        finding.headline
    );
    let fixes = story.fixed(&finding);
    assert!(
        fixes[0].title.contains("fuse of its own"),
        "{:?}",
        titles(&fixes)
    );
}

/// A second battery on the same stud as the first.
fn two_batteries(capacity: &str, fused: bool) -> Story {
    let (end, fuse) = if fused {
        (
            "f2.out",
            "[item.f2]\nkind = \"fuse\"\nfamily = \"terminal\"\nrating = \"100 A\"\n\n\
           [wire.f2-feed]\nfrom = \"bat2.+\"\nto = \"f2.in\"\nsize = \"4 AWG\"\ninsulation = \"gxl\"\nlength = \"4 in\"\n\n",
        )
    } else {
        ("bat2.+", "")
    };
    clean_and(&format!(
        "[item.bat2]\npart = \"lfp-12v-100ah\"\ncapacity = \"{capacity}\"\n\n{fuse}\
         [wire.link-pos]\nfrom = \"{end}\"\nto = \"bat.+\"\nsize = \"4 AWG\"\ninsulation = \"gxl\"\nlength = \"5 in\"\n\n\
         [wire.link-neg]\nfrom = \"bat2.-\"\nto = \"bat.-\"\nsize = \"4 AWG\"\ninsulation = \"gxl\"\nlength = \"5 in\"\n"
    ))
}

#[test]
fn parallel_batteries_need_a_fuse_each() {
    two_batteries("100 Ah", true).silent("parallel-batteries-unprotected");
    let story = two_batteries("100 Ah", false);
    let finding = story.one("parallel-batteries-unprotected").clone();
    assert_eq!(finding.severity, Severity::Caution);
    assert!(finding.headline.contains("200 Ah"), "{}", finding.headline);
}

#[test]
fn large_banks_are_judged_harder() {
    // 100 + 400 Ah are not above 500 Ah; 100 + 401 Ah are.
    assert_eq!(
        two_batteries("400 Ah", false)
            .one("parallel-batteries-unprotected")
            .severity,
        Severity::Caution
    );
    assert_eq!(
        two_batteries("401 Ah", false)
            .one("parallel-batteries-unprotected")
            .severity,
        Severity::Warning
    );
}

#[test]
fn parallel_batteries_are_mended_by_fuses_at_their_terminals() {
    let story = two_batteries("100 Ah", false);
    let finding = story.one("parallel-batteries-unprotected").clone();
    let fixes = story.fixed(&finding);
    assert!(fixes[0].title.contains("bat2.+"), "{:?}", titles(&fixes));
}

#[test]
fn sources_with_a_fuse_each_add_up() {
    // Battery behind 60 A and a charger of 40 A feed the block: together 100 A
    // where 8 AWG bears less.
    let story = clean_and(
        "[item.shore]\nkind = \"shore-charger\"\noutput_current = \"40 A\"\ncharge_voltage = \"14.2 V\"\n\n\
         [wire.c1]\nfrom = \"shore.+\"\nto = \"main.out\"\nsize = \"8 AWG\"\ninsulation = \"gxl\"\nlength = \"2 ft\"\n\n\
         [wire.c2]\nfrom = \"shore.-\"\nto = \"bat.-\"\nlike = \"c1\"\n",
    );
    let bears = story
        .assessment
        .wire("feed")
        .expect("wire")
        .ampacity
        .in_force
        .amperes();
    assert!(bears * 1.07 < 100.0, "{bears}");
    let finding = story.at("sources-add-up", "wire.feed").clone();
    assert_eq!(finding.severity, Severity::Notice);
    let fixes = story.fixed(&finding);
    let feed = story.after(&fixes[0]);
    let feed = feed.assessment.wire("feed").expect("wire");
    assert!(
        feed.ampacity.in_force.amperes() * 1.07 >= 100.0,
        "{:?}",
        titles(&fixes)
    );
    assert!((finding.value.as_ref().expect("value").value - 100.0).abs() < 1e-6);
    Story::new(CLEAN).silent("sources-add-up");
}

/// A second battery behind a fuse of its own that meets the first behind its
/// fuse, and a lamp on a wire straight from there.
fn parallel(fuse: &str, size: &str) -> Story {
    clean_and(&format!(
        "[item.bat2]\npart = \"lfp-12v-100ah\"\n\n\
         [item.f2]\nkind = \"fuse\"\nfamily = \"terminal\"\nrating = \"{fuse}\"\n\n\
         [item.lamp]\nkind = \"load\"\ncurrent = \"2 A\"\n\n\
         [wire.f2-feed]\nfrom = \"bat2.+\"\nto = \"f2.in\"\nsize = \"6 AWG\"\ninsulation = \"gxl\"\nlength = \"4 in\"\n\n\
         [wire.link-pos]\nfrom = \"f2.out\"\nto = \"main.out\"\nsize = \"6 AWG\"\ninsulation = \"gxl\"\nlength = \"5 in\"\n\n\
         [wire.link-neg]\nfrom = \"bat2.-\"\nto = \"bat.-\"\nsize = \"4 AWG\"\ninsulation = \"gxl\"\nlength = \"5 in\"\n\n\
         [wire.lamp-pos]\nfrom = \"main.out\"\nto = \"lamp.+\"\nsize = \"{size}\"\ninsulation = \"gxl\"\nlength = \"6 ft\"\n\n\
         [wire.lamp-neg]\nfrom = \"lamp.-\"\nto = \"minus.4\"\nlike = \"lamp-pos\"\n"
    ))
}

#[test]
fn fuses_of_parallel_batteries_count_together() {
    // Two fuses of 60 A let 120 A through: 1.07 times what the wire bears must
    // be as much as that, not as one of them.
    let (mut fired, mut between) = (0, 0);
    for size in ["2 AWG", "4 AWG", "6 AWG", "8 AWG"] {
        let story = parallel("60 A", size);
        let wire = story.assessment.wire("lamp-pos").expect("wire");
        let most = wire.ampacity.in_force.amperes() * 1.07;
        let found = story.of("oversized-fuse").into_iter().find(|f| {
            let lamp = wainwright_model::Id::new("lamp-pos").expect("id");
            f.subjects.contains(&wainwright_rules::Subject::Wire(lamp))
        });
        assert_eq!(found.is_some(), most < 120.0, "{size} bears {most} / 1.07");
        let Some(finding) = found else { continue };
        fired += 1;
        between += usize::from(most >= 60.0);
        let value = finding.value.as_ref().expect("value").value;
        assert!((value - 120.0).abs() < 1e-6, "{value}");
        assert!(
            finding.headline.contains("fuse main") && finding.headline.contains("fuse f2"),
            "{}",
            finding.headline
        );
    }
    assert!(
        fired > 0 && between > 0,
        "{fired} fired, {between} for the sum only"
    );
}

#[test]
fn fuses_of_parallel_batteries_are_mended_by_one_at_the_thin_wire() {
    let story = parallel("60 A", "8 AWG");
    let finding = story
        .of("oversized-fuse")
        .into_iter()
        .find(|f| f.headline.contains("lamp-pos"))
        .expect("the lamp's wire")
        .clone();
    let fixes = story.fixed(&finding);
    assert!(
        fixes
            .iter()
            .any(|f| f.title.contains("fuse of its own at main.out")),
        "{:?}",
        titles(&fixes)
    );
}

/// A charger whose fuse hangs at the charger, far from where its lead meets
/// the main fuse's output.
fn charger_fuse(lead: &str) -> Story {
    clean_and(&format!(
        "[item.shore]\nkind = \"shore-charger\"\noutput_current = \"20 A\"\ncharge_voltage = \"14.2 V\"\n\n\
         [item.shore-fuse]\nkind = \"fuse\"\nfamily = \"terminal\"\nrating = \"30 A\"\n\n\
         [wire.c1]\nfrom = \"main.out\"\nto = \"shore-fuse.in\"\nsize = \"14 AWG\"\ninsulation = \"gxl\"\nlength = \"{lead}\"\n\n\
         [wire.c2]\nfrom = \"shore-fuse.out\"\nto = \"shore.+\"\nlike = \"c1\"\nlength = \"6 in\"\n\n\
         [wire.c3]\nfrom = \"shore.-\"\nto = \"minus.4\"\nlike = \"c1\"\n"
    ))
}

#[test]
fn fuse_at_the_wrong_end_is_moved_before_wire_is_replaced() {
    let story = charger_fuse("16 ft");
    let finding = story.one("oversized-fuse").clone();
    let fixes = story.fixed(&finding);
    assert!(
        fixes[0].title.starts_with("Move the 30 A fuse shore-fuse"),
        "{:?}",
        titles(&fixes)
    );
    let after = story.after(&fixes[0]);
    // 16 ft and 6 in become 4 in and 16 ft 2 in.
    let inches = |id: &str| {
        let wire = after.assessment.wire(id).expect("wire");
        wire.length.value.metres() / 0.0254
    };
    assert!((inches("c1") - 4.0).abs() < 1e-6);
    assert!((inches("c2") - 194.0).abs() < 0.1, "{}", inches("c2"));
    charger_fuse("7 in").silent("oversized-fuse");
}
