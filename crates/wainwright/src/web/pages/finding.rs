//! One finding with all there is to know about it. Not here: the list of
//! findings (`overview`).

use crate::views::working::WorkingView;
use crate::web::html::care;
use crate::web::html::finding::{label, subject_address, whole};
use crate::web::html::shell::{Page, Tab};
use crate::web::html::working::working;
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_rules::{Finding, Subject};

/// The page.
pub async fn page(view: View) -> Response {
    let key = view.query.get("key").unwrap_or("");
    let Some(finding) = view.study().finding(key) else {
        return view
            .missing("This finding no longer stands: it was mended, or what it is about is gone.");
    };
    view.page(Page {
        tab: Some(Tab::Overview),
        title: "One finding".into(),
        lede: "Everything behind one thing that is wrong: figures, what mends it, and how the number came about.",
        main: html! {
            section aria-labelledby="wrong" {
                h2 #wrong { "What is wrong" }
                (care())
                div.findings #finding data-region { (whole(&view, finding)) }
            }
            (subjects(&view, finding))
            (worked(&view, finding))
        },
    })
}

fn subjects(view: &View, finding: &Finding) -> Markup {
    html! {
        section aria-labelledby="about" {
            h2 #about { "What it is about" }
            ul.plain {
                @for subject in &finding.subjects {
                    li {
                        @let words = words(view, subject);
                        @match subject_address(subject) {
                            Some(place) => a href=(place) { (words) },
                            None => (words),
                        }
                    }
                }
            }
        }
    }
}

fn words(view: &View, subject: &Subject) -> String {
    match subject {
        Subject::Wire(id) => label(view, "wire", id.as_str()),
        Subject::Item(id) => label(view, "item", id.as_str()),
        Subject::Terminal(id, terminal) => {
            format!("{}, terminal {terminal}", label(view, "item", id.as_str()))
        }
        Subject::Way(id, way) => format!("{}, way {way}", label(view, "item", id.as_str())),
        Subject::State(index) => {
            let state = view.study().assessment.states.get(*index);
            state.map_or_else(|| "a state".into(), crate::views::state::state_label)
        }
        Subject::System => "the wiring as a whole".into(),
        Subject::Trailer => "the trailer on the road".into(),
        Subject::Rating(path) => format!("the rating {path}"),
        Subject::Opening(id) => label(view, "opening", id.as_str()),
        Subject::Weighing(id) => label(view, "weighing", id.as_str()),
        Subject::Layer(id) => label(view, "layer", id.as_str()),
    }
}

fn worked(view: &View, finding: &Finding) -> Markup {
    let study = view.study();
    let ask = finding.ask.as_ref();
    let found =
        ask.and_then(|ask| wainwright_analysis::working(&study.project, &study.assessment, ask));
    html! {
        section aria-labelledby="working" {
            h2 #working { "How the number came about" }
            @match found {
                Some(found) => (working(&WorkingView::of(&found))),
                None => p {
                    "There is no single number behind this finding; "
                    a href={ "/rules/" (finding.rule) } { "the rule" }
                    " says how it is judged."
                },
            }
        }
    }
}
