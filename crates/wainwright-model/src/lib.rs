//! The document: project text, typed elements, problems and edits.
//!
//! One TOML text holds the decisions and measurements of one trailer. [`parse`] reads it into a [`Project`] and a
//! list of [`Problem`]s, and never fails; [`apply`] changes it by [`Edit`]s and leaves every byte alone that an edit
//! does not touch; [`schema`] describes every field once, for the reader, the JSON Schema and the forms.
//!
//! Not here: physics, usual values for what is not given, judgement of the design, files.

mod choices;
#[cfg(test)]
#[path = "../tests/common/mod.rs"]
mod common;
mod day;
mod define;
mod edit;
mod elements;
mod journey;
mod kinds;
mod lining;
mod place;
mod problem;
mod project;
mod read;
pub mod schema;
mod spot;
mod syntax;
mod terminals;
mod value;
mod version;

pub use choices::*;
pub use day::Day;
pub use edit::*;
pub use elements::*;
pub use journey::*;
pub use kinds::*;
pub use lining::*;
pub use place::*;
pub use problem::{MOST_PROBLEMS, Problem, ProblemSeverity};
pub use project::*;
pub use read::{Catalogue, Parsed, parse};
pub use schema::json_schema;
pub use spot::{Extent, Spot};
pub use syntax::{DEEPEST_NESTING, LONGEST_DOTTED_KEY, LONGEST_LINE, LONGEST_TEXT};
pub use version::{CURRENT_VERSION, migrate};
