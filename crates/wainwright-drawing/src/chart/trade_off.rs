//! Two numbers against each other: a cell for every combination, with what comes of it in words, so that colour is
//! never the only difference. Not here: which combination is good.

use crate::diagram::Tone;
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Picture, Voice};

const ROW: f64 = 54.0;
/// A cell is never narrower [px]: its texts must have room.
const LEAST_CELL: f64 = 44.0;
const MOST_CELL: f64 = 116.0;

/// Cells by two numbers.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct TradeOff {
    /// What the columns are, in a few words.
    pub across: String,
    /// What the rows are, in a few words.
    pub upwards: String,
    /// Names of the columns, left to right.
    pub columns: Vec<String>,
    /// Names of the rows, lowest first.
    pub rows: Vec<String>,
    /// The cells; those outside of columns and rows are left out.
    pub cells: Vec<Cell>,
}

/// One combination.
#[derive(Debug, Clone, PartialEq)]
pub struct Cell {
    /// Which column.
    pub column: usize,
    /// Which row.
    pub row: usize,
    /// Its figure.
    pub figure: String,
    /// How it fares, in one short word.
    pub word: String,
    /// A mark below, such as `now`; may be empty.
    pub mark: String,
    /// Colour of it.
    pub tone: Tone,
    /// One of those that are framed.
    pub best: bool,
    /// What is there.
    pub now: bool,
    /// Read aloud, and shown under the pointer.
    pub words: String,
}

/// Draws the cells; wider than asked when there are many columns.
pub fn trade_off(chart: &TradeOff, width: f64) -> Picture {
    let high = Voice::Note.height();
    let names = chart.rows.iter().map(|name| Voice::Note.width(name));
    let left = names.fold(16.0, f64::max) + 8.0 + high + 4.0;
    let columns = chart.columns.len().max(1) as f64;
    let cell = ((width - left - 4.0) / columns).clamp(LEAST_CELL, MOST_CELL);
    let whole = (left + cell * columns + 4.0).max(left + Voice::Note.width(&chart.across) + 4.0);
    let bottom = 4.0 + ROW * chart.rows.len() as f64;
    let mut pen = Pen::default();
    for (index, name) in chart.rows.iter().enumerate() {
        let y = bottom - ROW * (index as f64 + 1.0);
        let room = Rect::new(high + 4.0, y, left - high - 10.0, ROW);
        pen.text_in(Voice::Note, room, Align::End, name);
    }
    let side = Rect::new(0.0, 4.0, high, bottom - 4.0);
    let words = Voice::Note.fit(&chart.upwards, side.height);
    pen.text_upright(Voice::Note, side, &words);
    for (index, name) in chart.columns.iter().enumerate() {
        let room = Rect::new(left + cell * index as f64, bottom + 3.0, cell, high);
        pen.text_in(
            Voice::Note,
            room,
            Align::Middle,
            &Voice::Note.fit(name, cell - 2.0),
        );
    }
    let foot = Rect::new(left, bottom + high + 5.0, whole - left - 4.0, high);
    pen.text_in(Voice::Note, foot, Align::Start, &chart.across);
    let mut cells: Vec<&Cell> = chart.cells.iter().collect();
    // Frames lie over their neighbours.
    cells.sort_by_key(|one| (one.best, one.now));
    for one in cells
        .into_iter()
        .filter(|one| one.column < chart.columns.len() && one.row < chart.rows.len())
    {
        let at = Point::new(
            left + cell * one.column as f64,
            bottom - ROW * (one.row as f64 + 1.0),
        );
        draw(
            &mut pen,
            one,
            Rect::new(at.x + 1.5, at.y + 1.5, cell - 3.0, ROW - 3.0),
        );
    }
    pen.picture(whole, foot.bottom() + 4.0)
}

fn draw(pen: &mut Pen, cell: &Cell, rect: Rect) {
    let mut class = format!("cell {}", cell.tone.class());
    for (on, word) in [(cell.best, " best"), (cell.now, " now")] {
        if on {
            class.push_str(word);
        }
    }
    pen.out.open("g", &[("class", &class)]);
    pen.out.text("title", &[], &cell.words);
    pen.out.rect("body", rect, 4.0);
    let line = rect.height / 3.0;
    let lines = [
        (Voice::Key, &cell.figure),
        (Voice::Note, &cell.word),
        (Voice::Key, &cell.mark),
    ];
    for (index, (voice, text)) in lines.into_iter().enumerate() {
        let room = Rect::new(
            rect.x,
            rect.y + 1.0 + line * index as f64,
            rect.width,
            line - 1.0,
        );
        pen.text_in(voice, room, Align::Middle, &voice.fit(text, rect.width));
    }
    pen.out.close();
}
