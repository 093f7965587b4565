//! The tables that are not items: project, trailer, vehicle, towing, limits, openings, trunks, wires, states, stock,
//! weighings.
//!
//! One declaration each; the struct, the field table and the reader come out of it. The sentences above the fields
//! are shown in the forms, so they are written for somebody who does this for the first time. Not here: item kinds
//! (`kinds`).

use crate::choices::{
    BatteryState, ColourStandard, FuseFamily, Goods, HoldAgainst, Outline, Pane, Region, Side,
    Surrounding, Suspension, Swing, TongueAdvice, UnitSystem, WeighedBy,
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
/// A length of something; a place may be negative, a length not.
const LENGTH: ValueKind = Length::KIND.positive();
/// A thickness or a distance that may be nothing.
const FROM_ZERO: ValueKind = Length::KIND.from_zero();
const MASS: ValueKind = Mass::KIND.positive();
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
        inside_length: Length = LENGTH,
        /// Inside width between the walls.
        inside_width: Length = LENGTH,
        /// Inside height, floor to roof lining.
        inside_height: Length = LENGTH,
        /// Hottest air in the living space.
        summer_air: Temperature,
        /// Hottest air in a roof or wall cavity.
        roof_air: Temperature,
        /// From the centre of the hitch ball back to the inside of the front wall.
        ball_to_front: Length = LENGTH,
        /// From the centre of the hitch ball back to the axle; with several axles, to the middle between them.
        ball_to_axle: Length = LENGTH,
        /// Number of axles.
        axles: u32 = AXLES,
        /// From one axle to the next, when there are several.
        axle_spacing: Length = LENGTH,
        /// How the axles are hung.
        suspension: Suspension,
        /// Stiffness of the springs of one axle, left and right together: force for each unit they give.
        axle_stiffness: Stiffness = Stiffness::KIND.positive(),
        /// From the middle of the left tyre to the middle of the right one.
        track: Length = LENGTH,
        /// Height of the inside floor over the ground when the trailer is level.
        floor_height: Length = LENGTH,
        /// Thickness of the walls, outer skin to inner lining.
        wall_thickness: Length = FROM_ZERO,
        /// From the ground to the centre of the wheel, laden.
        wheel_radius: Length = LENGTH,
        /// Height over the ground of the centre of the coupler's ball socket when the trailer is level.
        coupling_height: Length = LENGTH,
        /// Height over the ground of the lowest thing behind the axle.
        rear_clearance: Length = FROM_ZERO,
        /// From the middle of one rib of the wall to the middle of the next.
        rib_spacing: Length = LENGTH,
        /// How far in from the front wall the middle of the first rib is.
        first_rib: Length = FROM_ZERO,
        /// Width of a rib, where the lining touches it.
        rib_width: Length = LENGTH,
        /// How far a rib stands in from the outer skin.
        rib_depth: Length = LENGTH,
        /// Wall thickness of the metal that the ribs are bent from.
        rib_metal: Length = LENGTH,
        /// How much higher the middle of a bowed ceiling is than its edges; zero for a flat one.
        roof_rise: Length = FROM_ZERO,
        /// Mass of the bare trailer, as weighed or from its papers.
        empty_mass: Mass = MASS,
        /// Load on the ball of the bare trailer.
        empty_tongue: Mass,
        /// Height of the bare trailer's centre of gravity over the ground.
        empty_centre_height: Length = LENGTH,
        /// Most the laden trailer may weigh, by its plate.
        gross_rating: Mass = MASS,
        /// Most each axle may carry, by its plate.
        axle_rating: Mass = MASS,
        /// Most each tyre may carry at the pressure it has, by its sidewall.
        tyre_rating: Mass = MASS,
        /// Whether the tyres are those of a passenger car (marked P) and not trailer tyres (marked ST).
        passenger_tyres: bool,
        /// Heaviest trailer the coupler may be part of.
        coupling_rating: Mass = MASS,
        /// Most load the coupler may put on the ball.
        coupling_tongue_rating: Mass = MASS,
        /// The D value on the coupler's plate (European couplers).
        d_value: Force = Force::KIND.positive(),
        /// Most that may be loaded into the bare trailer, by its placard.
        cargo_rating: Mass = MASS,
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
        unfused_length: Length = FROM_ZERO,
        /// Longest wire without a fuse at its source when it runs in a sheath.
        unfused_sheathed_length: Length = FROM_ZERO,
        /// Share of a fuse's rating that may flow for hours.
        continuous_share: Ratio = SHARE,
    }
}

