//! The sides of the box as surfaces: sizes, ribs, openings, the bowed ceiling; places on them as a tape measures
//! them. Not here: layers.

use super::lower::Desk;
use crate::known::Assumption;
use crate::result::lining::{BowFound, LiningWanted};
use wainwright_engines::lining::{Bow, Direction, Opening, Rect, Rib, Surface};
use wainwright_model::{Extent, FieldExt, Id, Outline, Side, Spot, Trailer};
use wainwright_units::{Length, Quantity};

/// Sides in the order they are shown.
pub(super) const SIDES: [Side; 6] = [
    Side::Front,
    Side::Rear,
    Side::Left,
    Side::Right,
    Side::Roof,
    Side::Floor,
];
/// Width and depth of a rib when nobody said (judgement): a tube of an inch.
const RIB: Length = Length::from_metres(0.0254);
/// Most ribs of a side; more are a slip of the pen.
const MOST_RIBS: usize = 400;

/// The inside of the box.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Box {
    pub(super) length: Length,
    pub(super) width: Length,
    /// In the middle.
    pub(super) height: Length,
    /// The ceiling, when it is bowed.
    pub(super) bow: Option<Bow>,
}

/// One side as the engine sees it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct SideShape {
    pub(super) side: Side,
    pub(super) surface: Surface,
    pub(super) openings: Vec<Id>,
}

/// What ribs are like.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ribs {
    spacing: Length,
    first: Length,
    width: Length,
    depth: Length,
}

impl Box {
    /// The inside of the box; what is missing is noted.
    pub(super) fn read(trailer: &Trailer, desk: &mut Desk<'_>) -> Option<Self> {
        let sizes = [
            ("inside_length", &trailer.inside_length),
            ("inside_width", &trailer.inside_width),
            ("inside_height", &trailer.inside_height),
        ];
        for (name, field) in sizes {
            if field.is_none() {
                desk.lack(&["trailer", name], LiningWanted::BoxSize);
            }
        }
        Self::quick(trailer)
    }

    /// The same without notes.
    pub(super) fn quick(trailer: &Trailer) -> Option<Self> {
        let width = *trailer.inside_width.value()?;
        let rise = trailer.roof_rise.value().copied();
        let rise = rise.filter(|rise| *rise > Length::ZERO);
        Some(Self {
            length: *trailer.inside_length.value()?,
            width,
            height: *trailer.inside_height.value()?,
            bow: rise.and_then(|rise| Bow::from_rise(width, rise).ok()),
        })
    }

    /// Size of a side: along x, along y.
    pub(super) fn size(&self, side: Side) -> (Length, Length) {
        let up = self.wall_height();
        match side {
            Side::Left | Side::Right => (self.length, up),
            Side::Front | Side::Rear => (self.width, up),
            Side::Floor => (self.length, self.width),
            Side::Roof => {
                let along_the_bow = self.bow.map_or(self.width, |bow| bow.developed());
                (self.length, along_the_bow)
            }
        }
    }

    /// Height of the walls: a bowed ceiling is lower there.
    fn wall_height(&self) -> Length {
        self.bow.map_or(self.height, |bow| self.height - bow.rise())
    }

    /// How the ceiling is bowed.
    pub(super) fn bow_found(&self, side: Side) -> Option<BowFound> {
        let bow = self.bow.filter(|_| side == Side::Roof)?;
        Some(BowFound {
            chord: bow.chord(),
            rise: bow.rise(),
            developed: bow.developed(),
            radius: bow.radius()?,
        })
    }

    /// The place in the box of a place on a side.
    pub(super) fn spot(&self, side: Side, x: Length, y: Length) -> Spot {
        let zero = Length::ZERO;
        let (from_front, from_left, above_floor) = match side {
            Side::Left => (x, zero, y),
            Side::Right => (x, self.width, y),
            Side::Front => (zero, x, y),
            Side::Rear => (self.length, x, y),
            Side::Floor => (x, y, zero),
            Side::Roof => match self.bow {
                Some(bow) => {
                    let (across, up) = bow.point(y);
                    (x, across, self.wall_height() + up)
                }
                None => (x, y, self.height),
            },
        };
        Spot {
            from_front,
            from_left,
            above_floor,
        }
    }

    /// How far a side reaches in the box.
    pub(super) fn extent(&self, side: Side) -> Extent {
        let zero = Length::ZERO;
        let (along, across, up) = match side {
            Side::Left | Side::Right => (self.length, zero, self.wall_height()),
            Side::Front | Side::Rear => (zero, self.width, self.wall_height()),
            Side::Floor | Side::Roof => (self.length, self.width, zero),
        };
        Extent { along, across, up }
    }

    /// The place along the bow of a place straight across.
    fn along_bow(&self, across: Length) -> Length {
        let Some((bow, radius)) = self.bow.and_then(|bow| Some((bow, bow.radius()?))) else {
            return across;
        };
        let off = (across - bow.chord() * 0.5) / radius;
        bow.developed() * 0.5 + radius * off.clamp(-1.0, 1.0).asin()
    }

