//! Results for one conductor.

use crate::known::Known;
use wainwright_model::Id;
use wainwright_reference::Source;
use wainwright_units::{
    CrossSection, Current, Length, LineHeat, Power, Ratio, Resistance, Temperature, Voltage,
    WireSize,
};

/// Which side of the two-conductor system something is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Reached from a plus terminal without passing a load.
    Plus,
    /// Reached from a minus terminal without passing a load.
    Minus,
    /// Reached from both: plus and minus are joined somewhere.
    Both,
    /// Reached from no source.
    Neither,
}

/// Where a conductor runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Run {
    /// Single, in open air.
    Open,
    /// With other loaded conductors.
    Bundle,
    /// Inside foam insulation.
    Foam,
    /// In a hot roof or wall cavity.
    Cavity,
    /// In conduit.
    Conduit,
}

/// Results for one conductor.
#[derive(Debug, Clone)]
pub struct WireResult {
    /// Its id in the project file.
    pub id: Id,
    /// What people call it.
    pub label: String,
    /// Terminal at its start.
    pub from: (Id, String),
    /// Terminal at its end.
    pub to: (Id, String),
    /// Node at its start.
    pub from_node: usize,
    /// Node at its end.
    pub to_node: usize,
    /// Plus or minus side.
    pub side: Side,
    /// Whether it came with the gear.
    pub supplied: bool,
    /// Nominal size.
    pub size: Known<WireSize>,
    /// Actual metal cross-section.
    pub metal: CrossSection,
    /// Length one way.
    pub length: Known<Length>,
    /// Insulation class id, as in the reference tables.
    pub insulation: Known<String>,
    /// Continuous limit of the insulation.
    pub limit: Temperature,
    /// Final temperature the insulation bears in a short circuit.
    pub short_limit: Temperature,
    /// Voltage rating of the insulation.
    pub volts_rating: Voltage,
    /// Whether the insulation is PVC.
    pub pvc: bool,
    /// Where it runs.
    pub run: Known<Run>,
    /// Loaded conductors side by side, itself included.
    pub bundle: Known<u32>,
    /// Whether sheathed or enclosed all the way.
    pub sheathed: bool,
    /// Air (or foam face) temperature around it.
    pub air: Known<Temperature>,
    /// Metal resistance at 20 °C, joints left out.
    pub resistance_20: Resistance,
    /// Resistance of both end joints together.
    pub joints: Resistance,
    /// What it bears for ever, where it runs.
    pub ampacity: Ampacity,
    /// Per state, same order as the assessment's states.
    pub states: Vec<WireInState>,
    /// The lasting state in which it is hottest (index), when any was solved.
    pub worst: Option<usize>,
    /// What protects it, one entry for each source that can feed it.
    pub guards: Vec<Guard>,
    /// Largest current that all sources together can push through it for
    /// long, each held back by the devices on its ways and by its own limit
    /// \[A\]; `None` where a source without a limit meets no device.
    pub together: Option<Current>,
}

/// Current a conductor bears for ever.
#[derive(Debug, Clone, PartialEq)]
pub struct Ampacity {
    /// By the heat balance of the conductor where it runs \[A\].
    pub computed: Current,
    /// By the published table with its factors \[A\], where the table has the size.
    pub table: Option<TableAmpacity>,
    /// The smaller of both: the value in force.
    pub in_force: Current,
}

/// Ampacity by a published table.
#[derive(Debug, Clone, PartialEq)]
pub struct TableAmpacity {
    /// Table value at its own conditions \[A\].
    pub base: Current,
    /// Factor for surrounding temperature.
    pub hot: Ratio,
    /// Factor for bundling.
    pub bundle: Ratio,
    /// Factor for foam around it.
    pub foam: Ratio,
    /// base × hot × bundle × foam \[A\].
    pub current: Current,
    /// Which table.
    pub source: &'static Source,
}

/// A conductor in one state.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WireInState {
    /// Current, positive from `from` to `to` \[A\].
    pub amps: Current,
    /// Metal temperature; air temperature where no heat was computed.
    pub temperature: Temperature,
    /// Resistance at that temperature, joints included.
    pub resistance: Resistance,
    /// Voltage lost along it, joints included.
    pub drop: Voltage,
    /// Heat along it.
    pub heat: LineHeat,
    /// All heat made in it and its joints.
    pub power: Power,
}

/// What stands between a source and a conductor.
#[derive(Debug, Clone, PartialEq)]
pub struct Guard {
    /// The source (battery, charger, controller, supply).
    pub source: Id,
    /// The smallest-rated device that every path from the source must pass
    /// (index into the assessment's devices), when there is one. Two devices
    /// side by side are neither: then this and `bare_length` are both `None`,
    /// and [`WireResult::together`] has their sum.
    pub device: Option<usize>,
    /// Shortest way along conductors from the source's terminal to the
    /// FAR end of this conductor, counted only while no device was passed.
    /// `None` once a device lies between.
    pub bare_length: Option<Length>,
    /// Most the source itself can push for long \[A\]; a battery has none. For
    /// a return conductor: what the devices of the gear behind it let through
    /// together.
    pub self_limited: Option<Current>,
    /// What the slow region of that device does to this conductor.
    pub overload: Option<Overload>,
}

/// The slow overload region of one device over one conductor.
#[derive(Debug, Clone, PartialEq)]
pub struct Overload {
    /// Metal temperature at 1.10 × rating, which the device carries for ever.
    pub carried_for_ever: Temperature,
    /// Hottest metal over 1.10 to 1.35 × rating, where opening may take hours.
    pub slow_region: Temperature,
    /// Hottest metal over every current from 1.35 × rating to the largest
    /// fault, up to the moment the device has certainly opened.
    pub fast_region: Temperature,
    /// The current that makes `fast_region` \[A\].
    pub fast_region_amps: Current,
}
