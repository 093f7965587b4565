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

/// The first wire at the battery, in another size.
fn first(size: &str) -> Story {
    let old = "to = \"main.in\"\nsize = \"6 AWG\"";
    clean_with(&[(old, &old.replace("6 AWG", size))])
}

#[test]
fn wire_not_shown_to_survive_is_a_caution() {
    // A short behind the 60 A fuse draws 1600 A, 27 times its rating. The gates
    // end at 6 times with 1 s; 1600 A for 1 s is 2.6e6 A²s, while 8 AWG XLPE bears
    // k²S² = 1.43e6 A²s and 6 AWG 3.61e6 A²s.
    let story = first("8 AWG");
    let finding = story.one("insulation-fails-in-short").clone();
    assert_eq!(finding.key(), "insulation-fails-in-short:wire.bat-main");
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
        fixes
            .iter()
            .any(|f| f.title.contains("6 AWG for wire bat-main")),
        "{:?}",
        titles(&fixes)
    );
    first("6 AWG").silent("insulation-fails-in-short");
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
    for (size, fuse) in [("22 AWG", "40 A"), ("18 AWG", "40 A")] {
        let story = lights(size, "gpt", "1 ft", fuse);
        assert!(!story.of("oversized-fuse").is_empty());
        for finding in &story.findings {
            for text in finding.detail.iter().chain([&finding.headline]) {
                for word in text.split(' ').collect::<Vec<_>>().windows(2) {
                    if word[1].starts_with("°C") {
                        let celsius: f64 = word[0].parse().expect("a temperature");
                        assert!(celsius <= 1085.0, "{text}");
                    }
                }
            }
        }
    }
}
