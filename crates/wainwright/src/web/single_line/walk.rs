//! The way along the plus side: which gear follows which. Not here: names and
//! facts.

use crate::study::Study;
use std::collections::{BTreeMap, BTreeSet};
use wainwright_analysis::result::Side;
use wainwright_model::{Id, Kind, Spec};

/// Deepest tree that is followed.
const DEEPEST: usize = 40;

/// One device on the way.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// The item.
    pub item: String,
    /// Which way of a block or bank; none for the item as a whole.
    pub way: Option<usize>,
}

/// A piece of the tree: a line and what is at its end.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Found {
    /// Devices in the line, from its start.
    pub through: Vec<Step>,
    /// The wire that ends at `end`.
    pub wire: String,
    /// What is at its end.
    pub end: Step,
    /// Lines that start there.
    pub branches: Vec<Found>,
}

/// A wire seen from one of its ends.
#[derive(Debug, Clone)]
struct Hop {
    own: String,
    wire: String,
    item: String,
    terminal: String,
}

/// All wires of the plus side, by the items they end at.
pub struct Plus<'a> {
    study: &'a Study,
    hops: BTreeMap<String, Vec<Hop>>,
}

/// What kind an item is.
pub fn kind_of(study: &Study, item: &str) -> Kind {
    study
        .project
        .items
        .get(item)
        .map_or(Kind::Unknown, |item| item.spec.kind())
}

/// Whether gear of this kind gives power to the bus.
pub fn is_source(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Battery
            | Kind::SolarController
            | Kind::SolarModule
            | Kind::ShoreCharger
            | Kind::DcdcCharger
            | Kind::VehicleSupply
    )
}

/// Whether things of this kind only lead to others.
pub fn is_link(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Fuse
            | Kind::Breaker
            | Kind::Switch
            | Kind::Shunt
            | Kind::SwitchBank
            | Kind::BusBar
            | Kind::FuseBlock
            | Kind::Splice
    )
}

/// Modules or the tow vehicle behind a controller or charger.
pub fn fed_by(study: &Study, item: &str) -> Vec<String> {
    let wanted = match kind_of(study, item) {
        Kind::SolarController => Kind::SolarModule,
        Kind::DcdcCharger => Kind::VehicleSupply,
        _ => return Vec::new(),
    };
    let all = Plus::of(study);
    let (mut seen, mut next, mut found) = (BTreeSet::new(), vec![item.to_owned()], Vec::new());
    while let Some(at) = next.pop() {
        for hop in all.hops.get(&at).into_iter().flatten() {
            let from_inlet = hop.own.starts_with("pv") || hop.own.starts_with("in");
            if (at == *item && !from_inlet) || !seen.insert(hop.item.clone()) {
                continue;
            }
            let kind = kind_of(study, &hop.item);
            if kind == wanted {
                found.push(hop.item.clone());
            }
            if kind == wanted
                || matches!(
                    kind,
                    Kind::Fuse | Kind::Breaker | Kind::Switch | Kind::Splice
                )
            {
                next.push(hop.item.clone());
            }
        }
    }
    found.sort();
    found
}

impl<'a> Plus<'a> {
    /// Of one project.
    pub fn of(study: &'a Study) -> Self {
        let mut hops: BTreeMap<String, Vec<Hop>> = BTreeMap::new();
        for (id, wire) in &study.project.wires {
            let (Some(from), Some(to)) = (&wire.from, &wire.to) else {
                continue;
            };
            let (from, to) = (&from.value, &to.value);
            if !is_plus(study, &from.item, &from.terminal)
                || !is_plus(study, &to.item, &to.terminal)
            {
                continue;
            }
            for (own, other) in [(from, to), (to, from)] {
                hops.entry(own.item.to_string()).or_default().push(Hop {
                    own: own.terminal.clone(),
                    wire: id.to_string(),
                    item: other.item.to_string(),
                    terminal: other.terminal.clone(),
                });
            }
        }
        Self { study, hops }
    }

