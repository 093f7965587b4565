//! Blocks without any wire: set out in lines below the drawing, so that they
//! are seen as still to be wired.

use super::assemble::{MARGIN, shift_block};
use super::graph::Graph;
use super::{Caption, Layout};
use crate::geometry::Point;

/// Space between blocks on the shelf [px].
const GAP: f64 = 16.0;
/// Narrowest shelf [px].
const LEAST_WIDTH: f64 = 760.0;
/// Heading over the shelf.
const HEADING: &str = "Not wired yet";
/// Shown when there is nothing at all.
const HINT: &str = "Nothing to draw yet. Add a battery and a load, then join them with a wire.";

/// Places the blocks without wires below everything else; on an empty sheet leaves a hint.
pub(super) fn put(graph: &Graph, layout: &mut Layout) {
    if layout.blocks.is_empty() {
        layout.width = LEAST_WIDTH;
        layout.height = 200.0;
        layout.captions.push(Caption {
            at: Point::new(MARGIN, 100.0),
            text: HINT.into(),
        });
        return;
    }
    let idle: Vec<usize> = (0..graph.blocks.len())
        .filter(|&block| !graph.wired[block])
        .collect();
    if idle.is_empty() {
        return;
    }
    let right = layout.width.max(LEAST_WIDTH) - MARGIN;
    let mut top = layout.height + 24.0;
    layout.captions.push(Caption {
        at: Point::new(MARGIN, top - 10.0),
        text: HEADING.into(),
    });
    let mut left = MARGIN;
    let mut deepest = top;
    for block in idle {
        let placed = &mut layout.blocks[block];
        if left > MARGIN && left + placed.rect.width > right {
            left = MARGIN;
            top = deepest + GAP;
        }
        let (dx, dy) = (left - placed.rect.x, top - placed.rect.y);
        shift_block(placed, dx, dy);
        left = placed.rect.right() + GAP;
        deepest = deepest.max(placed.rect.bottom());
        layout.width = layout.width.max(placed.rect.right() + MARGIN);
    }
    layout.height = deepest + MARGIN;
}
