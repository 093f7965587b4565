//! Frame and title block of a sheet.

use super::{Sheet, UNIT_MM, page};
use crate::board::grown;
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Voice};

/// Edge of the paper that stays free [mm].
const EDGE_MM: f64 = 10.0;
/// Height of the title block [mm].
const BLOCK_MM: f64 = 19.0;
/// Width of its right part, with scale, number and date [mm].
const RIGHT_MM: f64 = 46.0;
/// Between frame and drawing [px].
const AIR: f64 = 8.0;

fn frame(sheet: &Sheet) -> Rect {
    grown(page(sheet.paper, sheet.landscape), -EDGE_MM / UNIT_MM)
}

/// Where the drawing may stand.
pub(super) fn room(sheet: &Sheet) -> Rect {
    let frame = frame(sheet);
    let height = frame.height - BLOCK_MM / UNIT_MM;
    grown(Rect::new(frame.x, frame.y, frame.width, height), -AIR)
}

/// Draws frame and title block.
pub(super) fn draw(pen: &mut Pen, sheet: &Sheet, scale_text: &str) {
    let frame = frame(sheet);
    let (height, right) = (BLOCK_MM / UNIT_MM, RIGHT_MM / UNIT_MM);
    let top = frame.bottom() - height;
    let middle = frame.right() - right;
    pen.out.rect("sheet-frame", frame, 0.0);
    pen.out.line(
        "sheet-frame",
        Point::new(frame.x, top),
        Point::new(frame.right(), top),
    );
    pen.out.line(
        "sheet-frame",
        Point::new(middle, top),
        Point::new(middle, frame.bottom()),
    );
    let room = middle - frame.x - 2.0 * AIR;
    let mut y = top + 6.0;
    for (voice, text) in [
        (Voice::Heading, &sheet.title),
        (Voice::Name, &sheet.subtitle),
        (Voice::Note, &sheet.note),
    ] {
        if text.is_empty() {
            continue;
        }
        pen.text(voice, Point::new(frame.x + AIR, y), &voice.fit(text, room));
        y += voice.height() + 3.0;
    }
    let third = height / 3.0;
    for (row, text) in [scale_text, &sheet.number_text, &sheet.date_text]
        .into_iter()
        .enumerate()
    {
        let y = top + row as f64 * third;
        if row > 0 {
            pen.out.line(
                "extension",
                Point::new(middle, y),
                Point::new(frame.right(), y),
            );
        }
        let text = Voice::Note.fit(text, right - 2.0 * AIR);
        let rect = Rect::new(middle + AIR, y, right - 2.0 * AIR, third);
        pen.text_in(Voice::Note, rect, Align::Start, &text);
    }
}
