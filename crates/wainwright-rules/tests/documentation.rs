//! Every rule is documented in full, and its sources exist.

use std::collections::BTreeSet;
use wainwright_rules::{Severity, catalogue, docs, rule};

#[test]
fn ids_are_kebab_case_and_unique() {
    let mut seen = BTreeSet::new();
    for doc in docs() {
        let legal = |c: char| c.is_ascii_lowercase() || c == '-';
        assert!(doc.id.chars().all(legal), "{}", doc.id);
        assert!(!doc.id.starts_with('-') && !doc.id.ends_with('-') && !doc.id.contains("--"));
        assert!(seen.insert(doc.id), "{} twice", doc.id);
        assert!(rule(doc.id).is_some());
    }
    assert_eq!(seen.len(), catalogue().len());
    assert!(rule("no-such-rule").is_none());
}

#[test]
fn every_section_is_filled_with_sentences() {
    for doc in docs() {
        for (name, text) in [
            ("what", doc.what),
            ("why", doc.why),
            ("example", doc.example),
            ("what to do", doc.what_to_do),
        ] {
            assert!(text.len() >= 20, "{} has no {name}", doc.id);
            assert!(
                text.trim() == text,
                "{} {name} has blanks at its ends",
                doc.id
            );
            assert!(
                text.ends_with('.'),
                "{} {name} does not end a sentence",
                doc.id
            );
            assert!(!text.contains("  "), "{} {name} has double blanks", doc.id);
        }
        assert!(
            !doc.title.ends_with('.') && doc.title.len() >= 10,
            "{}",
            doc.id
        );
    }
}

#[test]
fn every_example_has_a_figure_or_names_the_gear() {
    let with_figures = docs()
        .filter(|doc| doc.example.chars().any(|c| c.is_ascii_digit()))
        .count();
    assert!(
        with_figures * 10 >= docs().count() * 6,
        "only {with_figures} examples have figures"
    );
}

/// A source is the id of a reference table's source, or a sentence that names
/// a document or owns up to judgement.
#[test]
fn sources_are_known() {
    let known: BTreeSet<&str> = wainwright_reference::sources()
        .iter()
        .map(|source| source.id.as_str())
        .collect();
    for doc in docs() {
        assert!(!doc.sources.is_empty(), "{} has no source", doc.id);
        for source in doc.sources {
            let sentence = source.contains(' ') && source.ends_with('.');
            assert!(
                known.contains(source) || sentence,
                "{}: unknown source {source}",
                doc.id
            );
        }
    }
}

#[test]
fn signal_words_are_ordered() {
    assert!(Severity::Danger < Severity::Warning);
    assert!(Severity::Danger.at_least(Severity::Notice));
    assert!(Severity::Caution.at_least(Severity::Caution));
    assert!(!Severity::Notice.at_least(Severity::Caution));
    assert_eq!(
        Severity::ALL.map(|s| s.to_string()),
        ["Danger", "Warning", "Caution", "Notice"]
    );
}
