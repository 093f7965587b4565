//! How large the scene becomes and where it lies on the sheet.

use super::data::Scene;
use super::dimension::Rows;
use super::frame::{Frame, union};
use super::measure::{Extent, Space};
use super::opening;
use super::options::{Fit, Options, View};
use super::shell;
use crate::board::{contains, grown};
use crate::geometry::{Point, Rect};

/// Smallest drawn length of the longer side of the box [px].
const SMALLEST: f64 = 60.0;
/// Least width of a list beside the drawing [px].
pub(super) const LIST_WIDTH: f64 = 190.0;
/// How often the size is found anew because the rows of dimensions changed.
const ROUNDS: usize = 5;

/// The scene in its size.
#[derive(Debug)]
pub(super) struct Stage<'a> {
    /// What can be drawn of the scene.
    pub scene: Scene,
    pub view: &'a View,
    pub frame: Frame,
    /// What the drawing covers.
    pub content: Rect,
    /// Free edge around the drawing, for texts.
    pub rim: f64,
    pub rows: Rows,
    /// Width of the sheet.
    pub width: f64,
    /// Names of things too far away.
    pub elsewhere: Vec<String>,
    /// There is room for the list beside the drawing.
    pub room_beside: bool,
}

impl<'a> Stage<'a> {
    /// Finds the size of `scene`.
    pub fn new(scene: &Scene, view: &'a View, options: &Options) -> Self {
        let mut scene = drawable(scene);
        let unit = Frame::of(view);
        let elsewhere = drop_far(&mut scene, view, &unit);
        let bounds = bounds(&scene, view, &unit);
        let crowded =
            !scene.things.is_empty() || !scene.points.is_empty() || !scene.routes.is_empty();
        let (width, height) = match options.fit {
            Fit::Within { width, height } => (sane(width, 200.0), sane(height, 120.0)),
            Fit::Scale { .. } => (f64::INFINITY, f64::INFINITY),
        };
        let rim = if crowded {
            (width * 0.035).clamp(16.0, 34.0)
        } else {
            12.0
        };
        let smallest = SMALLEST / bounds.width.max(bounds.height);
        let mut scale = match options.fit {
            Fit::Scale { units_per_m } => sane(units_per_m, smallest),
            Fit::Within { .. } => smallest,
        };
        let (mut frame, mut rows) = (unit, Rows::default());
        for _ in 0..ROUNDS {
            if let Fit::Within { .. } = options.fit {
                let wide = (width - 2.0 * rim - rows.width()) / bounds.width;
                let high = (height - 2.0 * rim - rows.height()) / bounds.height;
                scale = wide.min(high).max(smallest);
            }
            frame = placed(unit, bounds, scale, Point::new(rim, rim));
            let content = scaled(bounds, scale, Point::new(rim, rim));
            let across = (2.0, content.right() + rim);
            rows = Rows::new(&scene, &frame, across, (2.0, content.bottom() + rim));
        }
        let content = scaled(bounds, scale, Point::new(rim, rim));
        let used = content.right() + rim + rows.width();
        let spare = if width.is_finite() { width - used } else { 0.0 };
        Self {
            scene,
            view,
            frame,
            content,
            rim,
            rows,
            width: used,
            elsewhere,
            room_beside: spare >= LIST_WIDTH,
        }
    }

    /// The lower right corner from which the rows of dimensions are counted.
    pub fn edge(&self) -> Point {
        Point::new(
            self.content.right() + self.rim,
            self.content.bottom() + self.rim,
        )
    }

    /// Where texts may stand.
    pub fn area(&self) -> Rect {
        let edge = self.edge();
        let left = self.content.x - self.rim + 2.0;
        Rect::new(left, 2.0, edge.x - left, edge.y - 2.0)
    }
}

/// A size, or `least` if it is smaller or no number at all.
fn sane(value: f64, least: f64) -> f64 {
    if value.is_finite() && value > least {
        value.min(1e6)
    } else {
        least
    }
}

fn placed(unit: Frame, bounds: Rect, scale: f64, corner: Point) -> Frame {
    Frame {
        units_per_m: scale,
        origin: Point::new(corner.x - bounds.x * scale, corner.y - bounds.y * scale),
        ..unit
    }
}

