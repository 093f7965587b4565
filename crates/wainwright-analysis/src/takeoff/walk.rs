//! Following wires from a terminal through what only passes current on.

use std::collections::{BTreeMap, BTreeSet};
use wainwright_model::{FieldExt, Id, Kind, Project, TerminalRef};

/// The wires as drawn, by the terminals they end at.
pub(super) struct Walker<'a> {
    project: &'a Project,
    wires: Vec<(&'a Id, &'a TerminalRef, &'a TerminalRef)>,
    at: BTreeMap<&'a TerminalRef, Vec<usize>>,
}

/// What a walk came along.
#[derive(Default)]
pub(super) struct Walk {
    /// Wires, nearest first.
    pub(super) wires: Vec<Id>,
    /// Terminals of gear it ended at, nearest first.
    pub(super) ends: Vec<TerminalRef>,
}

impl<'a> Walker<'a> {
    pub(super) fn new(project: &'a Project) -> Self {
        let wires = project.wires.iter();
        let wires = wires.filter_map(|(id, wire)| Some((id, wire.from.value()?, wire.to.value()?)));
        let wires: Vec<_> = wires.collect();
        let mut at: BTreeMap<&TerminalRef, Vec<usize>> = BTreeMap::new();
        for (index, (_, from, to)) in wires.iter().enumerate() {
            at.entry(from).or_default().push(index);
            if from != to {
                at.entry(to).or_default().push(index);
            }
        }
        Self { project, wires, at }
    }

    /// Everything that hangs on a terminal, up to gear that uses or gives
    /// electricity and up to the kinds named.
    pub(super) fn walk(&self, start: &TerminalRef, up_to: &[Kind]) -> Walk {
        let mut walk = Walk::default();
        let mut seen = BTreeSet::from([start.clone()]);
        let mut taken = BTreeSet::new();
        let mut open = std::collections::VecDeque::from([start.clone()]);
        while let Some(here) = open.pop_front() {
            for index in self.at.get(&here).into_iter().flatten().copied() {
                if !taken.insert(index) {
                    continue;
                }
                let (id, from, to) = self.wires[index];
                walk.wires.push(id.clone());
                let other = if *from == here { to } else { from };
                if !seen.insert(other.clone()) {
                    continue;
                }
                match self.on(other, up_to) {
                    Some(next) => {
                        let new = next.into_iter().filter(|t| seen.insert(t.clone()));
                        open.extend(new);
                    }
                    None => walk.ends.push(other.clone()),
                }
                if self.chains(other, up_to) {
                    open.push_back(other.clone());
                }
            }
        }
        walk
    }

    /// Terminals that a terminal passes current on to; `None` at an end.
    fn on(&self, terminal: &TerminalRef, up_to: &[Kind]) -> Option<Vec<TerminalRef>> {
        let kind = self.kind(&terminal.item)?;
        if up_to.contains(&kind) {
            return None;
        }
        let other = |name: &str| TerminalRef {
            item: terminal.item.clone(),
            terminal: name.to_owned(),
        };
        let name = terminal.terminal.as_str();
        match kind {
            Kind::Fuse | Kind::Breaker | Kind::Switch | Kind::Shunt => {
                Some(vec![other(if name == "in" { "out" } else { "in" })])
            }
            Kind::SwitchBank => {
                let number = name.trim_start_matches(|c: char| c.is_ascii_alphabetic());
                let side = if name.starts_with("in") { "out" } else { "in" };
                Some(vec![other(&format!("{side}{number}"))])
            }
            Kind::BusBar | Kind::Splice | Kind::Frame => {
                let own = self.at.keys().filter(|t| t.item == terminal.item);
                Some(own.map(|t| (*t).clone()).collect())
            }
            _ => None,
        }
    }

    /// Whether wires that end at the same terminal belong together: gear joined
    /// one after the other does, what everything comes together at does not.
    fn chains(&self, terminal: &TerminalRef, up_to: &[Kind]) -> bool {
        let kind = self.kind(&terminal.item);
        kind.is_some_and(|kind| {
            !up_to.contains(&kind) && !matches!(kind, Kind::Battery | Kind::FuseBlock)
        })
    }

    /// Kind of an item.
    pub(super) fn kind(&self, item: &Id) -> Option<Kind> {
        Some(self.project.items.get(item.as_str())?.spec.kind())
    }
}
