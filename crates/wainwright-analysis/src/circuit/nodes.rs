//! Names of terminals and the electrical node each belongs to.

use std::collections::BTreeMap;
use wainwright_model::{Id, Project, Spec};

/// Name of the middle of a frame or splice, which no wire ends at.
pub(super) const HUB: &str = "hub";

/// Terminals and their nodes. Terminals that are one piece of metal share a node.
pub(crate) struct NodeTable {
    by_name: BTreeMap<(Id, String), usize>,
    members: Vec<Vec<(Id, String)>>,
}

impl NodeTable {
    /// Nodes for every terminal of every item, in file order.
    pub(crate) fn new(project: &Project) -> Self {
        let mut table = Self {
            by_name: BTreeMap::new(),
            members: Vec::new(),
        };
        for (id, item) in project.items.iter() {
            match &item.spec {
                Spec::BusBar(_) => table.add_shared(id, item.spec.terminals()),
                Spec::Frame(_) | Spec::Splice(_) => table.add_shared(id, vec![HUB.to_owned()]),
                spec => spec.terminals().into_iter().for_each(|name| {
                    table.add(id, name);
                }),
            }
        }
        table
    }

    /// Number of nodes.
    pub(crate) fn len(&self) -> usize {
        self.members.len()
    }

    /// Terminals of one node.
    pub(crate) fn members(&self, node: usize) -> &[(Id, String)] {
        self.members.get(node).map_or(&[], Vec::as_slice)
    }

    /// The node of a terminal, when the terminal exists.
    pub(crate) fn find(&self, item: &Id, terminal: &str) -> Option<usize> {
        self.by_name
            .get(&(item.clone(), terminal.to_owned()))
            .copied()
    }

    /// The node of a terminal, made new when the terminal was not named before.
    pub(crate) fn add(&mut self, item: &Id, terminal: String) -> usize {
        let name = (item.clone(), terminal);
        if let Some(node) = self.by_name.get(&name) {
            return *node;
        }
        let node = self.members.len();
        self.members.push(vec![name.clone()]);
        self.by_name.insert(name, node);
        node
    }

    /// Adds a terminal to the one node of an item that is a single conductor.
    pub(crate) fn join_first(&mut self, item: &Id, terminal: &str) -> usize {
        let mut own = self.by_name.range((item.clone(), String::new())..);
        let first = own.next().filter(|((id, _), _)| id == item);
        match first.map(|(_, node)| *node) {
            Some(node) => {
                self.join(item, terminal.to_owned(), node);
                node
            }
            None => self.add(item, terminal.to_owned()),
        }
    }

    /// Adds a terminal to a node that exists.
    pub(crate) fn join(&mut self, item: &Id, terminal: String, node: usize) {
        let name = (item.clone(), terminal);
        if self.by_name.contains_key(&name) {
            return;
        }
        if let Some(members) = self.members.get_mut(node) {
            members.push(name.clone());
            self.by_name.insert(name, node);
        }
    }

    fn add_shared(&mut self, item: &Id, names: Vec<String>) {
        let mut names = names.into_iter();
        if let Some(first) = names.next() {
            let node = self.add(item, first);
            names.for_each(|name| self.join(item, name, node));
        }
    }
}
