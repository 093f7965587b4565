//! Solar modules and the chargers.

use super::Lowering;
use crate::circuit::{Demand, defaults, given_or};
use crate::known::Assumption;
use crate::result::{Role, Wanted};
use wainwright_model::{DcdcCharger, Field, FieldExt, ShoreCharger, SolarController, SolarModule};
use wainwright_units::{Current, Ratio, Voltage};

pub(super) fn module(lowering: &mut Lowering<'_>, spec: &SolarModule) {
    let Some(demand) = module_demand(spec) else {
        let path = lowering.path("short_current").map(str::to_owned);
        return lowering
            .notes
            .lack(&path.each_ref().map(String::as_str), Wanted::Demand);
    };
    lowering.consumer(("+", "-"), Role::Source, demand);
}

/// A module's four corner values; what is missing follows from the others by
/// the usual shape of a silicon module's curve.
fn module_demand(spec: &SolarModule) -> Option<Demand> {
    let power = spec.power.value().copied();
    let short = spec.short_current.value().copied();
    let best_volts = spec.best_voltage.value().copied();
    let shape = defaults::module_shape();
    let best_amps =
        spec.best_current
            .value()
            .copied()
            .or_else(|| match (power, best_volts, short) {
                (Some(power), Some(volts), _) if volts.volts() > 0.0 => Some(power / volts),
                (_, _, Some(short)) => Some(shape.best_share_of_short * short),
                _ => None,
            })?;
    let best_volts = best_volts.or_else(|| Some(power? / best_amps))?;
    let short = short.unwrap_or(best_amps * (1.0 / shape.best_share_of_short.fraction()));
    let open = spec.open_voltage.value().copied();
    let open = open.unwrap_or(best_volts * (1.0 / shape.best_share_of_open.fraction()));
    Some(Demand::Module {
        open: open.max(best_volts * 1.001),
        short,
        best_volts,
        best_amps,
    })
}

pub(super) fn controller(lowering: &mut Lowering<'_>, spec: &SolarController) {
    lowering.consumer(("pv+", "pv-"), Role::Load, Demand::ModuleInput);
    charger(
        lowering,
        ("out+", "out-"),
        &spec.output_current,
        &spec.charge_voltage,
    );
}

pub(super) fn shore(lowering: &mut Lowering<'_>, spec: &ShoreCharger) {
    charger(
        lowering,
        ("+", "-"),
        &spec.output_current,
        &spec.charge_voltage,
    );
}

pub(super) fn dcdc(lowering: &mut Lowering<'_>, spec: &DcdcCharger) {
    let Some((limit, most)) = charger(
        lowering,
        ("out+", "out-"),
        &spec.output_current,
        &spec.charge_voltage,
    ) else {
        return;
    };
    let id = lowering.id.as_str();
    let efficiency = given_or(
        &spec.efficiency,
        lowering.notes,
        &["item", id, "efficiency"],
        Ratio::from_fraction(0.87),
        Assumption::UsualForKind,
    );
    let share = efficiency.value.fraction().max(0.05);
    let power = (limit * most) * (1.0 / share);
    lowering.consumer(("in+", "in-"), Role::Load, Demand::ChargerInput { power });
}

fn charger(
    lowering: &mut Lowering<'_>,
    pair: (&str, &str),
    current: &Field<Current>,
    voltage: &Field<Voltage>,
) -> Option<(Voltage, Current)> {
    let id = lowering.id.as_str();
    let Some(most) = current.value().copied() else {
        lowering
            .notes
            .lack(&["item", id, "output_current"], Wanted::Demand);
        return None;
    };
    let usual = defaults::charge_voltage(lowering.volts);
    let limit = given_or(
        voltage,
        lowering.notes,
        &["item", id, "charge_voltage"],
        usual,
        Assumption::UsualForChemistry,
    );
    let demand = Demand::Charger {
        limit: limit.value,
        most,
    };
    if let Some(consumer) = lowering.consumer(pair, Role::Source, demand) {
        consumer.continuous = true;
        consumer.critical = true;
    }
    Some((limit.value, most))
}
