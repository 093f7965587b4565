//! What the project has already: gear by kind, which terminals have wires,
//! and where a way that was begun ends. Not here: what is added.

use super::draft::End;
use std::collections::{BTreeMap, BTreeSet};
use wainwright_analysis::result::Assessment;
use wainwright_model::{FieldExt, Item, Kind, Project, Region, Spec};

/// The project as the planner sees it.
pub(super) struct Survey<'a> {
    pub(super) project: &'a Project,
    pub(super) assessment: &'a Assessment,
    at: BTreeMap<End, Vec<usize>>,
    ends: Vec<(End, End)>,
}

/// Where a way that starts at a battery ends.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum Reached {
    /// At a terminal without a further wire.
    Loose(End),
    /// At a bar of studs.
    Bar(String),
    /// At a terminal where several wires or gear meet.
    Stud(End),
}

/// A way from a battery and what lies on it.
#[derive(Debug, Clone)]
pub(super) struct Walk {
    pub(super) reached: Reached,
    /// Fuse or breaker on the way.
    pub(super) fuse: Option<String>,
    /// Whether a switch is on the way.
    pub(super) switch: bool,
    /// Whether a shunt is on the way.
    pub(super) shunt: bool,
}

/// Most steps along a way; no project holds more elements in a row.
const MOST_STEPS: usize = 1000;

impl<'a> Survey<'a> {
    /// Looks at a project.
    pub(super) fn new(project: &'a Project, assessment: &'a Assessment) -> Self {
        let mut at: BTreeMap<End, Vec<usize>> = BTreeMap::new();
        let mut ends = Vec::new();
        for (_, wire) in project.wires.iter() {
            let (Some(from), Some(to)) = (wire.from.value(), wire.to.value()) else {
                continue;
            };
            let pair = [from, to].map(|end| (end.item.to_string(), end.terminal.clone()));
            for end in &pair {
                at.entry(end.clone()).or_default().push(ends.len());
            }
            let [from, to] = pair;
            ends.push((from, to));
        }
        Self {
            project,
            assessment,
            at,
            ends,
        }
    }

    /// Items of a kind, in the order of the file.
    pub(super) fn of(&self, kind: Kind) -> Vec<(&'a str, &'a Item)> {
        let items = self.project.items.iter();
        items
            .filter(|(_, item)| item.spec.kind() == kind)
            .map(|(id, item)| (id.as_str(), item))
            .collect()
    }

    /// Whether nothing is joined to a terminal.
    pub(super) fn is_loose(&self, item: &str, terminal: &str) -> bool {
        !self.at.contains_key(&super::draft::end(item, terminal))
    }

    /// Whether no wire ends at this item.
    pub(super) fn is_untouched(&self, item: &str) -> bool {
        !self.at.keys().any(|(id, _)| id == item)
    }

    /// Wires at a terminal.
    pub(super) fn count(&self, item: &str, terminal: &str) -> usize {
        self.wires_at(&super::draft::end(item, terminal)).len()
    }

    /// The rule profile.
    pub(super) fn region(&self) -> Region {
        crate::view::limits::region(self.project)
    }

    /// What people call an item.
    pub(super) fn label(&self, id: &str) -> String {
        let item = self.project.items.get(id);
        item.and_then(|item| item.label.value())
            .cloned()
            .unwrap_or_else(|| id.to_string())
    }

    /// Words of an item's id and label, in small letters.
    pub(super) fn tokens(&self, id: &str) -> BTreeSet<String> {
        tokens(&format!("{id} {}", self.label(id)))
    }

    /// Current that gear is rated for \[A\].
    pub(super) fn amps(&self, id: &str, plus: &str) -> Option<f64> {
        let gear = self.assessment.consumers.iter();
        gear.filter(|c| c.item.as_str() == id && c.plus == plus)
            .find_map(|c| c.rated_amps)
            .map(wainwright_units::Current::amperes)
    }

    /// Whether two terminals are joined by one wire.
    pub(super) fn joins(&self, one: &End, other: &End) -> bool {
        self.ends
            .iter()
            .any(|(a, b)| (a == one && b == other) || (a == other && b == one))
    }

    /// Where gear wants its feed: its plus terminal, or the inlet of the
    /// switch or fuse that is wired before it and not fed.
    pub(super) fn inlet(&self, id: &str, plus: &str) -> End {
        let mut here = super::draft::end(id, plus);
        for _ in 0..MOST_STEPS {
            let [wire] = self.wires_at(&here) else { break };
            let Some((item, terminal)) = self.far(*wire, &here) else {
                break;
            };
            let before = match self.kind(&item) {
                Kind::Switch | Kind::Fuse | Kind::Breaker => match terminal.as_str() {
                    "out" => Some("in".to_string()),
                    _ => None,
                },
                Kind::SwitchBank => terminal.strip_prefix("out").map(|way| format!("in{way}")),
                _ => None,
            };
            match before {
                Some(before) => here = (item, before),
                None => break,
            }
        }
        here
    }

