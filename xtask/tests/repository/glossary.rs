//! The words shown to people are those of the glossary. Not here: what they mean.

use crate::tree;
use std::collections::BTreeSet;
use wainwright_rules::Severity;

#[test]
fn every_kind_and_element_of_the_project_file_is_explained() {
    let words = words();
    let elements = wainwright_model::schema::ELEMENTS
        .iter()
        .map(|element| element.name);
    let kinds = wainwright_model::KINDS.iter().map(|kind| kind.name);
    let missing = elements.chain(kinds).filter(|name| !words.contains(*name));
    tree::none(
        missing
            .map(|name| format!("docs/glossary.md has no row for `{name}`"))
            .collect(),
    );
}

#[test]
fn every_signal_word_is_explained() {
    let words = words();
    for severity in Severity::ALL {
        assert!(
            words.contains(&severity.word().to_lowercase()),
            "{severity}"
        );
    }
}

/// First cells of all tables of the glossary, in small letters.
fn words() -> BTreeSet<String> {
    let text = tree::text("docs/glossary.md");
    let rows = text
        .lines()
        .filter_map(|line| line.strip_prefix("| ")?.split(" | ").next());
    rows.flat_map(|cell| cell.split(", "))
        .map(|word| word.trim_matches('`').to_lowercase())
        .collect()
}
