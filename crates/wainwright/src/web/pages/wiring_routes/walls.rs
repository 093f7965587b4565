//! Where not to drill: what runs on the surface that is looked at, with its
//! distances from the edges. Not here: how runs are found (`views::route`).

use super::scene::{Look, Selected};
use super::{Asked, trunk_name, wire_link};
use crate::views::route::{MeasureView, RunView, runs_on};
use crate::web::html::count;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_units::Length;

/// Names shown before the rest is folded into a number.
const FEW: usize = 6;

/// The table of the surface.
pub fn table(view: &View, asked: &Asked) -> Markup {
    let runs = runs_on(&view.study().assessment, asked.look.side());
    let (in_trunks, beside): (Vec<RunView>, Vec<RunView>) =
        runs.iter().cloned().partition(|run| run.trunk.is_some());
    let surface = surface(asked.look);
    html! {
        section.drill aria-labelledby="drill-heading" {
            h2 #drill-heading { "Where not to drill: " (surface) }
            @if runs.is_empty() {
                p { "Nothing that is in the project runs there." }
            }
            @if !in_trunks.is_empty() { (rows(view, asked, &in_trunks)) }
            @if !beside.is_empty() {
                details #beside-trunks open[in_trunks.is_empty()] {
                    summary { "Wires beside trunks: " (count(beside.len(), "run", "runs")) " here" }
                    (rows(view, asked, &beside))
                }
            }
            p.hint { "As typed and computed, not as built: look behind the lining before you drill. Distances are from the inside of walls and floor." }
        }
    }
}

fn rows(view: &View, asked: &Asked, runs: &[RunView]) -> Markup {
    let edges: Vec<&str> = ["front", "left", "floor"]
        .into_iter()
        .filter(|edge| {
            runs.iter()
                .any(|run| run.measures.iter().any(|m| m.edge == *edge))
        })
        .collect();
    html! {
        table.cards {
            thead { tr {
                th scope="col" { "Run" }
                @for edge in &edges { th scope="col" { (edge_words(edge)) } }
                th scope="col" { "Wires in it" }
                th scope="col" { "Behind" }
            } }
            tbody {
                @for run in runs {
                    tr {
                        th scope="row" { (name(view, asked, run)) }
                        @for edge in &edges {
                            td data-label=(edge_words(edge)) {
                                @if let Some(measure) = run.measures.iter().find(|m| m.edge == *edge) { (distance(view, measure)) }
                            }
                        }
                        td data-label="Wires in it" { (wires(view, asked, &run.wires)) }
                        td data-label="Behind" {
                            (run.behind.as_deref().unwrap_or("–"))
                            @if run.off_metres > 0.03 { span.basis { " up to " (view.show(Length::from_metres(run.off_metres))) " off the lining" } }
                        }
                    }
                }
            }
        }
    }
}

fn name(view: &View, asked: &Asked, run: &RunView) -> Markup {
    html! {
        @match &run.trunk {
            Some(id) => a href=(asked.with(Some(&Selected::Trunk(id.clone())))) data-live { (trunk_name(view, id)) },
            None => "beside trunks",
        }
    }
}

fn distance(view: &View, measure: &MeasureView) -> Markup {
    html! {
        @if measure.is_level() { b { (view.show(measure.least())) } }
        @else { (view.show(measure.least())) " to " (view.show(measure.most())) }
    }
}

fn wires(view: &View, asked: &Asked, ids: &[String]) -> Markup {
    html! {
        @if ids.is_empty() { span.basis { "none yet" } } @else {
            b { (ids.len()) } ": "
            @for (number, id) in ids.iter().take(FEW).enumerate() {
                @if number > 0 { ", " }
                (wire_link(view, asked.look, id))
            }
            @if ids.len() > FEW { ", and " (count(ids.len() - FEW, "more", "more")) }
        }
    }
}

fn surface(look: Look) -> &'static str {
    match look {
        Look::Above => "floor",
        Look::Left => "left wall",
        Look::Right => "right wall",
        Look::Front => "front wall",
        Look::Rear => "rear wall",
        Look::Ceiling => "ceiling",
    }
}

fn edge_words(edge: &str) -> &'static str {
    match edge {
        "front" => "From front wall",
        "left" => "From left wall",
        _ => "Above floor",
    }
}
