//! What the settings study needs of the wiring: ways between devices and the bank, what is drawn, modules in series.
//! Not here: settings.

use crate::circuit::{Bank, Circuit, Demand, Part};
use crate::known::Known;
use crate::study::Graph;
use wainwright_model::Id;
use wainwright_units::{Charge, Current, Ratio, Resistance, Voltage};

/// The wiring as far as settings care.
pub(super) struct Facts {
    /// Nominal voltage of the bank.
    pub(super) nominal: Option<Voltage>,
    /// Strings of batteries side by side.
    pub(super) strings: usize,
    /// Charge of them all, where every battery has one.
    pub(super) capacity: Option<Charge>,
    /// Way out and back between a device's terminals and the bank's, by item.
    pub(super) ways: Vec<(Id, Resistance)>,
    /// Tow vehicles whose charge line goes straight to the bank.
    pub(super) direct: Vec<Id>,
    /// Modules in series, for each controller.
    pub(super) modules: Vec<ModuleString>,
    /// What all loads but inverters draw at nominal voltage.
    pub(super) drawn: Current,
    /// What each inverter draws at nominal voltage with its lasting load.
    pub(super) inverters: Vec<(Id, Current)>,
    /// Share of the voltage that may be lost on the way to gear that must not fail.
    pub(super) critical_drop: Ratio,
}

/// Modules in series on a controller.
pub(super) struct ModuleString {
    pub(super) controller: Id,
    pub(super) modules: Vec<Id>,
    /// Voltage without load at 25 °C.
    pub(super) open: Voltage,
}

impl Facts {
    pub(super) fn of(circuit: &Circuit, capacity: Option<Charge>) -> Self {
        let nominal = circuit.system_volts.as_ref().map(|known| known.value);
        Self {
            nominal,
            strings: circuit.banks.len().max(1),
            capacity,
            ways: circuit
                .banks
                .first()
                .map_or_else(Vec::new, |bank| Ways::new(circuit, bank).all()),
            direct: direct(circuit),
            modules: modules(circuit),
            drawn: nominal.map_or(Current::ZERO, |volts| drawn(circuit, volts)),
            inverters: nominal.map_or_else(Vec::new, |volts| inverters(circuit, volts)),
            critical_drop: circuit.limits.drop_critical.value,
        }
    }

    /// Way of a device to the bank, if wires join them.
    pub(super) fn way(&self, item: &Id) -> Option<Known<Resistance>> {
        let found = self.ways.iter().find(|(known, _)| known == item);
        found.map(|(_, ohms)| Known::computed(*ohms))
    }
}

/// Ways through the conductors, as resistances at 20 °C.
struct Ways<'a> {
    circuit: &'a Circuit,
    bank: &'a Bank,
    graph: Graph,
}

impl<'a> Ways<'a> {
    fn new(circuit: &'a Circuit, bank: &'a Bank) -> Self {
        Self {
            circuit,
            bank,
            graph: Graph::new(circuit),
        }
    }

    fn all(&self) -> Vec<(Id, Resistance)> {
        let wanted = |demand: Demand| {
            matches!(
                demand,
                Demand::Charger { .. } | Demand::Supply { .. } | Demand::Inverter { .. }
            )
        };
        let gear = self.circuit.consumers.iter();
        let mut found: Vec<_> = gear
            .filter(|consumer| wanted(consumer.demand))
            .filter_map(|consumer| {
                let there = self.between(self.bank.plus, consumer.nodes.0)?;
                let back = self.between(self.bank.minus, consumer.nodes.1)?;
                Some((consumer.item.clone(), there + back))
            })
            .collect();
        found.extend(self.contacts());
        found
    }

    /// Contacts; the way back is taken to be as long as the way there.
    fn contacts(&self) -> Vec<(Id, Resistance)> {
        let branches = self.circuit.branches.iter();
        let contacts = branches.filter_map(|branch| match branch.part {
            Part::Contact(index) => Some((branch, self.circuit.contacts.get(index)?)),
            _ => None,
        });
        contacts
            .filter_map(|(branch, contact)| {
                let ends = [branch.from, branch.to];
                let ways = ends.map(|end| self.between(self.bank.plus, end));
                let there = ways.into_iter().flatten().reduce(Resistance::min)?;
                Some((contact.item.clone(), there * 2.0))
            })
            .collect()
    }

