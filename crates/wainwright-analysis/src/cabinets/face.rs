//! The face of a cabinet as somebody sees it who stands before it, and the devices on it and behind it. Not here:
//! what is drawn for it (`template`).

use super::Built;
use super::heat::DeviceHeat;
use crate::result::cabinet::{CabinetDevice, CabinetFace, ClearFit, DepthFit, FaceHole, FaceRect};
use wainwright_model::{Extent, FieldExt, Id, Item, MountedOn, Side, Spot};
use wainwright_units::Length;

/// Less than this is touching, not overlapping \[m\].
const TOUCHING: f64 = 0.001;

/// A block in the box: from the front wall, from the left wall, above the floor.
#[derive(Debug, Clone, Copy, PartialEq)]
struct Block {
    low: [f64; 3],
    high: [f64; 3],
}

/// The face; `None` without a size.
pub(super) fn face(built: &Built<'_>) -> Option<CabinetFace> {
    let (_, size) = built.place?;
    let side = built.faces.value;
    let (across, up, behind) = axes(side);
    let extent = [size.along, size.across, size.up];
    let length = |axis: usize| extent.get(axis).copied().unwrap_or(Length::ZERO);
    let (width, height, board) = (length(across), length(up), built.board.value);
    Some(CabinetFace {
        width,
        height,
        depth: length(behind),
        board: FaceRect {
            x: -board,
            y: -board,
            width: width + board * 2.0,
            height: height + board * 2.0,
        },
    })
}

/// A device of the cabinet.
pub(super) fn device(built: &Built<'_>, id: &Id, item: &Item, heat: &DeviceHeat) -> CabinetDevice {
    let body = &item.body;
    let own = Block::of_item(item);
    let cabinet = built.place.map(|(spot, size)| Block::new(spot, size));
    let both = cabinet.zip(own);
    let side = built.faces.value;
    let rect = both.map(|(cabinet, own)| project(side, cabinet, own));
    CabinetDevice {
        item: id.clone(),
        label: built.project.label_or_id("item", id.as_str()).to_owned(),
        mounted: body.mounted_on.value().copied(),
        rect,
        behind: both.map(|(cabinet, own)| Length::from_metres(behind(side, cabinet, own))),
        hole: rect.and_then(|rect| hole(item, rect)),
        inside: both.map(|(cabinet, own)| cabinet.holds(own)),
        depth: depth(built, item),
        clear: clear(built, id, item),
        heat: heat.all(),
        heat_from: heat.from,
    }
}

/// Pairs on the same face or board in the same place.
pub(super) fn overlaps(devices: &[CabinetDevice]) -> Vec<(Id, Id)> {
    let mut found = Vec::new();
    for (place, one) in devices.iter().enumerate() {
        for other in devices.iter().skip(place + 1) {
            let same = one.mounted.is_some() && one.mounted == other.mounted;
            let over = one
                .rect
                .zip(other.rect)
                .is_some_and(|(one, other)| overlap(one, other));
            if same && over {
                found.push((one.item.clone(), other.item.clone()));
            }
        }
    }
    found
}

fn overlap(one: FaceRect, other: FaceRect) -> bool {
    let along = |a: Length, wide: Length, b: Length, other: Length| {
        (a + wide).min(b + other).metres() - a.max(b).metres() > TOUCHING
    };
    along(one.x, one.width, other.x, other.width) && along(one.y, one.height, other.y, other.height)
}

/// Axes of a face: to the side, up, into the cabinet; 0 along the trailer, 1 across it, 2 up.
const fn axes(side: Side) -> (usize, usize, usize) {
    match side {
        Side::Left | Side::Right => (0, 2, 1),
        Side::Front | Side::Rear => (1, 2, 0),
        Side::Roof | Side::Floor => (1, 0, 2),
    }
}

/// Whether x on the face grows with the axis: who looks at a face that looks left has the rear at the right hand.
const fn grows(side: Side) -> bool {
    matches!(side, Side::Left | Side::Rear | Side::Roof)
}

/// A block as seen on the face.
fn project(side: Side, cabinet: Block, own: Block) -> FaceRect {
    let (across, up, _) = axes(side);
    let size = |axis: usize| own.at(true, axis) - own.at(false, axis);
    let x = if grows(side) {
        own.at(false, across) - cabinet.at(false, across)
    } else {
        cabinet.at(true, across) - own.at(true, across)
    };
    // On a lid the front of the trailer is up.
    let y = if matches!(side, Side::Roof | Side::Floor) {
        cabinet.at(true, up) - own.at(true, up)
    } else {
        own.at(false, up) - cabinet.at(false, up)
    };
    FaceRect {
        x: Length::from_metres(x),
        y: Length::from_metres(y),
        width: Length::from_metres(size(across)),
        height: Length::from_metres(size(up)),
    }
}

