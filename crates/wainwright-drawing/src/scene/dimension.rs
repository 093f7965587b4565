//! Dimensions in rows below and beside the drawing, the shorter ones nearer.

use super::data::{Dimension, Scene};
use super::frame::Frame;
use crate::board::Board;
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Voice};

/// From the drawing to the first row [px].
const FIRST: f64 = 14.0;
/// From row to row [px].
const ROW: f64 = 18.0;
/// Between what is measured and the extension line [px].
const GAP: f64 = 3.0;
/// Half length of the stroke at the ends of a dimension line [px].
const STROKE: f64 = 4.0;
/// Room kept at either side of a dimension in its row [px].
const TOUCH: f64 = 5.0;

/// One dimension in its row. Places are along the row.
#[derive(Debug, Clone, PartialEq)]
struct Measure {
    text: String,
    /// Ends, and where the extension lines start.
    ends: [(f64, f64); 2],
    /// Middle of the text, and where else it could be.
    text_at: f64,
    or_at: Option<f64>,
    /// The text stands between the ends.
    between: bool,
    row: usize,
}

/// All dimensions of a drawing in rows.
#[derive(Debug, Default)]
pub(super) struct Rows {
    level: Vec<Measure>,
    upright: Vec<Measure>,
}

impl Rows {
    /// Puts the dimensions the view shows in rows. Texts stay between `low` and `high`
    /// along the row where they can: x for level rows, y for upright ones.
    pub fn new(scene: &Scene, frame: &Frame, across: (f64, f64), down: (f64, f64)) -> Self {
        let known = |d: &&Dimension| d.from.known() && d.to.known();
        let of = |level: bool| {
            let axis = if level {
                frame.right.axis
            } else {
                frame.down.axis
            };
            let limits = if level { across } else { down };
            let wanted = scene.dimensions.iter().filter(known);
            let wanted = wanted.filter(|dimension| dimension.axis == axis);
            packed(wanted.map(|d| measure(d, frame, level, limits)).collect())
        };
        Self {
            level: of(true),
            upright: of(false),
        }
    }

    /// Height of the level rows below the drawing [px].
    pub fn height(&self) -> f64 {
        depth(&self.level)
    }

    /// Width of the upright rows beside the drawing [px].
    pub fn width(&self) -> f64 {
        depth(&self.upright)
    }

    /// Keeps other texts off the rows and their lines.
    pub fn claim(&self, board: &mut Board, edge: Point) {
        for measure in &self.level {
            let y = row_at(edge.y, measure.row);
            board.text(text_box(measure, y, true));
            for (at, start) in measure.ends {
                board.line(Point::new(at, start + GAP), Point::new(at, y));
            }
        }
        for measure in &self.upright {
            let x = row_at(edge.x, measure.row);
            board.text(text_box(measure, x, false));
            for (at, start) in measure.ends {
                board.line(Point::new(start + GAP, at), Point::new(x, at));
            }
        }
    }

    /// Draws the thin lines from what is measured to the rows.
    pub fn draw_extensions(&self, pen: &mut Pen, edge: Point) {
        for measure in &self.level {
            let y = row_at(edge.y, measure.row) + STROKE + 1.0;
            for (at, start) in measure.ends {
                pen.out
                    .line("extension", Point::new(at, start + GAP), Point::new(at, y));
            }
        }
        for measure in &self.upright {
            let x = row_at(edge.x, measure.row) + STROKE + 1.0;
            for (at, start) in measure.ends {
                pen.out
                    .line("extension", Point::new(start + GAP, at), Point::new(x, at));
            }
        }
    }

    /// Draws the rows; `edge` is the lower right corner of the drawing.
    pub fn draw(&self, pen: &mut Pen, edge: Point) {
        for (measures, level) in [(&self.level, true), (&self.upright, false)] {
            for measure in measures {
                let row = row_at(if level { edge.y } else { edge.x }, measure.row);
                draw_one(pen, measure, row, level);
            }
        }
    }
}

fn row_at(edge: f64, row: usize) -> f64 {
    edge + FIRST + row as f64 * ROW
}

fn depth(measures: &[Measure]) -> f64 {
    match measures.iter().map(|measure| measure.row).max() {
        Some(last) => row_at(0.0, last) + ROW / 2.0 + 2.0,
        None => 0.0,
    }
}

fn text_box(measure: &Measure, row: f64, level: bool) -> Rect {
    let (width, height) = (Voice::Note.width(&measure.text), Voice::Note.height());
    let (along, off) = (measure.text_at - width / 2.0, row - height / 2.0);
    match level {
        true => Rect::new(along, off, width, height),
        false => Rect::new(off, along, height, width),
    }
}

