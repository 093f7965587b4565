//! Item kinds: one declaration each.
//!
//! Here: the fields an item can have, by kind, and what is common to all. Not here: terminals (`terminals`), the
//! joining of an item with its part (`read`), usual values for what is not given (the analysis).

use crate::choices::{
    Chemistry, FuseFamily, Ground, Hold, Holds, Job, MountedOn, Mounting, Reset, Side, SwitchStyle,
    Tracking,
};
use crate::define::{element, kinds};
use crate::schema::{FieldSpec, Target, ValueKind};
use crate::spot::{Extent, Spot};
use crate::value::FieldValue;
use wainwright_units::{
    Angle, Charge, Current, Duration, Force, Length, Mass, Power, Ratio, Resistance, Temperature,
    Voltage, Volume,
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
/// A module that changes by a hundredth for each degree is none that is sold.
const PER_DEGREE: ValueKind = Ratio::KIND.within(0.0, 0.01, &["0.35 %", "0.28 %"]);
const STRINGS: ValueKind = ValueKind::Integer { low: 1, high: 12 };
const SHADED: ValueKind = ValueKind::Integer { low: 0, high: 12 };
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
        /// What it is mounted on in a cabinet.
        mounted_on: MountedOn,
        /// Width of the hole it needs in a face, or its diameter when it is round.
        hole_width: Length = Length::KIND.positive(),
        /// Height of the hole it needs in a face.
        hole_height: Length = Length::KIND.positive(),
        /// Whether that hole is round.
        hole_round: bool,
        /// How far it reaches behind the face.
        depth_behind: Length = Length::KIND.from_zero(),
        /// Room that its wires need to bend, beyond the device.
        bend_room: Length = Length::KIND.from_zero(),
        /// Heat it gives off while it works.
        heat_loss: Power,
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
        /// Voltage of the whole battery at which it takes charge again after that.
        high_release: Voltage = VOLTS,
        /// Voltage of the whole battery at which it feeds loads again after it ran empty.
        low_release: Voltage = VOLTS,
        /// Voltage of one cell above which its protection stops charging.
        cell_cutoff: Voltage = VOLTS,
        /// Voltage of the highest cell at which charging goes on.
        cell_release: Voltage = VOLTS,
        /// Voltage of one cell below which its protection cuts off the loads.
        low_cell_cutoff: Voltage = VOLTS,
        /// Voltage of the lowest cell at which loads go on.
        low_cell_release: Voltage = VOLTS,
        /// Voltage of a cell from which it is balanced.
        balance_from: Voltage = VOLTS,
        /// How far the fullest cell is ahead of the others, as a share of its charge.
        cell_spread: Ratio = SHARE,
        /// Temperature below which its protection stops charging.
        cold_cutoff: Temperature,
        /// Temperature above which charging goes on.
        cold_release: Temperature,
        /// Temperature above which its protection cuts everything off.
        hot_cutoff: Temperature,
        /// Whether its terminals are dead once it has run empty, until something wakes it.
        sleeps: bool,
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
        /// How far it is tilted when it makes power; flat when nothing is said.
        tilt: Angle = Angle::KIND.within(0.0, 90.0, &["0 deg", "30°"]),
        /// Compass direction it looks to when tilted: north 0, east 90, south 180.
        azimuth: Angle = Angle::KIND.within(0.0, 360.0, &["180 deg", "90°"]),
        /// How air gets to its back.
        mounting: Mounting,
        /// Part of its power it loses with each degree Celsius warmer.
        power_per_degree: Ratio = PER_DEGREE,
        /// Part of its open voltage it gains with each degree Celsius colder.
        voltage_per_degree: Ratio = PER_DEGREE,
        /// Strings of cells inside, each with its own bypass diode.
        strings: u32 = STRINGS,
        /// Strings of it that something on the roof shades.
        shaded_strings: u32 = SHADED,
        /// Light that is left on the darkest of those cells.
        shade_left: Ratio = SHARE,
        /// Part of its power lost to dirt.
        dirt: Ratio = SHARE,
        /// Whether it is put up at camp and packed away for the drive.
        portable: bool,
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
        /// Voltage it holds when the battery is full.
        float_voltage: Voltage = VOLTS,
        /// How long it holds the charge voltage.
        absorption_time: Duration,
        /// Current below which it counts the battery as full.
        tail_current: Current,
        /// Voltage it takes away for each degree Celsius that the battery is warmer than 25; zero for lithium.
        compensation: Voltage,
        /// Whether it equalises: overcharges now and then on purpose.
        equalise: bool,
        /// Battery temperature below which it does not charge; say nothing when it does not know it.
        cold_lockout: Temperature,
        /// Most voltage that modules may bring to it.
        highest_input: Voltage = VOLTS,
        /// Power it takes for itself.
        own_power: Power,
        /// Whether it starts only when the battery already has voltage.
        needs_battery: bool,
        /// Battery voltage at which its load output goes off.
        load_off: Voltage = VOLTS,
        /// Battery voltage at which its load output comes on again.
        load_on: Voltage = VOLTS,
    }

    /// A charger fed from shore power.
    ShoreCharger = "shore-charger" {
        /// Most current it gives.
        output_current: Current = AMPS,
        /// Voltage it charges to.
        charge_voltage: Voltage = VOLTS,
        /// Share of the power taken in that comes out.
        efficiency: Ratio = EFFICIENCY,
        /// Voltage it holds when the battery is full.
        float_voltage: Voltage = VOLTS,
        /// How long it holds the charge voltage.
        absorption_time: Duration,
        /// Current below which it counts the battery as full.
        tail_current: Current,
        /// Voltage it takes away for each degree Celsius that the battery is warmer than 25; zero for lithium.
        compensation: Voltage,
        /// Whether it equalises: overcharges now and then on purpose.
        equalise: bool,
        /// Battery temperature below which it does not charge; say nothing when it does not know it.
        cold_lockout: Temperature,
    }

    /// A charger fed from the tow vehicle.
    DcdcCharger = "dcdc-charger" {
        /// Most current it gives.
        output_current: Current = AMPS,
        /// Voltage it charges to.
        charge_voltage: Voltage = VOLTS,
        /// Share of the power taken in that comes out.
        efficiency: Ratio = EFFICIENCY,
        /// Voltage it holds when the battery is full.
        float_voltage: Voltage = VOLTS,
        /// How long it holds the charge voltage.
        absorption_time: Duration,
        /// Current below which it counts the battery as full.
        tail_current: Current,
        /// Voltage it takes away for each degree Celsius that the battery is warmer than 25; zero for lithium.
        compensation: Voltage,
        /// Whether it equalises: overcharges now and then on purpose.
        equalise: bool,
        /// Battery temperature below which it does not charge; say nothing when it does not know it.
        cold_lockout: Temperature,
        /// Lowest voltage of the tow vehicle at which it works.
        lowest_input: Voltage = VOLTS,
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
        /// Battery voltage at which it starts again.
        low_release: Voltage = VOLTS,
        /// Battery voltage above which it stops.
        high_cutoff: Voltage = VOLTS,
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
        /// Battery voltage at which it opens by itself to save the battery.
        load_off: Voltage = VOLTS,
        /// Battery voltage at which it closes again.
        load_on: Voltage = VOLTS,
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
        /// Highest voltage it bears.
        highest_voltage: Voltage = VOLTS,
        /// Whether it must not dim or stop.
        critical: bool,
        /// Whether it runs for three hours or more at a stretch.
        continuous: bool,
        /// Rated voltage.
        voltage: Voltage = VOLTS,
        /// What it does, when its power depends on the air outside.
        job: Job,
        /// Fridge: room inside.
        room: Volume = Volume::KIND.positive(),
        /// Fridge or heater: temperature it keeps inside.
        keeps: Temperature,
        /// Heater: heat it gives at full power.
        heat: Power = WATTS,
        /// Heater: fuel it burns in an hour at full power.
        fuel: Volume = Volume::KIND.positive(),
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
