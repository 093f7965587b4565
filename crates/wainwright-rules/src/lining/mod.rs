//! The rules of the lining, one file each; only what can be told without laying it out. Not here: the order they are
//! shown in (see [`crate::catalogue`]).

pub(crate) mod foam_too_deep;
pub(crate) mod material_unknown;
pub(crate) mod rip_without_saw;

use wainwright_model::{Project, Side};

/// What a layer is called, and where.
fn place(project: &Project, layer: &str, side: Side) -> String {
    let side = match side {
        Side::Left => "the left wall",
        Side::Right => "the right wall",
        Side::Front => "the front wall",
        Side::Rear => "the rear wall",
        Side::Roof => "the ceiling",
        Side::Floor => "the floor",
    };
    format!("{} on {side}", project.label_or_id("layer", layer))
}
