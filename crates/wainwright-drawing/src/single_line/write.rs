//! Writes a placed overview.

use super::place::{Manner, Placed, Sheet};
use crate::diagram::BlockKind;
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Picture};
use crate::svg::Ids;
use crate::svg::writer::number;
use crate::symbol;

/// Writes lines first, then devices, then free texts.
pub(super) fn write(sheet: &Sheet, id_prefix: &str) -> Picture {
    let mut pen = Pen::default();
    let mut ids = Ids::new(id_prefix);
    for stroke in &sheet.strokes {
        let class = if stroke.bus { "node" } else { "sym" };
        pen.out.line(class, stroke.from, stroke.to);
    }
    for tip in &sheet.arrows {
        let [x, y] = [tip.x, tip.y].map(number);
        pen.out.path("solid", &format!("M{x} {y}l8 -4v8z"));
    }
    for placed in &sheet.items {
        item(&mut pen, placed, &mut ids);
    }
    for (voice, rect, text) in &sheet.texts {
        pen.text_in(*voice, *rect, Align::Start, text);
    }
    pen.picture(sheet.width, sheet.height)
}

fn item(pen: &mut Pen, placed: &Placed, ids: &mut Ids) {
    let item = placed.item;
    let selected = if item.selected { " selected" } else { "" };
    let id = ids.next("item", &item.id);
    let class = format!("item {}{selected}", item.tone.class());
    let attributes = [
        ("id", id.as_str()),
        ("class", &class),
        ("data-id", &item.id),
        ("data-kind", item.kind.key()),
        ("tabindex", "0"),
        ("role", "button"),
    ];
    pen.out.open("g", &attributes);
    pen.out.text("title", &[], &item.words);
    pen.out.rect("frame", placed.touch, 6.0);
    picture(pen, placed);
    for (voice, rect, text) in &placed.texts {
        pen.text_in(*voice, *rect, Align::Start, text);
    }
    pen.out.close();
}

fn picture(pen: &mut Pen, placed: &Placed) {
    let (at, kind) = (placed.at, placed.item.kind);
    let many = matches!(
        kind,
        BlockKind::FuseBlock | BlockKind::BusBar | BlockKind::SwitchBank
    );
    match placed.manner {
        Manner::Level => {
            pen.out
                .rect("blank", Rect::new(at.x - 16.0, at.y - 4.0, 32.0, 8.0), 0.0);
            symbol::in_wire(&mut pen.out, kind, at);
        }
        Manner::Upright => {
            let [x, y] = [at.x, at.y].map(number);
            let turn = format!("rotate(90 {x} {y})");
            pen.out.open("g", &[("transform", &turn)]);
            pen.out
                .rect("blank", Rect::new(at.x - 16.0, at.y - 4.0, 32.0, 8.0), 0.0);
            symbol::in_wire(&mut pen.out, kind, at);
            pen.out.close();
        }
        Manner::End if many => {
            pen.out.circle("solid", Point::new(at.x, at.y), 3.5);
        }
        Manner::End => symbol::draw(&mut pen.out, kind, at),
    }
}
