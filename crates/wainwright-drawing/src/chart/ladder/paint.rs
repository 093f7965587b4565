//! The shapes and texts of a ladder. Not here: how the sheet is shared out.

use super::settle::{Wish, settle};
use super::{AIR, EDGE, Frame, LANE, Label, Ladder, Plot};
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Voice};

/// How far a limit reaches over a scale with its values in it [px].
const NOTCH: f64 = 8.0;

pub(super) fn lane_x(rail: f64, lane: usize) -> f64 {
    rail + LANE * (lane as f64 + 0.5) + 1.0
}

/// The scale with its round values and the stretches that must not be entered.
pub(super) fn rail(pen: &mut Pen, ladder: &Ladder, plot: &Plot, inside: bool) {
    let field = plot.field;
    pen.out.rect("track", field, 3.0);
    for (from, to) in &ladder.zones {
        let (top, foot) = (plot.y(from.max(*to)), plot.y(from.min(*to)));
        let zone = Rect::new(field.x, top, field.width, foot - top);
        pen.out.rect("no-go", zone, 0.0);
    }
    let high = Voice::Note.height();
    let mut last = f64::INFINITY;
    for mark in ladder.marks.iter().filter(|mark| plot.holds(mark.at)) {
        let (y, top) = (plot.y(mark.at), plot.y(mark.at) - high / 2.0);
        let whole = top >= 0.0 && top + high <= field.bottom() + EDGE;
        let (room, align) = if inside {
            (Rect::new(field.x, top, field.width, high), Align::Middle)
        } else {
            (Rect::new(0.0, top, field.x - 6.0, high), Align::End)
        };
        if !inside {
            let from = Point::new(field.x - 4.0, y);
            pen.out.line("axis", from, Point::new(field.right(), y));
        }
        if whole && top + high <= last {
            pen.text_in(Voice::Note, room, align, &mark.text);
            last = top;
        }
    }
}

/// Texts with their leaders, on one side of the scale.
pub(super) fn labels(
    pen: &mut Pen,
    mut side: Vec<Label>,
    plot: &Plot,
    frame: &Frame,
    leftwards: bool,
) {
    side.sort_by(|one, other| other.at.total_cmp(&one.at));
    let wish = |label: &Label| Wish {
        at: plot.y(label.at),
        high: label.high(),
    };
    let wishes: Vec<Wish> = side.iter().map(wish).collect();
    let tops = settle(&wishes, plot.field.y, plot.field.bottom());
    let (edge, end) = if leftwards {
        (frame.column, frame.column + 3.0)
    } else {
        (frame.right, frame.right - 3.0)
    };
    let (high, align) = (
        Voice::Note.height(),
        if leftwards { Align::End } else { Align::Start },
    );
    for (label, top) in side.iter().zip(tops) {
        let middle = top + (label.high() - AIR) / 2.0;
        pen.leader(
            Point::new(label.from, plot.y(label.at)),
            Point::new(end, middle),
        );
        let class = if label.limit {
            "rung limit-text"
        } else {
            "rung"
        };
        pen.out.open("g", &[("class", class)]);
        for (number, line) in label.lines.iter().enumerate() {
            let wide = Voice::Note.width(line);
            let x = if leftwards { edge - wide } else { edge };
            let room = Rect::new(x, top + high * number as f64, wide, high);
            pen.text_in(Voice::Note, room, align, line);
        }
        pen.out.close();
    }
}

/// Limits on the scale, settings in their lanes beside it.
pub(super) fn shapes(pen: &mut Pen, ladder: &Ladder, plot: &Plot, lanes: &[usize], inside: bool) {
    let field = plot.field;
    let reach = if inside {
        field.x + NOTCH
    } else {
        field.right() + 2.0
    };
    for limit in ladder.limits.iter().filter(|limit| limit.at.is_finite()) {
        let y = plot.y(limit.at);
        let class = if limit.hard { "limit" } else { "limit thin" };
        pen.out
            .line(class, Point::new(field.x - 2.0, y), Point::new(reach, y));
    }
    for (setting, lane) in ladder.settings.iter().zip(lanes) {
        let x = lane_x(field.right(), *lane);
        let at = |value: f64| Point::new(x, plot.y(value));
        if let Some((now, advised)) = setting.ends() {
            pen.out.line("shift", at(now), at(advised));
        }
        if let Some(now) = setting.now.filter(|now| now.is_finite()) {
            let class = if setting.agrees { "agrees" } else { "set-now" };
            pen.out.circle(class, at(now), 4.2);
        }
        let apart = |advised: &f64| advised.is_finite() && !setting.agrees;
        if let Some(advised) = setting.advised.filter(apart) {
            let p = at(advised);
            let diamond = format!("M{:.1} {:.1}l5 5l-5 5l-5 -5z", p.x, p.y - 5.0);
            pen.out.path("advised", &diamond);
        }
    }
}
