//! Stories: ratings of fuses and breakers.

mod support;
use support::*;
use wainwright_rules::Severity;

const WAYS: &str = "[\"15 A\", \"10 A\", \"\"]";

/// A continuous load of this much on the first way.
fn fridge(amps: &str) -> Story {
    clean_with(&[("current = \"5 A\"", &format!("current = \"{amps}\""))])
}

#[test]
fn fuse_run_hard_allows_eighty_per_cent() {
    fridge("12 A").silent("fuse-run-hard");
    let story = fridge("12.3 A");
    let finding = story.one("fuse-run-hard").clone();
    assert_eq!(finding.key(), "fuse-run-hard:item.block.way-1");
    assert_eq!(finding.severity, Severity::Caution);
    assert!(finding.headline.contains("82 %"), "{}", finding.headline);
    let fixes = story.fixed(&finding);
    assert!(fixes[0].title.contains("by 20 A"), "{:?}", titles(&fixes));
}

#[test]
fn fuse_run_hard_leaves_short_loads_and_overloads_alone() {
    clean_with(&[("current = \"3 A\"", "current = \"9.5 A\"")]).silent("fuse-run-hard");
    fridge("15.5 A").silent("fuse-run-hard");
}

#[test]
fn own_share_replaces_the_usual_one() {
    let half = "[limits]\ncontinuous_share = \"50 %\"\n\n[item.bat]";
    let story = clean_with(&[
        ("[item.bat]", half),
        ("current = \"5 A\"", "current = \"8 A\""),
    ]);
    assert!(story.one("fuse-run-hard").headline.contains("50 %"));
}

#[test]
fn fuse_too_small_fires_above_the_rating() {
    fridge("15 A").silent("fuse-too-small");
    let story = fridge("15.5 A");
    let finding = story.one("fuse-too-small").clone();
    assert_eq!(finding.severity, Severity::Warning);
    let fixes = story.fixed(&finding);
    assert!(
        fixes.iter().any(|f| f.title.contains("by 20 A")),
        "{:?}",
        titles(&fixes)
    );
}

#[test]
fn oversized_fuse_follows_what_the_wire_bears() {
    let (mut fired, mut silent) = (0, 0);
    for rating in [10, 15, 20, 25, 30, 35, 40] {
        let ways = format!("[\"15 A\", \"{rating} A\", \"\"]");
        let story = clean_with(&[(WAYS, &ways)]);
        let wires = ["lights-pos", "lights-neg"].map(|id| story.assessment.wire(id).expect("wire"));
        let bears = wires
            .iter()
            .map(|w| w.ampacity.in_force.amperes())
            .fold(f64::MAX, f64::min);
        let found = story.of("oversized-fuse");
        assert_eq!(
            !found.is_empty(),
            f64::from(rating) > 1.07 * bears,
            "{rating} A, {bears} A"
        );
        if found.is_empty() {
            silent += 1
        } else {
            fired += 1
        }
    }
    assert!(fired > 0 && silent > 1, "{fired} fired, {silent} silent");
}

#[test]
fn oversized_fuse_is_mended_by_a_smaller_one() {
    let story = clean_with(&[(WAYS, "[\"15 A\", \"40 A\", \"\"]")]);
    let finding = story.one("oversized-fuse").clone();
    assert_eq!(finding.key(), "oversized-fuse:wire.lights-pos");
    let fixes = story.fixed(&finding);
    let swap = fixes
        .iter()
        .find(|f| f.title.starts_with("Replace the 40 A fuse"))
        .expect("a swap");
    assert!(
        story.after(swap).text.contains("fuses = [\"15 A\", "),
        "other ways stay"
    );
    // The next larger standard rating would not have done.
    let rating: f64 = swap
        .title
        .split(" by ")
        .last()
        .expect("words")
        .trim_end_matches(" A")
        .parse()
        .expect("number");
    let larger = [10.0, 15.0, 20.0, 25.0, 30.0, 35.0]
        .into_iter()
        .find(|r| *r > rating);
    if let Some(larger) = larger {
        let still = clean_with(&[(WAYS, &format!("[\"15 A\", \"{larger} A\", \"\"]"))]);
        assert!(
            !still.of("oversized-fuse").is_empty(),
            "{larger} A would have done"
        );
    }
}

