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
}

impl From<UnitSystem> for System {
    fn from(units: UnitSystem) -> Self {
        match units {
            UnitSystem::Us => Self::Us,
            UnitSystem::Metric => Self::Metric,
        }
    }
}