    /// An opening on a side.
    fn rect(&self, side: Side, spot: Spot, size: Extent) -> Rect {
        let (x, y, width, height) = match side {
            Side::Left | Side::Right => (spot.from_front, spot.above_floor, size.along, size.up),
            Side::Front | Side::Rear => (spot.from_left, spot.above_floor, size.across, size.up),
            Side::Floor | Side::Roof => (spot.from_front, spot.from_left, size.along, size.across),
        };
        if side == Side::Roof {
            let low = self.along_bow(y);
            let high = self.along_bow(y + height);
            return Rect {
                x,
                y: low,
                width,
                height: high - low,
            };
        }
        Rect {
            x,
            y,
            width,
            height,
        }
    }
}

impl Ribs {
    /// What ribs are like; `None` while their distance is not known.
    pub(super) fn read(trailer: &Trailer, inside: &Box, desk: &mut Desk<'_>) -> Option<Self> {
        let Some(spacing) = trailer.rib_spacing.value().copied() else {
            desk.lack(&["trailer", "rib_spacing"], LiningWanted::Ribs);
            return None;
        };
        let usual = Assumption::UsualForKind;
        let mut given = |field, name, stand_in| {
            let path = ["trailer", name];
            desk.notes.given_or(field, &path, stand_in, usual).value
        };
        let first = even(inside.length, spacing);
        Some(Self {
            spacing,
            first: given(&trailer.first_rib, "first_rib", first),
            width: given(&trailer.rib_width, "rib_width", RIB),
            depth: given(&trailer.rib_depth, "rib_depth", RIB),
        })
    }

    /// Ribs of a side. Of front and rear nothing is said but the spacing: they stand evenly about the middle. The
    /// floor has none that matter: it is the first solid thing.
    fn of(&self, side: Side, along: Length) -> Vec<Rib> {
        let first = match side {
            Side::Floor => return Vec::new(),
            Side::Front | Side::Rear => even(along, self.spacing),
            Side::Left | Side::Right | Side::Roof => self.first,
        };
        let places = (0..MOST_RIBS).map(|index| first + self.spacing * index as f64);
        let inside = places.take_while(|at| at.metres() <= along.metres() + 1e-9);
        let rib = |at| Rib {
            at,
            width: self.width,
            depth: self.depth,
        };
        inside.map(rib).collect()
    }

    /// Notes that nobody can say where the ribs of front and rear are.
    pub(super) fn note_ends(&self, inside: &Box, desk: &mut Desk<'_>) {
        let first = even(inside.width, self.spacing);
        let shown = first.show(desk.notes.system());
        let basis = crate::known::Basis::Assumed(Assumption::UsualForKind);
        desk.notes
            .assume_text(&["trailer", "first_rib"], shown, &basis);
    }
}

/// Where the first rib is when all stand evenly about the middle.
fn even(along: Length, spacing: Length) -> Length {
    let bays = (along / spacing + 1e-9)
        .floor()
        .clamp(0.0, MOST_RIBS as f64);
    (along - spacing * bays) * 0.5
}

/// One side as a surface; openings without a place are noted.
pub(super) fn side_shape(
    inside: &Box,
    ribs: Option<&Ribs>,
    side: Side,
    desk: &mut Desk<'_>,
) -> SideShape {
    let project = desk.project;
    for (id, opening) in project.openings.iter() {
        if opening.wall.value() != Some(&side) {
            continue;
        }
        for (lacks, name) in [
            (opening.spot.is_none(), "spot"),
            (opening.size.is_none(), "size"),
        ] {
            if lacks {
                desk.lack(&["opening", id.as_str(), name], LiningWanted::OpeningPlace);
            }
        }
    }
    quick_shape(project, inside, ribs, side)
}

/// The same without notes.
pub(super) fn quick_shape(
    project: &wainwright_model::Project,
    inside: &Box,
    ribs: Option<&Ribs>,
    side: Side,
) -> SideShape {
    let (width, height) = inside.size(side);
    let (mut ids, mut openings) = (Vec::new(), Vec::new());
    for (id, opening) in project.openings.iter() {
        let placed = opening.spot.value().zip(opening.size.value());
        let (Some(_), Some((spot, size))) =
            (opening.wall.value().filter(|wall| **wall == side), placed)
        else {
            continue;
        };
        let rect = inside.rect(side, *spot, *size);
        if rect.width > Length::ZERO && rect.height > Length::ZERO {
            ids.push(id.clone());
            let round = opening.shape.value() == Some(&Outline::Round);
            openings.push(Opening { rect, round });
        }
    }
    SideShape {
        side,
        surface: Surface {
            width,
            height,
            ribs_run: Direction::Height,
            ribs: ribs.map_or_else(Vec::new, |ribs| ribs.of(side, width)),
            openings,
        },
        openings: ids,
    }
}

/// Whether x runs to the left, seen from inside.
pub(super) const fn mirrored(side: Side) -> bool {
    matches!(side, Side::Left | Side::Rear | Side::Roof)
}
