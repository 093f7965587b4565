//! How the trailer stands: verdict, the one next step, findings with their
//! fixes. Not here: the verdict's grounds, which are the findings.

mod figures;
mod next;
mod steps;

use crate::study::Study;
use crate::views::basis::BasisView;
use crate::views::system;
use crate::web::html::finding::{card, place, row};
use crate::web::html::loose::{loose_ends, needed};
use crate::web::html::shell::{Page, Tab};
use crate::web::html::{care, count, sign};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::result::Outcome;
use wainwright_model::{Problem, ProblemSeverity};
use wainwright_rules::Severity;

/// The page.
pub async fn page(view: View) -> Response {
    let study = view.study();
    view.page(Page {
        tab: Some(Tab::Overview),
        title: "Overview".into(),
        lede: "How this trailer stands, its wiring and its weights, and what to do next.",
        main: html! {
            div #overview data-region {
                @if study.project.items.is_empty() {
                    (next::beginning(&view))
                    (problems(study))
                } @else {
                    div.stand {
                        (verdict(study))
                        (next::step(&view))
                        (figures::figures(&view))
                    }
                    (problems(study))
                    (findings(&view))
                    (unjoined(&view))
                    (stand_ins(&view))
                }
            }
        },
    })
}

fn verdict(study: &Study) -> Markup {
    let number = |severity: Severity| {
        study
            .findings
            .iter()
            .filter(|finding| finding.severity == severity)
            .count()
    };
    let class = match study.worst() {
        Some(worst) if worst <= Severity::Warning => sign::class(worst),
        _ if !is_computed(study) => "unknown",
        Some(worst) => sign::class(worst),
        None if study.is_incomplete() => "unknown",
        None => "good",
    };
    html! {
        section.verdict.{(class)} #verdict data-worst=(class) aria-labelledby="verdict-line" {
            h2 #verdict-line { (verdict_line(study)) }
            @if study.is_incomplete() {
                p { "Part of the file could not be read and is left out, so there may be more." }
            }
            p.tallies {
                @for severity in Severity::ALL { (sign::counted(severity, number(severity))) " " }
            }
        }
    }
}

/// The verdict in a sentence.
pub fn verdict_line(study: &Study) -> String {
    let number = study
        .findings
        .iter()
        .filter(|f| Some(f.severity) == study.worst())
        .count();
    match study.worst() {
        Some(Severity::Danger) => format!(
            "Do not switch this on: {} found.",
            count(number, "danger was", "dangers were")
        ),
        Some(Severity::Warning) => format!(
            "Not right yet: {} found.",
            count(number, "warning was", "warnings were")
        ),
        _ if !is_computed(study) => {
            "Not finished yet: no circuit is closed, so nothing can be judged.".into()
        }
        Some(Severity::Caution) => format!(
            "It works, with too little margin in {}.",
            count(number, "place", "places")
        ),
        Some(Severity::Notice) => "Nothing harmful was found in what was typed.".into(),
        None => "Nothing wrong was found in what was typed.".into(),
    }
}

/// Currents below this count as none [A].
const NO_CURRENT: f64 = 1e-3;

/// Whether a current flows anywhere, or would if the supply could carry it;
/// before that there is nothing to judge, and nothing may look like a pass.
pub fn is_computed(study: &Study) -> bool {
    let assessment = &study.assessment;
    let mut solved = assessment.states.iter();
    let collapses = solved.any(|state| matches!(state.outcome, Outcome::Collapse { .. }));
    let mut currents = assessment.wires.iter().flat_map(|wire| &wire.states);
    collapses || currents.any(|there| there.amps.amperes().abs() > NO_CURRENT)
}

fn problems(study: &Study) -> Markup {
    html! {
        @if !study.problems.is_empty() {
            section #problems aria-labelledby="problems-heading" {
                h2 #problems-heading { "What could not be read" }
                p { "Everything else was read and computed. Put these lines right first." }
                ul.plain { @for found in &study.problems { (problem(found)) } }
            }
        }
    }
}

/// One problem with the way to its line.
pub fn problem(problem: &Problem) -> Markup {
    let word = match problem.severity {
        ProblemSeverity::Error => "Left out",
        ProblemSeverity::Warning => "Read all the same",
    };
    html! {
        li.problem data-line=(problem.line) {
            p {
                a href={ "/file#line-" (problem.line) } { "Line " (problem.line) ", column " (problem.column) }
                @if !problem.path.is_empty() { " · " code { (problem.path) } }
                " · " (word)
            }
            p { "Found " (problem.found) "; expected " (problem.expected) "." }
            @if let Some(hint) = &problem.hint { p.hint { (hint) } }
        }
    }
}

fn findings(view: &View) -> Markup {
    let study = view.study();
    html! {
        section #findings aria-labelledby="findings-heading" {
            h2 #findings-heading { "Findings" }
            @if study.findings.is_empty() { p { "None." } } @else { (care()) }
            @for severity in Severity::ALL {
                @let found: Vec<_> = study.findings.iter().filter(|f| f.severity == severity).collect();
                @if !found.is_empty() {
                    section.group id=(sign::class(severity)) aria-label=(severity.word()) {
                        div.group-head {
                            h3.group-heading { (severity.word()) " " span.number { (found.len()) } }
                            p.meaning { (meaning(severity)) }
                        }
                        @for finding in found {
                            @if severity <= Severity::Warning { (card(view, finding)) } @else { (row(view, finding)) }
                        }
                    }
                }
            }
        }
    }
}

fn meaning(severity: Severity) -> &'static str {
    match severity {
        Severity::Danger => "By the computed figures this ends in fire, shock or explosion.",
        Severity::Warning => "People could be hurt, or gear does not work or is ruined.",
        Severity::Caution => {
            "It works, with less margin or a shorter life than good practice asks."
        }
        Severity::Notice => "Worth knowing; nobody is hurt.",
    }
}

/// Ends that are loose in a wiring that otherwise works; before that, they
/// stand with the next step.
fn unjoined(view: &View) -> Markup {
    html! {
        @if is_computed(view.study()) && !needed(view).is_empty() {
            section #loose-ends aria-labelledby="loose-heading" {
                h2 #loose-heading { "Loose ends" }
                (loose_ends(view, None))
            }
        }
    }
}

fn stand_ins(view: &View) -> Markup {
    let assessment = &view.study().assessment;
    html! {
        @if !assessment.missing.is_empty() {
            section #missing aria-labelledby="missing-heading" {
                h2 #missing-heading { "What is missing" }
                p { "Without these, part of the study is left out." }
                ul.plain.columns {
                    @for missing in &assessment.missing {
                        li { (place(view, &missing.path)) " " span.basis { "wants " (system::wanted(missing.wanted)) } }
                    }
                }
            }
        }
        @if !assessment.assumptions.is_empty() {
            section #stand-ins aria-labelledby="stand-ins-heading" {
                h2 #stand-ins-heading { "Stand-ins" }
                details #stand-ins-list {
                    summary {
                        (count(assessment.assumptions.len(), "value", "values"))
                        " nobody typed yet, with what was used instead"
                    }
                    ul.plain.columns {
                        @for assumed in &assessment.assumptions {
                            li {
                                (place(view, &assumed.path)) " " b { (assumed.value) } " "
                                span.basis { (BasisView::of(&assumed.basis).words()) }
                            }
                        }
                    }
                }
            }
        }
    }
}
