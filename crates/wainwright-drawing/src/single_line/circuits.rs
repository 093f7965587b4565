//! The circuits of an overview one by one: devices, wire, end, texts. Not here:
//! which rail they are on.

use super::data::Item;
use super::place::{Columns, EDGE, LEAST_NAME, Manner, Placed, RAIL, Row, SYMBOL, Sheet};
use super::place::{from_branch, rows};
use crate::geometry::{Point, Rect};
use crate::picture::Voice;

/// Least width of a device in a line [px].
const DEVICE: f64 = 46.0;
/// Least height of a row [px].
const ROW: f64 = 42.0;

/// Width of a device within a line, with air [px].
pub(super) fn device_width(item: &Item) -> f64 {
    (Voice::Note.width(&note(item)) + 10.0).clamp(DEVICE, 110.0)
}

/// What stands at a device in a line: its note, or its name if it has none.
fn note(item: &Item) -> String {
    let text = if item.note.is_empty() {
        &item.title
    } else {
        &item.note
    };
    Voice::Note.fit(text, 100.0)
}

/// A circuit to a device. Returns the height of its line.
pub(super) fn circuit<'a>(
    sheet: &mut Sheet<'a>,
    row: &Row<'a>,
    rail: f64,
    columns: &Columns,
    y: &mut f64,
) -> f64 {
    let symbol = rail + columns.devices + columns.wire + SYMBOL / 2.0;
    let left = symbol + SYMBOL / 2.0 + 2.0;
    let room = sheet.width - left - EDGE;
    let texts = end_texts(row.end, room);
    let tall: f64 = texts.iter().map(|(voice, _)| voice.height()).sum();
    let wire_lines = Voice::Note.wrap(row.wire, columns.wire - 10.0);
    let below = wire_lines.len().saturating_sub(1) as f64 * Voice::Note.height();
    let height = ROW.max(tall + 12.0).max(2.0 * below + 14.0);
    let middle = *y + height / 2.0;
    sheet.stroke(
        Point::new(rail, middle),
        Point::new(symbol - 15.0, middle),
        false,
    );
    devices(sheet, &row.through, rail, middle);
    wire(sheet, &wire_lines, rail + columns.devices, middle);
    let placed = stack(texts, Point::new(left, middle - tall / 2.0));
    let right = right_end(&placed, left);
    sheet.items.push(Placed {
        item: row.end,
        at: Point::new(symbol, middle),
        manner: Manner::End,
        texts: placed,
        touch: Rect::new(symbol - 18.0, *y + 1.0, right - symbol + 18.0, height - 2.0),
    });
    *y += height;
    middle
}

/// Texts below each other from `corner` on.
fn stack(texts: Vec<(Voice, String)>, corner: Point) -> Vec<(Voice, Rect, String)> {
    let mut top = corner.y;
    let place = |(voice, text): (Voice, String)| {
        let rect = Rect::new(corner.x, top, voice.width(&text), voice.height());
        top += voice.height();
        (voice, rect, text)
    };
    texts.into_iter().map(place).collect()
}

/// Right end of texts, with air; `least` without any.
fn right_end(texts: &[(Voice, Rect, String)], least: f64) -> f64 {
    texts
        .iter()
        .map(|(_, rect, _)| rect.right() + 7.0)
        .fold(least, f64::max)
}

/// Names and notes in lines; at most two of each.
fn end_texts(item: &Item, room: f64) -> Vec<(Voice, String)> {
    let mut texts = Vec::new();
    let sign = match item.tone {
        crate::diagram::Tone::Bad => "! ",
        crate::diagram::Tone::Watch => "? ",
        _ => "",
    };
    for (voice, text) in [
        (Voice::Name, format!("{sign}{}", item.title)),
        (Voice::Note, item.note.clone()),
    ] {
        let mut lines = voice.wrap(&text, room);
        if lines.len() > 2 {
            let rest = lines.split_off(1).join(" ");
            lines.push(voice.fit(&rest, room));
        }
        texts.extend(lines.into_iter().map(|line| (voice, line)));
    }
    texts
}

