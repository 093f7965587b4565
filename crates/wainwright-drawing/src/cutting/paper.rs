//! Cutting plans on paper: large marks, boxes to tick, everything in the order of work. Frame and title block are those
//! of any sheet of paper.

use super::bars::{scale, write_bar};
use super::data::{Bar, CutSheet};
use super::sheet::cut_sheet;
use crate::geometry::{Point, Rect};
use crate::picture::{Pen, Picture, Voice};
use crate::sheet::{Sheet, room_size};
use crate::text::{fit, text_width};

/// Letters of marks, and of lengths and sentences [px].
const MARK: f64 = 17.0;
const TEXT: f64 = 14.0;
/// Height of a row of boxes to tick [px].
const ROW: f64 = 26.0;
/// Side of a box to tick [px].
const BOX: f64 = 14.0;
/// Height of a board [px].
const TALL: f64 = 40.0;
/// Height of a cut in words [px]: mostly two lines.
const LINES: f64 = 2.6 * TEXT + 6.0;
/// Between two blocks [px].
const APART: f64 = 14.0;
/// Share of a page that the drawing of a sheet may take.
const DRAWING: f64 = 0.32;
/// So many cuts at least follow a drawing on its page.
const WITH_IT: usize = 6;
/// Bold letters are wider by this factor.
const BOLD: f64 = 1.07;
/// Most pages of one job.
const MOST: usize = 200;

/// What is being filled: finished pages, and the one at hand.
struct Pages {
    room: (f64, f64),
    done: Vec<Picture>,
    pen: Pen,
    y: f64,
}

impl Pages {
    fn new(sheet: &Sheet) -> Self {
        Self {
            room: room_size(sheet),
            done: Vec::new(),
            pen: Pen::default(),
            y: 0.0,
        }
    }

    /// Turns the page when there is no room for so much.
    fn need(&mut self, height: f64) {
        if self.y > 0.0 && self.y + height > self.room.1 {
            self.turn();
        }
    }

    fn turn(&mut self) {
        let full = std::mem::take(&mut self.pen);
        if self.done.len() < MOST {
            self.done.push(full.picture(self.room.0, self.room.1));
        }
        self.y = 0.0;
    }

    fn finish(mut self) -> Vec<Picture> {
        if self.y > 0.0 {
            self.turn();
        }
        self.done
    }

    /// A text of this size, at most so wide; returns its width.
    fn text(&mut self, class: &str, size: f64, at: Point, most: f64, text: &str) -> f64 {
        let text = fit(text, size * BOLD, most);
        let wide = text_width(&text, size) * BOLD;
        if wide > most || text.is_empty() {
            return 0.0;
        }
        let rect = Rect::new(at.x, at.y, wide, size * 1.25);
        self.pen.text_from(class, size, rect, &text);
        wide
    }

    fn tick(&mut self, x: f64, y: f64) {
        self.pen.out.rect("tick", Rect::new(x, y, BOX, BOX), 2.0);
    }

    fn notes(&mut self, notes: &[String]) {
        for note in notes {
            for line in Voice::Name.wrap(note, self.room.0 - 8.0) {
                self.need(Voice::Name.height() + 3.0);
                let at = Point::new(0.0, self.y);
                self.pen.text(Voice::Name, at, &line);
                self.y += Voice::Name.height() + 3.0;
            }
        }
        if !notes.is_empty() {
            self.y += APART / 2.0;
        }
    }

    /// A box to tick, a number, a sentence.
    fn step(&mut self, number: usize, words: &str) {
        let indent = BOX + 42.0;
        let lines = wrapped(words, self.room.0 - indent - 4.0);
        self.need(lines.len() as f64 * TEXT * 1.3 + 6.0);
        let y = self.y;
        self.tick(1.0, y + 3.0);
        let at = Point::new(BOX + 8.0, y + 1.0);
        self.text("t-bold", TEXT, at, 32.0, &number.to_string());
        for line in &lines {
            let at = Point::new(indent, self.y + 1.0);
            self.text("t-plain", TEXT, at, self.room.0 - indent, line);
            self.y += TEXT * 1.3;
        }
        self.y += 6.0;
    }

