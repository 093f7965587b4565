//! The tables that are not items: project, trailer, limits, wires, states.
//!
//! One declaration each; the struct, the field table and the reader come out of it. Not here: item kinds
//! (`kinds`).

use crate::choices::{
    BatteryState, ColourStandard, FuseFamily, Goods, HoldAgainst, Region, Side, Surrounding,
    Suspension, Swing, TongueAdvice, UnitSystem, WeighedBy,
};
use crate::define::element;
use crate::place::TerminalRef;
use crate::schema::{Target, ValueKind};
use crate::spot::{Extent, Spot};
use crate::value::FieldValue;
use wainwright_units::{
    Area, Current, Force, Length, Mass, Power, Ratio, Resistance, Speed, Stiffness, Temperature,
    WireSize,
};

/// Most wires in one bundle that a form offers.
const BUNDLE: ValueKind = ValueKind::Integer { low: 1, high: 200 };
/// Nothing of it up to all of it.
const SHARE: ValueKind = Ratio::KIND.within(0.0, 1.0, &["80 %", "0.8"]);
/// A drop of a tenth is already far more than any rule allows; half is certainly a slip.
const DROP: ValueKind = Ratio::KIND.within(0.0, 0.5, &["3 %", "10 %"]);
const AXLES: ValueKind = ValueKind::Integer { low: 1, high: 3 };
const COUNT: ValueKind = ValueKind::Integer {
    low: 0,
    high: 100_000,
};
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
        /// Standard that the colours of new conductors follow.
        colours: ColourStandard,
        /// The money prices are in, as it is written beside a sum.
        currency: String,
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
        /// From the centre of the hitch ball back to the inside of the front wall.
        ball_to_front: Length,
        /// From the centre of the hitch ball back to the axle; to the middle of several axles.
        ball_to_axle: Length = Length::KIND.positive(),
        /// Number of axles.
        axles: u32 = AXLES,
        /// From one axle to the next.
        axle_spacing: Length = Length::KIND.positive(),
        /// How the axles are hung.
        suspension: Suspension,
        /// Stiffness of the springs of one axle.
        axle_stiffness: Stiffness,
        /// From the middle of the left tyre to the middle of the right one.
        track: Length = Length::KIND.positive(),
        /// Height of the floor over the ground.
        floor_height: Length,
        /// Thickness of the walls, skin to lining.
        wall_thickness: Length,
        /// From the ground to the centre of the wheel.
        wheel_radius: Length = Length::KIND.positive(),
        /// Height of the coupler's ball socket over the ground when the trailer is level.
        coupling_height: Length,
        /// Height over the ground of the lowest thing behind the axle.
        rear_clearance: Length,
        /// From one rib of the wall to the next.
        rib_spacing: Length = Length::KIND.positive(),
        /// Mass of the bare trailer.
        empty_mass: Mass = Mass::KIND.positive(),
        /// Load on the ball of the bare trailer.
        empty_tongue: Mass,
        /// Height of the bare trailer's centre of gravity over the ground.
        empty_centre_height: Length,
        /// Most the laden trailer may weigh.
        gross_rating: Mass,
        /// Most each axle may carry.
        axle_rating: Mass,
        /// Most each tyre may carry at its pressure.
        tyre_rating: Mass,
        /// Whether the tyres are made for passenger cars.
        passenger_tyres: bool,
        /// Most the coupler may pull.
        coupling_rating: Mass,
        /// Most the coupler may carry.
        coupling_tongue_rating: Mass,
        /// The coupler's D value.
        d_value: Force,
        /// Most that may be added, by the placard.
        cargo_rating: Mass,
        /// Whether it has brakes of its own.
        brakes: bool,
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
    /// The tow vehicle, ready to drive, without the trailer.
    Vehicle {
        /// What it is called.
        label: String,
        /// Load on its front axle.
        front_axle: Mass,
        /// Load on its rear axle.
        rear_axle: Mass,
        /// Distance between its axles.
        wheelbase: Length = Length::KIND.positive(),
        /// From its rear axle back to the hitch ball.
        ball_overhang: Length,
        /// Height of the ball over the ground, loaded.
        ball_height: Length,
        /// Most it may weigh.
        gross_rating: Mass,
        /// Most its front axle may carry.
        front_axle_rating: Mass,
        /// Most its rear axle may carry.
        rear_axle_rating: Mass,
        /// Heaviest trailer with brakes.
        tow_rating: Mass,
        /// Heaviest trailer without brakes.
        unbraked_tow_rating: Mass,
        /// Most load on the ball.
        tongue_rating: Mass,
        /// Most for vehicle and trailer together.
        combination_rating: Mass,
        /// Most the receiver, mount and ball may pull.
        hitch_rating: Mass,
        /// Most the receiver, mount and ball may carry.
        hitch_tongue_rating: Mass,
        /// Largest front of a trailer that it may tow.
        frontal_area: Area,
        /// Share of the front axle's lost load that weight distribution bars bring back.
        bars_restore: Ratio = SHARE,
    }
}