    fn between(&self, from: usize, to: usize) -> Option<Resistance> {
        if from == to {
            return Some(Resistance::ZERO);
        }
        let way = self.graph.way(from, to)?;
        let parts = way.into_iter().map(|(branch, _, _)| self.ohms(branch));
        Some(parts.sum())
    }

    fn ohms(&self, branch: usize) -> Resistance {
        let circuit = self.circuit;
        let part = circuit.branches.get(branch).map(|branch| branch.part);
        let found = match part {
            Some(Part::Wire(index)) => circuit
                .wires
                .get(index)
                .map(|wire| wire.resistance_20 + wire.joint_from.value + wire.joint_to.value),
            Some(Part::Device(index)) => circuit
                .devices
                .get(index)
                .map(|found| found.resistance.value),
            Some(Part::Contact(index)) => circuit
                .contacts
                .get(index)
                .map(|found| found.resistance.value),
            Some(Part::Fixed(index)) => circuit.fixed.get(index).map(|found| found.branch),
            Some(Part::Consumer(_)) | None => None,
        };
        found.unwrap_or(Resistance::ZERO)
    }
}

fn direct(circuit: &Circuit) -> Vec<Id> {
    let Some(bank) = circuit.banks.first() else {
        return Vec::new();
    };
    let supplies = circuit.consumers.iter().filter(|consumer| {
        let straight = circuit.joined(consumer.nodes.0, bank.plus)
            && circuit.joined(consumer.nodes.1, bank.minus);
        matches!(consumer.demand, Demand::Supply { .. }) && straight
    });
    supplies.map(|supply| supply.item.clone()).collect()
}

/// For each controller the string with the highest voltage.
fn modules(circuit: &Circuit) -> Vec<ModuleString> {
    let inputs = circuit
        .consumers
        .iter()
        .filter(|consumer| matches!(consumer.demand, Demand::ModuleInput));
    inputs
        .filter_map(|input| {
            let strings = circuit.module_strings.iter();
            let here = strings.filter(|string| circuit.joined(string.plus, input.nodes.0));
            let found = here.map(|string| ModuleString {
                controller: input.item.clone(),
                modules: members(circuit, string).map(|(id, _)| id.clone()).collect(),
                open: members(circuit, string).map(|(_, open)| open).sum(),
            });
            found.reduce(|best, one| if one.open > best.open { one } else { best })
        })
        .collect()
}

fn members<'a>(
    circuit: &'a Circuit,
    string: &'a Bank,
) -> impl Iterator<Item = (&'a Id, Voltage)> + 'a {
    string.members.iter().filter_map(|member| {
        let module = circuit.consumers.get(*member)?;
        match module.demand {
            Demand::Module { open, .. } => Some((&module.item, open)),
            _ => None,
        }
    })
}

fn drawn(circuit: &Circuit, volts: Voltage) -> Current {
    let one = |demand: Demand| match demand {
        Demand::Current(amps) => amps,
        Demand::Power(power) => power / volts,
        Demand::Resistance(ohms) => volts / ohms,
        _ => Current::ZERO,
    };
    circuit
        .consumers
        .iter()
        .map(|consumer| one(consumer.demand))
        .sum()
}

fn inverters(circuit: &Circuit, volts: Voltage) -> Vec<(Id, Current)> {
    let one = |demand: Demand| match demand {
        Demand::Inverter {
            load, efficiency, ..
        } => Some((load * (1.0 / efficiency.fraction())) / volts),
        _ => None,
    };
    let gear = circuit.consumers.iter();
    gear.filter_map(|consumer| Some((consumer.item.clone(), one(consumer.demand)?)))
        .filter(|(_, amps)| *amps > Current::ZERO)
        .collect()
}
