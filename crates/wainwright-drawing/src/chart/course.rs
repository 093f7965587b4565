//! How something goes over days, hour by hour: the middle of many runs as a line, the band that holds most of them as
//! an area, nights shaded, and lanes below for what happens in which hours. Not here: figures and their words.

use super::plot::{LEAST_WIDTH, Mark, Plot, widest};
use crate::diagram::Tone;
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Picture, Voice};
use crate::svg::writer::number;
use std::fmt::Write as _;

const TOP: f64 = 10.0;
const HEIGHT: f64 = 170.0;
/// Height of a lane, and of the row of days [px].
const LANE: f64 = 16.0;

/// A course of many runs over hours.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Course {
    /// Lowest and highest value of the scale.
    pub span: (f64, f64),
    /// Round values, with their texts.
    pub marks: Vec<Mark>,
    /// One for each hour: the values below which a tenth, a half and nine tenths of the runs are.
    pub bands: Vec<[f64; 3]>,
    /// Lines across, such as where something is empty.
    pub limits: Vec<Mark>,
    /// Hours in which it is night; as many as hours.
    pub night: Vec<bool>,
    /// Days in order: the number of its hours, and what it is called, the shortest name first.
    pub days: Vec<(usize, Vec<String>)>,
    /// What happens in which hours.
    pub lanes: Vec<Lane>,
    /// How it fares.
    pub tone: Option<Tone>,
}

/// What happens in some hours.
#[derive(Debug, Clone, PartialEq)]
pub struct Lane {
    /// What, in one short word.
    pub name: String,
    /// Class of its pattern: `driving`, `shore` or `tap`.
    pub class: &'static str,
    /// In which hours; as many as hours.
    pub on: Vec<bool>,
}

/// Draws the course; at least 300 px wide. Total: no hours give an empty field.
pub fn course(course: &Course, width: f64) -> Picture {
    let width = width.max(LEAST_WIDTH);
    let lanes: Vec<&Lane> = course
        .lanes
        .iter()
        .filter(|lane| lane.on.contains(&true))
        .collect();
    let names = lanes.iter().map(|lane| Voice::Note.width(&lane.name));
    let left = names.fold(widest(&course.marks), f64::max) + 8.0;
    let field = Rect::new(left, TOP, width - left - 8.0, HEIGHT);
    let plot = Plot::new(field, course.span.0, course.span.1);
    let mut pen = Pen::default();
    nights(&mut pen, course, field);
    plot.marks(&mut pen, &course.marks);
    let class = course.tone.map_or_else(|| "plain".into(), Tone::class);
    pen.out.open("g", &[("class", &format!("course {class}"))]);
    curve(&mut pen, course, &plot);
    pen.out.close();
    limits(&mut pen, course, &plot);
    days(&mut pen, course, field);
    plot.frame(&mut pen);
    let mut foot = field.bottom() + LANE + 4.0;
    for lane in lanes {
        draw_lane(&mut pen, lane, field, foot);
        foot += LANE + 2.0;
    }
    pen.picture(width, foot + 2.0)
}

/// Left edge of an hour; the one after the last is the right end.
fn x(field: Rect, hours: usize, hour: usize) -> f64 {
    field.x + field.width * hour.min(hours) as f64 / hours.max(1) as f64
}

/// Runs of hours in which something is on, as first and one past the last.
fn runs(on: &[bool]) -> Vec<(usize, usize)> {
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for (hour, _) in on.iter().enumerate().filter(|(_, on)| **on) {
        match runs.last_mut() {
            Some(run) if run.1 == hour => run.1 = hour + 1,
            _ => runs.push((hour, hour + 1)),
        }
    }
    runs
}

fn nights(pen: &mut Pen, course: &Course, field: Rect) {
    let hours = course.bands.len();
    for (from, to) in runs(&course.night) {
        let (left, right) = (x(field, hours, from), x(field, hours, to));
        let rect = Rect::new(left, field.y, right - left, field.height);
        pen.out.rect("night", rect, 0.0);
    }
}