    /// The tree, seen from the bus: the first bar or block that a battery's
    /// line leads to, else a source itself.
    pub fn root(&self) -> Option<Found> {
        let items = &self.study.project.items;
        let sources = |battery: bool| {
            items.iter().filter(move |(_, item)| {
                let kind = item.spec.kind();
                is_source(kind) && (kind == Kind::Battery) == battery
            })
        };
        let joined = |id: &Id| self.hops.contains_key(id.as_str());
        let mut all = sources(true)
            .chain(sources(false))
            .filter(|(id, _)| joined(id));
        let first = all.next().map(|(id, _)| id.to_string())?;
        let start = self.tree(&first);
        Some(match self.first_hub(&start) {
            Some(hub) => self.tree(&hub),
            None => start,
        })
    }

    fn first_hub(&self, found: &Found) -> Option<String> {
        found.branches.iter().find_map(|branch| {
            let kind = kind_of(self.study, &branch.end.item);
            if matches!(kind, Kind::BusBar | Kind::FuseBlock) {
                return Some(branch.end.item.clone());
            }
            self.first_hub(branch)
        })
    }

    fn tree(&self, item: &str) -> Found {
        let mut used = BTreeSet::new();
        Found {
            through: Vec::new(),
            wire: String::new(),
            end: Step {
                item: item.to_owned(),
                way: None,
            },
            branches: self.from(item, |_| true, &mut used, 0),
        }
    }

    /// Lines that start at those terminals of an item.
    fn from(
        &self,
        item: &str,
        starts: impl Fn(&str) -> bool,
        used: &mut BTreeSet<String>,
        depth: usize,
    ) -> Vec<Found> {
        if depth > DEEPEST {
            return Vec::new();
        }
        let mut hops: Vec<&Hop> = self.hops.get(item).into_iter().flatten().collect();
        hops.sort_by_key(|hop| hop.own.parse::<u32>().unwrap_or(0));
        let mut found = Vec::new();
        for hop in hops {
            if starts(&hop.own) && used.insert(hop.wire.clone()) {
                let mut one = self.follow(hop, used, depth + 1);
                if let Some(fuse) = self.fused_way(item, &hop.own) {
                    one.through.insert(0, fuse);
                }
                found.push(one);
            }
        }
        found
    }

    /// Along a wire and through whatever has just one way on.
    fn follow(&self, first: &Hop, used: &mut BTreeSet<String>, depth: usize) -> Found {
        let (mut hop, mut through) = (first, Vec::new());
        for _ in 0..DEEPEST {
            if kind_of(self.study, &hop.item) == Kind::SwitchBank {
                let ins = self.bridged(&hop.item, &hop.terminal, used);
                if ins.len() > 1 {
                    let branches = self.bank(&hop.item, &ins, used, depth);
                    return found(hop, through, branches);
                }
            }
            let Some(out) = self.way_on(&hop.item, &hop.terminal) else {
                let branches = self.ended(hop, used, depth);
                return found(hop, through, branches);
            };
            let open = |own: &str| {
                let all = self.hops.get(&hop.item).into_iter().flatten();
                all.filter(|next| next.own == own && !used.contains(&next.wire))
                    .count()
            };
            let (ahead, beside) = (open(&out), open(&hop.terminal));
            let next = self.hops.get(&hop.item).into_iter().flatten();
            let mut next = next.filter(|next| next.own == out && !used.contains(&next.wire));
            match next.next() {
                Some(only) if ahead == 1 && beside == 0 => {
                    used.insert(only.wire.clone());
                    through.push(
                        self.bank_way(&hop.item, &hop.terminal)
                            .unwrap_or_else(|| whole(&hop.item)),
                    );
                    hop = only;
                }
                _ => {
                    let starts = |own: &str| own == out || own == hop.terminal;
                    let branches = self.from(&hop.item, starts, used, depth);
                    return found(hop, through, branches);
                }
            }
        }
        found(hop, through, Vec::new())
    }

