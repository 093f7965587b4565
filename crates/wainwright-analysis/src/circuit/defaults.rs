//! Values that stand in, and published values a conductor or device brings
//! with it. The only place of this crate that picks rows from the reference
//! tables for the circuit.

mod battery;
pub(crate) mod gear;
mod limits;
mod protection;
mod wire;

pub(crate) use battery::{charge_voltage, chemistry, module_shape};
pub(crate) use limits::{limits, summer_air};
pub(crate) use protection::{family, interrupt};
pub(crate) use wire::{
    Shelf, USUAL_WIRE_METRES, WEAKEST_INSULATION, build, foam_conductivity, insulation,
    insulation_exists,
};

use crate::known::{Basis, Known};
use wainwright_reference::Sourced;
use wainwright_reference::joint::{Joint, joint_resistance};
use wainwright_units::{CrossSection, Resistance};

/// Smallest resistance of anything in the circuit \[Ω\]: below it a contact is
/// as good as a piece of copper a millimetre long, and the numbers stay sound.
const LEAST_OHMS: f64 = 1e-6;
/// From this metal area on a wire ends in a bolted lug instead of a crimp \[mm²\].
const LUG_FROM_MM2: f64 = 8.0;

/// A resistance no smaller than the circuit can carry.
pub(crate) fn at_least_contact(resistance: Resistance) -> Resistance {
    resistance.max(Resistance::from_ohms(LEAST_OHMS))
}

/// Resistance of the joint at one end of a wire of this metal area.
pub(crate) fn joint(metal: CrossSection) -> Known<Resistance> {
    usual_joint(if is_large(metal) {
        Joint::BoltedLug
    } else {
        Joint::Crimp
    })
}

/// Resistance of a switch contact by style.
pub(crate) fn contact(style: &str) -> Known<Resistance> {
    usual_joint(match style {
        "battery" => Joint::BatterySwitch,
        "relay" => Joint::Relay,
        _ => Joint::Rocker,
    })
}

/// Resistance of a usual shunt.
pub(crate) fn shunt_resistance() -> Known<Resistance> {
    usual_joint(Joint::Shunt)
}

/// Resistance between two lugs on the trailer frame: as much as a bolted lug
/// has when it becomes suspect (judgement; a sound steel frame itself has less).
pub(crate) fn frame_resistance() -> Known<Resistance> {
    match joint_resistance(Joint::BoltedLug) {
        Some(found) => table(found.map(|joint| joint.suspect)),
        None => Known::computed(Resistance::from_ohms(LEAST_OHMS)),
    }
}

/// Resistance of a splice.
pub(crate) fn splice_resistance() -> Known<Resistance> {
    usual_joint(Joint::Crimp)
}

/// Whether a joint of this metal area is a large, bolted one.
pub(crate) fn is_large(metal: CrossSection) -> bool {
    metal.square_millimetres() >= LUG_FROM_MM2
}

/// Resistance above which a joint at the end of a wire of this area is suspect.
pub(crate) fn worst_joint(metal: CrossSection) -> Resistance {
    suspect_joint(if is_large(metal) {
        Joint::BoltedLug
    } else {
        Joint::Crimp
    })
}

/// A good joint lies anywhere in a range of about four to one; its geometric
/// middle stands in. The bad end is for the smallest fault current, and a joint
/// that is worse shows when it is measured and typed.
fn usual_joint(joint: Joint) -> Known<Resistance> {
    match joint_resistance(joint) {
        Some(found) => table(found.map(|joint| {
            let middle = (joint.good_low.ohms() * joint.good_high.ohms()).sqrt();
            at_least_contact(Resistance::from_ohms(middle))
        })),
        None => Known::computed(Resistance::from_ohms(LEAST_OHMS)),
    }
}

fn suspect_joint(joint: Joint) -> Resistance {
    joint_resistance(joint).map_or(Resistance::from_ohms(LEAST_OHMS), |found| {
        found.value.suspect
    })
}

/// A table value as known.
pub(crate) fn table<T>(found: Sourced<T>) -> Known<T> {
    Known::new(found.value, Basis::Table(found.source))
}
