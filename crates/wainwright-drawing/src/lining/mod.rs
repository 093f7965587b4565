//! A lined surface to scale, seen from inside: ribs, openings, pieces with their numbers, joints, notches, ripped edges,
//! dimension lines. Not here: what is laid where, and how pieces are cut (`cutting`).
//!
//! ```
//! use wainwright_drawing::lining::{Lined, Options, surface};
//! let wall = Lined { width_m: 3.6, height_m: 1.9, ..Lined::default() };
//! assert!(surface(&wall, &Options::default()).width > 0.0);
//! ```

mod data;
pub(crate) mod measures;
pub(crate) mod numbers;
mod write;

pub use data::{Box2, Gap, Lined, Measure, Options, Piece};
pub use write::surface;
