//! Where wires end in the box, and which wires can be given a route.

use super::trunks::Drawn;
use crate::circuit::Notes;
use crate::result::{Lack, Unplaced, WireRoute};
use wainwright_model::{Body, FieldExt, Id, Kind, Project, Side, Spot, Wire};
use wainwright_units::Length;

/// A wire that the engine is asked about.
pub(super) struct AskedWire {
    /// Index into the list of wires.
    pub(super) wire: usize,
    /// Its place in the order of the file.
    pub(super) position: usize,
    /// Whether many wires meet at the item of each end, so that they fan out
    /// there instead of lying side by side.
    pub(super) fans: [bool; 2],
    pub(super) from: Spot,
    pub(super) to: Spot,
    /// Trunks it must follow: indices into those drawn.
    pub(super) follow: Vec<usize>,
}

/// Every wire whose two ends name items, and the gear that stands in the way
/// of their routes.
pub(super) fn wires(project: &Project, notes: &Notes) -> (Vec<WireRoute>, Vec<Unplaced>) {
    let mut unplaced: Vec<Vec<Id>> = vec![Vec::new(); project.items.len()];
    let mut wires = Vec::with_capacity(project.wires.len());
    for (id, fields) in project.wires.iter() {
        let Some((from, to)) = items(project, fields) else {
            continue;
        };
        let mut lacks = Vec::new();
        for position in [from, to] {
            let Some((item, found)) = project.items.at(position) else {
                continue;
            };
            let lack = Lack::Spot(item.clone());
            if found.body.spot.is_none() && !lacks.contains(&lack) {
                unplaced[position].push(id.clone());
                lacks.push(lack);
            }
        }
        let name = |position: usize| project.items.at(position).map(|(id, _)| id.clone());
        if let (Some(from), Some(to)) = (name(from), name(to)) {
            wires.push(WireRoute {
                wire: id.clone(),
                items: (from, to),
                typed: notes.given(&fields.length),
                route: None,
                lacks,
            });
        }
    }
    let unplaced = project.items.ids().zip(unplaced);
    let unplaced = unplaced.filter(|(_, wires)| !wires.is_empty());
    let unplaced = unplaced.map(|(item, wires)| Unplaced {
        item: item.clone(),
        wires,
    });
    (wires, unplaced.collect())
}

/// The wires that lack nothing, with their ends as places.
pub(super) fn asked(
    project: &Project,
    wires: &mut [WireRoute],
    drawn: &[Drawn<'_>],
) -> Vec<AskedWire> {
    let mut asked = Vec::new();
    for (index, wire) in wires.iter_mut().enumerate() {
        let place = |item: &Id| end(&project.items.get(item.as_str())?.body);
        let (Some(from), Some(to)) = (place(&wire.items.0), place(&wire.items.1)) else {
            continue;
        };
        let fields = project.wires.get(wire.wire.as_str());
        let wanted = fields.and_then(|fields| fields.route.value());
        let mut follow = Vec::new();
        for name in wanted.into_iter().flatten() {
            match drawn.iter().position(|trunk| trunk.id == name.as_str()) {
                Some(trunk) => follow.push(trunk),
                None => wire.lacks.extend(Id::new(name).map(Lack::Trunk)),
            }
        }
        let position = project.wires.position(wire.wire.as_str());
        if let (true, Some(position)) = (wire.lacks.is_empty(), position) {
            asked.push(AskedWire {
                wire: index,
                position,
                fans: [&wire.items.0, &wire.items.1].map(|item| fans(project, item)),
                from,
                to,
                follow,
            });
        }
    }
    asked
}

/// Positions of the items at both ends.
fn items(project: &Project, fields: &Wire) -> Option<(usize, usize)> {
    let position = |item: &Id| project.items.position(item.as_str());
    let from = position(&fields.from.value()?.item)?;
    Some((from, position(&fields.to.value()?.item)?))
}

/// Whether an item is a place where many wires meet.
fn fans(project: &Project, item: &Id) -> bool {
    let kind = project.items.get(item.as_str()).map(|i| i.spec.kind());
    matches!(
        kind,
        Some(
            Kind::Battery
                | Kind::BusBar
                | Kind::FuseBlock
                | Kind::SwitchBank
                | Kind::Splice
                | Kind::Frame
        )
    )
}

/// Where wires end at a body: in the middle of the side it faces, else in its
/// middle.
fn end(body: &Body) -> Option<Spot> {
    let spot = body.spot.value()?;
    let size = body.size.value();
    let [along, across, up] = match size {
        Some(size) => [size.along, size.across, size.up],
        None => [Length::ZERO; 3],
    };
    let share = match body.faces.value() {
        Some(Side::Front) => [0.0, 0.5, 0.5],
        Some(Side::Rear) => [1.0, 0.5, 0.5],
        Some(Side::Left) => [0.5, 0.0, 0.5],
        Some(Side::Right) => [0.5, 1.0, 0.5],
        Some(Side::Floor) => [0.5, 0.5, 0.0],
        Some(Side::Roof) => [0.5, 0.5, 1.0],
        None => [0.5; 3],
    };
    Some(Spot {
        from_front: spot.from_front + along * share[0],
        from_left: spot.from_left + across * share[1],
        above_floor: spot.above_floor + up * share[2],
    })
}
