//! Standard output as a page that is filled and then printed in one go, so
//! that a closed pipe is no accident. Not here: colours (see `paint`).

use super::paint::Paint;
use serde::Serialize;
use std::io::{self, Write};

/// Exit status of a tool whose reader went away, as shells show it (128 + SIGPIPE).
const NOBODY_READS: i32 = 141;

/// What will be printed, and how it may look.
pub struct Out {
    text: String,
    /// Colours and width.
    pub paint: Paint,
}

impl Out {
    /// For this process's standard output.
    pub fn to_stdout() -> Self {
        Self {
            text: String::new(),
            paint: Paint::of_stdout(),
        }
    }

    /// Adds one line as it is.
    pub fn line(&mut self, line: impl AsRef<str>) {
        self.text.push_str(line.as_ref());
        self.text.push('\n');
    }

    /// Adds a text that has its own line ends.
    pub fn text(&mut self, text: &str) {
        self.text.push_str(text);
    }

    /// Adds an empty line.
    pub fn gap(&mut self) {
        self.text.push('\n');
    }

    /// Adds a text, wrapped, each line after the indent.
    pub fn wrapped(&mut self, indent: &str, text: &str) {
        self.hanging(indent, indent, text);
    }

    /// Adds a text, wrapped, with a first indent of its own.
    pub fn hanging(&mut self, first: &str, others: &str, text: &str) {
        let width = self.paint.width;
        for line in super::paint::wrap(first, others, text, width) {
            self.line(line);
        }
    }

    /// Adds a value as JSON, indented for people.
    pub fn json(&mut self, value: &impl Serialize) {
        match serde_json::to_string_pretty(value) {
            Ok(text) => self.line(text),
            // The views hold nothing that JSON cannot: no map with odd keys.
            Err(error) => self.line(format!("{{\"error\": \"{error}\"}}")),
        }
    }

    /// Prints what was added so far. When nobody reads any more, the program
    /// ends as quietly as other tools do; long work would be for nothing.
    pub fn flush(&mut self) {
        let mut stdout = io::stdout().lock();
        let printed = stdout
            .write_all(self.text.as_bytes())
            .and_then(|()| stdout.flush());
        if printed.is_err() {
            std::process::exit(NOBODY_READS);
        }
        self.text.clear();
    }

    /// Prints everything.
    pub fn finish(mut self) {
        self.flush();
    }
}
