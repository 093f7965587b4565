//! Stories: what a short circuit does.

mod support;
use support::*;
use wainwright_rules::Severity;

const LIGHTS_POS: &str =
    "to = \"lights.+\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"\nlength = \"12 ft\"";
const LIGHTS_NEG: &str =
    "to = \"minus.3\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"\nlength = \"12 ft\"";
const WAYS: &str = "[\"15 A\", \"10 A\", \"\"]";

/// The lights' circuit with another size, length and fuse.
fn lights(size: &str, insulation: &str, length: &str, fuse: &str) -> Story {
    let change = |text: &str| {
        text.replace("16 AWG", size)
            .replace("gxl", insulation)
            .replace("12 ft", length)
    };
    clean_with(&[
        (LIGHTS_POS, &change(LIGHTS_POS)),
        (LIGHTS_NEG, &change(LIGHTS_NEG)),
        (WAYS, &format!("[\"15 A\", \"{fuse}\", \"\"]")),
    ])
}

#[test]
fn short_that_its_fuse_may_ignore_is_found() {
    // 18 AWG is 21.4 mΩ/m at 20 °C: 60 ft out and back are 0.78 Ω, so a short
    // at the end draws at most 13.4 V / 0.78 Ω = 17 A, less than 1.35 × 20 A.
    let story = lights("18 AWG", "gxl", "60 ft", "20 A");
    let finding = story.at("short-never-cleared", "item.block.way-2").clone();
    assert!(finding.value.as_ref().expect("value").value < 17.2);
    assert_eq!(
        finding.limit.as_ref().expect("limit").text,
        "27 A (1.35 × rating)"
    );
    assert!(finding.from_memory, "the gates are from memory");
}

#[test]
fn short_near_the_fuse_is_ended() {
    lights("16 AWG", "gxl", "12 ft", "10 A").silent("short-never-cleared");
    Story::new(CLEAN).silent("insulation-fails-in-short");
}

#[test]
fn weak_short_is_mended_by_the_next_fuse_that_opens() {
    let story = lights("18 AWG", "gxl", "60 ft", "20 A");
    let finding = story.at("short-never-cleared", "item.block.way-2").clone();
    let fixes = story.fixed(&finding);
    let swap = fixes
        .iter()
        .find(|f| f.title.starts_with("Replace the 20 A fuse") && f.edits.len() == 1);
    let swap = swap.unwrap_or_else(|| panic!("{:?}", titles(&fixes)));
    // The weakest short draws I; a fuse opens for certain from 1.35 × rating.
    let weakest = finding.value.as_ref().expect("value").value;
    let ratings = [15.0, 10.0, 7.5, 5.0, 4.0, 3.0];
    let expected = ratings
        .into_iter()
        .find(|r| 1.35 * r <= weakest)
        .expect("one opens");
    assert!(
        swap.title.ends_with(&format!("by {expected} A")),
        "{} for {weakest} A",
        swap.title
    );
}

/// The feed of the fuse block, 5 ft long, in another size.
fn feed(size: &str) -> Story {
    let old = "to = \"block.in\"\nsize = \"8 AWG\"\ninsulation = \"gxl\"\nlength = \"8 ft\"";
    clean_with(&[(old, &old.replace("8 AWG", size).replace("8 ft", "5 ft"))])
}

