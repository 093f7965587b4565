//! Drawings: the wiring schematic, true-to-scale scenes, the single-line
//! overview, lined surfaces and cutting plans, faces of cabinets, sheets of paper, templates in true size, the legend card, small charts, and the only SVG writer.
//!
//! Here: plain input ([`Diagram`]), plain geometry ([`Layout`]), text ([`svg`]).
//! Not here: physics, rules, colours on elements, files. A drawing is a pure
//! function of its input: the same input gives the same bytes.
//!
//! ```
//! use wainwright_drawing::{Diagram, Style, layout, svg};
//! let text = svg(&layout(&Diagram::default()), &Style::default());
//! assert!(text.starts_with("<svg"));
//! ```

mod board;
pub mod chart;
pub mod cutting;
mod diagram;
pub mod face;
mod geometry;
mod layout;
pub mod legend;
pub mod lining;
mod picture;
pub mod scene;
pub mod sheet;
pub mod single_line;
mod svg;
mod symbol;
mod text;
pub mod true_size;

pub use diagram::{Block, BlockKind, Diagram, End, Link, Pole, Terminal, Tone};
pub use geometry::{Point, Rect};
pub use layout::{
    Caption, LabelBox, Layout, PlacedBlock, PlacedLink, Port, Row, Side, TerminalPlace, layout,
};
pub use picture::{Picture, TextBox};
pub use svg::{Css, Style, stylesheet, svg};
pub use text::{fit, text_width};
