//! Finding where each statement begins and ends.
//!
//! Here: strings, comments, brackets and line ends, no more than is needed to see the borders. Not here: whether
//! a statement is legal ([`super::statement`]).
//!
//! An entry whose bracket is never closed ends before the next line that can only be a header or a new entry, so
//! what follows is still read.

use super::{DEEPEST_NESTING, Fault, LONGEST_DOTTED_KEY, LONGEST_LINE};
use std::ops::Range;

/// The borders of one statement.
pub(super) struct Piece {
    /// Whole lines, without the last line ending.
    pub span: Range<usize>,
    pub next: usize,
    /// Set when the statement must not be read at all.
    pub fault: Option<Fault>,
}

/// Borders of all statements from `start`, the start of a line, on; control characters in comments go to `faults`.
pub(super) fn pieces(text: &str, start: usize, faults: &mut Vec<Fault>) -> Vec<Piece> {
    let mut scan = Scan {
        bytes: text.as_bytes(),
        text,
        unclosed: [false; 2],
    };
    let mut found = Vec::new();
    let mut at = if start == 0 && text.starts_with('\u{feff}') {
        '\u{feff}'.len_utf8()
    } else {
        start
    };
    while at < text.len() {
        let (end, next) = scan.line_end(at);
        let body = scan.skip_blanks(at);
        if body >= end || scan.bytes.get(body) == Some(&b'#') {
            faults.extend(scan.blank_line_fault(at, body, end));
            at = next;
            continue;
        }
        let piece = scan.piece(at, body);
        at = piece.next;
        found.push(piece);
    }
    found
}

struct Scan<'t> {
    bytes: &'t [u8],
    text: &'t str,
    /// Kinds of long string (`"""`, `'''`) known to be open to the end of the text, so that no second search for
    /// their end is made.
    unclosed: [bool; 2],
}

