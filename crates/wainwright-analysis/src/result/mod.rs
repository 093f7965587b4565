//! The assessment: everything computed about one trailer, as plain data.
//! A page, a drawing, a rule and the JSON all show values from here. Not
//! here: judgement ("too small") and words for people.

pub mod cabinet;
mod conductor;
mod consumer;
mod device;
mod fault;
pub mod indoors;
pub mod lining;
pub mod road;
mod route;
mod schedule;
pub mod settings;
mod state;
mod takeoff;
pub mod trip;

pub use conductor::{Ampacity, Guard, Overload, Run, Side, TableAmpacity, WireInState, WireResult};
pub use consumer::{ConsumerInState, ConsumerResult, Role};
pub use device::{DeviceInState, DeviceResult, Reclose};
pub use fault::{FaultEnd, FaultResult, Opening, Stress};
pub use route::{
    Bundle, Fullest, Lack, Leg, Measure, Pass, Route, Routing, Slack, Stretch, Surrounded, Through,
    TrunkRoute, Unplaced, WireRoute,
};
pub use schedule::{
    Legend, LegendWay, RouteStep, Schedules, TerminalEntry, TerminalSchedule, WireEnd, WireEntry,
    WireLabel,
};
pub use state::{Outcome, StateKind, StateResult};
pub use takeoff::{Amount, Asked, AskedFor, Cut, CutList, CutPiece, Line, TakeOff, Thing, Use};

use crate::known::{Basis, Known};
use wainwright_model::Id;
use wainwright_units::{Charge, Current, Length, Power, Ratio, Resistance, Temperature, Voltage};

/// Everything computed about one trailer.
#[derive(Debug, Clone)]
pub struct Assessment {
    /// Nominal voltage of the system, from its batteries \[V\].
    pub system_volts: Option<Known<Voltage>>,
    /// Rated capacity of all batteries together: strings in parallel add, a
    /// string has that of its smallest battery; `None` where one is not given.
    pub capacity: Option<Charge>,
    /// The rule profile's limits in force.
    pub limits: Limits,
    /// Electrical nodes: terminals that are one piece of metal.
    pub nodes: Vec<Node>,
    /// Conductors, in file order.
    pub wires: Vec<WireResult>,
    /// Fuses and breakers, including each way of a fuse block.
    pub devices: Vec<DeviceResult>,
    /// Gear that takes or gives power.
    pub consumers: Vec<ConsumerResult>,
    /// Operating states that were solved.
    pub states: Vec<StateResult>,
    /// Short circuits at every live node.
    pub faults: Vec<FaultResult>,
    /// Live terminals whose short circuit could not be computed; none, unless
    /// the values around them are beyond all measure.
    pub unstudied: Vec<(Id, String)>,
    /// Terminals of gear that nothing is joined to.
    pub loose: Vec<Loose>,
    /// Gear whose plus and minus terminals sit on the wrong sides.
    pub reversed: Vec<Id>,
    /// Ends of wires, contacts of switches and splices, with the heat they make.
    pub joints: Vec<JointResult>,
    /// Every value nobody gave, with the stand-in used.
    pub assumptions: Vec<AssumedValue>,
    /// Things left out because a needed value is missing.
    pub missing: Vec<Missing>,
    /// Where the wires run, how long they are for that reason, what is round
    /// them there.
    pub routing: Routing,
    /// Weights, towing, placing and tie-down.
    pub road: road::RoadResult,
    /// What to set on every charging device and disconnect, and what does not agree.
    pub settings: settings::SettingsResult,
}

/// One electrical node.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Node {
    /// `item.terminal` names that share this node, in file order.
    pub terminals: Vec<(Id, String)>,
    /// Which side of the system the node is on.
    pub side: Side,
}

/// The limits the rules use, each with its source.
#[derive(Debug, Clone, PartialEq)]
pub struct Limits {
    /// Largest drop for critical gear, as a share of system voltage.
    pub drop_critical: Known<Ratio>,
    /// Largest drop for all other gear.
    pub drop_other: Known<Ratio>,
    /// Longest conductor between a source and its first protection.
    pub unfused: Known<Length>,
    /// The same where the conductor is sheathed or enclosed all the way.
    pub unfused_sheathed: Known<Length>,
    /// Largest share of a fuse's rating for a continuous load.
    pub continuous_share: Known<Ratio>,
    /// Hottest air in the living space.
    pub summer_air: Known<Temperature>,
    /// Hottest air in roof and wall cavities.
    pub cavity_air: Known<Temperature>,
}

/// A terminal with nothing joined to it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Loose {
    /// The gear.
    pub item: Id,
    /// Its terminal.
    pub terminal: String,
    /// Whether the gear cannot work without it.
    pub needed: bool,
}

/// A contact or joint with resistance, and the heat it makes.
#[derive(Debug, Clone, PartialEq)]
pub struct JointResult {
    /// What it is part of.
    pub owner: JointOwner,
    /// Its resistance.
    pub resistance: Known<Resistance>,
    /// Its worst heat over all lasting states \[W\], and that state.
    pub heat: Power,
    /// Index into [`Assessment::states`].
    pub state: usize,
    /// Current at that state.
    pub amps: Current,
    /// Whether the joint is a large lug (true) or a small terminal.
    pub large: bool,
}

/// Which thing a joint belongs to.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum JointOwner {
    /// The `from` end (false) or `to` end (true) of a wire.
    WireEnd(Id, bool),
    /// The contact inside a switch (way number for a bank, else 0), or a splice.
    Contact(Id, usize),
}

/// A value nobody gave.
#[derive(Debug, Clone, PartialEq)]
pub struct AssumedValue {
    /// Path in the project file where it can be typed.
    pub path: Vec<String>,
    /// The stand-in, as text with its unit.
    pub value: String,
    /// Why this value.
    pub basis: Basis,
    /// Paths of other elements where the same value stands in for the same
    /// reason: joints, ways of running and the like come by the hundred.
    pub also: Vec<Vec<String>>,
}

/// A value without which part of the study had to be left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Missing {
    /// Path in the project file where it can be typed.
    pub path: Vec<String>,
    /// What kind of value is wanted.
    pub wanted: Wanted,
}

/// What kind of value is missing.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Wanted {
    /// A wire size.
    Size,
    /// A wire length.
    Length,
    /// An insulation class.
    Insulation,
    /// A rating of a fuse or breaker.
    Rating,
    /// What a load takes.
    Demand,
    /// The kind of gear or its part.
    Kind,
    /// A terminal that exists.
    Terminal,
}

impl Assessment {
    /// The wire with this id.
    pub fn wire(&self, id: &str) -> Option<&WireResult> {
        self.wires.iter().find(|w| w.id.as_str() == id)
    }

    /// The protective device of this gear and way (0 where it has one only).
    pub fn device(&self, item: &str, way: usize) -> Option<&DeviceResult> {
        self.devices
            .iter()
            .find(|d| d.item.as_str() == item && d.way == way)
    }

    /// The consumer or source of this gear.
    pub fn consumer(&self, item: &str) -> Option<&ConsumerResult> {
        self.consumers.iter().find(|c| c.item.as_str() == item)
    }

    /// The node of a terminal.
    pub fn node_of(&self, item: &str, terminal: &str) -> Option<usize> {
        self.nodes.iter().position(|n| {
            n.terminals
                .iter()
                .any(|(i, t)| i.as_str() == item && t == terminal)
        })
    }
}
