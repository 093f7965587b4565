//! Gives every named thing its text: in it, beside it, on a leader, as a number
//! with the name in a list, in this order of preference. Not here: what is free (`board`).

use super::places::{beside, inside, on_leaders};
use crate::board::{Board, Candidate, Owner, grown};
use crate::geometry::{Point, Rect};
use crate::picture::{Align, Pen, Voice};

/// Prices of the kinds of places; a lower one is taken first.
const BESIDE: f64 = 6.0;
const ON_LEADER: f64 = 14.0;
const NUMBER_INSIDE: f64 = 30.0;
const NUMBER_BESIDE: f64 = 36.0;
const NUMBER_ON_LEADER: f64 = 44.0;
/// Price of a leader per unit of length.
const PER_UNIT: f64 = 0.12;
/// Size of the round sign with a number [px].
const SIGN: f64 = 17.0;

/// Lines of text that stay together.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct Lines {
    pub lines: Vec<(Voice, String)>,
}

impl Lines {
    /// A name and a note below it, each left out when empty.
    pub fn new(name: &str, note: &str) -> Self {
        let lines = [(Voice::Name, name), (Voice::Note, note)];
        let lines = lines.into_iter().filter(|(_, text)| !text.is_empty());
        Self {
            lines: lines
                .map(|(voice, text)| (voice, text.to_owned()))
                .collect(),
        }
    }

    /// The name broken into lines of at most `width` [px].
    pub fn wrapped(name: &str, note: &str, width: f64) -> Self {
        let broken = Voice::Name.wrap(name, width).into_iter();
        let mut lines: Vec<(Voice, String)> = broken.map(|line| (Voice::Name, line)).collect();
        if !note.is_empty() {
            lines.push((Voice::Note, note.to_owned()));
        }
        Self { lines }
    }

    /// Whether every word of `name` fits in a line of this width [px].
    pub fn breaks_well(name: &str, width: f64) -> bool {
        name.split_whitespace()
            .all(|word| Voice::Name.width(word) <= width)
    }

    /// Width and height [px].
    pub fn size(&self) -> (f64, f64) {
        let width = self.lines.iter().map(|(voice, text)| voice.width(text));
        let height = self.lines.iter().map(|(voice, _)| voice.height());
        (width.fold(0.0, f64::max), height.sum())
    }

    fn write(&self, pen: &mut Pen, rect: Rect, align: Align) {
        let mut top = rect.y;
        for (voice, text) in &self.lines {
            let line = Rect::new(rect.x, top, rect.width, voice.height());
            pen.text_in(*voice, line, align, text);
            top += voice.height();
        }
    }
}

/// What stands at a taken place.
#[derive(Debug, Clone, PartialEq)]
enum What {
    Lines(Lines),
    Number,
}

/// The text of one named thing, placed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Label {
    what: What,
    at: Candidate,
    number: usize,
}

impl Label {
    /// Writes the text, with its leader.
    pub fn write(&self, pen: &mut Pen) {
        if let Some([from, to]) = self.at.leader {
            pen.leader(from, to);
        }
        let rect = self.at.rect;
        match &self.what {
            What::Lines(lines) => {
                let middle = rect.x + rect.width / 2.0;
                let align = match self.at.leader {
                    Some([_, end]) if end.x < middle - 1.0 => Align::Start,
                    Some([_, end]) if end.x > middle + 1.0 => Align::End,
                    _ => Align::Middle,
                };
                lines.write(pen, rect, align);
            }
            What::Number => {
                pen.out.rect("sign", rect, SIGN / 2.0);
                pen.text_in(Voice::Key, rect, Align::Middle, &self.number.to_string());
            }
        }
    }
}

/// A choice for the board, with what would stand there.
#[derive(Debug, Default)]
pub(super) struct Choices {
    places: Vec<Candidate>,
    what: Vec<What>,
}

impl Choices {
    /// Places for these lines within `room`, the middle first.
    pub fn inside(&mut self, lines: &Lines, room: Rect, price: f64) {
        let size = lines.size();
        for (rect, extra) in inside(grown(room, -3.0), size) {
            self.add(What::Lines(lines.clone()), rect, None, price + extra);
        }
    }

    /// Places beside `body` and on leaders from it.
    pub fn outside(&mut self, lines: &Lines, body: Rect, price: f64) {
        let size = lines.size();
        for (rect, extra) in beside(body, size) {
            let price = price + BESIDE + extra;
            self.add(What::Lines(lines.clone()), rect, None, price);
        }
        for (rect, leader, length) in on_leaders(body, size) {
            let price = price + ON_LEADER + PER_UNIT * length;
            self.add(What::Lines(lines.clone()), rect, Some(leader), price);
        }
    }

    /// Places for a number that stands for the name.
    pub fn number(&mut self, body: Rect) {
        let size = (SIGN, SIGN);
        for (rect, extra) in inside(grown(body, -1.0), size) {
            self.add(What::Number, rect, None, NUMBER_INSIDE + extra);
        }
        // On something smaller than itself the number stands for it.
        let middle = Point::new(body.x + body.width / 2.0, body.y + body.height / 2.0);
        let on_it = grown(Rect::new(middle.x, middle.y, 0.0, 0.0), SIGN / 2.0);
        self.add(What::Number, on_it, None, NUMBER_BESIDE - 2.0);
        for (rect, extra) in beside(body, size) {
            self.add(What::Number, rect, None, NUMBER_BESIDE + extra);
        }
        for (rect, leader, length) in on_leaders(body, size) {
            let price = NUMBER_ON_LEADER + PER_UNIT * length;
            self.add(What::Number, rect, Some(leader), price);
        }
    }

    fn add(&mut self, what: What, rect: Rect, leader: Option<[Point; 2]>, price: f64) {
        self.places.push(Candidate {
            rect,
            leader,
            price,
            opaque: what == What::Number,
        });
        self.what.push(what);
    }
}

/// Names for the list below the drawing.
#[derive(Debug, Default)]
pub(super) struct List {
    /// Number, name and note of what is named by a number on the drawing.
    pub numbered: Vec<(usize, String)>,
    /// Names for which there was not even room for a number.
    pub unplaced: Vec<String>,
}

/// Asks the board for a place. Without one, the name is put on the list.
pub(super) fn place(
    board: &mut Board,
    list: &mut List,
    owner: Owner,
    name: &str,
    choices: Choices,
) -> Option<Label> {
    if name.is_empty() {
        return None;
    }
    let Some(number) = board.take(owner, &choices.places) else {
        list.unplaced.push(name.to_owned());
        return None;
    };
    let what = choices.what.get(number)?.clone();
    Some(Label {
        at: *choices.places.get(number)?,
        what,
        number: 0,
    })
}

/// Counts the numbers through, by rows from the top and from the left, and fills the list.
pub(super) fn number<'a>(labels: Vec<(&'a mut Label, String)>, list: &mut List) {
    let numbered = labels
        .into_iter()
        .filter(|(label, _)| label.what == What::Number);
    let mut numbered: Vec<(&'a mut Label, String)> = numbered.collect();
    let row = |label: &Label| (label.at.rect.y / 48.0).floor();
    numbered.sort_by(|(a, _), (b, _)| {
        let rows = row(a).total_cmp(&row(b));
        rows.then(a.at.rect.x.total_cmp(&b.at.rect.x))
            .then(a.at.rect.y.total_cmp(&b.at.rect.y))
    });
    for (count, (label, name)) in numbered.into_iter().enumerate() {
        label.number = count + 1;
        list.numbered.push((count + 1, name));
    }
}
