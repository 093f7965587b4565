//! Schedules: wire list, terminals, legends of the fuses.

use super::Desk;
use crate::circuit::Notes;
use crate::result::{
    Assessment, Legend, LegendWay, RouteStep, Schedules, Side, TerminalEntry, TerminalSchedule,
    WireEnd, WireEntry, WireLabel,
};
use std::collections::BTreeMap;
use wainwright_model::{FieldExt, Id, Item, Kind, Project, Spec, TerminalRef, Wire};
use wainwright_reference::protection::{Family, colour};
use wainwright_units::Current;

/// All schedules of the wiring. Total: what is not known is left open.
pub fn schedules(project: &Project, assessment: &Assessment) -> Schedules {
    let desk = Desk {
        project,
        assessment,
        notes: Notes::new(project),
        circuits: super::circuits::circuits(project, assessment),
    };
    let labels = desk.circuits.labels(project);
    let wires = project.wires.iter();
    Schedules {
        wires: wires
            .filter_map(|(id, wire)| desk.entry(id, wire, &labels))
            .collect(),
        terminals: desk.terminals(),
        legends: desk.legends(),
    }
}

impl Desk<'_> {
    fn entry(
        &self,
        id: &Id,
        fields: &Wire,
        labels: &BTreeMap<Id, (String, bool)>,
    ) -> Option<WireEntry> {
        let (from, to) = (fields.from.value()?, fields.to.value()?);
        let (text, proposed) = labels.get(id)?.clone();
        let computed = self.assessment.wire(id.as_str());
        let length = self.length(id, fields);
        Some(WireEntry {
            wire: id.clone(),
            from: self.end(from, to, &text),
            to: self.end(to, from, &text),
            label: WireLabel { text, proposed },
            side: self.side(id).unwrap_or(Side::Neither),
            size: self.notes.given(&fields.size),
            insulation: computed.map(|wire| wire.insulation.clone()),
            colour: self.colour(id, fields),
            length: length.or_else(|| computed.map(|wire| wire.length.clone())),
            route: self.steps(id),
            supplied: fields.supplied.value() == Some(&true),
        })
    }

    /// One end, with the lines of its label.
    fn end(&self, here: &TerminalRef, there: &TerminalRef, label: &str) -> WireEnd {
        let other = format!("{} {}", self.name(&there.item), there.terminal);
        WireEnd {
            item: here.item.clone(),
            item_label: self.name(&here.item),
            terminal: here.terminal.clone(),
            label_lines: [label.to_owned(), other],
        }
    }

    /// What people call an item.
    fn name(&self, item: &Id) -> String {
        let found = self.project.items.get(item.as_str());
        let label = found.and_then(|found| found.label.value().cloned());
        label.unwrap_or_else(|| item.to_string())
    }

    fn steps(&self, id: &Id) -> Vec<RouteStep> {
        let routing = &self.assessment.routing;
        let route = routing
            .wire(id.as_str())
            .and_then(|wire| wire.route.as_ref());
        let legs = route.into_iter().flat_map(|route| &route.legs);
        legs.map(|leg| {
            let trunk = leg.trunk.as_ref().and_then(|id| routing.trunk(id.as_str()));
            match trunk {
                Some(trunk) => RouteStep::Trunk {
                    id: trunk.id.clone(),
                    label: trunk.label.clone(),
                    behind: trunk.behind.clone(),
                    length: leg.length,
                },
                None => RouteStep::Off { length: leg.length },
            }
        })
        .collect()
    }

    fn terminals(&self) -> Vec<TerminalSchedule> {
        let mut at: BTreeMap<&Id, BTreeMap<&str, Vec<Id>>> = BTreeMap::new();
        for (id, wire) in self.project.wires.iter() {
            for end in [wire.from.value(), wire.to.value()].into_iter().flatten() {
                let item = at.entry(&end.item).or_default();
                item.entry(end.terminal.as_str())
                    .or_default()
                    .push(id.clone());
            }
        }
        let items = self.project.items.iter();
        let schedules = items.filter_map(|(id, item)| {
            let kind = item.spec.kind();
            let numbered = matches!(kind, Kind::BusBar | Kind::FuseBlock | Kind::SwitchBank);
            let mut wires = at.remove(id).unwrap_or_default();
            if wires.is_empty() && !numbered {
                return None;
            }
            let names = item.spec.terminals().into_iter();
            let listed = names.map(|terminal| TerminalEntry {
                wires: wires.remove(terminal.as_str()).unwrap_or_default(),
                terminal,
            });
            let mut terminals: Vec<TerminalEntry> = listed.collect();
            terminals.retain(|entry| numbered || !entry.wires.is_empty());
            terminals.extend(wires.into_iter().map(|(terminal, wires)| TerminalEntry {
                terminal: terminal.to_owned(),
                wires,
            }));
            Some(TerminalSchedule {
                item: id.clone(),
                label: self.name(id),
                kind,
                terminals,
            })
        });
        schedules.collect()
    }

    fn legends(&self) -> Vec<Legend> {
        let mut legends: Vec<Legend> = Vec::new();
        for way in &self.circuits.ways {
            let Some(item) = self.project.items.get(way.block.as_str()) else {
                continue;
            };
            let rating = rating(item, way.way);
            let names: Vec<String> = way.gear.iter().map(|id| self.name(id)).collect();
            let entry = LegendWay {
                way: way.way,
                rating,
                fuse_colour: rating.and_then(|rating| fuse_colour(item, rating)),
                gear: way.gear.clone(),
                circuit: names.join(", "),
                label: format!("{}{}", way.letter, way.way),
            };
            match legends.iter_mut().find(|legend| legend.item == way.block) {
                Some(legend) => legend.ways.push(entry),
                None => legends.push(Legend {
                    item: way.block.clone(),
                    label: self.name(&way.block),
                    letter: way.letter.clone(),
                    ways: vec![entry],
                }),
            }
        }
        legends
    }
}

/// Rating of the fuse of a way.
fn rating(item: &Item, way: u32) -> Option<Current> {
    let fuses = match &item.spec {
        Spec::FuseBlock(block) => block.fuses.value(),
        Spec::SwitchBank(bank) => bank.fuses.value(),
        _ => None,
    };
    let index = usize::try_from(way).ok()?.checked_sub(1)?;
    fuses?.get(index).copied().flatten()
}

fn fuse_colour(item: &Item, rating: Current) -> Option<&'static str> {
    let family = match &item.spec {
        Spec::FuseBlock(block) => block
            .family
            .value()
            .map_or("blade", |family| family.as_str()),
        _ => "blade",
    };
    colour(Family::from_id(family)?, rating).map(|found| found.value)
}
