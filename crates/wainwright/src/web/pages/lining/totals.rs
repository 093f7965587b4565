//! What a layer takes on one side: area, mass, fasteners, tape, strips; the way without rips; whether it is in already.

use super::{Asked, has_pieces, words};
use crate::web::act::{Sent, after, blocking};
use crate::web::html::{back, encoded, revision};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::result::lining::LiningResult;
use wainwright_model::{Edit, Goods, Side, Value, path};
use wainwright_units::Length;

/// Figures of the layer.
pub fn totals(view: &View, asked: &Asked<'_>) -> Markup {
    let layer = asked.layer;
    let length = |value: Length| (value > Length::ZERO).then(|| view.show(value));
    html! {
        h2 #layer-name { (words::layer(view, layer.layer.as_str())) }
        p.hint {
            (words::side(asked.surface.side)) ", layer " (layer.position) " from outside: "
            (material(view, asked)) (if layer.done { ", in already." } else { ", still to do." })
        }
        dl.small-figures #layer-figures {
            @if let Some(areas) = &layer.areas {
                div { dt { "Whole side" } dd { (view.show(areas.surface)) } }
                div { dt { "Under its pieces" } dd { (view.show(areas.pieces)) } }
                @if areas.openings.square_metres() > 0.0 { div { dt { "Openings" } dd { (view.show(areas.openings)) } } }
            }
            div { dt { "Mass" } dd { @match layer.mass { Some(mass) => (view.show(mass)), None => "unknown" } } }
            @if !layer.pieces.is_empty() { div { dt { "Pieces" } dd { (layer.pieces.len()) } } }
            @if layer.courses > 0 { div { dt { "Runs" } dd { (layer.courses) } } }
            @if layer.rips > 0 { div { dt { "Ripped pieces" } dd { (layer.rips) } } }
            @if layer.notches > 0 { div { dt { "Pieces with notches" } dd { (layer.notches) } } }
            @if layer.fasteners > 0 { div { dt { "Screws or nails" } dd { (layer.fasteners) } } }
            @if let Some(tape) = length(layer.tape) { div { dt { "Tape" } dd { (tape) } } }
            @if let Some(adhesive) = length(layer.adhesive) { div { dt { @if layer.tape > Length::ZERO { "Beads of adhesive" } @else { "Or glued: beads of adhesive" } } dd { (adhesive) } } }
            @if let Some(trims) = length(layer.trims) { div { dt { "Cover strips" } dd { (trims) } } }
        }
        @if let Some(fit) = layer.fit { p.hint { (words::fit(view, fit)) } }
        @if layer.pieces.is_empty() && has_pieces(layer.kind) {
            p.callout { "This layer could not be laid out; what is missing stands below." }
        }
    }
}

fn material(view: &View, asked: &Asked<'_>) -> String {
    let material = asked
        .layer
        .material
        .as_deref()
        .unwrap_or("material not said");
    match asked.layer.thickness {
        Some(thickness) => format!("{material}, {}", view.show(thickness)),
        None => material.to_owned(),
    }
}

/// The same work the other way, with what it costs.
pub fn other_way(view: &View, found: &LiningResult, asked: &Asked<'_>) -> Markup {
    let job = asked.layer.job.and_then(|index| found.jobs.get(index));
    html! {
        @if job.is_some_and(|job| job.goods == Goods::Foam) {
            p.hint { "Foam is cut with a knife: no saw is needed. " a href="/lining/cut" { "How it is cut" } }
        } @else if let Some(job) = job {
            section #other-way aria-labelledby="other-heading" {
                h3 #other-heading {
                    @if job.other.as_ref().is_some_and(|other| other.with_rips) { "With a saw that rips" } @else { "Without a saw that rips" }
                }
                @match &job.other {
                    Some(other) => p { (words::other(view, other, job)) },
                    None if job.rips == 0 => p { "Nothing has to be ripped." },
                    None => p { "There is no way without ripping: " (job.rips) " pieces need it." },
                }
                p { a href="/lining/cut" { "How it is cut" } }
            }
        }
    }
}

/// What can be changed.
pub fn links(view: &View, asked: &Asked<'_>) -> Markup {
    let here = asked.address(None);
    let to = encoded(&here);
    let layer = asked.layer.layer.as_str();
    html! {
        form method="post" action="/lining/done" data-live {
            (revision(view.now.revision))
            (back(&here))
            input type="hidden" name="layer" value=(layer);
            input type="hidden" name="side" value=(asked.surface.side.as_str());
            p.row {
                button #in-already { @if asked.layer.done { "Not in yet after all" } @else { "It is in now" } }
                a.button href=(format!("/edit/layer/{}?back={to}", encoded(layer))) { "Change this layer" }
                a.button href=(format!("/edit/tools?back={to}")) { "Tools" }
                a.button href=(format!("/add/layer?back={to}")) { "Add a layer" }
            }
        }
        p.hint { "What is in already counts as part of the bare trailer as it was weighed, and is not cut or bought again." }
    }
}

/// A layer is in on one side now, or is not after all.
pub async fn done(view: View, sent: Sent) -> Response {
    let project = &view.study().project;
    let side = sent.0.get("side").and_then(Side::parse);
    let id = sent.0.get("layer").unwrap_or("");
    let (Some(side), Some(layer)) = (side, project.layers.get(id)) else {
        return view.missing("There is no such layer.");
    };
    let mut sides = layer
        .done
        .as_ref()
        .map(|done| done.value.clone())
        .unwrap_or_default();
    let is_in = sides.contains(&side);
    if is_in {
        sides.retain(|one| *one != side);
    } else {
        sides.push(side);
    }
    let place = path(["layer", id, "done"]);
    let edit = if sides.is_empty() {
        Edit::Unset { path: place }
    } else {
        let all = sides.iter().map(|side| Value::from(side.as_str()));
        Edit::Set {
            path: place,
            value: Value::List(all.collect()),
        }
    };
    let word = if is_in { "not in" } else { "in" };
    let name = words::layer(&view, id);
    let label = format!("{name}: {word} on the {}", words::side(side).to_lowercase());
    let done = blocking(|| view.app.session.apply(&[edit], sent.revision(), &label));
    after(&view, &sent, done)
}
