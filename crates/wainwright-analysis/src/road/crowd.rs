//! Things in each other's way: pairs in the same place, things that stick out of the box, doors and free rooms with
//! something in them. Not here: whether that is wanted (a tank under a bed is).

use super::loads::{size_of, spot_of};
use crate::result::road::{Blocked, Blocker, Outside, Overlap, RoadTrailer};
use wainwright_model::{FieldExt, Id, Kind, Opening, Project, Side, Spot, Swing};
use wainwright_units::Length;

/// How far two things may be into each other before it is called an overlap \[m\]: nobody builds closer.
const TOUCHING_METRES: f64 = 0.001;

/// A block in the box: from the front wall, from the left wall, above the floor \[m\].
#[derive(Debug, Clone, Copy, PartialEq)]
struct Block {
    low: [f64; 3],
    high: [f64; 3],
}

/// What is in the way of what.
#[derive(Default)]
pub(super) struct Crowd {
    pub(super) overlaps: Vec<Overlap>,
    pub(super) outside: Vec<Outside>,
    pub(super) blocked: Vec<Blocked>,
}

/// Everything in the way of something.
pub(super) fn crowd(project: &Project, trailer: &RoadTrailer, moved: &[(Id, Spot)]) -> Crowd {
    let blocks = blocks(project, moved);
    let room = room(trailer);
    Crowd {
        overlaps: overlaps(&blocks),
        outside: room.map_or_else(Vec::new, |room| outside(&blocks, &room)),
        blocked: blocked(project, trailer, moved, &blocks),
    }
}

/// Items that fill a block; people move out of the way.
fn blocks<'a>(project: &'a Project, moved: &[(Id, Spot)]) -> Vec<(&'a Id, Kind, Block)> {
    let items = project.items.iter();
    items
        .filter_map(|(id, item)| {
            let kind = item.spec.kind();
            let solid = kind != Kind::Person;
            let block = Block::of(spot_of(id, item, moved)?, size_of(item)?);
            solid.then_some((id, kind, block))
        })
        .collect()
}

/// Pairs, found by going along the trailer: only things whose lengths overlap are compared further.
fn overlaps(blocks: &[(&Id, Kind, Block)]) -> Vec<Overlap> {
    let mut order: Vec<usize> = (0..blocks.len()).collect();
    let front = |index: &usize| blocks.get(*index).map_or(0.0, |(_, _, block)| block.low[0]);
    order.sort_by(|one, other| front(one).total_cmp(&front(other)));
    let mut found: Vec<(usize, usize, [f64; 3])> = Vec::new();
    for (place, one) in order.iter().enumerate() {
        let Some((_, _, block)) = blocks.get(*one) else {
            continue;
        };
        for other in order.iter().skip(place + 1) {
            let Some((_, _, behind)) = blocks.get(*other) else {
                continue;
            };
            if behind.low[0] >= block.high[0] {
                break;
            }
            if let Some(depth) = block.depth(behind) {
                found.push((*one.min(other), *one.max(other), depth));
            }
        }
    }
    found.sort_by_key(|(one, other, _)| (*one, *other));
    let named = found.into_iter().filter_map(|(one, other, depth)| {
        let ((first, _, own), (second, _, theirs)) = (blocks.get(one)?, blocks.get(other)?);
        let [along, across, up] = depth.map(Length::from_metres);
        Some(Overlap {
            first: (*first).clone(),
            second: (*second).clone(),
            stowed: own.holds(theirs) || theirs.holds(own),
            along,
            across,
            up,
        })
    });
    named.collect()
}

fn outside(blocks: &[(&Id, Kind, Block)], room: &Block) -> Vec<Outside> {
    let beyond = |over: f64| Length::from_metres(if over > TOUCHING_METRES { over } else { 0.0 });
    let stick_out = blocks.iter().map(|(id, _, block)| Outside {
        item: (*id).clone(),
        front: beyond(room.low[0] - block.low[0]),
        rear: beyond(block.high[0] - room.high[0]),
        left: beyond(room.low[1] - block.low[1]),
        right: beyond(block.high[1] - room.high[1]),
        floor: beyond(room.low[2] - block.low[2]),
        roof: beyond(block.high[2] - room.high[2]),
        wholly: room.depth(block).is_none(),
    });
    let any = |out: &Outside| {
        let all = [
            out.front, out.rear, out.left, out.right, out.floor, out.roof,
        ];
        all.iter().any(|length| *length > Length::ZERO)
    };
    stick_out.filter(any).collect()
}

fn blocked(
    project: &Project,
    trailer: &RoadTrailer,
    moved: &[(Id, Spot)],
    blocks: &[(&Id, Kind, Block)],
) -> Vec<Blocked> {
    let doors = project.openings.iter().filter_map(|(id, opening)| {
        let swing = door_room(opening, trailer)?;
        Some((Blocker::Opening(id.clone()), swing))
    });
    let rooms = rooms(project, moved).map(|(id, free)| (Blocker::Item(id.clone()), free));
    let mut found = Vec::new();
    for (owner, free) in doors.chain(rooms) {
        for (id, _, block) in blocks {
            let own = matches!(&owner, Blocker::Item(item) if item == *id);
            let Some(depth) = free.depth(block).filter(|_| !own) else {
                continue;
            };
            let [along, across, up] = depth.map(Length::from_metres);
            found.push(Blocked {
                owner: owner.clone(),
                by: (*id).clone(),
                along,
                across,
                up,
            });
        }
    }
    found
}

