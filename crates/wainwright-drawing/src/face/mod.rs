//! The face of a cabinet to scale, seen by somebody who stands before it: devices, cut-outs, what is in the way of what.
//! Not here: what fits and what does not (the cabinet study), the face on paper in true size (`true_size`).
//!
//! ```
//! use wainwright_drawing::face::{Face, Options, face};
//! let plain = Face { width_m: 1.1, height_m: 0.8, ..Face::default() };
//! assert!(face(&plain, &Options::default()).width > 0.0);
//! ```

mod write;

pub use crate::lining::{Box2, Measure};
pub use write::face;

use crate::diagram::Tone;

/// A face. Lengths are metres: x to the right, y up, from its left lower inside corner.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Face {
    /// Inside width \[m\].
    pub width_m: f64,
    /// Inside height \[m\].
    pub height_m: f64,
    /// The board that closes it; it may begin below zero.
    pub board: Box2,
    /// What is on it and behind it.
    pub devices: Vec<Device>,
    /// Where two devices are in the same place.
    pub overlaps: Vec<Box2>,
    /// Written in each of them.
    pub overlap_word: String,
    /// Dimension lines below.
    pub across: Vec<Vec<Measure>>,
    /// Dimension lines beside.
    pub up: Vec<Vec<Measure>>,
}

/// A device.
#[derive(Debug, Clone, PartialEq)]
pub struct Device {
    /// Its id in the project text.
    pub id: String,
    /// Printed in it.
    pub label: String,
    /// Read aloud.
    pub words: String,
    /// Its body.
    pub place: Box2,
    /// The hole it needs.
    pub hole: Option<Hole>,
    /// It is on the face itself; dashed otherwise.
    pub on_face: bool,
    /// How it fares.
    pub tone: Tone,
    /// Chosen by the person.
    pub selected: bool,
}

/// A hole in the face.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hole {
    /// Its outline; of a round one the square round it.
    pub place: Box2,
    /// Whether it is round.
    pub round: bool,
}

/// How it is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Options {
    /// Width of the drawing \[px\].
    pub width: f64,
    /// Most height of the face itself \[px\].
    pub height: f64,
    /// Put before every `id`, so that two drawings can stand on one page.
    pub id_prefix: String,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            width: 760.0,
            height: 460.0,
            id_prefix: String::new(),
        }
    }
}
