//! What a legend card shows, as plain data.

use crate::diagram::Tone;

/// One fuse block.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct FuseCard {
    /// Name of the block.
    pub title: String,
    /// E.g. where it is; may be empty.
    pub subtitle: String,
    /// Where the first way is, as the block is mounted.
    pub first: Corner,
    /// How the ways are counted.
    pub order: Order,
    /// The ways in their order.
    pub ways: Vec<Way>,
    /// Printed below the block.
    pub notes: Vec<String>,
}

/// One way of the block.
#[derive(Debug, Clone, PartialEq)]
pub struct Way {
    /// Id in the project text.
    pub id: String,
    /// Number on the block.
    pub number: String,
    /// Rating of its fuse, e.g. `15 A`.
    pub rating: String,
    /// Name of the colour of its fuse; empty without a fuse.
    pub colour: String,
    /// What it feeds.
    pub circuit: String,
    /// Further facts, e.g. `14 AWG`; may be empty.
    pub detail: String,
    /// Read aloud.
    pub words: String,
    /// How it fares.
    pub tone: Tone,
    /// Chosen by the person.
    pub selected: bool,
}

/// A corner of the block.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Corner {
    /// Upper left.
    #[default]
    TopLeft,
    /// Upper right.
    TopRight,
    /// Lower left.
    BottomLeft,
    /// Lower right.
    BottomRight,
}

/// How ways are counted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Order {
    /// Along the first column, then along the second.
    #[default]
    DownColumns,
    /// From one column to the other, row by row.
    AcrossRows,
}

/// How a card is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct CardOptions {
    /// Width [px].
    pub width: f64,
    /// Put before every `id`, so that two drawings can stand on one page.
    pub id_prefix: String,
}

impl Default for CardOptions {
    fn default() -> Self {
        Self {
            width: 560.0,
            id_prefix: String::new(),
        }
    }
}
