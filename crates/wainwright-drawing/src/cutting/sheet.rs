//! One sheet with its pieces, what is left over, and the cuts with their numbers.

use super::bars::hatch;
use super::data::{CutSheet, SheetCut};
use crate::board::grown;
use crate::geometry::{Point, Rect};
use crate::lining::Box2;
use crate::lining::numbers::{Places, Standing};
use crate::picture::{Align, Pen, Picture, Voice};

/// Free edge [px].
const EDGE: f64 = 11.0;
/// Room on the right for the upright size [px].
const RIGHT: f64 = 29.0;
/// Room below for the level size [px].
const BELOW: f64 = 29.0;
/// Thickness of the strip along a cut in which its number may stand [px].
const STRIP: f64 = 17.0;
/// Numbers of cuts may reach so far beyond the sheet, and beyond the ends of a short cut [px].
const BEYOND: f64 = 10.0;
/// From the sheet to its sizes [px].
const OFF: f64 = 12.0;
/// Width and height of a drawing [px].
const SIZES: (f64, f64) = (160.0, 4000.0);
/// Largest sheet that is drawn \[m\].
const LARGEST_M: f64 = 100.0;

/// From metres on the sheet to the drawing.
struct Scale {
    at: Rect,
    px_per_m: f64,
}

impl Scale {
    fn rect(&self, place: &Box2) -> Option<Rect> {
        if !place.known() {
            return None;
        }
        let left = (self.at.x + place.x_m * self.px_per_m).max(self.at.x);
        let right = (self.at.x + (place.x_m + place.width_m) * self.px_per_m).min(self.at.right());
        let bottom = (self.at.bottom() - place.y_m * self.px_per_m).min(self.at.bottom());
        let top = (self.at.bottom() - (place.y_m + place.height_m) * self.px_per_m).max(self.at.y);
        (right > left && bottom > top).then(|| Rect::new(left, top, right - left, bottom - top))
    }
}

/// Draws one sheet within this width and height [px]. Total and deterministic.
pub fn cut_sheet(sheet: &CutSheet, width: f64, height: f64) -> Picture {
    let mut pen = Pen::default();
    let limit = |value: f64| {
        if value.is_finite() {
            value.clamp(SIZES.0, SIZES.1)
        } else {
            SIZES.0
        }
    };
    let (width, height) = (limit(width), limit(height));
    let known = |m: f64| m > 0.0 && m <= LARGEST_M;
    if !(known(sheet.width_m) && known(sheet.height_m)) {
        return pen.picture(width, 2.0 * EDGE);
    }
    let head = Voice::Name.height() + BEYOND + 1.0;
    let room = (width - EDGE - RIGHT, height - EDGE - head - BELOW);
    let px_per_m = (room.0 / sheet.width_m).min(room.1 / sheet.height_m);
    let at = Rect::new(
        EDGE,
        EDGE + head,
        sheet.width_m * px_per_m,
        sheet.height_m * px_per_m,
    );
    let title = Voice::Name.fit(&sheet.head, width - 2.0 * EDGE);
    pen.text(Voice::Name, Point::new(EDGE, EDGE), &title);
    let scale = Scale { at, px_per_m };
    pen.out.open("g", &[("class", "sheet-row")]);
    pen.out.text("title", &[], &sheet.words);
    body(&mut pen, sheet, &scale);
    pen.out.close();
    sizes(&mut pen, sheet, &at);
    let used = (EDGE + Voice::Name.width(&title) + EDGE).max(at.right() + RIGHT);
    pen.picture(used, at.bottom() + BELOW)
}

