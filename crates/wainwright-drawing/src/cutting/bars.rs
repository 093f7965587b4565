//! Boards one below the other, all to one scale.

use super::data::{Bar, BarPiece};
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Picture, Voice};
use crate::text::text_width;

/// Free edge [px].
const EDGE: f64 = 6.0;
/// Height of a board [px].
const TALL: f64 = 40.0;
/// Below a board [px].
const BELOW: f64 = 14.0;
/// Width of a drawing [px].
const WIDTHS: (f64, f64) = (160.0, 4000.0);
/// From hatching line to hatching line [px].
const HATCH: f64 = 7.0;
/// Bold letters are wider by this factor.
const BOLD: f64 = 1.07;

/// Draws boards in a drawing of this width [px]. Total and deterministic.
pub fn bars(bars: &[Bar], width: f64) -> Picture {
    let width = if width.is_finite() {
        width.clamp(WIDTHS.0, WIDTHS.1)
    } else {
        WIDTHS.0
    };
    let mut pen = Pen::default();
    let room = width - 2.0 * EDGE;
    let px_per_m = scale(bars, room);
    let mut y = EDGE;
    for bar in bars {
        y = head(&mut pen, bar, Rect::new(EDGE, y, room, 0.0));
        write_bar(&mut pen, bar, Point::new(EDGE, y), TALL, px_per_m);
        y += TALL + BELOW;
    }
    pen.picture(width, y + EDGE)
}

/// The scale at which the longest board fills the room.
pub(super) fn scale(bars: &[Bar], room: f64) -> f64 {
    let known = bars.iter().map(|bar| bar.length_m);
    let longest = known
        .filter(|m| m.is_finite() && *m > 0.0)
        .fold(0.0, f64::max);
    if longest > 0.0 { room / longest } else { 0.0 }
}

/// Name and what is left, in one row or in two.
fn head(pen: &mut Pen, bar: &Bar, at: Rect) -> f64 {
    let (name, note) = (
        Voice::Name.fit(&bar.head, at.width),
        Voice::Note.fit(&bar.note, at.width),
    );
    let (wide, wider) = (Voice::Name.width(&name), Voice::Note.width(&note));
    let high = Voice::Name.height();
    pen.text(Voice::Name, Point::new(at.x, at.y), &name);
    if note.is_empty() || note == "…" {
        return at.y + high + 2.0;
    }
    if wide + wider + 12.0 <= at.width {
        let rect = Rect::new(at.right() - wider, at.y, wider, high);
        pen.text_in(Voice::Note, rect, Align::End, &note);
        return at.y + high + 2.0;
    }
    pen.text(Voice::Note, Point::new(at.x, at.y + high), &note);
    at.y + high + Voice::Note.height() + 2.0
}

/// One board of this height [px] with its left upper corner at `at`.
pub(super) fn write_bar(pen: &mut Pen, bar: &Bar, at: Point, tall: f64, px_per_m: f64) {
    if !(bar.length_m.is_finite() && bar.length_m > 0.0 && px_per_m > 0.0) {
        return;
    }
    pen.out.open("g", &[("class", "bar-row")]);
    pen.out.text("title", &[], &bar.words);
    let whole = Rect::new(at.x, at.y, bar.length_m * px_per_m, tall);
    pen.out.rect("saw-dust", whole, 0.0);
    let metres = |m: f64| if m.is_finite() { m.max(0.0) } else { 0.0 };
    let mut x = at.x + metres(bar.trim_m) / 2.0 * px_per_m;
    let mut end = x;
    for piece in &bar.pieces {
        let wide = metres(piece.length_m) * px_per_m;
        let right = (x + wide).min(whole.right());
        if right > x {
            write_piece(pen, piece, Rect::new(x, at.y, right - x, tall));
        }
        end = right.max(x);
        x = end + metres(bar.kerf_m) * px_per_m;
    }
    let offcut = metres(bar.offcut_m) * px_per_m;
    if offcut > 0.5 {
        let right = whole.right() - metres(bar.trim_m) / 2.0 * px_per_m;
        let left = (right - offcut).max(end);
        write_offcut(
            pen,
            bar,
            Rect::new(left, at.y, (right - left).max(0.0), tall),
        );
    }
    pen.out.rect("bar-frame", whole, 0.0);
    pen.out.close();
}

fn write_piece(pen: &mut Pen, piece: &BarPiece, rect: Rect) {
    pen.out.rect("cut-piece", rect, 0.0);
    let (mark, text) = (
        Voice::Key.width(&piece.mark),
        Voice::Note.width(&piece.text),
    );
    let (high, low) = (Voice::Key.height(), Voice::Note.height());
    let middle = rect.y + rect.height / 2.0;
    if mark.max(text) + 6.0 <= rect.width && high + low <= rect.height {
        let top = middle - (high + low) / 2.0;
        let row = |y: f64, high: f64| Rect::new(rect.x + 2.0, y, rect.width - 4.0, high);
        pen.text_in(Voice::Key, row(top, high), Align::Middle, &piece.mark);
        pen.text_in(
            Voice::Note,
            row(top + high, low),
            Align::Middle,
            &piece.text,
        );
    } else if mark + 4.0 <= rect.width {
        let row = Rect::new(rect.x + 2.0, middle - high / 2.0, rect.width - 4.0, high);
        pen.text_in(Voice::Key, row, Align::Middle, &piece.mark);
    } else if rect.width >= high + 1.0 && mark + 2.0 <= rect.height {
        let row = Rect::new(
            rect.x + (rect.width - high) / 2.0,
            middle - mark / 2.0,
            high,
            mark,
        );
        pen.text_upright(Voice::Key, row, &piece.mark);
    }
}

fn write_offcut(pen: &mut Pen, bar: &Bar, rect: Rect) {
    let class = if bar.keep { "offcut keep" } else { "offcut" };
    pen.out.rect(class, rect, 0.0);
    hatch(pen, rect);
    let size = 11.0;
    let wide = text_width(&bar.offcut, size) * BOLD;
    if wide + 8.0 <= rect.width && !bar.offcut.is_empty() {
        let high = size * 1.25;
        let middle = Point::new(rect.x + rect.width / 2.0, rect.y + rect.height / 2.0);
        let row = Rect::new(middle.x - wide / 2.0, middle.y - high / 2.0, wide, high);
        let ground = Rect::new(row.x - 3.0, row.y, row.width + 6.0, row.height);
        pen.out.rect("sign", ground, 3.0);
        pen.text_in(Voice::Note, row, Align::Middle, &bar.offcut);
    }
}

/// Slanting lines within a rectangle.
pub(super) fn hatch(pen: &mut Pen, rect: Rect) {
    let mut start = HATCH;
    while start < rect.width + rect.height {
        // From the upper or right edge down to the left or lower one.
        let (from_x, from_y) = if start <= rect.width {
            (rect.x + start, rect.y)
        } else {
            (rect.right(), rect.y + start - rect.width)
        };
        let (to_x, to_y) = if start <= rect.height {
            (rect.x, rect.y + start)
        } else {
            (rect.x + start - rect.height, rect.bottom())
        };
        pen.out
            .line("hatch", Point::new(from_x, from_y), Point::new(to_x, to_y));
        start += HATCH;
    }
}
