//! The circuit: the project's wiring as nodes and branches, with every value
//! known or stood in for. Not here: solving (see [`crate::study`]), results
//! (see [`crate::result`]), judgement.

mod banks;
mod bare;
mod defaults;
mod items;
mod nodes;
mod notes;
mod sides;
mod surround;
mod wires;

pub(crate) use banks::Bank;
pub(crate) use bare::{Laid, bare_wire, exchanged, joint_limits};
pub(crate) use defaults::{
    WEAKEST_INSULATION, at_least_contact, is_large, summer_air, worst_joint,
};
pub(crate) use nodes::NodeTable;
pub(crate) use notes::Notes;
pub(crate) use surround::{USUAL_COVER, outside, run_of};

/// Usual voltage a pack of this chemistry is charged to.
pub(crate) fn usual_charge_voltage(chemistry: &str, cells: u32) -> Voltage {
    let usual = defaults::chemistry(chemistry);
    defaults::charge_voltage(Some(usual.resting * f64::from(cells)))
}

/// Usual resistance of a pack of this chemistry.
pub(crate) fn usual_pack_resistance(chemistry: &str, cells: u32, capacity: Charge) -> Resistance {
    defaults::chemistry(chemistry).pack_resistance(f64::from(cells), capacity)
}

/// Usual efficiency of a charger fed from direct current.
pub(crate) const fn usual_dcdc_efficiency() -> Ratio {
    defaults::gear::DCDC_EFFICIENCY
}

use crate::known::Known;
use crate::result::{Limits, Reclose, Role, Routing, Run, Side};
use wainwright_engines::conductor_heat::{Build, Surroundings};
use wainwright_engines::protection::OpeningCurve;
use wainwright_model::{Id, Project};
use wainwright_units::{
    Charge, CrossSection, Current, Length, Power, Ratio, Resistance, Temperature, Voltage, WireSize,
};

/// A project lowered to nodes and branches.
pub(crate) struct Circuit {
    pub(crate) nodes: NodeTable,
    pub(crate) sides: Vec<Side>,
    pub(crate) branches: Vec<Branch>,
    pub(crate) wires: Vec<Wire>,
    pub(crate) devices: Vec<Device>,
    pub(crate) contacts: Vec<Contact>,
    pub(crate) fixed: Vec<Fixed>,
    pub(crate) consumers: Vec<Consumer>,
    /// Batteries in series, each string once.
    pub(crate) banks: Vec<Bank>,
    /// Solar modules in series, each string once.
    pub(crate) module_strings: Vec<Bank>,
    /// Per consumer: a source joined the wrong way round.
    pub(crate) backwards: Vec<bool>,
    /// Per node: a number shared by all nodes that conductors join.
    pub(crate) islands: Vec<usize>,
    pub(crate) limits: Limits,
    pub(crate) routing: Routing,
    pub(crate) system_volts: Option<Known<Voltage>>,
    pub(crate) notes: Notes,
}

/// One branch between two nodes.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Branch {
    pub(crate) from: usize,
    pub(crate) to: usize,
    pub(crate) part: Part,
}

/// What a branch is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Part {
    Wire(usize),
    Device(usize),
    Contact(usize),
    Fixed(usize),
    Consumer(usize),
}

/// A conductor with everything the engines need.
#[derive(Debug, Clone)]
pub(crate) struct Wire {
    pub(crate) id: Id,
    pub(crate) label: String,
    pub(crate) from: (Id, String),
    pub(crate) to: (Id, String),
    pub(crate) from_node: usize,
    pub(crate) to_node: usize,
    pub(crate) supplied: bool,
    pub(crate) size: Known<WireSize>,
    pub(crate) metal: CrossSection,
    pub(crate) length: Known<Length>,
    pub(crate) insulation: Known<String>,
    pub(crate) limit: Temperature,
    pub(crate) short_limit: Temperature,
    pub(crate) volts_rating: Voltage,
    pub(crate) pvc: bool,
    pub(crate) run: Known<Run>,
    pub(crate) bundle: Known<u32>,
    pub(crate) sheathed: bool,
    pub(crate) air: Known<Temperature>,
    pub(crate) build: Build,
    pub(crate) surroundings: Surroundings,
    pub(crate) resistance_20: Resistance,
    pub(crate) joint_from: Known<Resistance>,
    pub(crate) joint_to: Known<Resistance>,
}

