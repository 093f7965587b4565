//! The single-line overview: sources, what protects them, the bus and its
//! circuits, each as one line. Not here: which circuits there are, sizes, ratings.
//!
//! One rail runs down the left side; sources join it at the top, circuits leave
//! it below, and a circuit that ends in a further block starts a rail of its own.
//!
//! ```
//! use wainwright_drawing::single_line::{Options, SingleLine, draw};
//! assert!(draw(&SingleLine::default(), &Options::default()).height > 0.0);
//! ```

mod circuits;
mod data;
mod place;
mod write;

pub use data::{Branch, Feed, Item, SingleLine};

use crate::picture::Picture;

/// How an overview is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Options {
    /// Width [px]; deep trees need more and get it.
    pub width: f64,
    /// Put before every `id`, so that two drawings can stand on one page.
    pub id_prefix: String,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            width: 720.0,
            id_prefix: String::new(),
        }
    }
}

/// Draws `line`. Total and deterministic.
pub fn draw(line: &SingleLine, options: &Options) -> Picture {
    let placed = place::place(line, options.width);
    write::write(&placed, &options.id_prefix)
}