element! {
    /// The tow vehicle, ready to drive, without the trailer.
    Vehicle {
        /// What it is called.
        label: String,
        /// Load on its front axle, ready to drive.
        front_axle: Mass = MASS,
        /// Load on its rear axle, ready to drive.
        rear_axle: Mass = MASS,
        /// Distance between its axles.
        wheelbase: Length = LENGTH,
        /// From its rear axle back to the hitch ball.
        ball_overhang: Length = LENGTH,
        /// Height of the centre of the ball over the ground with the trailer coupled.
        ball_height: Length = LENGTH,
        /// Most it may weigh, by its plate.
        gross_rating: Mass = MASS,
        /// Most its front axle may carry, by its plate.
        front_axle_rating: Mass = MASS,
        /// Most its rear axle may carry, by its plate.
        rear_axle_rating: Mass = MASS,
        /// Heaviest trailer with brakes of its own that it may tow.
        tow_rating: Mass = MASS,
        /// Heaviest trailer without brakes that it may tow; zero for none.
        unbraked_tow_rating: Mass,
        /// Most load on the ball that it may carry.
        tongue_rating: Mass = MASS,
        /// Most that vehicle and trailer may weigh together.
        combination_rating: Mass = MASS,
        /// Heaviest trailer that receiver, mount and ball may pull; the weakest of the three counts.
        hitch_rating: Mass = MASS,
        /// Most load on the ball that receiver, mount and ball may carry; the weakest of the three counts.
        hitch_tongue_rating: Mass = MASS,
        /// Largest front of a trailer that it may tow, when its handbook gives one.
        frontal_area: Area = Area::KIND.positive(),
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
        speed: Speed = Speed::KIND.positive(),
        /// Lowest share of the trailer's mass on the ball, in place of the one advised.
        tongue_low: Ratio = SHARE,
        /// Highest share of the trailer's mass on the ball, in place of the one advised.
        tongue_high: Ratio = SHARE,
        /// Most that the loads of left and right wheels may differ by, in place of the usual one.
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
        /// Where its front left lower corner is: from the inside of the front wall backwards, from the inside of the left wall to the right, above the floor.
        spot: Spot,
        /// Its size: along the trailer, across it, up. The one that goes through the wall is zero.
        size: Extent,
        /// How it opens.
        swing: Swing,
        /// Shape of the hole.
        shape: Outline,
        /// What it is closed with.
        pane: Pane,
        /// Area that is always open, clear of mesh.
        open_area: Area,
        /// Anything worth remembering.
        note: String,
    }
}

element! {
    /// A way where wires may run: along a wall, in a tube, behind the lining.
    Trunk placed at {
        /// What it is called.
        label: String,
        /// Its two ends and the corners between them in order, each from the front wall, from the left wall, above the floor.
        [required] path: Vec<Spot>,
        /// What surrounds the wires in it.
        runs: Surrounding,
        /// Thickness of foam on each side of the wires.
        foam_cover: Length = FROM_ZERO,
        /// Hottest air in it.
        air: Temperature,
        /// What hides it and must be opened to reach it: a panel, a cabinet, the ceiling.
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
        length: Length = LENGTH,
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
        stud: Length = LENGTH,
        /// Width of the piece.
        width: Length = LENGTH,
        /// Thickness of the piece.
        thickness: Length = LENGTH,
        /// What it is made of, by the name in the list of materials.
        material: String,
        /// Mass of one piece.
        mass: Mass = MASS,
        /// Share of pieces with a fault that must be cut out.
        faulty: Ratio = SHARE,
        /// Where in the shop it stands.
        aisle: String,
        /// Price in the money of the project: of one metre of wire, of one piece of anything else.
        price: f64,
        /// Anything worth remembering.
        note: String,
    }
}

element! {
    /// A weight that was taken on a scale. Which distances and readings it needs depends on how it was taken.
    Weighing placed at {
        /// How it was taken.
        [required] by: WeighedBy,
        /// What the scale said; on a public scale use the loads of the axles below.
        reading: Mass,
        /// How far off the scale may be, either way.
        accuracy: Mass,
        /// Beam: from the support at its other end to the coupler.
        support_to_load: Length = LENGTH,
        /// Beam: from the coupler to the scale.
        load_to_scale: Length = LENGTH,
        /// Beam: what the scale says of the bare beam.
        bare: Mass,
        /// Jack: how far it stands behind the ball.
        jack_behind_ball: Length = FROM_ZERO,
        /// Public scale, coupled: front axle of the tow vehicle.
        coupled_front: Mass,
        /// Public scale, coupled: rear axle of the tow vehicle.
        coupled_rear: Mass,
        /// Public scale, coupled: all axles of the trailer together.
        coupled_trailer: Mass,
        /// Public scale, tow vehicle alone: front axle.
        alone_front: Mass,
        /// Public scale, tow vehicle alone: rear axle.
        alone_rear: Mass,
        /// What was in the trailer; everything but people when nothing is ticked.
        aboard: Vec<String> = ITEMS,
        /// Tanks that were full; all others were empty.
        full: Vec<String> = ITEMS,
        /// What it is called, such as the day and the place.
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
        /// Length of this conductor, one way; when it is not given, it follows from the places of its two ends and the route.
        length: Length = LENGTH,
        /// Another wire whose size, insulation and way this one shares; what is given here goes first.
        like: String = ValueKind::Reference(Target::Wire),
        /// What surrounds the wire on its way.
        runs: Surrounding,
        /// Loaded conductors that run together, this one counted.
        bundle: u32 = BUNDLE,
        /// Thickness of foam on each side of the wire.
        foam_cover: Length = FROM_ZERO,
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
        /// The trunks it must follow, in this order; when none is given, the shortest way is taken.
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
