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

#[test]
fn words_kept_apart_are_not_shown() {
    let text = tree::text("docs/glossary.md");
    let (_, rows) = text.split_once("## Kept apart").unwrap();
    let cells = rows
        .lines()
        .filter_map(|line| line.strip_prefix("| ")?.split(" | ").nth(1))
        .filter(|cell| *cell != "not");
    let avoided: Vec<&str> = cells.flat_map(|cell| cell.split(", ")).collect();
    assert!(avoided.len() >= 5, "{avoided:?}");
    let mut complaints = Vec::new();
    for file in tree::files("crates", ".rs")
        .into_iter()
        .filter(|file| file.path.contains("/src/"))
    {
        for (number, line) in file.code() {
            let shown = shown(line);
            let bad = avoided.iter().find(|word| {
                shown.contains(&format!(" {word} ")) || shown.contains(&format!(" {word}s "))
            });
            complaints.extend(
                bad.map(|word| format!("{}:{number}: '{word}', see docs/glossary.md", file.path)),
            );
        }
    }
    tree::none(complaints);
}

/// What a line of code holds between quotes, in small letters, words apart by one space.
fn shown(line: &str) -> String {
    let quoted = line
        .split('"')
        .skip(1)
        .step_by(2)
        .collect::<Vec<_>>()
        .join(" ")
        .to_lowercase();
    let words = quoted
        .split(|letter: char| !letter.is_alphanumeric() && letter != '-')
        .filter(|word| !word.is_empty());
    format!(" {} ", words.collect::<Vec<_>>().join(" "))
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
