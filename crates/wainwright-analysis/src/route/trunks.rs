//! Trunks as they are drawn, and with the wires that lie in them.

use super::ends::AskedWire;
use super::find::{Found, Shared};
use super::space::{self, Space};
use crate::circuit::{Notes, USUAL_COVER, outside, run_of};
use crate::known::{Assumption, Basis, Known};
use crate::result::{Fullest, Run, TrunkRoute};
use std::f64::consts::FRAC_PI_4;
use wainwright_model::{FieldExt, Id, Project, Spot, Trunk};
use wainwright_units::{CrossSection, Length, WireSize};

/// A trunk that wires can run in.
pub(super) struct Drawn<'a> {
    pub(super) id: Id,
    fields: &'a Trunk,
    pub(super) path: Vec<Spot>,
}

/// Trunks with at least two different corners, in file order.
pub(super) fn drawn(project: &Project) -> Vec<Drawn<'_>> {
    let drawn = project.trunks.iter().filter_map(|(id, fields)| {
        let path = fields.path.value()?.clone();
        let first = path.first().copied()?;
        path.iter().any(|corner| *corner != first).then(|| Drawn {
            id: id.clone(),
            fields,
            path,
        })
    });
    drawn.collect()
}

/// Trunks without wires.
pub(super) fn empty(drawn: &[Drawn<'_>], space: &Space, notes: &mut Notes) -> Vec<TrunkRoute> {
    let trunks = drawn.iter();
    trunks
        .map(|trunk| one(trunk, false, space, notes))
        .collect()
}

/// Trunks with what lies in them.
pub(super) fn filled(
    project: &Project,
    drawn: &[Drawn<'_>],
    asked: &[AskedWire],
    found: &Found,
    space: &Space,
    notes: &mut Notes,
) -> Vec<TrunkRoute> {
    let ids = project_wires(project, asked);
    let mut diameters = Diameters::default();
    let trunks = drawn.iter().enumerate().map(|(index, trunk)| {
        let shared = found.shared.iter().filter(|part| part.trunk == index);
        let shared: Vec<&Shared> = shared.collect();
        let mut filled = one(trunk, !shared.is_empty(), space, notes);
        let long = |least: usize| {
            let parts = shared.iter().filter(|part| part.wires.len() >= least);
            parts.fold(Length::ZERO, |sum, part| sum + (part.to - part.from))
        };
        filled.used = long(1);
        filled.shared = long(2);
        let mut wires: Vec<usize> = shared.iter().flat_map(|part| part.wires.clone()).collect();
        wires.sort_unstable();
        wires.dedup();
        filled.wires = wires.iter().map(|wire| ids[*wire].clone()).collect();
        filled.fullest = fullest(project, &shared, &ids, &mut diameters);
        filled
    });
    trunks.collect()
}

/// Ids of the wires that were asked about.
fn project_wires(project: &Project, asked: &[AskedWire]) -> Vec<Id> {
    let id = |wire: &AskedWire| project.wires.at(wire.position).map(|(id, _)| id.clone());
    asked.iter().filter_map(id).collect()
}

fn one(trunk: &Drawn<'_>, used: bool, space: &Space, notes: &mut Notes) -> TrunkRoute {
    let name = trunk.id.as_str();
    let fields = trunk.fields;
    let run = match notes.given(&fields.runs) {
        Some(known) => Known::new(run_of(known.value, false), known.basis),
        None => {
            let basis = Basis::Assumed(Assumption::UsualForKind);
            if used {
                notes.assume_alike(&["trunk", name, "runs"], "open".to_owned(), &basis);
            }
            Known::new(Run::Open, basis)
        }
    };
    let foam_cover = notes.given(&fields.foam_cover);
    let foam_cover = match (run.value, foam_cover, used) {
        (Run::Foam, None, true) => {
            let path = ["trunk", name, "foam_cover"];
            Some(notes.assume(&path, USUAL_COVER, Assumption::UsualForKind))
        }
        (_, given, _) => given,
    };
    let stretches = space.stretches(&trunk.path);
    let label = fields.label.value().cloned();
    TrunkRoute {
        id: trunk.id.clone(),
        label: label.unwrap_or_else(|| trunk.id.to_string()),
        length: space::length(&stretches),
        crosses: space.crosses(stretches.iter()),
        stretches,
        run,
        foam_cover,
        air: notes.given(&fields.air),
        behind: fields.behind.value().cloned(),
        wires: Vec::new(),
        used: Length::ZERO,
        shared: Length::ZERO,
        fullest: None,
    }
}

/// The first of the parts with most wires.
fn fullest(
    project: &Project,
    shared: &[&Shared],
    ids: &[Id],
    diameters: &mut Diameters,
) -> Option<Fullest> {
    let most = shared.iter().map(|part| part.wires.len()).max()?;
    let part = shared.iter().find(|part| part.wires.len() == most)?;
    let wires: Vec<Id> = part.wires.iter().map(|wire| ids[*wire].clone()).collect();
    let filled = wires.iter().filter_map(|id| {
        let fields = project.wires.get(id.as_str())?;
        let insulation = fields.insulation.value().map(String::as_str);
        let diameter = diameters.of(*fields.size.value()?, insulation);
        Some(FRAC_PI_4 * diameter * diameter)
    });
    Some(Fullest {
        loaded: u32::try_from(most).unwrap_or(u32::MAX),
        from: part.from,
        to: part.to,
        filled: CrossSection::from_square_millimetres(filled.sum()),
        wires,
    })
}

/// Outside diameters, each read from the tables once \[mm\].
#[derive(Default)]
struct Diameters(Vec<(WireSize, Option<String>, f64)>);

impl Diameters {
    fn of(&mut self, size: WireSize, insulation: Option<&str>) -> f64 {
        let same = |known: &&(WireSize, Option<String>, f64)| {
            known.0 == size && known.1.as_deref() == insulation
        };
        if let Some(known) = self.0.iter().find(same) {
            return known.2;
        }
        let diameter = outside(size, insulation).millimetres();
        self.0.push((size, insulation.map(str::to_owned), diameter));
        diameter
    }
}
