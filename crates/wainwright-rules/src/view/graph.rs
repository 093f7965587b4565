//! Who is joined to whom: conductors, protective devices, contacts and
//! joints as links between the assessment's nodes. Not here: currents, which
//! the assessment already holds.

use std::cell::OnceCell;
use std::collections::{BTreeMap, BTreeSet, VecDeque};
use wainwright_analysis::result::{Assessment, Role};
use wainwright_model::{Id, Project, Spec};

/// What joins two nodes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) enum Link {
    /// A conductor (index into the assessment's wires).
    Wire(usize),
    /// A fuse or breaker (index into the assessment's devices).
    Device(usize),
    /// The contact of a switch, or of one way of a bank (from 1).
    Contact(Id, usize),
    /// Something that merely passes current on: shunt, bus bar, splice, frame.
    Through(Id),
}

/// Links of one trailer, found by node.
#[derive(Debug)]
pub(crate) struct Graph {
    links: Vec<(usize, usize, Link)>,
    at: Vec<Vec<usize>>,
    batteries: BTreeSet<usize>,
    /// What each wire serves, found when first asked for.
    served: OnceCell<Vec<Vec<usize>>>,
    terminals: BTreeMap<(String, String), usize>,
    kinds: BTreeMap<usize, BTreeSet<Tap>>,
}

/// What may take current at a node.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Tap {
    /// Gear that takes power, or a switch in front of it.
    Gear,
    /// Anything else.
    Other,
}

impl Graph {
    /// The links of this trailer.
    pub(crate) fn new(assessment: &Assessment, project: &Project) -> Self {
        let mut graph = Self {
            links: Vec::new(),
            at: vec![Vec::new(); assessment.nodes.len()],
            batteries: battery_nodes(assessment),
            served: OnceCell::new(),
            terminals: BTreeMap::new(),
            kinds: BTreeMap::new(),
        };
        for (node, content) in assessment.nodes.iter().enumerate() {
            for (item, terminal) in &content.terminals {
                graph
                    .terminals
                    .insert((item.as_str().to_string(), terminal.clone()), node);
                let tap = tap(project, item, terminal);
                graph.kinds.entry(node).or_default().insert(tap);
            }
        }
        for (index, wire) in assessment.wires.iter().enumerate() {
            graph.join(wire.from_node, wire.to_node, Link::Wire(index));
        }
        for (index, device) in assessment.devices.iter().enumerate() {
            graph.join(device.nodes.0, device.nodes.1, Link::Device(index));
        }
        for (id, item) in project.items.iter() {
            graph.join_inside(assessment, id, &item.spec);
        }
        graph
    }

    /// The node of a terminal.
    pub(crate) fn node(&self, item: &str, terminal: &str) -> Option<usize> {
        self.terminals
            .get(&(item.to_string(), terminal.to_string()))
            .copied()
    }

    /// The links at a node, each with the node at its other end.
    pub(crate) fn links_at(&self, node: usize) -> impl Iterator<Item = (&Link, usize)> {
        self.at
            .get(node)
            .into_iter()
            .flatten()
            .filter_map(move |index| {
                let (a, b, link) = self.links.get(*index)?;
                Some((link, if *a == node { *b } else { *a }))
            })
    }

    /// Whether gear takes current, or a switch in front of gear sits, here.
    pub(crate) fn tapped(&self, node: usize) -> bool {
        self.kinds
            .get(&node)
            .is_some_and(|taps| taps.contains(&Tap::Gear))
    }

    /// Every node that can be reached from `start` along links that may be
    /// crossed, `start` included.
    pub(crate) fn reach(&self, start: usize, cross: impl Fn(&Link) -> bool) -> BTreeSet<usize> {
        let mut seen = vec![false; self.at.len()];
        let mut open = vec![start];
        let mut reached = Vec::new();
        while let Some(node) = open.pop() {
            match seen.get_mut(node) {
                Some(slot) if !*slot => *slot = true,
                _ => continue,
            }
            reached.push(node);
            let links = self.links_at(node).filter(|(link, _)| cross(link));
            open.extend(links.map(|(_, other)| other));
        }
        reached.into_iter().collect()
    }

    /// The links of a way with fewest links from `start` to `end`.
    pub(crate) fn path(&self, start: usize, end: usize) -> Option<Vec<Link>> {
        let mut came: BTreeMap<usize, (usize, Link)> = BTreeMap::new();
        let mut queue = VecDeque::from([start]);
        while let Some(node) = queue.pop_front() {
            if node == end {
                return Some(Self::trace(&came, start, end));
            }
            for (link, other) in self.links_at(node) {
                if other != start && !came.contains_key(&other) {
                    came.insert(other, (node, link.clone()));
                    queue.push_back(other);
                }
            }
        }
        None
    }

    /// The wires on that way.
    pub(crate) fn wires_between(&self, start: usize, end: usize) -> Vec<usize> {
        let wire = |link: Link| match link {
            Link::Wire(index) => Some(index),
            _ => None,
        };
        self.path(start, end)
            .into_iter()
            .flatten()
            .filter_map(wire)
            .collect()
    }

    /// The gear behind a wire: what is cut off from every battery when the
    /// wire is cut. Indices into the assessment's consumers, in its order. In
    /// an island without battery, the smaller of its two parts.
    pub(crate) fn behind(&self, assessment: &Assessment, wire: usize) -> Vec<usize> {
        let all = self.served.get_or_init(|| {
            (0..assessment.wires.len())
                .map(|wire| self.find_behind(assessment, wire))
                .collect()
        });
        all.get(wire).cloned().unwrap_or_default()
    }