/// A fuse or breaker.
#[derive(Debug, Clone)]
pub(crate) struct Device {
    pub(crate) item: Id,
    pub(crate) way: usize,
    pub(crate) label: String,
    pub(crate) family: String,
    pub(crate) rating: Known<Current>,
    pub(crate) volts_rating: Option<Known<Voltage>>,
    pub(crate) interrupt: Option<Known<Current>>,
    pub(crate) reclose: Reclose,
    pub(crate) resistance: Known<Resistance>,
    /// Air round it, when it is in a cabinet whose air is known.
    pub(crate) air: Option<Known<Temperature>>,
    pub(crate) curve: OpeningCurve,
    pub(crate) nodes: (usize, usize),
    pub(crate) rating_path: Vec<String>,
}

/// The contact of a switch.
#[derive(Debug, Clone)]
pub(crate) struct Contact {
    pub(crate) item: Id,
    pub(crate) way: usize,
    pub(crate) resistance: Known<Resistance>,
    pub(crate) closed: bool,
}

/// What only resists: a shunt, or half a splice or frame.
#[derive(Debug, Clone)]
pub(crate) struct Fixed {
    pub(crate) item: Id,
    /// Of this branch.
    pub(crate) branch: Resistance,
    /// Of the whole thing, between any two of its terminals.
    pub(crate) whole: Known<Resistance>,
    /// Whether it is a joint that is judged by its heat: a splice. A shunt is
    /// made to be warm, and a frame is no one place.
    pub(crate) joint: bool,
}

/// Gear that gives or takes.
#[derive(Debug, Clone)]
pub(crate) struct Consumer {
    pub(crate) item: Id,
    pub(crate) label: String,
    pub(crate) role: Role,
    pub(crate) plus: String,
    pub(crate) minus: String,
    pub(crate) nodes: (usize, usize),
    pub(crate) demand: Demand,
    pub(crate) critical: bool,
    pub(crate) continuous: bool,
    pub(crate) lowest: Option<Voltage>,
    pub(crate) surge: Option<Current>,
}

/// What a piece of gear does to the network.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) enum Demand {
    Battery {
        nominal: Voltage,
        full: Voltage,
        resting: Voltage,
        low: Voltage,
        resistance: Resistance,
        weakest: Resistance,
        capacity: Charge,
    },
    Charger {
        limit: Voltage,
        most: Current,
    },
    Supply {
        emf: Voltage,
        resistance: Resistance,
        most: Option<Current>,
    },
    Module {
        open: Voltage,
        short: Current,
        best_volts: Voltage,
        best_amps: Current,
    },
    ModuleInput,
    ChargerInput {
        power: Power,
    },
    Power(Power),
    Current(Current),
    Resistance(Resistance),
    Inverter {
        load: Power,
        surge: Power,
        /// Taken without anything plugged in.
        idle: Power,
        efficiency: Ratio,
        cutoff: Voltage,
    },
}

impl Circuit {
    /// Whether a source can push more than its rated current for long.
    pub(crate) fn overloads(&self, source: &Id) -> bool {
        let limited = |c: &&Consumer| {
            c.item == *source && c.demand.is_source() && c.demand.self_limit().is_none()
        };
        self.consumers.iter().any(|c| limited(&c))
    }

    /// Branch of the first wire; the others follow in their order.
    pub(crate) fn first_wire(&self) -> usize {
        self.branches.len() - self.wires.len()
    }

