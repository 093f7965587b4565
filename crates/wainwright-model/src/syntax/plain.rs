//! Reading the plainest statements without the TOML library: nearly every line of a project file is one, and this
//! takes a tenth of the time.
//!
//! Here: `[bare.header]` and `bare_key = value` on one line, where the value is a string without escapes, a whole
//! number, `true`, `false`, or a list of those. Anything else, and anything doubtful, is left to the library
//! ([`super::statement`]); so nothing is refused here. The oracle holds both against each other.

use super::{Body, KeyPart, Node, NodeValue};
use std::ops::Range;

/// Most digits of a whole number that surely fits.
const MOST_DIGITS: usize = 18;

/// The statement at `span`, when it is plain.
pub(super) fn read(text: &str, span: Range<usize>) -> Option<Body> {
    let mut line = Line {
        text,
        bytes: text.as_bytes().get(..span.end)?,
        at: span.start,
    };
    line.blanks();
    let body = if line.take(b'[') {
        let mut path = vec![line.bare()?];
        while line.take(b'.') {
            path.push(line.bare()?);
        }
        line.take(b']').then_some(())?;
        Body::Header { path, array: false }
    } else {
        let path = vec![line.bare()?];
        line.blanks();
        line.take(b'=').then_some(())?;
        line.blanks();
        let value = line.value(true)?;
        Body::Entry { path, value }
    };
    line.blanks();
    line.ends().then_some(body)
}

struct Line<'t> {
    text: &'t str,
    /// Up to the end of the statement.
    bytes: &'t [u8],
    at: usize,
}

impl Line<'_> {
    fn peek(&self) -> Option<u8> {
        self.bytes.get(self.at).copied()
    }

    fn take(&mut self, byte: u8) -> bool {
        let there = self.peek() == Some(byte);
        self.at += usize::from(there);
        there
    }

    fn skip(&mut self, wanted: impl Fn(u8) -> bool) -> Range<usize> {
        let start = self.at;
        while self.peek().is_some_and(&wanted) {
            self.at += 1;
        }
        start..self.at
    }

    fn blanks(&mut self) {
        self.skip(|byte| matches!(byte, b' ' | b'\t'));
    }

    fn bare(&mut self) -> Option<KeyPart> {
        let span = self.skip(|b| b.is_ascii_alphanumeric() || matches!(b, b'_' | b'-'));
        let name = self.text.get(span.clone())?;
        (!name.is_empty()).then(|| KeyPart {
            name: name.to_owned(),
            span,
        })
    }

    fn value(&mut self, lists: bool) -> Option<Node> {
        let start = self.at;
        let value = match self.peek()? {
            quote @ (b'"' | b'\'') => self.string(quote)?,
            b'0'..=b'9' => self.whole()?,
            b't' => self.word("true", NodeValue::Bool(true))?,
            b'f' => self.word("false", NodeValue::Bool(false))?,
            b'[' if lists => self.list()?,
            _ => return None,
        };
        Some(Node {
            span: start..self.at,
            value,
        })
    }

    /// A string on one line; a longer one starts with an empty one, and what follows that is not plain.
    fn string(&mut self, quote: u8) -> Option<NodeValue> {
        self.at += 1;
        let plain =
            |byte: u8| byte != quote && !is_control(byte) && (byte != b'\\' || quote == b'\'');
        let inner = self.skip(plain);
        let text = self.text.get(inner)?.to_owned();
        self.take(quote).then_some(NodeValue::Text(text))
    }

    fn whole(&mut self) -> Option<NodeValue> {
        let digits = self.skip(|byte| byte.is_ascii_digit());
        let text = self.text.get(digits)?;
        let sure = text.len() <= MOST_DIGITS && (text == "0" || !text.starts_with('0'));
        let number = text.parse().ok().filter(|_| sure)?;
        Some(NodeValue::Integer(number))
    }

    fn word(&mut self, word: &str, value: NodeValue) -> Option<NodeValue> {
        let end = self.at + word.len();
        (self.bytes.get(self.at..end)? == word.as_bytes()).then(|| {
            self.at = end;
            value
        })
    }

    fn list(&mut self) -> Option<NodeValue> {
        self.at += 1;
        let mut nodes = Vec::new();
        loop {
            self.blanks();
            if self.take(b']') {
                return Some(NodeValue::List(nodes));
            }
            nodes.push(self.value(false)?);
            self.blanks();
            if !self.take(b',') {
                return self.take(b']').then_some(NodeValue::List(nodes));
            }
        }
    }

    /// Whether nothing but a comment is left.
    fn ends(&mut self) -> bool {
        if self.take(b'#') {
            self.skip(|byte| !is_control(byte));
        }
        self.peek().is_none()
    }
}

/// What may not stand in a string or a comment; beyond ASCII everything may.
fn is_control(byte: u8) -> bool {
    byte < b' ' && byte != b'\t' || byte == 0x7f
}
