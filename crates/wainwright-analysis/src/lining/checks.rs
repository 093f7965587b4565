//! What can be told of layers that are not in yet without laying them out: foam deeper than its room, runs that ask for
//! a rip, materials in no table. Quick, for every assessment. Not here: judgement.

use super::layer::{How, LayerInputs};
use super::lower::{SideInputs, inputs};
use super::material::density_of;
use wainwright_engines::lining::{Backing, Fit, PlankOptions, Surface, planks};
use wainwright_model::{FieldExt, Id, LayerKind, Project, Side};
use wainwright_units::Length;

/// A layer longer than this is not joined while runs are only counted \[m\].
const ENDLESS_M: f64 = 99.0;

/// Something about one layer.
#[derive(Debug, Clone, PartialEq)]
pub struct LayerCheck {
    /// The layer.
    pub layer: Id,
    /// The side; the first of several.
    pub side: Side,
    /// What it is.
    pub what: LayerTrouble,
}

/// What is told of a layer.
#[derive(Debug, Clone, PartialEq)]
pub enum LayerTrouble {
    /// Foam is thicker than ribs or battens are deep, and planks or sheets come over it.
    FoamTooDeep {
        /// All foam there together.
        foam: Length,
        /// Depth of ribs or battens.
        room: Length,
        /// Whether battens make the room.
        battens: bool,
    },
    /// Full boards do not fill the side, and no saw at hand can rip.
    NeedsRips {
        /// Runs of boards.
        runs: usize,
        /// Width the last one is left with.
        last: Length,
        /// Width of a full one.
        full: Length,
    },
    /// The material is in no table.
    UnknownMaterial(String),
}

/// Everything of that kind, in the order of the sides.
pub fn checks(project: &Project) -> Vec<LayerCheck> {
    if project.layers.is_empty() {
        return Vec::new();
    }
    let inputs = inputs(project);
    let rib_depth = project.trailer.rib_depth.value().copied();
    let mut found: Vec<LayerCheck> = Vec::new();
    for side in &inputs.sides {
        let mut told = Vec::new();
        told.extend(foam_too_deep(side, rib_depth));
        if !inputs.tools.can_rip {
            told.extend(needs_rips(side));
        }
        told.extend(unknown(side));
        for (layer, what) in told {
            // A material is said once, whatever sides it is on.
            let once = matches!(what, LayerTrouble::UnknownMaterial(_));
            let known = found
                .iter()
                .any(|one| one.layer == layer && one.what == what);
            if !(once && known) {
                let side = side.shape.side;
                found.push(LayerCheck { layer, side, what });
            }
        }
    }
    found
}

/// Foam between ribs or battens that stands higher than these, under something that lies on them.
fn foam_too_deep(side: &SideInputs, rib_depth: Option<Length>) -> Option<(Id, LayerTrouble)> {
    let (mut room, mut battens) = (rib_depth, false);
    let mut foam: Option<(&LayerInputs, Length)> = None;
    for layer in &side.layers {
        match layer.kind {
            LayerKind::Battens => {
                (room, battens, foam) = (layer.thickness, true, None);
            }
            LayerKind::Foam => {
                let so_far = foam.map_or(Length::ZERO, |(_, depth)| depth);
                foam = layer.thickness.map(|thick| (layer, so_far + thick));
            }
            LayerKind::Planks | LayerKind::Sheets if !layer.done => {
                let ribbed = battens || !side.shape.surface.ribs.is_empty();
                let (foam, room) = foam.zip(room.filter(|_| ribbed))?;
                let (layer, foam) = foam;
                let what = LayerTrouble::FoamTooDeep {
                    foam,
                    room,
                    battens,
                };
                return (foam.millimetres() > room.millimetres() + 0.1)
                    .then(|| (layer.id.clone(), what));
            }
            _ => {}
        }
    }
    None
}

/// Runs counted on the bare rectangle of the side.
fn needs_rips(side: &SideInputs) -> Vec<(Id, LayerTrouble)> {
    let open = side.layers.iter().filter(|layer| !layer.done);
    let found = open.filter_map(|layer| {
        let Some(How::Planks(options)) = &layer.how else {
            return None;
        };
        let endless = Length::from_metres(ENDLESS_M);
        let options = PlankOptions {
            runs: layer.direction(side.shape.side),
            longest: endless,
            stock: Vec::new(),
            effort: 1,
            ..(**options).clone()
        };
        let bare = Surface {
            ribs: Vec::new(),
            openings: Vec::new(),
            ..side.shape.surface.clone()
        };
        let laid = planks(&bare, &Backing::Whole, &options).ok()?;
        let ripped = matches!(laid.fit, Fit::LastRipped | Fit::Balanced | Fit::Single);
        let what = LayerTrouble::NeedsRips {
            runs: laid.courses.edges.len().saturating_sub(1),
            last: laid.courses.last,
            full: options.face,
        };
        ripped.then(|| (layer.id.clone(), what))
    });
    found.collect()
}

fn unknown(side: &SideInputs) -> Vec<(Id, LayerTrouble)> {
    let named = side.layers.iter().filter_map(|layer| {
        let name = layer.material.as_ref()?;
        let matters = !matches!(layer.kind, LayerKind::Film | LayerKind::Air);
        let known = layer.density.is_some() || density_of(name, false).is_some();
        let what = LayerTrouble::UnknownMaterial(name.clone());
        (matters && !known).then(|| (layer.id.clone(), what))
    });
    named.collect()
}
