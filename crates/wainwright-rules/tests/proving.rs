//! The prover: bounded, deterministic, least change, nothing as bad is new.

mod support;
use support::*;
use wainwright_analysis::{assess, catalogue, working};
use wainwright_model::{apply, parse, replay};
use wainwright_rules::{fixes, judge};

#[test]
fn judging_is_deterministic_and_sorted() {
    let story = Story::new(CHAIN);
    let again = judge(&story.project, &assess(&story.project));
    assert_eq!(story.findings, again);
    for pair in story.findings.windows(2) {
        assert!(pair[0].severity <= pair[1].severity);
        if let (true, Some(a), Some(b)) = (
            pair[0].severity == pair[1].severity,
            pair[0].margin,
            pair[1].margin,
        ) {
            assert!(a.fraction() <= b.fraction(), "smallest margin first");
        }
    }
}

#[test]
fn no_trial_means_no_fix() {
    let story = Story::new(CHAIN);
    for finding in &story.findings {
        let none = fixes(&story.text, &story.project, &story.assessment, finding, 0);
        assert!(none.is_empty(), "a fix without proof for {}", finding.key());
    }
}

#[test]
fn fixes_are_deterministic() {
    let story = Story::new(CHAIN);
    let finding = story.one("overloaded-chain");
    assert_eq!(story.fixes(finding), story.fixes(finding));
}

#[test]
fn every_fix_of_every_finding_holds_and_can_be_undone() {
    for text in [CLEAN, CHAIN] {
        let story = Story::new(text);
        for finding in &story.findings {
            for fix in story.fixes(finding) {
                let applied = apply(&story.text, &fix.edits).expect("applies");
                let parsed = parse(&applied.text, catalogue());
                assert!(
                    parsed.problems.is_empty(),
                    "{}: {:?}",
                    fix.title,
                    parsed.problems
                );
                let after = judge(&parsed.project, &assess(&parsed.project));
                assert!(
                    after.iter().all(|f| f.key() != finding.key()),
                    "{}",
                    fix.title
                );
                let back = replay(&applied.text, &applied.inverse).expect("undone");
                assert_eq!(back, story.text);
                assert!(fix.cost > 0.0 && fix.cost.is_finite());
                for gone in &fix.mends {
                    assert!(
                        after.iter().all(|f| f.key() != *gone),
                        "{gone} was said to be gone"
                    );
                }
                for left in &fix.leaves {
                    assert!(
                        after.iter().any(|f| f.key() == *left),
                        "{left} was said to be left"
                    );
                }
            }
        }
    }
}

#[test]
fn every_asked_for_working_exists() {
    for text in [CLEAN, CHAIN] {
        let story = Story::new(text);
        for finding in &story.findings {
            if let Some(ask) = &finding.ask {
                let found = working(&story.project, &story.assessment, ask);
                assert!(
                    found.is_some_and(|w| !w.steps.is_empty()),
                    "{}: {ask:?}",
                    finding.key()
                );
            }
        }
    }
}

#[test]
fn unfinished_texts_never_stop_the_rules() {
    for text in [
        "",
        "wainwright = 1\n",
        "[item.x]\nkind = \"fuse\"\n",
        "[wire.w]\nfrom = \"a.+\"\n",
    ] {
        let story = Story::unfinished(text);
        for finding in &story.findings {
            let _ = story.fixes(finding);
        }
    }
    // Every prefix of a whole project that ends at a line.
    let lines: Vec<&str> = CHAIN.lines().collect();
    for end in (0..lines.len()).step_by(7) {
        let _ = Story::unfinished(&lines[..end].join("\n"));
    }
}

#[test]
fn assumed_values_are_named_by_path() {
    let story = clean_with(&[
        (
            "to = \"lights.+\"\nsize = \"16 AWG\"\ninsulation = \"gxl\"\n",
            "to = \"lights.+\"\nsize = \"18 AWG\"\n",
        ),
        ("[\"15 A\", \"10 A\", \"\"]", "[\"15 A\", \"40 A\", \"\"]"),
    ]);
    let finding = story.at("oversized-fuse", "wire.lights-pos");
    let path = ["wire", "lights-pos", "insulation"]
        .map(str::to_string)
        .to_vec();
    assert!(
        finding.assumptions.contains(&path),
        "{:?}",
        finding.assumptions
    );
}

/// The larger invented trailers of the repository: every fix that is offered
/// for the worst findings holds.
#[test]
fn worst_findings_of_the_example_trailers_have_fixes_that_hold() {
    for text in [
        include_str!("../../../examples/dark-sky.toml"),
        include_str!("../../../examples/dark-sky-metric.toml"),
    ] {
        let story = Story::new(text);
        assert!(!story.findings.is_empty());
        let worst = story
            .findings
            .iter()
            .filter(|f| f.severity == wainwright_rules::Severity::Danger);
        for finding in worst.take(4) {
            story.fixed(finding);
        }
    }
}

/// The same trailer with the bundles left to the routes: a lead among others
/// bears so little that a fuse of its own or thicker wire is not enough alone.
#[test]
fn bundles_from_the_routes_are_mended_too() {
    let text: String = include_str!("../../../examples/dark-sky.toml")
        .split_inclusive('\n')
        .filter(|line| !line.starts_with("bundle = 1"))
        .collect();
    let story = Story::new(&text);
    let mut in_bundle = 0;
    let worst = story.findings.iter();
    for finding in worst.filter(|f| f.severity == wainwright_rules::Severity::Danger) {
        in_bundle += usize::from(finding.headline.contains("loaded wires together"));
        story.fixed(finding);
    }
    assert!(in_bundle > 0, "{:#?}", story.headlines());
}
