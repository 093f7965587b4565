//! A usual value with the range it comes from. Not here: what it is the value of (topic modules).

use crate::mark::Sourced;
use crate::table::Row;

/// A usual value and its range.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Span<T> {
    /// Low end.
    pub low: T,
    /// What is taken when nothing better is known.
    pub usual: T,
    /// High end.
    pub high: T,
}

/// The columns `low`, `usual` and `high` of a row.
pub(crate) fn span<T>(row: Row, make: impl Fn(f64) -> T) -> Option<Sourced<Span<T>>> {
    Some(row.sourced(Span {
        low: make(row.number("low")?),
        usual: make(row.number("usual")?),
        high: make(row.number("high")?),
    }))
}
