//! Items of the project as consumers, devices, contacts and fixed resistances.

mod charging;
mod protection;
mod storage;
mod taking;

use super::{Branch, Consumer, Contact, Demand, Device, Fixed, NodeTable, Notes, Part};
use crate::result::{Role, Wanted};
use wainwright_model::{FieldExt, Id, Item, Project, Spec};
use wainwright_units::Voltage;

/// Everything the items bring to the circuit.
#[derive(Default)]
pub(crate) struct Gear {
    pub(crate) consumers: Vec<Consumer>,
    pub(crate) devices: Vec<Device>,
    pub(crate) contacts: Vec<Contact>,
    pub(crate) fixed: Vec<Fixed>,
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

/// Lowers batteries and everything that only conducts.
pub(super) fn add_conducting(
    project: &Project,
    nodes: &mut NodeTable,
    gear: &mut Gear,
    notes: &mut Notes,
) {
    for (id, item) in project.items.iter().filter(|(_, item)| conducts(item)) {
        add_one(&mut Lowering {
            id,
            item,
            nodes,
            gear,
            notes,
            volts: None,
        });
    }
}

/// Lowers all other gear, and brings what gives and takes into file order.
pub(super) fn add_rest(
    project: &Project,
    nodes: &mut NodeTable,
    gear: &mut Gear,
    notes: &mut Notes,
    volts: Option<Voltage>,
) {
    protection::rate(gear, notes, volts);
    for (id, item) in project.items.iter().filter(|(_, item)| !conducts(item)) {
        add_one(&mut Lowering {
            id,
            item,
            nodes,
            gear,
            notes,
            volts,
        });
    }
    gear.consumers
        .sort_by_key(|c| project.items.position(c.item.as_str()));
    let consumers = gear.consumers.iter().enumerate();
    gear.branches.extend(consumers.map(|(index, c)| Branch {
        from: c.nodes.0,
        to: c.nodes.1,
        part: Part::Consumer(index),
    }));
}

/// Batteries, and what the current only passes through.
fn conducts(item: &Item) -> bool {
    matches!(
        item.spec,
        Spec::Battery(_)
            | Spec::Fuse(_)
            | Spec::Breaker(_)
            | Spec::FuseBlock(_)
            | Spec::Switch(_)
            | Spec::SwitchBank(_)
            | Spec::Shunt(_)
    )
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
        Spec::BusBar(_)
        | Spec::Frame(_)
        | Spec::Splice(_)
        | Spec::Tank(_)
        | Spec::Furniture(_)
        | Spec::Cargo(_)
        | Spec::Person(_) => {}
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
}