#[test]
fn dangers_from_memory_say_so() {
    let thin = [
        (WAYS, "[\"15 A\", \"40 A\", \"\"]"),
        (
            "to = \"lights.+\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"",
            "to = \"lights.+\"\nsize = \"18 AWG\"\ninsulation = \"gpt\"\nruns = \"foam\"",
        ),
    ];
    let story = clean_with(&thin);
    let finding = story.one("oversized-fuse");
    assert_eq!(finding.severity, Severity::Danger, "{}", finding.headline);
    assert!(finding.from_memory);
    assert!(
        finding
            .detail
            .iter()
            .any(|s| s.contains("written from memory")),
        "{:?}",
        finding.detail
    );
}

#[test]
fn interrupt_rating_is_held_against_the_strongest_fault() {
    let family =
        |name: &str| clean_with(&[("family = \"terminal\"", &format!("family = \"{name}\""))]);
    family("terminal").silent("interrupt-rating-too-low");
    // 100 Ah lithium at 8.2 mΩ drives well over 1 kA through 4 in of 6 AWG; an
    // M5 strip fuse opens 1 kA.
    let story = family("strip-small");
    let finding = story.at("interrupt-rating-too-low", "item.main").clone();
    assert_eq!(finding.severity, Severity::Danger);
    let fixes = story.fixed(&finding);
    assert!(
        fixes
            .iter()
            .all(|f| f.title.contains("Replace the 60 A fuse")),
        "{:?}",
        titles(&fixes)
    );
}

#[test]
fn fuses_of_batteries_in_parallel_help_together_or_not_at_all() {
    // Two equal batteries, each behind a fuse that opens 5 kA at 32 V and
    // less: each gives about half of a short behind the fuse of the solar
    // controller, which opens 1 kA.
    const TRAILER: &str = include_str!("../../../examples/dark-sky-metric.toml");
    let key = ("interrupt-rating-too-low", "item.solar-fuse");
    let story = Story::new(TRAILER);
    let finding = story.at(key.0, key.1);
    assert_eq!(finding.severity, Severity::Caution, "{}", finding.headline);
    let told = |names: [&str; 2]| {
        let mut all = finding.detail.iter();
        all.any(|s| names.iter().all(|name| s.contains(name)))
    };
    assert!(
        told(["battery A", "battery B"]),
        "both are named: {:?}",
        finding.detail
    );
    // One of the two cannot open its half: its battery goes on feeding.
    let old = "label = \"Fuse, battery B\"\npart = \"fuse-terminal\"\n";
    let weak = format!("{old}interrupt = \"1 kA\"\n");
    let story = Story::new(&with(TRAILER, &[(old, &weak)]));
    let finding = story.at(key.0, key.1).clone();
    assert_eq!(finding.severity, Severity::Danger, "{:?}", finding.detail);
    story.fixed(&finding);
}

#[test]
fn typed_interrupt_rating_goes_before_the_usual_one() {
    let story = clean_with(&[(
        "rating = \"60 A\"",
        "rating = \"60 A\"\ninterrupt = \"500 A\"",
    )]);
    let finding = story.at("interrupt-rating-too-low", "item.main");
    assert!(!finding.from_memory, "the label was typed");
    clean_with(&[(
        "rating = \"60 A\"",
        "rating = \"60 A\"\ninterrupt = \"20 kA\"",
    )])
    .silent("interrupt-rating-too-low");
}

#[test]
fn voltage_rating_is_held_against_the_highest_voltage() {
    let rated = |volts: &str| {
        clean_with(&[(
            "rating = \"60 A\"",
            &format!("rating = \"60 A\"\nvoltage = \"{volts}\""),
        )])
    };
    rated("32 V").silent("voltage-rating-too-low");
    let story = rated("12 V");
    let finding = story.one("voltage-rating-too-low").clone();
    assert_eq!(finding.severity, Severity::Danger);
    story.fixed(&finding);
}

