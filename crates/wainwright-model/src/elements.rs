//! The tables that are not items: project, trailer, limits, wires, states.
//!
//! One declaration each; the struct, the field table and the reader come out of it. Not here: item kinds
//! (`kinds`).

use crate::choices::{BatteryState, Region, Surrounding, UnitSystem};
use crate::define::element;
use crate::place::TerminalRef;
use crate::schema::{Target, ValueKind};
use crate::value::FieldValue;
use wainwright_units::{Length, Power, Ratio, Resistance, Temperature, WireSize};

/// Most wires in one bundle that a form offers.
const BUNDLE: ValueKind = ValueKind::Integer { low: 1, high: 200 };
/// Nothing of it up to all of it.
const SHARE: ValueKind = Ratio::KIND.within(0.0, 1.0, &["80 %", "0.8"]);
/// A drop of a tenth is already far more than any rule allows; half is certainly a slip.
const DROP: ValueKind = Ratio::KIND.within(0.0, 0.5, &["3 %", "10 %"]);
const ITEMS: ValueKind = ValueKind::List(&ValueKind::Reference(Target::Item));

element! {
    /// What the project is called and how it is shown and judged.
    Head {
        /// Name of the project.
        name: String,
        /// Units that values are shown in; what is typed is kept as typed.
        units: UnitSystem,
        /// Which published rules the design is held against.
        region: Region,
        /// Anything worth remembering.
        note: String,
    }
}

element! {
    /// The bare trailer.
    Trailer {
        /// Inside length, front wall to rear door.
        inside_length: Length = Length::KIND.positive(),
        /// Inside width between the walls.
        inside_width: Length = Length::KIND.positive(),
        /// Inside height, floor to roof lining.
        inside_height: Length = Length::KIND.positive(),
        /// Hottest air in the living space.
        summer_air: Temperature,
        /// Hottest air in a roof or wall cavity.
        roof_air: Temperature,
    }
}

element! {
    /// Limits that replace those of the rule profile.
    Limits {
        /// Most voltage drop, both ways, for gear that must not dim or stop.
        drop_critical: Ratio = DROP,
        /// Most voltage drop, both ways, for other gear.
        drop_other: Ratio = DROP,
        /// Longest wire without a fuse at its source.
        unfused_length: Length,
        /// Longest wire without a fuse at its source when it runs in a sheath.
        unfused_sheathed_length: Length,
        /// Share of a fuse's rating that may flow for hours.
        continuous_share: Ratio = SHARE,
    }
}

element! {
    /// One conductor between two terminals.
    Wire placed at {
        /// The terminal it starts at, as item.terminal.
        [required] from: TerminalRef,
        /// The terminal it ends at, as item.terminal.
        [required] to: TerminalRef,
        /// Nominal size of the conductor.
        size: WireSize,
        /// Kind of insulation, by its usual short name.
        insulation: String,
        /// Whether the strands are tinned.
        tinned: bool,
        /// Length of this conductor, one way.
        length: Length = Length::KIND.positive(),
        /// Another wire whose size, insulation and way this one shares; what is given here goes first.
        like: String = ValueKind::Reference(Target::Wire),
        /// What surrounds the wire on its way.
        runs: Surrounding,
        /// Loaded conductors that run together, this one counted.
        bundle: u32 = BUNDLE,
        /// Thickness of foam on each side of the wire.
        foam_cover: Length,
        /// Whether it runs in a sheath, loom or tube from end to end.
        sheathed: bool,
        /// Hottest air round the wire, when it is known better than from the trailer.
        air: Temperature,
        /// Whether it came with the gear.
        supplied: bool,
        /// Resistance of the joint at the start.
        joint_from: Resistance,
        /// Resistance of the joint at the end.
        joint_to: Resistance,
        /// What the label on the wire says.
        label: String,
        /// Anything worth remembering.
        note: String,
    }
}

element! {
    /// A situation the wiring is computed for.
    State placed at {
        /// Name of the situation.
        label: String,
        /// How full the battery is.
        battery: BatteryState,
        /// The loads that are on; all others are off.
        on: Vec<String> = ITEMS,
        /// The loads that are off; all others are on.
        off: Vec<String> = ITEMS,
        /// The chargers that are running.
        charging: Vec<String> = ITEMS,
        /// The loads that are just starting.
        surge: Vec<String> = ITEMS,
        /// What is drawn from the inverter.
        inverter_load: Power,
    }
}