/// From the inside of the face to the front of a block \[m\].
fn behind(side: Side, cabinet: Block, own: Block) -> f64 {
    let (_, _, axis) = axes(side);
    if matches!(side, Side::Right | Side::Rear | Side::Roof) {
        cabinet.at(true, axis) - own.at(true, axis)
    } else {
        own.at(false, axis) - cabinet.at(false, axis)
    }
}

/// The hole a device needs in the face, in the middle of its body.
fn hole(item: &Item, rect: FaceRect) -> Option<FaceHole> {
    let body = &item.body;
    let width = *body.hole_width.value()?;
    let round = body.hole_round.value() == Some(&true);
    let height = if round {
        width
    } else {
        *body.hole_height.value()?
    };
    Some(FaceHole {
        rect: FaceRect {
            x: rect.x + (rect.width - width) * 0.5,
            y: rect.y + (rect.height - height) * 0.5,
            width,
            height,
        },
        round,
    })
}

/// Depth behind the face, or in front of the board inside.
fn depth(built: &Built<'_>, item: &Item) -> Option<DepthFit> {
    let (_, size) = built.place?;
    let (_, _, axis) = axes(built.faces.value);
    let body = &item.body;
    let of = |size: Extent| match axis {
        0 => size.along,
        1 => size.across,
        _ => size.up,
    };
    let mounted = body.mounted_on.value().copied();
    let deep = match (mounted, body.depth_behind.value()) {
        (Some(MountedOn::Face), Some(depth)) => *depth,
        (None, None) => return None,
        _ => of(*body.size.value()?),
    };
    let bend = body.bend_room.value().copied().unwrap_or(Length::ZERO);
    let taken = match mounted {
        Some(MountedOn::Board) => built.board.value,
        _ => Length::ZERO,
    };
    let (needed, there) = (deep + bend, of(size) - taken);
    Some(DepthFit {
        needed,
        there,
        fits: needed <= there,
    })
}

/// Free room before a device, and others of the cabinet in it.
fn clear(built: &Built<'_>, id: &Id, item: &Item) -> Option<ClearFit> {
    let needed = item.body.clear.value().copied()?;
    let side = item.body.faces.value().copied()?;
    let room = Block::of_item(item)?.before(side, needed.metres());
    let others = built.holds.iter().filter(|(other, _)| *other != id);
    let blocked =
        others.filter(|(_, other)| Block::of_item(other).is_some_and(|other| other.meets(room)));
    Some(ClearFit {
        needed,
        blocked_by: blocked.map(|(id, _)| (*id).clone()).collect(),
    })
}

impl Block {
    fn new(spot: Spot, size: Extent) -> Self {
        let low = [spot.from_front, spot.from_left, spot.above_floor].map(Length::metres);
        let size = [size.along, size.across, size.up].map(Length::metres);
        let [a, b, c] = low;
        let [x, y, z] = size;
        Self {
            low,
            high: [a + x, b + y, c + z],
        }
    }

    fn of_item(item: &Item) -> Option<Self> {
        Some(Self::new(
            *item.body.spot.value()?,
            *item.body.size.value()?,
        ))
    }

    fn at(&self, high: bool, axis: usize) -> f64 {
        let ends = if high { &self.high } else { &self.low };
        ends.get(axis).copied().unwrap_or(0.0)
    }

    /// Whether another lies inside, touching allowed.
    fn holds(&self, other: Self) -> bool {
        (0..3).all(|axis| {
            other.at(false, axis) >= self.at(false, axis) - TOUCHING
                && other.at(true, axis) <= self.at(true, axis) + TOUCHING
        })
    }

    fn meets(&self, other: Self) -> bool {
        (0..3).all(|axis| {
            self.at(true, axis).min(other.at(true, axis))
                - self.at(false, axis).max(other.at(false, axis))
                > TOUCHING
        })
    }

    /// The free room before one of its faces.
    fn before(&self, side: Side, metres: f64) -> Self {
        let (axis, outwards) = match side {
            Side::Front => (0, false),
            Side::Rear => (0, true),
            Side::Left => (1, false),
            Side::Right => (1, true),
            Side::Floor => (2, false),
            Side::Roof => (2, true),
        };
        let mut room = *self;
        let (low, high) = if outwards {
            (self.at(true, axis), self.at(true, axis) + metres)
        } else {
            (self.at(false, axis) - metres, self.at(false, axis))
        };
        if let (Some(from), Some(to)) = (room.low.get_mut(axis), room.high.get_mut(axis)) {
            *from = low;
            *to = high;
        }
        room
    }
}
