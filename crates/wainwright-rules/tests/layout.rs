//! Stories: chains, frames, polarity, loose ends, unknown figures.

mod support;
use support::*;
use wainwright_rules::{Finding, Severity, Subject};

#[test]
fn chain_names_its_overloaded_jumpers_once() {
    let story = Story::new(CHAIN);
    let finding = story.one("overloaded-chain").clone();
    assert_eq!(finding.key(), "overloaded-chain:wire.j1");
    // j1 feeds everything but the fridge on the first switch: 7 + 3 + 4 + 5 + 2 A.
    assert!((finding.value.as_ref().expect("value").value - 21.0).abs() < 1e-6);
    assert!(
        finding.headline.contains("five circuits at once (21 A)"),
        "{}",
        finding.headline
    );
    assert!(
        finding.headline.contains("behind the 60 A fuse main"),
        "{}",
        finding.headline
    );
    let wires: Vec<&Subject> = finding
        .subjects
        .iter()
        .filter(|s| matches!(s, Subject::Wire(_)))
        .collect();
    assert_eq!(wires.len(), 3, "j1, j2 and j3 carry too much: {wires:?}");
}

#[test]
fn chain_is_mended_by_thicker_jumpers_or_feeds_of_their_own() {
    let story = Story::new(CHAIN);
    let finding = story.one("overloaded-chain").clone();
    let fixes = story.fixed(&finding);
    assert!(
        fixes.iter().any(|f| f.title.contains("AWG")),
        "{:?}",
        titles(&fixes)
    );
    let own = fixes
        .iter()
        .find(|f| f.title.contains("feed of its own"))
        .expect("own feeds");
    let after = story.after(own);
    // Each feed now carries its own circuit only.
    for (wire, amps) in [
        ("j1", 7.0),
        ("j2", 3.0),
        ("j3", 4.0),
        ("j4", 5.0),
        ("j5", 2.0),
    ] {
        let result = after.assessment.wire(wire).expect("wire");
        let most = result
            .states
            .iter()
            .map(|s| s.amps.amperes().abs())
            .fold(0.0, f64::max);
        assert!((most - amps).abs() < 1e-6, "{wire} carries {most}");
    }
}

#[test]
fn chain_of_thick_jumpers_is_sound() {
    let thick = with(
        CHAIN,
        &[(
            "size = \"16 AWG\"\ninsulation = \"gpt\"",
            "size = \"6 AWG\"\ninsulation = \"gxl\"",
        )],
    );
    Story::new(&thick).silent("overloaded-chain");
}

#[test]
fn chain_with_one_cause_has_one_finding() {
    // The jumpers are too thin for the load, the fuse ahead is too big for
    // them, and the panel's own fuses sit behind its switches: one cause.
    let story = Story::new(CHAIN);
    let finding = story.one("overloaded-chain").clone();
    for folded in ["oversized-fuse", "fuse-behind-switch"] {
        story.silent(folded);
    }
    let told = |words: &str| finding.detail.iter().any(|s| s.contains(words));
    assert!(told("60 A fuse main is too big"), "{:?}", finding.detail);
    assert!(told("behind its switches"), "{:?}", finding.detail);
    // 16 AWG behind 60 A is a danger, however little the jumpers carry.
    assert_eq!(finding.severity, Severity::Danger);
}

#[test]
fn bank_with_fuses_behind_its_switches_leaves_the_jumpers_bare() {
    // Little load: no jumper is overloaded, but none has a fuse that fits.
    let mut text = CHAIN.to_string();
    for amps in ["6 A", "7 A", "3 A", "4 A", "5 A", "2 A"] {
        text = text.replace(&format!("current = \"{amps}\""), "current = \"0.5 A\"");
    }
    let story = Story::new(&text);
    story.silent("overloaded-chain");
    story.silent("oversized-fuse");
    let finding = story.one("fuse-behind-switch").clone();
    assert_eq!(finding.key(), "fuse-behind-switch:item.panel");
    assert_eq!(finding.severity, Severity::Danger, "{}", finding.headline);
    story.fixed(&finding);
}

/// The lights return through the frame.
fn framed(frame: bool) -> Story {
    let end = if frame { "frame.lamp" } else { "minus.3" };
    let text = with(CLEAN, &[("to = \"minus.3\"", &format!("to = \"{end}\""))]);
    Story::new(&format!(
        "{text}\n[item.frame]\nkind = \"frame\"\n\n\
         [wire.bond]\nfrom = \"frame.tongue\"\nto = \"bat.-\"\nsize = \"8 AWG\"\ninsulation = \"gxl\"\nlength = \"3 ft\"\n"
    ))
}

#[test]
fn frame_must_not_carry_load_current() {
    framed(false).silent("frame-as-return");
    let story = framed(true);
    let finding = story.one("frame-as-return").clone();
    assert_eq!(finding.severity, Severity::Caution);
    assert!(finding.headline.contains("3 A"), "{}", finding.headline);
    let fixes = story.fixed(&finding);
    let after = story.after(&fixes[0]);
    let bond = after.assessment.wire("bond").expect("bond");
    assert!(
        bond.states.iter().all(|s| s.amps.amperes().abs() < 1e-6),
        "the bond is dead"
    );
}

