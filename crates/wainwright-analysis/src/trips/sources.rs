//! What charges besides the sun: shore chargers, and chargers on the tow vehicle. Not here: when they run.

use crate::circuit::{Notes, usual_dcdc_efficiency};
use crate::known::Assumption;
use crate::result::{Assessment, StateKind};
use wainwright_engines::trip::{Charger, Line};
use wainwright_model::{Field, FieldExt, Id, Project, Spec, VehicleSupply};
use wainwright_reference::device_class::{Converter, alternator_voltage, efficiency};
use wainwright_units::{Current, Power, Ratio, Resistance, Voltage};

use super::bank::BankInputs;

/// Current of a charger when nobody said (judgement): a small one.
const SMALL: Current = Current::from_amperes(10.0);
/// Resistance of the charge line when nothing of it is known (judgement): ten metres of thin wire there and back.
const LINE: Resistance = Resistance::from_milliohms(60.0);
/// Lowest voltage at which a charger on the tow vehicle works, as a share of its voltage (judgement).
const LEAST_SHARE: f64 = 0.85;

/// The two sources with the items they stand for.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct SourceInputs {
    pub(super) alternator: Option<Charger>,
    pub(super) alternator_item: Option<Id>,
    pub(super) shore: Option<Charger>,
    pub(super) shore_item: Option<Id>,
}

pub(super) fn sources(
    project: &Project,
    assessment: &Assessment,
    bank: &BankInputs,
    notes: &mut Notes,
) -> SourceInputs {
    let mut found = SourceInputs {
        alternator: None,
        alternator_item: None,
        shore: None,
        shore_item: None,
    };
    let usual = |converter, otherwise: f64| {
        efficiency(converter).map_or(Ratio::from_fraction(otherwise), |row| row.value.usual)
    };
    for (id, item) in project.items.iter() {
        let name = id.as_str();
        match &item.spec {
            Spec::ShoreCharger(spec) => {
                let usual = usual(Converter::ShoreCharger, 0.88);
                let (current, share) =
                    plate(notes, name, &spec.output_current, &spec.efficiency, usual);
                let set = spec.charge_voltage.value().copied().unwrap_or(bank.full_at);
                found.shore = Some(joined(found.shore, current, set, share, None));
                found.shore_item.get_or_insert_with(|| id.clone());
            }
            Spec::DcdcCharger(spec) => {
                let usual = usual_dcdc_efficiency();
                let (current, share) =
                    plate(notes, name, &spec.output_current, &spec.efficiency, usual);
                let set = spec.charge_voltage.value().copied().unwrap_or(bank.full_at);
                let line = line(
                    project,
                    assessment,
                    name,
                    spec.lowest_input.value().copied(),
                );
                found.alternator = Some(joined(found.alternator, current, set, share, Some(line)));
                found.alternator_item.get_or_insert_with(|| id.clone());
            }
            _ => {}
        }
    }
    found
}

/// Current and efficiency of a charger, each given or standing in.
fn plate(
    notes: &mut Notes,
    name: &str,
    current: &Field<Current>,
    efficiency: &Field<Ratio>,
    usual: Ratio,
) -> (Current, Ratio) {
    let why = Assumption::UsualForKind;
    let current = notes.given_or(current, &["item", name, "output_current"], SMALL, why);
    let share = notes.given_or(efficiency, &["item", name, "efficiency"], usual, why);
    (current.value, share.value)
}

/// One charger more beside those there are.
fn joined(
    before: Option<Charger>,
    current: Current,
    set: Voltage,
    efficiency: Ratio,
    line: Option<Line>,
) -> Charger {
    match before {
        None => Charger {
            output: Power::from_watts(f64::INFINITY),
            current,
            efficiency,
            absorption: set,
            line,
        },
        Some(other) => Charger {
            current: other.current + current,
            absorption: other.absorption.max(set),
            efficiency: other.efficiency.min(efficiency),
            ..other
        },
    }
}

/// What the tow vehicle can give through its line.
fn line(project: &Project, assessment: &Assessment, charger: &str, least: Option<Voltage>) -> Line {
    let supply: Option<&VehicleSupply> =
        project.items.iter().find_map(|(_, item)| match &item.spec {
            Spec::VehicleSupply(supply) => Some(supply),
            _ => None,
        });
    let usual = alternator_voltage().map_or(Voltage::from_volts(13.8), |row| row.value.usual);
    let source = supply
        .and_then(|supply| supply.voltage.value().copied())
        .unwrap_or(usual);
    let inside = supply.and_then(|supply| supply.resistance.value().copied());
    let wires = wires(assessment, charger);
    let resistance = match (inside, wires) {
        (None, None) => LINE,
        (inside, wires) => inside.unwrap_or(Resistance::ZERO) + wires.unwrap_or(Resistance::ZERO),
    };
    Line {
        source,
        resistance,
        least: least.unwrap_or(source * LEAST_SHARE),
    }
}

/// Resistance between the vehicle and the charger's input, there and back, from the state in which all charge.
fn wires(assessment: &Assessment, charger: &str) -> Option<Resistance> {
    let state = assessment
        .states
        .iter()
        .position(|state| state.kind == StateKind::Charging)?;
    let input = assessment
        .consumers
        .iter()
        .find(|consumer| consumer.item.as_str() == charger && consumer.plus.starts_with("in"))?;
    let there = input.states.get(state)?;
    let drop = there.drop?;
    (there.amps > Current::ZERO).then(|| drop / there.amps)
}

/// Share of its voltage that a charger loses on its way to the battery, from the state in which all charge.
pub(super) fn lost_in_wire(assessment: &Assessment, charger: &str) -> Ratio {
    let state = assessment
        .states
        .iter()
        .position(|state| state.kind == StateKind::Charging);
    let share = state.and_then(|state| {
        let outputs = assessment.consumers.iter().filter(|consumer| {
            consumer.item.as_str() == charger
                && !consumer.plus.starts_with("in")
                && !consumer.plus.starts_with("pv")
        });
        outputs
            .filter_map(|consumer| consumer.states.get(state)?.drop_share)
            .reduce(Ratio::max)
    });
    share.unwrap_or(Ratio::ZERO).max(Ratio::ZERO)
}