    /// Bars with wires that no battery is joined to, on this side: more plus
    /// or more minus terminals of gear hang on them.
    pub(super) fn loose_bars(&self, plus: bool) -> Vec<String> {
        let bars = self
            .of(Kind::BusBar)
            .into_iter()
            .map(|(id, _)| id.to_string());
        bars.filter(|id| !self.is_untouched(id))
            .filter(|id| {
                let studs = self.at.keys().filter(|(item, _)| item == id).cloned();
                let reached = self.reach(studs.collect());
                let battery = |end: &End| self.kind(&end.0) == Kind::Battery;
                let sign = |sign: char| reached.iter().filter(|end| end.1.ends_with(sign)).count();
                !reached.iter().any(battery)
                    && match plus {
                        true => sign('+') > sign('-'),
                        false => sign('-') > sign('+'),
                    }
            })
            .collect()
    }

    /// All terminals that conductors, bars, fuses, switches and shunts join
    /// to these.
    fn reach(&self, start: Vec<End>) -> BTreeSet<End> {
        let mut open = start;
        let mut seen: BTreeSet<End> = BTreeSet::new();
        while let Some(here) = open.pop() {
            if !seen.insert(here.clone()) {
                continue;
            }
            let (item, terminal) = &here;
            let inside = |other: &str| super::draft::end(item, other);
            match (self.kind(item), terminal.as_str()) {
                (Kind::Fuse | Kind::Breaker | Kind::Switch | Kind::Shunt, "in") => {
                    open.push(inside("out"));
                }
                (Kind::Fuse | Kind::Breaker | Kind::Switch | Kind::Shunt, _) => {
                    open.push(inside("in"));
                }
                (Kind::SwitchBank, _) => {
                    let other = terminal
                        .strip_prefix("in")
                        .map(|way| format!("out{way}"))
                        .or(terminal.strip_prefix("out").map(|way| format!("in{way}")));
                    open.extend(other.map(|other| inside(&other)));
                }
                (Kind::BusBar | Kind::FuseBlock | Kind::Splice, _) => {
                    open.extend(self.at.keys().filter(|end| end.0 == *item).cloned());
                }
                _ => {}
            }
            let wires = self.wires_at(&here).iter();
            open.extend(wires.filter_map(|wire| self.far(*wire, &here)));
        }
        seen
    }

    /// The bar of studs that conductors, fuses, switches and shunts join to
    /// a terminal.
    pub(super) fn bar_from(&self, start: End) -> Option<String> {
        let mut open = vec![start];
        let mut seen: BTreeSet<End> = BTreeSet::new();
        while let Some(here) = open.pop() {
            if !seen.insert(here.clone()) {
                continue;
            }
            let kind = self.kind(&here.0);
            match kind {
                Kind::BusBar => return Some(here.0),
                Kind::Fuse | Kind::Breaker | Kind::Switch | Kind::Shunt => {
                    let other = if here.1 == "in" { "out" } else { "in" };
                    open.push(super::draft::end(&here.0, other));
                }
                _ => {}
            }
            let wires = self.wires_at(&here).iter();
            open.extend(wires.filter_map(|wire| self.far(*wire, &here)));
        }
        None
    }

    /// Follows the single way from a terminal through fuses, switches and
    /// shunts to where it branches or ends.
    pub(super) fn walk(&self, start: End) -> Walk {
        let mut walk = Walk {
            reached: Reached::Loose(start.clone()),
            fuse: None,
            switch: false,
            shunt: false,
        };
        let mut here = start;
        for _ in 0..MOST_STEPS {
            let wire = match self.wires_at(&here) {
                [] => {
                    walk.reached = Reached::Loose(here);
                    break;
                }
                [only] => *only,
                _ => {
                    walk.reached = Reached::Stud(here);
                    break;
                }
            };
            let Some(there) = self.far(wire, &here) else {
                break;
            };
            match self.through(&there, &mut walk) {
                Some(next) if self.wires_at(&there).len() == 1 => here = next,
                _ => {
                    walk.reached = match self.kind(&there.0) {
                        Kind::BusBar => Reached::Bar(there.0),
                        _ => Reached::Stud(there),
                    };
                    break;
                }
            }
        }
        walk
    }

    /// The other side of what only passes current on.
    fn through(&self, at: &End, walk: &mut Walk) -> Option<End> {
        match self.kind(&at.0) {
            Kind::Fuse | Kind::Breaker => walk.fuse = Some(at.0.clone()),
            Kind::Switch => walk.switch = true,
            Kind::Shunt => walk.shunt = true,
            _ => return None,
        }
        let other = if at.1 == "in" { "out" } else { "in" };
        Some(super::draft::end(&at.0, other))
    }

    fn far(&self, wire: usize, near: &End) -> Option<End> {
        let (from, to) = self.ends.get(wire)?;
        Some(if from == near {
            to.clone()
        } else {
            from.clone()
        })
    }

    fn wires_at(&self, end: &End) -> &[usize] {
        self.at.get(end).map_or(&[], Vec::as_slice)
    }

    /// The kind of an item.
    pub(super) fn kind(&self, id: &str) -> Kind {
        crate::view::limits::kind(self.project, id)
    }

    /// Rating of a fuse or breaker of the file \[A\].
    pub(super) fn rating(&self, id: &str) -> Option<f64> {
        let rating = match &self.project.items.get(id)?.spec {
            Spec::Fuse(fuse) => fuse.rating.value(),
            Spec::Breaker(breaker) => breaker.rating.value(),
            _ => None,
        };
        rating.map(|amps| amps.amperes())
    }
}

/// Words in small letters, split at everything that is no letter or digit.
pub(super) fn tokens(text: &str) -> BTreeSet<String> {
    text.to_lowercase()
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .map(str::to_string)
        .collect()
}
