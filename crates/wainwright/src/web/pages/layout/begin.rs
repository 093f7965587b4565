//! Where nothing is typed yet: what this place is for, and the first step. Not
//! here: the figures of usual boxes (a table).

use super::{HERE, framed};
use crate::web::act::{Sent, after, blocking};
use crate::web::html::{back, revision};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_model::{Edit, Value, path, typed};
use wainwright_reference::box_trailer::{BoxTrailer, box_trailer, box_trailers};
use wainwright_reference::towing::TowProfile;
use wainwright_units::System;

/// What stands on a page of this place before the job is begun.
pub fn beginning(view: &View, question: &str) -> Markup {
    let (usual, others): (Vec<_>, Vec<_>) = box_trailers()
        .into_iter()
        .map(|row| row.value)
        .partition(|found| is_usual(view, found));
    html! {
        section.next.beginning #next-step aria-labelledby="next-heading" {
            h2 #next-heading { (question) }
            p { "Type the box and its axle, then put things in their places. You see at once what weighs on the hitch, on each wheel, and how much of every rating is left." }
            p.row {
                a.button.primary href="/edit/trailer?back=/layout" { "Type the box and axle" }
            }
            p { "Or begin with a usual box and put its figures right later, tape and scale in hand:" }
            ul.plain.boxes { @for found in &usual { li { (one(view, found)) } } }
            details #other-boxes {
                summary { "Boxes usual elsewhere" }
                ul.plain.boxes { @for found in &others { li { (one(view, found)) } } }
            }
        }
    }
}

fn is_usual(view: &View, found: &BoxTrailer) -> bool {
    match view.units() {
        System::Us => found.profile == TowProfile::Us,
        System::Metric => found.profile != TowProfile::Us,
    }
}

fn one(view: &View, found: &BoxTrailer) -> Markup {
    html! {
        form method="post" action="/layout/begin" {
            (revision(view.now.revision))
            (back(HERE))
            input type="hidden" name="box" value=(found.id);
            button { "Start from a typical " (found.name) }
            span.hint { (found.inside_length.text) " inside, " (found.empty_mass.text) " empty" }
        }
    }
}

/// A usual box was chosen: its figures where nothing is typed yet.
pub async fn begun(view: View, sent: Sent) -> Response {
    let Some(row) = sent.0.get("box").and_then(box_trailer) else {
        return view.missing("There is no usual box of that name.");
    };
    let there = typed(&view.study().text, &path(["trailer"]));
    let fields = fields(&row.value);
    let edits: Vec<Edit> = fields
        .into_iter()
        .filter(|(name, _)| !there.iter().any(|(typed, _)| typed == name))
        .map(|(name, value)| Edit::Set {
            path: path(["trailer", name]),
            value,
        })
        .collect();
    let label = format!("Start from a typical {}", row.value.name);
    let done = blocking(|| view.app.session.apply(&edits, sent.revision(), &label));
    after(&view, &sent, done)
}

/// Its figures as fields of the trailer.
fn fields(found: &BoxTrailer) -> Vec<(&'static str, Value)> {
    let mut all = vec![
        ("inside_length", Value::from(found.inside_length.text)),
        ("inside_width", Value::from(found.inside_width.text)),
        ("inside_height", Value::from(found.inside_height.text)),
        ("ball_to_front", Value::from(found.ball_to_front.text)),
        ("ball_to_axle", Value::from(found.ball_to_axle.text)),
        ("axles", Value::Integer(i64::from(found.axles))),
        ("track", Value::from(found.track.text)),
        ("floor_height", Value::from(found.floor_height.text)),
        ("wheel_radius", Value::from(found.wheel_radius.text)),
        ("coupling_height", Value::from(found.coupling_height.text)),
        (
            "empty_centre_height",
            Value::from(found.empty_centre_height.text),
        ),
        ("empty_mass", Value::from(found.empty_mass.text)),
        ("empty_tongue", Value::from(found.empty_tongue.text)),
        ("gross_rating", Value::from(found.gross_rating.text)),
        ("axle_rating", Value::from(found.axle_rating.text)),
        ("tyre_rating", Value::from(found.tyre_rating.text)),
        ("brakes", Value::Bool(found.brakes)),
    ];
    if let Some(spacing) = &found.axle_spacing {
        all.insert(6, ("axle_spacing", Value::from(spacing.text)));
    }
    all
}

/// A page of this place before the job is begun.
pub fn page(
    view: &View,
    here: &'static str,
    title: &str,
    lede: &'static str,
    question: &str,
) -> Response {
    view.page(framed(here, title, lede, &beginning(view, question)))
}
