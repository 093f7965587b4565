//! The room and the openings in its sides. Not here: what the sides are made of.

use super::desk::Desk;
use crate::known::{Assumption, Basis, Known};
use crate::result::indoors::{PaneHeat, PaneKind, RoomFound};
use std::f64::consts::FRAC_PI_4;
use wainwright_model::{FieldExt, Id, Kind, Opening, Outline, Pane, Side, Swing};
use wainwright_reference::climate_room::{self, PaneFigures};
use wainwright_units::{Area, Length, Ratio};

/// A usual small box where nobody measured (judgement).
const USUAL_LENGTH: Length = Length::from_metres(3.0);
const USUAL_WIDTH: Length = Length::from_metres(1.8);
const USUAL_HEIGHT: Length = Length::from_metres(1.8);
/// People where nobody said (judgement).
const USUAL_PEOPLE: u32 = 2;
/// An opening that begins lower than this above the floor is a door \[m\].
const DOOR_BELOW: f64 = 0.1;

/// The room.
pub(super) fn room(desk: &mut Desk<'_>) -> RoomFound {
    let trailer = &desk.project.trailer;
    let usual = Assumption::UsualForKind;
    let mut given = |field, name, stand_in| {
        desk.notes
            .given_or(field, &["trailer", name], stand_in, usual)
    };
    let length = given(&trailer.inside_length, "inside_length", USUAL_LENGTH);
    let width = given(&trailer.inside_width, "inside_width", USUAL_WIDTH);
    let height = given(&trailer.inside_height, "inside_height", USUAL_HEIGHT);
    let plan = length.value * width.value;
    RoomFound {
        volume: plan * height.value,
        plan,
        people: people(desk),
        length,
        width,
        height,
    }
}

fn people(desk: &mut Desk<'_>) -> Known<u32> {
    if let Some(known) = desk.notes.given(&desk.project.living.people) {
        return known;
    }
    let items = desk.project.items.iter();
    let aboard = items.filter(|(_, item)| item.spec.kind() == Kind::Person);
    match u32::try_from(aboard.count()).unwrap_or(u32::MAX) {
        0 => {
            let known = Known::assumed(USUAL_PEOPLE, Assumption::UsualForKind);
            desk.notes.assume_text(
                &["living", "people"],
                USUAL_PEOPLE.to_string(),
                &known.basis,
            );
            known
        }
        count => Known::computed(count),
    }
}

/// Openings with a size.
pub(super) fn panes(desk: &mut Desk<'_>) -> Vec<PaneHeat> {
    let project = desk.project;
    project
        .openings
        .iter()
        .filter_map(|(id, opening)| pane(desk, id, opening))
        .collect()
}

fn pane(desk: &mut Desk<'_>, id: &Id, opening: &Opening) -> Option<PaneHeat> {
    let side = *opening.wall.value()?;
    let Some(area) = area(opening, side) else {
        desk.lack(&["opening", id.as_str(), "size"], "a size");
        return None;
    };
    let kind = kind(desk, id, opening);
    let figures = climate_room::pane(match kind.value {
        PaneKind::Single => climate_room::Pane::Single,
        PaneKind::Double => climate_room::Pane::Double,
        PaneKind::Solid => climate_room::Pane::Solid,
    });
    let (u, solar_gain) = figures.map_or_else(
        || (Known::computed(0.0), Ratio::ZERO),
        |row| {
            let PaneFigures {
                watts_per_m2_kelvin,
                solar_gain,
            } = row.value;
            let u = Known::new(watts_per_m2_kelvin, Basis::Table(row.source));
            (u, solar_gain)
        },
    );
    Some(PaneHeat {
        opening: id.clone(),
        side,
        area,
        kind,
        u,
        solar_gain,
    })
}

/// Area of an opening in its side.
fn area(opening: &Opening, side: Side) -> Option<Area> {
    let size = opening.size.value()?;
    let area = match side {
        Side::Front | Side::Rear => size.across * size.up,
        Side::Left | Side::Right => size.along * size.up,
        Side::Roof | Side::Floor => size.along * size.across,
    };
    let round = opening.shape.value() == Some(&Outline::Round);
    Some(if round { area * FRAC_PI_4 } else { area })
}

/// What an opening is closed with; by where it is and how it opens when nobody said.
fn kind(desk: &mut Desk<'_>, id: &Id, opening: &Opening) -> Known<PaneKind> {
    if let Some(known) = desk.notes.given(&opening.pane) {
        let kind = match known.value {
            Pane::Single => PaneKind::Single,
            Pane::Double => PaneKind::Double,
            Pane::Solid => PaneKind::Solid,
        };
        return Known::new(kind, known.basis);
    }
    let low = opening
        .spot
        .value()
        .is_some_and(|spot| spot.above_floor.metres() < DOOR_BELOW);
    let opens = matches!(
        opening.swing.value(),
        Some(Swing::Out | Swing::In | Swing::Ramp)
    );
    let (kind, word) = if opens && low {
        (PaneKind::Solid, Pane::Solid)
    } else {
        (PaneKind::Single, Pane::Single)
    };
    let known = Known::assumed(kind, Assumption::UsualForKind);
    let path = ["opening", id.as_str(), "pane"];
    desk.notes
        .assume_text(&path, word.as_str().to_owned(), &known.basis);
    known
}
