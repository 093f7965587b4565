//! The drawing of a side with one layer, for wide and for narrow screens, and the meaning of its lines.

use super::{Asked, has_pieces, words};
use crate::web::act::blocking;
use crate::web::view::View;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::lining::{
    Direction, LaidLayer, LaidPiece, LinedSurface, Rect, Shortfall,
};
use wainwright_drawing::lining::{Box2, Gap, Lined, Measure, Options, Piece, surface};
use wainwright_drawing::{Css, Style};
use wainwright_units::Length;

/// Width and height on a wide screen and on a narrow one [px].
const WIDE: (f64, f64) = (880.0, 520.0);
const NARROW: (f64, f64) = (350.0, 430.0);
/// Ends nearer to each other than this are a joint \[m\].
const JOINT_M: f64 = 0.025;
/// Edges of openings nearer than this share a dimension line \[m\].
const SAME_M: f64 = 0.006;

/// The drawing with what it means.
pub fn drawing(view: &View, asked: &Asked<'_>) -> Markup {
    let lined = lined(view, asked);
    let (ends, below) = words::ends(asked.surface);
    let title = format!(
        "{} seen from inside, {}",
        words::side(asked.surface.side),
        words::layer(view, asked.layer.layer.as_str())
    );
    let one = |(width, height): (f64, f64), prefix: &str| {
        let options = Options {
            width,
            height,
            id_prefix: prefix.to_owned(),
        };
        let style = Style {
            title: title.clone(),
            id_prefix: prefix.to_owned(),
            css: Css::OnPage,
        };
        surface(&lined, &options).svg(&style)
    };
    let (wide, narrow) = blocking(|| (one(WIDE, "w-"), one(NARROW, "n-")));
    html! {
        div.side-plan #surface {
            div.for-wide { (PreEscaped(wide)) }
            div.for-narrow { (PreEscaped(narrow)) }
        }
        div.under-plan {
            (legend(asked))
            p.hint { "Seen from inside: " (ends[0]) " on the left, " (below) " below. Sizes are those inside the box." }
            @if let Some(bow) = &asked.surface.bow {
                p.hint {
                    "The ceiling is bowed: " (view.show(bow.chord)) " straight across, " (view.show(bow.rise)) " higher in its middle, "
                    (view.show(bow.developed)) " along it. It is drawn flat."
                }
            }
        }
    }
}

fn legend(asked: &Asked<'_>) -> Markup {
    let layer = asked.layer;
    html! {
        div.legend role="group" aria-label="Meaning of the lines" {
            span.key { span.swatch.rib-line {} "rib behind" }
            @if has_pieces(layer.kind) {
                @if layer.done { span.key { span.swatch.piece-done {} "in already" } }
                @else { span.key { span.swatch.piece-todo {} "piece with its number" } }
            }
            @if layer.pieces.iter().any(|piece| piece.run > 0) { span.key { span.swatch.joint-line {} "joint" } }
            @if layer.rips > 0 { span.key { span.swatch.ripped-line {} "ripped edge" } }
            @if layer.notches > 0 { span.key { span.swatch.notch-box {} "notch" } }
            @if layer.shortfalls.iter().any(|one| matches!(one, Shortfall::LeftOut(_))) {
                span.key { span.swatch.bare {} "left bare" }
            }
        }
    }
}

/// The side with one layer as the drawing wants it.
pub fn lined(view: &View, asked: &Asked<'_>) -> Lined {
    let (surface, layer) = (asked.surface, asked.layer);
    let (width, height) = (surface.width.metres(), surface.height.metres());
    let name = words::layer(view, layer.layer.as_str());
    let caption = match (layer.done, has_pieces(layer.kind)) {
        (true, _) => format!("{name}: in already"),
        (false, true) => name,
        (false, false) => format!("{name}: nothing to cut"),
    };
    let left_out = layer.shortfalls.iter().filter_map(|one| match one {
        Shortfall::LeftOut(rect) => Some(place(rect)),
        _ => None,
    });
    let (ends, _) = words::ends(surface);
    Lined {
        width_m: width,
        height_m: height,
        mirrored: surface.mirrored,
        ribs: ribs(surface),
        openings: openings(view, surface),
        pieces: layer
            .pieces
            .iter()
            .map(|piece| drawn(view, asked, piece))
            .collect(),
        joints: joints(layer),
        ripped: layer
            .pieces
            .iter()
            .filter(|piece| piece.ripped)
            .map(|piece| ripped(surface, piece))
            .collect(),
        left_out: left_out.collect(),
        done: layer.done,
        caption,
        ends: ends.map(str::to_owned),
        across: rows(
            view,
            surface.width,
            surface
                .openings
                .iter()
                .map(|one| (one.rect.x, one.rect.width)),
        ),
        up: rows(
            view,
            surface.height,
            surface
                .openings
                .iter()
                .map(|one| (one.rect.y, one.rect.height)),
        ),
    }
}

/// A rectangle as the drawing wants it.
pub fn place(rect: &Rect) -> Box2 {
    Box2::new(
        rect.x.metres(),
        rect.y.metres(),
        rect.width.metres(),
        rect.height.metres(),
    )
}

