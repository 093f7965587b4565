//! Where a value came from, and the small containers of the document: `Given`, `Field`, `Id`, `Table`.
//!
//! Not here: what the values mean, reading them from text.

use std::collections::BTreeMap;
use std::fmt;

/// Which text a value was typed in.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub enum Origin {
    /// At the element itself, in the project file.
    #[default]
    File,
    /// In the part with this id; line and column count in the part's own text (project file or library).
    Part(String),
    /// In the wire with this id that the wire is `like`.
    Like(String),
}

/// A place in a text, counted from 1; columns count characters.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Place {
    /// Line, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// The text the line belongs to.
    pub origin: Origin,
}

/// A value somebody gave, with the text as typed and the place.
#[derive(Debug, Clone, PartialEq)]
pub struct Given<T> {
    /// The value.
    pub value: T,
    /// The text as typed, without the quotes.
    pub text: String,
    /// Where it was typed.
    pub at: Place,
}

/// A value that may be absent; an unfinished project is normal.
pub type Field<T> = Option<Given<T>>;

/// The value inside a field, for reading `field.value()` without naming `Given`.
pub trait FieldExt<T> {
    /// The value, if one was given.
    fn value(&self) -> Option<&T>;
}

impl<T> FieldExt<T> for Field<T> {
    fn value(&self) -> Option<&T> {
        self.as_ref().map(|given| &given.value)
    }
}

/// Longest id \[characters\].
pub const LONGEST_ID: usize = 64;

/// The name of an element: `[a-z0-9_-]+`, at most [`LONGEST_ID`] characters.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Id(String);

impl Id {
    /// The id, or `None` when `text` is not a legal one.
    pub fn new(text: &str) -> Option<Self> {
        let legal = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'_' || b == b'-';
        (!text.is_empty() && text.len() <= LONGEST_ID && text.bytes().all(legal))
            .then(|| Self(text.to_owned()))
    }

    /// The legal id nearest to `text`, for hints.
    pub fn suggest(text: &str) -> Option<Self> {
        let mapped: String = text
            .to_lowercase()
            .chars()
            .map(|c| {
                if c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_' {
                    c
                } else {
                    '-'
                }
            })
            .take(LONGEST_ID)
            .collect();
        Self::new(mapped.trim_matches('-'))
    }

    /// The id as text.
    pub fn as_str(&self) -> &str {
        &self.0
    }
}

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl AsRef<str> for Id {
    fn as_ref(&self) -> &str {
        &self.0
    }
}

impl std::borrow::Borrow<str> for Id {
    fn borrow(&self) -> &str {
        &self.0
    }
}

impl PartialEq<str> for Id {
    fn eq(&self, other: &str) -> bool {
        self.0 == other
    }
}

impl PartialEq<&str> for Id {
    fn eq(&self, other: &&str) -> bool {
        self.0 == *other
    }
}

/// Elements by id, in the order of the file.
#[derive(Debug, Clone, PartialEq)]
pub struct Table<T> {
    rows: Vec<(Id, T)>,
    index: BTreeMap<Id, usize>,
}

impl<T> Default for Table<T> {
    fn default() -> Self {
        Self {
            rows: Vec::new(),
            index: BTreeMap::new(),
        }
    }
}

impl<T> Table<T> {
    /// Rows in the order of the file.
    pub fn iter(&self) -> impl DoubleEndedIterator<Item = (&Id, &T)> + ExactSizeIterator {
        self.rows.iter().map(|(id, row)| (id, row))
    }

    /// Ids in the order of the file.
    pub fn ids(&self) -> impl DoubleEndedIterator<Item = &Id> + ExactSizeIterator {
        self.rows.iter().map(|(id, _)| id)
    }

    /// The row with this id.
    pub fn get(&self, id: &str) -> Option<&T> {
        self.index
            .get(id)
            .and_then(|at| self.rows.get(*at))
            .map(|(_, row)| row)
    }

    /// Place of the row in the order of the file, from 0.
    pub fn position(&self, id: &str) -> Option<usize> {
        self.index.get(id).copied()
    }

    /// The row at a place in the order of the file.
    pub fn at(&self, position: usize) -> Option<(&Id, &T)> {
        self.rows.get(position).map(|(id, row)| (id, row))
    }

    /// Whether there is a row with this id.
    pub fn contains(&self, id: &str) -> bool {
        self.index.contains_key(id)
    }

    /// Number of rows.
    pub fn len(&self) -> usize {
        self.rows.len()
    }

    /// Whether there is no row.
    pub fn is_empty(&self) -> bool {
        self.rows.is_empty()
    }

    /// Adds a row; a second row with the same id is refused and handed back.
    pub fn insert(&mut self, id: Id, row: T) -> Result<(), T> {
        if self.index.contains_key(&id) {
            return Err(row);
        }
        self.index.insert(id.clone(), self.rows.len());
        self.rows.push((id, row));
        Ok(())
    }

    pub(crate) fn row_mut(&mut self, position: usize) -> Option<&mut T> {
        self.rows.get_mut(position).map(|(_, row)| row)
    }
}

impl<'a, T> IntoIterator for &'a Table<T> {
    type Item = (&'a Id, &'a T);
    type IntoIter =
        std::iter::Map<std::slice::Iter<'a, (Id, T)>, fn(&'a (Id, T)) -> (&'a Id, &'a T)>;

    fn into_iter(self) -> Self::IntoIter {
        self.rows.iter().map(|(id, row)| (id, row))
    }
}

/// One end of a wire: an item and one of its terminals, typed `"item.terminal"`.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct TerminalRef {
    /// The item.
    pub item: Id,
    /// The terminal's name at that item.
    pub terminal: String,
}

impl TerminalRef {
    /// Reads `"item.terminal"`; `None` when it is not of that form.
    pub fn parse(text: &str) -> Option<Self> {
        let (item, terminal) = text.split_once('.')?;
        let legal = |b: u8| b.is_ascii_alphanumeric() || matches!(b, b'+' | b'-' | b'_');
        let named =
            !terminal.is_empty() && terminal.len() <= LONGEST_ID && terminal.bytes().all(legal);
        Some(Self {
            item: Id::new(item)?,
            terminal: named.then(|| terminal.to_owned())?,
        })
    }
}

impl fmt::Display for TerminalRef {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{}", self.item, self.terminal)
    }
}
