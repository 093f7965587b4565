//! Finds places for texts: what is taken, what may be crossed, and at which price.
//! A text never lies on another text or under a leader, and never leaves the sheet.

use crate::geometry::{Point, Rect};

/// Room kept free around every text [px].
const AIR: f64 = 1.5;
/// Price of a text over a line that may be crossed.
const OVER_LINE: f64 = 8.0;
/// Price of a text over the body of something else.
const OVER_BODY: f64 = 14.0;
/// Price of a leader over the body of something else.
const LEADER_OVER_BODY: f64 = 5.0;
/// Price of a leader over another one.
const LEADER_OVER_LEADER: f64 = 40.0;

/// What is on the sheet so far.
#[derive(Debug, Default)]
pub(crate) struct Board {
    /// Texts stay inside this.
    area: Rect,
    texts: Vec<Rect>,
    walls: Vec<Rect>,
    leaders: Vec<[Point; 2]>,
    lines: Vec<[Point; 2]>,
    bodies: Vec<Body>,
}

/// Something a text may belong to.
#[derive(Debug, Clone, Copy)]
struct Body {
    rect: Rect,
    /// Only its outline is drawn.
    see_through: bool,
}

/// Whose text is to be placed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Owner {
    /// The body of this number; bodies with higher numbers are drawn over it.
    Body(usize),
    /// Something without a body, drawn over all bodies.
    Over,
    /// Something below all bodies: on a body its text would name that one.
    Below,
}

/// A place that could be taken.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Candidate {
    /// Box of the text.
    pub rect: Rect,
    /// From what is named to the box.
    pub leader: Option<[Point; 2]>,
    /// Price of its own, 0 for the best place.
    pub price: f64,
    /// It has a ground of its own and can be read over a wall.
    pub opaque: bool,
}

impl Board {
    /// An empty sheet; texts stay inside `area`.
    pub fn new(area: Rect) -> Self {
        Self {
            area,
            ..Self::default()
        }
    }

    /// Something is drawn here; later ones over earlier ones. Returns its number.
    pub fn body(&mut self, rect: Rect, see_through: bool) -> usize {
        self.bodies.push(Body { rect, see_through });
        self.bodies.len() - 1
    }

    /// A line that texts should stay away from.
    pub fn line(&mut self, from: Point, to: Point) {
        self.lines.push([from, to]);
    }

    /// A box no text may cover.
    pub fn text(&mut self, rect: Rect) {
        self.texts.push(rect);
    }

    /// A dark area on which a text could not be read.
    pub fn wall(&mut self, rect: Rect) {
        self.walls.push(rect);
    }

    /// Takes the cheapest place that is free and says which it is.
    pub fn take(&mut self, owner: Owner, candidates: &[Candidate]) -> Option<usize> {
        let mut best: Option<(f64, usize)> = None;
        for (number, candidate) in candidates.iter().enumerate() {
            if best.is_some_and(|(price, _)| price <= candidate.price) {
                continue;
            }
            let Some(price) = self.price(owner, candidate) else {
                continue;
            };
            if best.is_none_or(|(known, _)| price < known) {
                best = Some((price, number));
            }
        }
        let (_, number) = best?;
        let taken = candidates.get(number)?;
        self.texts.push(taken.rect);
        self.leaders.extend(taken.leader);
        Some(number)
    }

    /// What a place costs; `None` if it is not free.
    fn price(&self, owner: Owner, candidate: &Candidate) -> Option<f64> {
        let airy = grown(candidate.rect, AIR);
        if !contains(&self.area, &candidate.rect)
            || self.texts.iter().any(|known| known.overlaps(&airy))
            || !candidate.opaque && self.walls.iter().any(|wall| wall.overlaps(&candidate.rect))
            || self.leaders.iter().any(|line| crosses(&airy, line))
        {
            return None;
        }
        let crossed = self.lines.iter().filter(|line| crosses(&airy, line));
        let mut price = candidate.price + OVER_LINE * crossed.count() as f64;
        price += self.price_of_bodies(owner, &candidate.rect)?;
        if let Some(leader) = &candidate.leader {
            let grown = |rect: &Rect| self::grown(*rect, AIR);
            if self.texts.iter().any(|rect| crosses(&grown(rect), leader)) {
                return None;
            }
            let others = self.bodies.iter().enumerate().filter(|(number, body)| {
                owner != Owner::Body(*number) && crosses(&body.rect, leader)
            });
            price += LEADER_OVER_BODY * others.count() as f64;
            let leaders = self.leaders.iter().filter(|known| meet(known, leader));
            price += LEADER_OVER_LEADER * leaders.count() as f64;
        }
        Some(price)
    }

