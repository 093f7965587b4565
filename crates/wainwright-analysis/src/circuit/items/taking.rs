//! Loads, outlets and inverters.

use super::Lowering;
use crate::circuit::{Demand, given_or};
use crate::known::Assumption;
use crate::result::{Role, Wanted};
use wainwright_model::{FieldExt, Inverter, Load, Outlet};
use wainwright_units::{Current, Ratio, Voltage};

pub(super) fn load(lowering: &mut Lowering<'_>, spec: &Load) {
    let demand = match (
        spec.power.value(),
        spec.current.value(),
        spec.resistance.value(),
    ) {
        (Some(power), _, _) => Demand::Power(*power),
        (_, Some(current), _) => Demand::Current(*current),
        (_, _, Some(resistance)) if resistance.ohms() > 0.0 => Demand::Resistance(*resistance),
        _ => {
            let id = lowering.id.as_str();
            return lowering.notes.lack(&["item", id, "power"], Wanted::Demand);
        }
    };
    if let Some(consumer) = lowering.consumer(("+", "-"), Role::Load, demand) {
        consumer.critical = spec.critical.value().copied().unwrap_or(false);
        consumer.continuous = spec.continuous.value().copied().unwrap_or(false);
        consumer.lowest = spec.lowest_voltage.value().copied();
        consumer.surge = spec.surge.value().copied();
    }
}

pub(super) fn outlet(lowering: &mut Lowering<'_>, spec: &Outlet) {
    let id = lowering.id.as_str();
    let current = given_or(
        &spec.current,
        lowering.notes,
        &["item", id, "current"],
        Current::from_amperes(10.0),
        Assumption::UsualForKind,
    );
    let continuous = spec.continuous.value().copied().unwrap_or(false);
    if let Some(consumer) =
        lowering.consumer(("+", "-"), Role::Load, Demand::Current(current.value))
    {
        consumer.continuous = continuous;
    }
}

pub(super) fn inverter(lowering: &mut Lowering<'_>, spec: &Inverter) {
    let id = lowering.id.as_str();
    let Some(power) = spec.power.value().copied() else {
        return lowering.notes.lack(&["item", id, "power"], Wanted::Demand);
    };
    let efficiency = given_or(
        &spec.efficiency,
        lowering.notes,
        &["item", id, "efficiency"],
        Ratio::from_fraction(0.88),
        Assumption::UsualForKind,
    );
    let nominal = lowering.volts.map_or(12.8, Voltage::volts);
    let cutoff = given_or(
        &spec.low_cutoff,
        lowering.notes,
        &["item", id, "low_cutoff"],
        Voltage::from_volts(10.5 / 12.8 * nominal),
        Assumption::UsualForKind,
    );
    let surge = given_or(
        &spec.surge,
        lowering.notes,
        &["item", id, "surge"],
        power * 2.0,
        Assumption::UsualForKind,
    );
    let demand = Demand::Inverter {
        load: spec.load.value().copied().unwrap_or(power),
        surge: surge.value,
        efficiency: Ratio::from_fraction(efficiency.value.fraction().max(0.05)),
        cutoff: cutoff.value,
    };
    if let Some(consumer) = lowering.consumer(("+", "-"), Role::Inverter, demand) {
        consumer.critical = true;
        consumer.lowest = Some(cutoff.value);
    }
}
