//! The box as a room: what its sides let through, the cold night and the heater for it, the sunny day, water in the
//! walls and mould on them, air to sleep in. Run on demand; it takes a few milliseconds.
//!
//! Not here: judgement and words for people, how the lining is cut (the lining study).

mod air;
mod cautions;
mod damp;
mod day;
mod desk;
mod helps;
mod material;
mod night;
mod plies;
mod room;
mod sides;
mod stack;
mod vents;

use crate::known::{Basis, Known};
use crate::result::AssumedValue;
use crate::result::indoors::{
    Caution, ColdNight, DampResult, FreshAir, IndoorsResult, PaneHeat, RoomFound, SunnyDay,
};
use crate::trips::{ClimateFound, climate_found};
use desk::{Desk, value};
use night::Airs;
use sides::SideFound;
use vents::Vents;
use wainwright_model::{FieldExt, Living, Project};
use wainwright_reference::climate_room::{self, Design};
use wainwright_reference::solar;

/// What the box is like to live in. Total: an unfinished project gives every answer it can.
pub fn study(project: &Project) -> IndoorsResult {
    let mut base = Base::of(project);
    let night = base.night();
    let day = base.day();
    let damp = base.damp();
    let air = base.air();
    if base.climate.is_none() && !project.layers.is_empty() {
        base.desk.lack(&["living", "climate"], "a climate");
    }
    let lost_per_kelvin = match &night {
        Some(night) if !project.layers.is_empty() => of_night(night),
        _ => undescribed(project, &base.room),
    };
    IndoorsResult {
        begun: !project.layers.is_empty() || project.living != Living::default(),
        cautions: cautions::cautions(&base.desk, air.as_ref(), &base.vents),
        sides: base.sides.into_iter().map(|side| side.shown).collect(),
        panes: base.panes,
        lost_per_kelvin,
        night,
        day,
        damp,
        air,
        room: base.room,
        assumptions: once(base.desk.notes.assumed),
        missing: base.desk.missing,
        refused: base.desk.refused,
    }
}

/// Water and mould through a year alone, without what would help; `None` without a climate.
pub fn damp_alone(project: &Project) -> Option<DampResult> {
    let mut base = Base::of(project);
    let climate = base.climate.take()?;
    damp::damp(&mut base.desk, &base.sides, &base.airs, &climate, false)
}

/// The coldest night alone.
pub fn night_alone(project: &Project) -> Option<ColdNight> {
    Base::of(project).night()
}

/// Air through a night and words of warning alone.
pub fn air_alone(project: &Project) -> (Option<FreshAir>, Vec<Caution>) {
    let mut base = Base::of(project);
    let air = base.air();
    let cautions = cautions::cautions(&base.desk, air.as_ref(), &base.vents);
    (air, cautions)
}

/// Heat that leaves the box with each kelvin \[W/K\], air that leaks counted: from its layers once any is described, a
/// usual figure until then.
pub fn lost_per_kelvin(project: &Project) -> Known<f64> {
    let mut base = Base::of(project);
    let night = base.night().filter(|_| !project.layers.is_empty());
    night.map_or_else(
        || undescribed(project, &base.room),
        |night| of_night(&night),
    )
}

/// What all parts of the study begin with.
struct Base<'a> {
    desk: Desk<'a>,
    room: RoomFound,
    panes: Vec<PaneHeat>,
    sides: Vec<SideFound>,
    climate: Option<ClimateFound>,
    airs: Airs,
    vents: Vents,
}

impl<'a> Base<'a> {
    fn of(project: &'a Project) -> Self {
        let mut desk = Desk::new(project);
        let room = room::room(&mut desk);
        let panes = room::panes(&mut desk);
        let sides = sides::sides(&mut desk, &room, &panes);
        let climate = climate(project);
        Self {
            airs: night::airs(&mut desk, &room, climate.as_ref()),
            vents: vents::vents(&desk, &room),
            desk,
            room,
            panes,
            sides,
            climate,
        }
    }

    fn night(&mut self) -> Option<ColdNight> {
        let (room, panes) = (&self.room, &self.panes);
        let sides = &mut self.sides;
        night::night(&mut self.desk, room, sides, panes, &self.airs, &self.vents)
    }

    fn day(&mut self) -> Option<SunnyDay> {
        let climate = self.climate.as_ref();
        let (room, sides, panes) = (&self.room, &self.sides, &self.panes);
        let air = (&self.airs, &self.vents);
        day::day(&mut self.desk, room, sides, panes, air, climate)
    }

    fn damp(&mut self) -> Option<DampResult> {
        let climate = self.climate.as_ref()?;
        damp::damp(&mut self.desk, &self.sides, &self.airs, climate, true)
    }

    fn air(&mut self) -> Option<FreshAir> {
        air::fresh(&mut self.desk, &self.room, &self.airs, &self.vents)
    }
}

fn of_night(night: &ColdNight) -> Known<f64> {
    let kelvins = (night.inside.value - night.outside.value).kelvins();
    Known::computed(if kelvins > 0.0 {
        night.total.watts() / kelvins
    } else {
        0.0
    })
}

/// A box of which no layer is described.
fn undescribed(project: &Project, room: &RoomFound) -> Known<f64> {
    let (length, width, height) = (room.length.value, room.width.value, room.height.value);
    let skin = (length * width + length * height + width * height) * 2.0;
    let changes = project.living.air_changes.value().copied();
    let changes = changes.unwrap_or(night::AIR_CHANGES);
    let per_m3 = value(climate_room::design(Design::AirHeat)) / 3600.0;
    let air = room.volume.litres() / 1000.0 * changes * per_m3;
    let Some(row) = solar::envelope() else {
        return Known::computed(air);
    };
    let whole = skin.square_metres() * row.value + air;
    Known::new(whole, Basis::Table(row.source))
}

/// Layers lie on several sides: each stand-in once.
fn once(all: Vec<AssumedValue>) -> Vec<AssumedValue> {
    let mut kept: Vec<AssumedValue> = Vec::with_capacity(all.len());
    for one in all {
        if !kept.contains(&one) {
            kept.push(one);
        }
    }
    kept
}

/// The climate that damp is looked at in: the one that is said, else the first.
fn climate(project: &Project) -> Option<ClimateFound> {
    let said = project.living.climate.value().map(String::as_str);
    let first = project.climates.iter().next().map(|(id, _)| id.as_str());
    climate_found(project, said.or(first)?).ok()
}
