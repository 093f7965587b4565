//! The box round the routes: which wall a stretch runs on, how far from its
//! edges, which openings it runs across.

use super::find::FoundLeg;
use crate::result::{Leg, Measure, Stretch};
use wainwright_model::{FieldExt, Id, Project, Side, Spot};
use wainwright_units::Length;

/// A stretch no further from a wall all along runs on it \[m\] (judgement: the
/// depth of a cable duct and of what it is fixed to).
const NEAR: f64 = 0.15;
/// Running along the edge of an opening is not running across it \[m\].
const EDGE: f64 = 1e-3;
/// In a corner the wall counts before the roof, the roof before the floor.
const ORDER: [Side; 6] = [
    Side::Left,
    Side::Right,
    Side::Front,
    Side::Rear,
    Side::Roof,
    Side::Floor,
];

/// The box and its openings.
pub(super) struct Space {
    /// Inside length, width and height, where they are known \[m\].
    inside: [Option<f64>; 3],
    /// Thickness of the walls \[m\]; nothing where nobody said.
    pub(super) wall: f64,
    openings: Vec<Rect>,
}

/// An opening as a rectangle on its wall.
struct Rect {
    id: Id,
    wall: Side,
    low: [f64; 2],
    high: [f64; 2],
}

impl Space {
    pub(super) fn new(project: &Project) -> Self {
        let trailer = &project.trailer;
        let metres = |field: &wainwright_model::Field<Length>| field.value().map(|l| l.metres());
        Self {
            inside: [
                metres(&trailer.inside_length),
                metres(&trailer.inside_width),
                metres(&trailer.inside_height),
            ],
            wall: metres(&trailer.wall_thickness).unwrap_or(0.0),
            openings: openings(project),
        }
    }

    /// A leg as the engine found it.
    pub(super) fn leg(&self, leg: &FoundLeg, loaded: u32, ids: &dyn Fn(usize) -> Id) -> Leg {
        let stretches = self.stretches(&leg.points);
        Leg {
            trunk: leg.trunk.map(ids),
            length: length(&stretches),
            stretches,
            loaded,
        }
    }

    /// Straight stretches from point to point.
    pub(super) fn stretches(&self, points: &[Spot]) -> Vec<Stretch> {
        let pairs = points.windows(2).filter_map(|pair| match pair {
            [from, to] => Some(self.stretch(*from, *to)),
            _ => None,
        });
        pairs
            .filter(|stretch| stretch.length.metres() > 0.0)
            .collect()
    }

    fn stretch(&self, from: Spot, to: Spot) -> Stretch {
        let near = ORDER.iter().filter_map(|side| {
            let off = self.off(*side, from)?.max(self.off(*side, to)?);
            (off <= NEAR).then_some((*side, off))
        });
        let best = near.fold(None, |best: Option<(Side, f64)>, (side, off)| match best {
            Some((_, least)) if least <= off + 1e-9 => best,
            _ => Some((side, off)),
        });
        let on = best.map(|(side, _)| side);
        let measure = |edge: Side| Measure {
            edge,
            from: from_edge(edge, from),
            to: from_edge(edge, to),
        };
        let edges = edges(on);
        Stretch {
            from,
            to,
            length: distance(from, to),
            on,
            off: Length::from_metres(best.map_or(0.0, |(_, off)| off)),
            measures: edges.iter().copied().map(measure).collect(),
        }
    }

    /// Distance of a spot from the inside of a wall, where the wall is known \[m\].
    fn off(&self, side: Side, spot: Spot) -> Option<f64> {
        let (axis, far) = axis(side);
        let plane = if far { self.inside[axis]? } else { 0.0 };
        Some((coordinates(spot)[axis] - plane).abs())
    }

    /// Inside dimension along an axis, where it is known \[m\].
    pub(super) fn inside(&self, axis: usize) -> Option<f64> {
        self.inside[axis]
    }

    /// Openings that a stretch runs across.
    pub(super) fn crossed(&self, stretch: &Stretch) -> Vec<Id> {
        let Some(on) = stretch.on else {
            return Vec::new();
        };
        let ends = [stretch.from, stretch.to].map(|spot| on_wall(on, coordinates(spot)));
        let hit = |rect: &&Rect| rect.wall == on && meets(ends, rect);
        let hit = self.openings.iter().filter(hit);
        hit.map(|rect| rect.id.clone()).collect()
    }

