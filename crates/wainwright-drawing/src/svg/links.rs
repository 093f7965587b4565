//! One link: a wide invisible line for touch, the wire with its hops, its texts.

use super::sentence;
use super::writer::{Writer, number};
use crate::diagram::{Pole, Tone};
use crate::geometry::Point;
use crate::layout::{LabelBox, PlacedLink, Side};
use std::fmt::Write as _;

/// Radius of a hop [px].
const HOP: f64 = 5.0;

/// Draws one link as a group that can be reached by keyboard and finger.
pub(super) fn draw(out: &mut Writer, placed: &PlacedLink, element_id: &str) {
    let link = &placed.link;
    let mut class = format!(
        "link {} {} t{}",
        link.pole.word(),
        link.tone.class(),
        link.thickness.min(5)
    );
    if link.dashed {
        class.push_str(" dashed");
    }
    if matches!(link.tone, Tone::Scale(_)) {
        class.push_str(" scaled");
    }
    let words = words(placed);
    out.open(
        "g",
        &[
            ("id", element_id),
            ("class", &class),
            ("data-id", &link.id),
            ("data-kind", "wire"),
            ("tabindex", "0"),
            ("role", "button"),
        ],
    );
    out.text("title", &[], &words);
    let data = data(&placed.path, &placed.hops);
    out.path("hit", &data);
    out.path("halo", &data);
    out.path("wire", &data);
    if link.pole == Pole::Minus {
        out.path("core", &data);
    }
    text(out, "label", placed.label.as_ref());
    text(out, "value", placed.value.as_ref());
    out.close();
}

fn words(placed: &PlacedLink) -> String {
    let link = &placed.link;
    let [from, to] = &placed.ends;
    let way = format!(
        "Wire {}, {}, from {} terminal {} to {} terminal {}",
        link.id,
        link.pole.word(),
        from.title,
        from.terminal,
        to.title,
        to.terminal
    );
    let frame = if link.dashed { "through the frame" } else { "" };
    sentence(&[
        way,
        link.label.clone(),
        link.value.clone().unwrap_or_default(),
        link.tone.words(),
        frame.into(),
    ])
}

fn text(out: &mut Writer, class: &str, label: Option<&LabelBox>) {
    let Some(label) = label else { return };
    let base = label.rect.bottom() - 3.0;
    match label.side {
        Side::Left => out.label(class, Point::new(label.rect.x, base), &label.text),
        Side::Right => {
            out.label(
                &format!("{class} end"),
                Point::new(label.rect.right(), base),
                &label.text,
            );
        }
    }
}

/// Path data with an arc at every hop; hops closer than two radii share one arc.
fn data(path: &[Point], hops: &[Point]) -> String {
    let mut data = String::new();
    let mut hops = hops.iter().peekable();
    for (index, pair) in path.windows(2).enumerate() {
        let &[a, b] = pair else { continue };
        if index == 0 {
            let _ = write!(data, "M{} {}", number(a.x), number(a.y));
        }
        if a.y == b.y {
            let forward = if b.x > a.x { 1.0 } else { -1.0 };
            let within = |hop: &Point| {
                hop.y == a.y && (hop.x - a.x) * forward > 0.0 && (b.x - hop.x) * forward > 0.0
            };
            while let Some(first) = hops.next_if(|hop| within(hop)) {
                let mut last = *first;
                while let Some(next) =
                    hops.next_if(|hop| within(hop) && (hop.x - last.x).abs() < 2.0 * HOP)
                {
                    last = *next;
                }
                hop(&mut data, *first, last, forward);
            }
        }
        let _ = write!(data, "L{} {}", number(b.x), number(b.y));
    }
    data
}

fn hop(data: &mut String, first: Point, last: Point, forward: f64) {
    let (from, to) = (first.x - forward * HOP, last.x + forward * HOP);
    let _ = write!(
        data,
        "L{} {}A{} {} 0 0 {} {} {}",
        number(from),
        number(first.y),
        number((to - from).abs() / 2.0),
        number(HOP),
        u8::from(forward > 0.0),
        number(to),
        number(first.y)
    );
}
