//! Lays out and writes the drawing of a surface.

use super::data::{Box2, Gap, Lined, Options, Piece};
use super::measures::{self, depth};
use super::numbers::Places;
use crate::board::grown;
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Picture, Voice};
use crate::svg::Ids;
use crate::svg::writer::number;

/// Free edge of the drawing [px].
const EDGE: f64 = 6.0;
/// Height of the row of words over the drawing [px].
const HEAD: f64 = 22.0;
/// Numbers may reach so far beyond the surface [px].
const BEYOND: f64 = 3.0;
/// Least and most width of a drawing [px].
const WIDTHS: (f64, f64) = (200.0, 4000.0);
/// Largest surface that is drawn \[m\]: the largest the lining study takes.
const LARGEST_M: f64 = 100.0;

/// From metres on the surface to the sheet.
#[derive(Clone, Copy)]
struct Scale {
    at: Rect,
    px_per_m: f64,
    mirrored: bool,
}

impl Scale {
    fn x(&self, m: f64) -> f64 {
        match self.mirrored {
            true => self.at.right() - m * self.px_per_m,
            false => self.at.x + m * self.px_per_m,
        }
    }

    fn y(&self, m: f64) -> f64 {
        self.at.bottom() - m * self.px_per_m
    }

    fn point(&self, (x, y): (f64, f64)) -> Point {
        Point::new(self.x(x), self.y(y))
    }

    /// A rectangle on the sheet, kept within the surface; none without a size.
    fn rect(&self, place: &Box2) -> Option<Rect> {
        if !place.known() {
            return None;
        }
        let (a, b) = (self.x(place.x_m), self.x(place.x_m + place.width_m));
        let (left, right) = (a.min(b).max(self.at.x), a.max(b).min(self.at.right()));
        let top = self.y(place.y_m + place.height_m).max(self.at.y);
        let bottom = self.y(place.y_m).min(self.at.bottom());
        (right > left && bottom > top).then(|| Rect::new(left, top, right - left, bottom - top))
    }
}

/// Draws one surface. Total and deterministic.
pub fn surface(lined: &Lined, options: &Options) -> Picture {
    let mut pen = Pen::default();
    let wanted = if options.width.is_finite() {
        options.width
    } else {
        Options::default().width
    };
    let width = wanted.clamp(WIDTHS.0, WIDTHS.1);
    let Some(scale) = scale(lined, options, width) else {
        return pen.picture(width, HEAD);
    };
    head(&mut pen, lined, &scale);
    pen.out.rect("floor", scale.at, 0.0);
    for rib in lined.ribs.iter().filter_map(|rib| scale.rect(rib)) {
        pen.out.rect("rib facing", rib, 0.0);
    }
    body(&mut pen, lined, &scale, options);
    pen.out.rect("sheet-frame", scale.at, 0.0);
    measures::draw(
        &mut pen,
        &lined.across,
        (|m| scale.x(m), lined.width_m),
        scale.at.bottom(),
        true,
    );
    measures::draw(
        &mut pen,
        &lined.up,
        (|m| scale.y(m), lined.height_m),
        scale.at.right(),
        false,
    );
    let height = scale.at.bottom() + depth(lined.across.len()) + EDGE;
    let width = scale.at.right() + depth(lined.up.len()) + EDGE;
    let mut picture = pen.picture(width, height);
    let mm_per_unit = format!("{:.4}", 1000.0 / scale.px_per_m);
    picture
        .attributes
        .push(("data-mm-per-unit".into(), mm_per_unit));
    picture
}

/// The largest scale at which it fits.
fn scale(lined: &Lined, options: &Options, width: f64) -> Option<Scale> {
    let sizes = [lined.width_m, lined.height_m];
    if !sizes.iter().all(|m| *m > 0.0 && *m <= LARGEST_M) {
        return None;
    }
    let room = (width - 2.0 * EDGE - depth(lined.up.len())).max(20.0);
    let high = if options.height.is_finite() {
        options.height.clamp(20.0, WIDTHS.1)
    } else {
        Options::default().height
    };
    let px_per_m = (room / lined.width_m).min(high / lined.height_m);
    let (wide, tall) = (lined.width_m * px_per_m, lined.height_m * px_per_m);
    Some(Scale {
        at: Rect::new(EDGE, HEAD, wide, tall),
        px_per_m,
        mirrored: lined.mirrored,
    })
}

/// What is beyond the edges, and the caption between.
fn head(pen: &mut Pen, lined: &Lined, scale: &Scale) {
    let high = Voice::Name.height();
    let mut room = scale.at;
    for (end, align) in lined.ends.iter().zip([Align::Start, Align::End]) {
        let text = Voice::Note.fit(end, scale.at.width / 3.0);
        let wide = Voice::Note.width(&text);
        if end.is_empty() || wide > scale.at.width / 3.0 {
            continue;
        }
        let x = match align {
            Align::End => scale.at.right() - wide,
            _ => scale.at.x,
        };
        pen.text_in(Voice::Note, Rect::new(x, 3.0, wide, high), align, &text);
        room.width -= wide + 8.0;
        if align == Align::Start {
            room.x += wide + 8.0;
        }
    }
    let caption = Voice::Name.fit(&lined.caption, room.width.max(0.0));
    let wide = Voice::Name.width(&caption);
    if wide <= room.width && caption != "…" {
        let x = room.x + (room.width - wide) / 2.0;
        pen.text_in(
            Voice::Name,
            Rect::new(x, 3.0, wide, high),
            Align::Middle,
            &caption,
        );
    }
}

