//! Stories: hot conductors, hot joints, wire in foam.

mod support;
use support::*;
use wainwright_rules::Severity;

/// The lights' current, typed.
fn lights(amps: &str) -> (String, String) {
    (
        "current = \"3 A\"".to_string(),
        format!("current = \"{amps}\""),
    )
}

fn with_lights(amps: &str, more: &[(&str, &str)]) -> Story {
    let (old, new) = lights(amps);
    let mut changes = vec![
        (old.as_str(), new.as_str()),
        ("[\"15 A\", \"10 A\", \"\"]", "[\"15 A\", \"40 A\", \"\"]"),
    ];
    changes.extend_from_slice(more);
    clean_with(&changes)
}

#[test]
fn clean_system_has_no_more_than_a_notice() {
    let story = Story::new(CLEAN);
    assert!(
        story
            .findings
            .iter()
            .all(|f| f.severity == Severity::Notice),
        "{:#?}",
        story.headlines()
    );
}

#[test]
fn overheated_conductor_fires_exactly_above_the_limit() {
    let (mut hot, mut cool) = (0, 0);
    for amps in (10..60).step_by(2) {
        let story = with_lights(&format!("{amps} A"), &[]);
        let wire = story.assessment.wire("lights-pos").expect("wire");
        let state = wire.states[wire.worst.expect("solved")];
        let above = state.temperature.celsius() > wire.limit.celsius();
        let found = story
            .of("overheated-conductor")
            .into_iter()
            .any(|f| f.key().ends_with("wire.lights-pos") && f.severity <= Severity::Warning);
        assert_eq!(found, above, "{amps} A");
        if above { hot += 1 } else { cool += 1 }
    }
    assert!(
        hot > 3 && cool > 3,
        "the range must cross the limit: {hot} hot, {cool} cool"
    );
}

#[test]
fn overheated_conductor_is_mended_by_the_least_larger_size() {
    let story = with_lights("38 A", &[]);
    let finding = story.at("overheated-conductor", "wire.lights-pos");
    assert!(finding.headline.contains("38 A"), "{}", finding.headline);
    let fixes = story.fixed(finding);
    let sized = fixes
        .iter()
        .find(|f| f.title.contains("AWG for ") && f.title.contains("lights-pos"));
    let sized = sized.unwrap_or_else(|| panic!("{:?}", titles(&fixes)));
    let words: Vec<&str> = sized.title.split(' ').collect();
    let number: i32 = words[1].parse().expect("a gauge number");
    // One size less must leave the finding, or it was not the least change.
    let less = number + 2;
    if less < 16 {
        let old = "to = \"lights.+\"\nsize = \"16 AWG\"";
        let new = format!("to = \"lights.+\"\nsize = \"{less} AWG\"");
        let before = with_lights("38 A", &[(old, &new)]);
        assert!(
            before
                .findings
                .iter()
                .any(|f| f.key() == finding.key() && f.severity <= finding.severity),
            "{less} AWG would have done"
        );
    }
}

#[test]
fn thirty_kelvins_too_much_are_a_danger() {
    for amps in (20..70).step_by(2) {
        let story = with_lights(&format!("{amps} A"), &[]);
        let wire = story.assessment.wire("lights-pos").expect("wire");
        let over = wire.states[wire.worst.expect("solved")]
            .temperature
            .celsius()
            - wire.limit.celsius();
        if over <= 0.0 {
            continue;
        }
        let expected = if over >= 30.0 {
            Severity::Danger
        } else {
            Severity::Warning
        };
        assert_eq!(
            story.at("overheated-conductor", "wire.lights-pos").severity,
            expected,
            "{amps} A"
        );
    }
}

const BUNDLED: (&str, &str) = (
    "to = \"lights.+\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"",
    "to = \"lights.+\"\nsize = \"14 AWG\"\ninsulation = \"gpt\"\nruns = \"bundle\"\nbundle = 4\nair = \"30 °C\"",
);

#[test]
fn derated_by_bundle_fires_between_the_bundled_and_the_single_value() {
    let (mut fired, mut silent) = (0, 0);
    for tenths in 80..260 {
        if tenths % 5 != 0 {
            continue;
        }
        let amps = f64::from(tenths) / 10.0;
        let story = with_lights(&format!("{amps} A"), &[BUNDLED]);
        let wire = story.assessment.wire("lights-pos").expect("wire");
        let table = wire.ampacity.table.as_ref().expect("in the table");
        let alone = table.current.amperes() / table.bundle.fraction();
        let worst = wire.states[wire.worst.expect("solved")];
        let expected = amps > table.current.amperes() + 1e-6
            && amps <= alone
            && worst.temperature.celsius() <= wire.limit.celsius();
        let found = !story.of("derated-by-bundle").is_empty();
        assert_eq!(found, expected, "{amps} A");
        if found { fired += 1 } else { silent += 1 }
    }
    assert!(silent > 3, "never silent");
    assert!(fired > 0, "never fired");
}

