//! Why an edit could not be made.

use std::fmt;

/// Why an edit could not be made; the text is then as it was.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum EditProblem {
    /// The path has no names.
    EmptyPath,
    /// There is no such table.
    NoSuchTable {
        /// Its path.
        path: String,
    },
    /// There is no such key.
    NoSuchKey {
        /// Its path.
        path: String,
    },
    /// A table of this name is there already.
    AlreadyThere {
        /// Its path.
        path: String,
    },
    /// The path names a table where a plain value is needed.
    IsTable {
        /// Its path.
        path: String,
    },
    /// Not a legal id or key.
    BadName {
        /// The name.
        name: String,
        /// What it should be.
        expected: String,
    },
    /// Not a value that can be written.
    BadValue {
        /// Why.
        why: String,
    },
    /// The place is written in a way that cannot be changed without losing something.
    Unsupported {
        /// The place.
        path: String,
        /// Why.
        why: String,
    },
    /// The change was made but reading the text again did not show it.
    NotReachable {
        /// The place.
        path: String,
    },
    /// The text would be less legal than before.
    WouldBreak {
        /// Line in the changed text, from 1.
        line: usize,
        /// Column in the changed text, from 1.
        column: usize,
        /// What would stand there.
        found: String,
        /// What could stand there.
        expected: String,
    },
    /// The text is, or would be, longer than is read.
    TooLong {
        /// Its length \[bytes\].
        bytes: usize,
    },
    /// A patch belongs to another text.
    OtherText {
        /// Where the text differs [bytes from the start].
        at: usize,
    },
}

impl fmt::Display for EditProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::EmptyPath => write!(
                f,
                "found an empty path, expected names such as wire.fridge-pos.size"
            ),
            Self::NoSuchTable { path } => write!(f, "there is no table {path}; add it first"),
            Self::NoSuchKey { path } => write!(
                f,
                "there is no key {path}; it may have been deleted meanwhile"
            ),
            Self::AlreadyThere { path } => write!(f, "{path} is there already; choose another id"),
            Self::IsTable { path } => write!(
                f,
                "{path} is a table, expected a plain value; name one of its keys"
            ),
            Self::BadName { name, expected } => {
                write!(f, "found the name {name:?}, expected {expected}")
            }
            Self::BadValue { why } => write!(f, "the value cannot be written: {why}"),
            Self::Unsupported { path, why } => write!(
                f,
                "{path} cannot be changed here: {why}; change the text by hand"
            ),
            Self::NotReachable { path } => {
                write!(
                    f,
                    "{path} is written in a way this change does not reach; change the text by hand"
                )
            }
            Self::WouldBreak {
                line,
                column,
                found,
                expected,
            } => write!(
                f,
                "the change would break the text at line {line}, column {column}: found {found}, expected {expected}"
            ),
            Self::TooLong { bytes } => write!(
                f,
                "found a text of {bytes} bytes, expected at most {}",
                crate::LONGEST_TEXT
            ),
            Self::OtherText { at } => write!(
                f,
                "the text differs at byte {at} from the one the patch was made for"
            ),
        }
    }
}

impl std::error::Error for EditProblem {}
