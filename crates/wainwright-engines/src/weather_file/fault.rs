//! What is wrong with a file, and how many such things are told. Not here: what is right.

use std::fmt;

/// Most faults that are listed; the rest is counted.
pub const MOST_FAULTS: usize = 40;

/// Longest piece of a file that is repeated [letters].
const LONGEST_QUOTE: usize = 40;

/// One thing that is wrong with a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// Line, the first is 1; 0 for the file as a whole.
    pub line: usize,
    /// What was found.
    pub found: String,
    /// What was expected.
    pub expected: String,
    /// What to do.
    pub remedy: String,
}

impl Fault {
    pub(super) fn new(
        line: usize,
        found: impl Into<String>,
        expected: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Fault {
        Fault {
            line,
            found: found.into(),
            expected: expected.into(),
            remedy: remedy.into(),
        }
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.line > 0 {
            write!(out, "line {}: ", self.line)?;
        }
        write!(
            out,
            "found {}; expected {}; {}",
            self.found, self.expected, self.remedy
        )
    }
}

impl std::error::Error for Fault {}

/// Faults in the order of the file, up to [`MOST_FAULTS`].
#[derive(Debug, Default)]
pub(super) struct Faults {
    list: Vec<Fault>,
    more: usize,
}

impl Faults {
    pub(super) fn add(&mut self, fault: Fault) {
        if self.list.len() < MOST_FAULTS {
            self.list.push(fault);
        } else {
            self.more += 1;
        }
    }

    /// The list, with a last entry that counts what is not on it.
    pub(super) fn finish(mut self) -> Vec<Fault> {
        if self.more > 0 {
            let found = format!("{} more places like these", self.more);
            self.list.push(Fault::new(
                0,
                found,
                "none",
                "correct the first ones and read the file again",
            ));
        }
        self.list
    }
}

/// A piece of the file in quotes, cut to what one can read.
pub(super) fn quote(text: &str) -> String {
    let mut letters = text.trim().chars();
    let short: String = letters.by_ref().take(LONGEST_QUOTE).collect();
    let end = if letters.next().is_some() { "…" } else { "" };
    format!("'{}{end}'", short.escape_debug())
}
