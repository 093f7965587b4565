//! Lays out and writes the drawing of a face.

use super::{Box2, Device, Face, Options};
use crate::board::grown;
use crate::geometry::{Point, Rect};
use crate::lining::measures;
use crate::picture::{Align, Pen, Picture, Voice};
use crate::svg::Ids;

/// Free edge of the drawing [px].
const EDGE: f64 = 8.0;
/// Widths and heights in between are drawn [px].
const WIDTHS: (f64, f64) = (200.0, 4000.0);
/// Largest face that is drawn \[m\].
const LARGEST_M: f64 = 20.0;
/// A device can be held at least so large [px].
const HANDLE: f64 = 24.0;

/// From metres on the face to the sheet.
struct Scale {
    left: f64,
    foot: f64,
    px_per_m: f64,
}

impl Scale {
    fn x(&self, m: f64) -> f64 {
        self.left + m * self.px_per_m
    }

    fn y(&self, m: f64) -> f64 {
        self.foot - m * self.px_per_m
    }

    fn rect(&self, place: &Box2) -> Option<Rect> {
        place.known().then(|| {
            Rect::new(
                self.x(place.x_m),
                self.y(place.y_m + place.height_m),
                place.width_m * self.px_per_m,
                place.height_m * self.px_per_m,
            )
        })
    }
}

/// Draws a face. Total and deterministic; without a size there is an empty drawing.
pub fn face(face: &Face, options: &Options) -> Picture {
    let width = options.width.clamp(WIDTHS.0, WIDTHS.1);
    let size = (face.width_m, face.height_m);
    let known = |m: f64| m.is_finite() && m > 0.0 && m <= LARGEST_M;
    let mut pen = Pen::default();
    if !known(size.0) || !known(size.1) {
        return pen.picture(width, EDGE * 2.0);
    }
    let span = span(face);
    let beside = measures::depth(face.up.len());
    let room = width - 2.0 * EDGE - beside;
    let most = options.height.clamp(WIDTHS.0, WIDTHS.1);
    let px_per_m = (room / (span.2 - span.0)).min(most / (span.3 - span.1));
    let drawn = (span.2 - span.0) * px_per_m;
    let left = EDGE + (room - drawn) / 2.0;
    let scale = Scale {
        left: left - span.0 * px_per_m,
        foot: EDGE + span.3 * px_per_m,
        px_per_m,
    };
    body(&mut pen, face, &scale, options);
    let foot = scale.y(span.1);
    measures::draw(&mut pen, &face.across, (|m| scale.x(m), size.0), foot, true);
    measures::draw(
        &mut pen,
        &face.up,
        (|m| scale.y(m), size.1),
        left + drawn,
        false,
    );
    let high = foot + measures::depth(face.across.len()) + EDGE;
    let mut picture = pen.picture(width, high);
    let mm = format!("{:.5}", 1000.0 / px_per_m);
    picture.attributes.push(("data-mm-per-unit".into(), mm));
    picture
}

/// What is drawn \[m\]: left, foot, right, top; the board, and bodies that stick out by less than half the face.
fn span(face: &Face) -> (f64, f64, f64, f64) {
    let mut span = (0.0_f64, 0.0_f64, face.width_m, face.height_m);
    let beyond = (face.width_m * 0.5, face.height_m * 0.5);
    let boxes = face.devices.iter().map(|device| &device.place);
    for one in boxes.chain([&face.board]).filter(|one| one.known()) {
        span.0 = span.0.min(one.x_m.max(-beyond.0));
        span.1 = span.1.min(one.y_m.max(-beyond.1));
        span.2 = span
            .2
            .max((one.x_m + one.width_m).min(face.width_m + beyond.0));
        span.3 = span
            .3
            .max((one.y_m + one.height_m).min(face.height_m + beyond.1));
    }
    span
}

fn body(pen: &mut Pen, face: &Face, scale: &Scale, options: &Options) {
    if let Some(board) = scale.rect(&face.board) {
        pen.out.rect("face-board", board, 0.0);
    }
    let inside = Box2::new(0.0, 0.0, face.width_m, face.height_m);
    if let Some(inside) = scale.rect(&inside) {
        pen.out.rect("face-inside", inside, 0.0);
    }
    let mut ids = Ids::new(&options.id_prefix);
    let (chosen, others): (Vec<&Device>, Vec<&Device>) =
        face.devices.iter().partition(|device| device.selected);
    for one in others.into_iter().chain(chosen) {
        device(pen, one, scale, &ids.next("device", &one.id));
    }
    for overlap in face.overlaps.iter().filter_map(|one| scale.rect(one)) {
        pen.out.rect("face-overlap", overlap, 0.0);
        let wide = Voice::Name.width(&face.overlap_word);
        let rect = Rect::new(
            overlap.x + (overlap.width - wide) / 2.0,
            overlap.y + (overlap.height - Voice::Name.height()) / 2.0,
            wide,
            Voice::Name.height(),
        );
        pen.out.open("g", &[("class", "on-field bad")]);
        pen.text_in(Voice::Name, rect, Align::Middle, &face.overlap_word);
        pen.out.close();
    }
}

