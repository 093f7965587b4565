//! What is wrong with the text: where, what was found, what was expected, what to do.
//!
//! Not here: findings about the design of a trailer; those are judged from a project that was read.

use crate::syntax::{Fault, Lines};
use std::fmt;

/// Most problems that are listed; one more line says how many were left out.
pub const MOST_PROBLEMS: usize = 500;

/// How much a problem costs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ProblemSeverity {
    /// Everything was read; something should be put right.
    Warning,
    /// Something of the text was left out.
    Error,
}

/// One thing that could not be read as meant.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Problem {
    /// Line in the text, from 1.
    pub line: usize,
    /// Column in characters, from 1.
    pub column: usize,
    /// Dotted path of the key or table, empty when none is known.
    pub path: String,
    /// What stands there.
    pub found: String,
    /// What could stand there.
    pub expected: String,
    /// What to do about it.
    pub hint: Option<String>,
    /// What it costs.
    pub severity: ProblemSeverity,
}

impl fmt::Display for Problem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "line {}, column {}: ", self.line, self.column)?;
        if !self.path.is_empty() {
            write!(f, "{}: ", self.path)?;
        }
        write!(f, "found {}, expected {}", self.found, self.expected)?;
        match &self.hint {
            Some(hint) => write!(f, "; {hint}"),
            None => Ok(()),
        }
    }
}

/// Gathers problems while a text is read, with byte offsets made into lines and columns.
pub(crate) struct Report<'t> {
    pub lines: Lines<'t>,
    problems: Vec<Problem>,
    left_out: usize,
}

/// A problem at a byte offset.
pub(crate) struct Complaint<'a> {
    pub at: usize,
    pub path: &'a str,
    pub found: String,
    pub expected: String,
    pub hint: Option<String>,
    pub severity: ProblemSeverity,
}

impl<'t> Report<'t> {
    pub fn new(text: &'t str) -> Self {
        Self {
            lines: Lines::new(text),
            problems: Vec::new(),
            left_out: 0,
        }
    }

    /// Whether it is worth the time to look for a name that may have been meant.
    pub fn wants_hints(&self) -> bool {
        self.problems.len() < MOST_HINTS
    }

    pub fn add(&mut self, complaint: Complaint<'_>) {
        if self.problems.len() >= MOST_PROBLEMS {
            self.left_out += 1;
            return;
        }
        let (line, column) = self.lines.place(complaint.at);
        self.problems.push(Problem {
            line,
            column,
            path: complaint.path.to_owned(),
            found: complaint.found,
            expected: complaint.expected,
            hint: complaint.hint,
            severity: complaint.severity,
        });
    }

    pub fn fault(&mut self, fault: Fault) {
        let first = fault.first.map(|at| {
            let (line, column) = self.lines.place(at);
            format!("the first is on line {line}, column {column}; rename or delete one of them")
        });
        self.add(Complaint {
            at: fault.at,
            path: "",
            found: fault.found,
            expected: fault.expected,
            hint: fault.hint.or(first),
            severity: ProblemSeverity::Error,
        });
    }

    /// The problems in the order of the text.
    pub fn finish(mut self) -> Vec<Problem> {
        self.problems
            .sort_by_key(|problem| (problem.line, problem.column));
        if self.left_out > 0 {
            let line = self.problems.last().map_or(1, |problem| problem.line);
            self.problems.push(Problem {
                line,
                column: 1,
                path: String::new(),
                found: format!("{} more problems", self.left_out),
                expected: format!("at most {MOST_PROBLEMS}"),
                hint: Some("put the ones above right first".into()),
                severity: ProblemSeverity::Error,
            });
        }
        self.problems
    }
}

/// How many problems get a hint that has to be searched for.
const MOST_HINTS: usize = 100;
/// Most names a slip of the pen is compared with.
const MOST_CANDIDATES: usize = 2_000;
/// Longest name that is compared \[characters\].
const LONGEST_COMPARED: usize = 40;

/// The candidate most like `typed`, if one is near enough to be meant.
pub(crate) fn nearest<'c>(
    typed: &str,
    candidates: impl IntoIterator<Item = &'c str>,
) -> Option<&'c str> {
    let wanted: Vec<char> = typed
        .to_lowercase()
        .chars()
        .take(LONGEST_COMPARED + 1)
        .collect();
    if wanted.is_empty() || wanted.len() > LONGEST_COMPARED {
        return None;
    }
    let allowed = (wanted.len() / 3).clamp(1, 3);
    candidates
        .into_iter()
        .take(MOST_CANDIDATES)
        .filter(|candidate| candidate.len().abs_diff(typed.len()) <= allowed)
        .map(|candidate| (slips(&wanted, candidate), candidate))
        .filter(|(distance, _)| *distance <= allowed)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, candidate)| candidate)
}

/// "did you mean ...?" for the nearest candidate.
pub(crate) fn did_you_mean<'c>(
    typed: &str,
    candidates: impl IntoIterator<Item = &'c str>,
) -> Option<String> {
    nearest(typed, candidates).map(|name| format!("did you mean {name}?"))
}

/// Letters to add, drop, change or swap with their neighbour to make one word the other.
fn slips(wanted: &[char], candidate: &str) -> usize {
    let other: Vec<char> = candidate.to_lowercase().chars().collect();
    let mut before: Vec<usize> = Vec::new();
    let mut row: Vec<usize> = (0..=other.len()).collect();
    for (i, letter) in wanted.iter().enumerate() {
        let mut next = vec![i + 1];
        for (j, against) in other.iter().enumerate() {
            let changed = row.get(j).copied().unwrap_or(0) + usize::from(letter != against);
            let added = next.last().copied().unwrap_or(0) + 1;
            let dropped = row.get(j + 1).copied().unwrap_or(0) + 1;
            let mut least = changed.min(added).min(dropped);
            let swapped = i > 0
                && j > 0
                && wanted.get(i - 1) == Some(against)
                && other.get(j - 1) == Some(letter);
            if swapped {
                least = least.min(before.get(j - 1).copied().unwrap_or(0) + 1);
            }
            next.push(least);
        }
        before = row;
        row = next;
    }
    row.last().copied().unwrap_or(0)
}
