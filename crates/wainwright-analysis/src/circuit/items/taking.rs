//! Loads, outlets and inverters.

use super::Lowering;
use crate::circuit::defaults::gear;
use crate::circuit::{Demand, at_least_contact};
use crate::known::Assumption;
use crate::result::{Role, Wanted};
use wainwright_model::{FieldExt, Inverter, Load, Outlet};
use wainwright_units::{Power, Ratio};

pub(super) fn load(lowering: &mut Lowering<'_>, spec: &Load) {
    let given = (
        spec.power.value(),
        spec.current.value(),
        spec.resistance.value(),
    );
    let demand = match given {
        (Some(power), _, _) => Demand::Power(*power),
        (_, Some(current), _) => Demand::Current(*current),
        (_, _, Some(resistance)) => Demand::Resistance(at_least_contact(*resistance)),
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
    let current = lowering.notes.given_or(
        &spec.current,
        &["item", id, "current"],
        gear::OUTLET,
        Assumption::UsualForKind,
    );
    let demand = Demand::Current(current.value);
    if let Some(consumer) = lowering.consumer(("+", "-"), Role::Load, demand) {
        consumer.continuous = spec.continuous.value().copied().unwrap_or(false);
    }
}

pub(super) fn inverter(lowering: &mut Lowering<'_>, spec: &Inverter) {
    let id = lowering.id.as_str();
    let (volts, notes) = (lowering.volts, &mut *lowering.notes);
    let Some(power) = spec.power.value().copied() else {
        return notes.lack(&["item", id, "power"], Wanted::Demand);
    };
    let usual = Assumption::UsualForKind;
    let path = |field| ["item", id, field];
    let efficiency = notes.given_or(
        &spec.efficiency,
        &path("efficiency"),
        gear::INVERTER_EFFICIENCY,
        usual,
    );
    let cutoff = notes.given_or(
        &spec.low_cutoff,
        &path("low_cutoff"),
        gear::inverter_cutoff(volts),
        usual,
    );
    let surge = notes.given_or(
        &spec.surge,
        &path("surge"),
        gear::inverter_surge(power),
        usual,
    );
    // Its full power is the worst that can be plugged in for long.
    let load = notes.given_or(&spec.load, &path("load"), power, Assumption::Worst);
    let idle = spec.idle_current.value().copied();
    let demand = Demand::Inverter {
        load: load.value,
        surge: surge.value,
        idle: idle.map_or(Power::from_watts(0.0), |amps| {
            volts.unwrap_or(gear::SYSTEM) * amps
        }),
        efficiency: Ratio::from_fraction(efficiency.value.fraction().max(gear::LEAST_EFFICIENCY)),
        cutoff: cutoff.value,
    };
    if let Some(consumer) = lowering.consumer(("+", "-"), Role::Inverter, demand) {
        consumer.critical = true;
        consumer.lowest = Some(cutoff.value);
    }
}
