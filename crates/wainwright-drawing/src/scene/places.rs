//! Candidate places for a text of a given size: in a room, beside a body, on a leader.

use crate::board::grown;
use crate::geometry::{Point, Rect};

/// How far from a thing its text may go [px].
const REACHES: [f64; 8] = [14.0, 24.0, 36.0, 52.0, 72.0, 100.0, 140.0, 190.0];
/// Shortest leader [px].
const SHORTEST: f64 = 4.0;
/// Directions in which a leader is tried.
const DIRECTIONS: usize = 24;

/// Places within a room, the middle first, each with its price.
pub(super) fn inside(room: Rect, (width, height): (f64, f64)) -> Vec<(Rect, f64)> {
    let (spare_x, spare_y) = (room.width - width, room.height - height);
    if spare_x < 0.0 || spare_y < 0.0 {
        return Vec::new();
    }
    let mut places = Vec::new();
    for (row, price_y) in [(0.5, 0.0), (0.0, 1.0), (1.0, 1.1), (0.25, 1.5), (0.75, 1.6)] {
        for (column, price_x) in [(0.5, 0.0), (0.0, 1.0), (1.0, 1.1), (0.25, 1.5), (0.75, 1.6)] {
            let rect = Rect::new(
                room.x + column * spare_x,
                room.y + row * spare_y,
                width,
                height,
            );
            places.push((rect, price_x + price_y));
        }
    }
    places
}

/// Places along the edges of a body, each with its price.
pub(super) fn beside(body: Rect, (width, height): (f64, f64)) -> Vec<(Rect, f64)> {
    let mut places = Vec::new();
    for (share, extra) in [(0.5, 0.0), (0.0, 1.0), (1.0, 1.2)] {
        let x = body.x + share * (body.width - width);
        let y = body.y + share * (body.height - height);
        // The wider gap leads over a wall.
        for (gap, far) in [(3.0, 0.0), (12.0, 2.0)] {
            for (left, top, more) in [
                (x, body.y - height - gap, 0.0),
                (x, body.bottom() + gap, 0.2),
                (body.right() + gap + 1.0, y, 0.4),
                (body.x - width - gap - 1.0, y, 0.6),
            ] {
                places.push((Rect::new(left, top, width, height), extra + more + far));
            }
        }
    }
    places
}

/// Places farther away, each with its leader and the length of that.
pub(super) fn on_leaders(body: Rect, (width, height): (f64, f64)) -> Vec<(Rect, [Point; 2], f64)> {
    let mut places = Vec::new();
    let middle = Point::new(body.x + body.width / 2.0, body.y + body.height / 2.0);
    for reach in REACHES {
        for direction in 0..DIRECTIONS {
            let angle = direction as f64 / DIRECTIONS as f64 * std::f64::consts::TAU;
            let (x, y) = (angle.cos(), angle.sin());
            let away_x = (body.width + width) / 2.0 + reach;
            let away_y = (body.height + height) / 2.0 + reach;
            let centre = Point::new(middle.x + x * away_x, middle.y + y * away_y);
            let rect = Rect::new(
                centre.x - width / 2.0,
                centre.y - height / 2.0,
                width,
                height,
            );
            let from = nearest(
                grown(body, -(body.width.min(body.height) / 2.0).min(4.0)),
                centre,
            );
            let to = nearest(grown(rect, 1.6), from);
            let length = (to.x - from.x).hypot(to.y - from.y);
            // Shorter ones would lead from a text on the thing itself.
            if length >= SHORTEST {
                places.push((rect, [from, to], length));
            }
        }
    }
    places
}

/// The point of a rectangle nearest to another point.
fn nearest(rect: Rect, to: Point) -> Point {
    Point::new(
        to.x.max(rect.x).min(rect.right()),
        to.y.max(rect.y).min(rect.bottom()),
    )
}
