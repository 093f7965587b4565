//! Batteries and the tow vehicle's supply.

use super::Lowering;
use crate::circuit::{Demand, defaults, given, given_or};
use crate::known::Assumption;
use crate::result::Role;
use wainwright_model::{Battery, FieldExt, VehicleSupply};
use wainwright_units::{Charge, Resistance, Voltage};

/// Capacity that stands in where none is given [Ah].
const USUAL_CAPACITY: Charge = Charge::from_ampere_hours(100.0);

pub(super) fn battery(lowering: &mut Lowering<'_>, spec: &Battery) {
    let chemistry = spec.chemistry.value().map_or("lfp", |c| c.as_str());
    let usual = defaults::chemistry(chemistry);
    let cells = f64::from(spec.cells.value().copied().unwrap_or(usual.cells));
    let id = lowering.id.as_str();
    let capacity = given_or(
        &spec.capacity,
        lowering.notes,
        &["item", id, "capacity"],
        USUAL_CAPACITY,
        Assumption::UsualForKind,
    );
    let resistance = given(&spec.resistance, None).unwrap_or_else(|| {
        let value = usual.pack_resistance(cells, capacity.value);
        lowering.notes.assume(
            &["item", id, "resistance"],
            value,
            Assumption::UsualForChemistry,
        )
    });
    let cold = usual.cold_over_typical(cells, capacity.value);
    let demand = Demand::Battery {
        nominal: usual.nominal * cells,
        weakest: resistance.value * cold,
        full: usual.full * cells,
        resting: usual.resting * cells,
        low: usual.low * cells,
        resistance: resistance.value,
    };
    lowering.consumer(("+", "-"), Role::Battery, demand);
}

pub(super) fn vehicle_supply(lowering: &mut Lowering<'_>, spec: &VehicleSupply) {
    let id = lowering.id.as_str();
    let emf = given_or(
        &spec.voltage,
        lowering.notes,
        &["item", id, "voltage"],
        Voltage::from_volts(13.8),
        Assumption::UsualForKind,
    );
    let resistance = given_or(
        &spec.resistance,
        lowering.notes,
        &["item", id, "resistance"],
        Resistance::from_milliohms(10.0),
        Assumption::Worst,
    );
    let most = spec.output_current.value().copied();
    let demand = Demand::Supply {
        emf: emf.value,
        resistance: resistance.value,
        most,
    };
    lowering.consumer(("+", "-"), Role::Source, demand);
}