    /// A text moves with its own body: what is drawn later would cover it, and on
    /// another body it would seem to name that one.
    fn price_of_bodies(&self, owner: Owner, text: &Rect) -> Option<f64> {
        let mut price = 0.0;
        let mine = match owner {
            Owner::Body(number) => self.bodies.get(number).map(|body| (number, body)),
            Owner::Over | Owner::Below => None,
        };
        for (number, body) in self.bodies.iter().enumerate() {
            if owner == Owner::Body(number) || !body.rect.overlaps(text) {
                continue;
            }
            price += match mine {
                _ if body.see_through => OVER_LINE,
                None if owner == Owner::Below => return None,
                None => OVER_BODY,
                Some((me, _)) if number > me => return None,
                Some((_, own)) if own.see_through => OVER_BODY,
                Some((_, own)) if contains(&own.rect, text) => 0.0,
                Some((_, own)) if contains(&body.rect, &own.rect) => OVER_BODY,
                Some(_) => return None,
            };
        }
        Some(price)
    }
}

/// Whether `inner` lies inside `outer`.
pub(crate) fn contains(outer: &Rect, inner: &Rect) -> bool {
    inner.x >= outer.x
        && inner.y >= outer.y
        && inner.right() <= outer.right()
        && inner.bottom() <= outer.bottom()
}

/// The rectangle with `by` more on each side.
pub(crate) fn grown(rect: Rect, by: f64) -> Rect {
    Rect::new(
        rect.x - by,
        rect.y - by,
        (rect.width + 2.0 * by).max(0.0),
        (rect.height + 2.0 * by).max(0.0),
    )
}

/// Whether a straight line runs through the inside of a rectangle.
pub(crate) fn crosses(rect: &Rect, line: &[Point; 2]) -> bool {
    let [from, to] = line;
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    let sides = [
        (from.x, to.x - from.x, rect.x, rect.right()),
        (from.y, to.y - from.y, rect.y, rect.bottom()),
    ];
    for (start, way, low, high) in sides {
        if way.abs() < 1e-9 {
            if start <= low || start >= high {
                return false;
            }
            continue;
        }
        let (a, b) = ((low - start) / way, (high - start) / way);
        enter = enter.max(a.min(b));
        leave = leave.min(a.max(b));
    }
    leave - enter > 1e-9
}

/// Whether two straight lines cross.
fn meet(one: &[Point; 2], other: &[Point; 2]) -> bool {
    let side = |a: Point, b: Point, p: Point| (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x);
    let ([a, b], [c, d]) = (*one, *other);
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(x: f64, y: f64) -> Point {
        Point::new(x, y)
    }

    #[test]
    fn a_line_along_an_edge_does_not_cross() {
        let rect = Rect::new(10.0, 10.0, 20.0, 10.0);
        assert!(crosses(&rect, &[at(0.0, 15.0), at(40.0, 15.0)]));
        assert!(crosses(&rect, &[at(12.0, 12.0), at(14.0, 14.0)]));
        assert!(!crosses(&rect, &[at(0.0, 10.0), at(40.0, 10.0)]));
        assert!(!crosses(&rect, &[at(0.0, 0.0), at(9.0, 40.0)]));
        assert!(!crosses(&rect, &[at(0.0, 15.0), at(10.0, 15.0)]));
    }

    #[test]
    fn the_cheapest_free_place_is_taken() {
        let mut board = Board::new(Rect::new(0.0, 0.0, 100.0, 100.0));
        board.text(Rect::new(0.0, 0.0, 30.0, 10.0));
        let place = |x: f64, price: f64| Candidate {
            rect: Rect::new(x, 0.0, 20.0, 10.0),
            leader: None,
            price,
            opaque: false,
        };
        let places = [
            place(10.0, 0.0),
            place(40.0, 2.0),
            place(70.0, 1.0),
            place(95.0, 0.0),
        ];
        let taken = board.take(Owner::Over, &places);
        assert_eq!(taken, Some(2));
        assert!(board.take(Owner::Over, &places[2..3]).is_none());
    }

    #[test]
    fn a_text_is_not_put_under_a_later_body_nor_on_a_stranger() {
        let mut board = Board::new(Rect::new(0.0, 0.0, 100.0, 100.0));
        let low = board.body(Rect::new(0.0, 0.0, 50.0, 50.0), false);
        let high = board.body(Rect::new(30.0, 0.0, 50.0, 50.0), false);
        let at = |x: f64| Candidate {
            rect: Rect::new(x, 10.0, 10.0, 10.0),
            leader: None,
            price: 0.0,
            opaque: false,
        };
        assert!(board.price(Owner::Body(low), &at(25.0)).is_none());
        assert!(board.price(Owner::Body(low), &at(5.0)).is_some());
        assert!(board.price(Owner::Body(high), &at(35.0)).is_some());
        assert!(board.price(Owner::Body(high), &at(10.0)).is_none());
    }
}
