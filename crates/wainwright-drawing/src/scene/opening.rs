//! Doors, windows and vents: the hole in the wall, and what swings.

use super::data::{Leaf, Opening, Scene};
use super::frame::{Frame, around};
use super::measure::{Axis, Extent, Space, Spot, Wall};
use super::options::View;
use super::things::edges as edges_of;
use crate::board::Board;
use crate::geometry::{Point, Rect};
use crate::picture::Pen;
use crate::svg::writer::number;

/// How much of a leaf that folds towards the person who looks is drawn [m].
const STUB_M: f64 = 0.3;

/// A leaf seen from its edge: it turns around `hinge` from `closed` to `open`.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Swing {
    pub hinge: Spot,
    pub closed: Spot,
    pub open: Spot,
}

/// The part of a wall that an opening takes away.
pub(super) fn hole(opening: &Opening, scene: &Scene) -> Space {
    let (axis, outwards) = opening.wall.through();
    let inner = inner_face(opening.wall, &scene.inside);
    let outer = inner + outwards * scene.wall_m;
    opening
        .space
        .between(axis, inner.min(outer), inner.max(outer))
}

/// Inside face of a wall along the direction through it [m].
pub(super) fn inner_face(wall: Wall, inside: &Extent) -> f64 {
    match wall {
        Wall::Front | Wall::Left | Wall::Floor => 0.0,
        Wall::Rear => inside.along_m,
        Wall::Right => inside.across_m,
        Wall::Roof => inside.up_m,
    }
}

/// Leaves that are seen from their edge.
pub(super) fn swings(opening: &Opening, scene: &Scene, frame: &Frame) -> Vec<Swing> {
    let (through, _) = opening.wall.through();
    if !frame.shows(through) {
        return Vec::new();
    }
    match opening.leaf {
        Leaf::Fixed | Leaf::Slides => Vec::new(),
        Leaf::Hinged { edge, outwards } => swing(opening, scene, frame, edge, outwards, 1.0)
            .into_iter()
            .collect(),
        Leaf::Double { outwards } => edges(opening.wall)
            .into_iter()
            .filter_map(|edge| swing(opening, scene, frame, edge, outwards, 0.5))
            .collect(),
    }
}

/// The beginning of a leaf that folds out flat, e.g. a ramp seen from above.
pub(super) fn stub(opening: &Opening, scene: &Scene, frame: &Frame) -> Option<Space> {
    let Leaf::Hinged { edge, outwards } = opening.leaf else {
        return None;
    };
    let (through, sign) = opening.wall.through();
    if !frame.shows(through) || frame.shows(edge.through().0) || edge.through().0 == through {
        return None;
    }
    let hole = hole(opening, scene);
    let length = size(&hole, edge.through().0).min(STUB_M);
    let (near, far) = range(&hole, through);
    let out = if outwards { sign } else { -sign };
    let face = if out > 0.0 { far } else { near };
    let end = face + out * length;
    Some(hole.between(through, face.min(end), face.max(end)))
}

fn swing(
    opening: &Opening,
    scene: &Scene,
    frame: &Frame,
    edge: Wall,
    outwards: bool,
    share: f64,
) -> Option<Swing> {
    let (through, sign) = opening.wall.through();
    let (axis, end) = edge.through();
    if !frame.shows(axis) || axis == through {
        return None;
    }
    let hole = hole(opening, scene);
    let (low, high) = range(&hole, axis);
    let length = (high - low) * share;
    let (hinge, closed) = match end < 0.0 {
        true => (low, low + length),
        false => (high, high - length),
    };
    let (near, far) = range(&hole, through);
    let out = if outwards { sign } else { -sign };
    let face = if out > 0.0 { far } else { near };
    let hinge = hole.at.with(through, face).with(axis, hinge);
    Some(Swing {
        hinge,
        closed: hinge.with(axis, closed),
        open: hinge.with(through, face + out * length),
    })
}

/// The two upright edges of an opening in this wall.
fn edges(wall: Wall) -> [Wall; 2] {
    match wall {
        Wall::Front | Wall::Rear => [Wall::Left, Wall::Right],
        _ => [Wall::Front, Wall::Rear],
    }
}

fn range(space: &Space, axis: Axis) -> (f64, f64) {
    let (a, b) = (space.at.along(axis), space.far().along(axis));
    (a.min(b), a.max(b))
}

fn size(space: &Space, axis: Axis) -> f64 {
    let (low, high) = range(space, axis);
    high - low
}

/// Whether an opening is on this view at all: in a wall seen from its edge, in the
/// wall that is looked at, or overhead in the plan.
pub(super) fn shown(opening: &Opening, frame: &Frame, face: Wall) -> bool {
    let edgewise = frame.shows(opening.wall.through().0);
    let overhead = face == Wall::Floor && opening.wall == Wall::Roof;
    opening.space.known() && (edgewise || overhead || opening.wall == face)
}

/// Keeps texts away from open leaves and from the edges of holes.
pub(super) fn claim(board: &mut Board, scene: &Scene, view: &View, frame: &Frame) {
    for opening in &scene.openings {
        if !shown(opening, frame, view.face.wall()) {
            continue;
        }
        for swing in swings(opening, scene, frame) {
            board.line(frame.point(swing.hinge), frame.point(swing.open));
        }
        let rect = frame.rect(&hole(opening, scene));
        for [from, to] in edges_of(rect) {
            board.line(from, to);
        }
    }
}

