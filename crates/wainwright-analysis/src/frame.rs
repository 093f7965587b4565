//! The one conversion between the two ways of saying where something is: as a tape measure gives it in the box
//! (from the front wall, from the left wall, above the floor), and in the trailer frame (backwards from the ball,
//! left of the centre line, up from the ground). Not here: where the box itself is.

use wainwright_model::{Extent, Spot};
use wainwright_units::Length;
use wainwright_units::frame::{Point, Vector};

/// Where the box is in the trailer frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoxPlace {
    /// From the centre of the hitch ball back to the inside of the front wall.
    pub ball_to_front: Length,
    /// Inside width between the walls.
    pub inside_width: Length,
    /// Height of the floor over the ground.
    pub floor_height: Length,
}

/// The point in the trailer frame of a spot in the box.
#[must_use]
pub fn trailer_from_box(place: &BoxPlace, spot: Spot) -> Point {
    Point::new(
        place.ball_to_front + spot.from_front,
        place.inside_width * 0.5 - spot.from_left,
        place.floor_height + spot.above_floor,
    )
}

/// The spot in the box of a point in the trailer frame.
#[must_use]
pub fn box_from_trailer(place: &BoxPlace, point: Point) -> Spot {
    Spot {
        from_front: point.x - place.ball_to_front,
        from_left: place.inside_width * 0.5 - point.y,
        above_floor: point.z - place.floor_height,
    }
}

/// The centre in the trailer frame of a thing whose front left lower corner and size are given.
#[must_use]
pub fn centre_from_corner(place: &BoxPlace, corner: Spot, size: Extent) -> Point {
    let half = Spot {
        from_front: corner.from_front + size.along * 0.5,
        from_left: corner.from_left + size.across * 0.5,
        above_floor: corner.above_floor + size.up * 0.5,
    };
    trailer_from_box(place, half)
}

/// The front left lower corner of a thing whose centre in the trailer frame and size are given.
#[must_use]
pub fn corner_from_centre(place: &BoxPlace, centre: Point, size: Extent) -> Spot {
    let spot = box_from_trailer(place, centre);
    Spot {
        from_front: spot.from_front - size.along * 0.5,
        from_left: spot.from_left - size.across * 0.5,
        above_floor: spot.above_floor - size.up * 0.5,
    }
}

/// A size as the trailer frame has it: along x, across y, up z.
#[must_use]
pub const fn vector_from_extent(size: Extent) -> Vector {
    Vector::new(size.along, size.across, size.up)
}
