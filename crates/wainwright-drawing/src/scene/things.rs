//! Things with a place and a size: their order, their texts, their groups.

use super::data::{Outline, Thing};
use super::frame::Frame;
use super::labels::{Choices, Label, Lines, List, place};
use super::stage::Stage;
use crate::board::{Board, Owner};
use crate::diagram::Tone;
use crate::geometry::{Point, Rect};
use crate::picture::Pen;
use crate::svg::Ids;

/// Least side of what a finger can hit [px].
const TOUCH: f64 = 28.0;
/// Longest line of a name on the drawing [px], and where a name is broken to be narrow.
const LONGEST: f64 = 150.0;
const NARROW: f64 = 70.0;
/// Side of the sign for a tone [px].
const SIGN: f64 = 14.0;
/// Least side of a thing with such a sign [px]; on smaller ones it stands before the name.
const SIGN_ROOM: f64 = 26.0;

/// One thing on the sheet.
#[derive(Debug)]
pub(super) struct Placed<'a> {
    pub thing: &'a Thing,
    pub rect: Rect,
    body: usize,
    pub label: Option<Label>,
    sign: Option<Rect>,
}

impl Placed<'_> {
    /// Its name, with the sign for its tone if that has no other place.
    pub fn name(&self) -> String {
        let label = &self.thing.label;
        match (sign_text(self.thing.tone), self.sign) {
            (Some(sign), None) if !label.is_empty() => format!("{sign} {label}"),
            _ => label.clone(),
        }
    }
}

/// Things in the order in which they are drawn: what is nearer lies over what is
/// farther, what is only outlined over all.
pub(super) fn order<'a>(stage: &'a Stage, board: &mut Board) -> Vec<Placed<'a>> {
    let mut things: Vec<&Thing> = stage.scene.things.iter().collect();
    let frame = &stage.frame;
    let area = |thing: &Thing| {
        let rect = frame.rect(&thing.space);
        rect.width * rect.height
    };
    things.sort_by(|a, b| {
        let dashed = |thing: &Thing| thing.outline == Outline::Dashed;
        let near = |thing: &Thing| (frame.nearness(&thing.space) * 1000.0).round();
        dashed(a)
            .cmp(&dashed(b))
            .then(near(a).total_cmp(&near(b)))
            .then(area(b).total_cmp(&area(a)))
    });
    let place = |thing: &'a Thing| {
        let rect = visible(frame, thing);
        let see_through = thing.outline == Outline::Dashed;
        if see_through {
            // Its outline is drawn over the texts of what lies below.
            for [from, to] in edges(rect) {
                board.line(from, to);
            }
        }
        let body = board.body(rect, see_through);
        Placed {
            thing,
            rect,
            body,
            label: None,
            sign: None,
        }
    };
    things.into_iter().map(place).collect()
}

/// The four edges of a rectangle.
pub(super) fn edges(rect: Rect) -> [[Point; 2]; 4] {
    let (left, right) = (rect.x, rect.right());
    let (top, bottom) = (rect.y, rect.bottom());
    let corner = Point::new;
    [
        [corner(left, top), corner(right, top)],
        [corner(right, top), corner(right, bottom)],
        [corner(right, bottom), corner(left, bottom)],
        [corner(left, bottom), corner(left, top)],
    ]
}

/// At least a few units wide, so that it can be seen.
fn visible(frame: &Frame, thing: &Thing) -> Rect {
    let rect = frame.rect(&thing.space);
    let (width, height) = (rect.width.max(3.0), rect.height.max(3.0));
    Rect::new(
        rect.x - (width - rect.width) / 2.0,
        rect.y - (height - rect.height) / 2.0,
        width,
        height,
    )
}

/// Finds a place for every name: first for those with room inside, the chosen one before all.
pub(super) fn label(things: &mut [Placed], board: &mut Board, list: &mut List) {
    for placed in things.iter_mut() {
        placed.sign = sign(placed, board);
    }
    let mut order: Vec<usize> = (0..things.len()).collect();
    let key = |number: &usize| {
        let placed = things.get(*number);
        placed.map_or((true, true, 0), |placed| {
            let (width, height) = Lines::new(&placed.thing.label, "").size();
            let fits = width + 6.0 <= placed.rect.width && height + 6.0 <= placed.rect.height;
            let area = (placed.rect.width * placed.rect.height) as u64;
            (!placed.thing.selected, !fits, area)
        })
    };
    order.sort_by_key(key);
    for number in order {
        if let Some(placed) = things.get_mut(number) {
            let name = placed.name();
            let choices = choices(&name, &placed.thing.note, placed.rect);
            placed.label = place(board, list, Owner::Body(placed.body), &name, choices);
        }
    }
}

