//! The field of a chart: from values to heights, round marks on the left, level lines. Not here: what is drawn in it.

use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Voice};

/// Least width of a chart [px]; below it texts would meet.
pub(super) const LEAST_WIDTH: f64 = 300.0;

/// A mark on the left edge of a chart, with its text as people read it.
#[derive(Debug, Clone, PartialEq)]
pub struct Mark {
    /// Where, in the unit of the chart.
    pub at: f64,
    /// What is written beside it.
    pub text: String,
}

impl Mark {
    /// A mark.
    pub fn new(at: f64, text: impl Into<String>) -> Self {
        Self {
            at,
            text: text.into(),
        }
    }
}

/// A field with a scale upwards.
#[derive(Debug, Clone, Copy)]
pub(super) struct Plot {
    /// The field on the sheet.
    pub field: Rect,
    low: f64,
    high: f64,
}

impl Plot {
    /// A field for values from `low` to `high`; a span without extent gets one.
    pub fn new(field: Rect, low: f64, high: f64) -> Self {
        let low = if low.is_finite() { low } else { 0.0 };
        let high = if high.is_finite() && high > low {
            high
        } else {
            low + 1.0
        };
        Self { field, low, high }
    }

    /// Height of a value on the sheet, never outside of the field.
    pub fn y(&self, value: f64) -> f64 {
        let value = if value.is_finite() { value } else { self.low };
        let share = (value - self.low) / (self.high - self.low);
        self.field.bottom() - share.clamp(0.0, 1.0) * self.field.height
    }

    /// Whether a value lies in the field.
    pub fn holds(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// Marks on the left with level lines; those that would meet their neighbour are left out.
    pub fn marks(&self, pen: &mut Pen, marks: &[Mark]) {
        let high = Voice::Note.height();
        let mut last = f64::INFINITY;
        for mark in marks.iter().filter(|mark| self.holds(mark.at)) {
            let y = self.y(mark.at);
            let (left, right) = (self.field.x, self.field.right());
            pen.out
                .line("grid", Point::new(left, y), Point::new(right, y));
            let top = (y - high / 2.0).max(0.0);
            if top + high <= last {
                let room = left - 6.0;
                let text = Voice::Note.fit(&mark.text, room);
                let rect = Rect::new(0.0, top, room, high);
                pen.text_in(Voice::Note, rect, Align::End, &text);
                last = top;
            }
        }
    }

    /// The line at the foot and at the left.
    pub fn frame(&self, pen: &mut Pen) {
        let f = self.field;
        let foot = Point::new(f.x, f.bottom());
        pen.out.line("axis", Point::new(f.x, f.y), foot);
        pen.out
            .line("axis", foot, Point::new(f.right(), f.bottom()));
    }
}

/// Width of the widest text of some marks [px].
pub(super) fn widest(marks: &[Mark]) -> f64 {
    let widths = marks.iter().map(|mark| Voice::Note.width(&mark.text));
    widths.fold(20.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn higher_values_are_higher_and_stay_in_the_field() {
        let plot = Plot::new(Rect::new(40.0, 10.0, 200.0, 100.0), 0.0, 4.0);
        assert_eq!((plot.y(0.0), plot.y(4.0), plot.y(1.0)), (110.0, 10.0, 85.0));
        assert_eq!((plot.y(-9.0), plot.y(99.0)), (110.0, 10.0));
        assert_eq!(plot.y(f64::NAN), 110.0);
    }

    #[test]
    fn a_span_without_extent_is_no_trouble() {
        let plot = Plot::new(Rect::new(0.0, 0.0, 10.0, 10.0), 3.0, 3.0);
        assert!(plot.y(3.0).is_finite());
        assert!(
            Plot::new(plot.field, f64::NAN, f64::INFINITY)
                .y(0.5)
                .is_finite()
        );
    }
}
