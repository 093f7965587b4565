//! The rules: what each one finds, why, and what to do. The words come from
//! the rules themselves. Not here: findings beyond those of one rule.

use crate::web::html::encoded;
use crate::web::html::finding::{line, whole};
use crate::web::html::shell::{Page, Tab};
use crate::web::html::sign::sign;
use crate::web::view::View;
use axum::extract::Path;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_rules::{Finding, RuleDoc, Severity, docs};

/// All rules.
pub async fn list(view: View) -> Response {
    view.page(Page {
        tab: Some(Tab::Rules),
        title: "Rules".into(),
        lede: "Everything the wiring is judged by, each rule with its reason and its sources.",
        main: html! {
            div #rules data-region {
                @for severity in Severity::ALL {
                    @let own: Vec<_> = docs().filter(|doc| doc.worst == severity).collect();
                    @if !own.is_empty() {
                        section {
                            h2 { "At worst " (sign(severity)) }
                            ul.plain.rows { @for doc in own { (in_list(&view, doc)) } }
                        }
                    }
                }
            }
        },
    })
}

fn in_list(view: &View, doc: &RuleDoc) -> Markup {
    let count = view
        .study()
        .findings
        .iter()
        .filter(|finding| finding.rule == doc.id)
        .count();
    html! {
        li data-rule=(doc.id) {
            a href={ "/rules/" (encoded(doc.id)) } { b { (doc.title) } }
            @if count > 0 { " " span.standin { (crate::web::html::count(count, "finding", "findings")) } }
        }
    }
}

/// One rule.
pub async fn one(view: View, Path(id): Path<String>) -> Response {
    let Some(doc) = docs().find(|doc| doc.id == id) else {
        return view.missing("There is no rule of that name.");
    };
    let findings: Vec<&Finding> = view
        .study()
        .findings
        .iter()
        .filter(|f| f.rule == doc.id)
        .collect();
    view.page(Page {
        tab: Some(Tab::Rules),
        title: doc.title.to_owned(),
        lede: "One rule: what it finds, why it matters, and what to do about it.",
        main: html! {
            p { code { (doc.id) } " · at worst " (sign(doc.worst)) }
            (part("what", "What it finds", doc.what))
            (part("why", "Why it matters", doc.why))
            (part("example", "Example", doc.example))
            (part("what-to-do", "What to do", doc.what_to_do))
            section aria-labelledby="sources" {
                h2 #sources { "Sources" }
                ul { @for source in doc.sources { li { (source_words(source)) } } }
            }
            section aria-labelledby="now" {
                h2 #now { "In this trailer" }
                div #rule-findings data-region {
                    @match findings.as_slice() {
                        [] => p.good { "It finds nothing here." },
                        [finding] => (whole(&view, finding)),
                        several => ul.plain { @for finding in several { (line(finding)) } },
                    }
                }
            }
            p { a href="/rules" { "All rules" } }
        },
    })
}

fn part(id: &str, heading: &str, text: &str) -> Markup {
    html! {
        section aria-labelledby=(id) {
            h2 id=(id) { (heading) }
            @for paragraph in text.split("\n\n") { p { (paragraph) } }
        }
    }
}

/// A source is an id of the reference tables or a sentence.
fn source_words(source: &str) -> String {
    let known = wainwright_reference::sources()
        .into_iter()
        .find(|s| s.id == source);
    known.map_or_else(|| source.to_owned(), ToString::to_string)
}
