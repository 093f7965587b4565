//! The text as statements with byte spans: headers, entries and the values in them.
//!
//! Here: what a statement is, and the limits on the size of a text. The statement borders are found in
//! [`scan`], one statement is read in [`plain`] or [`statement`], the table tree is made in [`tree`].
//! Not here: what any key means.
//!
//! A text is cut into statements first and each statement is read alone, so that one broken line costs one
//! statement, every byte offset stays true, and the time taken grows in step with the length of the text.

pub(crate) mod lines;
#[cfg(test)]
mod oracle;
mod plain;
mod scan;
mod statement;
pub(crate) mod tree;

use std::ops::Range;

pub(crate) use lines::Lines;

/// Longest text that is read \[bytes\]; a trailer described in full is a hundredth of it.
pub const LONGEST_TEXT: usize = 4 * 1024 * 1024;
/// Longest single line that is read \[bytes\].
pub const LONGEST_LINE: usize = 10_000;
/// Deepest nesting of brackets that is read; the file format itself needs two.
pub const DEEPEST_NESTING: usize = 16;
/// Most segments of a dotted key that are read; the file format itself needs three.
pub const LONGEST_DOTTED_KEY: usize = 16;

/// Something that is not legal TOML, at a byte offset of the text.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Fault {
    pub at: usize,
    pub found: String,
    pub expected: String,
    pub hint: Option<String>,
    /// Offset of the first definition, when this is a second one.
    pub first: Option<usize>,
}

/// One segment of a key and where it stands in the text.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct KeyPart {
    pub name: String,
    pub span: Range<usize>,
}

/// A value and where it stands in the text.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Node {
    pub span: Range<usize>,
    pub value: NodeValue,
}

/// A value of the text, before it means anything.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum NodeValue {
    Text(String),
    Integer(i64),
    Number(f64),
    Bool(bool),
    /// A date or a time; no field takes one.
    Date,
    List(Vec<Node>),
    /// An inline table, dotted keys kept as paths.
    Table(Vec<(Vec<KeyPart>, Node)>),
}

/// One header or one entry.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Statement {
    /// From the start of its first line to the end of its last line, without the line ending.
    pub span: Range<usize>,
    /// Start of the line that follows.
    pub next: usize,
    pub body: Body,
}

/// What a statement says.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Body {
    /// `[a.b]`, or `[[a.b]]` when `array`.
    Header { path: Vec<KeyPart>, array: bool },
    /// `a.b = value`.
    Entry { path: Vec<KeyPart>, value: Node },
    /// A statement that could not be read; its fault is reported.
    Broken {
        /// Whether it was meant as a header, so that the entries after it belong to no known table.
        header: bool,
    },
}

/// All statements of a text in order, and what was not legal.
#[derive(Debug, Default)]
pub(crate) struct Script {
    pub statements: Vec<Statement>,
    pub faults: Vec<Fault>,
}

/// Cuts `text` into statements and reads each.
pub(crate) fn read(text: &str) -> Script {
    let mut script = Script::default();
    if text.len() > LONGEST_TEXT {
        script.faults.push(Fault {
            at: 0,
            found: format!("a text of {} bytes", text.len()),
            expected: format!("at most {LONGEST_TEXT} bytes"),
            hint: Some(
                "a project file holds decisions and measurements only; is this the right file?"
                    .into(),
            ),
            first: None,
        });
        return script;
    }
    read_on(text, 0, &mut script);
    script
}

/// Cuts the lines of `range`, which starts and ends with whole lines, into statements and reads each.
pub(crate) fn read_part(text: &str, range: Range<usize>) -> Script {
    let mut script = Script::default();
    if let Some(front) = text.get(..range.end) {
        read_on(front, range.start, &mut script);
    }
    script
}

fn read_on(text: &str, start: usize, script: &mut Script) {
    for piece in scan::pieces(text, start, &mut script.faults) {
        let body = match piece.fault {
            Some(fault) => Err(fault),
            None => statement::read(text, piece.span.clone()),
        };
        let body = body.unwrap_or_else(|fault| {
            script.faults.push(fault);
            let line = text.get(piece.span.clone()).unwrap_or("");
            Body::Broken {
                header: line.trim_start().starts_with('['),
            }
        });
        script.statements.push(Statement {
            span: piece.span,
            next: piece.next,
            body,
        });
    }
}

impl Statement {
    /// The statement after the text before it has grown by `by` bytes.
    pub fn shift(&mut self, by: isize) {
        shift(&mut self.span, by);
        self.next = self.next.wrapping_add_signed(by);
        match &mut self.body {
            Body::Header { path, .. } => shift_key(path, by),
            Body::Entry { path, value } => {
                shift_key(path, by);
                value.shift(by);
            }
            Body::Broken { .. } => {}
        }
    }
}

impl Node {
    fn shift(&mut self, by: isize) {
        shift(&mut self.span, by);
        match &mut self.value {
            NodeValue::List(nodes) => nodes.iter_mut().for_each(|node| node.shift(by)),
            NodeValue::Table(entries) => entries.iter_mut().for_each(|(path, node)| {
                shift_key(path, by);
                node.shift(by);
            }),
            _ => {}
        }
    }
}

fn shift_key(path: &mut [KeyPart], by: isize) {
    path.iter_mut().for_each(|part| shift(&mut part.span, by));
}

fn shift(span: &mut Range<usize>, by: isize) {
    *span = span.start.wrapping_add_signed(by)..span.end.wrapping_add_signed(by);
}
