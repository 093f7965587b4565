//! "Plan the wiring": what the tool would add, why, at what cost, and one
//! button that puts it in. Not here: planning (the rules), keeping the plan
//! (`planned`).

use super::wiring_line::both;
use crate::views::plan::{added, obstacle_words};
use crate::web::act::{Sent, after, blocking, go};
use crate::web::html::shell::{Page, Tab};
use crate::web::html::sign::sign;
use crate::web::html::within::{WIRING, sheets};
use crate::web::html::{back, count, encoded, finding, revision};
use crate::web::planned::Planned;
use crate::web::single_line;
use crate::web::view::View;
use axum::http::StatusCode;
use axum::response::Response;
use maud::{Markup, html};
use std::collections::BTreeMap;
use wainwright_rules::plan::{Decision, Obstacle, ObstacleKind, Plan};

const HERE: &str = "/wiring/plan";
/// Names shown before the rest is folded into a number.
const FEW: usize = 8;

/// The page.
pub async fn page(view: View) -> Response {
    let main = if view.study().project.items.is_empty() {
        beginning()
    } else {
        let planned = blocking(|| view.app.plans.of(view.study()));
        whole(&view, &planned)
    };
    view.page(framed(&main))
}

fn framed(main: &Markup) -> Page {
    Page {
        tab: Some(Tab::Wiring),
        title: "Plan the wiring".into(),
        lede: "Fuses, bars, switches and wires for all gear that has none yet. Nothing changes before you press the button.",
        main: html! {
            (sheets(&WIRING, HERE))
            div #plan data-region { (main) }
            script src="/assets/routes.js" defer {}
        },
    }
}

/// Puts the plan in the project, as one step.
pub async fn put_in(view: View, sent: Sent) -> Response {
    if sent.revision() != view.now.revision {
        let page = Page {
            main: html! {
                (sheets(&WIRING, HERE))
                p.callout role="alert" { "Not changed: the project was changed since this plan was made. Look at the new plan." }
                p { a.button.primary href=(HERE) { "Show the new plan" } }
            },
            ..framed(&html! {})
        };
        return view.refused(StatusCode::CONFLICT, page);
    }
    let done = blocking(|| {
        let planned = view.app.plans.of(view.study());
        let edits = &planned.plan.edits;
        (!edits.is_empty()).then(|| {
            let label = "Put the planned wiring in";
            view.app.session.apply(edits, sent.revision(), label)
        })
    });
    match done {
        Some(done) => after(&view, &sent, done),
        None => go(HERE),
    }
}

fn beginning() -> Markup {
    html! {
        section.next.beginning #next-step {
            h2 { "List your gear; the wiring follows" }
            p { "Add the battery, what charges it and what it feeds, with their places in the trailer. Then this page works out fuses, bars, switches and wires, with a reason for each." }
            p.row {
                a.button.primary href="/add/item?kind=battery" { "Add the battery" }
                a.button href="/add/item" { "Add something else" }
            }
        }
    }
}

fn whole(view: &View, planned: &Planned) -> Markup {
    let plan = &planned.plan;
    html! {
        @if plan.is_empty() {
            section.next.beginning #next-step {
                h2 #plan-verdict { "There is nothing to add" }
                p { "All gear that can be wired is wired." }
                p.row { a.button href="/" { "See how it stands" } a.button href="/lists/buy" { "What to buy" } }
            }
            (obstacles(view, plan))
        } @else {
            div.plan-top {
                (verdict(view, plan))
                (figures(plan))
            }
            (drawing(view, planned))
            (obstacles(view, plan))
            (decisions(view, &plan.decisions))
            (lengths(view, plan))
        }
        (left(plan))
    }
}

fn verdict(view: &View, plan: &Plan) -> Markup {
    let added = added(plan);
    let kinds: Vec<String> = added
        .items
        .iter()
        .map(|(kind, number)| {
            let word = kind.replace('-', " ");
            count(*number, &word, &plural(&word))
        })
        .collect();
    html! {
        section.next #next-step aria-labelledby="plan-verdict" {
            h2 #plan-verdict { "The plan adds " (count(added.wires, "wire", "wires")) }
            @if !kinds.is_empty() { p { "And " (kinds.join(", ")) "." } }
            @if added.changed > 0 { p.hint { "It also fills in " (count(added.changed, "value", "values")) " of what is there." } }
            form method="post" action=(HERE) data-live {
                (revision(view.now.revision))
                (back("/wiring/line"))
                p.row { button.primary { "Put this plan in the project" } }
            }
            @if !plan.obstacles.is_empty() {
                p { a href="#obstacles" { (count(plan.obstacles.len(), "thing stands", "things stand")) " in the way" } "; the plan does without." }
            }
            p.hint { "One step: Undo takes all of it back. Afterwards every part can be changed by hand." }
        }
    }
}

fn plural(word: &str) -> String {
    if word.ends_with('s') || word.ends_with("ch") {
        format!("{word}es")
    } else {
        format!("{word}s")
    }
}