/// The free room that each item needs before its front.
fn rooms<'a>(
    project: &'a Project,
    moved: &'a [(Id, Spot)],
) -> impl Iterator<Item = (&'a Id, Block)> {
    project.items.iter().filter_map(move |(id, item)| {
        let block = Block::of(spot_of(id, item, moved)?, size_of(item)?);
        let clear = item.body.clear.value()?.metres();
        Some((id, block.before(*item.body.faces.value()?, clear)?))
    })
}

/// Lowest and highest corner of the free room of each item that needs one.
pub(super) fn free_rooms(project: &Project, moved: &[(Id, Spot)]) -> Vec<(Id, Spot, Spot)> {
    let rooms = rooms(project, moved);
    rooms
        .map(|(id, free)| (id.clone(), spot(free.low), spot(free.high)))
        .collect()
}

/// Lowest and highest corner of what each door that opens inwards sweeps.
pub(super) fn door_rooms(project: &Project, trailer: &RoadTrailer) -> Vec<(Spot, Spot)> {
    let openings = project.openings.iter();
    let swept = openings.filter_map(|(_, opening)| door_room(opening, trailer));
    swept
        .map(|free| (spot(free.low), spot(free.high)))
        .collect()
}

fn spot([from_front, from_left, above_floor]: [f64; 3]) -> Spot {
    Spot {
        from_front: Length::from_metres(from_front),
        from_left: Length::from_metres(from_left),
        above_floor: Length::from_metres(above_floor),
    }
}

/// The room that a door which opens inwards sweeps: as deep as it is wide.
fn door_room(opening: &Opening, trailer: &RoadTrailer) -> Option<Block> {
    if opening.swing.value() != Some(&Swing::In) {
        return None;
    }
    let (spot, size) = (*opening.spot.value()?, *opening.size.value()?);
    let mut block = Block::of(spot, size);
    let (along, across) = (size.along.metres(), size.across.metres());
    let metres =
        |known: &Option<crate::known::Known<Length>>| known.as_ref().map(|k| k.value.metres());
    match opening.wall.value()? {
        Side::Front => (block.low[0], block.high[0]) = (0.0, across),
        Side::Rear => {
            let rear = metres(&trailer.inside_length)?;
            (block.low[0], block.high[0]) = (rear - across, rear);
        }
        Side::Left => (block.low[1], block.high[1]) = (0.0, along),
        Side::Right => {
            let right = metres(&trailer.inside_width)?;
            (block.low[1], block.high[1]) = (right - along, right);
        }
        Side::Roof | Side::Floor => return None,
    }
    Some(block)
}

fn room(trailer: &RoadTrailer) -> Option<Block> {
    Some(Block {
        low: [0.0; 3],
        high: [
            trailer.inside_length.as_ref()?.value.metres(),
            trailer.inside_width.as_ref()?.value.metres(),
            trailer.inside_height.as_ref()?.value.metres(),
        ],
    })
}

impl Block {
    fn of(spot: Spot, size: wainwright_model::Extent) -> Self {
        let low = [spot.from_front, spot.from_left, spot.above_floor].map(Length::metres);
        let size = [size.along, size.across, size.up].map(Length::metres);
        Self {
            low,
            high: [low[0] + size[0], low[1] + size[1], low[2] + size[2]],
        }
    }

    /// How far two blocks are into each other; `None` when they only touch or less.
    fn depth(&self, other: &Self) -> Option<[f64; 3]> {
        let into = |axis: usize| {
            self.high[axis].min(other.high[axis]) - self.low[axis].max(other.low[axis])
        };
        let depth = [into(0), into(1), into(2)];
        depth
            .iter()
            .all(|length| *length > TOUCHING_METRES)
            .then_some(depth)
    }

    /// Whether the other lies wholly in this one.
    fn holds(&self, other: &Self) -> bool {
        (0..3).all(|axis| {
            self.low[axis] <= other.low[axis] + TOUCHING_METRES
                && other.high[axis] <= self.high[axis] + TOUCHING_METRES
        })
    }

    /// The free room before a side; `None` when there is no need of any.
    fn before(&self, side: Side, depth: f64) -> Option<Self> {
        let mut free = *self;
        match side {
            Side::Front => (free.low[0], free.high[0]) = (self.low[0] - depth, self.low[0]),
            Side::Rear => (free.low[0], free.high[0]) = (self.high[0], self.high[0] + depth),
            Side::Left => (free.low[1], free.high[1]) = (self.low[1] - depth, self.low[1]),
            Side::Right => (free.low[1], free.high[1]) = (self.high[1], self.high[1] + depth),
            Side::Floor => (free.low[2], free.high[2]) = (self.low[2] - depth, self.low[2]),
            Side::Roof => (free.low[2], free.high[2]) = (self.high[2], self.high[2] + depth),
        }
        (depth > TOUCHING_METRES).then_some(free)
    }
}
