//! Where a value came from, as plain data and in words.

use serde::Serialize;
use wainwright_analysis::known::{Assumption, Basis};
use wainwright_model::Origin;
use wainwright_reference::Source;

/// Where a value came from.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum BasisView {
    /// Typed in the project file.
    Typed {
        /// Line, from 1.
        line: usize,
        /// Column in characters, from 1.
        column: usize,
        /// The part or wire whose text the place counts in; none: the element itself.
        through: Option<String>,
    },
    /// It belongs to a part.
    Part {
        /// Part id.
        part: String,
        /// The part's own source text.
        source: Option<String>,
    },
    /// Read from a published table.
    Table {
        /// Which.
        source: SourceView,
    },
    /// Computed from other values of the model.
    Computed,
    /// Nobody said; a stand-in.
    Assumed {
        /// Why this one.
        why: &'static str,
    },
}

/// A published source.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct SourceView {
    /// Its id in the reference tables.
    pub id: String,
    /// Document.
    pub document: String,
    /// Edition.
    pub edition: String,
    /// Place inside it.
    pub place: String,
    /// How the number is known: `read`, `derived`, `memory` or `judgement`.
    pub mark: &'static str,
}

impl BasisView {
    /// The same as plain data.
    pub fn of(basis: &Basis) -> Self {
        match basis {
            Basis::Typed(place) => Self::Typed {
                line: place.line,
                column: place.column,
                through: match &place.origin {
                    Origin::File => None,
                    Origin::Part(id) | Origin::Like(id) => Some(id.clone()),
                },
            },
            Basis::Part { part, source } => Self::Part {
                part: part.clone(),
                source: source.clone(),
            },
            Basis::Table(source) => Self::Table {
                source: SourceView::of(source),
            },
            Basis::Computed => Self::Computed,
            Basis::Assumed(why) => Self::Assumed {
                why: assumption(*why),
            },
        }
    }

    /// In a few words, for people.
    pub fn words(&self) -> String {
        match self {
            Self::Typed {
                line,
                through: None,
                ..
            } => format!("typed on line {line}"),
            Self::Typed {
                through: Some(id), ..
            } => format!("typed for {id}"),
            Self::Part { part, source: None } => format!("part {part}"),
            Self::Part {
                part,
                source: Some(source),
            } => format!("part {part}: {source}"),
            Self::Table { source } => source.words(),
            Self::Computed => "computed".into(),
            Self::Assumed { why } => format!("assumed: {}", why.replace('-', " ")),
        }
    }
}

impl SourceView {
    /// The same as plain data.
    pub fn of(source: &Source) -> Self {
        Self {
            id: source.id.clone(),
            document: source.document.clone(),
            edition: source.edition.clone(),
            place: source.place.clone(),
            mark: source.mark.id(),
        }
    }

    /// Document and place, and how it is known.
    pub fn words(&self) -> String {
        let place = if self.place.is_empty() {
            String::new()
        } else {
            format!(", {}", self.place)
        };
        format!("{}{place} ({})", self.document, self.mark)
    }
}

fn assumption(why: Assumption) -> &'static str {
    match why {
        Assumption::UsualForKind => "usual-for-its-kind",
        Assumption::UsualForChemistry => "usual-for-its-chemistry",
        Assumption::UsualForFamily => "usual-for-its-family",
        Assumption::UsualForJoint => "usual-for-such-a-joint",
        Assumption::Profile => "usual-limit",
        Assumption::Worst => "worst-that-is-plausible",
        Assumption::LeftOut => "left-out",
    }
}
