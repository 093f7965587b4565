//! Solar modules and the chargers.

use super::Lowering;
use crate::circuit::defaults::{self, gear};
use crate::circuit::{Demand, Notes};
use crate::known::Assumption;
use crate::result::{Role, Wanted};
use wainwright_model::{DcdcCharger, Field, FieldExt, ShoreCharger, SolarController, SolarModule};
use wainwright_units::{Current, Voltage};

pub(super) fn module(lowering: &mut Lowering<'_>, spec: &SolarModule) {
    let id = lowering.id.as_str();
    match module_demand(lowering.notes, id, spec) {
        Some(demand) => {
            lowering.consumer(("+", "-"), Role::Source, demand);
        }
        None => lowering
            .notes
            .lack(&["item", id, "short_current"], Wanted::Demand),
    }
}

/// A module's four corner values; what is missing follows from the others by
/// the usual shape of a silicon module's curve.
fn module_demand(notes: &mut Notes, id: &str, spec: &SolarModule) -> Option<Demand> {
    let power = spec.power.value().copied();
    let short = spec.short_current.value().copied();
    let open = spec.open_voltage.value().copied();
    let shape = defaults::module_shape();
    let usual = Assumption::UsualForKind;
    let path = |field| ["item", id, field];
    let volts = spec.best_voltage.value().copied();
    let volts = volts.or_else(|| match (power, spec.best_current.value()) {
        (Some(power), Some(amps)) => Some(power / *amps),
        _ => None,
    });
    let volts = volts.or_else(|| {
        let value = open? * shape.best_share_of_open.fraction();
        Some(notes.assume(&path("best_voltage"), value, usual).value)
    });
    let amps = spec.best_current.value().copied();
    let amps = amps.or_else(|| match (power, volts) {
        (Some(power), Some(volts)) => Some(power / volts),
        _ => None,
    });
    let amps = amps.or_else(|| {
        let value = short? * shape.best_share_of_short.fraction();
        Some(notes.assume(&path("best_current"), value, usual).value)
    })?;
    let volts = volts.or_else(|| Some(power? / amps))?;
    let short = notes.given_or(
        &spec.short_current,
        &path("short_current"),
        amps * (1.0 / shape.best_share_of_short.fraction()),
        usual,
    );
    let open = notes.given_or(
        &spec.open_voltage,
        &path("open_voltage"),
        volts * (1.0 / shape.best_share_of_open.fraction()),
        usual,
    );
    Some(Demand::Module {
        // A curve cannot rise towards its end, whatever was typed.
        open: open.value.max(volts * 1.001),
        short: short.value,
        best_volts: volts,
        best_amps: amps,
    })
}

/// The modules work at their best point whatever the controller's method: a
/// controller without tracking takes within 7 % of the same current.
pub(super) fn controller(lowering: &mut Lowering<'_>, spec: &SolarController) {
    lowering.consumer(("pv+", "pv-"), Role::Load, Demand::ModuleInput);
    let fields = (&spec.output_current, &spec.charge_voltage);
    charger(lowering, ("out+", "out-"), fields);
}

pub(super) fn shore(lowering: &mut Lowering<'_>, spec: &ShoreCharger) {
    let fields = (&spec.output_current, &spec.charge_voltage);
    charger(lowering, ("+", "-"), fields);
}

pub(super) fn dcdc(lowering: &mut Lowering<'_>, spec: &DcdcCharger) {
    let fields = (&spec.output_current, &spec.charge_voltage);
    let Some((limit, most)) = charger(lowering, ("out+", "out-"), fields) else {
        return;
    };
    let id = lowering.id.as_str();
    let efficiency = lowering.notes.given_or(
        &spec.efficiency,
        &["item", id, "efficiency"],
        gear::DCDC_EFFICIENCY,
        Assumption::UsualForKind,
    );
    let share = efficiency.value.fraction().max(gear::LEAST_EFFICIENCY);
    let power = (limit * most) * (1.0 / share);
    lowering.consumer(("in+", "in-"), Role::Load, Demand::ChargerInput { power });
}

/// The giving side of a charger: its voltage limit and its largest current.
fn charger(
    lowering: &mut Lowering<'_>,
    pair: (&str, &str),
    (current, voltage): (&Field<Current>, &Field<Voltage>),
) -> Option<(Voltage, Current)> {
    let id = lowering.id.as_str();
    let Some(most) = current.value().copied() else {
        lowering
            .notes
            .lack(&["item", id, "output_current"], Wanted::Demand);
        return None;
    };
    let limit = lowering.notes.given_or(
        voltage,
        &["item", id, "charge_voltage"],
        defaults::charge_voltage(lowering.volts),
        Assumption::UsualForChemistry,
    );
    let limit = limit.value;
    let consumer = lowering.consumer(pair, Role::Source, Demand::Charger { limit, most })?;
    consumer.continuous = true;
    consumer.critical = true;
    Some((limit, most))
}