#[test]
fn swapped_gear_is_swapped_back() {
    let story = clean_with(&[
        (
            "from = \"block.2\"\nto = \"lights.+\"",
            "from = \"block.2\"\nto = \"lights.-\"",
        ),
        ("from = \"lights.-\"", "from = \"lights.+\""),
    ]);
    let finding = story.one("reversed-polarity").clone();
    assert_eq!(finding.severity, Severity::Warning);
    let fixes = story.fixed(&finding);
    assert!(story.after(&fixes[0]).text.contains("to = \"lights.+\""));
    Story::new(CLEAN).silent("reversed-polarity");
}

#[test]
fn loose_terminal_is_a_notice_for_each_piece_of_gear() {
    let story = Story::new(&format!(
        "{CLEAN}\n[item.radio]\nkind = \"load\"\ncurrent = \"1 A\"\n"
    ));
    let finding = story.one("loose-terminal");
    assert_eq!(finding.severity, Severity::Notice);
    assert!(
        finding.headline.contains("plus and minus"),
        "{}",
        finding.headline
    );
    Story::new(CLEAN).silent("loose-terminal");
}

#[test]
fn wire_below_minimum_size_depends_on_region_and_sheath() {
    let lights = |size: &str, more: &str, region: &str| {
        clean_with(&[
            ("region = \"US\"", &format!("region = \"{region}\"")),
            (
                "to = \"lights.+\"\nsize = \"16 AWG\"",
                &format!("to = \"lights.+\"\nsize = \"{size}\"{more}"),
            ),
        ])
    };
    lights("16 AWG", "", "US").silent("wire-below-minimum-size");
    lights("18 AWG", "\nsheathed = true", "US").silent("wire-below-minimum-size");
    lights("18 AWG", "\nsheathed = true", "EU").silent("wire-below-minimum-size");
    lights("1 mm2", "", "EU").silent("wire-below-minimum-size");
    assert_eq!(
        lights("0.75 mm2", "", "EU")
            .one("wire-below-minimum-size")
            .severity,
        Severity::Caution
    );
    let story = lights("18 AWG", "", "US");
    let finding = story.one("wire-below-minimum-size").clone();
    let fixes = story.fixed(&finding);
    assert!(fixes[0].title.contains("16 AWG"), "{:?}", titles(&fixes));
    let supplied = lights("18 AWG", "\nsupplied = true", "US");
    assert_eq!(
        supplied.one("wire-below-minimum-size").severity,
        Severity::Notice
    );
}

/// The lights behind a switch of this rating.
fn switched(rating: &str) -> Story {
    let text = with(CLEAN, &[("from = \"block.2\"", "from = \"sw.out\"")]);
    Story::new(&format!(
        "{text}\n[item.sw]\nkind = \"switch\"\nrating = \"{rating}\"\n\n\
         [wire.sw-feed]\nfrom = \"block.2\"\nto = \"sw.in\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"\nlength = \"1 ft\"\n"
    ))
}

#[test]
fn switch_is_held_against_its_rating() {
    switched("3 A").silent("switch-overloaded");
    let story = switched("2.9 A");
    let finding = story.one("switch-overloaded").clone();
    assert_eq!(finding.severity, Severity::Warning);
    let fixes = story.fixed(&finding);
    assert!(
        fixes[0].title.contains("rated 10 A"),
        "{:?}",
        titles(&fixes)
    );
}

#[test]
fn wire_without_size_is_named_with_what_to_type() {
    let story = clean_with(&[(
        "to = \"lights.+\"\nsize = \"16 AWG\"\n",
        "to = \"lights.+\"\n",
    )]);
    let finding = story.one("unsized-wire");
    assert_eq!(finding.key(), "unsized-wire:wire.lights-pos");
    assert!(
        finding.detail.iter().any(|s| s.contains("size = ")),
        "{:?}",
        finding.detail
    );
    Story::new(CLEAN).silent("unsized-wire");
}

#[test]
fn gear_without_figures_is_named() {
    let story = clean_with(&[(
        "[item.lights]\nkind = \"load\"\ncurrent = \"3 A\"",
        "[item.lights]\nkind = \"load\"",
    )]);
    let finding = story.one("untold-figure");
    assert_eq!(finding.key(), "untold-figure:item.lights");
    Story::new(CLEAN).silent("untold-figure");
}

#[test]
fn headlines_are_sentences_and_keys_are_unique() {
    for text in [CLEAN, CHAIN] {
        let story = Story::new(text);
        let mut keys: Vec<String> = story.findings.iter().map(Finding::key).collect();
        keys.sort();
        let count = keys.len();
        keys.dedup();
        assert_eq!(keys.len(), count, "every finding has a key of its own");
        for finding in &story.findings {
            let first = finding.headline.chars().next().expect("not empty");
            assert!(
                first.is_uppercase() || first.is_ascii_digit(),
                "{}",
                finding.headline
            );
            assert!(finding.headline.ends_with('.'), "{}", finding.headline);
            assert!(!finding.headline.contains("  "), "{}", finding.headline);
        }
    }
}
