//! Below the drawing: where the front is, how long a metre is, what the numbers mean.

use super::frame::Way;
use super::labels::List;
use super::measure::Axis;
use super::options::Options;
use super::stage::{LIST_WIDTH, Stage};
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Voice};
use crate::text::fit;

/// Length of an arrow of the compass [px].
const ARROW: f64 = 15.0;
/// Height of a line of the list [px].
const LINE: f64 = 18.0;
/// Width of the number in front of a name in the list [px].
const NUMBER: f64 = 24.0;
/// Names up to this count stand below the drawing.
const FEW: usize = 8;
/// Edge around the sheet [px].
const EDGE: f64 = 8.0;

/// Draws compass and scale bar from `top` on. Returns where the next can start.
pub(super) fn draw(pen: &mut Pen, stage: &Stage, options: &Options, top: f64) -> f64 {
    let left = (stage.content.x - stage.rim).max(0.0) + EDGE;
    let right = compass(pen, stage, options, Point::new(left, top));
    scale_bar(pen, stage, options, Point::new(right + 24.0, top));
    top + 2.0 * ARROW + 2.0 * Voice::Note.height() + 6.0
}

/// Two arrows with their names; returns the right end.
fn compass(pen: &mut Pen, stage: &Stage, options: &Options, corner: Point) -> f64 {
    let frame = &stage.frame;
    let named = |way: Way| match way.axis {
        Axis::Along => (&options.words.front, -way.sign),
        Axis::Across => (&options.words.left, -way.sign),
        Axis::Up => (&options.words.up, way.sign),
    };
    let (level, level_sign) = named(frame.right);
    let (upright, upright_sign) = named(frame.down);
    let height = Voice::Note.height();
    let (level_width, upright_width) = (Voice::Note.width(level), Voice::Note.width(upright));
    // The level arrow and its name lie on one side of the crossing, the upright name is centred on it.
    let reach = ARROW + 4.0 + level_width;
    let half = upright_width / 2.0;
    let before = if level_sign < 0.0 {
        reach.max(half)
    } else {
        half.max(4.0)
    };
    let after = if level_sign > 0.0 {
        reach.max(half)
    } else {
        half.max(4.0)
    };
    let middle = Point::new(corner.x + before, corner.y + ARROW + height);
    arrow(pen, middle, (level_sign, 0.0));
    arrow(pen, middle, (0.0, upright_sign));
    pen.out.circle("solid", middle, 1.8);
    let x = match level_sign < 0.0 {
        true => middle.x - reach,
        false => middle.x + ARROW + 4.0,
    };
    let rect = Rect::new(x, middle.y - height / 2.0, level_width, height);
    pen.text_in(Voice::Note, rect, Align::Start, level);
    let y = match upright_sign < 0.0 {
        true => middle.y - ARROW - height,
        false => middle.y + ARROW,
    };
    let rect = Rect::new(middle.x - half, y, upright_width, height);
    pen.text_in(Voice::Note, rect, Align::Middle, upright);
    middle.x + after
}

fn arrow(pen: &mut Pen, from: Point, (x, y): (f64, f64)) {
    let at = |along: f64, off: f64| {
        Point::new(from.x + x * along - y * off, from.y + y * along + x * off)
    };
    let tip = at(ARROW, 0.0);
    pen.out.line("sym", from, tip);
    pen.out.line("sym", at(ARROW - 5.0, 3.5), tip);
    pen.out.line("sym", at(ARROW - 5.0, -3.5), tip);
}

fn scale_bar(pen: &mut Pen, stage: &Stage, options: &Options, at: Point) {
    let room = stage.width - at.x - EDGE;
    let length = |metres: f64| metres * stage.frame.units_per_m;
    let needs =
        |bar: &super::options::ScaleBar| length(bar.length_m) + 8.0 + Voice::Note.width(&bar.text);
    let fits = |bar: &&super::options::ScaleBar| {
        let drawn = length(bar.length_m);
        drawn >= 12.0 && drawn <= (stage.width / 3.0).max(60.0) && needs(bar) <= room
    };
    let bars = options.scale_bars.iter().filter(fits);
    let Some(bar) = bars.max_by(|a, b| a.length_m.total_cmp(&b.length_m)) else {
        return;
    };
    let (drawn, y) = (length(bar.length_m), at.y + ARROW + Voice::Note.height());
    pen.out
        .rect("bar", Rect::new(at.x, y - 3.0, drawn, 6.0), 0.0);
    for quarter in [0.0, 0.5] {
        let rect = Rect::new(at.x + drawn * quarter, y - 3.0, drawn / 4.0, 6.0);
        pen.out.rect("bar-full", rect, 0.0);
    }
    let height = Voice::Note.height();
    pen.text(
        Voice::Note,
        Point::new(at.x + drawn + 8.0, y - height / 2.0),
        &bar.text,
    );
}

/// Draws the list of names. Returns the lower right corner of what was drawn.
pub(super) fn list(
    pen: &mut Pen,
    stage: &Stage,
    list: &List,
    options: &Options,
    top: f64,
) -> Point {
    let names = lines(stage, list, options);
    if names.is_empty() {
        return Point::new(stage.width, top);
    }
    let tall = stage.content.height > stage.content.width;
    let beside = stage.room_beside && (tall || names.len() > FEW);
    let (left, width, top) = match beside {
        true => (stage.width + 10.0, LIST_WIDTH - 18.0, stage.content.y),
        false => (EDGE, stage.width - 2.0 * EDGE, top + 4.0),
    };
    let widest = names
        .iter()
        .map(|(_, name)| Voice::Note.width(name) + NUMBER + 12.0);
    let column = widest.fold(110.0, f64::max).min(width);
    let columns = if beside {
        1
    } else {
        ((width / column).floor() as usize).max(1)
    };
    let rows = names.len().div_ceil(columns);
    for (index, (number, name)) in names.iter().enumerate() {
        let x = left + (index / rows) as f64 * column;
        let y = top + (index % rows) as f64 * LINE;
        if !number.is_empty() {
            let rect = Rect::new(x, y, NUMBER - 7.0, LINE - 1.0);
            pen.out.rect("sign", rect, 8.0);
            pen.text_in(Voice::Key, rect, Align::Middle, number);
        }
        let name = fit(name, Voice::Note.size(), column - NUMBER - 6.0);
        let at = Point::new(x + NUMBER, y + (LINE - Voice::Note.height()) / 2.0);
        pen.text(Voice::Note, at, &name);
    }
    let right = if beside {
        stage.width + LIST_WIDTH
    } else {
        stage.width
    };
    Point::new(right, top + rows as f64 * LINE + EDGE)
}

fn lines(stage: &Stage, list: &List, options: &Options) -> Vec<(String, String)> {
    let numbered = list
        .numbered
        .iter()
        .map(|(number, name)| (number.to_string(), name.clone()));
    let unplaced = list
        .unplaced
        .iter()
        .map(|name| (String::new(), name.clone()));
    let elsewhere = &options.words.elsewhere;
    let far = stage
        .elsewhere
        .iter()
        .map(|name| (String::new(), format!("{elsewhere} {name}")));
    numbered.chain(unplaced).chain(far).collect()
}