element! {
    /// How the trailer is driven, and what it is held against.
    Towing {
        /// Whose advice on the share of the tongue is followed.
        advice: TongueAdvice,
        /// Speed the journey is planned at.
        speed: Speed,
        /// Lowest share of the trailer's mass on the ball.
        tongue_low: Ratio = SHARE,
        /// Highest share of the trailer's mass on the ball.
        tongue_high: Ratio = SHARE,
        /// Most that left and right wheels may differ by.
        side_difference: Mass,
        /// What accelerations things are held against.
        hold_against: HoldAgainst,
    }
}

element! {
    /// An opening in a wall: door, window, vent.
    Opening placed at {
        /// What it is called.
        label: String,
        /// The wall it is in.
        [required] wall: Side,
        /// Its front left lower corner: from the front wall, from the left wall, above the floor.
        spot: Spot,
        /// Its size: along the trailer, across it, up; nothing through the wall.
        size: Extent,
        /// How it opens.
        swing: Swing,
        /// Anything worth remembering.
        note: String,
    }
}

element! {
    /// A way where wires may run: along a wall, in a tube, behind the lining.
    Trunk placed at {
        /// What it is called.
        label: String,
        /// Its corners, each from the front wall, from the left wall, above the floor.
        [required] path: Vec<Spot>,
        /// What surrounds the wires in it.
        runs: Surrounding,
        /// Thickness of foam on each side of the wires.
        foam_cover: Length,
        /// Hottest air in it.
        air: Temperature,
        /// What hides it: a panel, a cabinet, a ceiling.
        behind: String,
        /// Anything worth remembering.
        note: String,
    }
}

element! {
    /// What is in the shed already, or what it costs.
    Stock placed at {
        /// What it is.
        [required] of: Goods,
        /// What it is called.
        label: String,
        /// How many there are.
        count: u32 = COUNT,
        /// Length of each piece there is.
        length: Length = Length::KIND.positive(),
        /// Size of the wire, or of the wire a lug is for.
        size: WireSize,
        /// Insulation of the wire.
        insulation: String,
        /// Colour.
        colour: String,
        /// Family of the fuse.
        family: FuseFamily,
        /// Rating of the fuse.
        rating: Current,
        /// Stud the lug is for.
        stud: Length,
        /// Width of the piece.
        width: Length,
        /// Thickness of the piece.
        thickness: Length,
        /// Price of one more: of a metre of wire, of a piece of anything else.
        price: f64,
        /// Anything worth remembering.
        note: String,
    }
}

element! {
    /// A weight that was taken.
    Weighing placed at {
        /// How it was taken.
        [required] by: WeighedBy,
        /// What the scale said.
        reading: Mass,
        /// How far off the scale may be, either way.
        accuracy: Mass,
        /// Beam: from its support to the coupler.
        support_to_load: Length,
        /// Beam: from the coupler to the scale.
        load_to_scale: Length,
        /// Beam: what the scale says of the bare beam.
        bare: Mass,
        /// Jack: how far behind the ball.
        jack_behind_ball: Length,
        /// Public scale, coupled: front axle of the tow vehicle.
        coupled_front: Mass,
        /// Public scale, coupled: rear axle of the tow vehicle.
        coupled_rear: Mass,
        /// Public scale, coupled: axles of the trailer.
        coupled_trailer: Mass,
        /// Public scale, tow vehicle alone: front axle.
        alone_front: Mass,
        /// Public scale, tow vehicle alone: rear axle.
        alone_rear: Mass,
        /// What was in the trailer; everything but people when nothing is said.
        aboard: Vec<String> = ITEMS,
        /// Tanks that were full; all others were empty.
        full: Vec<String> = ITEMS,
        /// What the label of the weighing says: the day, the place.
        label: String,
        /// Anything worth remembering.
        note: String,
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
        /// Colour of the insulation.
        colour: String,
        /// The trunks it must follow, in this order.
        route: Vec<String> = ValueKind::List(&ValueKind::Reference(Target::Trunk)),
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
