//! Item kinds: one declaration each.
//!
//! Here: the fields an item can have, by kind, and what is common to all. Not here: terminals (`terminals`), the
//! joining of an item with its part (`read`), usual values for what is not given (the analysis).

use crate::choices::{
    Chemistry, FuseFamily, Ground, Hold, Holds, Reset, Side, SwitchStyle, Tracking,
};
use crate::define::{element, kinds};
use crate::schema::{FieldSpec, Target, ValueKind};
use crate::spot::{Extent, Spot};
use crate::value::FieldValue;
use wainwright_units::{
    Charge, Current, Duration, Force, Length, Mass, Power, Ratio, Resistance, Voltage, Volume,
};

/// One item kind in the table [`KINDS`].
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct KindSpec {
    /// The kind.
    pub kind: Kind,
    /// As typed.
    pub name: &'static str,
    /// What it is.
    pub doc: &'static str,
    /// Its own fields, besides those every item has.
    pub fields: &'static [FieldSpec],
}

/// Most ways of a bus bar, a fuse block or a bank.
pub const MOST_WAYS: u32 = 99;
const WAYS: ValueKind = ValueKind::Integer {
    low: 1,
    high: MOST_WAYS as i64,
};
const WAY_NUMBERS: ValueKind = ValueKind::List(&WAYS);
const CELLS: ValueKind = ValueKind::Integer { low: 1, high: 400 };
/// Nothing of it up to all of it.
const SHARE: ValueKind = Ratio::KIND.within(0.0, 1.0, &["80 %", "0.8"]);
/// A converter that loses nine tenths is a slip of the pen, one that loses nothing a hope.
const EFFICIENCY: ValueKind = Ratio::KIND.within(0.1, 1.0, &["90 %", "0.9"]);
const VOLTS: ValueKind = Voltage::KIND.positive();
const AMPS: ValueKind = Current::KIND.positive();
const WATTS: ValueKind = Power::KIND.positive();
const FASTENERS: ValueKind = ValueKind::Integer { low: 1, high: 200 };
const OHMS: ValueKind = Resistance::KIND.positive();

element! {
    /// A thing in the trailer: a kind or a part, and anything that is different from the part.
    ItemHead {
        /// What it is called on drawings and lists.
        label: String,
        /// The part it is, from this file or from the library.
        part: String = ValueKind::Reference(Target::Part),
        /// What kind of thing it is, when it is no part.
        kind: Kind,
        /// Anything worth remembering.
        note: String,
        /// Whether it came with the gear.
        supplied: bool,
    }
}

element! {
    /// A part of one's own, to be used by several items.
    PartHead {
        /// What it is called on drawings and lists.
        label: String,
        /// What kind of thing it is.
        [required] kind: Kind,
        /// Anything worth remembering.
        note: String,
        /// Whether it comes with the gear.
        supplied: bool,
        /// Where its figures come from: nameplate, sheet, measurement.
        source: String,
    }
}

element! {
    /// The thing as a body: how heavy, how large, where, and how it is held.
    Body {
        /// Its mass; of a tank, its mass when it is empty; of cargo, at the start of a trip.
        mass: Mass,
        /// Its size as it stands: along the trailer, across it, up.
        size: Extent,
        /// Where its front left lower corner is: from the inside of the front wall backwards, from the inside of the left wall to the right, above the floor.
        spot: Spot,
        /// The side its front, its doors or its terminals face.
        faces: Side,
        /// Free room it needs before its front, for a door, a hand or air.
        clear: Length = Length::KIND.from_zero(),
        /// Whether a search for a better layout must leave it where it is.
        stays: bool,
        /// How it is fastened.
        held: Hold,
        /// Number of fasteners or straps.
        held_count: u32 = FASTENERS,
        /// Diameter of each bolt or screw.
        held_size: Length = Length::KIND.positive(),
        /// What the fasteners go into.
        held_into: Ground,
        /// Length of thread that bites into the wood, or thickness of the plywood.
        held_depth: Length = Length::KIND.positive(),
        /// Load each strap may bear in use: its working load, not the load at which it breaks.
        strap_rating: Force = Force::KIND.positive(),
    }
}

