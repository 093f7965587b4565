//! Why an edit was not taken, in words that say what to do next. Not here:
//! trouble with the disk, which does not refuse an edit.

use std::fmt;
use wainwright_model::EditProblem;

/// Why an edit was not taken. The text is as it was.
#[derive(Debug)]
pub enum Refusal {
    /// The text changed since the edit was begun, just where it would change it.
    Outdated {
        /// The tables concerned, such as `wire.fridge-pos`; empty when the
        /// edit concerns the text as a whole.
        tables: Vec<String>,
    },
    /// The text the edit was based on is too old to be compared with.
    TooOld,
    /// The edit does not fit the text.
    Edit(EditProblem),
    /// There is no change to take back or to repeat.
    NothingLeft,
    /// The text would become larger than a project file may be.
    TooLarge,
    /// The file kept changing while the edit was tried.
    Restless,
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Outdated { tables } if tables.is_empty() => f.write_str(
                "not changed: the project was changed meanwhile; look at it as it is now and try again",
            ),
            Self::Outdated { tables } => write!(
                f,
                "not changed: [{}] was changed meanwhile; look at it as it is now and try again",
                tables.join("], [")
            ),
            Self::TooOld => f.write_str(
                "not changed: too much was changed since this page was drawn; load it again and try once more",
            ),
            Self::Edit(problem) => write!(f, "not changed: {problem}"),
            Self::NothingLeft => f.write_str("nothing left to take back or repeat"),
            Self::TooLarge => write!(
                f,
                "not changed: the text would be larger than {} bytes",
                crate::store::LARGEST
            ),
            Self::Restless => f.write_str(
                "not changed: another program keeps writing the file; try again when it is done",
            ),
        }
    }
}

impl std::error::Error for Refusal {}