impl Scan<'_> {
    /// End of the line without its ending, and start of the next line.
    fn line_end(&self, at: usize) -> (usize, usize) {
        let rest = self.bytes.get(at..).unwrap_or(&[]);
        match rest.iter().position(|b| *b == b'\n') {
            None => (self.bytes.len(), self.bytes.len()),
            Some(length) => {
                let end = at + length;
                let carriage = length > 0 && self.bytes.get(end - 1) == Some(&b'\r');
                (end - usize::from(carriage), end + 1)
            }
        }
    }

    fn skip_blanks(&self, at: usize) -> usize {
        let rest = self.bytes.get(at..).unwrap_or(&[]);
        at + rest
            .iter()
            .take_while(|b| matches!(b, b' ' | b'\t'))
            .count()
    }

    fn blank_line_fault(&self, start: usize, body: usize, end: usize) -> Option<Fault> {
        if end - start > LONGEST_LINE {
            return Some(too_long(start, end));
        }
        let comment = self.text.get(body..end)?;
        let (offset, character) = comment
            .char_indices()
            .find(|(_, c)| c.is_ascii_control() && *c != '\t')?;
        Some(Fault {
            at: body + offset,
            found: format!("the control character {}", character.escape_default()),
            expected: "text in a comment".into(),
            hint: Some("delete the character".into()),
            first: None,
        })
    }

    /// One statement that starts on the line at `start`, its first mark at `body`.
    fn piece(&mut self, start: usize, body: usize) -> Piece {
        let (end, next) = self.line_end(start);
        let one_line = |fault| Piece {
            span: start..end,
            next,
            fault,
        };
        if end - start > LONGEST_LINE {
            return one_line(Some(too_long(start, end)));
        }
        let header = self.bytes.get(body) == Some(&b'[');
        let (stop, fault) = self.walk(body, header);
        if fault.is_some() || stop <= end {
            return one_line(fault);
        }
        let (end, next) = self.line_end(stop);
        Piece {
            span: start..end.max(stop),
            next,
            fault: self.long_line_within(start, end),
        }
    }

    fn long_line_within(&self, start: usize, end: usize) -> Option<Fault> {
        let mut at = start;
        while at < end {
            let (line_end, next) = self.line_end(at);
            if line_end - at > LONGEST_LINE {
                return Some(too_long(at, line_end));
            }
            at = next;
        }
        None
    }

    /// Walks from `at` to the last byte that belongs to the statement.
    fn walk(&mut self, mut at: usize, header: bool) -> (usize, Option<Fault>) {
        let mut open: Vec<u8> = Vec::new();
        let mut in_value = false;
        let mut dots = 0;
        while let Some(byte) = self.bytes.get(at).copied() {
            match byte {
                b'\n' if open.is_empty() || self.starts_afresh(at + 1, &open) => {
                    let carriage = self.bytes.get(at.wrapping_sub(1)) == Some(&b'\r');
                    return (at.saturating_sub(usize::from(carriage)), None);
                }
                b'#' => {
                    at = self.line_end(at).0;
                    continue;
                }
                b'"' | b'\'' => {
                    at = self.string_end(at, byte);
                    continue;
                }
                b'=' => in_value = true,
                b'[' | b'{' if in_value && !header => {
                    open.push(byte);
                    if open.len() > DEEPEST_NESTING {
                        return (at, Some(too_deep(at)));
                    }
                }
                b']' | b'}' if in_value && !header => {
                    open.pop();
                }
                _ => {}
            }
            dots = match byte {
                b'.' => dots + 1,
                b',' | b'=' | b'[' | b'{' | b']' | b'}' | b'\n' => 0,
                _ => dots,
            };
            if dots >= LONGEST_DOTTED_KEY {
                return (at, Some(too_dotted(at)));
            }
            at += 1;
        }
        (self.bytes.len(), None)
    }

    /// The offset after the string that opens at `at`; an unclosed string ends with its line.
    fn string_end(&mut self, at: usize, quote: u8) -> usize {
        let long = self.bytes.get(at..at + 3) == Some(&[quote; 3]);
        let which = usize::from(quote == b'\'');
        if long && !self.unclosed[which] {
            match self.long_string_end(at + 3, quote) {
                Some(end) => return end,
                None => self.unclosed[which] = true,
            }
        }
        let mut inner = at + 1;
        while let Some(byte) = self.bytes.get(inner).copied() {
            match byte {
                b'\n' => return inner,
                b'\\'
                    if quote == b'"'
                        && !matches!(self.bytes.get(inner + 1), Some(b'\n' | b'\r')) =>
                {
                    inner += 1
                }
                b if b == quote => return inner + 1,
                _ => {}
            }
            inner += 1;
        }
        self.bytes.len()
    }

    fn long_string_end(&self, mut at: usize, quote: u8) -> Option<usize> {
        loop {
            let byte = self.bytes.get(at).copied()?;
            if byte == b'\\' && quote == b'"' {
                at += 2;
            } else if self.bytes.get(at..at + 3) == Some(&[quote; 3]) {
                let more = self
                    .bytes
                    .iter()
                    .skip(at + 3)
                    .take(2)
                    .take_while(|b| **b == quote)
                    .count();
                return Some(at + 3 + more);
            } else {
                at += 1;
            }
        }
    }

    /// Whether the line at `at` cannot be inside the brackets `open`, because it is a header, or an entry while a
    /// list is open.
    fn starts_afresh(&self, at: usize, open: &[u8]) -> bool {
        let (end, _) = self.line_end(at);
        let Some(line) = self
            .text
            .get(at..end.min(at + 200))
            .or_else(|| self.text.get(at..end))
        else {
            return false;
        };
        let line = line.trim_start_matches([' ', '\t']);
        let is_name = |c: char| c.is_ascii_alphanumeric() || matches!(c, '_' | '-' | '.');
        if let Some(inner) = line.strip_prefix('[') {
            let name: &str = inner.split(|c: char| !is_name(c)).next().unwrap_or("");
            let closed = inner.get(name.len()..).is_some_and(|rest| {
                rest.strip_prefix(']').is_some_and(|after| {
                    let after = after.trim_start();
                    after.is_empty() || after.starts_with('#')
                })
            });
            let word = name.starts_with(|c: char| c.is_ascii_alphabetic());
            return closed && word && !matches!(name, "true" | "false" | "inf" | "nan");
        }
        let name = line.split(|c: char| !is_name(c)).next().unwrap_or("");
        let rest = line.get(name.len()..).unwrap_or("").trim_start();
        open.last() == Some(&b'[') && !name.is_empty() && rest.starts_with('=')
    }
}

fn too_long(start: usize, end: usize) -> Fault {
    Fault {
        at: start,
        found: format!("a line of {} bytes", end - start),
        expected: format!("lines of at most {LONGEST_LINE} bytes"),
        hint: Some("break the line".into()),
        first: None,
    }
}

fn too_deep(at: usize) -> Fault {
    Fault {
        at,
        found: format!("more than {DEEPEST_NESTING} brackets inside one another"),
        expected: "a plain value or a list of plain values".into(),
        hint: None,
        first: None,
    }
}

fn too_dotted(at: usize) -> Fault {
    Fault {
        at,
        found: format!("a dotted key of more than {LONGEST_DOTTED_KEY} names"),
        expected: "at most three names, such as item.fridge.power".into(),
        hint: None,
        first: None,
    }
}
