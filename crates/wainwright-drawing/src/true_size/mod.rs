//! A board on paper in true size, over as many pages as it takes: outline, holes to cut, places to drill, centre lines;
//! marks to lay the pages over each other by; bars of 100 mm both ways to prove the printer. Not here: what is cut.
//!
//! One unit of a page is a tenth of a millimetre, so that a coordinate of one decimal place is exact enough.

mod tiles;
mod write;

pub use crate::lining::Box2;
pub use tiles::{Tile, Tiles, tiles};
pub use write::pages;

/// What is drawn. Lengths are metres: x to the right, y up.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Template {
    /// The board.
    pub board: Box2,
    /// Where nothing of other boards is behind it.
    pub inside: Box2,
    /// Holes to cut.
    pub cuts: Vec<Cut>,
    /// Holes to drill.
    pub drills: Vec<Drill>,
    /// What stands behind, for orientation.
    pub behind: Vec<Box2>,
}

/// A hole to cut.
#[derive(Debug, Clone, PartialEq)]
pub struct Cut {
    /// What it is for: id in the project text.
    pub id: String,
    /// What people call that, and the size of the hole.
    pub name: String,
    /// Where its middle is, in a sentence.
    pub middle: String,
    /// Its outline; of a round one the square round it.
    pub place: Box2,
    /// Whether it is round.
    pub round: bool,
}

/// A hole to drill.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Drill {
    /// Its middle \[m\].
    pub x_m: f64,
    /// Its middle \[m\].
    pub y_m: f64,
    /// Its diameter \[m\].
    pub diameter_m: f64,
}

/// What is written on every page.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Words {
    /// Name of the template.
    pub title: String,
    /// How to print it.
    pub print: String,
    /// At the bars.
    pub bar: String,
    /// On which side of a line to cut.
    pub cut: String,
    /// How the pages are laid over each other.
    pub join: String,
    /// "Page"; its number follows.
    pub page: String,
    /// Between the number of a page and that of all pages.
    pub of: String,
    /// Before the number of a row and of a column.
    pub place: [String; 2],
}
