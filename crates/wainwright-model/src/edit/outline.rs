//! Where things stand in a text: which statement belongs to which table, where a table ends.
//!
//! Here: the outline and looking things up in it. It follows changes of its text in [`super::follow`]. Not here: what
//! to change there.

use super::Path;
use crate::syntax::{self, Body, Fault, KeyPart, Node, NodeValue, Statement, tree::Tree};

/// A text cut into sections, each a header with the entries under it.
pub(super) struct Outline {
    pub text: String,
    /// The first one is the part above all headers; it may be empty.
    pub(super) sections: Vec<Section>,
    /// What of the text is no statement.
    pub(super) faults: Vec<Fault>,
}

/// A header and the entries under it.
#[derive(Debug)]
pub(super) struct Section {
    /// Path of the header; `None` for a header that makes no known table.
    pub front: Option<Path>,
    pub rows: Vec<Row>,
}

/// One statement.
#[derive(Debug)]
pub(super) struct Row {
    pub statement: Statement,
    /// Full path; `None` for what belongs to no known table.
    pub path: Option<Path>,
    /// How many names of the path come from the header.
    pub from_header: usize,
}

/// A statement with a known path.
#[derive(Clone, Copy)]
pub(super) struct Placed<'o> {
    /// Number of its section.
    pub section: usize,
    pub row: &'o Row,
    pub path: &'o Path,
}

impl<'o> Placed<'o> {
    /// Whether it is a header.
    pub fn is_header(&self) -> bool {
        matches!(self.row.statement.body, Body::Header { .. })
    }

    /// The value, when it is an entry.
    pub fn value(&self) -> Option<&'o Node> {
        match &self.row.statement.body {
            Body::Entry { value, .. } => Some(value),
            _ => None,
        }
    }
}

impl Outline {
    pub fn new(text: String) -> Self {
        let script = syntax::read(&text);
        let mut sections = vec![Section::above()];
        gather(&mut sections, script.statements);
        Self {
            sections,
            faults: script.faults,
            text,
        }
    }

    /// Everything that is not legal TOML.
    pub fn all_faults(&self) -> Vec<Fault> {
        let mut faults = self.faults.clone();
        let rows = self.sections.iter().flat_map(|section| &section.rows);
        Tree::new(rows.map(|row| &row.statement), &mut faults);
        faults
    }

    /// Statements with a known path.
    pub fn placed(&self) -> impl DoubleEndedIterator<Item = Placed<'_>> {
        self.near(&[])
    }

    /// Statements with a known path that may be at, above or below `path`; those of other tables are left out.
    pub fn near<'o, 'p>(
        &'o self,
        path: &'p [String],
    ) -> impl DoubleEndedIterator<Item = Placed<'o>> + use<'o, 'p> {
        let sections = self.sections.iter().enumerate();
        let near = sections.filter(|(_, section)| section.is_near(path));
        near.flat_map(|(number, section)| {
            section.rows.iter().filter_map(move |row| {
                row.path.as_ref().map(|path| Placed {
                    section: number,
                    row,
                    path,
                })
            })
        })
    }

    /// The plain value or inline table at a path.
    pub fn leaf(&self, path: &[String]) -> Option<&Node> {
        self.near(path).find_map(|placed| {
            let Body::Entry { value, .. } = &placed.row.statement.body else {
                return None;
            };
            let rest = path.strip_prefix(placed.path.as_slice())?;
            within(value, rest)
        })
    }

    /// Whether anything is at or below a path.
    pub fn is_there(&self, path: &[String]) -> bool {
        self.near(path).any(|placed| {
            let inside = || {
                let rest = path.strip_prefix(placed.path.as_slice());
                placed
                    .value()
                    .zip(rest)
                    .is_some_and(|(value, rest)| touches(value, rest))
            };
            placed.path.starts_with(path) || inside()
        })
    }

    /// Whether the path is a table: something is below it.
    pub fn is_table(&self, path: &[String]) -> bool {
        let plain = self
            .leaf(path)
            .is_some_and(|node| !matches!(node.value, NodeValue::Table(_)));
        !plain && self.is_there(path)
    }

    /// The line ending after a statement, or that of the text.
    pub fn line_ending(&self, after: Option<&Statement>) -> &str {
        let here = after
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

    /// The last statement of a section; none only in an empty part above the first header.
    pub fn last_of(&self, section: usize) -> Option<&Statement> {
        let row = self.sections.get(section)?.rows.last()?;
        Some(&row.statement)
    }

    /// End of a section: after its last statement and the comments that hang on it.
    pub fn end_of(&self, section: usize) -> usize {
        let Some(last) = self.last_of(section) else {
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
            .sections
            .partition_point(|section| section.start() <= at);
        let section = after.checked_sub(1).and_then(|n| self.sections.get(n));
        section.is_some_and(|section| {
            let starts = |row: &Row| row.statement.span.start <= at;
            let after = section.rows.partition_point(starts);
            let before = after.checked_sub(1).and_then(|n| section.rows.get(n));
            before.is_some_and(|row| at < row.statement.next)
        })
    }

    /// The line at `at` with its ending.
    pub fn line(&self, at: usize) -> &str {
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

impl Section {
    /// The empty part above all headers.
    pub fn above() -> Self {
        Self {
            front: Some(Vec::new()),
            rows: Vec::new(),
        }
    }

    /// Where its header starts; 0 for the part above all headers.
    pub fn start(&self) -> usize {
        match (self.rows.first(), &self.front) {
            (None, _) => 0,
            (Some(_), Some(front)) if front.is_empty() => 0,
            (Some(row), _) => row.statement.span.start,
        }
    }

    /// Whether a path of a statement in it can be above, at or below `path`.
    fn is_near(&self, path: &[String]) -> bool {
        // From the back: ids differ more than the names of elements.
        self.front.as_ref().is_some_and(|front| {
            let common = front.len().min(path.len());
            (0..common).rev().all(|at| front.get(at) == path.get(at))
        })
    }
}

/// Adds statements to the last of `sections`, and a section for each header among them.
pub(super) fn gather(sections: &mut Vec<Section>, statements: Vec<Statement>) {
    for statement in statements {
        let made = match &statement.body {
            Body::Header { path, array } => Some((!array).then(|| names(path))),
            Body::Broken { header: true } => Some(None),
            _ => None,
        };
        if let Some(front) = made {
            sections.push(Section {
                front,
                rows: Vec::new(),
            });
        }
        if let Some(section) = sections.last_mut() {
            let row = row(section.front.as_ref(), statement);
            section.rows.push(row);
        }
    }
}

fn row(front: Option<&Path>, statement: Statement) -> Row {
    let path = match &statement.body {
        Body::Header { .. } => front.cloned(),
        Body::Entry { path, .. } => {
            front.map(|front| front.iter().cloned().chain(names(path)).collect())
        }
        Body::Broken { .. } => None,
    };
    Row {
        statement,
        path,
        from_header: front.map_or(0, Vec::len),
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