/// Draws the hole and its leaves; the group around it is the caller's.
pub(super) fn draw(pen: &mut Pen, opening: &Opening, scene: &Scene, frame: &Frame) {
    let rect = frame.rect(&hole(opening, scene));
    let (through, _) = opening.wall.through();
    if !frame.shows(through) {
        return facing(pen, opening, frame, rect);
    }
    pen.out.rect("gap", rect, 0.0);
    let level = frame.down.axis == through;
    jambs(pen, rect, level);
    let middle = Point::new(rect.x + rect.width / 2.0, rect.y + rect.height / 2.0);
    let class = if opening.glazed {
        "pane dashed"
    } else {
        "pane"
    };
    let moves = matches!(opening.leaf, Leaf::Hinged { .. } | Leaf::Double { .. });
    let leaves = swings(opening, scene, frame);
    if opening.glazed || !moves || leaves.is_empty() {
        match level {
            true => pen.out.line(
                class,
                Point::new(rect.x, middle.y),
                Point::new(rect.right(), middle.y),
            ),
            false => pen.out.line(
                class,
                Point::new(middle.x, rect.y),
                Point::new(middle.x, rect.bottom()),
            ),
        }
    }
    for swing in leaves {
        let [hinge, closed, open] = [swing.hinge, swing.closed, swing.open].map(|s| frame.point(s));
        pen.out.line("leaf", hinge, open);
        pen.out.path("arc", &arc(hinge, closed, open));
    }
    if let Some(stub) = stub(opening, scene, frame) {
        pen.out.rect("arc", frame.rect(&stub), 0.0);
    }
}

/// The wall ends beside a hole.
fn jambs(pen: &mut Pen, rect: Rect, level: bool) {
    let corner = |x: f64, y: f64| Point::new(x, y);
    let (right, bottom) = (rect.right(), rect.bottom());
    if level {
        pen.out
            .line("jamb", corner(rect.x, rect.y), corner(rect.x, bottom));
        pen.out
            .line("jamb", corner(right, rect.y), corner(right, bottom));
    } else {
        pen.out
            .line("jamb", corner(rect.x, rect.y), corner(right, rect.y));
        pen.out
            .line("jamb", corner(rect.x, bottom), corner(right, bottom));
    }
}

/// An opening in the wall that is looked at; thin lines meet at the hinges.
fn facing(pen: &mut Pen, opening: &Opening, frame: &Frame, rect: Rect) {
    let class = match opening.glazed || opening.wall == Wall::Roof {
        true => "hole dashed",
        false => "hole",
    };
    pen.out.rect(class, rect, 0.0);
    let hinges = match opening.leaf {
        Leaf::Hinged { edge, .. } => vec![(edge, 1.0)],
        Leaf::Double { .. } => edges(opening.wall).map(|edge| (edge, 0.5)).to_vec(),
        _ => Vec::new(),
    };
    for (edge, share) in hinges {
        let (axis, end) = edge.through();
        let (x, y) = (rect.x, rect.y);
        if axis == frame.right.axis {
            let at_right = end * frame.right.sign > 0.0;
            let (hinge, latch) = match at_right {
                true => (rect.right(), rect.right() - rect.width * share),
                false => (x, x + rect.width * share),
            };
            let tip = Point::new(hinge, y + rect.height / 2.0);
            pen.out.line("arc", Point::new(latch, y), tip);
            pen.out.line("arc", Point::new(latch, rect.bottom()), tip);
        } else if axis == frame.down.axis {
            let at_bottom = end * frame.down.sign > 0.0;
            let (hinge, latch) = if at_bottom {
                (rect.bottom(), y)
            } else {
                (y, rect.bottom())
            };
            let tip = Point::new(x + rect.width / 2.0, hinge);
            pen.out.line("arc", Point::new(x, latch), tip);
            pen.out.line("arc", Point::new(rect.right(), latch), tip);
        }
    }
}

/// A quarter of a circle around `hinge`.
fn arc(hinge: Point, closed: Point, open: Point) -> String {
    let radius = (closed.x - hinge.x).hypot(closed.y - hinge.y);
    let turn =
        (closed.x - hinge.x) * (open.y - hinge.y) - (closed.y - hinge.y) * (open.x - hinge.x);
    let points = [closed.x, closed.y, open.x, open.y].map(number);
    let [x, y, end_x, end_y] = points.each_ref().map(String::as_str);
    let radius = number(radius);
    let sweep = u8::from(turn > 0.0);
    format!("M{x} {y}A{radius} {radius} 0 0 {sweep} {end_x} {end_y}")
}

/// The box of what is drawn, for its label and for the size of the sheet.
pub(super) fn extent(opening: &Opening, scene: &Scene, frame: &Frame) -> Rect {
    let mut rect = frame.rect(&hole(opening, scene));
    for swing in swings(opening, scene, frame) {
        let [hinge, closed, open] = [swing.hinge, swing.closed, swing.open].map(|s| frame.point(s));
        for corner in [hinge, closed, open] {
            rect = super::frame::union(rect, around(corner, corner));
        }
    }
    if let Some(stub) = stub(opening, scene, frame) {
        rect = super::frame::union(rect, frame.rect(&stub));
    }
    rect
}