fn figures(plan: &Plan) -> Markup {
    html! {
        dl.small-figures.three {
            div {
                dt { "Cost of what is added" }
                dd { (format!("{:.0}", plan.cost)) " units" span.hint { "Compares plans; it is no money. What you own costs nothing." } }
            }
            div {
                dt { "No wiring can cost less than" }
                dd { (format!("{:.0}", plan.lower_bound)) " units"
                    span.hint { "Proven for these places and limits: " (saving(plan)) } }
            }
            div {
                dt { "Checked against every rule" }
                dd { (count(plan.rounds, "round", "rounds"))
                    span.hint { a href="#left-findings" { (count(plan.findings.len(), "finding is", "findings are")) " left" } " in the planned project." } }
            }
        }
    }
}

/// How much better sizes might save.
fn saving(plan: &Plan) -> String {
    let percent = (plan.gap() * 100.0).ceil();
    if percent < 1.0 {
        "nothing can be saved.".into()
    } else {
        format!("at most {percent:.0} % could be saved.")
    }
}

fn drawing(view: &View, planned: &Planned) -> Markup {
    let line = single_line::of(&planned.study, view.units());
    html! {
        @if let Some(line) = line {
            section aria-labelledby="plan-drawing" {
                h2 #plan-drawing { "The project with this plan" }
                (both(&line, "p"))
            }
        }
    }
}

/// Decisions under what they follow from, in the order they were made.
fn decisions(view: &View, all: &[Decision]) -> Markup {
    let mut groups: Vec<(&str, Vec<&Decision>)> = Vec::new();
    for decision in all {
        match groups
            .iter_mut()
            .find(|(source, _)| *source == decision.source)
        {
            Some((_, group)) => group.push(decision),
            None => groups.push((decision.source, vec![decision])),
        }
    }
    html! {
        section aria-labelledby="plan-why" {
            h2 #plan-why { "What it adds, and why" }
            @for (number, (source, group)) in groups.iter().enumerate() {
                details.decisions id={ "why-" (number) } open[number < 3] {
                    summary { (head(group)) span.hint { " by " (source) } }
                    ul.plain {
                        @for decision in group {
                            li { @if group.len() > 1 { p { b { (decision.what) } } } p.why { (decision.why) } (links(view, &decision.items)) }
                        }
                    }
                }
            }
        }
    }
}

fn head(group: &[&Decision]) -> String {
    let first = group.first().map_or("", |decision| decision.what.as_str());
    match group.len() {
        0 | 1 => first.to_owned(),
        more => format!("{}, and {} more", first.trim_end_matches('.'), more - 1),
    }
}

/// Links to the items that are in the project already.
fn links(view: &View, items: &[String]) -> Markup {
    let there = items
        .iter()
        .filter(|id| view.study().project.items.contains(id.as_str()));
    let there: Vec<&String> = there.collect();
    html! {
        @if !there.is_empty() {
            p.hint {
                @for (number, id) in there.iter().take(FEW).enumerate() {
                    @if number > 0 { ", " }
                    a href={ "/wiring?select=item." (encoded(id)) "#panel" } { (finding::label(view, "item", id)) }
                }
                @if there.len() > FEW { " and " (there.len() - FEW) " more" }
            }
        }
    }
}

fn obstacles(view: &View, plan: &Plan) -> Markup {
    let mut groups: BTreeMap<ObstacleKind, Vec<&Obstacle>> = BTreeMap::new();
    for obstacle in &plan.obstacles {
        groups.entry(obstacle.kind).or_default().push(obstacle);
    }
    html! {
        @if !groups.is_empty() {
            section.obstacles #obstacles aria-labelledby="obstacles-heading" {
                h2 #obstacles-heading { "What stands in the way" }
                @for (kind, group) in &groups {
                    h3 { (obstacle_words(*kind)) }
                    ul.plain { @for obstacle in group { li { p { (obstacle.text) } (links(view, &obstacle.items)) } } }
                }
            }
        }
    }
}

fn lengths(view: &View, plan: &Plan) -> Markup {
    let unplaced = &view.study().assessment.routing.unplaced;
    html! {
        @if !plan.assumed_lengths.is_empty() {
            details #assumed-lengths {
                summary { (count(plan.assumed_lengths.len(), "wire has", "wires have")) " an assumed length" }
                p { "Their ends have no place in the trailer yet. "
                    a href="/layout" { "Put the gear in its place" } ", and their lengths follow from their routes." }
                p.hint { (plan.assumed_lengths.join(", ")) }
                @if !unplaced.is_empty() { p.hint { (count(unplaced.len(), "thing has", "things have")) " no place." } }
            }
        }
    }
}

/// What the check still finds in the planned project.
fn left(plan: &Plan) -> Markup {
    html! {
        @if !plan.findings.is_empty() {
            details #left-findings {
                summary { "What is still found in the planned project (" (plan.findings.len()) ")" }
                ul.plain {
                    @for found in &plan.findings { li.finding-line { (sign(found.severity)) " " (found.headline) } }
                }
            }
        }
    }
}