#[test]
fn modules_in_series_add_their_voltages() {
    let solar = |fuse: &str| {
        format!(
            "[item.sun1]\nkind = \"solar-module\"\nopen_voltage = \"22 V\"\nshort_current = \"6 A\"\nbest_voltage = \"18 V\"\nbest_current = \"5.5 A\"\n\n\
             [item.sun2]\nkind = \"solar-module\"\nopen_voltage = \"22 V\"\nshort_current = \"6 A\"\nbest_voltage = \"18 V\"\nbest_current = \"5.5 A\"\n\n\
             [item.mppt]\nkind = \"solar-controller\"\ntracking = \"mppt\"\noutput_current = \"15 A\"\ncharge_voltage = \"14.2 V\"\n\n\
             [item.pv-fuse]\nkind = \"fuse\"\nfamily = \"blade\"\nrating = \"10 A\"\nvoltage = \"{fuse}\"\n\n\
             [wire.s1]\nfrom = \"sun1.-\"\nto = \"mppt.pv-\"\nsize = \"10 AWG\"\ninsulation = \"boat-105\"\nlength = \"12 ft\"\n\n\
             [wire.s2]\nfrom = \"sun1.+\"\nto = \"sun2.-\"\nlike = \"s1\"\nlength = \"3 ft\"\n\n\
             [wire.s3]\nfrom = \"sun2.+\"\nto = \"pv-fuse.in\"\nlike = \"s1\"\n\n\
             [wire.s4]\nfrom = \"pv-fuse.out\"\nto = \"mppt.pv+\"\nlike = \"s1\"\nlength = \"1 ft\"\n\n\
             [wire.s5]\nfrom = \"mppt.out+\"\nto = \"block.in\"\nlike = \"s1\"\nlength = \"1 ft\"\n\n\
             [wire.s6]\nfrom = \"mppt.out-\"\nto = \"minus.4\"\nlike = \"s1\"\nlength = \"1 ft\"\n"
        )
    };
    // Two modules of 22 V make 44 V.
    let story = clean_and(&solar("32 V"));
    let finding = story.at("voltage-rating-too-low", "item.pv-fuse");
    assert!((finding.value.as_ref().expect("value").value - 44.0).abs() < 1e-9);
    clean_and(&solar("58 V")).silent("voltage-rating-too-low");
}

#[test]
fn self_resetting_breaker_is_replaced_by_hand_reset() {
    let breaker = |reset: &str| {
        clean_with(&[(
            "kind = \"fuse\"\nfamily = \"terminal\"\nrating = \"60 A\"",
            &format!(
                "kind = \"breaker\"\nrating = \"60 A\"\nreset = \"{reset}\"\ninterrupt = \"5 kA\""
            ),
        )])
    };
    breaker("manual").silent("self-resetting-breaker");
    let story = breaker("automatic");
    let finding = story.one("self-resetting-breaker").clone();
    assert_eq!(finding.severity, Severity::Warning);
    story.fixed(&finding);
}

#[test]
fn not_selective_names_the_fuse_that_opens_needlessly() {
    let story = clean_with(&[(
        "family = \"terminal\"\nrating = \"60 A\"",
        "family = \"maxi-blade\"\nrating = \"20 A\"\ninterrupt = \"10 kA\"",
    )]);
    let finding = story.one("not-selective").clone();
    assert_eq!(
        (finding.severity, finding.key().as_str()),
        (Severity::Notice, "not-selective:item.main")
    );
    assert!(
        finding.headline.contains("20 A fuse main"),
        "{}",
        finding.headline
    );
}

#[test]
fn not_selective_is_mended_by_a_larger_main_fuse() {
    // A weak battery and long wire: the short at the lights stays within the
    // gates of both fuses, where twice the rating of one family is enough.
    let story = clean_with(&[
        (
            "part = \"lfp-12v-100ah\"",
            "part = \"lfp-12v-100ah\"\nresistance = \"100 mohm\"",
        ),
        (
            "family = \"terminal\"\nrating = \"60 A\"",
            "family = \"maxi-blade\"\nrating = \"20 A\"\ninterrupt = \"10 kA\"",
        ),
    ]);
    let finding = story.one("not-selective").clone();
    let fixes = story.fixed(&finding);
    assert!(
        fixes
            .iter()
            .any(|f| f.title.contains("Replace the 20 A fuse main")),
        "{:?}",
        titles(&fixes)
    );
}

#[test]
fn not_selective_needs_a_second_fuse_in_the_way() {
    let single = with(
        CLEAN,
        &[(
            "[item.main]\nkind = \"fuse\"\nfamily = \"terminal\"\nrating = \"60 A\"\n",
            "[item.main]\nkind = \"switch\"\nstyle = \"battery\"\nrating = \"200 A\"\n",
        )],
    );
    Story::new(&single).silent("not-selective");
}
