//! Where things stand in a text: which statement belongs to which table, where a table ends.
//!
//! Not here: what to change there.

use super::Path;
use crate::syntax::{self, Body, KeyPart, Node, NodeValue, Script, Statement};

/// A text cut into statements, each with its full path.
pub(super) struct Outline<'t> {
    pub text: &'t str,
    pub script: Script,
    /// One for each statement.
    pub rows: Vec<Row>,
}

/// What is known of one statement besides its text.
pub(super) struct Row {
    /// Full path; `None` for what belongs to no known table.
    pub path: Option<Path>,
    /// How many names of the path come from the header.
    pub from_header: usize,
    /// The statement's header; `None` above the first one.
    pub header: Option<usize>,
}

impl<'t> Outline<'t> {
    pub fn new(text: &'t str) -> Self {
        let script = syntax::read(text);
        let mut rows = Vec::with_capacity(script.statements.len());
        let mut header: Option<usize> = None;
        let mut front: Option<Path> = Some(Vec::new());
        for (index, statement) in script.statements.iter().enumerate() {
            let row = match &statement.body {
                Body::Header { path, array } => {
                    header = Some(index);
                    front = (!array).then(|| names(path));
                    Row {
                        path: front.clone(),
                        from_header: path.len(),
                        header,
                    }
                }
                Body::Broken { header: true } => {
                    header = Some(index);
                    front = None;
                    Row {
                        path: None,
                        from_header: 0,
                        header,
                    }
                }
                Body::Broken { header: false } => Row {
                    path: None,
                    from_header: 0,
                    header,
                },
                Body::Entry { path, .. } => Row {
                    path: front
                        .as_ref()
                        .map(|front| front.iter().cloned().chain(names(path)).collect()),
                    from_header: front.as_ref().map_or(0, Vec::len),
                    header,
                },
            };
            rows.push(row);
        }
        Self { text, script, rows }
    }

    /// Statements with a known path.
    pub fn placed(&self) -> impl DoubleEndedIterator<Item = (usize, &Statement, &Row, &Path)> {
        let pairs = self.script.statements.iter().zip(&self.rows).enumerate();
        pairs.filter_map(|(index, (statement, row))| {
            row.path.as_ref().map(|path| (index, statement, row, path))
        })
    }

    /// The plain value or inline table at a path.
    pub fn leaf(&self, path: &[String]) -> Option<&Node> {
        self.placed().find_map(|(_, statement, _, at)| {
            let Body::Entry { value, .. } = &statement.body else {
                return None;
            };
            path.strip_prefix(at.as_slice())
                .and_then(|rest| within(value, rest))
        })
    }

    /// Whether anything is at or below a path.
    pub fn is_there(&self, path: &[String]) -> bool {
        self.placed().any(|(_, statement, _, at)| {
            let inside = || match &statement.body {
                Body::Entry { value, .. } => path
                    .strip_prefix(at.as_slice())
                    .is_some_and(|rest| touches(value, rest)),
                _ => false,
            };
            at.starts_with(path) || inside()
        })
    }

    /// Whether the path is a table: something is below it.
    pub fn is_table(&self, path: &[String]) -> bool {
        let plain = self
            .leaf(path)
            .is_some_and(|node| !matches!(node.value, NodeValue::Table(_)));
        !plain && self.is_there(path)
    }

    /// The line ending after `index`, or that of the text.
    pub fn line_ending(&self, index: Option<usize>) -> &'t str {
        let here = index
            .and_then(|index| self.script.statements.get(index))
            .and_then(|statement| self.text.get(statement.span.end..statement.next))
            .filter(|ending| !ending.is_empty());
        here.unwrap_or_else(|| match self.text.find('\n') {
            Some(at)
                if self
                    .text
                    .get(..at)
                    .is_some_and(|before| before.ends_with('\r')) =>
            {
                "\r\n"
            }
            _ => "\n",
        })
    }

    /// The last statement of the table whose header is `header`, or of the part above the first header.
    pub fn last_of(&self, header: Option<usize>) -> Option<usize> {
        self.rows.iter().rposition(|row| row.header == header)
    }

    /// End of a table: after its last statement and the comments that hang on it.
    pub fn end_of(&self, header: Option<usize>) -> usize {
        let Some(last) = self
            .last_of(header)
            .and_then(|last| self.script.statements.get(last))
        else {
            return 0;
        };
        let mut at = last.next;
        while self.line(at).trim_start().starts_with('#') {
            at = self.next_line(at);
        }
        let touches_next = at < self.text.len() && !self.line(at).trim().is_empty();
        if touches_next { last.next } else { at }
    }

    /// Start of the comment lines directly above `at`, the start of a line.
    pub fn comment_above(&self, at: usize) -> usize {
        let mut start = at;
        while let Some(above) = self.previous_line(start) {
            if !self.line(above).trim_start().starts_with('#') || self.inside_statement(above) {
                break;
            }
            start = above;
        }
        start
    }

    fn inside_statement(&self, at: usize) -> bool {
        let after = self
            .script
            .statements
            .partition_point(|statement| statement.span.start <= at);
        let before = after
            .checked_sub(1)
            .and_then(|index| self.script.statements.get(index));
        before.is_some_and(|statement| at < statement.next)
    }

    /// The line at `at` with its ending.
    pub fn line(&self, at: usize) -> &'t str {
        self.text.get(at..self.next_line(at)).unwrap_or("")
    }

    pub fn next_line(&self, at: usize) -> usize {
        let rest = self.text.get(at..).unwrap_or("");
        rest.find('\n')
            .map_or(self.text.len(), |length| at + length + 1)
    }

    pub fn previous_line(&self, at: usize) -> Option<usize> {
        let before = self.text.get(..at)?.strip_suffix('\n')?;
        Some(before.rfind('\n').map_or(0, |end| end + 1))
    }
}

/// The names of a key.
pub(super) fn names(path: &[KeyPart]) -> Path {
    path.iter().map(|part| part.name.clone()).collect()
}

/// The node at `rest` below `node`.
fn within<'n>(node: &'n Node, rest: &[String]) -> Option<&'n Node> {
    if rest.is_empty() {
        return Some(node);
    }
    let NodeValue::Table(entries) = &node.value else {
        return None;
    };
    entries.iter().find_map(|(key, inner)| {
        rest.strip_prefix(names(key).as_slice())
            .and_then(|rest| within(inner, rest))
    })
}

/// Whether anything is at or below `rest` in `node`.
fn touches(node: &Node, rest: &[String]) -> bool {
    if rest.is_empty() {
        return true;
    }
    let NodeValue::Table(entries) = &node.value else {
        return false;
    };
    entries.iter().any(|(key, inner)| {
        let key = names(key);
        key.starts_with(rest)
            || rest
                .strip_prefix(key.as_slice())
                .is_some_and(|rest| touches(inner, rest))
    })
}