fn ribs(surface: &LinedSurface) -> Vec<Box2> {
    let (width, height) = (surface.width.metres(), surface.height.metres());
    let one = |rib: &wainwright_analysis::result::lining::Rib| {
        let (at, wide) = (rib.at.metres(), rib.width.metres());
        match surface.ribs_run {
            Direction::Height => Box2::new(at - wide / 2.0, 0.0, wide, height),
            Direction::Width => Box2::new(0.0, at - wide / 2.0, width, wide),
        }
    };
    surface.ribs.iter().map(one).collect()
}

fn openings(view: &View, surface: &LinedSurface) -> Vec<Gap> {
    let project = &view.study().project;
    let one = |opening: &wainwright_analysis::result::lining::SurfaceOpening| Gap {
        place: place(&opening.rect),
        round: opening.round,
        name: crate::views::road::words::opening(project, opening.id.as_str()),
    };
    surface.openings.iter().map(one).collect()
}

fn drawn(view: &View, asked: &Asked<'_>, piece: &LaidPiece) -> Piece {
    let ripped = if piece.ripped { ", ripped" } else { "" };
    let cuts = match piece.cuts.len() {
        0 => String::new(),
        1 => ", one notch".into(),
        more => format!(", {more} notches"),
    };
    Piece {
        id: piece.mark.to_string(),
        number: piece.mark.number.to_string(),
        place: place(&piece.rect),
        cuts: piece.cuts.iter().map(place).collect(),
        words: format!("{}: {}{ripped}{cuts}", piece.mark, words::size(view, piece)),
        selected: asked.piece == Some(piece.mark.number),
    }
}

/// Where two planks of a run meet.
fn joints(layer: &LaidLayer) -> Vec<[(f64, f64); 2]> {
    let mut all = Vec::new();
    for one in layer.pieces.iter().filter(|piece| piece.run > 0) {
        for other in layer
            .pieces
            .iter()
            .filter(|other| other.run == one.run && other.mark != one.mark)
        {
            let (a, b) = (place(&one.rect), place(&other.rect));
            let gap = match one.runs {
                Direction::Width => b.x_m - (a.x_m + a.width_m),
                Direction::Height => b.y_m - (a.y_m + a.height_m),
            };
            if !(-JOINT_M..JOINT_M).contains(&gap) {
                continue;
            }
            // Pieces above and below an opening share a run, but no edge.
            let (low, high) = match one.runs {
                Direction::Width => (
                    a.y_m.max(b.y_m),
                    (a.y_m + a.height_m).min(b.y_m + b.height_m),
                ),
                Direction::Height => (a.x_m.max(b.x_m), (a.x_m + a.width_m).min(b.x_m + b.width_m)),
            };
            if high > low {
                all.push(match one.runs {
                    Direction::Width => {
                        let x = a.x_m + a.width_m + gap / 2.0;
                        [(x, low), (x, high)]
                    }
                    Direction::Height => {
                        let y = a.y_m + a.height_m + gap / 2.0;
                        [(low, y), (high, y)]
                    }
                });
            }
        }
    }
    all
}

/// The ripped edge: of the two long edges the one that is nearer to an edge of the side or of an opening.
fn ripped(surface: &LinedSurface, piece: &LaidPiece) -> [(f64, f64); 2] {
    let own = place(&piece.rect);
    let level = piece.runs == Direction::Width;
    let (low, high) = match level {
        true => (own.y_m, own.y_m + own.height_m),
        false => (own.x_m, own.x_m + own.width_m),
    };
    let size = if level { surface.height } else { surface.width };
    let mut edges = vec![0.0, size.metres()];
    for opening in &surface.openings {
        let gap = place(&opening.rect);
        edges.extend(match level {
            true => [gap.y_m, gap.y_m + gap.height_m],
            false => [gap.x_m, gap.x_m + gap.width_m],
        });
    }
    let off = |at: f64| {
        edges
            .iter()
            .map(|edge| (edge - at).abs())
            .fold(f64::INFINITY, f64::min)
    };
    let at = if off(low) <= off(high) { low } else { high };
    match level {
        true => [(own.x_m, at), (own.x_m + own.width_m, at)],
        false => [(at, own.y_m), (at, own.y_m + own.height_m)],
    }
}

/// Edges of openings in a row, then the whole.
fn rows(
    view: &View,
    whole: Length,
    openings: impl Iterator<Item = (Length, Length)>,
) -> Vec<Vec<Measure>> {
    let measure = |from_m: f64, to_m: f64| Measure {
        from_m,
        to_m,
        text: words::tape(view, Length::from_metres(to_m - from_m)),
    };
    let size = whole.metres();
    let mut places = vec![0.0, size];
    for (at, wide) in openings {
        places.extend([at.metres(), at.metres() + wide.metres()]);
    }
    places.retain(|at| at.is_finite() && *at >= 0.0 && *at <= size);
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| (*a - *b).abs() < SAME_M);
    let chain: Vec<Measure> = places
        .windows(2)
        .map(|pair| measure(pair[0], pair[1]))
        .collect();
    match chain.len() {
        0 | 1 => vec![vec![measure(0.0, size)]],
        _ => vec![chain, vec![measure(0.0, size)]],
    }
}