    /// Rows of box, mark and size, as many beside each other as have room.
    fn marks(&mut self, all: &[(&str, &str)]) {
        let width = |mark: &str, text: &str| {
            BOX + 8.0 + text_width(mark, MARK) * BOLD + 8.0 + text_width(text, TEXT) * BOLD + 22.0
        };
        let widest = all
            .iter()
            .map(|(mark, text)| width(mark, text))
            .fold(60.0, f64::max);
        let columns = ((self.room.0 / widest).floor() as usize).max(1);
        let cell = self.room.0 / columns as f64;
        for row in all.chunks(columns) {
            self.need(ROW);
            for (column, (mark, text)) in row.iter().enumerate() {
                let x = column as f64 * cell;
                self.tick(x + 1.0, self.y + 4.0);
                let at = Point::new(x + BOX + 8.0, self.y + 1.0);
                let left = cell - BOX - 10.0;
                let wide = self.text("t-bold", MARK, at, left, mark);
                let at = Point::new(at.x + wide + 8.0, self.y + 3.0);
                self.text("t-plain", TEXT, at, left - wide - 10.0, text);
            }
            self.y += ROW;
        }
    }
}

/// Pages of boards, each with its pieces in cutting order.
pub fn bar_pages(sheet: &Sheet, bars: &[Bar], notes: &[String]) -> Vec<Picture> {
    let mut pages = Pages::new(sheet);
    pages.notes(notes);
    let px_per_m = scale(bars, pages.room.0 - 2.0);
    for bar in bars {
        // A board begins on a page that has room for its first row.
        pages.need(ROW + TALL + 6.0 + ROW);
        pages.tick(1.0, pages.y + 3.0);
        let at = Point::new(BOX + 8.0, pages.y + 1.0);
        let room = pages.room.0 - BOX - 10.0;
        let wide = pages.text("t-bold", TEXT, at, room, &bar.head);
        let at = Point::new(at.x + wide + 14.0, pages.y + 1.0);
        pages.text("t-plain", TEXT, at, room - wide - 16.0, &bar.note);
        pages.y += ROW - 2.0;
        write_bar(
            &mut pages.pen,
            bar,
            Point::new(1.0, pages.y),
            TALL,
            px_per_m,
        );
        pages.y += TALL + 6.0;
        let marks: Vec<(&str, &str)> = bar
            .pieces
            .iter()
            .map(|piece| (piece.mark.as_str(), piece.text.as_str()))
            .collect();
        pages.marks(&marks);
        pages.y += APART;
    }
    pages.finish()
}

/// Pages of sheets: each with its drawing, then every cut in order, then the pieces to tick.
pub fn sheet_pages(sheet: &Sheet, cuts: &[CutSheet], notes: &[String]) -> Vec<Picture> {
    let mut pages = Pages::new(sheet);
    pages.notes(notes);
    for cut in cuts {
        let drawing = cut_sheet(cut, pages.room.0, pages.room.1 * DRAWING);
        let first = cut.cuts.len().min(WITH_IT) as f64 * LINES;
        pages.need(drawing.height + first + ROW);
        let at = Point::new(0.0, pages.y);
        pages.pen.place(&drawing, at, 1.0);
        pages.y += drawing.height + 4.0;
        for (index, one) in cut.cuts.iter().enumerate() {
            pages.step(index + 1, &one.words);
        }
        pages.y += 4.0;
        let marks: Vec<(&str, &str)> = cut
            .pieces
            .iter()
            .map(|piece| (piece.mark.as_str(), piece.text.as_str()))
            .collect();
        pages.marks(&marks);
        pages.y += APART;
    }
    pages.finish()
}

/// A sentence in lines that are at most so wide.
fn wrapped(text: &str, width: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match lines.last_mut() {
            Some(line) if text_width(&format!("{line} {word}"), TEXT) * BOLD <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}
