//! The wiring schematic's layout: from a [`Diagram`] to rectangles, points and polylines.
//!
//! Steps, one file each: names to indices (`graph`), columns (`columns`), block
//! sizes and lugs (`shape`), long wires cut into steps (`stage`), order within
//! columns (`order`), heights (`heights`, `align`), tracks between columns (`channel`),
//! coordinates (`assemble`, `paths`, `hops`), blocks without wires (`shelf`). Guarantees, held by construction and tested on
//! random diagrams: blocks do not overlap, wires are orthogonal, no wire runs
//! through a block, no two wires share a line, labels touch neither labels nor blocks.

mod align;
mod assemble;
mod channel;
mod columns;
mod graph;
mod heights;
mod hops;
mod order;
mod paths;
mod shape;
mod shelf;
mod stage;

use crate::diagram::{Block, Diagram, Link, Pole};
use crate::geometry::{Point, Rect};
pub(crate) use shape::Class;

/// Height of small text [px].
pub(crate) const FONT: f64 = 11.0;
/// Height of titles [px].
pub(crate) const TITLE_FONT: f64 = 13.0;

/// A drawing with every place known. Plain data; made by [`layout()`].
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Layout {
    /// Width of the sheet [px].
    pub width: f64,
    /// Height of the sheet [px].
    pub height: f64,
    /// Blocks in the order of the diagram.
    pub blocks: Vec<PlacedBlock>,
    /// Links that could be placed, in the order of the diagram.
    pub links: Vec<PlacedLink>,
    /// Free texts, e.g. the heading over blocks without wires.
    pub captions: Vec<Caption>,
    /// Indices of links in the diagram whose end names no block.
    pub dropped: Vec<usize>,
    /// Places where wires cross.
    pub crossings: usize,
}

/// A side of a block, or a wall of the space between two columns.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Left.
    Left,
    /// Right.
    Right,
}

impl Side {
    /// The other side.
    pub fn facing(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
}

/// A block with its place.
#[derive(Debug, Clone, PartialEq)]
pub struct PlacedBlock {
    /// The block, with terminals added that only a link knew.
    pub block: Block,
    /// Its outline.
    pub rect: Rect,
    /// Height of the part above the first row [px].
    pub head: f64,
    /// Heights of its rows [px].
    pub rows: Vec<Row>,
    /// Its lugs: one for every wire end, and one for every open terminal.
    pub ports: Vec<Port>,
}

/// One row of a block.
#[derive(Debug, Clone, PartialEq)]
pub struct Row {
    /// Reference height on the sheet [px].
    pub y: f64,
    /// Terminals that belong to it (blocks with ways only).
    pub terminals: Vec<usize>,
}

/// One lug of a block.
#[derive(Debug, Clone, PartialEq)]
pub struct Port {
    /// Index into the block's terminals.
    pub terminal: usize,
    /// On the outline of the block.
    pub at: Point,
    /// Which side of the block.
    pub side: Side,
    /// Index into [`Layout::links`]; `None` for an open terminal.
    pub link: Option<usize>,
    /// Pole of the terminal.
    pub pole: Pole,
}

/// A link with its way over the sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct PlacedLink {
    /// The link.
    pub link: Link,
    /// Corner points from its `from` end to its `to` end; level and upright pieces only.
    pub path: Vec<Point>,
    /// Points where a level piece hops over another wire, in the order of the path.
    pub hops: Vec<Point>,
    /// What the wire is, above the wire.
    pub label: Option<LabelBox>,
    /// What it carries, below the wire.
    pub value: Option<LabelBox>,
    /// The blocks and terminals at its ends, in words.
    pub ends: [TerminalPlace; 2],
}

/// A terminal in words.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TerminalPlace {
    /// Title of the block.
    pub title: String,
    /// Label of the terminal, or its id when it has none.
    pub terminal: String,
}

/// A text and the box it fills.
#[derive(Debug, Clone, PartialEq)]
pub struct LabelBox {
    /// Box on the sheet; the text may not leave it.
    pub rect: Rect,
    /// The text, shortened to fit.
    pub text: String,
    /// The side of the box at which the text starts or ends.
    pub side: Side,
}

/// A free text on the sheet.
#[derive(Debug, Clone, PartialEq)]
pub struct Caption {
    /// Left end of the base line.
    pub at: Point,
    /// The text.
    pub text: String,
}

/// Places every block and link of `diagram`. Total and deterministic: any
/// diagram, also an empty or contradictory one, gives a drawing.
pub fn layout(diagram: &Diagram) -> Layout {
    let graph = graph::Graph::new(diagram);
    let columns = columns::columns(&graph);
    let mut stage = stage::Stage::new(diagram, &graph, &columns);
    order::order(&mut stage);
    let heights = heights::heights(&mut stage, &graph.blocks);
    let mut layout = assemble::assemble(diagram, &graph, &stage, &heights);
    shelf::put(&graph, &mut layout);
    layout
}
