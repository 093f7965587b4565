//! Where the rows of an overview come. Everything is level or upright.

use super::circuits::{circuit, device_width, further, in_rail};
use super::data::{Branch, Feed, Item, SingleLine};
use crate::geometry::{Point, Rect};
use crate::picture::Voice;

/// From the left edge to the first rail [px].
pub(super) const RAIL: f64 = 30.0;
/// Width of the symbol at the end of a line, with air [px].
pub(super) const SYMBOL: f64 = 40.0;
/// Least width for the name at the end of a line [px].
pub(super) const LEAST_NAME: f64 = 96.0;
/// Widest column for what a wire is [px].
const WIDEST_WIRE: f64 = 150.0;
/// Deepest tree that is drawn; a block farther down is drawn without its circuits.
const DEEPEST: usize = 8;
/// Edge of the sheet [px].
pub(super) const EDGE: f64 = 12.0;

/// A thin or thick straight line.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Stroke {
    pub from: Point,
    pub to: Point,
    pub bus: bool,
}

/// A symbol with its texts.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Placed<'a> {
    pub item: &'a Item,
    pub at: Point,
    pub manner: Manner,
    pub texts: Vec<(Voice, Rect, String)>,
    /// All of it, to be hit by a finger.
    pub touch: Rect,
}

/// How a symbol stands in its line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Manner {
    /// In a level line.
    Level,
    /// In an upright line.
    Upright,
    /// At the end of a line.
    End,
}

/// The whole overview in its places.
#[derive(Debug, Default)]
pub(super) struct Sheet<'a> {
    pub strokes: Vec<Stroke>,
    pub items: Vec<Placed<'a>>,
    pub texts: Vec<(Voice, Rect, String)>,
    /// Tips of the arrows that point from sources to the rail.
    pub arrows: Vec<Point>,
    pub width: f64,
    pub height: f64,
}

/// One line that leaves or joins a rail.
pub(super) struct Row<'a> {
    /// From the rail outwards.
    pub through: Vec<&'a Item>,
    pub wire: &'a str,
    pub end: &'a Item,
    pub branches: &'a [Branch],
}

/// Columns shared by the rows of one rail.
pub(super) struct Columns {
    pub devices: f64,
    pub wire: f64,
}

/// Places everything from the top down.
pub(super) fn place(line: &SingleLine, width: f64) -> Sheet<'_> {
    let width = if width.is_finite() {
        width.clamp(240.0, 4000.0)
    } else {
        720.0
    };
    let mut sheet = Sheet {
        width,
        ..Sheet::default()
    };
    let sources: Vec<Row> = line.sources.iter().map(from_feed).collect();
    let mut y = EDGE;
    let top = rows(&mut sheet, &sources, RAIL, &mut y, true, 0);
    for (index, item) in line.main.iter().enumerate() {
        let from = if index == 0 { top.unwrap_or(y) } else { y };
        y = in_rail(&mut sheet, item, from, y);
    }
    let start = y + 4.0;
    if line.main.is_empty()
        && let Some(top) = top
    {
        sheet.stroke(Point::new(RAIL, top), Point::new(RAIL, start), false);
    } else if !line.main.is_empty() {
        sheet.stroke(Point::new(RAIL, y), Point::new(RAIL, start), false);
    }
    if !line.bus.is_empty() {
        let name = Voice::Name.fit(&line.bus, width - RAIL - 24.0);
        let rect = Rect::new(
            RAIL + 12.0,
            start + 2.0,
            Voice::Name.width(&name),
            Voice::Name.height(),
        );
        sheet.texts.push((Voice::Name, rect, name));
        y = start + 22.0;
    }
    let circuits: Vec<Row> = line.branches.iter().map(from_branch).collect();
    let before = y;
    if rows(&mut sheet, &circuits, RAIL, &mut y, false, 0).is_some() || !line.bus.is_empty() {
        let last = sheet.last_on(RAIL, before).unwrap_or(before);
        sheet.stroke(Point::new(RAIL, start), Point::new(RAIL, last + 8.0), true);
    }
    sheet.height = y + EDGE;
    sheet
}

fn from_feed(feed: &Feed) -> Row<'_> {
    Row {
        // The rail is at the left: what is nearest to the source comes last.
        through: feed.through.iter().rev().collect(),
        wire: &feed.wire,
        end: &feed.source,
        branches: &[],
    }
}

pub(super) fn from_branch(branch: &Branch) -> Row<'_> {
    Row {
        through: branch.through.iter().collect(),
        wire: &branch.wire,
        end: &branch.end,
        branches: &branch.branches,
    }
}

impl Sheet<'_> {
    /// Adds a line.
    pub(super) fn stroke(&mut self, from: Point, to: Point, bus: bool) {
        self.strokes.push(Stroke { from, to, bus });
    }

    /// The lowest level line that starts on this rail below `y`.
    pub(super) fn last_on(&self, rail: f64, y: f64) -> Option<f64> {
        let on = |stroke: &&Stroke| {
            stroke.from.x == rail && stroke.from.y == stroke.to.y && stroke.from.y >= y
        };
        self.strokes
            .iter()
            .filter(on)
            .map(|stroke| stroke.from.y)
            .max_by(f64::total_cmp)
    }
}

/// Places the rows of one rail below `y`. Returns where the first one meets it.
pub(super) fn rows<'a>(
    sheet: &mut Sheet<'a>,
    rows: &[Row<'a>],
    rail: f64,
    y: &mut f64,
    source: bool,
    depth: usize,
) -> Option<f64> {
    let columns = columns(rows, depth);
    let needed = rail + columns.devices + columns.wire + SYMBOL + LEAST_NAME + EDGE;
    sheet.width = sheet.width.max(needed);
    let mut first = None;
    let mut last = *y;
    for row in rows {
        let at = if row.branches.is_empty() || depth >= DEEPEST {
            circuit(sheet, row, rail, &columns, y)
        } else {
            further(sheet, row, rail, y, depth)
        };
        if source {
            sheet.arrows.push(Point::new(rail + 5.0, at));
        }
        first.get_or_insert(at);
        last = at;
    }
    if source && rows.len() > 1 {
        let from = first.unwrap_or(last);
        sheet.stroke(Point::new(rail, from), Point::new(rail, last), false);
    }
    if source {
        (!rows.is_empty()).then_some(last)
    } else {
        first
    }
}

/// What the rows of single circuits need; a row with a rail of its own needs none of it.
fn columns(rows: &[Row], depth: usize) -> Columns {
    let ends = |row: &&Row| row.branches.is_empty() || depth >= DEEPEST;
    let single = || rows.iter().filter(ends);
    let devices = single().map(|row| row.through.iter().copied().map(device_width).sum());
    let wires = single().map(|row| Voice::Note.width(row.wire) + 14.0);
    Columns {
        devices: devices.fold(12.0, f64::max),
        wire: wires.fold(24.0, f64::max).min(WIDEST_WIRE),
    }
}
