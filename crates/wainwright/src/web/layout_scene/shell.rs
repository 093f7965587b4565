//! Box, ribs, openings, drawbar and wheels of the scene. Not here: what stands in it.

use super::{Shown, box_place, extent_of, spot_of};
use crate::views::road::words;
use wainwright_analysis::frame::box_from_trailer;
use wainwright_analysis::result::road::{RoadResult, RoadTrailer};
use wainwright_drawing::scene::{
    Extent, Hitch, Leaf, Opening, Rib, RunningGear, Scene, Space, Wall,
};
use wainwright_model::{FieldExt, Id, Side, Swing};
use wainwright_units::frame::Point;
use wainwright_units::{Length, Quantity};

/// Drawn thickness of walls nobody measured [m].
const WALL: f64 = 0.04;
/// Drawn width of a rib [m].
const RIB: f64 = 0.03;
/// Drawn width of a tyre [m].
const TYRE: f64 = 0.2;
/// An opening in the rear at least so wide has two leaves [m].
const TWO_LEAVES: f64 = 1.1;
/// An opening that begins at least so high is no door [m].
const SILL: f64 = 0.35;
/// Most ribs drawn in one wall.
const MOST_RIBS: usize = 100;

/// Inside size of the box.
pub fn inside(road: &RoadResult) -> Option<Extent> {
    let trailer = &road.trailer;
    Some(Extent::new(
        trailer.inside_length.as_ref()?.value.metres(),
        trailer.inside_width.as_ref()?.value.metres(),
        trailer.inside_height.as_ref()?.value.metres(),
    ))
}

/// The empty trailer.
pub fn shell(shown: &Shown<'_>, inside: Extent) -> Scene {
    let own = &shown.project.trailer;
    Scene {
        inside,
        wall_m: own
            .wall_thickness
            .value()
            .map_or(WALL, |known| known.metres()),
        ribs: ribs(shown, inside),
        openings: openings(shown),
        hitch: hitch(shown.road),
        running_gear: running_gear(shown.road),
        ..Scene::default()
    }
}

/// Distances of the ribs from the front wall [m].
pub fn rib_places(shown: &Shown<'_>, inside: Extent) -> Vec<f64> {
    let spacing = shown.project.trailer.rib_spacing.value();
    let Some(spacing) = spacing
        .map(|known| known.metres())
        .filter(|metres| *metres > RIB)
    else {
        return Vec::new();
    };
    (0..MOST_RIBS)
        .map(|number| number as f64 * spacing)
        .take_while(|place| *place <= inside.along_m)
        .collect()
}

fn ribs(shown: &Shown<'_>, inside: Extent) -> Vec<Rib> {
    let places = rib_places(shown, inside);
    let walls = [Wall::Left, Wall::Right];
    let in_wall = |wall: Wall| {
        places.iter().map(move |place| Rib {
            wall,
            at_m: *place,
            width_m: RIB,
        })
    };
    walls.into_iter().flat_map(in_wall).collect()
}

fn hitch(road: &RoadResult) -> Option<Hitch> {
    let place = box_place(road)?;
    let height = road.trailer.coupling_height.as_ref()?.value;
    let ball = box_from_trailer(&place, Point::new(Length::ZERO, Length::ZERO, height));
    Some(Hitch {
        ball_ahead_m: -ball.from_front.metres(),
        ball_up_m: ball.above_floor.metres(),
    })
}

fn running_gear(road: &RoadResult) -> Option<RunningGear> {
    let trailer = &road.trailer;
    let place = box_place(road)?;
    let middle = trailer.ball_to_axle.as_ref()?.value;
    let middle = box_from_trailer(&place, Point::new(middle, Length::ZERO, Length::ZERO));
    Some(RunningGear {
        axles_from_front_m: axles(trailer, middle.from_front.metres()),
        wheel_radius_m: trailer.wheel_radius.as_ref()?.value.metres(),
        wheel_width_m: TYRE,
        track_m: trailer.track.as_ref()?.value.metres(),
        floor_above_ground_m: place.floor_height.metres(),
    })
}

fn axles(trailer: &RoadTrailer, middle: f64) -> Vec<f64> {
    let number = trailer
        .axles
        .as_ref()
        .map_or(1, |known| known.value.clamp(1, 3));
    let spacing = trailer
        .axle_spacing
        .as_ref()
        .map_or(0.0, |known| known.value.metres());
    let half = f64::from(number - 1) / 2.0;
    (0..number)
        .map(|axle| middle + (f64::from(axle) - half) * spacing)
        .collect()
}

fn openings(shown: &Shown<'_>) -> Vec<Opening> {
    let all = shown.project.openings.iter();
    all.filter_map(|(id, opening)| one(shown, id, opening))
        .collect()
}

fn one(shown: &Shown<'_>, id: &Id, opening: &wainwright_model::Opening) -> Option<Opening> {
    let wall = wall(*opening.wall.value()?);
    let space = Space {
        at: spot_of(*opening.spot.value()?),
        size: extent_of(*opening.size.value()?),
    };
    let swing = opening.swing.value().copied().unwrap_or(Swing::Fixed);
    let name = words::opening(shown.project, id.as_str());
    let is_window = space.at.up_m >= SILL;
    let blocked = shown.road.blocked.iter().find(|found| {
        matches!(&found.owner, wainwright_analysis::result::road::Blocker::Opening(other) if other == id)
    });
    let state = blocked.map_or_else(String::new, |found| {
        format!(
            "; blocked by {}",
            words::item(shown.project, found.by.as_str())
        )
    });
    let front = opening.spot.value()?.from_front;
    Some(Opening {
        id: id.to_string(),
        words: format!(
            "{name}, begins {} behind the front wall{state}",
            front.show(shown.units)
        ),
        label: name,
        leaf: leaf(swing, wall, &space, is_window),
        glazed: is_window,
        selected: false,
        wall,
        space,
    })
}

fn leaf(swing: Swing, wall: Wall, space: &Space, is_window: bool) -> Leaf {
    let outwards = swing == Swing::Out;
    match swing {
        Swing::Fixed => Leaf::Fixed,
        Swing::Slides => Leaf::Slides,
        Swing::Ramp => Leaf::Hinged {
            edge: Wall::Floor,
            outwards: true,
        },
        Swing::In | Swing::Out if is_window => Leaf::Hinged {
            edge: Wall::Roof,
            outwards,
        },
        Swing::In | Swing::Out => match wall {
            Wall::Rear if space.size.across_m >= TWO_LEAVES => Leaf::Double { outwards },
            Wall::Front | Wall::Rear => Leaf::Hinged {
                edge: Wall::Left,
                outwards,
            },
            _ => Leaf::Hinged {
                edge: Wall::Front,
                outwards,
            },
        },
    }
}

fn wall(side: Side) -> Wall {
    match side {
        Side::Front => Wall::Front,
        Side::Rear => Wall::Rear,
        Side::Left => Wall::Left,
        Side::Right => Wall::Right,
        Side::Roof => Wall::Roof,
        Side::Floor => Wall::Floor,
    }
}