fn curve(pen: &mut Pen, course: &Course, plot: &Plot) {
    let hours = course.bands.len();
    if hours == 0 {
        return;
    }
    // A value stands in the middle of its hour.
    let place = |hour: usize| (x(plot.field, hours, hour) + x(plot.field, hours, hour + 1)) / 2.0;
    let line = |which: usize| {
        let mut data = String::new();
        for (hour, band) in course.bands.iter().enumerate() {
            let start = if hour == 0 { 'M' } else { 'L' };
            let _ = write!(
                data,
                "{start}{} {}",
                number(place(hour)),
                number(plot.y(band[which]))
            );
        }
        data
    };
    let mut area = line(2);
    for (hour, band) in course.bands.iter().enumerate().rev() {
        let _ = write!(area, "L{} {}", number(place(hour)), number(plot.y(band[0])));
    }
    area.push('Z');
    pen.out.path("area", &area);
    pen.out.path("rim", &line(0));
    pen.out.path("rim", &line(2));
    pen.out.path("middle-line", &line(1));
}

fn limits(pen: &mut Pen, course: &Course, plot: &Plot) {
    let mut taken: Vec<Rect> = Vec::new();
    for limit in course.limits.iter().filter(|limit| plot.holds(limit.at)) {
        let (f, y) = (plot.field, plot.y(limit.at));
        pen.out
            .line("limit dashed", Point::new(f.x, y), Point::new(f.right(), y));
        let wide = Voice::Note.width(&limit.text).min(f.width);
        let high = Voice::Note.height();
        // Above the line, unless that leaves the field.
        let top = if y - high - 1.0 >= f.y {
            y - high - 1.0
        } else {
            y + 1.0
        };
        let rect = Rect::new(f.right() - wide - 2.0, top, wide, high);
        if !taken.iter().any(|other| other.overlaps(&rect)) {
            let text = Voice::Note.fit(&limit.text, wide);
            pen.text_in(Voice::Note, rect, Align::End, &text);
            taken.push(rect);
        }
    }
}

/// Midnights as lines, and the longest name of each day that has room.
fn days(pen: &mut Pen, course: &Course, field: Rect) {
    let hours = course.bands.len();
    let top = field.bottom() + 3.0;
    let (mut from, mut free) = (0, field.x);
    for (count, names) in &course.days {
        let to = from + count;
        let (left, right) = (x(field, hours, from), x(field, hours, to));
        if from > 0 {
            pen.out.line(
                "midnight",
                Point::new(left, field.y),
                Point::new(left, field.bottom() + 4.0),
            );
        }
        let start = left.max(free);
        let fits = |name: &&String| Voice::Note.width(name) + 4.0 <= right - start;
        if let Some(name) = names.iter().rev().find(fits) {
            let rect = Rect::new(start, top, right - start, Voice::Note.height());
            pen.text_in(Voice::Note, rect, Align::Middle, name);
            free = start;
        } else if let Some(name) = names
            .first()
            .filter(|name| start <= left && roomy(name, left, field))
        {
            // Where days are too narrow, every few of them is named.
            pen.text(Voice::Note, Point::new(left + 1.0, top), name);
            free = left + Voice::Note.width(name) + 6.0;
        }
        from = to;
    }
}

fn roomy(name: &str, left: f64, field: Rect) -> bool {
    left + Voice::Note.width(name) + 2.0 <= field.right() + 6.0
}

fn draw_lane(pen: &mut Pen, lane: &Lane, field: Rect, top: f64) {
    let hours = lane.on.len();
    let name = Rect::new(0.0, top, field.x - 6.0, LANE - 2.0);
    pen.text_in(Voice::Note, name, Align::End, &lane.name);
    pen.out.rect(
        "lane-bed",
        Rect::new(field.x, top, field.width, LANE - 3.0),
        2.0,
    );
    for (from, to) in runs(&lane.on) {
        let (left, right) = (x(field, hours, from), x(field, hours, to));
        let rect = Rect::new(left, top, (right - left).max(2.0), LANE - 3.0);
        pen.out.rect(&format!("lane {}", lane.class), rect, 2.0);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn runs_of_hours_are_joined() {
        assert_eq!(runs(&[true, true, false, true]), vec![(0, 2), (3, 4)]);
        assert_eq!(runs(&[]), vec![]);
    }

    #[test]
    fn the_line_goes_through_the_middle_of_each_hour() {
        let field = Rect::new(40.0, 10.0, 240.0, 100.0);
        assert_eq!(
            (x(field, 24, 0), x(field, 24, 12), x(field, 24, 99)),
            (40.0, 160.0, 280.0)
        );
    }
}
