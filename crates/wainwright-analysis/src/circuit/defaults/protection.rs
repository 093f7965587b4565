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
    pub(crate) resistance: Known<Resistance>,
    pub(crate) curve: OpeningCurve,
}

/// Usual values of a device of this family and rating.
pub(crate) fn family(id: &str, rating: Current) -> FamilyDefaults {
    let family = of_id(id);
    let least = Known::computed(super::at_least_contact(Resistance::from_ohms(0.0)));
    let resistance = cold_resistance(family, rating);
    FamilyDefaults {
        volts: voltage_rating(family).map(super::table),
        resistance: resistance.map_or(least, |found| {
            super::table(found.map(super::at_least_contact))
        }),
        curve: OpeningCurve {
            gates: gates(family)
                .into_iter()
                .map(|row| gate(row.value))
                .collect(),
        },
    }
}

/// Most current a device of this family opens in a system of this voltage.
pub(crate) fn interrupt(id: &str, system: Option<Voltage>) -> Option<Known<Current>> {
    interrupt_at(of_id(id), system?).map(super::table)
}

fn of_id(id: &str) -> Family {
    Family::from_id(id).unwrap_or(Family::Blade)
}

fn gate(row: wainwright_reference::protection::Gate) -> Gate {
    Gate {
        multiple: Ratio::from_fraction(row.multiple),
        earliest: row.earliest,
        latest: row.latest,
    }
}
