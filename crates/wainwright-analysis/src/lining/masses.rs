//! Masses of the layers that are not in yet, quickly: areas only, no piece is laid. Gaps between planks or sheets
//! count as filled, rests too small for a piece as well, which is a little too much.
//!
//! Not here: what the road study makes of them.

use super::lay::net_load;
use super::layer::{How, LayerInputs};
use super::lower::{LiningInputs, SideInputs, inputs};
use crate::result::lining::LayerMass;
use wainwright_engines::lining::{Load, Material, Rect, foam, furring, totals};
use wainwright_model::Project;
use wainwright_units::{Length, Mass};

/// Masses of the layers that are not in yet, in the order of the sides.
pub fn masses(project: &Project) -> Vec<LayerMass> {
    if project.layers.is_empty() {
        return Vec::new();
    }
    masses_of(&inputs(project))
}

fn masses_of(inputs: &LiningInputs) -> Vec<LayerMass> {
    let Some(inside) = &inputs.inside else {
        return Vec::new();
    };
    let mut found = Vec::new();
    for side in &inputs.sides {
        let mut between = side.shape.surface.rib_rects();
        for layer in &side.layers {
            let load = load(side, layer, &mut between).filter(|_| !layer.done);
            let Some(load) = load.filter(|load| load.mass > Mass::ZERO) else {
                continue;
            };
            found.push(LayerMass {
                layer: layer.id.clone(),
                side: side.shape.side,
                mass: load.mass,
                centre: inside.spot(side.shape.side, load.centre.0, load.centre.1),
                extent: inside.extent(side.shape.side),
            });
        }
    }
    found
}

/// Mass of one layer; `None` when it is not known.
fn load(side: &SideInputs, layer: &LayerInputs, between: &mut Vec<Rect>) -> Option<Load> {
    let surface = &side.shape.surface;
    let known = layer.density.is_some();
    let load = match &layer.how {
        Some(How::Battens(options)) => {
            let furring = furring(surface, options).ok()?;
            *between = furring.rects();
            totals(furring.battens.iter().map(|batten| &batten.piece))
        }
        // Where nothing depends on it any more, nothing is worked out.
        _ if layer.done || !known => return None,
        Some(How::Foam(options)) => totals(&foam(surface, between, options).ok()?.pieces),
        Some(How::Planks(_) | How::Sheets(_)) => net(side, layer, layer.gap)?,
        None => net(side, layer, Length::ZERO)?,
    };
    known.then_some(load)
}

fn net(side: &SideInputs, layer: &LayerInputs, gap: Length) -> Option<Load> {
    let material = Material {
        thickness: layer.thickness?,
        density_kg_m3: layer.density.as_ref()?.value,
    };
    net_load(&side.shape.surface, &[], material, gap).ok()
}