fn devices<'a>(sheet: &mut Sheet<'a>, through: &[&'a Item], rail: f64, middle: f64) {
    let mut left = rail;
    for item in through.iter().copied() {
        let width = device_width(item);
        let at = Point::new(left + width / 2.0 + 4.0, middle);
        let text = note(item);
        let (wide, high) = (Voice::Note.width(&text), Voice::Note.height());
        let rect = Rect::new(at.x - wide / 2.0, middle + 7.0, wide, high);
        sheet.items.push(Placed {
            item,
            at,
            manner: Manner::Level,
            texts: vec![(Voice::Note, rect, text)],
            touch: Rect::new(left + 5.0, middle - 14.0, width - 2.0, 35.0),
        });
        left += width;
    }
}

/// What a wire is: the first line above it, the rest below.
fn wire(sheet: &mut Sheet, lines: &[String], left: f64, middle: f64) {
    let height = Voice::Note.height();
    for (index, line) in lines.iter().enumerate() {
        let top = match index {
            0 => middle - height - 2.0,
            index => middle + 3.0 + (index - 1) as f64 * height,
        };
        let rect = Rect::new(left + 8.0, top, Voice::Note.width(line), height);
        sheet.texts.push((Voice::Note, rect, line.clone()));
    }
}

/// A circuit to a further block with a rail of its own.
pub(super) fn further<'a>(
    sheet: &mut Sheet<'a>,
    row: &Row<'a>,
    rail: f64,
    y: &mut f64,
    depth: usize,
) -> f64 {
    let devices_width: f64 = row.through.iter().copied().map(device_width).sum();
    let own = rail + devices_width.max(16.0) + 14.0;
    let left = own + 14.0;
    let middle = *y + 16.0;
    sheet.stroke(Point::new(rail, middle), Point::new(own, middle), false);
    devices(sheet, &row.through, rail, middle);
    sheet.width = sheet.width.max(left + LEAST_NAME + EDGE);
    let room = sheet.width - left - EDGE;
    let mut texts = end_texts(row.end, room);
    let wire = Voice::Note.wrap(row.wire, room).into_iter();
    texts.extend(wire.map(|line| (Voice::Note, line)));
    let placed = stack(texts, Point::new(left, *y + 8.0));
    let top = placed.last().map_or(*y + 8.0, |(_, rect, _)| rect.bottom());
    let right = right_end(&placed, left);
    sheet.items.push(Placed {
        item: row.end,
        at: Point::new(own, middle),
        manner: Manner::End,
        texts: placed,
        touch: Rect::new(own - 8.0, *y + 3.0, right - own + 8.0, top - *y),
    });
    *y = (top + 4.0).max(middle + 24.0);
    let inner: Vec<Row> = row.branches.iter().map(from_branch).collect();
    let before = *y;
    rows(sheet, &inner, own, y, false, depth + 1);
    let last = sheet.last_on(own, before).unwrap_or(before);
    sheet.stroke(
        Point::new(own, middle - 8.0),
        Point::new(own, last + 8.0),
        true,
    );
    *y += 6.0;
    middle
}

/// A device in the rail itself, between sources and bus.
pub(super) fn in_rail<'a>(sheet: &mut Sheet<'a>, item: &'a Item, from: f64, y: f64) -> f64 {
    let left = RAIL + 22.0;
    let room = sheet.width - left - EDGE;
    let texts = end_texts(item, room);
    let tall: f64 = texts.iter().map(|(voice, _)| voice.height()).sum();
    let height = 50.0_f64.max(tall + 12.0);
    let middle = y + height / 2.0;
    sheet.stroke(Point::new(RAIL, from), Point::new(RAIL, y + height), false);
    let placed = stack(texts, Point::new(left, middle - tall / 2.0));
    let right = right_end(&placed, left);
    sheet.items.push(Placed {
        item,
        at: Point::new(RAIL, middle),
        manner: Manner::Upright,
        texts: placed,
        touch: Rect::new(RAIL - 16.0, y + 3.0, right - RAIL + 16.0, height - 6.0),
    });
    y + height
}
