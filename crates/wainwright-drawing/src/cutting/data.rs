//! What cutting plans show, as plain data. All text is ready made.

use crate::lining::Box2;

/// One board and what is cut from it, from one end to the other.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Bar {
    /// E.g. `Board 3: 12' from the shop`.
    pub head: String,
    /// What is left of it, e.g. `left over 14", keep`.
    pub note: String,
    /// Its length \[m\].
    pub length_m: f64,
    /// Cut off to square the ends, both together \[m\].
    pub trim_m: f64,
    /// Width of one saw cut \[m\].
    pub kerf_m: f64,
    /// Pieces in the order they are cut.
    pub pieces: Vec<BarPiece>,
    /// What is left in one piece \[m\].
    pub offcut_m: f64,
    /// Its length as people read it.
    pub offcut: String,
    /// It is worth keeping.
    pub keep: bool,
    /// Read aloud.
    pub words: String,
}

/// A piece of a board.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct BarPiece {
    /// What is written on it.
    pub mark: String,
    /// Its length as people read it.
    pub text: String,
    /// Its length \[m\].
    pub length_m: f64,
}

/// One sheet, its corner at the lower left.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct CutSheet {
    /// E.g. `Sheet 2: 8' x 4' from the shed`.
    pub head: String,
    /// From left to right \[m\].
    pub width_m: f64,
    /// From the bottom up \[m\].
    pub height_m: f64,
    /// Width of one saw cut \[m\].
    pub kerf_m: f64,
    /// Pieces on it.
    pub pieces: Vec<SheetPiece>,
    /// What is left over.
    pub offcuts: Vec<Box2>,
    /// Cuts in order, numbered from 1.
    pub cuts: Vec<SheetCut>,
    /// Length and width as people read them.
    pub sizes: [String; 2],
    /// Read aloud.
    pub words: String,
}

/// A piece on a sheet.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SheetPiece {
    /// What is written on it.
    pub mark: String,
    /// Its size as people read it.
    pub text: String,
    /// Its place on the sheet.
    pub place: Box2,
}

/// One cut through a part of a sheet.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct SheetCut {
    /// The part that is cut.
    pub of: Box2,
    /// It runs from the bottom up.
    pub upright: bool,
    /// From the left or lower edge of that part \[m\]; the saw cut lies beyond.
    pub setting_m: f64,
    /// What to do, as a sentence.
    pub words: String,
}
