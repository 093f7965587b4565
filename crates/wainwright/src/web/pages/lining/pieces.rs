//! All pieces of a layer on one side as a list to mark and cut by. Not here: the order of cutting (`cut`).

use super::{Asked, notch, words};
use crate::web::html::count;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::lining::LaidPiece;

/// So many pieces are shown without asking.
const FEW: usize = 60;

/// The list, and that of openings.
pub fn pieces(view: &View, asked: &Asked<'_>) -> Markup {
    let layer = asked.layer;
    let runs = layer.courses > 0;
    html! {
        div #pieces-of-layer {
        @if !layer.pieces.is_empty() {
            section aria-labelledby="pieces-heading" {
                h2 #pieces-heading { "Pieces" }
                p.hint {
                    "On the wood a piece is marked " b { (layer.pieces.first().map_or(String::new(), |piece| piece.mark.to_string())) }
                    " and so on: the side, the place of the layer, its number. Press a number to find it in the drawing."
                }
                details #piece-list open[layer.pieces.len() <= FEW] {
                    summary { (words::pieces_of(layer.kind, layer.pieces.len())) }
                    table.cards.list.piece-list {
                        thead { tr {
                            th scope="col" { "Mark" }
                            @if runs { th.number scope="col" { "Run" } }
                            th.number scope="col" { "Length" }
                            th.number scope="col" { "Width" }
                            th scope="col" { "Notches" }
                        } }
                        tbody { @for piece in &layer.pieces { (row(view, asked, piece, runs)) } }
                    }
                }
            }
        }
        (openings(view, asked))
        }
    }
}

fn row(view: &View, asked: &Asked<'_>, piece: &LaidPiece, runs: bool) -> Markup {
    let number = piece.mark.number;
    html! {
        tr data-piece=(piece.mark) {
            th scope="row" {
                a href=(asked.address(Some(number))) data-live aria-current=[(asked.piece == Some(number)).then_some("true")] { (piece.mark) }
            }
            @if runs { td.number data-label="Run" { @if piece.run > 0 { (piece.run) } @else { "–" } } }
            td.number data-label="Length" { b { (words::tape(view, piece.length)) } }
            td.number data-label="Width" { (words::tape(view, piece.width)) @if piece.ripped { span.basis { " ripped" } } }
            td.long data-label="Notches" {
                @if piece.cuts.is_empty() { "–" }
                @for cut in &piece.cuts { div { (notch::words(view, piece, cut)) } }
            }
        }
    }
}

/// Openings with their measures, for what does not fit on the drawing.
fn openings(view: &View, asked: &Asked<'_>) -> Markup {
    let surface = asked.surface;
    let project = &view.study().project;
    let (across, up) = match surface.side {
        wainwright_model::Side::Front | wainwright_model::Side::Rear => ("left wall", "floor"),
        wainwright_model::Side::Roof | wainwright_model::Side::Floor => ("front wall", "left wall"),
        _ => ("front wall", "floor"),
    };
    html! {
        @if !surface.openings.is_empty() {
            details #surface-openings {
                summary { (count(surface.openings.len(), "opening", "openings")) " in this side" }
                ul.plain {
                    @for opening in &surface.openings {
                        li {
                            a href={ "/edit/opening/" (opening.id) "?back=/lining" } { (crate::views::road::words::opening(project, opening.id.as_str())) }
                            ": " (words::tape(view, opening.rect.x)) " from the " (across) ", " (words::tape(view, opening.rect.y)) " from the " (up) ", "
                            (words::tape(view, opening.rect.width)) " × " (words::tape(view, opening.rect.height))
                            @if opening.round { " round" }
                        }
                    }
                }
            }
        }
    }
}
