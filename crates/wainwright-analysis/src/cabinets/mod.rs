//! Cabinets for equipment: what is where on the face, whether it fits and can be reached, how warm the air inside
//! gets. The air of a cabinet is the air round wires and fuses in it. Run on demand; it takes a millisecond.
//!
//! Not here: judgement and words for people, where things are in the box (the road study).

mod air;
mod face;
mod heat;
mod template;

pub use template::template;

use crate::circuit::{Notes, summer_air};
use crate::known::{Assumption, Basis, Known};
use crate::result::Assessment;
use crate::result::cabinet::{CabinetAirFound, CabinetDevice, CabinetResult, Situation};
use heat::Heats;
use std::collections::BTreeMap;
use wainwright_model::{Cabinet, Extent, FieldExt, Id, Item, Kind, Project, Side, Spec, Spot};
use wainwright_reference::material::{Material, conductivity};
use wainwright_units::{Length, Quantity, Temperature};

/// Thickness of the boards where nobody said: half an inch.
const USUAL_BOARD: Length = Length::from_metres(0.0127);

/// What a cabinet is, as its parts share it.
struct Built<'a> {
    project: &'a Project,
    cabinet: &'a Cabinet,
    place: Option<(Spot, Extent)>,
    faces: Known<Side>,
    board: Known<Length>,
    /// What it holds: items that are there, in the order of the list.
    holds: Vec<(&'a Id, &'a Item)>,
}

/// What is found about every cabinet, in file order. With the assessment the heat of joints and contacts counts.
pub fn study(project: &Project, assessment: Option<&Assessment>) -> Vec<CabinetResult> {
    let mut found = Vec::new();
    for (id, cabinet) in project.cabinets.iter() {
        found.push(one(project, id, cabinet, assessment));
    }
    found
}

/// The air round an item in a cabinet.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct AirRound {
    /// The cabinet, by its place in the list.
    pub(crate) cabinet: usize,
    /// Warmest air while the item works.
    pub(crate) air: Known<Temperature>,
    /// It works in one situation only; a wire to it carries current then only.
    pub(crate) only: bool,
}

/// The air round each item that a cabinet holds.
pub(crate) type Airs = BTreeMap<Id, AirRound>;

/// The air round each item that a cabinet holds, where it is known: the heat of its devices, without that of joints.
pub(crate) fn airs(project: &Project, ambient: &Known<Temperature>) -> Airs {
    let mut found = Airs::new();
    for (index, (id, cabinet)) in project.cabinets.iter().enumerate() {
        let mut notes = Notes::new(project);
        let built = built(project, id, cabinet, &mut notes);
        let heats = Heats::of(project, &built.holds, None, &mut notes);
        let mut inside = |situation| {
            let heat = heats.without_joints(situation);
            let air = air::inside(&built, ambient, heat, &mut notes);
            air.ok().flatten().map(|air| air.inside)
        };
        let each = Situation::ALL.map(&mut inside);
        let warmest = each.into_iter().flatten().reduce(Temperature::max);
        for (item, spec) in &built.holds {
            let only = works(spec.spec.kind());
            let air = only.map_or(warmest, |only| each.get(only.index()).copied().flatten());
            let Some(air) = air else { continue };
            let round = AirRound {
                cabinet: index,
                air: Known::computed(air),
                only: only.is_some(),
            };
            found.entry((*item).clone()).or_insert(round);
        }
    }
    found
}

/// The only situation in which gear of a kind works.
const fn works(kind: Kind) -> Option<Situation> {
    match kind {
        Kind::Inverter => Some(Situation::Camp),
        Kind::DcdcCharger => Some(Situation::Driving),
        Kind::ShoreCharger => Some(Situation::Shore),
        _ => None,
    }
}

fn one(
    project: &Project,
    id: &Id,
    cabinet: &Cabinet,
    assessment: Option<&Assessment>,
) -> CabinetResult {
    let mut notes = Notes::new(project);
    let built = built(project, id, cabinet, &mut notes);
    let heats = Heats::of(project, &built.holds, assessment, &mut notes);
    let mut refused = Vec::new();
    let air = air_found(&built, &heats, &mut notes, &mut refused);
    let face = built.place.map(|_| face::face(&built));
    let devices: Vec<CabinetDevice> = built
        .holds
        .iter()
        .zip(&heats.each)
        .map(|((item, spec), heat)| face::device(&built, item, spec, heat))
        .collect();
    let fuses = built.holds.iter().filter(|(_, item)| guards(item));
    CabinetResult {
        cabinet: id.clone(),
        label: project.label_or_id("cabinet", id.as_str()).to_owned(),
        place: built.place,
        faces: built.faces.clone(),
        board: built.board.clone(),
        face: face.flatten(),
        overlaps: face::overlaps(&devices),
        fuses: fuses.map(|(id, _)| (*id).clone()).collect(),
        door: notes.given(&cabinet.door),
        unknown: unknown(project, cabinet),
        devices,
        air,
        assumptions: notes.assumed,
        refused,
    }
}

