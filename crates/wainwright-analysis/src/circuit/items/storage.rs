//! Batteries and the tow vehicle's supply.

use super::Lowering;
use crate::circuit::defaults::{self, gear};
use crate::circuit::{Demand, at_least_contact};
use crate::known::{Assumption, Basis, Known};
use crate::result::Role;
use wainwright_model::{Battery, VehicleSupply};

/// Chemistry that stands in where none is given.
const USUAL_CHEMISTRY: &str = "lfp";

pub(super) fn battery(lowering: &mut Lowering<'_>, spec: &Battery) {
    let id = lowering.id.as_str();
    let notes = &mut *lowering.notes;
    let path = ["item", id, "chemistry"];
    let chemistry = notes.word_or(&spec.chemistry, &path, |c| c.as_str(), USUAL_CHEMISTRY);
    let usual = defaults::chemistry(chemistry);
    let cells = notes.given(&spec.cells).unwrap_or_else(|| {
        let basis = Basis::Assumed(Assumption::UsualForChemistry);
        notes.assume_text(&["item", id, "cells"], usual.cells.to_string(), &basis);
        Known::new(usual.cells, basis)
    });
    let cells = f64::from(cells.value);
    let capacity = notes.given_or(
        &spec.capacity,
        &["item", id, "capacity"],
        gear::CAPACITY,
        Assumption::UsualForKind,
    );
    let resistance = notes.given_or(
        &spec.resistance,
        &["item", id, "resistance"],
        usual.pack_resistance(cells, capacity.value),
        Assumption::UsualForChemistry,
    );
    let resistance = at_least_contact(resistance.value);
    let demand = Demand::Battery {
        nominal: usual.nominal * cells,
        weakest: resistance * usual.cold_over_typical(cells, capacity.value),
        full: usual.full * cells,
        resting: usual.resting * cells,
        low: usual.low * cells,
        resistance,
        capacity: capacity.value,
    };
    lowering.consumer(("+", "-"), Role::Battery, demand);
}

pub(super) fn vehicle_supply(lowering: &mut Lowering<'_>, spec: &VehicleSupply) {
    let id = lowering.id.as_str();
    let notes = &mut *lowering.notes;
    let emf = notes.given_or(
        &spec.voltage,
        &["item", id, "voltage"],
        gear::VEHICLE_VOLTAGE,
        Assumption::UsualForKind,
    );
    let resistance = notes.given_or(
        &spec.resistance,
        &["item", id, "resistance"],
        gear::VEHICLE_RESISTANCE,
        Assumption::Worst,
    );
    let demand = Demand::Supply {
        emf: emf.value,
        resistance: at_least_contact(resistance.value),
        most: spec.output_current.as_ref().map(|given| given.value),
    };
    lowering.consumer(("+", "-"), Role::Source, demand);
}
