//! What a family of fuses or breakers brings with it.

use crate::known::Known;
use wainwright_engines::protection::{Gate, OpeningCurve};
use wainwright_reference::protection::{
    Family, cold_resistance, gates, interrupt_at, voltage_rating,
};
use wainwright_units::{Current, Ratio, Resistance, Voltage};

/// Usual values of one device.
pub(crate) struct FamilyDefaults {
    pub(crate) volts: Option<Known<Voltage>>,
    pub(crate) interrupt: Option<Known<Current>>,
    pub(crate) resistance: Known<Resistance>,
    pub(crate) curve: OpeningCurve,
}

/// Usual values of a device of this family and rating in a system of this voltage.
pub(crate) fn family(id: &str, rating: Current, system: Option<Voltage>) -> FamilyDefaults {
    let family = Family::from_id(id).unwrap_or(Family::Blade);
    let resistance = cold_resistance(family, rating).map(super::table);
    let interrupt = system.and_then(|volts| interrupt_at(family, volts));
    FamilyDefaults {
        volts: voltage_rating(family).map(super::table),
        interrupt: interrupt.map(super::table),
        resistance: resistance
            .map(|known| Known::new(super::at_least_contact(known.value), known.basis))
            .unwrap_or(Known::computed(super::at_least_contact(
                Resistance::from_ohms(0.0),
            ))),
        curve: OpeningCurve {
            gates: gates(family)
                .into_iter()
                .map(|row| gate(row.value))
                .collect(),
        },
    }
}

fn gate(row: wainwright_reference::protection::Gate) -> Gate {
    Gate {
        multiple: Ratio::from_fraction(row.multiple),
        earliest: row.earliest,
        latest: row.latest,
    }
}
