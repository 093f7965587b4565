//! A few curves over hours in one field, each with its name at its end, and limits across. Not here: figures and their
//! words; the band of many runs (`course`).

use super::plot::{LEAST_WIDTH, Mark, Plot, widest};
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Picture, Voice};
use crate::svg::writer::number;
use std::fmt::Write as _;

const TOP: f64 = 10.0;
const HEIGHT: f64 = 180.0;
/// Looks there are; a further curve looks like the first.
const LOOKS: usize = 4;

/// Curves over hours.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Curves {
    /// Lowest and highest value of the scale.
    pub span: (f64, f64),
    /// Round values, with their texts.
    pub marks: Vec<Mark>,
    /// Last hour of the field.
    pub hours: f64,
    /// Round hours, with their texts.
    pub hour_marks: Vec<Mark>,
    /// The curves: points as hour and value.
    pub curves: Vec<Vec<(f64, f64)>>,
    /// Lines across.
    pub limits: Vec<Mark>,
}

/// Draws the curves; at least 300 px wide. A curve that leaves the field at the top runs along its edge.
pub fn curves(chart: &Curves, width: f64) -> Picture {
    let width = width.max(LEAST_WIDTH);
    let high = Voice::Note.height();
    let left = widest(&chart.marks) + 8.0;
    let field = Rect::new(left, TOP, width - left - 8.0, HEIGHT);
    let plot = Plot::new(field, chart.span.0, chart.span.1);
    let last = if chart.hours.is_finite() && chart.hours > 0.0 {
        chart.hours
    } else {
        1.0
    };
    let x = |hour: f64| field.x + field.width * (hour / last).clamp(0.0, 1.0);
    let mut pen = Pen::default();
    plot.marks(&mut pen, &chart.marks);
    for (index, points) in chart.curves.iter().enumerate() {
        let mut data = String::new();
        let known = points
            .iter()
            .filter(|(hour, value)| hour.is_finite() && value.is_finite());
        for (number_of, (hour, value)) in known.enumerate() {
            let start = if number_of == 0 { 'M' } else { 'L' };
            let _ = write!(
                data,
                "{start}{} {}",
                number(x(*hour)),
                number(plot.y(*value))
            );
        }
        if !data.is_empty() {
            pen.out.path(&format!("one-of c{}", index % LOOKS), &data);
        }
    }
    for limit in chart.limits.iter().filter(|limit| plot.holds(limit.at)) {
        let y = plot.y(limit.at);
        let (from, to) = (Point::new(field.x, y), Point::new(field.right(), y));
        pen.out.line("limit dashed", from, to);
        let text = Voice::Note.fit(&limit.text, field.width);
        let rect = Rect::new(field.x, y - high - 1.0, field.width - 4.0, high);
        pen.out.open("g", &[("class", "on-field")]);
        pen.text_in(Voice::Note, rect, Align::End, &text);
        pen.out.close();
    }
    plot.frame(&mut pen);
    let mut free = field.x;
    for mark in &chart.hour_marks {
        let wide = Voice::Note.width(&mark.text);
        let start = (x(mark.at) - wide / 2.0)
            .max(field.x)
            .min(field.right() - wide);
        if start >= free {
            pen.text(
                Voice::Note,
                Point::new(start, field.bottom() + 4.0),
                &mark.text,
            );
            free = start + wide + 6.0;
        }
    }
    pen.picture(width, field.bottom() + high + 8.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Css, Style};

    #[test]
    fn a_curve_ends_where_its_last_value_is_and_never_leaves_the_field() {
        let chart = Curves {
            span: (0.0, 100.0),
            hours: 8.0,
            curves: vec![vec![(0.0, 0.0), (8.0, 1e9)], vec![(0.0, f64::NAN)]],
            ..Curves::default()
        };
        let text = curves(&chart, 400.0).svg(&Style {
            css: Css::OnPage,
            ..Style::default()
        });
        let (foot, top) = (number(TOP + HEIGHT), number(TOP));
        assert!(text.contains(&format!("M28 {foot}L392 {top}")), "{text}");
        assert_eq!(text.matches("one-of").count(), 1);
    }
}