#[test]
fn derated_by_bundle_is_mended_by_air() {
    let found = (80..260).step_by(5).find_map(|tenths| {
        let story = with_lights(&format!("{} A", f64::from(tenths) / 10.0), &[BUNDLED]);
        (!story.of("derated-by-bundle").is_empty()).then_some(story)
    });
    let story = found.expect("a current that fires");
    let finding = story.one("derated-by-bundle").clone();
    assert!(
        finding.headline.contains("bundle of four"),
        "{}",
        finding.headline
    );
    let fixes = story.fixed(&finding);
    assert!(
        titles(&fixes).iter().any(|t| t.contains("apart")),
        "{:?}",
        titles(&fixes)
    );
}

const HOT: (&str, &str) = (
    "to = \"lights.+\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"",
    "to = \"lights.+\"\nsize = \"10 AWG\"\ninsulation = \"thwn\"\nair = \"60 °C\"",
);

#[test]
fn derated_by_hot_place_needs_heat() {
    // 33 CFR Table 5: 10 AWG, 75 °C column, 40 A at 30 °C. At 60 °C the factor is
    // √((75 − 60) / (75 − 30)) = 0.577, so 23.1 A.
    let story = with_lights("23 A", &[HOT]);
    story.silent("derated-by-hot-place");
    let story = with_lights("24 A", &[HOT]);
    let finding = story.one("derated-by-hot-place").clone();
    assert_eq!(finding.severity, Severity::Caution);
    let limit = finding.limit.as_ref().expect("a limit");
    assert!(
        (limit.value - 40.0 * (15.0_f64 / 45.0).sqrt()).abs() < 0.01,
        "{}",
        limit.text
    );
    assert_eq!(
        limit.source.map(|s| s.document.as_str()),
        Some("33 CFR 183.425")
    );
    let fixes = story.fixed(&finding);
    // One size up: 8 AWG bears 55 A · 0.577 = 32 A.
    let wanted = fixes.iter().find(|f| f.title.contains("8 AWG"));
    assert!(wanted.is_some(), "{:?}", titles(&fixes));
    let cool = with_lights("24 A", &[HOT, ("air = \"60 °C\"", "air = \"30 °C\"")]);
    cool.silent("derated-by-hot-place");
}

#[test]
fn pvc_against_foam_needs_both() {
    let foam = (
        "to = \"lights.+\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"",
        "to = \"lights.+\"\nsize = \"16 AWG\"\ninsulation = \"gpt\"\nruns = \"foam\"",
    );
    let story = clean_with(&[foam]);
    let finding = story.one("pvc-against-foam").clone();
    assert_eq!(finding.severity, Severity::Caution);
    let fixes = story.fixed(&finding);
    assert!(fixes.len() >= 2, "{:?}", titles(&fixes));
    clean_with(&[(foam.0, &foam.1.replace("gpt", "gxl"))]).silent("pvc-against-foam");
    clean_with(&[(foam.0, &foam.1.replace("\"foam\"", "\"open\""))]).silent("pvc-against-foam");
}

#[test]
fn hot_joint_is_judged_by_its_heat() {
    // 5 A through 39 mΩ makes 0.975 W, through 41 mΩ 1.025 W; 1 W is the limit.
    let joint = |ohms: &str| {
        clean_with(&[(
            "to = \"fridge.+\"",
            &format!("to = \"fridge.+\"\njoint_to = \"{ohms}\""),
        )])
    };
    joint("39 mohm").silent("hot-joint");
    let story = joint("41 mohm");
    let finding = story.one("hot-joint").clone();
    assert_eq!(finding.severity, Severity::Caution);
    let watts = finding.value.as_ref().expect("a value").value;
    assert!((watts - 25.0 * 0.041).abs() < 1e-6, "{watts}");
    story.fixed(&finding);
    // 5 W melts a holder: 5 A through 210 mΩ is 5.25 W.
    assert_eq!(
        joint("210 mohm").one("hot-joint").severity,
        Severity::Warning
    );
}