fn device(pen: &mut Pen, device: &Device, scale: &Scale, id: &str) {
    let Some(rect) = scale.rect(&device.place) else {
        return;
    };
    let look = if device.on_face { "on-face" } else { "behind" };
    let chosen = if device.selected { " selected" } else { "" };
    let class = format!("face-device {look} {}{chosen}", device.tone.class());
    let millimetres = [device.place.x_m, device.place.y_m].map(|m| format!("{:.2}", m * 1000.0));
    pen.out.open(
        "g",
        &[
            ("id", id),
            ("class", &class),
            ("data-id", &device.id),
            ("data-x", &millimetres[0]),
            ("data-y", &millimetres[1]),
            ("tabindex", "0"),
            ("role", "button"),
            ("aria-label", &device.words),
        ],
    );
    pen.out.text("title", &[], &device.words);
    let (more, higher) = (
        (HANDLE - rect.width).max(0.0) / 2.0,
        (HANDLE - rect.height).max(0.0) / 2.0,
    );
    let handle = Rect::new(
        rect.x - more,
        rect.y - higher,
        rect.width + 2.0 * more,
        rect.height + 2.0 * higher,
    );
    pen.out.rect("handle", handle, 0.0);
    pen.out.rect("body", rect, 2.0);
    if let Some(hole) = &device.hole {
        cut_out(pen, hole, scale);
    }
    label(pen, device, rect);
    pen.out.close();
}

fn cut_out(pen: &mut Pen, hole: &super::Hole, scale: &Scale) {
    let Some(rect) = scale.rect(&hole.place) else {
        return;
    };
    let middle = Point::new(rect.x + rect.width / 2.0, rect.y + rect.height / 2.0);
    if hole.round {
        pen.out.circle("cut-out", middle, rect.width / 2.0);
    } else {
        pen.out.rect("cut-out", rect, 0.0);
    }
}

/// The first whole words of the name that have room, upright where the body is narrow and high. Half a word would be
/// read as another name; the whole one is read aloud and stands in the list.
fn label(pen: &mut Pen, device: &Device, rect: Rect) {
    let room = grown(rect, -3.0);
    let high = Voice::Note.height();
    let wide = Voice::Note.width(&device.label);
    if wide > room.width && wide <= room.height && high <= rect.width {
        pen.text_upright(Voice::Note, room, &device.label);
        return;
    }
    let lines = Voice::Note.wrap(&device.label, room.width.max(1.0));
    let whole = lines.iter().take_while(|line| !line.contains('…')).count();
    let fit = ((room.height.max(0.0) / high) as usize).min(whole);
    let top = room.y + (room.height - high * fit as f64) / 2.0;
    for (index, line) in lines.iter().take(fit).enumerate() {
        let line_rect = Rect::new(room.x, top + high * index as f64, room.width, high);
        pen.out.open("g", &[("class", "on-field")]);
        // The space keeps the words of a name apart for those who hear it.
        pen.text_in(Voice::Note, line_rect, Align::Middle, &format!("{line} "));
        pen.out.close();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::svg::writer::number;
    use crate::{Css, Style, Tone};

    fn drawn(width_m: f64) -> Picture {
        face(
            &Face {
                width_m: 1.0,
                height_m: 0.5,
                devices: vec![Device {
                    id: "a".into(),
                    label: "A".into(),
                    words: "A <here>".into(),
                    place: Box2::new(0.25, 0.1, width_m, 0.2),
                    hole: None,
                    on_face: true,
                    tone: Tone::Calm,
                    selected: false,
                }],
                ..Face::default()
            },
            &Options::default(),
        )
    }

    #[test]
    fn a_device_is_as_wide_as_it_is() {
        let picture = drawn(0.3);
        let text = picture.svg(&Style {
            css: Css::OnPage,
            ..Style::default()
        });
        let mm: f64 = picture.attributes[0].1.parse().unwrap();
        let body = text.split("class=\"body\"").nth(1).unwrap();
        let width = body.split("width=\"").nth(1).unwrap();
        let width: f64 = width.split('"').next().unwrap().parse().unwrap();
        assert!((width * mm - 300.0).abs() < 0.1, "{width} at {mm}");
        assert!(text.contains("data-x=\"250.00\"") && text.contains("&lt;here&gt;"));
    }

    #[test]
    fn what_is_no_number_is_left_out() {
        let text = drawn(f64::NAN).svg(&Style::default());
        assert!(!text.contains("data-id") && !text.contains("NaN"));
        assert!(number(f64::NAN) == "0");
    }
}