/// Whether it holds fuses or breakers.
fn guards(item: &Item) -> bool {
    match &item.spec {
        Spec::SwitchBank(bank) => bank.fuses.is_some(),
        other => matches!(other.kind(), Kind::Fuse | Kind::Breaker | Kind::FuseBlock),
    }
}

fn unknown(project: &Project, cabinet: &Cabinet) -> Vec<String> {
    let names = cabinet.holds.value().into_iter().flatten();
    let unknown = names.filter(|name| project.items.get(name.as_str()).is_none());
    unknown.cloned().collect()
}

fn built<'a>(project: &'a Project, id: &Id, cabinet: &'a Cabinet, notes: &mut Notes) -> Built<'a> {
    let mut holds: Vec<(&Id, &Item)> = Vec::new();
    for name in cabinet.holds.value().into_iter().flatten() {
        let found = project.items.iter().find(|(id, _)| id.as_str() == name);
        if let Some(found) = found.filter(|(id, _)| holds.iter().all(|(known, _)| known != id)) {
            holds.push(found);
        }
    }
    let place = cabinet
        .spot
        .value()
        .copied()
        .zip(cabinet.size.value().copied());
    let path = |field| ["cabinet", id.as_str(), field];
    let faces = notes.given(&cabinet.faces).unwrap_or_else(|| {
        let side = towards_the_middle(project, place);
        let basis = Basis::Assumed(Assumption::UsualForKind);
        notes.assume_text(&path("faces"), side.as_str().to_owned(), &basis);
        Known::new(side, basis)
    });
    let board = notes.given_or(
        &cabinet.board,
        &path("board"),
        USUAL_BOARD,
        Assumption::UsualForKind,
    );
    Built {
        project,
        cabinet,
        place,
        faces,
        board,
        holds,
    }
}

/// A cabinet on a side wall looks to the other one.
fn towards_the_middle(project: &Project, place: Option<(Spot, Extent)>) -> Side {
    let width = project.trailer.inside_width.value();
    let right_half = place.zip(width).is_some_and(|((spot, size), width)| {
        (spot.from_left + size.across * 0.5).metres() > 0.5 * width.metres()
    });
    if right_half { Side::Left } else { Side::Right }
}

/// Heat and air of a cabinet.
fn air_found(
    built: &Built<'_>,
    heats: &Heats,
    notes: &mut Notes,
    refused: &mut Vec<String>,
) -> CabinetAirFound {
    let ambient = summer_air(built.project, notes);
    let situation = heats.worst();
    let mut refuse = |refusal: wainwright_engines::refusal::Refusal| {
        refused.push(refusal.to_string());
        None
    };
    let heat = heats.total(situation);
    let air = air::inside(built, &ambient, heat, notes).unwrap_or_else(&mut refuse);
    let wired = heats.without_joints(heats.worst_without_joints());
    let mut quiet = Notes::new(built.project);
    let for_wires = air::inside(built, &ambient, wired, &mut quiet)
        .ok()
        .flatten();
    air::found(
        built,
        air::Asked {
            situation,
            heat,
            ambient,
            air,
            for_wires: for_wires.map(|air| air.inside),
            limit: heat::limit(&built.holds, notes),
        },
        &mut refuse,
    )
}

/// Conductivity of the boards [W/(m·K)]: plywood.
fn board_conductivity() -> f64 {
    conductivity(Material::Plywood).map_or(0.13, |row| row.value.watts_per_kelvin_metre())
}

/// A length as a person reads it.
fn shown<Q: Quantity>(value: Q, notes: &Notes) -> String {
    value.show(notes.system())
}

impl Situation {
    /// Its place among the heats of a device.
    pub const fn index(self) -> usize {
        match self {
            Self::Camp => 0,
            Self::Driving => 1,
            Self::Shore => 2,
        }
    }
}
