//! Rows of dimension lines below and beside a surface. A text that has no room between its ends is left out: the same
//! figure stands in the lists.

use super::data::Measure;
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Voice};

/// From the drawing to the first row [px].
const FIRST: f64 = 14.0;
/// From row to row [px].
const ROW: f64 = 18.0;
/// Half length of the stroke at the ends [px].
const STROKE: f64 = 4.0;
/// An end may lie so much beyond the edge by rounding \[m\].
const SLIP_M: f64 = 1e-6;
/// Kept free at both sides of a text [px].
const AIR: f64 = 4.0;

/// Room that so many rows take [px].
pub(crate) fn depth(rows: usize) -> f64 {
    match rows {
        0 => 0.0,
        rows => FIRST + (rows - 1) as f64 * ROW + ROW / 2.0 + 2.0,
    }
}

/// Draws rows of what is measured between 0 and `size_m`; `place` turns metres into px along the row, `edge` is where the
/// drawing ends.
pub(crate) fn draw(
    pen: &mut Pen,
    rows: &[Vec<Measure>],
    (place, size_m): (impl Fn(f64) -> f64, f64),
    edge: f64,
    level: bool,
) {
    for (number, row) in rows.iter().enumerate() {
        let off = edge + FIRST + number as f64 * ROW;
        for measure in row {
            let ends = (place(measure.from_m), place(measure.to_m));
            let within = |m: f64| m >= -SLIP_M && m <= size_m + SLIP_M;
            if within(measure.from_m) && within(measure.to_m) {
                one(
                    pen,
                    (ends.0.min(ends.1), ends.0.max(ends.1)),
                    off,
                    edge,
                    level,
                    &measure.text,
                );
            }
        }
    }
}

fn one(pen: &mut Pen, (low, high): (f64, f64), off: f64, edge: f64, level: bool, text: &str) {
    let at = |along: f64, off: f64| match level {
        true => Point::new(along, off),
        false => Point::new(off, along),
    };
    for end in [low, high] {
        pen.out.line(
            "extension",
            at(end, edge + 2.0),
            at(end, off + STROKE + 1.0),
        );
        let middle = at(end, off);
        pen.out.line(
            "measure",
            Point::new(middle.x - STROKE, middle.y + STROKE),
            Point::new(middle.x + STROKE, middle.y - STROKE),
        );
    }
    let (width, height) = (Voice::Note.width(text), Voice::Note.height());
    if text.is_empty() || width + 2.0 * AIR > high - low {
        pen.out.line("measure", at(low, off), at(high, off));
        return;
    }
    let middle = (low + high) / 2.0;
    pen.out
        .line("measure", at(low, off), at(middle - width / 2.0 - 3.0, off));
    pen.out.line(
        "measure",
        at(middle + width / 2.0 + 3.0, off),
        at(high, off),
    );
    if level {
        let rect = Rect::new(middle - width / 2.0, off - height / 2.0, width, height);
        pen.text_in(Voice::Note, rect, Align::Middle, text);
    } else {
        let rect = Rect::new(off - height / 2.0, middle - width / 2.0, height, width);
        pen.text_upright(Voice::Note, rect, text);
    }
}
