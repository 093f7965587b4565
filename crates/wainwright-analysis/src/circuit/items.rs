//! Items of the project as consumers, devices, contacts and fixed resistances.

mod charging;
mod protection;
mod storage;
mod taking;

use super::{Branch, Consumer, Contact, Demand, Device, NodeTable, Notes, Part};
use crate::known::{Basis, Known};
use crate::result::{Role, Wanted};
use wainwright_model::{FieldExt, Id, Item, Project, Spec};
use wainwright_units::{Resistance, Voltage};

/// Everything the items bring to the circuit.
#[derive(Default)]
pub(crate) struct Gear {
    pub(crate) consumers: Vec<Consumer>,
    pub(crate) devices: Vec<Device>,
    pub(crate) contacts: Vec<Contact>,
    pub(crate) branches: Vec<Branch>,
}

/// One item being lowered.
pub(super) struct Lowering<'a> {
    pub(super) id: &'a Id,
    pub(super) item: &'a Item,
    pub(super) nodes: &'a mut NodeTable,
    pub(super) gear: &'a mut Gear,
    pub(super) notes: &'a mut Notes,
    pub(super) volts: Option<Voltage>,
}

/// Lowers every item. Batteries come first, because the rest of the gear
/// takes its stand-in voltages from them.
pub(super) fn add_all(
    project: &Project,
    nodes: &mut NodeTable,
    gear: &mut Gear,
    notes: &mut Notes,
) {
    let batteries = |spec: &Spec| matches!(spec, Spec::Battery(_));
    for first in [true, false] {
        for (id, item) in project
            .items
            .iter()
            .filter(|(_, i)| batteries(&i.spec) == first)
        {
            let volts = system_volts(gear).map(|known| known.value);
            add_one(&mut Lowering {
                id,
                item,
                nodes,
                gear,
                notes,
                volts,
            });
        }
    }
    gear.consumers
        .sort_by_key(|c| project.items.position(c.item.as_str()));
    let mut next = 0;
    for branch in &mut gear.branches {
        if let Part::Consumer(index) = &mut branch.part {
            *index = usize::MAX;
        }
    }
    gear.branches
        .retain(|b| b.part != Part::Consumer(usize::MAX));
    for consumer in &gear.consumers {
        let (from, to) = consumer.nodes;
        gear.branches.push(Branch {
            from,
            to,
            part: Part::Consumer(next),
        });
        next += 1;
    }
}

/// Nominal system voltage: that of the first battery.
pub(super) fn system_volts(gear: &Gear) -> Option<Known<Voltage>> {
    gear.consumers.iter().find_map(|c| match c.demand {
        Demand::Battery { nominal, .. } => Some(Known::new(nominal, Basis::Computed)),
        _ => None,
    })
}

fn add_one(lowering: &mut Lowering<'_>) {
    match &lowering.item.spec {
        Spec::Battery(spec) => storage::battery(lowering, spec),
        Spec::VehicleSupply(spec) => storage::vehicle_supply(lowering, spec),
        Spec::SolarModule(spec) => charging::module(lowering, spec),
        Spec::SolarController(spec) => charging::controller(lowering, spec),
        Spec::ShoreCharger(spec) => charging::shore(lowering, spec),
        Spec::DcdcCharger(spec) => charging::dcdc(lowering, spec),
        Spec::Inverter(spec) => taking::inverter(lowering, spec),
        Spec::Load(spec) => taking::load(lowering, spec),
        Spec::Outlet(spec) => taking::outlet(lowering, spec),
        Spec::Fuse(spec) => protection::fuse(lowering, spec),
        Spec::Breaker(spec) => protection::breaker(lowering, spec),
        Spec::FuseBlock(spec) => protection::block(lowering, spec),
        Spec::Switch(spec) => protection::switch(lowering, spec),
        Spec::SwitchBank(spec) => protection::bank(lowering, spec),
        Spec::Shunt(spec) => protection::shunt(lowering, spec),
        Spec::BusBar(_) | Spec::Frame(_) | Spec::Splice(_) => {}
        Spec::Unknown => {
            let id = lowering.id.as_str();
            lowering.notes.lack(&["item", id, "kind"], Wanted::Kind);
        }
    }
}

impl Lowering<'_> {
    /// What people call the item.
    pub(super) fn label(&self) -> String {
        self.item
            .label
            .value()
            .cloned()
            .unwrap_or_else(|| self.id.to_string())
    }

    /// Path of one of the item's fields.
    pub(super) fn path<'f>(&'f self, field: &'f str) -> [&'f str; 3] {
        ["item", self.id.as_str(), field]
    }

    /// Node of one of the item's terminals.
    pub(super) fn node(&mut self, terminal: &str) -> usize {
        self.nodes.add(self.id, terminal.to_owned())
    }

    /// Adds a branch of this gear.
    pub(super) fn branch(&mut self, from: usize, to: usize, part: Part) {
        self.gear.branches.push(Branch { from, to, part });
    }

    /// Adds a consumer across a pair of terminals, with the usual marks.
    pub(super) fn consumer(
        &mut self,
        pair: (&str, &str),
        role: Role,
        demand: Demand,
    ) -> Option<&mut Consumer> {
        let nodes = (self.node(pair.0), self.node(pair.1));
        self.gear.consumers.push(Consumer {
            item: self.id.clone(),
            label: self.label(),
            role,
            plus: pair.0.to_owned(),
            minus: pair.1.to_owned(),
            nodes,
            demand,
            critical: false,
            continuous: false,
            lowest: None,
            surge: None,
        });
        self.gear.consumers.last_mut()
    }

    /// Adds a resistance that never changes.
    pub(super) fn fixed(&mut self, from: &str, to: &str, resistance: Resistance) {
        let (from, to) = (self.node(from), self.node(to));
        self.branch(from, to, Part::Fixed(resistance));
    }
}
