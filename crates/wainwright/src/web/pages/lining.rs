//! The lining of the box: each side to scale with the pieces of a layer, what it takes, what it lacks. Not here: laying
//! and cutting (the lining study), drawings (the drawing crate).

mod begin;
pub mod cut;
mod drawing;
mod gaps;
mod notch;
pub mod paper;
mod pieces;
mod plans;
mod rests;
mod stock;
mod totals;
pub mod words;

pub use begin::begun;
pub use totals::done;

use crate::web::act::blocking;
use crate::web::html::encoded;
use crate::web::html::shell::{Page, Tab};
use crate::web::html::within::{LINING, sheets};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use std::sync::Arc;
use wainwright_analysis::result::lining::{LaidLayer, LinedSurface, LiningResult};
use wainwright_model::{LayerKind, Side};

/// The page of surfaces.
const HERE: &str = "/lining";

/// A page of this place with its row of sheets.
fn framed(here: &'static str, title: &str, lede: &'static str, main: &Markup) -> Page {
    Page {
        tab: Some(Tab::Lining),
        title: title.into(),
        lede,
        main: html! {
            (sheets(&LINING, here))
            (main)
            script src="/assets/routes.js" defer {}
        },
    }
}

/// The lining study of the project as it is.
fn study(view: &View) -> Arc<LiningResult> {
    blocking(|| view.app.linings.of(view.study()))
}

/// What one address of the page asks for, as far as it is there.
struct Asked<'a> {
    surface: &'a LinedSurface,
    layer: &'a LaidLayer,
    /// Number of the chosen piece.
    piece: Option<usize>,
}

impl<'a> Asked<'a> {
    fn of(view: &View, found: &'a LiningResult) -> Option<Self> {
        let side = view.query.get("side").and_then(Side::parse);
        let asked = side.and_then(|side| found.surface(side));
        let surface = asked
            .or_else(|| {
                found
                    .surfaces
                    .iter()
                    .find(|surface| usual(surface).is_some_and(|layer| !layer.done))
            })
            .or_else(|| {
                found
                    .surfaces
                    .iter()
                    .find(|surface| !surface.layers.is_empty())
            })?;
        let named = view.query.get("layer");
        let named = named.and_then(|id| {
            surface
                .layers
                .iter()
                .find(|layer| layer.layer.as_str() == id)
        });
        Some(Self {
            surface,
            layer: named.or_else(|| usual(surface))?,
            piece: view.query.get("piece").and_then(|text| text.parse().ok()),
        })
    }

    fn address(&self, piece: Option<usize>) -> String {
        let place = address(self.surface.side, self.layer.layer.as_str());
        piece.map_or(place.clone(), |piece| format!("{place}&piece={piece}"))
    }
}

/// The innermost layer with pieces that is not in yet, or else the innermost one with pieces, or else the last.
fn usual(surface: &LinedSurface) -> Option<&LaidLayer> {
    let layers = || surface.layers.iter().rev();
    layers()
        .find(|layer| !layer.done && !layer.pieces.is_empty())
        .or_else(|| layers().find(|layer| !layer.pieces.is_empty()))
        .or_else(|| layers().next())
}

/// Whether pieces of such a layer are laid out.
fn has_pieces(kind: LayerKind) -> bool {
    !matches!(kind, LayerKind::Skin | LayerKind::Film | LayerKind::Air)
}

fn address(side: Side, layer: &str) -> String {
    format!("{HERE}?side={}&layer={}", side.as_str(), encoded(layer))
}

/// The page.
pub async fn page(view: View) -> Response {
    let found = study(&view);
    let main = match Asked::of(&view, &found) {
        Some(asked) => whole(&view, &found, &asked),
        None => begin::beginning(&view, &found),
    };
    view.page(framed(
        HERE,
        "Lining",
        "Every side seen from inside, to scale, with each piece that goes on it.",
        &html! { div #lining-page data-region { (main) } },
    ))
}

fn whole(view: &View, found: &LiningResult, asked: &Asked<'_>) -> Markup {
    html! {
        (picker(view, found, asked))
        div.floor-top {
            section.plans aria-label="Drawing and pieces" {
                (drawing::drawing(view, asked))
                (pieces::pieces(view, asked))
            }
            aside.beside aria-label="Figures" {
                (totals::totals(view, asked))
                (gaps::gaps(view, asked))
                (totals::other_way(view, found, asked))
                (totals::links(view, asked))
            }
        }
        (rests::rests(view, found))
    }
}

/// Sides and their layers to choose from.
fn picker(view: &View, found: &LiningResult, asked: &Asked<'_>) -> Markup {
    let sides = found
        .surfaces
        .iter()
        .filter(|surface| !surface.layers.is_empty());
    html! {
        div.sides.looks role="group" aria-label="Side" {
            @for surface in sides {
                a.button href=(format!("{HERE}?side={}", surface.side.as_str())) data-live
                    aria-current=[(surface.side == asked.surface.side).then_some("true")] { (words::side(surface.side)) }
            }
        }
        div.sides.looks.layers role="group" aria-label="Layer, from outside inwards" {
            @for layer in &asked.surface.layers {
                a.button href=(address(asked.surface.side, layer.layer.as_str())) data-live
                    aria-current=[(layer.layer == asked.layer.layer).then_some("true")] {
                    (words::layer(view, layer.layer.as_str()))
                    @if layer.done { span.hint { "in" } }
                }
            }
        }
    }
}