kinds! {
    /// A battery, its protection circuit included.
    Battery = "battery" {
        /// What it is made of.
        chemistry: Chemistry,
        /// Cells in series.
        cells: u32 = CELLS,
        /// Charge it holds when full.
        capacity: Charge = Charge::KIND.positive(),
        /// Resistance between the terminals, protection circuit and joints included.
        resistance: Resistance = OHMS,
        /// Most current it may give for hours.
        discharge_limit: Current = AMPS,
        /// Most current it may take.
        charge_limit: Current = AMPS,
        /// Current at which its protection circuit opens.
        trip_current: Current = AMPS,
        /// How long the trip current flows before the protection circuit opens.
        trip_time: Duration,
        /// Voltage below which it disconnects.
        low_cutoff: Voltage = VOLTS,
        /// Voltage above which it disconnects.
        high_cutoff: Voltage = VOLTS,
    }

    /// A solar module.
    SolarModule = "solar-module" {
        /// Rated power.
        power: Power = WATTS,
        /// Voltage without load.
        open_voltage: Voltage = VOLTS,
        /// Current into a short.
        short_current: Current = AMPS,
        /// Voltage at rated power.
        best_voltage: Voltage = VOLTS,
        /// Current at rated power.
        best_current: Current = AMPS,
    }

    /// A controller between solar modules and battery.
    SolarController = "solar-controller" {
        /// How it uses the modules.
        tracking: Tracking,
        /// Most current it gives.
        output_current: Current = AMPS,
        /// Voltage it charges to.
        charge_voltage: Voltage = VOLTS,
        /// Share of the power taken in that comes out.
        efficiency: Ratio = EFFICIENCY,
    }

    /// A charger fed from shore power.
    ShoreCharger = "shore-charger" {
        /// Most current it gives.
        output_current: Current = AMPS,
        /// Voltage it charges to.
        charge_voltage: Voltage = VOLTS,
    }

    /// A charger fed from the tow vehicle.
    DcdcCharger = "dcdc-charger" {
        /// Most current it gives.
        output_current: Current = AMPS,
        /// Voltage it charges to.
        charge_voltage: Voltage = VOLTS,
        /// Share of the power taken in that comes out.
        efficiency: Ratio = EFFICIENCY,
    }

    /// The charge line of the tow vehicle.
    VehicleSupply = "vehicle-supply" {
        /// Voltage without load.
        voltage: Voltage = VOLTS,
        /// Resistance of the vehicle's battery, line and connector.
        resistance: Resistance = OHMS,
        /// Most current it may give.
        output_current: Current = AMPS,
    }

    /// A converter from battery voltage to mains voltage.
    Inverter = "inverter" {
        /// Power it gives for hours.
        power: Power = WATTS,
        /// Power it gives for seconds.
        surge: Power = WATTS,
        /// Share of the power taken in that comes out.
        efficiency: Ratio = EFFICIENCY,
        /// Current it takes without load.
        idle_current: Current,
        /// Battery voltage below which it stops.
        low_cutoff: Voltage = VOLTS,
        /// What is really plugged in.
        load: Power,
    }

    /// A fuse in its own holder.
    Fuse = "fuse" {
        /// Shape and opening curve.
        family: FuseFamily,
        /// Rated current.
        rating: Current = AMPS,
        /// Most voltage it may interrupt.
        voltage: Voltage = VOLTS,
        /// Most current it may interrupt.
        interrupt: Current = AMPS,
    }

    /// A circuit breaker.
    Breaker = "breaker" {
        /// Rated current.
        rating: Current = AMPS,
        /// What it does after it has opened.
        reset: Reset,
        /// Most voltage it may interrupt.
        voltage: Voltage = VOLTS,
        /// Most current it may interrupt.
        interrupt: Current = AMPS,
    }

    /// A block with one inlet and a fuse to each way.
    FuseBlock = "fuse-block" {
        /// Shape and opening curve of its fuses.
        family: FuseFamily,
        /// Rating of the fuse in each way, "" where there is none.
        fuses: Vec<Option<Current>>,
        /// Most current through the inlet.
        bus_rating: Current = AMPS,
        /// Most voltage it may carry.
        voltage: Voltage = VOLTS,
    }

    /// A bar of studs that are one conductor.
    BusBar = "bus-bar" {
        /// Number of studs.
        ways: u32 = WAYS,
        /// Most current.
        rating: Current = AMPS,
        /// Most voltage.
        voltage: Voltage = VOLTS,
    }

    /// A switch.
    Switch = "switch" {
        /// Most current.
        rating: Current = AMPS,
        /// Whether it is on; it is when nothing is said.
        closed: bool,
        /// Resistance of the closed contact.
        resistance: Resistance,
        /// How it is built.
        style: SwitchStyle,
        /// Most voltage it may switch.
        voltage: Voltage = VOLTS,
    }

    /// Several switches in one panel.
    SwitchBank = "switch-bank" {
        /// Number of switches.
        ways: u32 = WAYS,
        /// Most current of each.
        rating: Current = AMPS,
        /// Rating of the fuse after each switch, "" where there is none.
        fuses: Vec<Option<Current>>,
        /// Numbers of the switches that are off.
        open: Vec<u32> = WAY_NUMBERS,
        /// Most voltage it may switch.
        voltage: Voltage = VOLTS,
    }

    /// A measuring resistor in the battery's minus.
    Shunt = "shunt" {
        /// Its resistance.
        resistance: Resistance = OHMS,
    }

    /// A socket that things are plugged into.
    Outlet = "outlet" {
        /// Rated current.
        current: Current = AMPS,
        /// Whether the rated current may flow for hours.
        continuous: bool,
        /// Rated voltage.
        voltage: Voltage = VOLTS,
    }

    /// Something that uses electricity; give one of power, current and resistance.
    Load = "load" {
        /// Power it takes, whatever the voltage.
        power: Power = WATTS,
        /// Current it takes, whatever the voltage.
        current: Current = AMPS,
        /// Its resistance, for a heater or a lamp with a filament.
        resistance: Resistance = OHMS,
        /// Share of the time it runs.
        duty: Ratio = SHARE,
        /// Current while it starts.
        surge: Current = AMPS,
        /// Lowest voltage at which it works.
        lowest_voltage: Voltage = VOLTS,
        /// Whether it must not dim or stop.
        critical: bool,
        /// Whether it runs for three hours or more at a stretch.
        continuous: bool,
        /// Rated voltage.
        voltage: Voltage = VOLTS,
    }

    /// The metal frame of the trailer as a conductor.
    Frame = "frame" {
        /// Resistance between any two lugs.
        resistance: Resistance,
    }

    /// A joint of several wires.
    Splice = "splice" {
        /// Resistance of the joint.
        resistance: Resistance,
    }

    /// A tank for water, waste or fuel.
    Tank = "tank" {
        /// What it holds.
        holds: Holds,
        /// How much it holds when full.
        capacity: Volume = Volume::KIND.positive(),
    }

    /// A bed, a bench, a kitchen, a shelf: anything built in that is not wired.
    Furniture = "furniture" {}

    /// Something carried: food, clothes, tools, gas.
    Cargo = "cargo" {
        /// What is left of its mass at the end of a trip; the same as at the start when nothing is said.
        mass_end: Mass,
    }

    /// Somebody who is aboard when the trailer is parked.
    Person = "person" {}
}
