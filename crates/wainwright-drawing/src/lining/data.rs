//! What a drawing of a surface shows, as plain data. Lengths are metres on the surface: x from its first edge, y up.

/// A rectangle on a surface or a sheet: lower left corner and size \[m\].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Box2 {
    /// Left edge \[m\].
    pub x_m: f64,
    /// Lower edge \[m\].
    pub y_m: f64,
    /// Size along x \[m\].
    pub width_m: f64,
    /// Size along y \[m\].
    pub height_m: f64,
}

impl Box2 {
    /// The rectangle with this lower left corner and size \[m\].
    pub fn new(x_m: f64, y_m: f64, width_m: f64, height_m: f64) -> Self {
        Self {
            x_m,
            y_m,
            width_m,
            height_m,
        }
    }

    /// Whether all its numbers are numbers and it has a size.
    pub fn known(&self) -> bool {
        [self.x_m, self.y_m].iter().all(|m| m.is_finite())
            && [self.width_m, self.height_m]
                .iter()
                .all(|m| m.is_finite() && *m > 0.0)
    }
}

/// One side of the box, seen from inside.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Lined {
    /// Size along x \[m\].
    pub width_m: f64,
    /// Size along y \[m\].
    pub height_m: f64,
    /// x runs to the left.
    pub mirrored: bool,
    /// What lies behind: ribs.
    pub ribs: Vec<Box2>,
    /// Doors, windows, vents.
    pub openings: Vec<Gap>,
    /// The pieces of one layer.
    pub pieces: Vec<Piece>,
    /// Where two pieces meet end to end.
    pub joints: Vec<[(f64, f64); 2]>,
    /// Edges that are ripped.
    pub ripped: Vec<[(f64, f64); 2]>,
    /// Where nothing is laid though something should be.
    pub left_out: Vec<Box2>,
    /// The layer is in already.
    pub done: bool,
    /// Written over the drawing.
    pub caption: String,
    /// What is beyond the left and the right edge of the drawing, e.g. `front`, `rear`.
    pub ends: [String; 2],
    /// Dimension lines below, the nearest row first.
    pub across: Vec<Vec<Measure>>,
    /// Dimension lines beside, the nearest row first.
    pub up: Vec<Vec<Measure>>,
}

/// An opening.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Gap {
    /// Its outline, or the box round it.
    pub place: Box2,
    /// Drawn as an ellipse in that box.
    pub round: bool,
    /// What people call it.
    pub name: String,
}

/// One piece.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Piece {
    /// Its mark: unique on the page.
    pub id: String,
    /// What is written on it.
    pub number: String,
    /// Its outline.
    pub place: Box2,
    /// Notches and holes.
    pub cuts: Vec<Box2>,
    /// Read aloud, and shown when it is pointed at.
    pub words: String,
    /// Chosen by the person.
    pub selected: bool,
}

/// A dimension line between two places along x or y \[m\].
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Measure {
    /// From here \[m\].
    pub from_m: f64,
    /// To here \[m\].
    pub to_m: f64,
    /// The length as people read it.
    pub text: String,
}

/// How it is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Options {
    /// Width of the drawing \[px\].
    pub width: f64,
    /// Most height of the surface itself \[px\].
    pub height: f64,
    /// Put before every `id`, so that two drawings can stand on one page.
    pub id_prefix: String,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            width: 880.0,
            height: 470.0,
            id_prefix: String::new(),
        }
    }
}
