//! The manual of the rules as one page, from the documentation each rule carries. Not here: the
//! wording of a rule.

use std::fmt::Write;
use wainwright_rules::RuleDoc;

const HEAD: &str = "# Rules\n\n\
Generated from the rules themselves; do not edit. Each rule is named for the bad state it finds. \
The signal word is the worst one the rule uses; a finding can be milder. \
`wainwright explain <rule>` and the page of the rule in the app say the same.\n";

/// The page.
pub fn markdown() -> String {
    let mut page = String::from(HEAD);
    page.push_str("\n| rule | finds | worst |\n|---|---|---|\n");
    for rule in wainwright_rules::catalogue() {
        let doc = rule.doc();
        let _ = writeln!(
            page,
            "| [`{0}`](#{0}) | {1} | {2} |",
            doc.id, doc.title, doc.worst
        );
    }
    for rule in wainwright_rules::catalogue() {
        section(&mut page, rule.doc());
    }
    page
}

fn section(page: &mut String, doc: &RuleDoc) {
    let _ = write!(
        page,
        "\n## {}\n\n{} Worst signal word: {}.\n",
        doc.id,
        sentence(doc.title),
        doc.worst
    );
    let parts = [
        ("What", doc.what),
        ("Why it matters", doc.why),
        ("Example", doc.example),
        ("What to do", doc.what_to_do),
    ];
    for (heading, text) in parts {
        let _ = write!(page, "\n### {heading}\n\n{text}\n");
    }
    page.push_str("\n### Sources\n\n");
    for source in doc.sources {
        let _ = writeln!(page, "- {}", in_full(source));
    }
}

fn sentence(title: &str) -> String {
    format!("{}.", title.trim_end_matches('.'))
}

/// A source by its id, or the sentence a rule gives instead.
fn in_full(source: &str) -> String {
    wainwright_reference::sources()
        .into_iter()
        .find(|known| known.id == source)
        .map_or_else(|| source.to_owned(), ToString::to_string)
}