    fn find_behind(&self, assessment: &Assessment, wire: usize) -> Vec<usize> {
        let Some(result) = assessment.wires.get(wire) else {
            return Vec::new();
        };
        [result.to_node, result.from_node]
            .into_iter()
            .filter_map(|end| self.cut_off(end, wire))
            .map(|seen| gear_at(assessment, &seen))
            .min_by_key(Vec::len)
            .unwrap_or_default()
    }

    /// Which nodes hang on `start` when a wire is cut; nothing as soon as a
    /// battery is among them.
    fn cut_off(&self, start: usize, wire: usize) -> Option<Vec<bool>> {
        let mut seen = vec![false; self.at.len()];
        let mut open = vec![start];
        while let Some(node) = open.pop() {
            match seen.get_mut(node) {
                Some(slot) if !*slot => *slot = true,
                _ => continue,
            }
            if self.batteries.contains(&node) {
                return None;
            }
            let links = self
                .links_at(node)
                .filter(|(link, _)| **link != Link::Wire(wire));
            open.extend(links.map(|(_, other)| other));
        }
        Some(seen)
    }

    /// The loads among the gear behind a wire.
    pub(crate) fn loads_behind(&self, assessment: &Assessment, wire: usize) -> Vec<usize> {
        let takes = |index: &usize| {
            let gear = assessment.consumers.get(*index);
            gear.is_some_and(|c| matches!(c.role, Role::Load | Role::Inverter))
        };
        let mut gear = self.behind(assessment, wire);
        gear.retain(takes);
        gear
    }

    fn trace(came: &BTreeMap<usize, (usize, Link)>, start: usize, end: usize) -> Vec<Link> {
        let mut links = Vec::new();
        let mut node = end;
        while node != start {
            let Some((before, link)) = came.get(&node) else {
                break;
            };
            links.push(link.clone());
            node = *before;
        }
        links.reverse();
        links
    }

    fn join(&mut self, a: usize, b: usize, link: Link) {
        if a == b {
            return;
        }
        let index = self.links.len();
        self.links.push((a, b, link));
        if let Some(at) = self.at.get_mut(a) {
            at.push(index);
        }
        if let Some(at) = self.at.get_mut(b) {
            at.push(index);
        }
    }

    fn join_named(&mut self, id: &Id, a: &str, b: &str, link: Link) {
        if let (Some(a), Some(b)) = (self.node(id.as_str(), a), self.node(id.as_str(), b)) {
            self.join(a, b, link);
        }
    }

    /// Links inside one piece of gear.
    fn join_inside(&mut self, assessment: &Assessment, id: &Id, spec: &Spec) {
        match spec {
            Spec::Switch(_) => self.join_named(id, "in", "out", Link::Contact(id.clone(), 0)),
            Spec::Shunt(_) => self.join_named(id, "in", "out", Link::Through(id.clone())),
            Spec::SwitchBank(_) => {
                let ways = spec.terminals().len() / 2;
                for way in 1..=ways {
                    self.join_bank_way(assessment, id, way);
                }
            }
            Spec::BusBar(_) | Spec::Splice(_) | Spec::Frame(_) => {
                let own: Vec<usize> = self
                    .terminals
                    .iter()
                    .filter(|((item, _), _)| item == id.as_str())
                    .map(|(_, node)| *node)
                    .collect();
                for pair in own.windows(2) {
                    if let [a, b] = pair {
                        self.join(*a, *b, Link::Through(id.clone()));
                    }
                }
            }
            _ => {}
        }
    }

    /// A way of a bank: contact, then its own fuse where it has one.
    fn join_bank_way(&mut self, assessment: &Assessment, id: &Id, way: usize) {
        let Some(inlet) = self.node(id.as_str(), &format!("in{way}")) else {
            return;
        };
        let outlet = match assessment.device(id.as_str(), way) {
            Some(device) => Some(device.nodes.0),
            None => self.node(id.as_str(), &format!("out{way}")),
        };
        if let Some(outlet) = outlet {
            self.join(inlet, outlet, Link::Contact(id.clone(), way));
        }
    }
}

/// Nodes at the terminals of the batteries.
pub(crate) fn battery_nodes(assessment: &Assessment) -> BTreeSet<usize> {
    let batteries = assessment
        .consumers
        .iter()
        .filter(|c| c.role == Role::Battery);
    batteries
        .filter_map(|c| c.nodes)
        .flat_map(|(plus, minus)| [plus, minus])
        .collect()
}

/// Gear other than batteries with a terminal on one of the seen nodes.
fn gear_at(assessment: &Assessment, seen: &[bool]) -> Vec<usize> {
    let at = |node: usize| seen.get(node).copied().unwrap_or(false);
    let here = |pair: (usize, usize)| at(pair.0) || at(pair.1);
    let gear = assessment.consumers.iter().enumerate();
    gear.filter(|(_, c)| c.role != Role::Battery && c.nodes.is_some_and(here))
        .map(|(index, _)| index)
        .collect()
}

/// Whether current is taken off at this terminal by gear or its switch.
fn tap(project: &Project, item: &Id, terminal: &str) -> Tap {
    let Some(item) = project.items.get(item.as_str()) else {
        return Tap::Other;
    };
    match &item.spec {
        Spec::Load(_) | Spec::Outlet(_) | Spec::Inverter(_) => Tap::Gear,
        Spec::Switch(_) | Spec::SwitchBank(_) if terminal.starts_with("in") => Tap::Gear,
        Spec::DcdcCharger(_) if terminal.starts_with("in") => Tap::Gear,
        _ => Tap::Other,
    }
}