fn body(pen: &mut Pen, sheet: &CutSheet, scale: &Scale) {
    pen.out.rect("saw-dust", scale.at, 0.0);
    let pieces: Vec<_> = sheet
        .pieces
        .iter()
        .filter_map(|piece| Some((piece, scale.rect(&piece.place)?)))
        .collect();
    for (_, rect) in &pieces {
        pen.out.rect("cut-piece", *rect, 0.0);
    }
    for rect in sheet.offcuts.iter().filter_map(|place| scale.rect(place)) {
        pen.out.rect("offcut", rect, 0.0);
        hatch(pen, rect);
    }
    pen.out.rect("bar-frame", scale.at, 0.0);
    let mut places = Places {
        area: grown(scale.at, BEYOND),
        taken: Vec::new(),
    };
    let cuts: Vec<(usize, Option<Standing>)> = sheet
        .cuts
        .iter()
        .enumerate()
        .filter_map(|(index, cut)| {
            let strip = strip(cut, sheet.kerf_m, scale)?;
            let (from, to) = ends(&strip, cut.upright);
            pen.out.line("saw-cut", from, to);
            let text = (index + 1).to_string();
            let inside = places.take(&text, strip, &[]);
            let standing = inside.or_else(|| places.take(&text, longer(strip, cut.upright), &[]));
            Some((index, standing))
        })
        .collect();
    for (index, standing) in &cuts {
        if let Some(standing) = standing {
            pen.out.rect("cut-number", standing.rect, 3.0);
            let text = (index + 1).to_string();
            pen.text_sized("t-bold in-cut", standing.size, standing.rect, false, &text);
        }
    }
    for (piece, rect) in &pieces {
        let Some(mark) = places.take(&piece.mark, *rect, &[]) else {
            continue;
        };
        if mark.ground {
            pen.out.rect("sign", mark.rect, 3.0);
        }
        pen.text_sized("t-bold in-piece", mark.size, mark.rect, false, &piece.mark);
        below(pen, &mut places, &mark, &piece.text, rect);
    }
}

/// The size of a piece below its mark, where there is room.
fn below(pen: &mut Pen, places: &mut Places, mark: &Standing, text: &str, body: &Rect) {
    let (wide, high) = (Voice::Note.width(text), Voice::Note.height());
    let middle = mark.rect.x + mark.rect.width / 2.0;
    let rect = Rect::new(middle - wide / 2.0, mark.rect.bottom() + 1.0, wide, high);
    let inside = crate::board::contains(body, &rect);
    if inside && !text.is_empty() && !places.taken.iter().any(|known| known.overlaps(&rect)) {
        pen.text_in(Voice::Note, rect, Align::Middle, text);
        places.taken.push(rect);
    }
}

/// The strip along a cut in which its number may stand.
fn strip(cut: &SheetCut, kerf_m: f64, scale: &Scale) -> Option<Rect> {
    if !(cut.setting_m.is_finite() && kerf_m.is_finite()) {
        return None;
    }
    let of = scale.rect(&cut.of)?;
    let off = (cut.setting_m + kerf_m.max(0.0) / 2.0) * scale.px_per_m;
    let rect = match cut.upright {
        true => Rect::new(of.x + off - STRIP / 2.0, of.y, STRIP, of.height),
        false => Rect::new(of.x, of.bottom() - off - STRIP / 2.0, of.width, STRIP),
    };
    let (middle_x, middle_y) = (rect.x + rect.width / 2.0, rect.y + rect.height / 2.0);
    let within = middle_x >= scale.at.x
        && middle_x <= scale.at.right()
        && middle_y >= scale.at.y
        && middle_y <= scale.at.bottom();
    within.then_some(rect)
}

/// A strip that reaches beyond the ends of its cut.
fn longer(strip: Rect, upright: bool) -> Rect {
    let Rect {
        x,
        y,
        width,
        height,
    } = strip;
    match upright {
        true => Rect::new(x, y - BEYOND, width, height + 2.0 * BEYOND),
        false => Rect::new(x - BEYOND, y, width + 2.0 * BEYOND, height),
    }
}

/// The cut itself: the middle of its strip.
fn ends(strip: &Rect, upright: bool) -> (Point, Point) {
    let (x, y) = (strip.x + strip.width / 2.0, strip.y + strip.height / 2.0);
    match upright {
        true => (Point::new(x, strip.y), Point::new(x, strip.bottom())),
        false => (Point::new(strip.x, y), Point::new(strip.right(), y)),
    }
}

/// Length and width of the sheet at its edges.
fn sizes(pen: &mut Pen, sheet: &CutSheet, at: &Rect) {
    let [level, upright] = &sheet.sizes;
    let (wide, high) = (Voice::Note.width(level), Voice::Note.height());
    if wide <= at.width {
        let rect = Rect::new(
            at.x + (at.width - wide) / 2.0,
            at.bottom() + OFF,
            wide,
            high,
        );
        pen.text_in(Voice::Note, rect, Align::Middle, level);
    }
    let tall = Voice::Note.width(upright);
    if tall <= at.height {
        let rect = Rect::new(
            at.right() + OFF,
            at.y + (at.height - tall) / 2.0,
            high,
            tall,
        );
        pen.text_upright(Voice::Note, rect, upright);
    }
}
