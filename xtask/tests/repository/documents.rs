//! The documents for people: links that lead somewhere, and what must be said. Not here: their
//! wording.

use crate::tree;

#[test]
fn links_between_documents_lead_somewhere() {
    let mut complaints = Vec::new();
    for file in tree::files("", ".md") {
        let folder = file.path.rsplit_once('/').map_or("", |(folder, _)| folder);
        for link in links(&file.text) {
            let target = link.split('#').next().unwrap_or("");
            if !target.is_empty()
                && !target.contains("://")
                && !tree::root().join(folder).join(target).exists()
            {
                complaints.push(format!("{}: there is no {target}", file.path));
            }
        }
    }
    tree::none(complaints);
}

#[test]
fn every_crate_is_in_the_architecture() {
    let text = tree::text("ARCHITECTURE.md");
    for file in tree::files("crates", "Cargo.toml") {
        let name = file.path.split('/').nth(1).unwrap_or_default();
        assert!(
            text.contains(&format!("| `{name}` |")),
            "ARCHITECTURE.md has no row for {name}"
        );
    }
}

#[test]
fn decisions_are_numbered_without_gaps_and_dated() {
    for (index, file) in tree::files("docs/decisions", ".md").iter().enumerate() {
        let number = format!("{:04}", index + 1);
        assert!(
            file.name().starts_with(&number),
            "{}: expected number {number}",
            file.path
        );
        assert!(
            file.text.starts_with(&format!("# {number} ")),
            "{}: the heading begins with the number",
            file.path
        );
        let dated = file.text.lines().any(|line| line.starts_with("Date: 20"));
        assert!(dated, "{}: no line 'Date: ...'", file.path);
    }
}

/// Targets of `[text](target)`.
fn links(text: &str) -> impl Iterator<Item = &str> {
    text.split("](")
        .skip(1)
        .filter_map(|rest| rest.split(')').next())
}
