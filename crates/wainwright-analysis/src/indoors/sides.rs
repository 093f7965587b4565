//! The sides of the box: how large, and what passes through each. Not here: what leaves on a night.

use super::desk::{Desk, SIDES, films};
use super::stack::{Stack, stack};
use crate::known::{Basis, Known};
use crate::result::indoors::{PaneHeat, RoomFound, SideHeat};
use wainwright_engines::heat_loss::{Transmittance, profile, transmittance};
use wainwright_model::{LayerKind, Side};
use wainwright_reference::solar;
use wainwright_units::{Area, Ratio, Temperature};

/// A side with what the engines need of it.
pub(super) struct SideFound {
    pub(super) shown: SideHeat,
    pub(super) stack: Option<Stack>,
}

/// All sides.
pub(super) fn sides(desk: &mut Desk<'_>, room: &RoomFound, panes: &[PaneHeat]) -> Vec<SideFound> {
    SIDES
        .into_iter()
        .map(|side| one(desk, side, room, panes))
        .collect()
}

/// Area of a side of the box, openings counted.
pub(super) fn whole(room: &RoomFound, side: Side) -> Area {
    let (length, width, height) = (room.length.value, room.width.value, room.height.value);
    match side {
        Side::Front | Side::Rear => width * height,
        Side::Left | Side::Right => length * height,
        Side::Roof | Side::Floor => length * width,
    }
}

fn one(desk: &mut Desk<'_>, side: Side, room: &RoomFound, panes: &[PaneHeat]) -> SideFound {
    let whole = whole(room, side);
    let openings: Area = panes
        .iter()
        .filter(|pane| pane.side == side)
        .map(|pane| pane.area)
        .sum();
    let openings = openings.min(whole);
    let mut shown = SideHeat {
        side,
        whole,
        openings,
        area: whole - openings,
        described: false,
        layers: Vec::new(),
        ribs: None,
        u: undescribed(),
        u_clear: 0.0,
        u_ribs: None,
        u_span: None,
    };
    shown.u_clear = shown.u.value;
    let stack = stack(desk, side);
    let passes = stack
        .as_ref()
        .and_then(|stack| desk.found(transmittance(&stack.build_up, films(side).1)));
    let (Some(mut stack), Some(passes)) = (stack, passes) else {
        return SideFound { shown, stack: None };
    };
    if insulated(&stack) {
        passing(&mut shown, &mut stack, &passes);
    } else {
        // Ribs behind a skin without foam stand in warm air: they change nothing that matters.
        stack.build_up.metal = None;
        stack.ribs = None;
        if let Some(passes) = desk.found(transmittance(&stack.build_up, films(side).1)) {
            passing(&mut shown, &mut stack, &passes);
        }
    }
    shown.described = true;
    shown.layers.clone_from(&stack.layers);
    shown.ribs.clone_from(&stack.ribs);
    resist(desk, side, &stack, &mut shown);
    SideFound {
        shown,
        stack: Some(stack),
    }
}

fn insulated(stack: &Stack) -> bool {
    stack
        .layers
        .iter()
        .any(|layer| matches!(layer.of, LayerKind::Foam | LayerKind::Air))
}

/// What a side that nobody described lets through.
fn undescribed() -> Known<f64> {
    solar::envelope().map_or_else(
        || Known::computed(0.0),
        |row| Known::new(row.value, Basis::Table(row.source)),
    )
}

fn passing(shown: &mut SideHeat, stack: &mut Stack, passes: &Transmittance) {
    shown.u = Known::computed(passes.watts_per_m2_kelvin);
    let clear = passes.sections.first().map_or(passes.resistance, |r| *r);
    shown.u_clear = 1.0 / clear;
    if let Some(zone) = passes.zone {
        shown.u_ribs = Some(1.0 / zone.resistance);
        if let Some(ribs) = &mut stack.ribs {
            ribs.share = zone.share;
        }
    } else if let Some(at_wood) = passes.sections.get(1) {
        shown.u_ribs = Some(1.0 / at_wood);
        shown.u_span = Some((1.0 / passes.upper, 1.0 / passes.lower));
    }
}

/// Resistance of each layer between the ribs, those of its parts together.
fn resist(desk: &mut Desk<'_>, side: Side, stack: &Stack, shown: &mut SideHeat) {
    let Some(section) = stack.build_up.sections.first() else {
        return;
    };
    let (flow, films) = films(side);
    let at = stack.build_up.air_layers_at;
    let any = Temperature::from_celsius(0.0);
    let Some(found) = desk.found(profile(section, flow, at, films, at, any)) else {
        return;
    };
    for (of, resistance) in stack.of.iter().zip(&found.resistances) {
        if let Some(layer) = shown.layers.get_mut(*of) {
            layer.resistance += resistance;
        }
    }
}

/// Temperatures of the faces of each layer between the ribs, written into the side.
pub(super) fn faces(
    desk: &mut Desk<'_>,
    side: &mut SideFound,
    inside: Temperature,
    out: Temperature,
) {
    let Some(stack) = &side.stack else { return };
    let Some(section) = stack.build_up.sections.first() else {
        return;
    };
    let (flow, films) = films(side.shown.side);
    let at = stack.build_up.air_layers_at;
    let Some(found) = desk.found(profile(section, flow, at, films, inside, out)) else {
        return;
    };
    for (index, layer) in side.shown.layers.iter_mut().enumerate() {
        let first = stack.of.iter().position(|of| *of == index);
        let last = stack.of.iter().rposition(|of| *of == index);
        let face = |at: usize| found.temperatures.get(at).copied();
        layer.faces = first
            .and_then(face)
            .zip(last.and_then(|last| face(last + 1)));
    }
}

/// Heat that the lining of a side takes up while the air inside gets a kelvin warmer \[J/K\]: each layer by how far its
/// middle goes along.
pub(super) fn stored(side: &SideFound, inside: Temperature, out: Temperature) -> f64 {
    let Some(stack) = &side.stack else { return 0.0 };
    let whole = (inside - out).kelvins();
    if whole <= 0.0 {
        return 0.0;
    }
    let layers = side.shown.layers.iter().zip(&stack.stores);
    let per_area: f64 = layers
        .filter_map(|(layer, stores)| {
            let (outer, inner) = layer.faces?;
            let middle = 0.5 * (outer.celsius() + inner.celsius()) - out.celsius();
            Some(stores * (middle / whole).clamp(0.0, 1.0))
        })
        .sum();
    per_area * side.shown.area.square_metres()
}

/// Share of a side at its ribs or battens.
pub(super) fn share_of_ribs(side: &SideHeat) -> Ratio {
    side.ribs.as_ref().map_or(Ratio::ZERO, |ribs| ribs.share)
}
