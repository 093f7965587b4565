//! Taking the fields of one table, with a problem for each that is not what it should be.
//!
//! Not here: which fields a table has (they ask for themselves), what a value may be (`value`).

use super::Reader;
use crate::place::{Field, Given, Origin, Place};
use crate::problem::{Complaint, ProblemSeverity, did_you_mean};
use crate::schema::{FieldSpec, ValueKind};
use crate::syntax::{Node, NodeValue, tree::Shape};
use crate::value::{FieldValue, Mismatch, shown};

/// One table while it is read.
pub(crate) struct Fields<'a, 't> {
    reader: &'a mut Reader<'t>,
    table: usize,
    path: String,
}

impl<'a, 't> Fields<'a, 't> {
    pub fn new(reader: &'a mut Reader<'t>, table: usize, path: String) -> Self {
        Self {
            reader,
            table,
            path,
        }
    }

    /// Where the table begins.
    pub fn place(&self) -> Place {
        self.place_of(self.start())
    }

    /// Whether the key is there, readable or not.
    pub fn has(&self, name: &str) -> bool {
        self.reader.tree.child(self.table, name).is_some()
    }

    /// The value of one key, if it is there and is what `kind` says.
    pub fn take<T: FieldValue>(&mut self, name: &str, kind: &ValueKind) -> Field<T> {
        let child = self.reader.tree.child(self.table, name)?;
        let branch = self.reader.tree.get(child)?;
        let Shape::Value(node) = &branch.shape else {
            let (at, path) = (branch.at, self.path_of(name));
            self.reader
                .complain(at, &path, "a table".into(), "a plain value", None);
            return None;
        };
        match T::read(node, kind) {
            Ok(value) => Some(Given {
                value,
                text: self.typed(node),
                at: self.place_of(node.span.start),
            }),
            Err(mismatch) => {
                let at = self.offset_of(node, &mismatch);
                let path = self.path_of(name);
                self.reader
                    .complain(at, &path, mismatch.found, &mismatch.expected, mismatch.hint);
                None
            }
        }
    }

    /// Complains about keys no field has asked for, and about required ones that are missing.
    pub fn finish(&mut self, specs: &[&'static [FieldSpec]]) {
        let known = || specs.iter().flat_map(|fields| fields.iter());
        let strangers: Vec<(String, usize)> = self
            .children()
            .filter(|(name, _)| !known().any(|field| field.name == *name))
            .map(|(name, at)| (name.to_owned(), at))
            .collect();
        for (name, at) in strangers {
            let hint = if self.reader.report.wants_hints() {
                did_you_mean(&name, known().map(|field| field.name))
            } else {
                None
            };
            let names: Vec<&str> = known().map(|field| field.name).collect();
            let path = self.path_of(&name);
            self.reader.complain(
                at,
                &path,
                format!("the key `{name}`"),
                &format!("one of {}", names.join(", ")),
                hint,
            );
        }
        specs.iter().for_each(|fields| self.finish_required(fields));
    }

    /// Complains about required keys that are missing.
    pub fn finish_required(&mut self, fields: &'static [FieldSpec]) {
        for field in fields.iter().filter(|field| field.required) {
            if !self.has(field.name) {
                self.missing(field);
            }
        }
    }

    /// Offset of the key, or of the table when the key is not there.
    pub fn offset(&self, name: &str) -> usize {
        let child = self.reader.tree.child(self.table, name);
        child
            .and_then(|child| self.reader.tree.get(child))
            .map_or(self.start(), |branch| branch.at)
    }

    /// Complains at the key, or at the table when the key is not there; the path is made complete.
    pub fn complain_at_key(&mut self, name: &str, complaint: Complaint<'_>) {
        let at = self.offset(name);
        let path = self.path_of(name);
        self.reader.report.add(Complaint {
            at,
            path: &path,
            ..complaint
        });
    }

    /// Which of `names` are there, in the order of the file.
    pub fn present(&self, names: &[&str]) -> Vec<String> {
        self.children()
            .map(|(name, _)| name)
            .filter(|name| names.contains(name))
            .map(str::to_owned)
            .collect()
    }

    fn missing(&mut self, field: &FieldSpec) {
        let expected = match field.value {
            ValueKind::Terminal => format!("`{}` = \"item.terminal\"", field.name),
            _ => format!("`{}`", field.name),
        };
        let (at, path) = (self.start(), self.path_of(field.name));
        self.reader.report.add(Complaint {
            at,
            path: &path,
            found: "nothing".into(),
            expected,
            hint: Some(format!("add a line {} = ...", field.name)),
            severity: ProblemSeverity::Error,
        });
    }

    fn children(&self) -> impl Iterator<Item = (&str, usize)> {
        let tree = &self.reader.tree;
        let children = tree
            .get(self.table)
            .map(|branch| branch.children.as_slice())
            .unwrap_or_default();
        children
            .iter()
            .filter_map(|child| tree.get(*child))
            .map(|branch| (branch.name.as_str(), branch.at))
    }

    fn start(&self) -> usize {
        self.reader
            .tree
            .get(self.table)
            .map_or(0, |branch| branch.at)
    }

    fn path_of(&self, name: &str) -> String {
        if self.path.is_empty() {
            name.to_owned()
        } else {
            format!("{}.{name}", self.path)
        }
    }

    fn place_of(&self, offset: usize) -> Place {
        let (line, column) = self.reader.report.lines.place(offset);
        Place {
            line,
            column,
            origin: Origin::File,
        }
    }

    fn typed(&self, node: &Node) -> String {
        match &node.value {
            NodeValue::Text(text) => text.clone(),
            _ => self
                .reader
                .text
                .get(node.span.clone())
                .map(str::to_owned)
                .unwrap_or_else(|| shown(node)),
        }
    }

    /// Offset of the trouble: inside the text when the text has no escapes, else its start.
    fn offset_of(&self, node: &Node, mismatch: &Mismatch) -> usize {
        let span = mismatch
            .element
            .clone()
            .unwrap_or_else(|| node.span.clone());
        let raw = self.reader.text.get(span.clone()).unwrap_or("");
        let plain =
            !raw.contains(['\\', '\n']) && !raw.starts_with("\"\"\"") && !raw.starts_with("'''");
        let quoted = raw.starts_with(['"', '\'']);
        match mismatch.inside {
            Some(characters) if plain && quoted => {
                let inner = raw.get(1..raw.len().saturating_sub(1)).unwrap_or("");
                let bytes = inner
                    .char_indices()
                    .nth(characters)
                    .map_or(inner.len(), |(at, _)| at);
                span.start + 1 + bytes
            }
            _ => span.start,
        }
    }
}