#[test]
fn wire_not_shown_to_survive_is_a_caution() {
    // A short at the end of the feed draws 13.4 V over 7.4 mΩ of battery and
    // 5.1 mΩ (10 AWG) or 3.2 mΩ (8 AWG) of feed and a little more: about 1000 A,
    // 16 times the 60 A fuse, whose gates end at 6 times with 1 s: some 1e6 A²s.
    // From 40 °C to 250 °C copper bears (176 · S)²: 10 AWG 8.6e5, 8 AWG 2.2e6 A²s.
    let story = feed("10 AWG");
    let finding = story.one("insulation-fails-in-short").clone();
    // The circuit is named for its first wire; the feed is the one at risk.
    assert_eq!(finding.key(), "insulation-fails-in-short:wire.bat-main");
    assert!(
        finding.headline.contains("wire feed"),
        "{}",
        finding.headline
    );
    assert_eq!(finding.severity, Severity::Caution);
    assert!(
        finding.headline.contains("cannot be shown"),
        "{}",
        finding.headline
    );
    let limit = finding.limit.as_ref().expect("limit").value;
    assert!(
        (limit - 250.0).abs() < 1e-9,
        "cross-linked insulation bears 250 °C in a short"
    );
    let fixes = story.fixed(&finding);
    assert!(
        fixes.iter().any(|f| f.title.contains("8 AWG")),
        "{:?}",
        titles(&fixes)
    );
    feed("8 AWG").silent("insulation-fails-in-short");
}

#[test]
fn short_tap_to_a_fuse_of_its_own_is_left_out() {
    // 4 in of 10 AWG from the 60 A circuit to a 15 A fuse may stay; 10 in may not.
    let tap = |length: &str| {
        clean_and(&format!(
            "[item.tap-fuse]\nkind = \"fuse\"\nfamily = \"maxi-blade\"\nrating = \"20 A\"\ninterrupt = \"10 kA\"\n\n\
             [item.pump]\nkind = \"load\"\ncurrent = \"4 A\"\n\n\
             [wire.tap]\nfrom = \"main.out\"\nto = \"tap-fuse.in\"\nsize = \"14 AWG\"\ninsulation = \"gxl\"\nlength = \"{length}\"\n\n\
             [wire.pump-pos]\nfrom = \"tap-fuse.out\"\nto = \"pump.+\"\nsize = \"14 AWG\"\ninsulation = \"gxl\"\nlength = \"8 ft\"\n\n\
             [wire.pump-neg]\nfrom = \"pump.-\"\nto = \"minus.4\"\nlike = \"pump-pos\"\n"
        ))
    };
    tap("7 in").silent("oversized-fuse");
    let story = tap("10 in");
    let finding = story.one("oversized-fuse");
    assert!(
        finding.headline.contains("wire tap"),
        "{}",
        finding.headline
    );
}

#[test]
fn one_circuit_has_one_finding_about_its_fuse() {
    // 18 AWG on 30 A: the fuse is far too big, which says all there is to say.
    let story = lights("18 AWG", "gpt", "12 ft", "30 A");
    let finding = story.one("oversized-fuse").clone();
    assert_eq!(finding.key(), "oversized-fuse:wire.lights-pos");
    assert_eq!(finding.severity, Severity::Danger);
    story.silent("insulation-fails-in-short");
    assert!(
        finding.subjects.len() >= 3,
        "fuse and both wires: {:?}",
        finding.subjects
    );
    story.fixed(&finding);
}

#[test]
fn insulation_survives_behind_a_fuse_that_fits() {
    lights("18 AWG", "gpt", "12 ft", "5 A").silent("insulation-fails-in-short");
}

#[test]
fn no_temperature_above_melting_copper_is_told() {
    let mut told = 0;
    for (size, fuse) in [("22 AWG", "40 A"), ("18 AWG", "40 A")] {
        let story = lights(size, "gpt", "1 ft", fuse);
        assert!(!story.of("oversized-fuse").is_empty());
        for finding in &story.findings {
            for text in finding.detail.iter().chain([&finding.headline]) {
                for word in text.split(' ').collect::<Vec<_>>().windows(2) {
                    let most = match word[1].get(..3) {
                        Some("°C") => 1085.0,
                        Some("°F") => 1985.0,
                        _ => continue,
                    };
                    let number = word[0].trim_start_matches('(');
                    let degrees: f64 = number.parse().expect("a temperature");
                    assert!(degrees <= most, "{text}");
                    told += 1;
                }
            }
        }
    }
    assert!(told > 0, "no temperature was told");
}
