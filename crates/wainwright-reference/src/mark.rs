//! How well a number is known, and where it comes from.
//!
//! Here: [`Mark`], [`Source`] and [`Sourced`]. Not here: the tables themselves (`store`) and any judgement about them.

use std::fmt;

/// How a published number came into its table.
///
/// The order is the order of trust: `Read` is the strongest, `Judgement` the weakest.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mark {
    /// Read in a retrieved copy of the source, or in a page that quotes it.
    Read,
    /// Computed from other rows by a stated formula.
    Derived,
    /// Known from memory and not yet verified against the source.
    Memory,
    /// An engineering judgement offered as a default, not a standard.
    Judgement,
}

impl Mark {
    /// Every mark, strongest first.
    pub const ALL: &'static [Self] = &[Self::Read, Self::Derived, Self::Memory, Self::Judgement];

    /// The word used in the data files.
    pub const fn id(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::Derived => "derived",
            Self::Memory => "memory",
            Self::Judgement => "judgement",
        }
    }

    /// The mark written as `text` in a data file, if it is one.
    pub fn from_id(text: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|mark| mark.id() == text)
    }

    /// The less trusted of two marks: what a value made from both deserves.
    pub fn weaker(self, other: Self) -> Self {
        self.max(other)
    }
}

impl fmt::Display for Mark {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id())
    }
}

/// Where a row of a table was published, and how it is known.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Source {
    /// Name of the table, with a number added when one table draws on several sources.
    pub id: String,
    /// The published document.
    pub document: String,
    /// Its edition, or why none can be stated.
    pub edition: String,
    /// The table, clause or condition inside the document.
    pub place: String,
    /// How the rows that rest on this source are known.
    pub mark: Mark,
}

impl fmt::Display for Source {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}", self.document)?;
        if !self.place.is_empty() {
            write!(f, ", {}", self.place)?;
        }
        write!(f, " ({})", self.mark)
    }
}

/// A value together with its source.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sourced<T> {
    /// The value.
    pub value: T,
    /// The source of the row it came from.
    pub source: &'static Source,
    /// How well it is known; at least as weak as the mark of `source`.
    pub mark: Mark,
}

impl<T> Sourced<T> {
    /// The same source for a value made from this one.
    pub fn map<U>(self, change: impl FnOnce(T) -> U) -> Sourced<U> {
        Sourced {
            value: change(self.value),
            source: self.source,
            mark: self.mark,
        }
    }

    /// The same value, trusted no more than `mark`, because it also rests on another row.
    pub fn no_better_than(self, mark: Mark) -> Self {
        Self {
            mark: self.mark.weaker(mark),
            ..self
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_round_trip_and_are_ordered_by_trust() {
        for &mark in Mark::ALL {
            assert_eq!(Mark::from_id(mark.id()), Some(mark));
        }
        assert_eq!(Mark::from_id("Read"), None);
        assert_eq!(Mark::Read.weaker(Mark::Judgement), Mark::Judgement);
        assert_eq!(Mark::Memory.weaker(Mark::Derived), Mark::Memory);
    }
}
