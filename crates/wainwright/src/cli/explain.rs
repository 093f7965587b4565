//! `explain`: the page of one rule, or the list of all. Not here: the texts,
//! which stand beside each rule.

use super::args::ExplainArgs;
use super::exit::{Status, Trouble};
use super::out::Out;
use crate::views::finding::RuleView;
use wainwright_rules::RuleDoc;

/// Prints the page of a rule, or the list of all rules.
pub fn run(args: &ExplainArgs, out: &mut Out) -> Result<Status, Trouble> {
    let docs: Vec<&'static RuleDoc> = wainwright_rules::catalogue()
        .iter()
        .map(|r| r.doc())
        .collect();
    let Some(wanted) = &args.rule else {
        list(&docs, args.json, out);
        return Ok(Status::Done);
    };
    // A key of a finding begins with its rule.
    let id = wanted.split(':').next().unwrap_or(wanted);
    let Some(doc) = docs.iter().find(|d| d.id == id) else {
        return Err(Trouble::NoSuch(format!(
            "there is no rule \"{id}\"; `wainwright explain` lists all rules"
        )));
    };
    if args.json {
        out.json(&RuleView::of(doc));
    } else {
        page(doc, out);
    }
    Ok(Status::Done)
}

fn list(docs: &[&'static RuleDoc], json: bool, out: &mut Out) {
    if json {
        let views: Vec<RuleView> = docs.iter().map(|d| RuleView::of(d)).collect();
        out.json(&views);
        return;
    }
    for doc in docs {
        let word = out.paint.severity(doc.worst, doc.worst.word());
        let id = out.paint.bold(doc.id);
        out.line(format!("{id}  {word}"));
        out.wrapped("  ", doc.title);
    }
}

fn page(doc: &RuleDoc, out: &mut Out) {
    let title = out.paint.bold(doc.title);
    out.line(title);
    let word = out.paint.severity(doc.worst, doc.worst.word());
    out.line(format!("{} · at worst {word}", doc.id));
    let parts = [
        ("What", doc.what),
        ("Why it matters", doc.why),
        ("Example", doc.example),
        ("What to do", doc.what_to_do),
    ];
    for (heading, text) in parts {
        out.gap();
        let heading = out.paint.bold(heading);
        out.line(heading);
        out.wrapped("  ", text);
    }
    out.gap();
    let heading = out.paint.bold("Sources");
    out.line(heading);
    for source in doc.sources {
        out.hanging("  ", "    ", &source_words(source));
    }
}

/// A source is an id of the reference tables or a sentence.
fn source_words(source: &str) -> String {
    let known = wainwright_reference::sources()
        .into_iter()
        .find(|s| s.id == source);
    known.map_or_else(|| source.to_owned(), ToString::to_string)
}
