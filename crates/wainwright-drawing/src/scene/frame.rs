//! From the tape-measure frame to the sheet: which direction of the box runs to
//! the right and which runs down.

use super::measure::{Axis, Space, Spot, Wall};
use super::options::{Face, Facing, View};
use crate::geometry::{Point, Rect};

/// A direction of the box with a sign.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Way {
    pub axis: Axis,
    pub sign: f64,
}

/// How the box lies on the sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Frame {
    /// What grows to the right on the sheet.
    pub right: Way,
    /// What grows downwards on the sheet.
    pub down: Way,
    /// What grows towards the person who looks.
    pub near: Way,
    /// Units per metre.
    pub units_per_m: f64,
    /// Sheet place of front wall, left wall and floor.
    pub origin: Point,
}

impl Frame {
    /// The frame of a view, one unit per metre, its zero at the sheet's corner.
    pub fn of(view: &View) -> Self {
        use Axis::{Across, Along, Up};
        let way = |axis: Axis, sign: f64| Way { axis, sign };
        let (right, down, near) = match (view.face, view.inside) {
            (Face::Floor, _) => {
                let (right, down) = match view.front {
                    Facing::Left => (way(Along, 1.0), way(Across, -1.0)),
                    Facing::Up => (way(Across, 1.0), way(Along, 1.0)),
                    Facing::Right => (way(Along, -1.0), way(Across, 1.0)),
                    Facing::Down => (way(Across, -1.0), way(Along, -1.0)),
                };
                (right, down, way(Up, 1.0))
            }
            (Face::Left, true) => (way(Along, -1.0), way(Up, -1.0), way(Across, 1.0)),
            (Face::Left, false) => (way(Along, 1.0), way(Up, -1.0), way(Across, -1.0)),
            (Face::Right, true) => (way(Along, 1.0), way(Up, -1.0), way(Across, -1.0)),
            (Face::Right, false) => (way(Along, -1.0), way(Up, -1.0), way(Across, 1.0)),
            (Face::Front, true) => (way(Across, 1.0), way(Up, -1.0), way(Along, 1.0)),
            (Face::Front, false) => (way(Across, -1.0), way(Up, -1.0), way(Along, -1.0)),
            (Face::Rear, true) => (way(Across, -1.0), way(Up, -1.0), way(Along, -1.0)),
            (Face::Rear, false) => (way(Across, 1.0), way(Up, -1.0), way(Along, 1.0)),
        };
        Self {
            right,
            down,
            near,
            units_per_m: 1.0,
            origin: Point::default(),
        }
    }

    /// Where a place comes on the sheet.
    pub fn point(&self, spot: Spot) -> Point {
        let part = |way: Way| way.sign * spot.along(way.axis) * self.units_per_m;
        Point::new(
            self.origin.x + part(self.right),
            self.origin.y + part(self.down),
        )
    }

    /// Where a space comes on the sheet.
    pub fn rect(&self, space: &Space) -> Rect {
        around(self.point(space.at), self.point(space.far()))
    }

    /// How near the near side of a space is to the person who looks [m].
    pub fn nearness(&self, space: &Space) -> f64 {
        let way = self.near;
        (way.sign * space.at.along(way.axis)).max(way.sign * space.far().along(way.axis))
    }

    /// Whether lengths along this axis are seen.
    pub fn shows(&self, axis: Axis) -> bool {
        self.right.axis == axis || self.down.axis == axis
    }
}

/// The rectangle with these two corners.
pub(super) fn around(a: Point, b: Point) -> Rect {
    Rect::new(
        a.x.min(b.x),
        a.y.min(b.y),
        (a.x - b.x).abs(),
        (a.y - b.y).abs(),
    )
}

/// The smallest rectangle around both.
pub(super) fn union(a: Rect, b: Rect) -> Rect {
    let corner = Point::new(a.x.min(b.x), a.y.min(b.y));
    around(
        corner,
        Point::new(a.right().max(b.right()), a.bottom().max(b.bottom())),
    )
}

impl Face {
    /// The wall that is looked at.
    pub(super) fn wall(self) -> Wall {
        match self {
            Self::Floor => Wall::Floor,
            Self::Left => Wall::Left,
            Self::Right => Wall::Right,
            Self::Front => Wall::Front,
            Self::Rear => Wall::Rear,
        }
    }
}