fn choices(name: &str, note: &str, rect: Rect) -> Choices {
    let mut choices = Choices::default();
    let broken = |note: &str| Lines::wrapped(name, note, LONGEST);
    let (plain, full) = (broken(""), broken(note));
    choices.inside(&full, rect, 0.0);
    choices.inside(&plain, rect, 2.0);
    let room = rect.width - 6.0;
    if Lines::breaks_well(name, room) {
        choices.inside(&Lines::wrapped(name, note, room), rect, 0.3);
        choices.inside(&Lines::wrapped(name, "", room), rect, 2.3);
    }
    choices.outside(&full, rect, 0.5);
    if name.contains(' ') {
        choices.outside(&Lines::wrapped(name, note, NARROW), rect, 1.0);
    }
    choices.outside(&plain, rect, 1.5);
    choices.number(rect);
    choices
}

/// A mark that says the tone without colour, in the first free corner.
fn sign(placed: &Placed, board: &mut Board) -> Option<Rect> {
    sign_text(placed.thing.tone)?;
    let rect = placed.rect;
    if rect.width < SIGN_ROOM || rect.height < SIGN_ROOM {
        return None;
    }
    let (left, right) = (rect.x + 2.0, rect.right() - SIGN - 2.0);
    let (top, bottom) = (rect.y + 2.0, rect.bottom() - SIGN - 2.0);
    let corners = [(right, top), (left, top), (right, bottom), (left, bottom)];
    let places = corners.map(|(x, y)| crate::board::Candidate {
        rect: Rect::new(x, y, SIGN, SIGN),
        leader: None,
        price: 0.0,
        opaque: true,
    });
    let taken = board.take(Owner::Body(placed.body), &places)?;
    places.get(taken).map(|place| place.rect)
}

fn sign_text(tone: Tone) -> Option<&'static str> {
    match tone {
        Tone::Bad => Some("!"),
        Tone::Watch => Some("?"),
        _ => None,
    }
}

/// Draws one thing as a group that can be reached by keyboard and finger.
pub(super) fn draw(pen: &mut Pen, placed: &Placed, ids: &mut Ids) {
    let thing = placed.thing;
    let mut class = format!("thing {}", thing.tone.class());
    if matches!(thing.tone, Tone::Scale(_)) {
        class.push_str(" scaled");
    }
    if thing.outline == Outline::Dashed {
        class.push_str(" dashed");
    }
    if thing.selected {
        class.push_str(" selected");
    }
    let id = ids.next("thing", &thing.id);
    let drag = thing.movable.then_some(("data-drag", "true"));
    open(pen, &id, &class, &thing.id, "thing", &thing.words, drag);
    let rect = placed.rect;
    if rect.width < TOUCH || rect.height < TOUCH {
        let (width, height) = (rect.width.max(TOUCH), rect.height.max(TOUCH));
        let x = rect.x - (width - rect.width) / 2.0;
        let y = rect.y - (height - rect.height) / 2.0;
        pen.out.rect("touch", Rect::new(x, y, width, height), 0.0);
    }
    pen.out.rect("body", rect, 2.5);
    if let (Some(at), Some(text)) = (placed.sign, sign_text(thing.tone)) {
        pen.out.circle(
            "alert",
            Point::new(at.x + SIGN / 2.0, at.y + SIGN / 2.0),
            SIGN / 2.0,
        );
        pen.text_in(
            crate::picture::Voice::Key,
            at,
            crate::picture::Align::Middle,
            text,
        );
    }
    if let Some(label) = &placed.label {
        label.write(pen);
    }
    pen.out.close();
}

/// Opens the group of something that can be chosen.
pub(super) fn open(
    pen: &mut Pen,
    element_id: &str,
    class: &str,
    id: &str,
    kind: &str,
    words: &str,
    more: Option<(&str, &str)>,
) {
    let mut attributes = vec![
        ("id", element_id),
        ("class", class),
        ("data-id", id),
        ("data-kind", kind),
        ("tabindex", "0"),
        ("role", "button"),
    ];
    attributes.extend(more);
    pen.out.open("g", &attributes);
    // Its printed texts are pieces of this name, which a label besides would contradict.
    pen.out.text("title", &[], words);
}