    /// Inlets of a bank that bridges join to this one, itself included.
    fn bridged(&self, bank: &str, first: &str, used: &mut BTreeSet<String>) -> BTreeSet<String> {
        let mut ins = BTreeSet::from([first.to_owned()]);
        for _ in 0..DEEPEST {
            let before = ins.len();
            for hop in self.hops.get(bank).into_iter().flatten() {
                let bridge =
                    hop.item == bank && hop.own.starts_with("in") && hop.terminal.starts_with("in");
                if bridge && ins.contains(&hop.own) {
                    used.insert(hop.wire.clone());
                    ins.insert(hop.terminal.clone());
                }
            }
            if ins.len() == before {
                break;
            }
        }
        ins
    }

    /// The circuits of a bank with several inlets, each behind its way.
    fn bank(
        &self,
        bank: &str,
        ins: &BTreeSet<String>,
        used: &mut BTreeSet<String>,
        depth: usize,
    ) -> Vec<Found> {
        let mut ways: Vec<usize> = ins
            .iter()
            .filter_map(|own| own.strip_prefix("in")?.parse().ok())
            .collect();
        ways.sort_unstable();
        let mut all = Vec::new();
        for way in ways {
            let out = format!("out{way}");
            for mut one in self.from(bank, |own| own == out, used, depth) {
                let step = self.bank_way(bank, &out).unwrap_or_else(|| whole(bank));
                one.through.insert(0, step);
                all.push(one);
            }
        }
        all.extend(self.from(bank, |own| ins.contains(own), used, depth));
        all
    }

    /// Lines that start at an item that is no mere link of the line: all of a
    /// bar or block, else those on the same terminal.
    fn ended(&self, hop: &Hop, used: &mut BTreeSet<String>, depth: usize) -> Vec<Found> {
        let many = matches!(
            kind_of(self.study, &hop.item),
            Kind::BusBar | Kind::FuseBlock | Kind::Splice
        );
        self.from(&hop.item, |own| many || own == hop.terminal, used, depth)
    }

    /// The terminal on the other side of something a line goes through.
    fn way_on(&self, item: &str, terminal: &str) -> Option<String> {
        match kind_of(self.study, item) {
            Kind::Fuse | Kind::Breaker | Kind::Switch | Kind::Shunt => match terminal {
                "in" => Some("out".into()),
                "out" => Some("in".into()),
                _ => None,
            },
            Kind::SwitchBank => match (terminal.strip_prefix("in"), terminal.strip_prefix("out")) {
                (Some(way), _) => Some(format!("out{way}")),
                (_, Some(way)) => Some(format!("in{way}")),
                _ => None,
            },
            _ => None,
        }
    }

    /// The fuse of a way of a block that a line starts at.
    fn fused_way(&self, item: &str, terminal: &str) -> Option<Step> {
        let way = terminal.parse().ok()?;
        let spec = self.study.project.items.get(item).map(|item| &item.spec)?;
        matches!(spec, Spec::FuseBlock(_)).then(|| Step {
            item: item.to_owned(),
            way: Some(way),
        })
    }

    /// A way of a bank, with its fuse where it has one.
    fn bank_way(&self, item: &str, terminal: &str) -> Option<Step> {
        let way = terminal
            .trim_start_matches(|c: char| c.is_ascii_alphabetic())
            .parse()
            .ok()?;
        self.study.assessment.device(item, way).map(|_| Step {
            item: item.to_owned(),
            way: Some(way),
        })
    }
}

/// What a wire leads to.
fn found(hop: &Hop, through: Vec<Step>, branches: Vec<Found>) -> Found {
    Found {
        through,
        wire: hop.wire.clone(),
        end: whole(&hop.item),
        branches,
    }
}

/// An item as a whole.
fn whole(item: &str) -> Step {
    Step {
        item: item.to_owned(),
        way: None,
    }
}

fn is_plus(study: &Study, item: &Id, terminal: &str) -> bool {
    let node = study.assessment.node_of(item.as_str(), terminal);
    let side = node
        .and_then(|node| study.assessment.nodes.get(node))
        .map(|node| node.side);
    match side {
        Some(Side::Plus | Side::Both) => !terminal.ends_with('-'),
        Some(Side::Minus) => false,
        Some(Side::Neither) | None => {
            !terminal.ends_with('-') && kind_of(study, item.as_str()) != Kind::Frame
        }
    }
}
