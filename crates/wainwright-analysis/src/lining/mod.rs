//! The lining study: from the project to surfaces, layers in pieces, cutting plans, what to buy. Slower than an
//! assessment, so it is run on demand: [`inputs`] says quickly whether an earlier answer still holds; [`masses`] is
//! quick and serves the road study.
//!
//! The inside sizes of the trailer count as those of every layer. Battens run across the ribs. Edges of a bowed
//! ceiling on front and rear walls are taken as straight.
//!
//! Not here: judgement and words for people; heat and damp.

mod bars;
mod boards;
mod checks;
mod jobs;
mod lay;
mod layer;
mod lower;
mod masses;
mod material;
mod odds;
mod stock;
mod surface;

pub use checks::{LayerCheck, LayerTrouble, checks};
pub use lower::{LiningInputs, inputs};
pub use masses::masses;
pub use material::{material, materials};

use crate::result::lining::{LinedSurface, LiningResult, Supplies};
use wainwright_units::{Length, Mass};

/// The lining study. Total: what cannot be laid or cut is missing or refused in the result.
pub fn study(inputs: &LiningInputs) -> LiningResult {
    let mut refused = Vec::new();
    let mut missing = inputs.missing.clone();
    let sides = inputs.sides.iter();
    let mut surfaces: Vec<LinedSurface> = sides
        .map(|side| lay::lay_side(inputs, side, &mut refused))
        .collect();
    let jobs = jobs::jobs(inputs, &mut surfaces, &mut missing);
    LiningResult {
        mass_to_come: mass_to_come(&surfaces),
        supplies: supplies(&surfaces),
        surfaces,
        jobs,
        assumptions: inputs.assumptions.clone(),
        missing,
        refused,
    }
}

fn mass_to_come(surfaces: &[LinedSurface]) -> Mass {
    let layers = surfaces.iter().flat_map(|surface| &surface.layers);
    let masses = layers.filter(|layer| !layer.done);
    masses
        .filter_map(|layer| layer.mass)
        .fold(Mass::ZERO, |sum, one| sum + one)
}

/// What is wanted beside the pieces, of the layers that are not in yet.
fn supplies(surfaces: &[LinedSurface]) -> Supplies {
    let layers = surfaces.iter().flat_map(|surface| &surface.layers);
    layers
        .filter(|layer| !layer.done)
        .fold(Supplies::NONE, |sum, layer| Supplies {
            fasteners: sum.fasteners + layer.fasteners,
            tape: sum.tape + layer.tape,
            adhesive: sum.adhesive
                + if layer.tape > Length::ZERO {
                    layer.adhesive
                } else {
                    Length::ZERO
                },
            trims: sum.trims + layer.trims,
        })
}