    /// Openings that the way of a wire runs across, each once. The opening
    /// that a thing at its end sits in, as a fan in its hole, is not one.
    pub(super) fn crosses_between<'a>(
        &self,
        stretches: impl Iterator<Item = &'a Stretch> + Clone,
    ) -> Vec<Id> {
        let first = stretches.clone().next().map(|stretch| stretch.from);
        let last = stretches.clone().last().map(|stretch| stretch.to);
        let ends: Vec<Spot> = first.into_iter().chain(last).collect();
        let home = |id: &Id| {
            let rect = self.openings.iter().find(|rect| rect.id == *id);
            rect.is_some_and(|rect| ends.iter().any(|end| self.sits_in(*end, rect)))
        };
        let mut crossed = self.crosses(stretches);
        crossed.retain(|id| !home(id));
        crossed
    }

    fn sits_in(&self, end: Spot, rect: &Rect) -> bool {
        let near = self.off(rect.wall, end).is_some_and(|off| off <= NEAR);
        let at = on_wall(rect.wall, coordinates(end));
        let inside = |axis: usize| rect.low[axis] <= at[axis] && at[axis] <= rect.high[axis];
        near && inside(0) && inside(1)
    }

    /// Openings that any of these stretches runs across, each once.
    pub(super) fn crosses<'a>(&self, stretches: impl Iterator<Item = &'a Stretch>) -> Vec<Id> {
        let mut crossed: Vec<Id> = Vec::new();
        for id in stretches.flat_map(|stretch| self.crossed(stretch)) {
            if !crossed.contains(&id) {
                crossed.push(id);
            }
        }
        crossed
    }
}

/// Length of all stretches.
pub(super) fn length(stretches: &[Stretch]) -> Length {
    stretches
        .iter()
        .fold(Length::ZERO, |sum, stretch| sum + stretch.length)
}

/// From the front, from the left, above the floor \[m\].
pub(super) fn coordinates(spot: Spot) -> [f64; 3] {
    [spot.from_front, spot.from_left, spot.above_floor].map(Length::metres)
}

/// A spot at these coordinates \[m\].
pub(super) fn spot([from_front, from_left, above_floor]: [f64; 3]) -> Spot {
    Spot {
        from_front: Length::from_metres(from_front),
        from_left: Length::from_metres(from_left),
        above_floor: Length::from_metres(above_floor),
    }
}

/// Coordinates to the millimetre.
pub(crate) fn millimetres(spot: Spot) -> [i64; 3] {
    #[allow(clippy::cast_possible_truncation, reason = "lengths are within 100 m")]
    coordinates(spot).map(|metres| (metres * 1000.0).round() as i64)
}

/// Axis a side stands across, and whether it is the far one.
pub(super) const fn axis(side: Side) -> (usize, bool) {
    match side {
        Side::Front => (0, false),
        Side::Rear => (0, true),
        Side::Left => (1, false),
        Side::Right => (1, true),
        Side::Floor => (2, false),
        Side::Roof => (2, true),
    }
}

/// The edges that distances on a wall are measured from.
const fn edges(on: Option<Side>) -> &'static [Side] {
    match on {
        Some(Side::Left | Side::Right) => &[Side::Front, Side::Floor],
        Some(Side::Front | Side::Rear) => &[Side::Left, Side::Floor],
        Some(Side::Roof | Side::Floor) => &[Side::Front, Side::Left],
        None => &[Side::Front, Side::Left, Side::Floor],
    }
}

fn from_edge(edge: Side, spot: Spot) -> Length {
    match edge {
        Side::Front | Side::Rear => spot.from_front,
        Side::Left | Side::Right => spot.from_left,
        Side::Floor | Side::Roof => spot.above_floor,
    }
}

fn distance(from: Spot, to: Spot) -> Length {
    let (from, to) = (coordinates(from), coordinates(to));
    Length::from_metres(
        (to[0] - from[0])
            .hypot(to[1] - from[1])
            .hypot(to[2] - from[2]),
    )
}

/// The two coordinates that lie in the plane of a wall.
fn on_wall(wall: Side, [x, y, z]: [f64; 3]) -> [f64; 2] {
    match axis(wall).0 {
        0 => [y, z],
        1 => [x, z],
        _ => [x, y],
    }
}

fn openings(project: &Project) -> Vec<Rect> {
    let rect = |(id, opening): (&Id, &wainwright_model::Opening)| {
        let wall = *opening.wall.value()?;
        let spot = coordinates(*opening.spot.value()?);
        let size = opening.size.value()?;
        let size = [size.along, size.across, size.up].map(Length::metres);
        let far = [0, 1, 2].map(|axis| spot[axis] + size[axis]);
        Some(Rect {
            id: id.clone(),
            wall,
            low: on_wall(wall, spot),
            high: on_wall(wall, far),
        })
    };
    project.openings.iter().filter_map(rect).collect()
}

/// Whether a straight line meets the inside of a rectangle: what is left of
/// the line between each pair of edges (Liang and Barsky, 1984).
fn meets([from, to]: [[f64; 2]; 2], rect: &Rect) -> bool {
    let (mut enter, mut leave) = (0.0_f64, 1.0_f64);
    for axis in [0, 1] {
        let (low, high) = (rect.low[axis] + EDGE, rect.high[axis] - EDGE);
        let step = to[axis] - from[axis];
        if step.abs() < 1e-12 {
            if from[axis] <= low || from[axis] >= high {
                return false;
            }
            continue;
        }
        let one = (low - from[axis]) / step;
        let other = (high - from[axis]) / step;
        enter = enter.max(one.min(other));
        leave = leave.min(one.max(other));
    }
    enter < leave
}
