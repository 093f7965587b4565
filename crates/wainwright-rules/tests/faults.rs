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

#[test]
fn insulation_fails_behind_a_fuse_far_too_large() {
    let story = lights("18 AWG", "gpt", "12 ft", "30 A");
    let finding = story
        .at("insulation-fails-in-short", "item.block.way-2")
        .clone();
    assert!(finding.severity <= Severity::Warning);
    let limit = finding.limit.as_ref().expect("limit").value;
    assert!((limit - 160.0).abs() < 1e-9, "PVC bears 160 °C in a short");
    assert!(
        finding.subjects.len() >= 3,
        "fuse and both wires: {:?}",
        finding.subjects
    );
    let fixes = story.fixed(&finding);
    assert!(
        fixes.iter().any(|f| f.title.contains("AWG")),
        "{:?}",
        titles(&fixes)
    );
}

#[test]
fn insulation_survives_behind_a_fuse_that_fits() {
    lights("18 AWG", "gpt", "12 ft", "5 A").silent("insulation-fails-in-short");
}

#[test]
fn headline_says_no_temperature_above_melting_copper() {
    for size in ["22 AWG", "18 AWG"] {
        let story = lights(size, "gpt", "1 ft", "40 A");
        for finding in story.of("insulation-fails-in-short") {
            let value = finding.value.as_ref().expect("value").value;
            assert!(value <= 1085.0, "{}", finding.headline);
        }
    }
}
