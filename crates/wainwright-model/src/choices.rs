//! The words a field may be chosen from.
//!
//! Not here: kinds of items (`kinds`), insulation names (a table of the reference crate decides those).

use crate::define::choices;
use wainwright_units::System;

choices! {
    /// What a battery is made of.
    Chemistry {
        /// Lithium iron phosphate with its own protection circuit.
        Lfp = "lfp",
        /// Lead-acid, absorbed in glass mat.
        Agm = "agm",
        /// Lead-acid, flooded.
        Flooded = "flooded",
        /// Lead-acid, gelled.
        Gel = "gel",
    }

    /// How a solar controller uses the modules.
    Tracking {
        /// Holds the modules at their best power point.
        Mppt = "mppt",
        /// Connects the modules straight to the battery in pulses.
        Pwm = "pwm",
    }

    /// Family of a fuse: its shape and its opening curve.
    FuseFamily {
        /// Blade.
        Blade = "blade",
        /// Small blade.
        MiniBlade = "mini-blade",
        /// Large blade.
        MaxiBlade = "maxi-blade",
        /// Small bolted strip.
        StripSmall = "strip-small",
        /// Large bolted strip.
        StripLarge = "strip-large",
        /// ANL bolted strip.
        Anl = "anl",
        /// Class T.
        ClassT = "class-t",
        /// Block that sits on a battery terminal.
        Terminal = "terminal",
        /// Glass tube.
        Glass = "glass",
    }

    /// What a breaker does after it has opened.
    Reset {
        /// Stays open until somebody resets it.
        Manual = "manual",
        /// Closes again by itself once it has cooled.
        Automatic = "automatic",
        /// Held open by its own heater until the circuit is switched off.
        Held = "held",
    }

    /// How a switch is built.
    SwitchStyle {
        /// Panel switch.
        Rocker = "rocker",
        /// Battery disconnect.
        Battery = "battery",
        /// Contact worked by a coil.
        Relay = "relay",
    }

    /// What surrounds a wire on its way.
    Surrounding {
        /// Free air, alone.
        Open = "open",
        /// Tied up with other wires.
        Bundle = "bundle",
        /// Inside foam insulation.
        Foam = "foam",
        /// In a hot roof or wall cavity.
        Cavity = "cavity",
        /// In a tube or loom.
        Conduit = "conduit",
    }

    /// How full the battery is in a state.
    BatteryState {
        /// Nearly empty: the lowest voltage.
        Low = "low",
        /// Full and on charge: the highest voltage.
        Full = "full",
        /// Full and at rest.
        Resting = "resting",
    }

    /// Units that values are shown in.
    UnitSystem {
        /// Feet, inches, pounds, degrees Fahrenheit, AWG.
        Us = "us",
        /// Metres, kilograms, degrees Celsius, square millimetres.
        Metric = "metric",
    }

    /// Which published rules the design is held against.
    Region {
        /// United States.
        Us = "US",
        /// European Union.
        Eu = "EU",
    }

    /// A side of the trailer, or of a thing in it.
    Side {
        /// Towards the tow vehicle.
        Front = "front",
        /// Away from the tow vehicle.
        Rear = "rear",
        /// Left, seen facing forwards.
        Left = "left",
        /// Right, seen facing forwards.
        Right = "right",
        /// Up: the roof.
        Roof = "roof",
        /// Down: the floor.
        Floor = "floor",
    }

    /// How a thing is fastened.
    Hold {
        /// Bolts right through, with nuts or threaded inserts in metal.
        Bolted = "bolted",
        /// Lag screws.
        Lagged = "lagged",
        /// Wood screws.
        Screwed = "screwed",
        /// Straps.
        Strapped = "strapped",
        /// Nothing holds it but its weight.
        Loose = "loose",
    }

    /// What a fastener goes into.
    Ground {
        /// The metal frame.
        Frame = "frame",
        /// Plywood.
        Plywood = "plywood",
        /// Wood of a conifer.
        Softwood = "softwood",
        /// Wood of a broad-leaved tree.
        Hardwood = "hardwood",
    }

    /// What a tank holds.
    Holds {
        /// Water for use.
        Fresh = "fresh",
        /// Water that was used.
        Grey = "grey",
        /// Waste of a toilet.
        Black = "black",
        /// Fuel.
        Fuel = "fuel",
    }

    /// How the axles are hung.
    Suspension {
        /// One axle.
        Single = "single",
        /// Several axles that share their load by a lever, as leaf springs with an equaliser do.
        Equalised = "equalised",
        /// Several axles, each on its own springs.
        Independent = "independent",
    }

    /// Whose advice on the share of the tongue is followed.
    TongueAdvice {
        /// United States.
        Us = "US",
        /// European Union.
        Eu = "EU",
        /// United Kingdom.
        Uk = "UK",
        /// Australia.
        Au = "AU",
    }

    /// What accelerations things are held against.
    HoldAgainst {
        /// Driving, by the rule for lorries.
        Road = "road",
        /// Driving, by the rule for light vans.
        Van = "van",
        /// The rule for batteries in boats.
        Boat = "boat",
        /// Three times its weight, in every direction.
        ThreeG = "three-g",
    }

    /// How an opening in a wall opens.
    Swing {
        /// Outwards on hinges.
        Out = "out",
        /// Inwards on hinges.
        In = "in",
        /// Sliding along the wall.
        Slides = "slides",
        /// A ramp that folds down.
        Ramp = "ramp",
        /// Not at all.
        Fixed = "fixed",
    }

    /// Standard that the colours of conductors follow.
    ColourStandard {
        /// American boats, ABYC E-11: plus red, minus yellow or black, bonding green or green with yellow.
        AbycE11 = "abyc-e-11",
        /// Small craft, ISO 10133: plus red, minus yellow or black.
        Iso10133 = "iso-10133",
        /// Electrical installations, IEC 60445: plus red, minus white, protective earth green with yellow.
        Iec60445 = "iec-60445",
    }

    /// What is kept in the shed or sold in a shop.
    Goods {
        /// Wire.
        Wire = "wire",
        /// Fuses.
        Fuse = "fuse",
        /// Ring terminals.
        Lug = "lug",
        /// Planks and battens.
        Plank = "plank",
        /// Sheets.
        Sheet = "sheet",
        /// Foam boards.
        Foam = "foam",
        /// Anything else.
        Other = "other",
    }

    /// What a load does that depends on the air outside.
    Job {
        /// Keeps things cold.
        Fridge = "fridge",
        /// Heats by fuel; its electricity is for fan and pump.
        Heater = "heater",
    }

    /// How air gets to the back of a solar module.
    Mounting {
        /// On legs or a stand, air all round.
        Free = "free",
        /// On feet, a hand's breadth or less over the roof.
        Raised = "raised",
        /// Glued flat to the roof.
        Glued = "glued",
    }

    /// What a device is mounted on.
    MountedOn {
        /// Through the face of a cabinet.
        Face = "face",
        /// On a board inside.
        Board = "board",
    }

    /// Shape of an opening.
    Outline {
        /// With corners.
        Square = "square",
        /// Round.
        Round = "round",
    }

    /// What an opening is closed with.
    Pane {
        /// One pane.
        Single = "single",
        /// Two panes with air between.
        Double = "double",
        /// Solid, as a door.
        Solid = "solid",
    }

    /// What kind of layer it is.
    LayerKind {
        /// The outer skin.
        Skin = "skin",
        /// Battens that what follows is screwed to.
        Battens = "battens",
        /// Foam boards, cut to fit between ribs or battens.
        Foam = "foam",
        /// Planks or boards, laid run by run.
        Planks = "planks",
        /// Sheets.
        Sheets = "sheets",
        /// A foil or a paint that holds vapour back.
        Film = "film",
        /// A layer of air.
        Air = "air",
    }

    /// The way planks and battens run.
    Run {
        /// Along the trailer.
        Along = "along",
        /// Across the trailer.
        Across = "across",
        /// Up the wall.
        Up = "up",
    }

    /// How a weight was taken.
    WeighedBy {
        /// A scale under the coupler.
        Tongue = "tongue",
        /// A beam across a bathroom scale, under the coupler.
        Beam = "beam",
        /// A scale under the jack.
        Jack = "jack",
        /// A scale under all wheels, coupled or not.
        Axle = "axle",
        /// A scale under the left wheels.
        LeftWheels = "left-wheels",
        /// A scale under the right wheels.
        RightWheels = "right-wheels",
        /// The whole trailer, uncoupled.
        Whole = "whole",
        /// Axle by axle on a public scale, with the trailer and without it.
        PublicScale = "public-scale",
    }
}

impl From<UnitSystem> for System {
    fn from(units: UnitSystem) -> Self {
        match units {
            UnitSystem::Us => Self::Us,
            UnitSystem::Metric => Self::Metric,
        }
    }
}
