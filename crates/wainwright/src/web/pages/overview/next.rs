//! The one next step. Not here: everything else that could be done.

use super::is_computed;
use super::steps::steps;
use crate::views::system;
use crate::web::html::finding::{place, place_address, place_words};
use crate::web::html::fix::{choice, gentlest_first};
use crate::web::html::loose::{loose_ends, needed};
use crate::web::html::sign::sign;
use crate::web::html::{encoded, slug};
use crate::web::mender::Mending;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_model::{Problem, ProblemSeverity};
use wainwright_rules::{Finding, Severity};

/// The next step in a project that has begun.
pub fn step(view: &View) -> Markup {
    html! {
        section.next #next-step aria-labelledby="next-heading" {
            h2 #next-heading { "Next step" }
            (advice(view))
        }
    }
}

/// What comes first: a text that cannot be read hides the rest, then what can
/// hurt people, then what is missing, then the rest in order of weight.
fn advice(view: &View) -> Markup {
    let study = view.study();
    let unread = study
        .problems
        .iter()
        .find(|p| p.severity == ProblemSeverity::Error);
    let worst = study.findings.first();
    let missing = study.assessment.missing.first();
    match (unread, worst, missing) {
        (Some(problem), _, _) => put_right(problem),
        _ if !is_computed(study) => html! { (steps(view)) },
        (_, Some(finding), _) if finding.severity <= Severity::Warning => mend(view, finding),
        (_, _, Some(missing)) => html! {
            p { "Type " (system::wanted(missing.wanted)) " for " (place_words(view, &missing.path)) "; part of the study is left out without it." }
            p { a.button.primary href=(place_address(&missing.path)) { "Type it" } }
        },
        (_, Some(finding), _) if finding.severity == Severity::Caution => mend(view, finding),
        _ if !needed(view).is_empty() => loose_ends(view, None),
        _ => measure(view),
    }
}

fn put_right(problem: &Problem) -> Markup {
    html! {
        p { "Put line " (problem.line) " of the file right: found " (problem.found) ", expected " (problem.expected) "." }
        p { a.button.primary href={ "/file#line-" (problem.line) } { "Go to line " (problem.line) } }
    }
}

fn mend(view: &View, finding: &Finding) -> Markup {
    let key = finding.key();
    html! {
        p { (sign(finding.severity)) " " a href={ "#finding-" (slug(&key)) } { (finding.headline) } }
        @match view.fixes(&key) {
            Mending::Done(fixes) if !fixes.is_empty() => {
                @for (index, fix) in gentlest_first(&fixes).into_iter().take(1) { (choice(view, &key, index, fix)) }
            },
            Mending::Done(_) => p {
                a.button.primary href={ "/rules/" (finding.rule) "#what-to-do" } { "What to do about it" }
            },
            Mending::UnderWay => p.waiting data-fixes=(key) {
                "Working out what mends this … "
                a href={ "/finding?key=" (encoded(&key)) } { "Look at it meanwhile" }
            },
        }
    }
}

fn measure(view: &View) -> Markup {
    let all = &view.study().assessment.assumptions;
    // What was built weighs more than how it is judged.
    let built = all
        .iter()
        .find(|assumed| assumed.path.first().is_none_or(|name| name != "project"));
    let assumed = built.or(all.first());
    html! {
        @match assumed {
            Some(assumed) => {
                p {
                    "Replace a stand-in by the real value: " (place(view, &assumed.path))
                    " (now " (assumed.value) "). The fewer stand-ins, the surer the verdict."
                }
                p { a.button.primary href=(place_address(&assumed.path)) { "Type the real value" } }
            },
            None => p { "Nothing is left to do here. Print the wiring and build it." },
        }
    }
}

/// An empty project: where to begin.
pub fn beginning(view: &View) -> Markup {
    let broken = view.study().is_incomplete();
    html! {
        section.next.beginning #next-step aria-labelledby="next-heading" {
            @if broken {
                h2 #next-heading { "This file holds nothing that can be shown yet" }
                p { "None of it could be read as a trailer. What is wrong with it stands below, line by line." }
                p { a.button.primary href="/file" { "Look at the file" } }
            } @else {
                h2 #next-heading { "Begin with the battery" }
                p { "This project is empty. These steps lead to the first answer; what you do not know is filled in with a cautious stand-in." }
                (steps(view))
                p.row { a.button href="/bench" { "Just try one wire" } }
            }
        }
    }
}
