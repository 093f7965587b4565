//! Headings of the engines, and sections of the rules. Not here: whether they are true.

use crate::tree;
use std::collections::BTreeSet;

const OF_ENGINES: &[&str] = &[
    "Computes",
    "Equation",
    "Assumptions and limits",
    "Valid range",
    "Example",
    "Sources",
];

/// Modules that solve nothing by themselves and serve the others.
const HELPERS: &[&str] = &["refusal", "sparse"];

#[test]
fn every_engine_has_the_headings_in_order() {
    let mut complaints = Vec::new();
    for engine in engines() {
        let path = format!("crates/wainwright-engines/src/{engine}/mod.rs");
        let text = tree::text(&path);
        let headings = headings(&text);
        if headings != OF_ENGINES {
            complaints.push(format!(
                "{path}: headings {headings:?}, expected {OF_ENGINES:?}"
            ));
        }
    }
    tree::none(complaints);
}

/// Headings of the text on top of a file; a hidden line of an example begins alike.
fn headings(text: &str) -> Vec<&str> {
    let mut in_example = false;
    let top = text.lines().map_while(|line| line.strip_prefix("//!"));
    let outside = top.filter(|line| {
        let fence = line.starts_with(" ```");
        in_example ^= fence;
        !in_example && !fence
    });
    outside
        .filter_map(|line| line.strip_prefix(" # "))
        .collect()
}

fn engines() -> Vec<String> {
    let lib = tree::text("crates/wainwright-engines/src/lib.rs");
    let modules = lib
        .lines()
        .filter_map(|line| line.strip_prefix("pub mod ")?.strip_suffix(';'));
    let engines: Vec<String> = modules
        .filter(|name| !HELPERS.contains(name))
        .map(str::to_owned)
        .collect();
    assert!(engines.len() >= 4, "{engines:?}");
    engines
}

#[test]
fn every_rule_is_documented_in_full() {
    let known: BTreeSet<&str> = wainwright_reference::sources()
        .into_iter()
        .map(|source| source.id.as_str())
        .collect();
    let mut complaints = Vec::new();
    for rule in wainwright_rules::catalogue() {
        let doc = rule.doc();
        let sections = [
            ("title", doc.title),
            ("what", doc.what),
            ("why", doc.why),
            ("example", doc.example),
            ("what to do", doc.what_to_do),
        ];
        for (section, text) in sections {
            if text.trim().is_empty() {
                complaints.push(format!("{}: no {section}", doc.id));
            }
        }
        if doc.sources.is_empty() {
            complaints.push(format!(
                "{}: no source, not even one that says there is none",
                doc.id
            ));
        }
        let unknown = doc
            .sources
            .iter()
            .filter(|source| !source.contains(' ') && !known.contains(*source));
        complaints.extend(
            unknown.map(|source| format!("{}: the reference has no source '{source}'", doc.id)),
        );
    }
    tree::none(complaints);
}

#[test]
fn every_rule_has_a_file_of_its_name() {
    let files: BTreeSet<String> = tree::files("crates/wainwright-rules/src", ".rs")
        .into_iter()
        .filter(|file| file.text.contains("impl Rule for "))
        .map(|file| file.name().trim_end_matches(".rs").replace('_', "-"))
        .collect();
    let rules = wainwright_rules::catalogue();
    let ids: BTreeSet<String> = rules.iter().map(|rule| rule.doc().id.to_owned()).collect();
    assert_eq!(ids.len(), rules.len(), "two rules have the same id");
    assert_eq!(ids, files, "ids of the catalogue, and files with a rule");
}
