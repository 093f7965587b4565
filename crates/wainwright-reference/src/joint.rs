//! Joints and contacts: usual and suspect resistance, allowed heat, allowed drop.
//!
//! Not here: the resistance of fuses themselves (`protection`) except where a joint standard value includes them.

use wainwright_units::{Power, Resistance, Voltage};

use crate::id::ids;
use crate::mark::Sourced;
use crate::store::{Topic, find};

ids! {
    /// A kind of joint, contact or element with a small resistance.
    Joint {
        /// Ring terminal bolted on a stud or bus bar.
        BoltedLug = "bolted-lug",
        /// Crimp of a small wire.
        Crimp = "crimp",
        /// 6.3 mm push-on tab.
        Tab = "tab",
        /// Both contacts of a blade fuse holder.
        BladeHolder = "blade-holder",
        /// Rocker switch of the 20 A class.
        Rocker = "rocker",
        /// Battery disconnect switch.
        BatterySwitch = "battery-switch",
        /// Relay contact of the 30 to 40 A class.
        Relay = "relay",
        /// Measuring shunt 500 A / 50 mV.
        Shunt = "shunt",
        /// Class T fuse of 200 to 300 A.
        ClassTFuse = "class-t-fuse",
        /// Protection board and leads inside a lithium pack.
        BatteryProtection = "battery-protection",
    }
}

ids! {
    /// Size class of a joint, for the heat it may give off.
    JointSize {
        /// Small terminal.
        Small = "small",
        /// Large lug.
        Large = "large",
    }
}

ids! {
    /// An element whose voltage drop workshop practice limits.
    Element {
        /// Connection of a small wire.
        SmallConnection = "small-connection",
        /// High-current connection.
        LargeConnection = "large-connection",
        /// High-current cable.
        LargeCable = "large-cable",
        /// Switch or relay contact.
        SwitchContact = "switch-contact",
    }
}

/// Usual and suspect resistance of a joint.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct JointResistance {
    /// Low end of a good joint.
    pub good_low: Resistance,
    /// High end of a good joint: the default of a solver that wants the worst of a sound build.
    pub good_high: Resistance,
    /// Above this the joint is suspect.
    pub suspect: Resistance,
}

/// Usual and suspect resistance of a kind of joint.
pub fn joint_resistance(joint: Joint) -> Option<Sourced<JointResistance>> {
    let row = find(Topic::JointResistance, "joint", joint.id())?;
    let milliohms = |column| Some(Resistance::from_milliohms(row.number(column)?));
    Some(row.sourced(JointResistance {
        good_low: milliohms("good_low")?,
        good_high: milliohms("good_high")?,
        suspect: milliohms("suspect")?,
    }))
}

/// Heat a joint may give off.
pub fn joint_heat(size: JointSize) -> Option<Sourced<Power>> {
    find(Topic::JointHeat, "size", size.id())?.quantity("watts", Power::from_watts)
}

/// Largest voltage drop across one element in workshop practice.
pub fn element_drop(element: Element) -> Option<Sourced<Voltage>> {
    find(Topic::JointDrop, "element", element.id())?.quantity("volts", Voltage::from_volts)
}
