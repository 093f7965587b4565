//! The box itself: walls, ribs, drawbar, axles, wheels, ground. Not here: openings.

use super::data::{Hitch, Rib, RunningGear, Scene};
use super::frame::{Frame, around, union};
use super::measure::{Axis, Space, Spot, Wall};
use super::opening::inner_face;
use super::options::{Face, View};
use crate::board::Board;
use crate::geometry::{Point, Rect};
use crate::picture::Pen;
use crate::svg::writer::number;

/// Width of a drawn drawbar beam [m].
const BEAM_M: f64 = 0.05;

/// The inside of the box.
pub(super) fn inside(scene: &Scene) -> Space {
    Space {
        at: Spot::default(),
        size: scene.inside,
    }
}

/// The box with its walls.
pub(super) fn outside(scene: &Scene) -> Space {
    let wall = scene.wall_m;
    let far = inside(scene).far();
    Space::spanning(
        Spot::new(-wall, -wall, -wall),
        Spot::new(
            far.from_front_m + wall,
            far.from_left_m + wall,
            far.up_m + wall,
        ),
    )
}

/// Whether wheels and drawbar are seen: not from inside the box.
pub(super) fn open_air(view: &View) -> bool {
    view.face == Face::Floor || !view.inside
}

/// Everything the shell covers on the sheet.
pub(super) fn extent(scene: &Scene, view: &View, frame: &Frame) -> Rect {
    let mut rect = frame.rect(&outside(scene));
    if !open_air(view) {
        return rect;
    }
    if let Some(hitch) = &scene.hitch
        && frame.shows(Axis::Along)
    {
        let margin = BEAM_M * frame.units_per_m;
        let ball = frame.point(ball(scene, hitch));
        rect = union(
            rect,
            Rect::new(ball.x - margin, ball.y - margin, 2.0 * margin, 2.0 * margin),
        );
    }
    if let Some(gear) = &scene.running_gear {
        for wheel in wheels(scene, gear) {
            rect = union(rect, frame.rect(&wheel));
        }
    }
    rect
}

/// Keeps texts off walls, wheels and drawbar.
pub(super) fn claim(board: &mut Board, scene: &Scene, view: &View, frame: &Frame) {
    let (out, within) = (frame.rect(&outside(scene)), frame.rect(&inside(scene)));
    let (wide, high) = (within.x - out.x, within.y - out.y);
    board.wall(Rect::new(out.x, out.y, out.width, high));
    board.wall(Rect::new(out.x, within.bottom(), out.width, high));
    board.wall(Rect::new(out.x, out.y, wide, out.height));
    board.wall(Rect::new(within.right(), out.y, wide, out.height));
    if !open_air(view) {
        return;
    }
    let wheels = scene
        .running_gear
        .iter()
        .flat_map(|gear| wheels(scene, gear));
    for rect in wheels.map(|wheel| frame.rect(&wheel)) {
        // The part under the floor is not seen.
        match rect.y + rect.height / 2.0 < within.y + within.height / 2.0 {
            _ if rect.y >= out.bottom() || rect.bottom() <= out.y => board.wall(rect),
            true => board.wall(around(
                Point::new(rect.x, rect.y),
                Point::new(rect.right(), out.y),
            )),
            false => board.wall(around(
                Point::new(rect.x, out.bottom()),
                Point::new(rect.right(), rect.bottom()),
            )),
        }
    }
    if let Some(hitch) = &scene.hitch
        && frame.shows(Axis::Along)
    {
        for foot in feet(scene, hitch, view) {
            board.line(frame.point(foot), frame.point(ball(scene, hitch)));
        }
    }
}

/// Draws what lies under the box: drawbar, axles, wheels, ground.
pub(super) fn draw_below(pen: &mut Pen, scene: &Scene, view: &View, frame: &Frame) {
    if !open_air(view) {
        return;
    }
    if let Some(hitch) = &scene.hitch
        && frame.shows(Axis::Along)
    {
        drawbar(pen, scene, hitch, view, frame);
    }
    let Some(gear) = &scene.running_gear else {
        return;
    };
    for wheel in wheels(scene, gear) {
        let rect = frame.rect(&wheel);
        if frame.shows(Axis::Along) && frame.shows(Axis::Up) {
            let middle = Point::new(rect.x + rect.width / 2.0, rect.y + rect.height / 2.0);
            pen.out.circle("wheel", middle, rect.height / 2.0);
            pen.out.circle("rim", middle, rect.height * 0.2);
        } else {
            pen.out
                .rect("wheel", rect, rect.width.min(rect.height) * 0.25);
        }
    }
    if frame.shows(Axis::Up) {
        let edge = extent(scene, view, frame);
        let ground = frame.point(Spot::new(0.0, 0.0, -gear.floor_above_ground_m));
        pen.out.line(
            "ground",
            Point::new(edge.x, ground.y),
            Point::new(edge.right(), ground.y),
        );
    }
}