/// Pieces, then openings over them, then numbers and names.
fn body(pen: &mut Pen, lined: &Lined, scale: &Scale, options: &Options) {
    let mut ids = Ids::new(&options.id_prefix);
    let drawn: Vec<(&Piece, Rect)> = lined
        .pieces
        .iter()
        .filter_map(|piece| Some((piece, scale.rect(&piece.place)?)))
        .collect();
    for (piece, rect) in &drawn {
        write_piece(pen, lined, scale, piece, *rect, &mut ids);
    }
    for rest in lined.left_out.iter().filter_map(|rest| scale.rect(rest)) {
        pen.out.rect("left-out", rest, 0.0);
    }
    for rib in lined.ribs.iter().filter_map(|rib| scale.rect(rib)) {
        let (from, to) = middle_line(&rib);
        pen.out.line("behind", from, to);
    }
    for (class, lines) in [("joint", &lined.joints), ("ripped", &lined.ripped)] {
        for [from, to] in lines {
            let all = [from.0, from.1, to.0, to.1];
            if all.iter().all(|m| m.is_finite() && m.abs() <= LARGEST_M) {
                pen.out.line(class, scale.point(*from), scale.point(*to));
            }
        }
    }
    let openings: Vec<(&Gap, Rect)> = lined
        .openings
        .iter()
        .filter_map(|gap| Some((gap, scale.rect(&gap.place)?)))
        .collect();
    for (gap, rect) in &openings {
        write_opening(pen, gap, *rect);
    }
    texts(pen, scale, &drawn, &openings);
}

fn write_piece(
    pen: &mut Pen,
    lined: &Lined,
    scale: &Scale,
    piece: &Piece,
    rect: Rect,
    ids: &mut Ids,
) {
    let done = if lined.done { " done" } else { "" };
    let selected = if piece.selected { " selected" } else { "" };
    let class = format!("piece{done}{selected}");
    let id = ids.next("piece", &piece.id);
    pen.out.open(
        "g",
        &[("id", &id), ("class", &class), ("data-id", &piece.id)],
    );
    pen.out.text("title", &[], &piece.words);
    pen.out.rect("body", rect, 0.0);
    for cut in piece.cuts.iter().filter_map(|cut| scale.rect(cut)) {
        pen.out.rect("notch", cut, 0.0);
    }
    pen.out.close();
}

fn write_opening(pen: &mut Pen, gap: &Gap, rect: Rect) {
    if !gap.round {
        pen.out.rect("gap-in-it", rect, 0.0);
        return;
    }
    let middle = Point::new(rect.x + rect.width / 2.0, rect.y + rect.height / 2.0);
    let [cx, cy, rx, ry] = [middle.x, middle.y, rect.width / 2.0, rect.height / 2.0].map(number);
    pen.out.leaf(
        "ellipse",
        &[
            ("class", "gap-in-it"),
            ("cx", &cx),
            ("cy", &cy),
            ("rx", &rx),
            ("ry", &ry),
        ],
    );
}

/// Along the longer side.
fn middle_line(rect: &Rect) -> (Point, Point) {
    let (x, y) = (rect.x + rect.width / 2.0, rect.y + rect.height / 2.0);
    match rect.width >= rect.height {
        true => (Point::new(rect.x, y), Point::new(rect.right(), y)),
        false => (Point::new(x, rect.y), Point::new(x, rect.bottom())),
    }
}

fn texts(pen: &mut Pen, scale: &Scale, pieces: &[(&Piece, Rect)], openings: &[(&Gap, Rect)]) {
    let mut places = Places {
        // A thin piece at an edge has its number a little beyond it.
        area: grown(scale.at, BEYOND),
        taken: Vec::new(),
    };
    for (gap, rect) in openings {
        let name = Voice::Note.fit(&gap.name, rect.width - 6.0);
        if gap.name.is_empty() || name.chars().count() < 3.min(gap.name.chars().count()) {
            continue;
        }
        let (wide, high) = (Voice::Note.width(&name), Voice::Note.height());
        let x = rect.x + (rect.width - wide) / 2.0;
        let text = Rect::new(x, rect.y + (rect.height - high) / 2.0, wide, high);
        let free = wide <= rect.width
            && high <= rect.height
            && !places.taken.iter().any(|known| known.overlaps(&text));
        if free {
            pen.text_in(Voice::Note, text, Align::Middle, &name);
            places.taken.push(text);
        }
    }
    let holes: Vec<Rect> = openings.iter().map(|(_, rect)| *rect).collect();
    // The chosen one first: its number is wanted most.
    let (chosen, others): (Vec<_>, Vec<_>) = pieces.iter().partition(|(piece, _)| piece.selected);
    for (piece, rect) in chosen.into_iter().chain(others) {
        let mut away = holes.clone();
        away.extend(piece.cuts.iter().filter_map(|cut| scale.rect(cut)));
        if piece.number.is_empty() {
            continue;
        }
        if let Some(standing) = places.take(&piece.number, rect, &away) {
            if standing.ground {
                pen.out.rect("sign", grown(standing.rect, -0.5), 3.0);
            }
            pen.text_sized(
                "t-bold in-piece",
                standing.size,
                standing.rect,
                false,
                &piece.number,
            );
        }
    }
}
