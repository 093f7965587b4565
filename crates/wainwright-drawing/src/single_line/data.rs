//! What a single-line overview shows, as plain data. Not here: where it comes on the sheet.

use crate::diagram::{BlockKind, Tone};

/// Sources, what protects them, the bus and its circuits. Each line stands for both poles.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SingleLine {
    /// What feeds the bus, from the top.
    pub sources: Vec<Feed>,
    /// What all of it goes through, from the sources to the bus, e.g. main fuse, switch, shunt.
    pub main: Vec<Item>,
    /// Name of the bus, e.g. `Plus bus bar`.
    pub bus: String,
    /// Circuits, from the top.
    pub branches: Vec<Branch>,
}

/// One source with its line to the rest.
#[derive(Debug, Clone, PartialEq)]
pub struct Feed {
    /// The source.
    pub source: Item,
    /// What its wire is, e.g. `2 AWG · 3 ft`.
    pub wire: String,
    /// What is in its line, from the source on.
    pub through: Vec<Item>,
}

/// One circuit, or a branch to a further block with circuits of its own.
#[derive(Debug, Clone, PartialEq)]
pub struct Branch {
    /// What is in its line, from the bus on, e.g. its fuse.
    pub through: Vec<Item>,
    /// What its wire is, e.g. `14 AWG · 9 ft`.
    pub wire: String,
    /// What is at its end.
    pub end: Item,
    /// Circuits that start there.
    pub branches: Vec<Branch>,
}

/// One device.
#[derive(Debug, Clone, PartialEq)]
pub struct Item {
    /// Id in the project text.
    pub id: String,
    /// What it is: decides its symbol.
    pub kind: BlockKind,
    /// Its name; a device within a line shows only its note.
    pub title: String,
    /// Short fact: rating, capacity, current.
    pub note: String,
    /// Read aloud.
    pub words: String,
    /// How it fares.
    pub tone: Tone,
    /// Chosen by the person.
    pub selected: bool,
}
