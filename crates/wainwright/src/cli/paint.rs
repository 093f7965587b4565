//! Colours, width and wrapping for a terminal. Not here: what is printed.

use std::env;
use std::io::{self, IsTerminal};
use std::process::{Command, Stdio};
use wainwright_rules::Severity;

/// Width when nothing tells [characters].
const USUAL_WIDTH: usize = 80;

/// Narrower is not wrapped for: a word must fit beside its indent [characters].
const LEAST_WIDTH: usize = 40;

/// Longer lines are hard to follow [characters].
const MOST_WIDTH: usize = 120;

/// How text may look.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Paint {
    /// Whether to use colours.
    pub colour: bool,
    /// Where to wrap [characters].
    pub width: usize,
}

impl Paint {
    /// For this process's standard output: colours on a terminal only, and
    /// never when `NO_COLOR` is set to anything.
    pub fn of_stdout() -> Self {
        let terminal = io::stdout().is_terminal();
        let set = |name: &str| env::var_os(name).is_some_and(|v| !v.is_empty());
        let dumb = env::var_os("TERM").is_some_and(|v| v == "dumb");
        Self {
            colour: terminal && !set("NO_COLOR") && !dumb,
            width: width(terminal),
        }
    }

    /// Bold.
    pub fn bold(self, text: &str) -> String {
        self.code("1", text)
    }

    /// Dim.
    pub fn dim(self, text: &str) -> String {
        self.code("2", text)
    }

    /// In the colour of a severity. The word itself always says it too.
    pub fn severity(self, severity: Severity, text: &str) -> String {
        match severity {
            Severity::Danger => self.code("1;31", text),
            Severity::Warning => self.code("1;33", text),
            Severity::Caution => self.code("33", text),
            Severity::Notice => self.code("36", text),
        }
    }

    /// Removed text.
    pub fn removed(self, text: &str) -> String {
        self.code("31", text)
    }

    /// Added text.
    pub fn added(self, text: &str) -> String {
        self.code("32", text)
    }

    fn code(self, code: &str, text: &str) -> String {
        if self.colour {
            format!("\u{1b}[{code}m{text}\u{1b}[0m")
        } else {
            text.to_owned()
        }
    }
}

/// Breaks a text at spaces. A word longer than a line stays whole.
pub fn wrap(first: &str, others: &str, text: &str, width: usize) -> Vec<String> {
    let mut lines = vec![first.to_owned()];
    let mut empty = true;
    for word in text.split_whitespace() {
        let last = lines.last().map_or(0, |l| l.chars().count());
        if !empty && last + 1 + word.chars().count() > width {
            lines.push(others.to_owned());
            empty = true;
        }
        if let Some(line) = lines.last_mut() {
            if !empty {
                line.push(' ');
            }
            line.push_str(word);
        }
        empty = false;
    }
    lines
}

fn width(terminal: bool) -> usize {
    let told = env::var("COLUMNS").ok().and_then(|v| v.parse().ok());
    let asked = || terminal.then(ask_terminal).flatten();
    let width = told.or_else(asked).unwrap_or(USUAL_WIDTH);
    width.clamp(LEAST_WIDTH, MOST_WIDTH)
}

/// The terminal's own answer, through the system's tool for it.
fn ask_terminal() -> Option<usize> {
    let mut stty = Command::new("stty");
    stty.arg("size")
        .stdin(Stdio::inherit())
        .stderr(Stdio::null());
    let answer = String::from_utf8(stty.output().ok()?.stdout).ok()?;
    let columns: usize = answer.split_whitespace().nth(1)?.parse().ok()?;
    (columns > 0).then_some(columns)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wrapping_counts_characters_and_keeps_long_words() {
        let lines = wrap("- ", "  ", "Ωhm Ωhm averyveryverylongword x", 12);
        assert_eq!(lines, ["- Ωhm Ωhm", "  averyveryverylongword", "  x"]);
    }

    #[test]
    fn without_colour_text_stays_as_it_is() {
        let paint = Paint {
            colour: false,
            width: 80,
        };
        assert_eq!(paint.severity(Severity::Danger, "Danger"), "Danger");
    }
}
