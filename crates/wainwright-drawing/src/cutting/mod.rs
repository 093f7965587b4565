//! Cutting plans to scale: boards cut to length, sheets cut right through again and again, both on the screen and on
//! paper to work along. Not here: which plan is best, and surfaces (`lining`).
//!
//! ```
//! use wainwright_drawing::cutting::bars;
//! assert!(bars(&[], 500.0).width > 0.0);
//! ```

mod bars;
mod data;
mod paper;
mod sheet;

pub use bars::bars;
pub use data::{Bar, BarPiece, CutSheet, SheetCut, SheetPiece};
pub use paper::{bar_pages, sheet_pages};
pub use sheet::cut_sheet;