    /// Sources that current returns to through conductors of their own:
    /// strings of batteries, of modules, and supplies.
    pub(crate) fn strings(&self) -> impl Iterator<Item = Bank> + '_ {
        let supplies = self.single(|demand| matches!(demand, Demand::Supply { .. }));
        let strings = self.banks.iter().chain(&self.module_strings);
        strings.cloned().chain(supplies)
    }

    /// Sources of one kind, each a string of its own.
    pub(crate) fn single(&self, kind: fn(Demand) -> bool) -> impl Iterator<Item = Bank> + '_ {
        let consumers = self.consumers.iter().enumerate();
        let wanted = consumers.filter(move |(_, consumer)| kind(consumer.demand));
        wanted.map(|(index, consumer)| Bank {
            members: vec![index],
            plus: consumer.nodes.0,
            minus: consumer.nodes.1,
        })
    }

    /// Whether conductors join two nodes, gear left out.
    pub(crate) fn joined(&self, one: usize, other: usize) -> bool {
        self.islands
            .get(one)
            .is_some_and(|island| self.islands.get(other) == Some(island))
    }
}

impl Demand {
    /// Whether this demand feeds the network.
    pub(crate) fn is_source(self) -> bool {
        matches!(
            self,
            Self::Battery { .. } | Self::Charger { .. } | Self::Supply { .. } | Self::Module { .. }
        )
    }

    /// Most the source pushes for long, where it limits itself.
    pub(crate) fn self_limit(self) -> Option<Current> {
        match self {
            Self::Charger { most, .. } => Some(most),
            Self::Module { short, .. } => Some(short),
            Self::Supply { most, .. } => most,
            _ => None,
        }
    }
}

/// Lowers a project. Total: whatever is missing is noted and left out.
pub(crate) fn lower(project: &Project) -> Circuit {
    let mut notes = Notes::new(project);
    let limits = defaults::limits(project, &mut notes);
    let mut routing = crate::route::all(project, &mut notes);
    let mut nodes = NodeTable::new(project);
    let mut gear = items::Gear::default();
    // Conductors first: batteries in series decide the system voltage, which
    // stand-ins of the other gear depend on.
    let cabinets = crate::cabinets::airs(project, &limits.summer_air);
    let mut ground = surround::Ground::new(&limits, &cabinets, &mut routing);
    let wires = wires::add_all(project, &mut nodes, &mut gear, &mut ground, &mut notes);
    items::add_conducting(project, &mut nodes, &mut gear, &mut notes);
    let islands = sides::islands(nodes.len(), &conductors(&gear, &wires));
    let banks = banks::batteries(&gear.consumers, &islands);
    let system_volts = system_volts(&banks, &gear.consumers);
    let volts = system_volts.as_ref().map(|known| known.value);
    items::add_rest(project, &mut nodes, &mut gear, &mut notes, volts);
    for device in &mut gear.devices {
        device.air = cabinets.get(&device.item).map(|round| round.air.clone());
    }
    notes.in_file_order(project);
    let branches = conductors(&gear, &wires);
    let banks = banks::batteries(&gear.consumers, &islands);
    let backwards = sides::backwards(&gear.consumers, &islands, &banks);
    Circuit {
        system_volts,
        sides: sides::sides(&islands, &gear.consumers, &backwards),
        module_strings: banks::modules(&gear.consumers, &islands),
        banks,
        backwards,
        nodes,
        islands,
        branches,
        wires,
        devices: gear.devices,
        contacts: gear.contacts,
        fixed: gear.fixed,
        consumers: gear.consumers,
        limits,
        routing,
        notes,
    }
}

/// Nominal system voltage: that of the first string of batteries.
fn system_volts(banks: &[Bank], consumers: &[Consumer]) -> Option<Known<Voltage>> {
    let first = banks.first()?;
    Some(Known::computed(first.nominal(consumers)))
}

/// Branches of the gear, then those of the wires.
fn conductors(gear: &items::Gear, wires: &[Wire]) -> Vec<Branch> {
    let wire_branches = wires.iter().enumerate().map(|(index, wire)| Branch {
        from: wire.from_node,
        to: wire.to_node,
        part: Part::Wire(index),
    });
    gear.branches.iter().copied().chain(wire_branches).collect()
}