fn measure(dimension: &Dimension, frame: &Frame, level: bool, limits: (f64, f64)) -> Measure {
    let along = |p: Point| if level { (p.x, p.y) } else { (p.y, p.x) };
    let (a, b) = (
        along(frame.point(dimension.from)),
        along(frame.point(dimension.to)),
    );
    let ends = if a.0 <= b.0 { [a, b] } else { [b, a] };
    let width = Voice::Note.width(&dimension.text);
    let between = width + 10.0 <= ends[1].0 - ends[0].0;
    let beside = width / 2.0 + 7.0;
    let (before, after) = (ends[0].0 - beside, ends[1].0 + beside);
    let fits = |at: &f64| at - width / 2.0 >= limits.0 && at + width / 2.0 <= limits.1;
    let mut places = [before, after].into_iter().filter(fits);
    let (text_at, or_at) = match between {
        true => ((ends[0].0 + ends[1].0) / 2.0, None),
        false => (
            places.next().unwrap_or(before.max(limits.0 + width / 2.0)),
            places.next(),
        ),
    };
    Measure {
        text: dimension.text.clone(),
        ends,
        text_at,
        or_at,
        between,
        row: 0,
    }
}

/// The first row in which each finds room, short ones first.
fn packed(mut measures: Vec<Measure>) -> Vec<Measure> {
    let length = |m: &Measure| m.ends[1].0 - m.ends[0].0;
    measures.sort_by(|a, b| {
        length(a)
            .total_cmp(&length(b))
            .then(a.ends[0].0.total_cmp(&b.ends[0].0))
    });
    measures.dedup_by(|a, b| {
        a.text == b.text && a.ends[0].0 == b.ends[0].0 && a.ends[1].0 == b.ends[1].0
    });
    let mut rows: Vec<Vec<(f64, f64)>> = Vec::new();
    for measure in &mut measures {
        let first = free_row(&rows, taken(measure, measure.text_at));
        let other = measure
            .or_at
            .map(|at| (free_row(&rows, taken(measure, at)), at));
        measure.row = first;
        if let Some((row, at)) = other
            && row < first
        {
            (measure.row, measure.text_at) = (row, at);
        }
        if measure.row == rows.len() {
            rows.push(Vec::new());
        }
        if let Some(row) = rows.get_mut(measure.row) {
            row.push(taken(measure, measure.text_at));
        }
    }
    measures
}

/// What a dimension takes of its row when its text is at `text_at`.
fn taken(measure: &Measure, text_at: f64) -> (f64, f64) {
    let half = Voice::Note.width(&measure.text) / 2.0 + 2.0 * TOUCH;
    let low = (measure.ends[0].0 - TOUCH).min(text_at - half);
    let high = (measure.ends[1].0 + TOUCH).max(text_at + half);
    (low, high)
}

fn free_row(rows: &[Vec<(f64, f64)>], (low, high): (f64, f64)) -> usize {
    // Ends may touch: a chain of dimensions stays in one row.
    let clear = |(a, b): &(f64, f64)| low + 2.0 * TOUCH >= *b || high - 2.0 * TOUCH <= *a;
    let row = rows.iter().position(|row| row.iter().all(clear));
    row.unwrap_or(rows.len())
}

fn draw_one(pen: &mut Pen, measure: &Measure, row: f64, level: bool) {
    let at = |along: f64, off: f64| match level {
        true => Point::new(along, off),
        false => Point::new(off, along),
    };
    let [(low, _), (high, _)] = measure.ends;
    for (end, _) in measure.ends {
        pen.out.line(
            "measure",
            Point::new(at(end, row).x - STROKE, at(end, row).y + STROKE),
            Point::new(at(end, row).x + STROKE, at(end, row).y - STROKE),
        );
    }
    let rect = text_box(measure, row, level);
    if measure.between {
        let half = Voice::Note.width(&measure.text) / 2.0 + 3.0;
        pen.out
            .line("measure", at(low, row), at(measure.text_at - half, row));
        pen.out
            .line("measure", at(measure.text_at + half, row), at(high, row));
    } else {
        pen.out.line("measure", at(low, row), at(high, row));
    }
    match level {
        true => pen.text_in(Voice::Note, rect, Align::Middle, &measure.text),
        false => pen.text_upright(Voice::Note, rect, &measure.text),
    }
}
