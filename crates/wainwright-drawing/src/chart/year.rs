//! Twelve months side by side: a column each, from a value to a value, with a mark in it and a text over it; one month
//! may be the one it is about. Not here: figures and their words.

use super::plot::{LEAST_WIDTH, Mark, Plot, widest};
use crate::diagram::Tone;
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Picture, Voice};

const HEIGHT: f64 = 130.0;
const NAMES: [[&str; 2]; 12] = [
    ["J", "Jan"],
    ["F", "Feb"],
    ["M", "Mar"],
    ["A", "Apr"],
    ["M", "May"],
    ["J", "Jun"],
    ["J", "Jul"],
    ["A", "Aug"],
    ["S", "Sep"],
    ["O", "Oct"],
    ["N", "Nov"],
    ["D", "Dec"],
];

/// Twelve months.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Year {
    /// Lowest and highest value of the scale.
    pub span: (f64, f64),
    /// Round values, with their texts.
    pub marks: Vec<Mark>,
    /// January first; more than twelve are left out.
    pub months: Vec<MonthColumn>,
    /// A line across, such as what is accepted.
    pub limit: Option<Mark>,
    /// The month it is about, 1 is January.
    pub about: Option<u32>,
}

/// A month.
#[derive(Debug, Clone, PartialEq)]
pub struct MonthColumn {
    /// Where the column begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
    /// A mark inside it, such as the mean.
    pub mark: Option<f64>,
    /// What is written over it, in a few letters.
    pub text: String,
    /// How it fares.
    pub tone: Tone,
}

/// Draws twelve columns; at least 300 px wide.
pub fn year(year: &Year, width: f64) -> Picture {
    let width = width.max(LEAST_WIDTH);
    let high = Voice::Note.height();
    let left = widest(&year.marks) + 8.0;
    let limit_row = if year.limit.is_some() {
        high + 2.0
    } else {
        0.0
    };
    let field = Rect::new(left, limit_row + high + 2.0, width - left - 4.0, HEIGHT);
    let plot = Plot::new(field, year.span.0, year.span.1);
    let mut pen = Pen::default();
    plot.marks(&mut pen, &year.marks);
    let step = field.width / 12.0;
    for (index, month) in year.months.iter().take(12).enumerate() {
        let cell = Rect::new(field.x + step * index as f64, field.y, step, field.height);
        let about = year.about == Some(index as u32 + 1);
        column(&mut pen, month, &plot, cell);
        name(&mut pen, index, cell, about);
    }
    if let Some(limit) = &year.limit {
        let y = plot.y(limit.at);
        pen.out.line(
            "limit dashed",
            Point::new(field.x, y),
            Point::new(field.right(), y),
        );
        let text = Voice::Note.fit(&limit.text, field.width - 26.0);
        let wide = Voice::Note.width(&text);
        let from = field.right() - wide - 24.0;
        pen.out.line(
            "limit dashed",
            Point::new(from, high / 2.0),
            Point::new(from + 20.0, high / 2.0),
        );
        pen.text(Voice::Note, Point::new(from + 24.0, 0.0), &text);
    }
    plot.frame(&mut pen);
    pen.picture(width, field.bottom() + high + 6.0)
}

fn column(pen: &mut Pen, month: &MonthColumn, plot: &Plot, cell: Rect) {
    let (top, foot) = (
        plot.y(month.from.max(month.to)),
        plot.y(month.from.min(month.to)),
    );
    let air = (cell.width * 0.16).min(8.0);
    let bar = Rect::new(
        cell.x + air,
        top,
        cell.width - 2.0 * air,
        (foot - top).max(1.5),
    );
    pen.out
        .open("g", &[("class", &format!("column {}", month.tone.class()))]);
    pen.out.rect("fill", bar, 2.0);
    pen.out.close();
    if let Some(mark) = month.mark {
        let y = plot.y(mark);
        pen.out
            .line("limit", Point::new(bar.x, y), Point::new(bar.right(), y));
    }
    let high = Voice::Note.height();
    let text = Voice::Note.fit(&month.text, cell.width);
    let over = Rect::new(cell.x, top - high - 1.0, cell.width, high);
    pen.text_in(Voice::Note, over, Align::Middle, &text);
}

/// The month it is about has a frame, and its name is heavy.
fn name(pen: &mut Pen, index: usize, cell: Rect, about: bool) {
    let Some([short, long]) = NAMES.get(index) else {
        return;
    };
    let voice = if about { Voice::Name } else { Voice::Note };
    let fits = voice.width(long) <= cell.width;
    let text = voice.fit(if fits { long } else { short }, cell.width);
    let rect = Rect::new(
        cell.x,
        cell.bottom() + 4.0,
        cell.width,
        Voice::Note.height(),
    );
    if about {
        let frame = Rect::new(
            cell.x + 0.5,
            cell.y,
            cell.width - 1.0,
            cell.height + rect.height + 5.0,
        );
        pen.out.rect("about", frame, 3.0);
    }
    pen.text_in(voice, rect, Align::Middle, &text);
}
