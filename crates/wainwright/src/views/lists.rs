//! The lists to work and shop by, as rows: what a table on a page shows and
//! what a file for a spreadsheet holds. Not here: counting (the analysis),
//! how a table looks.

pub mod buy;
mod csv;
mod fuses;
mod labels;
mod terminals;
mod wires;

pub use csv::csv;
pub use fuses::fuses;
pub use labels::labels;
pub use terminals::terminals;
pub use wires::{end_words, route_words, wires};

use serde::Serialize;
use wainwright_units::{Length, Quantity, System};

/// Metres in a foot, by definition.
const FOOT: f64 = 0.3048;

/// One list.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Listing {
    /// Name of its file, without the ending.
    pub name: &'static str,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, each as long as `columns`.
    pub rows: Vec<Vec<Cell>>,
}

/// One column.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct Column {
    /// Its heading.
    pub title: &'static str,
    /// Unit of its numbers in a file.
    pub unit: Option<&'static str>,
}

/// One cell.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Cell {
    /// A text; may be empty.
    Text(String),
    /// A number in the unit of its column, and as people read it.
    Number {
        /// The number.
        number: f64,
        /// As people read it, with its unit.
        text: String,
    },
}

impl Cell {
    /// As people read it.
    pub fn text(&self) -> &str {
        match self {
            Self::Text(text) | Self::Number { text, .. } => text,
        }
    }

    /// A text.
    pub fn of(text: impl Into<String>) -> Self {
        Self::Text(text.into())
    }

    /// A number that needs no unit.
    pub fn count(number: u32) -> Self {
        Self::Number {
            number: f64::from(number),
            text: number.to_string(),
        }
    }

    /// A length, in feet or metres.
    pub fn length(length: Length, units: System) -> Self {
        Self::Number {
            number: match units {
                System::Us => length.metres() / FOOT,
                System::Metric => length.metres(),
            },
            text: length.show(units),
        }
    }
}

/// Columns without a unit.
fn columns<const N: usize>(titles: [&'static str; N]) -> Vec<Column> {
    titles.map(|title| Column { title, unit: None }).to_vec()
}

/// Unit of lengths in files.
pub fn length_unit(units: System) -> &'static str {
    match units {
        System::Us => "ft",
        System::Metric => "m",
    }
}