fn scaled(bounds: Rect, scale: f64, corner: Point) -> Rect {
    Rect::new(
        corner.x,
        corner.y,
        bounds.width * scale,
        bounds.height * scale,
    )
}

/// The scene without what cannot be drawn.
fn drawable(scene: &Scene) -> Scene {
    let mut scene = scene.clone();
    let size = |metres: f64| {
        if metres.is_finite() {
            metres.clamp(0.1, 100.0)
        } else {
            1.0
        }
    };
    let inside = &scene.inside;
    scene.inside = Extent::new(
        size(inside.along_m),
        size(inside.across_m),
        size(inside.up_m),
    );
    scene.wall_m = match scene.wall_m.is_finite() {
        true => scene.wall_m.clamp(0.01, 1.0),
        false => 0.05,
    };
    let far = |metres: f64| metres.is_finite() && metres.abs() < 50.0;
    scene.hitch = scene
        .hitch
        .filter(|hitch| far(hitch.ball_ahead_m) && far(hitch.ball_up_m));
    scene.running_gear = scene.running_gear.filter(|gear| {
        far(gear.track_m)
            && far(gear.wheel_width_m)
            && far(gear.wheel_radius_m)
            && far(gear.floor_above_ground_m)
    });
    scene.openings.retain(|opening| opening.space.known());
    scene.points.retain(|point| point.at.known());
    for point in &mut scene.points {
        point.travel.retain(super::measure::Spot::known);
    }
    for zone in &mut scene.zones {
        zone.spaces.retain(Space::known);
    }
    scene.zones.retain(|zone| !zone.spaces.is_empty());
    for trunk in &mut scene.trunks {
        trunk.path.retain(super::measure::Spot::known);
    }
    for route in &mut scene.routes {
        route.path.retain(super::measure::Spot::known);
    }
    scene
}

/// Takes out what is too far from the trailer to be drawn, and names it.
fn drop_far(scene: &mut Scene, view: &View, unit: &Frame) -> Vec<String> {
    let shell = shell::extent(scene, view, unit);
    let limit = grown(shell, 0.5 * shell.width.max(shell.height));
    let near = |space: &Space| contains(&limit, &unit.rect(space));
    let near_spot = |spot: &super::measure::Spot| {
        near(&Space {
            at: *spot,
            size: Extent::default(),
        })
    };
    let mut names = Vec::new();
    let mut check = |fits: bool, name: &String| {
        if !fits && !name.is_empty() {
            names.push(name.clone());
        }
        fits
    };
    scene
        .things
        .retain(|thing| check(thing.space.known() && near(&thing.space), &thing.label));
    scene
        .points
        .retain(|point| check(near_spot(&point.at), &point.label));
    scene
        .openings
        .retain(|opening| check(near(&opening.space), &opening.label));
    scene
        .zones
        .retain(|zone| check(zone.spaces.iter().all(near), &zone.label));
    scene
        .trunks
        .retain(|trunk| check(trunk.path.iter().all(near_spot), &trunk.label));
    scene
        .routes
        .retain(|route| check(route.path.iter().all(near_spot), &route.label));
    for point in &mut scene.points {
        point.travel.retain(near_spot);
    }
    scene
        .dimensions
        .retain(|d| near_spot(&d.from) && near_spot(&d.to));
    names
}

/// What the drawing covers, in metres.
fn bounds(scene: &Scene, view: &View, unit: &Frame) -> Rect {
    let mut rect = shell::extent(scene, view, unit);
    for opening in &scene.openings {
        if opening::shown(opening, unit, view.face.wall()) {
            rect = union(rect, opening::extent(opening, scene, unit));
        }
    }
    let things = scene.things.iter().map(|thing| unit.rect(&thing.space));
    let zones = scene
        .zones
        .iter()
        .flat_map(|zone| &zone.spaces)
        .map(|space| unit.rect(space));
    let spots = scene
        .points
        .iter()
        .flat_map(|point| std::iter::once(&point.at).chain(&point.travel));
    let corners = scene.routes.iter().flat_map(|route| &route.path);
    let corners = corners.chain(scene.trunks.iter().flat_map(|trunk| &trunk.path));
    let single = spots.chain(corners).map(|spot| {
        let at = unit.point(*spot);
        Rect::new(at.x, at.y, 0.0, 0.0)
    });
    for part in things.chain(zones).chain(single) {
        rect = union(rect, part);
    }
    rect
}
