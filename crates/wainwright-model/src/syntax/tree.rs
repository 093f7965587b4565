//! The statements gathered into one tree of tables, with TOML's rules on defining a thing twice.
//!
//! Not here: what a table or key means. The tree is one flat vector, so its depth costs no stack.

use super::{Body, Fault, KeyPart, Node, NodeValue, Statement};
use std::collections::BTreeMap;

/// How a place in the tree came to be.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Shape {
    /// Only named on the way to something below it.
    Implied,
    /// By a `[header]`.
    Header,
    /// By the front of a dotted key.
    Dotted,
    /// By `key = { ... }`.
    Inline,
    /// A plain value.
    Value(Node),
}

/// One place in the tree.
#[derive(Debug, Clone)]
pub(crate) struct Branch {
    pub name: String,
    /// Offset of the first key that names it.
    pub at: usize,
    pub shape: Shape,
    pub children: Vec<usize>,
    index: BTreeMap<String, usize>,
}

/// The whole tree; branch 0 is the root.
#[derive(Debug)]
pub(crate) struct Tree {
    pub branches: Vec<Branch>,
}

impl Branch {
    /// The branch alone, for a message about it.
    pub fn without_children(&self) -> Self {
        branch(&self.name, self.at, Shape::Implied)
    }
}

impl Tree {
    /// Gathers `statements`; anything defined twice goes to `faults` and the first definition stands.
    pub fn new<'s>(
        statements: impl IntoIterator<Item = &'s Statement>,
        faults: &mut Vec<Fault>,
    ) -> Self {
        let mut tree = Self {
            branches: vec![branch("", 0, Shape::Header)],
        };
        let mut current = Some(0);
        for statement in statements {
            match &statement.body {
                Body::Header { path, array } => current = tree.header(path, *array, faults),
                Body::Entry { path, value } => {
                    if let Some(table) = current {
                        tree.entry(table, path, value, faults);
                    }
                }
                Body::Broken { header: true } => current = None,
                Body::Broken { header: false } => {}
            }
        }
        tree
    }

    /// The branch numbered `index`; numbers come from this tree, so it is there.
    pub fn get(&self, index: usize) -> Option<&Branch> {
        self.branches.get(index)
    }

    /// The child of `parent` with this name.
    pub fn child(&self, parent: usize, name: &str) -> Option<usize> {
        self.get(parent)?.index.get(name).copied()
    }

    fn header(&mut self, path: &[KeyPart], array: bool, faults: &mut Vec<Fault>) -> Option<usize> {
        let shown: Vec<&str> = path.iter().map(|part| part.name.as_str()).collect();
        let shown = shown.join(".");
        let (last, front) = path.split_last()?;
        if array {
            faults.push(Fault {
                at: last.span.start,
                found: format!("[[{shown}]]"),
                expected: "a table header with single brackets, such as [item.fridge]".into(),
                hint: Some(format!("write [{shown}]")),
                first: None,
            });
            return None;
        }
        let mut table = 0;
        for part in front {
            table = self.step(table, part, &Shape::Implied, faults)?;
        }
        match self.child(table, &last.name) {
            None => Some(self.grow(table, last, Shape::Header)),
            Some(known) => {
                let branch = self.branches.get_mut(known)?;
                if branch.shape == Shape::Implied {
                    branch.shape = Shape::Header;
                    branch.at = last.span.start;
                    return Some(known);
                }
                faults.push(twice(last, format!("a second [{shown}]"), branch));
                None
            }
        }
    }

    fn entry(&mut self, table: usize, path: &[KeyPart], value: &Node, faults: &mut Vec<Fault>) {
        let Some((last, front)) = path.split_last() else {
            return;
        };
        let mut table = table;
        for part in front {
            match self.step(table, part, &Shape::Dotted, faults) {
                Some(next) => table = next,
                None => return,
            }
        }
        if let Some(known) = self.child(table, &last.name) {
            if let Some(branch) = self.get(known) {
                faults.push(twice(last, format!("a second `{}`", last.name), branch));
            }
            return;
        }
        match &value.value {
            NodeValue::Table(entries) => {
                let inner = self.grow(table, last, Shape::Inline);
                for (path, node) in entries {
                    self.entry(inner, path, node, faults);
                }
            }
            _ => {
                self.grow(table, last, Shape::Value(value.clone()));
            }
        }
    }

    /// One step along a header (`Implied`) or a dotted key (`Dotted`).
    fn step(
        &mut self,
        table: usize,
        part: &KeyPart,
        shape: &Shape,
        faults: &mut Vec<Fault>,
    ) -> Option<usize> {
        let Some(known) = self.child(table, &part.name) else {
            return Some(self.grow(table, part, shape.clone()));
        };
        let branch = self.branches.get_mut(known)?;
        let allowed = match branch.shape {
            Shape::Implied | Shape::Dotted => true,
            Shape::Header => *shape == Shape::Implied,
            Shape::Inline | Shape::Value(_) => false,
        };
        if !allowed {
            faults.push(twice(
                part,
                format!("more keys for `{}`", part.name),
                branch,
            ));
            return None;
        }
        if *shape == Shape::Dotted {
            branch.shape = Shape::Dotted;
        }
        Some(known)
    }

    fn grow(&mut self, parent: usize, part: &KeyPart, shape: Shape) -> usize {
        let child = self.branches.len();
        self.branches
            .push(branch(&part.name, part.span.start, shape));
        if let Some(parent) = self.branches.get_mut(parent) {
            parent.children.push(child);
            parent.index.insert(part.name.clone(), child);
        }
        child
    }
}

fn branch(name: &str, at: usize, shape: Shape) -> Branch {
    Branch {
        name: name.to_owned(),
        at,
        shape,
        children: Vec::new(),
        index: BTreeMap::new(),
    }
}

/// A second definition of what `first` defined.
fn twice(part: &KeyPart, found: String, first: &Branch) -> Fault {
    Fault {
        at: part.span.start,
        found,
        expected: "each name once".into(),
        hint: None,
        first: Some(first.at),
    }
}
