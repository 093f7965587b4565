//! The error a person sees when a typed quantity is not understood.
//! Not here: finding the error (module `parse`).

use std::fmt;

/// Why a typed text is not the quantity that was asked for.
///
/// The column points at the offending token so that a form or an editor can underline it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct QuantityError {
    /// 1-based column of the offending token, counted in characters, not bytes.
    pub column: usize,
    /// The token as typed, without quotes (shortened when very long), or `nothing`.
    pub found: String,
    /// What would have been accepted at that place.
    pub expected: String,
    /// What to do next, when that is known.
    pub hint: Option<String>,
}

/// Longest token repeated in an error \[characters\].
const LONGEST_FOUND: usize = 40;

impl QuantityError {
    /// An error without a hint; a `found` longer than 40 characters is shortened.
    #[must_use]
    pub fn new(column: usize, found: &str, expected: impl Into<String>) -> Self {
        QuantityError {
            column,
            found: shortened(found),
            expected: expected.into(),
            hint: None,
        }
    }

    /// The same error with what to do next.
    #[must_use]
    pub fn with_hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }
}

impl fmt::Display for QuantityError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            out,
            "column {}: found `{}`, expected {}",
            self.column, self.found, self.expected
        )?;
        match &self.hint {
            Some(hint) => write!(out, "; {hint}"),
            None => Ok(()),
        }
    }
}

impl std::error::Error for QuantityError {}

fn shortened(found: &str) -> String {
    if found.is_empty() {
        return "nothing".to_owned();
    }
    if found.chars().count() <= LONGEST_FOUND {
        return found.to_owned();
    }
    let start: String = found.chars().take(LONGEST_FOUND - 1).collect();
    format!("{start}…")
}
