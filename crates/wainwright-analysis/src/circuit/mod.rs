//! The circuit: the project's wiring as nodes and branches, with every value
//! known or stood in for. Not here: solving (see [`crate::study`]), results
//! (see [`crate::result`]), judgement.

mod bare;
mod defaults;
mod items;
mod nodes;
mod notes;
mod sides;
mod wires;

pub(crate) use bare::{bare_wire, joint_limits};
pub(crate) use defaults::{at_least_contact, worst_joint};
pub(crate) use nodes::NodeTable;
pub(crate) use notes::{Notes, given, given_or};

use crate::known::Known;
use crate::result::{Limits, Reclose, Role, Run, Side};
use wainwright_engines::conductor_heat::{Build, Surroundings};
use wainwright_engines::protection::OpeningCurve;
use wainwright_model::{FieldExt, Id, Project};
use wainwright_units::{
    CrossSection, Current, Length, Power, Ratio, Resistance, Temperature, Voltage, WireSize,
};

/// A project lowered to nodes and branches.
pub(crate) struct Circuit {
    pub(crate) nodes: NodeTable,
    pub(crate) sides: Vec<Side>,
    pub(crate) branches: Vec<Branch>,
    pub(crate) wires: Vec<Wire>,
    pub(crate) devices: Vec<Device>,
    pub(crate) contacts: Vec<Contact>,
    pub(crate) consumers: Vec<Consumer>,
    /// Per node: a number shared by all nodes that conductors join.
    islands: Vec<usize>,
    pub(crate) limits: Limits,
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
    Fixed(Resistance),
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
    let mut notes = Notes {
        shown_in: project.head.units.value().map(|u| (*u).into()),
        ..Notes::default()
    };
    let limits = defaults::limits(project, &mut notes);
    let mut parts = items::Gear::default();
    let mut nodes = NodeTable::new(project);
    items::add_all(project, &mut nodes, &mut parts, &mut notes);
    let wires = wires::add_all(project, &mut nodes, &mut parts, &limits, &mut notes);
    let branches = all_branches(&parts, &wires);
    let node_count = nodes.len();
    let sides = sides::sides(node_count, &branches, &parts.consumers);
    Circuit {
        system_volts: items::system_volts(&parts),
        nodes,
        sides,
        islands: sides::islands(node_count, &branches),
        branches,
        wires,
        devices: parts.devices,
        contacts: parts.contacts,
        consumers: parts.consumers,
        limits,
        notes,
    }
}

fn all_branches(parts: &items::Gear, wires: &[Wire]) -> Vec<Branch> {
    let wire_branches = wires.iter().enumerate().map(|(index, wire)| Branch {
        from: wire.from_node,
        to: wire.to_node,
        part: Part::Wire(index),
    });
    parts
        .branches
        .iter()
        .copied()
        .chain(wire_branches)
        .collect()
}