/// Draws the walls as a band, and their ribs.
pub(super) fn draw_walls(pen: &mut Pen, scene: &Scene, view: &View, frame: &Frame) {
    let (out, within) = (frame.rect(&outside(scene)), frame.rect(&inside(scene)));
    pen.out
        .path("walls", &format!("{}{}", ring(out), ring(within)));
    for rib in &scene.ribs {
        let Some(space) = rib_space(scene, rib) else {
            continue;
        };
        let edgewise = frame.shows(rib.wall.through().0) && frame.shows(rib_axis(rib.wall));
        if edgewise {
            pen.out.rect("rib", frame.rect(&space), 0.0);
        } else if rib.wall == view.face.wall() && view.face != Face::Floor {
            pen.out.rect("rib facing", frame.rect(&space), 0.0);
        }
    }
}

/// Draws the axles over the floor: where the load is carried.
pub(super) fn draw_axles(pen: &mut Pen, scene: &Scene, view: &View, frame: &Frame) {
    let Some(gear) = &scene.running_gear else {
        return;
    };
    if view.face != Face::Floor {
        return;
    }
    for axle in axles(gear) {
        let middle = scene.inside.across_m / 2.0;
        let half = gear.track_m / 2.0;
        pen.out.line(
            "axle",
            frame.point(Spot::new(axle, middle - half, 0.0)),
            frame.point(Spot::new(axle, middle + half, 0.0)),
        );
    }
}

fn ring(rect: Rect) -> String {
    let [x, y, right, bottom] = [rect.x, rect.y, rect.right(), rect.bottom()].map(number);
    format!("M{x} {y}H{right}V{bottom}H{x}Z")
}

/// The direction in which ribs of a wall follow each other.
fn rib_axis(wall: Wall) -> Axis {
    match wall {
        Wall::Front | Wall::Rear => Axis::Across,
        _ => Axis::Along,
    }
}

fn rib_space(scene: &Scene, rib: &Rib) -> Option<Space> {
    let (through, out) = rib.wall.through();
    let inner = inner_face(rib.wall, &scene.inside);
    let outer = inner + out * scene.wall_m;
    let half = (rib.width_m / 2.0).max(0.002);
    let band = inside(scene).between(through, inner.min(outer), inner.max(outer));
    let space = band.between(rib_axis(rib.wall), rib.at_m - half, rib.at_m + half);
    space.known().then_some(space)
}

fn axles(gear: &RunningGear) -> impl Iterator<Item = f64> {
    let fits = |metres: &f64| metres.is_finite() && metres.abs() < 100.0;
    gear.axles_from_front_m.iter().copied().filter(fits)
}

fn wheels(scene: &Scene, gear: &RunningGear) -> Vec<Space> {
    let middle = scene.inside.across_m / 2.0;
    let (radius, half) = (gear.wheel_radius_m, gear.wheel_width_m / 2.0);
    let mut wheels = Vec::new();
    for axle in axles(gear) {
        for side in [-1.0, 1.0] {
            let centre = middle + side * gear.track_m / 2.0;
            let low = -gear.floor_above_ground_m;
            let space = Space::spanning(
                Spot::new(axle - radius, centre - half, low),
                Spot::new(axle + radius, centre + half, low + 2.0 * radius),
            );
            if space.known() && radius > 0.0 && radius < 3.0 {
                wheels.push(space);
            }
        }
    }
    wheels
}

fn ball(scene: &Scene, hitch: &Hitch) -> Spot {
    Spot::new(
        -hitch.ball_ahead_m,
        scene.inside.across_m / 2.0,
        hitch.ball_up_m,
    )
}

/// Where the beams of the drawbar meet the box.
fn feet(scene: &Scene, hitch: &Hitch, view: &View) -> Vec<Spot> {
    let wall = -scene.wall_m;
    if view.face != Face::Floor {
        let ball = ball(scene, hitch);
        return vec![Spot::new(wall, ball.from_left_m, ball.up_m)];
    }
    let foot = |share: f64| Spot::new(wall, scene.inside.across_m * share, 0.0);
    [0.18, 0.82].map(foot).to_vec()
}

fn drawbar(pen: &mut Pen, scene: &Scene, hitch: &Hitch, view: &View, frame: &Frame) {
    let ball = ball(scene, hitch);
    for foot in feet(scene, hitch, view) {
        pen.out.line("beam", frame.point(foot), frame.point(ball));
    }
    let at = frame.point(ball);
    pen.out
        .circle("ball", at, (BEAM_M * frame.units_per_m).clamp(4.0, 9.0));
}
