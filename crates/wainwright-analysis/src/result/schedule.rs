//! Results for the schedules: wire list, what ends on which terminal, what
//! each fuse is for, what the labels say.
//!
//! Not here: sentences; the parts of a route are given one by one.

use super::Side;
use crate::known::Known;
use wainwright_model::{Id, Kind};
use wainwright_units::{Current, Length, WireSize};

/// All schedules of the wiring.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Schedules {
    /// Every wire with two ends, in file order.
    pub wires: Vec<WireEntry>,
    /// Every item with wires or with numbered ways, in file order.
    pub terminals: Vec<TerminalSchedule>,
    /// Every fuse block, and every bank with fuses.
    pub legends: Vec<Legend>,
}

/// One wire.
#[derive(Debug, Clone, PartialEq)]
pub struct WireEntry {
    /// Its id.
    pub wire: Id,
    /// What its labels say first.
    pub label: WireLabel,
    /// Its start.
    pub from: WireEnd,
    /// Its end.
    pub to: WireEnd,
    /// Plus or minus; neither where it is in no circuit.
    pub side: Side,
    /// Nominal size.
    pub size: Option<Known<WireSize>>,
    /// Insulation class.
    pub insulation: Option<Known<String>>,
    /// Colour of the insulation.
    pub colour: Option<Known<String>>,
    /// Length to cut: typed, by its route, or a stand-in.
    pub length: Option<Known<Length>>,
    /// Where it runs, in order; empty without a route.
    pub route: Vec<RouteStep>,
    /// Whether it came with the gear.
    pub supplied: bool,
}

/// What a wire is called on its labels.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WireLabel {
    /// The text.
    pub text: String,
    /// Whether it is proposed because none was typed: letter and number of
    /// the circuit, and `+` or `-`.
    pub proposed: bool,
}

/// One end of a wire.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WireEnd {
    /// The item.
    pub item: Id,
    /// What people call the item.
    pub item_label: String,
    /// Its terminal.
    pub terminal: String,
    /// Lines of the label that goes on this end: the wire, and where its
    /// OTHER end goes.
    pub label_lines: [String; 2],
}

/// One part of a route.
#[derive(Debug, Clone, PartialEq)]
pub enum RouteStep {
    /// Outside any trunk.
    Off {
        /// How far.
        length: Length,
    },
    /// Along a trunk.
    Trunk {
        /// The trunk.
        id: Id,
        /// What people call it.
        label: String,
        /// What hides it.
        behind: Option<String>,
        /// How far.
        length: Length,
    },
}

/// What ends on each terminal of an item.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TerminalSchedule {
    /// The item.
    pub item: Id,
    /// What people call it.
    pub label: String,
    /// Its kind.
    pub kind: Kind,
    /// Its terminals in order, empty ones of bars, blocks and banks included.
    pub terminals: Vec<TerminalEntry>,
}

/// One terminal.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct TerminalEntry {
    /// Its name.
    pub terminal: String,
    /// The wires that end there, in file order.
    pub wires: Vec<Id>,
}

/// What the fuses of a block are for.
#[derive(Debug, Clone, PartialEq)]
pub struct Legend {
    /// The block or bank.
    pub item: Id,
    /// What people call it.
    pub label: String,
    /// Letter of its circuits.
    pub letter: String,
    /// Its ways, from 1.
    pub ways: Vec<LegendWay>,
}

/// One way of a block.
#[derive(Debug, Clone, PartialEq)]
pub struct LegendWay {
    /// Its number.
    pub way: u32,
    /// Rating of its fuse; `None` where there is none.
    pub rating: Option<Current>,
    /// Colour of a fuse of this rating, where the family has colours.
    pub fuse_colour: Option<&'static str>,
    /// Gear behind it.
    pub gear: Vec<Id>,
    /// Names of that gear with commas between; empty for a free way.
    pub circuit: String,
    /// Label of its wires without the sign, as `A3`.
    pub label: String,
}
